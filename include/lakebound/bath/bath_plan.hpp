#pragma once
// A bath sheet: from what is at hand to the jar, worked out before the stove is lit.
//
// Everything is that of its own topic (liquor, solution, precipitation, gas, titration, washing, composition); here they
// are put in the order of the work. Ranges are nine in ten. Refused where the vessel is too small, and for aluminium
// acetate and lime, whose bath the topics do not know.
// Example: docs/examples/lay_a_lake.cpp.

#include <optional>
#include <vector>

#include "lakebound/bath/bath_composition.hpp"
#include "lakebound/bath/caution.hpp"
#include "lakebound/bath/gas.hpp"
#include "lakebound/bath/laking_habits.hpp"
#include "lakebound/bath/solution.hpp"
#include "lakebound/bath/titration.hpp"
#include "lakebound/bath/wash_habits.hpp"
#include "lakebound/export.hpp"
#include "lakebound/quantity/word_table.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct PlantLot {
    Mass mass{};
    bool fresh = false;
    PlantPart part = PlantPart::root;
};

/// What the maker has and wants. Of aluminium salt, lake and plant one at least says how much.
struct BathWish {
    std::optional<PlantLot> plant;
    Salt aluminium;
    std::optional<Mass> aluminium_mass;
    std::optional<Mass> lake;            ///< wanted in the jar
    Salt alkali;
    std::optional<Volume> water;         ///< on the plant, in all; without a plant the liquor at hand
    std::optional<unsigned> pulls;
    std::optional<Volume> pot;           ///< in which the plant is warmed
    std::optional<Volume> vessel;        ///< in which the lake is laid
    std::optional<Strength> strength;    ///< of both solutions
    std::optional<Time> foam_life;
    std::optional<HydroxideBelief> hydroxides; ///< the maker's own
    std::size_t end_points = 0;          ///< of baths of the maker's own, that this was learned from
};

enum class AmountBy { salt, lake, plant }; ///< what said how much
template <> struct WordTable<AmountBy> {
    static constexpr WordRow<AmountBy> rows[] = {
        {AmountBy::salt, "salt"},
        {AmountBy::lake, "lake"},
        {AmountBy::plant, "plant"},
    };
};
struct MassRange { Mass low, middle, high; };
/// What a bath reads with a tenth more alkali than the books' hydroxide wants.
struct OverByTenth {
    Ph fizzing, at_rest;
};

struct BathPlan {
    BathWish wish;
    AmountBy by = AmountBy::salt;
    std::optional<Mass> plant_dry;
    std::vector<Pull> pulls;             ///< none without a plant
    std::optional<Volume> pot_needed;    ///< for one pull
    bool more_pulls_for_pot = false;     ///< the pot took more pulls than usual
    Volume liquor{};                     ///< strained
    Mass aluminium{};
    MadeUp aluminium_solution, alkali_solution; ///< the second holds the high end
    std::optional<bool> alkali_dissolves; ///< cold, at 20 degC; nothing: not known
    std::optional<bool> aluminium_dissolves;
    MassRange alkali{};                  ///< to the stop
    Mass book_alkali{};                  ///< for Al(OH)3
    Volume first_portion{};              ///< of the solution
    Volume middle_volume{}, high_volume{};
    Mass aluminium_for_ten_millilitres{}; ///< aluminium salt that uses up 10 mL of alkali solution too much
    double half_measure_excess = 0.0;    ///< of half as much alkali solution as aluminium solution, against the book
    PhRange stop;
    PhDifference rests_within;           ///< readings in a row of a bath at rest
    Temperature heat_limit{};            ///< of the dye liquor: a caution
    Volume liquid{};                     ///< all in the vessel
    Volume vessel_least{}, vessel_good{};
    std::optional<Volume> headspace;     ///< of the vessel named, else of the good one
    std::optional<FoamPlan> foam;        ///< nothing where no gas comes
    std::vector<TitrationPoint> hydroxide_curve, basic_curve; ///< at rest; none for chalk
    std::optional<OverByTenth> over_by_tenth; ///< none for chalk
    Mass salts{};                        ///< dissolved when all is laid
    WeightPerVolume salts_strength{};
    DecantWash wash{};
    unsigned washes = 0;
    Volume wash_water{};
    std::optional<LakeExpectation> lake;
    std::optional<LakeEstimate> lake_inputs; ///< of alumina, for chalk too: what else is in it and its doubts
    std::optional<ChalkLake> chalk;
    std::vector<BathCaution> cautions;
};

/// 4 096 draws of the lake by a fixed seed; titration curves of 41 points.
/// Errors: DomainError: nothing says how much; no aluminium salt or alkali; acetate or lime; a vessel below what liquor and
/// foam need, with the size that does; a pot that the plant fills even in six pulls; too little water for the plant.
[[nodiscard]] BathPlan plan_bath(const BathWish& wish, const LakingHabits& laking, const WashHabits& washing);

/// Hydroxides per aluminium before any end point of one's own: those of the habits for a salt with sulphate, of which the
/// lake keeps some; the books' 3 where there is none to keep (estimate), with the same doubt.
[[nodiscard]] HydroxideBelief usual_hydroxides(const Salt& aluminium, const LakingHabits& laking);

/// The titration that a plan stands on.
[[nodiscard]] Titration titration_of(const BathPlan& plan);

} // namespace lakebound
