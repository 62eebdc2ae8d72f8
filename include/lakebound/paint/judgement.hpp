#pragma once
// Judgement: the one answer to "will it hold, and how sure is that?", which text, JSON, page and exit
// status read.
//
//   x = ln(true k / k), known as a NormalMixture;   P(k < limit) = P(x < ln(limit/k))
//   in the window = 1 - P(k < green_low) - P(k > green_high)
// The verdict says where k itself lies (verdict.hpp). It is `sure` when the chance that the film does the
// opposite is under one in ten (a rule of this library): of a paint said to hold the chance of leaving
// the amber limits on either side, of one said to fail the chance that it does not fail on that side.

#include "lakebound/estimate/normal_mixture.hpp"
#include "lakebound/export.hpp"
#include "lakebound/paint/objection.hpp"
#include "lakebound/paint/verdict.hpp"
#include "lakebound/quantity/word_table.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct WindowChances {
    Probability underbound;  ///< k < 1: air in the film
    Probability below_amber; ///< fails under
    Probability below_green; ///< all that lies left of the window
    Probability in_window;   ///< green_low to green_high
    Probability above_green; ///< all that lies right of it
    Probability above_amber; ///< fails over
};

/// Chances of a paint whose best estimate is k, doubt being that of ln(true k / k).
/// Throws DomainError unless k and the limits of the window are above 0.
[[nodiscard]] WindowChances window_chances(BinderSufficiency k, const NormalMixture& doubt, const SufficiencyWindow& window);

/// The k at which landing in the window is likeliest. Closed form where the doubt is normal, else by golden
/// section, to 2e-4. Depends on the window and the doubt alone. Errors as above.
[[nodiscard]] BinderSufficiency likeliest_aim(const NormalMixture& doubt, const SufficiencyWindow& window);

/// The k nearest to `from` at which the chance of missing the window is at most `accepted`, 0 to 1: `from` itself
/// when it is so there, and the likeliest aim when it is so nowhere. To 1e-9. Errors as above.
[[nodiscard]] BinderSufficiency nearest_aim(BinderSufficiency from, const NormalMixture& doubt, const SufficiencyWindow& window,
                                            Probability accepted);

enum class Certainty { sure, doubtful };
template <> struct WordTable<Certainty> {
    static constexpr WordRow<Certainty> rows[] = {
        {Certainty::sure, "sure"},
        {Certainty::doubtful, "doubtful"},
    };
};

struct Judgement {
    BinderSufficiency k;   ///< that is judged
    Verdict verdict;       ///< of k
    Certainty certainty;   ///< of the verdict
    bool holds;            ///< false: the answer is that this will not hold, by its k or by an objection
    std::vector<Objection> objections; ///< whatever its k, the gravest first
    WindowChances chances; ///< of the true k
    /// Where landing in the window is likeliest, and how likely it is there.
    BinderSufficiency likeliest_aim;
    Probability in_window_there;
};

/// Errors as window_chances.
[[nodiscard]] Judgement judge(BinderSufficiency k, const NormalMixture& doubt, const SufficiencyWindow& window,
                                            std::vector<Objection> objections = {});

/// The objection that is said in place of the verdict: the gravest, unless k alone fails and the paint would
/// bind. nullptr where there is none.
[[nodiscard]] const Objection* said_first(const Judgement& judgement) noexcept;

} // namespace lakebound
