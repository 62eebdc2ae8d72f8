#include "lakebound/record/studio_card.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <random>

#include "lakebound/quantity/error.hpp"
#include "record/stated_priors.hpp"

using namespace lakebound;
using namespace lakebound::test;
using lakebound::test::Bench; // not the bench of a batch

namespace {

using namespace std::chrono;
const sys_days first = 2026y / May / 1, today = 2026y / June / 30;

JarStart jar_start(const char* id) { return {id, 0, grams_per_100_grams(reference_oil_absorption), first, {}, {}}; }

template <class What> Entry entry(const char* id, int day, What what, const char* jar = "weld") {
    return {id, jar, first + days(day), std::move(what)};
}
PaintMade paint(double k, double powder = 0.2) {
    return {gum, BinderSufficiency::of(k), swatch_spread, {}, grams(powder), grams(0.01), true};
}

/// Weighed, rubbed out, two swatches, a batch that held in use.
std::vector<Entry> lived() {
    return {entry("a", 0, WeighedEntry{grams(40), grams(0.1)}),
            entry("b", 1, RubOutEntry{grams_per_100_grams(78), 0.0, grams(2)}),
            entry("c", 2, SwatchEntry{paint(1.20), PaintSign::chalks}),
            entry("d", 3, SwatchEntry{paint(1.35), PaintSign::does_not_chalk}),
            entry("e", 4, BatchEntry{paint(1.80, 6.0)}),
            entry("f", 20, OutcomeEntry{"e", PaintSign::holds})};
}
StudioCard fold(const std::vector<Entry>& entries) {
    const std::vector starts{jar_start("weld"), jar_start("madder")};
    return studio_card(starts, entries, today);
}
std::vector<std::pair<Contradiction, std::size_t>> faults(const StudioCard& card) {
    std::vector<std::pair<Contradiction, std::size_t>> list;
    for (const auto& f : card.faults)
        list.emplace_back(f.kind, f.entry);
    return list;
}

} // namespace

TEST_CASE("what is left of a jar, and what taught", "[unit]") {
    const auto card = fold(lived());
    CHECK(card.faults.empty());
    const JarCard& weld = card.jars[0];
    // By hand: 40 - 2 - .2 - .2 - 6 = 31.6 g; squares .1, .01, .01, .01: .10149.
    CHECK(in_grams(weld.left.value()) == Approx(31.6).epsilon(1e-12));
    CHECK(in_grams(weld.uncertainty) == Approx(std::sqrt(0.01 + 3 * 0.0001)).epsilon(1e-12));
    CHECK(weld.left_from == std::vector<std::size_t>{0, 1, 2, 3, 4});
    CHECK(weld.losses.empty());
    CHECK(!card.jars[1].left);
    CHECK(weld.outcomes == std::vector<std::size_t>{5});

    // The same as a record put together by hand.
    Bench bench = Bench().rub_out({78}).chalks({1.20}).does_not({1.35});
    bench.trial(1.80, PaintOutcome::holds);
    bench.record.trials.back().in_use = true;
    const auto by_hand = bench.belief(stated_world()).critical();
    const auto folded = learned_demand(stated_world(), card.record, {0, gum, {}}).critical();
    CHECK(folded.mean() == Approx(by_hand.mean()).margin(1e-9));
    CHECK(folded.standard_deviation() == Approx(by_hand.standard_deviation()).margin(1e-9));
}

TEST_CASE("a weighing takes the place of what was reckoned, and finds what is missing", "[unit]") {
    auto entries = lived();
    entries.push_back(entry("g", 30, WeighedEntry{grams(31.0), grams(0.1)}));
    auto card = fold(entries);
    CHECK(in_grams(card.jars[0].left.value()) == Approx(31.0));
    REQUIRE(card.jars[0].losses.size() == 1); // .6 g, sd .1425: 4.2
    CHECK(in_grams(card.jars[0].losses[0].mass) == Approx(0.6).epsilon(1e-9));
    CHECK(card.jars[0].losses[0].in_spreads() == Approx(0.6 / std::sqrt(0.0203)).epsilon(1e-9));
    CHECK(card.jars[0].losses[0].entry == 6);
    CHECK(card.jars[0].left_from == std::vector<std::size_t>{6});
    entries.back() = entry("g", 30, WeighedEntry{grams(31.4), grams(0.1)}); // 1.4 sd: nothing to say
    CHECK(fold(entries).jars[0].losses.empty());
    // Weighed after all on the day of its first draw: days count, not the order of the list.
    entries.back() = entry("0", 0, WeighedEntry{grams(50), grams(0.1)});
    CHECK(in_grams(fold(entries).jars[0].left.value()) == Approx(31.6));
}

TEST_CASE("the order of the list does not matter", "[identity]") {
    auto entries = lived();
    entries.push_back(entry("g", 10, ChangedEntry{}));
    entries.push_back(entry("h", 12, RubOutEntry{grams_per_100_grams(90), 0.0, grams(2)}));
    entries.push_back(entry("i", 13, SwatchEntry{paint(1.3), PaintSign::chalks}, "madder"));
    const auto known = learned_demand(stated_world(), fold(entries).record, {0, gum, {}}).critical();
    CHECK(fold(entries).record.jars[0].changes == 1);
    CHECK(fold(entries).record.rub_outs.back().changes == 1);
    CHECK(fold(entries).record.trials.back().changes == 0); // the batch was made before the change
    std::mt19937 shuffler(3);
    for (int i = 0; i < 5; ++i) {
        std::shuffle(entries.begin(), entries.end(), shuffler);
        const auto card = fold(entries);
        CHECK(in_grams(card.jars[0].left.value()) == Approx(29.6).epsilon(1e-12));
        const auto again = learned_demand(stated_world(), card.record, {0, gum, {}}).critical();
        CHECK(again.mean() == Approx(known.mean()).margin(1e-12));
        CHECK(again.standard_deviation() == Approx(known.standard_deviation()).margin(1e-12));
    }
}

TEST_CASE("an undo is as if it had never been", "[identity]") {
    auto entries = lived();
    const auto before = fold(entries);
    entries.push_back(entry("x", 5, SwatchEntry{paint(3.0), PaintSign::chalks}));
    CHECK(fold(entries).record.trials.size() == before.record.trials.size() + 1);
    entries.push_back(entry("y", 6, UndoEntry{"x"}, ""));
    const auto after = fold(entries);
    CHECK(after.faults.empty());
    CHECK(after.record.trials.size() == before.record.trials.size());
    CHECK(in_grams(after.jars[0].left.value()) == Approx(31.6).epsilon(1e-12));
    // Of two outcomes the later one counts.
    entries.push_back(entry("z", 25, OutcomeEntry{"e", PaintSign::chalks}));
    const auto chalked = fold(entries);
    REQUIRE(chalked.record.trials.size() == 3);
    CHECK(chalked.record.trials.back().outcome == PaintOutcome::lean);
    CHECK(chalked.record.trials.back().in_use);
}

TEST_CASE("entries that contradict are told with both places", "[errors]") {
    using enum Contradiction;
    using Faults = std::vector<std::pair<Contradiction, std::size_t>>;
    const auto with = [](Entry further) {
        auto entries = lived();
        entries.push_back(std::move(further));
        return fold(entries);
    };
    CHECK(faults(with(entry("g", 5, ChangedEntry{}, "indigo"))) == Faults{{unknown_jar, 6}});
    CHECK(faults(with(entry("g", -1, ChangedEntry{}))) == Faults{{before_its_jar, 6}});
    CHECK(faults(with(entry("g", 61, ChangedEntry{}))) == Faults{{in_the_future, 6}});
    CHECK(faults(with(entry("g", 60, ChangedEntry{}))).empty());
    const auto twice = with(entry("c", 7, ChangedEntry{}));
    CHECK(faults(twice) == Faults{{same_id, 6}});
    CHECK(twice.faults[0].other == 2u);
    CHECK(faults(with(entry("g", 7, OutcomeEntry{"a", PaintSign::chalks}))) == Faults{{unknown_paint, 6}});
    CHECK(faults(with(entry("g", 7, OutcomeEntry{"e", PaintSign::chalks}, "madder"))) == Faults{{unknown_paint, 6}});
    CHECK(faults(with(entry("g", 7, UndoEntry{"q"}))) == Faults{{unknown_entry, 6}});
    const auto beyond = with(entry("g", 7, DrawnEntry{grams(32), grams(0.1)}));
    CHECK(faults(beyond) == Faults{{drawn_beyond_all, 6}});
    CHECK(beyond.faults[0].other == 0u); // the weighing
    CHECK(in_grams(beyond.jars[0].left.value()) == Approx(0.0).margin(1e-12));
    // Within the doubt of both it is the rest of the jar.
    CHECK(faults(with(entry("g", 7, DrawnEntry{grams(31.8), grams(0.1)}))).empty());
    CHECK_THROWS_AS(with(entry("g", 7, DrawnEntry{grams(-1), grams(0)})), DomainError);
    const std::vector starts{jar_start("weld"), jar_start("weld")};
    CHECK_THROWS_AS(studio_card(starts, {}, today), DomainError);
}

TEST_CASE("a jar begins with what its file says", "[unit]") {
    auto start = jar_start("weld");
    start.net = WeighedEntry{grams(30), grams(0.5)};
    start.oil_absorption = StatedOilAbsorption{grams_per_100_grams(80), 0.12};
    const std::vector starts{jar_start("madder"), start};
    auto entries = std::vector<Entry>{entry("a", 1, DrawnEntry{grams(4), grams(0.1)})};
    const auto card = studio_card(starts, entries, today);
    CHECK(card.faults.empty());
    CHECK(in_grams(card.jars[1].left.value()) == Approx(26));
    CHECK(in_grams(card.jars[1].uncertainty) == Approx(std::hypot(0.5, 0.1)));
    CHECK(card.jars[1].from_its_file);
    CHECK(card.jars[1].stated_oil_absorption);
    CHECK_FALSE(card.jars[0].stated_oil_absorption);
    CHECK_FALSE(card.jars[0].left.has_value());
    REQUIRE(card.record.rub_outs.size() == 1);
    CHECK(card.record.rub_outs[0].jar == 1);
    CHECK(card.record.rub_outs[0].changes == 0);
    CHECK(in_grams_per_100_grams(card.record.rub_outs[0].oil_absorption) == Approx(80));
    CHECK(card.record.rub_outs[0].stated_spread.value() == Approx(0.12));
    // A draw beyond all, told with no weighing to blame.
    entries[0].what = DrawnEntry{grams(40), grams(0.1)};
    const auto over = studio_card(starts, entries, today);
    REQUIRE(over.faults.size() == 1);
    CHECK(over.faults[0].kind == Contradiction::drawn_beyond_all);
    CHECK_FALSE(over.faults[0].other.has_value());
    // Weighed since, it rests on that.
    entries = {entry("a", 2, WeighedEntry{grams(29), grams(0.1)})};
    CHECK_FALSE(studio_card(starts, entries, today).jars[1].from_its_file);
    auto negative = starts;
    negative[1].net->net = grams(-1);
    CHECK_THROWS_AS(studio_card(negative, entries, today), DomainError);
    negative[1].net = WeighedEntry{grams(1), grams(-1)};
    CHECK_THROWS_AS(studio_card(negative, entries, today), DomainError);
}

TEST_CASE("of each figure the last counts, and a swatch not yet judged waits", "[unit]") {
    MeasuredEntry density, both;
    density.density = Estimate<MassDensity>::exact(grams_per_cubic_centimetre(1.7), {});
    density.tapped_density = Estimate<MassDensity>::exact(grams_per_cubic_centimetre(0.4), {});
    both.density = Estimate<MassDensity>::exact(grams_per_cubic_centimetre(1.9), {});
    both.moisture = Estimate<MassFraction>::exact(MassFraction::of(0.10), {});
    both.median_size = Estimate<Length>::exact(micrometres(12), {});
    const std::vector<Entry> entries{entry("a", 1, density), entry("b", 2, both), entry("c", 3, SwatchEntry{paint(1.2), {}}),
                                     entry("d", 4, NoteEntry{}), entry("e", 5, SwatchEntry{paint(1.3), {}}),
                                     entry("f", 6, OutcomeEntry{"e", PaintSign::holds})};
    const JarCard card = fold(entries).jars[0];
    CHECK(in_grams_per_cubic_centimetre(card.measured.density->value()) == Approx(1.9));
    CHECK(in_grams_per_cubic_centimetre(card.measured.tapped_density->value()) == Approx(0.4));
    CHECK(card.measured.moisture->value().value() == Approx(0.10));
    CHECK(in_micrometres(card.measured.median_size->value()) == Approx(12));
    CHECK(card.measurements == std::vector<std::size_t>{0, 1});
    CHECK(card.open_swatches == std::vector<std::size_t>{2});
    CHECK(card.notes == std::vector<std::size_t>{3});
    CHECK(card.swatches == std::vector<std::size_t>{2, 4});
    // An undo of an undo is none.
    auto undone = entries;
    undone.push_back(entry("u", 7, UndoEntry{"d"}, ""));
    undone.push_back(entry("v", 8, UndoEntry{"u"}, ""));
    CHECK(faults(fold(undone)) == std::vector<std::pair<Contradiction, std::size_t>>{{Contradiction::unknown_entry, 7}});
}

TEST_CASE("what was measured of a jar takes the place of what its file says", "[unit]") {
    Pigment p;
    p.density = Estimate<MassDensity>::exact(grams_per_cubic_centimetre(2.2), {});
    p.density_state = MoistureState::bone_dry;
    p.oil_absorption = Estimate<OilAbsorption>::exact(grams_per_100_grams(65), {});
    p.moisture = Estimate<MassFraction>::exact(MassFraction::of(0.15), {});
    p.pigment_class = PigmentClass::lake;
    CHECK(in_grams_per_cubic_centimetre(with_measured(p, {}).density.value()) == Approx(2.2));
    MeasuredEntry m;
    m.tapped_density = Estimate<MassDensity>::exact(grams_per_cubic_centimetre(0.4), {});
    m.median_size = Estimate<Length>::exact(micrometres(12), {});
    CHECK(in_micrometres(with_measured(p, m).median_size->value()) == Approx(12));
    CHECK(in_grams_per_cubic_centimetre(with_measured(p, m).tapped_density->value()) == Approx(0.4));
    m.density = Estimate<MassDensity>::exact(grams_per_cubic_centimetre(1.8), {});
    CHECK(with_measured(p, m).density_state == MoistureState::as_weighed);
    CHECK(in_grams_per_cubic_centimetre(with_measured(p, m).density.value()) == Approx(1.8));
    // Drier than its figures: the oil goes with the dry matter, 65 x 95/85; a density measured as it lies stays.
    m.moisture = Estimate<MassFraction>::exact(MassFraction::of(0.05), {});
    CHECK(in_grams_per_100_grams(with_measured(p, m).oil_absorption.value().value()) == Approx(65 * 95.0 / 85));
    CHECK(in_grams_per_cubic_centimetre(with_measured(p, m).density.value()) == Approx(1.8));
    m.density.reset(); // and one of the file follows the moisture
    p.density_state = MoistureState::as_weighed;
    CHECK(in_grams_per_cubic_centimetre(with_measured(p, m).density.value()) > 2.2);
}

TEST_CASE("a loss told in its own doubt", "[unit]") {
    CHECK(UnexplainedLoss{grams(0.6), grams(0.2), 0, {}}.in_spreads() == Approx(3));
    CHECK(UnexplainedLoss{grams(-0.6), grams(0.2), 0, {}}.in_spreads() == Approx(-3));
    CHECK(UnexplainedLoss{grams(0), grams(0), 0, {}}.in_spreads() == Approx(0.0).margin(1e-300));
    CHECK(std::isinf(UnexplainedLoss{grams(1), grams(0), 0, {}}.in_spreads()));
    CHECK(UnexplainedLoss{grams(-1), grams(0), 0, {}}.in_spreads() < 0);
}

TEST_CASE("what is missing is said beyond two of its own deviations, and a draw of nothing takes nothing", "[unit]") {
    // 31.6 g should be left, to hypot(.1, .01, .01, .01) and the .1 g of the weighing: sd .1425.
    const auto losses_at = [](double in_spreads) {
        auto entries = lived();
        entries.push_back(entry("g", 30, WeighedEntry{grams(31.6 - in_spreads * std::sqrt(0.0203)), grams(0.1)}));
        return fold(entries).jars[0].losses.size();
    };
    CHECK(losses_at(1.9) == 0);
    CHECK(losses_at(2.1) == 1);
    CHECK(losses_at(-1.9) == 0);
    CHECK(losses_at(-2.1) == 1); // more than there should be
    auto entries = lived();
    entries.push_back(entry("h", 21, DrawnEntry{grams(0), grams(0)}));
    const auto card = fold(entries);
    CHECK(card.faults.empty());
    CHECK(in_grams(card.jars[0].left.value()) == Approx(31.6).epsilon(1e-12));
    CHECK(card.jars[0].left_from == std::vector<std::size_t>{0, 1, 2, 3, 4});
}

TEST_CASE("the powder of a batch mixed by strokes leaves the jar once", "[identity]") {
    const auto stroke = [](const char* id, int day, double powder, double k, PaintSign sign) {
        return entry(id, day, SwatchEntry{paint(k, 0.0), sign, OnSlab{grams(powder), grams(0.01)}});
    };
    std::vector entries{entry("a", 0, WeighedEntry{grams(40), grams(0.1)}), stroke("b", 1, 6.0, 0.9, PaintSign::chalks)};
    const auto left = [&] { return in_grams(fold(entries).jars[0].left.value()); };
    CHECK(left() == Approx(34.0));
    CHECK(fold(entries).jars[0].slabs.at(0).strokes == 1);
    entries.push_back(stroke("c", 2, 6.0, 1.1, PaintSign::does_not_chalk));
    CHECK(left() == Approx(34.0));
    const auto card = fold(entries).jars[0];
    CHECK(card.slabs.at(0).entry == 2);
    CHECK(card.slabs.at(0).strokes == 2);
    CHECK(card.slabs.at(0).library_k.value() == Approx(1.1));
    CHECK(in_grams(card.slabs.at(0).powder) == Approx(6.0));
    entries.push_back(stroke("d", 3, 6.5, 1.2, PaintSign::does_not_chalk)); // powder was added
    CHECK(left() == Approx(33.5));
    auto done = entries;
    done.push_back(entry("e", 4, BatchEntry{paint(1.4, 6.5)}));
    CHECK(in_grams(fold(done).jars[0].left.value()) == Approx(33.5));
    CHECK(fold(done).jars[0].slabs.empty());
    done.push_back(stroke("f", 5, 6.5, 0.9, PaintSign::chalks)); // the next
    CHECK(in_grams(fold(done).jars[0].left.value()) == Approx(27.0));
    CHECK(fold(done).jars[0].slabs.at(0).strokes == 1);

    auto another = entries; // of a sheet, while that one still lies there
    another.push_back(entry("e", 4, BatchEntry{paint(1.4, 10.0)}));
    CHECK(in_grams(fold(another).jars[0].left.value()) == Approx(23.5));
    CHECK(fold(another).jars[0].slabs.at(0).strokes == 3);
    auto anew = entries; // leaner than the last: thrown away and begun again
    anew.push_back(stroke("e", 4, 6.5, 0.8, PaintSign::chalks));
    CHECK(in_grams(fold(anew).jars[0].left.value()) == Approx(27.0));
    CHECK(fold(anew).jars[0].slabs.at(0).strokes == 1);
    // What grew mould or was thrown away does not go on: the same batch again takes its powder again, and is no slip.
    for (const auto lost : {PaintSign::grows_mould, PaintSign::thrown_away})
        for (const bool said_later : {false, true}) {
            auto given_up = entries;
            if (said_later) given_up.push_back(entry("e", 4, OutcomeEntry{"d", lost}));
            else given_up.push_back(stroke("e", 4, 6.5, 1.2, lost));
            CHECK(fold(given_up).jars[0].slabs.empty());
            CHECK(in_grams(fold(given_up).jars[0].left.value()) == Approx(33.5));
            given_up.push_back(entry("f", 5, BatchEntry{paint(1.4, 6.5)}));
            CHECK(in_grams(fold(given_up).jars[0].left.value()) == Approx(27.0));
            CHECK(fold(given_up).jars[0].begun_anew.empty());
        }
    auto of_another = entries; // a sign of an older stroke ends nothing
    of_another.push_back(entry("e", 4, OutcomeEntry{"c", PaintSign::thrown_away}));
    CHECK(fold(of_another).jars[0].slabs.size() == 1);
}

TEST_CASE("more cannot be sieved than there is", "[errors]") {
    SieveTestEntry sieved;
    sieved.seen.charge = grams(20.0), sieved.seen.used = grams(0.2), sieved.seen.uncertainty = grams(0.02);
    std::vector entries{entry("a", 0, WeighedEntry{grams(19.9), grams(0.1)}), entry("b", 1, sieved)};
    CHECK(fold(entries).faults.empty()); // within two sd of the weighing
    CHECK(in_grams(fold(entries).jars[0].left.value()) == Approx(19.7));
    entries[0].what = WeighedEntry{grams(19.7), grams(0.1)};
    const auto card = fold(entries);
    CHECK(faults(card) == std::vector{std::pair{Contradiction::drawn_beyond_all, std::size_t{1}}});
    CHECK(card.faults.at(0).other == 0u);
    CHECK(in_grams(card.jars[0].left.value()) == Approx(19.7)); // it is left out
}

TEST_CASE("timed grains are known until the powder is changed", "[unit]") {
    SettlingTestEntry seen;
    seen.seen.size = micrometres(49.0);
    std::vector entries{entry("a", 0, WeighedEntry{grams(40), grams(0.1)}), entry("b", 1, seen)};
    CHECK(in_micrometres(fold(entries).jars[0].settled->size) == Approx(49.0));
    CHECK(in_grams(fold(entries).jars[0].left.value()) == Approx(40.0));
    entries.push_back(entry("c", 2, ChangedEntry{}));
    CHECK_FALSE(fold(entries).jars[0].settled);
}

TEST_CASE("an oil between its strokes and a watercolour between its own do not take each other's powder", "[identity]") {
    const auto stroke = [](const char* id, int day, std::size_t family, double powder, double k) {
        auto of = paint(k, 0.0);
        of.family = family;
        return entry(id, day, SwatchEntry{of, PaintSign::chalks, OnSlab{grams(powder), grams(0.01)}});
    };
    const auto batch = [](const char* id, int day, std::size_t family, double powder, double k) {
        auto of = paint(k, powder);
        of.family = family;
        return entry(id, day, BatchEntry{of});
    };
    std::vector entries{entry("a", 0, WeighedEntry{grams(30), grams(0.1)}), stroke("b", 1, 1, 4.0, 0.9), stroke("c", 2, gum, 5.0, 0.9),
                        stroke("d", 3, 1, 4.0, 1.0), stroke("e", 4, gum, 5.0, 1.1), batch("f", 5, gum, 5.0, 1.4), batch("g", 6, 1, 4.0, 1.3)};
    const auto card = fold(entries).jars[0];
    CHECK(in_grams(card.left.value()) == Approx(21.0));
    CHECK(card.slabs.empty());
    CHECK(card.begun_anew.empty());
    // A slipped point: told with the stroke before it.
    entries.resize(4);
    entries.push_back(stroke("e", 4, 1, 4.0, 0.1));
    const auto slip = fold(entries).jars[0];
    REQUIRE(slip.begun_anew.size() == 1);
    CHECK(slip.begun_anew[0].entry == 4);
    CHECK(slip.begun_anew[0].before == 3);
}

TEST_CASE("a batch that is taken back takes its verdict along", "[unit]") {
    auto entries = lived(); // its batch "e" was judged by "f"
    entries.push_back(entry("g", 21, UndoEntry{"e"}));
    const auto card = fold(entries);
    CHECK(card.faults.empty());
    CHECK(in_grams(card.jars[0].left.value()) == Approx(37.6));
    CHECK(card.record.trials.size() == 2);
}

TEST_CASE("the paint that was judged last is known, a swatch after a batch too", "[unit]") {
    auto entries = lived(); // swatches of the 3rd and 4th day, a batch that was judged on the 21st
    auto card = fold(entries);
    REQUIRE(card.jars[0].last_judged);
    CHECK(card.record.trials.at(*card.jars[0].last_judged).in_use);
    CHECK_FALSE(card.jars[1].last_judged);
    entries.push_back(entry("g", 25, SwatchEntry{paint(9.0), PaintSign::chalks}));
    card = fold(entries);
    const auto& last = card.record.trials.at(*card.jars[0].last_judged);
    CHECK_FALSE(last.in_use);
    CHECK(last.library_k.value() == Approx(9.0));
}
