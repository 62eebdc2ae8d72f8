#pragma once
// Quick check: what a maker can be told from quantities typed at once, with no file behind them.
//
// k = e V_b/(m_p q) and the verdict need the pigment mass, its oil absorption and the binder; density
// cancels. PVC needs the density but no oil absorption; CPVC, reduced PVC and porosity need both. What
// cannot be answered is listed with what it waits for, never guessed. Formulas: pvc.hpp.

#include <optional>
#include <span>
#include <string>
#include <variant>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/paint/pvc.hpp"
#include "lakebound/paint/verdict.hpp"
#include "lakebound/quantity/word_table.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// One binder as it was measured out.
struct QuickBinder {
    std::string name;
    std::variant<Mass, Volume> amount;                 ///< as supplied, above 0
    MassFraction non_volatile = MassFraction::of(1.0); ///< what stays, above 0
    std::optional<MassDensity> density;                ///< as supplied
    std::optional<MassDensity> solids_density;         ///< of what stays; density when all of it stays
};

/// Dry volume of one binder. All of it stays: the volume itself, or mass / density. Part of it stays:
/// mass * non_volatile / solids_density, a volume first becoming a mass by the density.
/// Throws DomainError for an amount or a share that is not above 0, and for a density that is needed
/// and not given: it names which.
[[nodiscard]] Volume dry_binder_volume(const QuickBinder& binder);

struct QuickQuestion {
    Mass pigment; ///< above 0
    std::optional<OilAbsorption> oil_absorption;
    MassDensity test_oil{}; ///< of the rub-out; above 0 where the oil absorption is known
    std::optional<MassDensity> pigment_density;              ///< as weighed
    std::vector<QuickBinder> binders;                        ///< one at least
    BinderIndex binder_index = BinderIndex::of(1.0);
    std::optional<SufficiencyWindow> window; ///< of the family, for the verdict
};

enum class QuickAnswer { k, verdict, binder_balance, pvc, cpvc, reduced_pvc, porosity };
enum class QuickNeed { oil_absorption, pigment_density, family };
template <> struct WordTable<QuickNeed> {
    static constexpr WordRow<QuickNeed> rows[] = {
        {QuickNeed::oil_absorption, "oil absorption"},
        {QuickNeed::pigment_density, "pigment density"},
        {QuickNeed::family, "family"},
    };
};
/// An answer that is missing and one thing it waits for; an answer may wait for two.
struct Unanswered {
    QuickAnswer answer;
    QuickNeed needs;
};

struct QuickCheck {
    Volume dry_binder; ///< V_b
    std::optional<BinderSufficiency> k;
    std::optional<Verdict> verdict;
    std::optional<Volume> spare_binder; ///< V_b - m_p q/e: what is over the CPVC, negative when short; 0 within 1e-9 of it
    std::optional<PigmentVolumeConcentration> pvc;
    std::optional<CriticalPigmentVolumeConcentration> cpvc;
    std::optional<ReducedPigmentVolumeConcentration> reduced_pvc;
    std::optional<VolumeFraction> porosity;
    std::vector<Unanswered> unanswered;
};

/// Throws DomainError for a pigment mass that is not above 0, no binder at all, or a binder as above.
[[nodiscard]] QuickCheck quick_check(const QuickQuestion& question);

} // namespace lakebound
