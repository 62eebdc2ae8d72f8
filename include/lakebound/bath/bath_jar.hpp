#pragma once
// The jar that comes out of a bath: how much, how damp, how dense, what is still in it, and where each figure is from.
//
// Everything is computed from the bath or weighed; nothing is promised of colour. A weighed moisture and a weighed jar
// take the place of what was expected. The structs are those of the rooms above and of this one; the shelf writes them.

#include <optional>
#include <string>
#include <vector>

#include "lakebound/bath/bath_composition.hpp"
#include "lakebound/bath/wash_habits.hpp"
#include "lakebound/export.hpp"
#include "lakebound/material/keeping.hpp"
#include "lakebound/material/lake_remains.hpp"
#include "lakebound/material/pigment.hpp"
#include "lakebound/quantity/word_table.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// A salt as it went into the pot.
struct SaltPoured {
    std::string salt; ///< by its full name, hydrate and all
    Mass mass;
};

/// How a bath ended, as far as it was read.
struct BathEnd {
    LakeEstimate lake;                    ///< as planned or learned; its water and salts give way to what was read
    std::vector<SaltPoured> poured;
    bool laid_with_chalk = false;
    std::optional<ChalkLake> chalk;       ///< then: what came down
    std::optional<WashOutlook> washed;    ///< by the last decant's reading
    std::optional<DryingOutlook> dried;   ///< by the weighings
    std::optional<Estimate<Ph>> ph;                  ///< of the lake stirred up in water
    ColourRecord colour;                             ///< as it was written down
    std::optional<Estimate<Mass>> weighed;           ///< what is in the jar
    std::optional<Estimate<MassFraction>> moisture;  ///< by drying a sample
};

/// What to know of the jar beyond its figures, the gravest first.
enum class JarRemark {
    still_wet,        ///< it was not at rest when it was weighed: it moulds, and its figures are not its own
    stuck,            ///< at rest above where it should be: damp inside
    chalk_laid,       ///< another pigment: gypsum and chalk, not proof against acid
    salts_unread,     ///< no pen was in the last water
    salts_for_paint,  ///< more salts than most paint bears
    salts_for_oil,    ///< more than oil and tubes bear
    hard_wash_water,  ///< the wash water itself leaves more than half of what is allowed
    alkaline,         ///< hue shifts, oil turns to soap
    benzoate_dead,    ///< more likely than not
    sorbate_dead,
    ph_unread,
    less_than_expected, ///< below nine in ten
    more_than_expected, ///< above: kept sulphate, water, or salts
    moisture_unweighed, ///< the density's doubt is mostly that of the water
};
template <> struct WordTable<JarRemark> {
    static constexpr WordRow<JarRemark> rows[] = {
        {JarRemark::still_wet, "still wet"},
        {JarRemark::stuck, "stuck"},
        {JarRemark::chalk_laid, "chalk laid"},
        {JarRemark::salts_unread, "salts unread"},
        {JarRemark::salts_for_paint, "salts for paint"},
        {JarRemark::salts_for_oil, "salts for oil"},
        {JarRemark::hard_wash_water, "hard wash water"},
        {JarRemark::alkaline, "alkaline"},
        {JarRemark::benzoate_dead, "benzoate dead"},
        {JarRemark::sorbate_dead, "sorbate dead"},
        {JarRemark::ph_unread, "ph unread"},
        {JarRemark::less_than_expected, "less than expected"},
        {JarRemark::more_than_expected, "more than expected"},
        {JarRemark::moisture_unweighed, "moisture unweighed"}};
};

struct BathJar {
    LakeExpectation expected;        ///< with the moisture and salts that were read
    Estimate<Mass> net_mass;         ///< weighed, else expected
    MoistureState state = MoistureState::as_weighed; ///< of mass and density alike
    Estimate<MassFraction> moisture;
    Estimate<MassFraction> salts;    ///< soluble, over those of the wash water
    Estimate<MassDensity> density;   ///< with `moisture` in it
    std::optional<Estimate<Ph>> ph;
    ColourRecord colour;
    std::optional<Probability> benzoate_dead, sorbate_dead; ///< where the pH was read
    std::vector<JarRemark> remarks;
    std::string provenance; ///< "computed from the bath: 50 g potassium alum dodecahydrate, 14 g soda ash"
};

/// Errors: DomainError, as expected_lake and chalk_lake_parts; a chalk-laid lake without what came down.
[[nodiscard]] BathJar jar_from(const BathEnd& end, const WashHabits& habits);

} // namespace lakebound
