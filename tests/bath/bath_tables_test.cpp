// Solutions, filters, washes, pens and drying cakes as tests/reference/bath_tables.py finds them by NumPy and SciPy.

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "lakebound/bath/conductivity.hpp"
#include "lakebound/bath/drying.hpp"
#include "lakebound/bath/filtration.hpp"
#include "lakebound/bath/solution.hpp"
#include "lakebound/bath/washing.hpp"
#include "salts.hpp"
#include "table_rows.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

#include "bath_tables.inc"

template <class Q> Estimate<Q> exactly(const Q& value) { return Estimate<Q>::exact(value, {}); }

template <class Q> Estimate<Q> scattered(const Q& median, double factor) { return Estimate<Q>::lognormal(median, factor, {}); }

} // namespace

TEST_CASE("densities of solutions are the published formula's", "[reference]") {
    for (const auto& figures : solution_densities) {
        RowReader row(figures);
        std::vector<SoluteShare> shares;
        for (const Solute solute : all_solutes)
            shares.push_back({solute, MassFraction::of(row.next())});
        const Temperature at = degrees_celsius(row.next());
        row.hold(in_kilograms_per_cubic_metre(solution_density(shares, at)), 1e-11);
        CHECK(row.done());
    }
}

TEST_CASE("solutions on every basis are what Brent's method finds", "[reference]") {
    for (const auto& figures : made_solutions) {
        RowReader row(figures);
        const Salt salt = row.next() > 0.0 ? potash_alum() : soda_ash();
        Strength strength;
        strength.basis = static_cast<StrengthBasis>(static_cast<int>(row.next()));
        strength.value = row.next();
        const Temperature at = degrees_celsius(row.next());
        const auto made = made_up(salt, grams(1), strength, at);
        CHECK(in_grams(made.salt) == Approx(1).epsilon(1e-14));
        row.hold(made.by_mass.value(), 1e-10);
        row.hold(in_grams(made.water), 1e-10);
        row.hold(in_millilitres(made.volume), 1e-10);
        CHECK(in_grams(salt_in(salt, 3.0 * made.volume, strength, at)) == Approx(3).epsilon(1e-10));
        CHECK(in_millilitres_per_gram(made.volume_per_salt()) == Approx(in_millilitres(made.volume)).epsilon(1e-12));
        row.hold(in_grams_per_cubic_centimetre(made.density), 1e-10);
        CHECK(row.done());
    }
}

TEST_CASE("filters are SciPy's least squares of nothing below 0", "[reference]") {
    for (const auto& figures : filters) {
        RowReader row(figures);
        std::vector<FilterReading> readings(static_cast<std::size_t>(row.next()));
        for (auto& r : readings) {
            r.filtrate = litres(row.next());
            r.time = seconds(row.next());
        }
        const Volume whole = litres(row.next()), passed = readings.back().filtrate;
        const auto law = fit_filter(readings);
        row.hold(law.cake.value() / 1e6, 1e-9, 1e-9);
        row.hold(law.paper.value() / 1e3, 1e-9, 1e-9);
        row.hold(in_seconds(filter_time(law, whole)), 1e-9);
        row.hold(in_seconds(time_with_second_filter(law, passed, whole - passed)), 1e-8, 1e-9);
        CHECK(row.done());
    }
}

TEST_CASE("a forecast at the filter is that of many more draws", "[reference]") {
    // Ours has 2 000: a median of the rest's time to 1 %, an end of the band to 2 %, at one standard deviation.
    const FilterHabits habits{exactly(Share::of(.03)), exactly(seconds(20)), exactly(Share::of(.35)), exactly(minutes(5))};
    for (const auto& figures : filter_outlooks) {
        RowReader row(figures);
        std::vector<FilterReading> readings(2);
        for (auto& r : readings) {
            r.filtrate = litres(row.next());
            r.time = seconds(row.next());
        }
        const Volume whole = litres(row.next());
        const auto found = filter_outlook(readings, whole, habits);
        for (const TimeBand& band : {found.finish, found.finish_with_second}) {
            row.hold(in_seconds(band.middle), .02);
            row.hold(in_seconds(band.low), .03);
            row.hold(in_seconds(band.high), .05);
        }
        row.hold(in_seconds(found.saved), .03);
        row.hold(found.second_pays.value(), 0.0, .01);
        CHECK(in_litres(found.rest) == Approx(in_litres(whole - readings.back().filtrate)).epsilon(1e-14));
        CHECK(row.done());
    }
}

TEST_CASE("the course of a washing is the normal law's", "[reference]") {
    for (const auto& figures : washes) {
        RowReader row(figures);
        WashedLake lake{};
        lake.water.strength = {kilograms_per_cubic_metre(row.next())};
        lake.water.standard_uncertainty = kilograms_per_cubic_metre(row.next());
        lake.water.scale = Share::of(row.next());
        const double bed = row.next();
        lake.bed = scattered(litres(bed), row.next());
        const double filled = row.next();
        lake.filled = scattered(litres(filled), row.next());
        const double mass = row.next();
        lake.lake = scattered(grams(mass), row.next());
        const double held = row.next(), held_factor = row.next();
        if (held > 0.0) lake.held = scattered(millilitres_per_gram(held), held_factor);
        lake.stirred_to = exactly(Share::of(row.next()));
        const auto target = MassFraction::of(row.next());
        const auto out = wash_outlook(lake, target, exactly(kilograms_per_cubic_metre(row.next())));
        row.hold(out.left.value(), 1e-9);
        row.hold(out.left_low.value(), 2e-6, 2e-9);
        row.hold(out.left_high.value(), 2e-6);
        row.hold(out.clean.value(), 1e-9, 1e-12);
        row.hold(out.likely ? static_cast<double>(*out.likely) : -1.0, 1e-12);
        row.hold(out.sure ? static_cast<double>(*out.sure) : -1.0, 1e-12);
        row.hold(out.clean_after_one ? out.clean_after_one->value() : -1.0, 1e-9, 1e-12);
        row.hold(in_litres(out.water_for_sure), 1e-9);
        row.hold(out.from_wash_water.value(), 1e-9);
        CHECK(out.course.size() == (out.sure ? *out.sure + 2 : 7));
        for (std::size_t i = 0; i < out.course.size(); ++i)
            CHECK(out.course[i].washes == i);
        const auto& later = out.course.at(out.sure ? std::min(*out.sure + 1, 3u) : 3u);
        row.hold(later.low.value(), 2e-6, 2e-9);
        row.hold(later.high.value(), 2e-6, 2e-9);
        row.hold(later.clean.value(), 1e-9, 1e-12);
        CHECK(chance_of_clean(lake, target, later.washes).value() == Approx(later.clean.value()).epsilon(1e-12));
        CHECK(row.done());
    }
}

TEST_CASE("salts in a decant are what Brent's method finds", "[reference]") {
    for (const auto& figures : pens) {
        RowReader row(figures);
        DissolvedSalts salts{};
        for (const Ion ion : {Ion::sodium, Ion::potassium, Ion::ammonium, Ion::sulphate, Ion::bicarbonate})
            salts.ions[ion] = row.next();
        const auto reading = [&] {
            PenReading r{};
            r.shown = microsiemens_per_centimetre(row.next());
            r.water = degrees_celsius(row.next());
            r.compensation = row.next() > 0.0 ? Compensation::to_25_degrees : Compensation::none;
            return r;
        };
        const PenReading decant = reading(), tap = reading();
        ConductivityPen pen{};
        pen.per_kelvin = row.next();
        pen.repeats_to = exactly(Share::of(row.next()));
        pen.calibrated_to = exactly(Share::of(row.next()));
        pen.step = microsiemens_per_centimetre(row.next());
        pen.thermometer = TemperatureDifference::from_value(row.next());
        const auto found = salts_in_decant(decant, tap, pen, salts);
        CHECK(found.scale.value() == Approx(.03).epsilon(1e-14));
        row.hold(in_kilograms_per_cubic_metre(found.strength.value), 1e-9, 1e-10);
        row.hold(in_kilograms_per_cubic_metre(found.standard_uncertainty), 1e-7);
        row.hold(in_microsiemens_per_centimetre(found.over_wash_water), 1e-9, 1e-6);
        CHECK(row.done());
    }
}

TEST_CASE("a drying cake is believed as on a dense grid", "[reference]") {
    for (const auto& figures : cakes) {
        RowReader row(figures);
        std::vector<DryingWeighing> weighings(static_cast<std::size_t>(row.next()));
        for (auto& w : weighings) {
            w.time = hours(row.next());
            w.mass = grams(row.next());
        }
        const Instrument<Mass> scale{grams(1e-6), grams(row.next())};
        DryingHabits habits{};
        habits.weighing_repeats_to = exactly(Share::of(row.next()));
        const double tau = row.next();
        habits.usual_tau = scattered(hours(tau), row.next());
        const double shape = row.next(), place = row.next(), spread = row.next();
        std::optional<Estimate<Mass>> expected;
        if (shape == 1.0) expected = scattered(grams(place), spread);
        if (shape == 2.0) expected = Estimate<Mass>::normal(grams(place), grams(spread), {});
        const auto belief = drying_belief(weighings, scale, habits, expected);
        CHECK(static_cast<double>(belief.from) == row.next());
        CHECK(in_hours(belief.origin) == Approx(in_hours(weighings[belief.from].time)).margin(1e-12));
        double whole = 0.0;
        for (const auto& n : belief.nodes)
            whole += n.weight;
        CHECK(whole == Approx(1).margin(1e-5));
        row.hold(mean_of(belief, &DryingNode::tau) / 3600, 1e-4);
        row.hold(sd_of(belief, &DryingNode::tau) / 3600, 1e-3);
        row.hold(mean_of(belief, &DryingNode::end) * 1e3, 1e-4);
        row.hold(sd_of(belief, &DryingNode::end) * 1e3, 1e-3);
        row.hold(mean_of(belief, &DryingNode::over) * 1e3, 1e-4);
        row.hold(sd_of(belief, &DryingNode::over, &DryingNode::over_sd) * 1e3, 1e-3);
        for (const double p : {.1, .5, .9}) {
            const auto dry = time_dry_with(belief, Share::of(.01), p);
            REQUIRE(dry);
            row.hold(in_hours(*dry - belief.origin), 1e-4);
            CHECK(chance_dry(belief, *dry, Share::of(.01)).value() == Approx(p).margin(1e-5));
        }
        for (const double p : {.05, .5, .95})
            row.hold(in_grams(drying_mass_quantile(belief, belief.origin + hours(120), p)), 2e-4); // nodes lie so far apart
        CHECK(row.done());
    }
}
