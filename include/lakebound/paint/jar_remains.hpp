#pragma once
// Jar remains: what a paint makes of the salts and the pH that the bath left in its jar: whether its preservative lives,
// whether salts come out of it, whether alkali harms it.
//
//   dead   P(active share of the preservative < limit), the pH that of the lake stirred up in water (material/keeping.hpp)
//   salts  P(jar's share of the pigment x salts of the lake > what this kind of paint bears)
//   alkali P(pH > limit)
// A lake of alumina holds its pH against a gum, which by itself is sour, pH 4.5 to 5: what gum and vinegar of a medium
// add of acid is left out, so that the chances of a dead preservative and of alkali are high rather than low (estimate).
// Other pigments of a blend count as free of salts and of alkali: chalk and ultramarine are not (common practice).
// Source: definition of pKa, as material/keeping.hpp; the limits lie on the shelf with their origin.

#include <optional>
#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/material/keeping.hpp"
#include "lakebound/material/lake_remains.hpp"
#include "lakebound/paint/recipe.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// What of a paint the remains of its lake can spoil.
struct PreservativePart {
    std::string ingredient, name; ///< id, and as a person says it
    PreservativeAcid acid{};
    bool in_paint = true; ///< false: it is at hand, and might be added
};
struct PaintOfLake {
    Process process = Process::watercolour;
    bool in_tube = false; ///< a gum paint that is filled wet
    MassFraction share;   ///< of the jar in the pigment, above 0
    std::vector<PreservativePart> preservatives;
};
/// Those of its medium and its additives, then those at hand, each once; of a paint that shuns water only its own.
/// vessel: it is filled into; none is no tube.
[[nodiscard]] PaintOfLake paint_of_lake(const Recipe& recipe, MassFraction share, const Vessel* vessel,
                                        const std::vector<PreservativePart>& at_hand = {});
/// The same of a medium alone, for all of the pigment.
[[nodiscard]] PaintOfLake paint_of_lake(const Medium& medium, Process process, const std::vector<PreservativePart>& at_hand = {});
/// As one that is at hand; nothing of an ingredient that works as no such acid.
[[nodiscard]] std::optional<PreservativePart> preservative_at_hand(const Ingredient& ingredient);

struct PreservativeInPaint {
    PreservativePart part;
    Share active;     ///< at the best estimate of the pH
    Probability dead; ///< chance that less than the limit is
};
struct SaltsInPaint {
    MassFraction of_pigment; ///< best estimate
    MassFraction borne;      ///< by this kind of paint
    Probability too_many;
};
/// What follows where a figure is known; empty where the jar has neither.
struct JarRemains {
    std::vector<PreservativeInPaint> preservatives;
    std::optional<SaltsInPaint> salts;
    std::optional<Probability> alkaline;
};
/// Errors: DomainError, share of the jar 0.
[[nodiscard]] JarRemains jar_remains(const PaintOfLake& paint, const LakeRemains& lake, const LakeLimits& limits);

} // namespace lakebound
