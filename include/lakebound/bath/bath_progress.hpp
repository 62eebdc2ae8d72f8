#pragma once
// Where a bath stands, what to do next, and what is still in doubt: the readings so far, folded.
//
// From straining to the jar, whichever readings there are; the latest kind says how far it has come. Each answer is
// that of its own topic (filtration, titration, washing, drying); here they are put in order. Rules of the stop: a
// bath that fizzes is not read; at rest are two readings in a row that agree; too little alkali is mended by a first
// portion of what is missing, too much by aluminium salt. A bath with chalk has no pH model: it is done when it no longer
// fizzes and is no longer sour, and no pen tells when its gypsum is washed out.

#include <optional>
#include <string>
#include <vector>

#include "lakebound/bath/bath_composition.hpp"
#include "lakebound/bath/caution.hpp"
#include "lakebound/bath/colour_left.hpp"
#include "lakebound/bath/gas.hpp"
#include "lakebound/bath/titration.hpp"
#include "lakebound/bath/wash_habits.hpp"
#include "lakebound/export.hpp"
#include "lakebound/particle/zone_settling.hpp"
#include "lakebound/quantity/word_table.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct PhSeen {
    Ph ph = Ph::of(7.0);
    PhMeans means = PhMeans::strip;
    bool fizzing = false; ///< gas was still rising
};

/// What was read at the pot, the filter, the pen and the scale, each in order.
struct BathReadings {
    std::vector<FilterReading> filter;  ///< of the liquor, since pouring
    std::optional<Volume> to_filter;    ///< all of it
    std::vector<Mass> alkali;           ///< portions poured, as the salt in them
    std::vector<Mass> aluminium;        ///< salt added against too much alkali
    std::vector<PhSeen> ph;             ///< since the last portion of either
    std::optional<Time> foam_life;      ///< a spoonful's foam has fallen after this
    std::optional<PenReading> wash_water;
    std::optional<InterfaceHeights> blanket; ///< of the lake that sinks now
    std::optional<ColourMatch> colour;  ///< of the clear liquor, before it is drawn off
    std::vector<PenReading> decants;    ///< the water drawn off after each wash
    std::vector<DryingWeighing> weighings;
    std::string hue;                    ///< of the lake in the maker's words; nothing is reckoned with it
    std::optional<unsigned> swatch;     ///< number of the swatch that shows it
    bool jarred = false;
};

/// What is known of the bath from its plan.
struct BathSetting {
    Titration bath;
    HydroxideBelief hydroxides;         ///< per aluminium: the maker's own, else the shelf's
    PhRange stop;                       ///< at which to stop
    Volume dye_liquor{};                ///< strained, before alum
    Volume headspace{};
    Temperature warmth{};               ///< of the liquor when alkali goes in
    Share foam_fill;                    ///< of the headspace, that foam may take
    LakeEstimate lake;
    std::optional<ChalkLake> chalk;     ///< where it is laid with chalk: by another rule, without pH model or pen
    DissolvedSalts salts;               ///< in the liquor
    Estimate<Volume> bed, filled;       ///< of a wash
    ConductivityPen pen;
    Instrument<Mass> scale{};
    WashHabits habits;
    unsigned planned_washes = 0;        ///< by the plan, before any pen told
    Length height_read_to{};            ///< standard uncertainty of a blanket's height on a glass
    Share decant_within;                ///< of its end height above it, when the water is drawn off
};

enum class BathStage { planned, straining, laying, washing, drying, at_rest, jarred };
template <> struct WordTable<BathStage> {
    static constexpr WordRow<BathStage> rows[] = {
        {BathStage::planned, "planned"},
        {BathStage::straining, "straining"},
        {BathStage::laying, "laying"},
        {BathStage::washing, "washing"},
        {BathStage::drying, "drying"},
        {BathStage::at_rest, "at rest"},
        {BathStage::jarred, "jarred"},
    };
};

enum class BathStep {
    begin,              ///< nothing has been read
    read_filter_again,  ///< one reading tells no finish
    let_it_run,
    fold_second_paper,  ///< more likely than not it saves more than it costs
    pour_alkali,        ///< none or too little yet
    stir_and_read,      ///< it fizzes, or was read once only
    pour_rest_by_drops, ///< short by the pH: a first portion of what is missing, wait, read
    add_aluminium,      ///< too much alkali
    look_at_the_salt,   ///< this pH cannot be: the hydrate, the mass or the pen is another
    settle_and_wash,
    let_it_sink,        ///< the blanket says when to draw off the water
    read_wash_water,    ///< a decant says nothing without it
    wash_again,
    wash_with_pure_water, ///< the wash water itself leaves too much
    drain_and_dry,
    weigh_tomorrow,     ///< too few weighings, or an even rate yet
    keep_drying,
    weigh_once_more,    ///< by its forecast it is dry by now
    break_the_cake,     ///< stuck
    jar_it,
    in_its_jar,         ///< its record goes on as the jar's
};
template <> struct WordTable<BathStep> {
    static constexpr WordRow<BathStep> rows[] = {
        {BathStep::begin, "begin"},
        {BathStep::read_filter_again, "read filter again"},
        {BathStep::let_it_run, "let it run"},
        {BathStep::fold_second_paper, "fold second paper"},
        {BathStep::pour_alkali, "pour alkali"},
        {BathStep::stir_and_read, "stir and read"},
        {BathStep::pour_rest_by_drops, "pour rest by drops"},
        {BathStep::add_aluminium, "add aluminium"},
        {BathStep::look_at_the_salt, "look at the salt"},
        {BathStep::settle_and_wash, "settle and wash"},
        {BathStep::let_it_sink, "let it sink"},
        {BathStep::read_wash_water, "read wash water"},
        {BathStep::wash_again, "wash again"},
        {BathStep::wash_with_pure_water, "wash with pure water"},
        {BathStep::drain_and_dry, "drain and dry"},
        {BathStep::weigh_tomorrow, "weigh tomorrow"},
        {BathStep::keep_drying, "keep drying"},
        {BathStep::weigh_once_more, "weigh once more"},
        {BathStep::break_the_cake, "break the cake"},
        {BathStep::jar_it, "jar it"},
        {BathStep::in_its_jar, "in its jar"},
    };
};

enum class BathDoubt {
    fizzing_reads_low, ///< by 1 to 2.5 units
    read_once,         ///< pH not yet known to be at rest
    hydroxides_unknown, ///< what alkali this bath wants is known to some per cent only
    salts_trapped,     ///< washes keep more than the volumes say: the bed is not stirred up, or salt sits in flocs
    salts_rose,        ///< the last decant holds more than the one before: unstirred before, or mistyped
    gypsum_on_the_pen, ///< of a lake laid with chalk no pen tells when it is washed
    chalk_is_slow,     ///< it may fizz again when it is stirred
    water_unread,      ///< of the wash water
    if_drained,        ///< the salts left are those of a cake drained on paper; a whole bed left to dry keeps more
    unlike_the_bath,   ///< the cake comes to rest far from what the bath lets expect: tare, loss, or another salt
    end_open,          ///< nine in ten ends of drying lie further apart than a fifth of the end
};
template <> struct WordTable<BathDoubt> {
    static constexpr WordRow<BathDoubt> rows[] = {
        {BathDoubt::fizzing_reads_low, "fizzing reads low"},
        {BathDoubt::read_once, "read once"},
        {BathDoubt::hydroxides_unknown, "hydroxides unknown"},
        {BathDoubt::salts_trapped, "salts trapped"},
        {BathDoubt::salts_rose, "salts rose"},
        {BathDoubt::gypsum_on_the_pen, "gypsum on the pen"},
        {BathDoubt::chalk_is_slow, "chalk is slow"},
        {BathDoubt::water_unread, "water unread"},
        {BathDoubt::if_drained, "if drained"},
        {BathDoubt::unlike_the_bath, "unlike the bath"},
        {BathDoubt::end_open, "end open"},
    };
};

/// How much lower a fizzing bath reads than the same bath at rest: computed (equilibrium.hpp, 1 atm of gas against the
/// open air, from a tenth to a half too much soda).
inline constexpr PhDifference fizzing_reads_low_by_least = PhDifference::of(1.0), fizzing_reads_low_by_most = PhDifference::of(2.5);

struct AlkaliStanding {
    Mass poured;
    Mass needed, needed_low, needed_high; ///< nine in ten, by what is believed of the hydroxides
    double hydroxides_poured = 0.0;       ///< per aluminium
    std::optional<PhRange> ph;             ///< at rest, by the last reading: its doubt, or how low a fizzing bath reads
    PhDifference read_to;                  ///< standard uncertainty of the last pH, where it was read at rest or on the way there
    bool at_rest = false;                  ///< two readings in a row, not fizzing, that agree
    std::optional<PhRange> possible;       ///< for what was poured
    std::optional<Mass> pour_now;          ///< first portion of what is missing
    std::optional<Mass> add_aluminium;     ///< aluminium salt against too much
    std::optional<FoamPlan> foam;          ///< of what is still to be poured
    /// With this end point learned, once the stop is reached.
    std::optional<HydroxideBelief> learned;
};

/// A blanket that sinks: when, after its first reading, the water can be drawn off.
struct SinkingStanding {
    Time draw_off, low;
    std::optional<Time> high; ///< nothing: it may not have begun to slow
    Length blanket;           ///< its height then
};

/// What a second laying would take.
struct SecondBath {
    SecondLaying laying;
    Mass aluminium, alkali; ///< of the salts of the first
};

struct BathStanding {
    BathReadings readings; ///< that it stands on
    MassFraction salts_allowed;
    BathStage stage = BathStage::planned;
    BathStep next = BathStep::begin;
    std::vector<BathDoubt> doubts;
    std::optional<FilterOutlook> filter;
    std::optional<AlkaliStanding> alkali;
    std::optional<SinkingStanding> sinking;
    std::optional<SecondBath> second;    ///< where the colour left was read
    std::optional<SaltsInWater> water;   ///< of the last decant
    std::optional<KeptByReading> kept;   ///< by the last two
    std::optional<WashOutlook> washed;
    std::optional<unsigned> washes_by_plan;  ///< still to come once the lake is laid, before a pen told
    std::optional<DryingForecast> dry_after; ///< of washing, before it was weighed: by what is usual
    std::optional<DryingOutlook> dried;
    LakeExpectation expected;
    CoverageInterval to_expect_kg; ///< in the jar, nine in ten: by the weighings where they tell, else by the bath
};

/// Hue and swatch as they were written down, and the pH at which the bath came to rest, where it did.
[[nodiscard]] ColourRecord colour_written_down(const BathStanding& standing);

/// Of the cautions of a bath those of its stage, in their order.
[[nodiscard]] std::vector<BathCaution> cautions_at(BathStage stage, const std::vector<BathCaution>& all);

/// Errors: DomainError of the topics: readings out of order, a decant below its wash water, weighings that rise.
[[nodiscard]] BathStanding bath_standing(const BathReadings& readings, const BathSetting& setting);

} // namespace lakebound
