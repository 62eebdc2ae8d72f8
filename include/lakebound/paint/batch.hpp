#pragma once
// Batch: a paint sized to an amount. `size_batch` answers "what can I make of this jar, what do I weigh?"
//
// Everything is linear in the pigment mass but the fixed slab loss, the reserve and whole vessels.
// Example: docs/examples/size_a_batch.cpp.

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "lakebound/estimate/normal_mixture.hpp"
#include "lakebound/export.hpp"
#include "lakebound/material/bench_practice.hpp"
#include "lakebound/paint/bench.hpp"
#include "lakebound/paint/filling.hpp"
#include "lakebound/paint/formulation.hpp"
#include "lakebound/paint/jar_remains.hpp"
#include "lakebound/paint/loss.hpp"
#include "lakebound/paint/objection.hpp"
#include "lakebound/paint/recipe.hpp"
#include "lakebound/paint/verdict.hpp"
#include "lakebound/paint/weighing.hpp"
#include "lakebound/quantity/word_table.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct VesselCount {
    Vessel vessel;
    int count = 1; ///< 1 or more
};
/// All of the jar but the reserve of the bench.
struct WholeJar {};

/// How much to make: a total pigment mass, vessels to fill after the loss, or the jar.
using BatchAmount = std::variant<Mass, VesselCount, WholeJar>;

/// The jar that one of the recipe's pigments comes from.
struct JarOnHand {
    std::size_t pigment = 0; ///< index in the recipe's pigments
    Mass net_mass;
    LakeRemains remains{};   ///< what its bath left in it
};

/// What is at hand of a pigment, an ingredient or a ready medium.
struct Stock {
    std::string id;
    Mass mass;
};

/// A pigment that was measured out by its tapped volume, with what that leaves in doubt.
struct BulkPigment {
    std::size_t pigment = 0; ///< index in the recipe's pigments
    Estimate<MassDensity> tapped_density;
};

struct BatchRequest {
    Recipe recipe;
    BatchAmount amount = WholeJar{};
    std::optional<Aim> aim;       ///< overrides the recipe's
    std::optional<Vessel> vessel; ///< to be filled; the one of the amount or of the recipe when absent
    Bench bench;
    std::optional<JarOnHand> jar; ///< needed by WholeJar
    std::vector<Stock> stocks;
    BenchPractice practice;             ///< how far home work scatters, from the shelf
    std::optional<LakeLimits> lake_limits; ///< from the shelf; without, nothing is said of what the jar's bath left
    std::vector<PreservativePart> preservatives; ///< of the shelf, that might be added
    std::vector<BulkPigment> by_volume; ///< pigments of a paint that was spooned, not weighed
    /// What a record of the jar leaves open of ln(true k / k) in this binder, all but the weighing of this batch. It
    /// stands in place of what the figures say one by one. Only of a paint of one pigment, else a DomainError.
    std::optional<NormalMixture> learned_doubt;
    /// Standard deviation of ln of the medium's amount where it was spooned; 0 when it was weighed.
    double medium_spooned = 0.0;
};

/// One line of the batch: a pigment, a part of the medium, an additive.
struct BatchLine {
    std::string id, name;
    Mass mass;                    ///< as supplied
    std::optional<Volume> volume; ///< when liquid
    bool counts_as_binder = false;
};

/// What runs out first: factor = min over stocks of stock / need.
struct LimitingStock {
    std::string id;
    double factor = 0.0; ///< times this batch that the stocks would make
    Mass needed, available;
};

/// The amount asked for is more than the jar or the stocks hold. Of a whole jar with nothing above its
/// reserve, `needed` is the reserve and `available` what is in the jar.
struct Shortfall {
    std::string id;         ///< of what runs out
    Mass needed, available; ///< of that, for the amount asked for; of a jar, after the reserve
    Mass pigment_wanted;    ///< total pigment of the amount asked for
    Mass pigment_possible;  ///< of the largest batch that fits; 0 when none does
    std::optional<int> vessels_wanted, vessels_possible;
};

struct WatercolourExtras {
    std::optional<double> plasticiser_ratio; ///< P; the family has a guide
    /// All liquid on the slab over the liquid that just fills the pigment, k / x for a medium of dry
    /// binder share x and no water: a stiff paste (factor 1) of a gum medium is always underbound.
    double liquid_factor = 0.0;
    bool fluid = false; ///< that is above NoticeFrom::fluid_paint: as fluid as cream, as it ought to be
    // At the humidity of the bench (material/sorption.hpp):
    VolumeFraction soft_share; ///< of the binder with the water it holds
    SoftPhase soft_phase = SoftPhase::good;
    PigmentVolumeConcentration pvc_in_room; ///< with that water counted as binder
    /// Where the soft share is above the family's good_to: the plasticiser ratio that would bring it
    /// down to there in this room; absent as well where no medium of these parts could.
    std::optional<double> plasticiser_ratio_for_room;
};
struct OilExtras {
    MediumPerPigment oil_per_pigment; ///< all binder of the paint, g/g, like a published paint figure
    /// Film after the oil has shrunk by the least and by the most that the family has; wax does not shrink.
    FilmState cured_low, cured_high;
};
struct TemperaExtras {
    Mass yolk;
    Volume yolk_volume;
    double eggs_exact = 0.0;       ///< at what one egg usually gives; 0 where its ingredient does not say
    int eggs = 0;                  ///< to open: enough at the least that one gives
    double medium_per_paste = 0.0; ///< g of medium to 1 g of pigment with its working water
    Time medium_keeps;             ///< as the family has it; after that, a new yolk
    bool paint_same_session = true;
};

enum class WarningKind {
    film_holds_air,      ///< value: porosity; limit: 0
    plasticiser_low,     ///< value: P; limit: the least of the family
    plasticiser_high,    ///< value: P; limit: the most of the family
    below_scale_minimum, ///< too little to weigh, and no stock of it fits; value, limit: grams
    medium_part_below_minimum, ///< the same of a part of a medium mixed fresh: mix more (WeighSheet::least_medium)
    weighed_in_portions, ///< value: grams; limit: grams that the scale carries
    rounding_shifts_k,   ///< value: |dk/k|; limit: from where it is told
    powder_damp,         ///< value: grams of excess water; limit: its share of the powder weighed
    dose_unusual,        ///< value: dose of the medium; limit: the usual dose
    loss_large,          ///< value: share lost; limit: from where it is told
    all_lost,            ///< the slab takes the whole batch; value: grams; limit: grams lost
    no_vessel_filled,    ///< value: vessels, below 1; limit: 1
    reserve_not_kept,    ///< value: grams left in the jar; limit: grams of reserve
    // By what the bath left in the jar (jar_remains.hpp):
    preservative_dead,   ///< value: chance; limit: pH of the lake
    salts_bloom,         ///< value: chance; limit: share of the pigment that such a paint bears
    salts_in_oil,        ///< the same
    salts_in_tube,       ///< the same
    alkali_shifts_hue,   ///< value: chance; limit: pH
    alkali_makes_soap,   ///< the same
};
template <> struct WordTable<WarningKind> {
    static constexpr WordRow<WarningKind> rows[] = {
        {WarningKind::film_holds_air, "film holds air"},
        {WarningKind::plasticiser_low, "plasticiser low"},
        {WarningKind::plasticiser_high, "plasticiser high"},
        {WarningKind::below_scale_minimum, "below scale minimum"},
        {WarningKind::medium_part_below_minimum, "medium part below minimum"},
        {WarningKind::weighed_in_portions, "weighed in portions"},
        {WarningKind::rounding_shifts_k, "rounding shifts k"},
        {WarningKind::powder_damp, "powder damp"},
        {WarningKind::dose_unusual, "dose unusual"},
        {WarningKind::loss_large, "loss large"},
        {WarningKind::all_lost, "all lost"},
        {WarningKind::no_vessel_filled, "no vessel filled"},
        {WarningKind::reserve_not_kept, "reserve not kept"},
        {WarningKind::preservative_dead, "preservative dead"},
        {WarningKind::salts_bloom, "salts bloom"},
        {WarningKind::salts_in_oil, "salts in oil"},
        {WarningKind::salts_in_tube, "salts in tube"},
        {WarningKind::alkali_shifts_hue, "alkali shifts hue"},
        {WarningKind::alkali_makes_soap, "alkali makes soap"},
    };
};
struct BatchWarning {
    WarningKind kind{};
    std::string subject; ///< id of the pigment, ingredient or vessel concerned; may be empty
    double value = 0.0, limit = 0.0;
};

struct Batch {
    Aim aim;
    Formulation formulation;
    Composition composition; ///< exact masses
    Mass pigment;            ///< total, before the loss
    std::vector<BatchLine> pigments;
    Mass medium;
    Volume medium_volume;                ///< as mixed
    std::vector<BatchLine> medium_parts; ///< to mix just this much fresh
    std::vector<BatchLine> additives;
    Mass working_water;
    Volume working_water_volume;
    Mass paint;                ///< all of it
    MassDensity paint_density; ///< wet
    PaintVolumes volumes;      ///< before the loss
    FilmState film;            ///< exact; sheet.film is that of the rounded masses
    Verdict verdict{};         ///< of the exact k
    std::vector<Objection> objections; ///< what stands against it whatever its k, the gravest first
    Mass excess_water;                 ///< in the powder, beyond the air-dry state: weighed, no pigment
    Mass loss;                 ///< pigment that stays on the slab
    Share loss_share;
    std::optional<Filling> filling;        ///< when a vessel is named
    std::optional<Mass> left_in_jar;       ///< reserve included
    std::optional<LimitingStock> limiting; ///< when a jar or stocks are given
    WeighSheet sheet;
    std::optional<WatercolourExtras> watercolour;
    std::optional<OilExtras> oil;
    std::optional<TemperaExtras> tempera;
    std::optional<JarRemains> remains; ///< where the jar's salts or pH are known
    std::vector<BatchWarning> warnings;
};

struct BatchAnswer {
    std::optional<Shortfall> shortfall; ///< present: what was asked for cannot be made
    /// The batch asked for or, when short, the largest that fits (whole vessels when vessels were
    /// asked for and one at least fits); absent when nothing can be made.
    std::optional<Batch> batch;
};

/// Sizes a batch. An amount that fits only by eating the reserve of the jar is answered with a warning;
/// the largest batch that fits keeps the reserve. Throws DomainError for a request that has no meaning (no
/// pigment, shares that do not sum to 1, WholeJar without a jar, a vessel count below 1, a bench without
/// scale); a jar too small is an answer, not an error.
[[nodiscard]] BatchAnswer size_batch(const BatchRequest& request);

/// True for the warnings by what the bath left in the jar.
[[nodiscard]] constexpr bool is_of_remains(WarningKind kind) noexcept { return kind >= WarningKind::preservative_dead; }
/// Those of the remains whose chance is worth a warning, in the order of the kinds.
[[nodiscard]] std::vector<BatchWarning> remains_warnings(const JarRemains& remains, const PaintOfLake& paint, const LakeRemains& lake,
                                                         const LakeLimits& limits);

/// One batch of a total pigment mass above 0, whatever the stocks.
[[nodiscard]] Batch batch_of(const BatchRequest& request, Mass pigment);

} // namespace lakebound
