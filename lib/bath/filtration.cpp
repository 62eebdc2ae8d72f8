#include "lakebound/bath/filtration.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

#include "lakebound/estimate/random.hpp"
#include "lakebound/estimate/sample_statistics.hpp"
#include "lakebound/quantity/error.hpp"
#include "lakebound/quantity/text.hpp"

namespace lakebound {
namespace {

/// The line t/V = a V + b by least squares, wherever it leads.
struct FilterLine {
    double a = 0.0, b = 0.0;
};

FilterLine filter_line(std::span<const FilterReading> readings) {
    const double n = static_cast<double>(readings.size());
    double mean_v = 0.0, mean_y = 0.0;
    for (const auto& r : readings) {
        mean_v += r.filtrate.value() / n;
        mean_y += (r.time / r.filtrate).value() / n;
    }
    double vv = 0.0, vy = 0.0;
    for (const auto& r : readings) {
        const double v = r.filtrate.value() - mean_v;
        vv += v * v;
        vy += v * ((r.time / r.filtrate).value() - mean_y);
    }
    const double a = vy / vv;
    return {a, mean_y - a * mean_v};
}

/// The same with a and b held at 0 or more.
FilterLaw held_filter_law(std::span<const FilterReading> readings) {
    FilterLine line = filter_line(readings);
    if (line.a < 0.0) {
        line.a = 0.0;
        line.b = 0.0;
        for (const auto& r : readings)
            line.b += (r.time / r.filtrate).value() / static_cast<double>(readings.size());
    } else if (line.b < 0.0) {
        double vt = 0.0, vv = 0.0;
        for (const auto& r : readings) {
            vt += r.time.value();
            vv += r.filtrate.value() * r.filtrate.value();
        }
        line = {vt / vv, 0.0};
    }
    return {TimePerVolumeSquared::from_value(line.a), TimePerVolume::from_value(line.b)};
}

void check_filter_readings(std::span<const FilterReading> readings) {
    if (readings.size() < 2)
        throw DomainError("number of readings at the filter", number_text(static_cast<double>(readings.size())),
                          "2 or more", "read the jug and the clock once more while it runs");
    FilterReading before{seconds(0), litres(0)};
    for (const auto& r : readings) {
        if (!(r.time > before.time))
            throw DomainError("time at the filter", number_text(in_minutes(r.time)) + " min",
                              "after " + number_text(in_minutes(before.time)) + " min, the reading before it",
                              "count each time from when the liquor was poured on");
        if (!(r.filtrate > before.filtrate))
            throw DomainError("filtrate in the jug", number_text(in_millilitres(r.filtrate)) + " mL",
                              "above " + number_text(in_millilitres(before.filtrate)) +
                                  " mL, the reading before it",
                              "give all that has run through since pouring");
        before = r;
    }
}

[[noreturn]] void throw_runs_faster(std::span<const FilterReading> readings) {
    const auto per_100 = [](const FilterReading& r) {
        return fixed_text(in_minutes(r.time) / in_millilitres(r.filtrate) * 100.0, 1) + " min for each 100 mL";
    };
    throw DomainError("time of the filter at the last reading", per_100(readings.back()),
                      "at least that at the first, " + per_100(readings.front()),
                      "a filter slows as its cake grows: look for a torn paper or a volume misread");
}

void check_volume(const char* name, Volume volume) {
    if (!(volume.value() >= 0.0)) throw_out_of_range(name, in_millilitres(volume), "mL", "0 or more");
}

void check_filter_setup(const FilterSetup& s) {
    if (!(s.viscosity.value() > 0.0 && s.area.value() > 0.0 && s.pressure.value() > 0.0 && s.solids.value() > 0.0))
        throw DomainError("setup of a filter", "a viscosity, area, pressure or solids of 0", "all above 0");
}

TimeBand time_band(std::vector<double>& times) {
    return {seconds(sample_quantile(times, 0.5)), seconds(sample_quantile(times, 0.05)),
            seconds(sample_quantile(times, 0.95))};
}

/// The volume that a filter passes in a time on top of what it has passed.
double passed_in(const FilterLaw& law, double passed, double time) {
    const double a = law.cake.value(), slope = 2.0 * a * passed + law.paper.value();
    // a v^2 + slope v = time, without cancellation.
    return 2.0 * time / (slope + std::sqrt(slope * slope + 4.0 * a * time));
}

} // namespace

FilterLaw fit_filter(std::span<const FilterReading> readings) {
    check_filter_readings(readings);
    if (filter_line(readings).a < -1e-9 * (readings.back().time / readings.back().filtrate).value() /
                                       readings.back().filtrate.value())
        throw_runs_faster(readings);
    return held_filter_law(readings);
}

Time filter_time(const FilterLaw& law, Volume filtrate) {
    check_volume("filtrate", filtrate);
    return law.cake * filtrate * filtrate + law.paper * filtrate;
}

Time time_with_second_filter(const FilterLaw& law, Volume passed, Volume rest) {
    check_volume("filtrate so far", passed);
    check_volume("filtrate to come", rest);
    double low = 0.0, high = (filter_time(law, passed + rest) - filter_time(law, passed)).value();
    if (!(high > 0.0)) return seconds(0);
    for (int i = 0; i < 100 && high - low > 1e-13 * high; ++i) {
        const double middle = 0.5 * (low + high);
        const double run = passed_in(law, passed.value(), middle) + passed_in(law, 0.0, middle);
        (run < rest.value() ? low : high) = middle;
    }
    return seconds(high);
}

FilterConstants filter_constants(const FilterLaw& law, const FilterSetup& s) {
    check_filter_setup(s);
    return {SpecificCakeResistance(2.0 * law.cake * s.area * s.area * s.pressure / (s.viscosity * s.solids)),
            PaperResistance(law.paper * s.area * s.pressure / s.viscosity)};
}

FilterLaw filter_law(const FilterConstants& c, const FilterSetup& s) {
    check_filter_setup(s);
    return {TimePerVolumeSquared(s.viscosity * c.cake * s.solids / (2.0 * s.area * s.area * s.pressure)),
            TimePerVolume(s.viscosity * c.paper / (s.area * s.pressure))};
}

FilterOutlook filter_outlook(std::span<const FilterReading> readings, Volume whole, const FilterHabits& habits) {
    check_filter_readings(readings);
    const FilterReading& last = readings.back();
    if (!(whole >= last.filtrate))
        throw DomainError("liquor to be filtered", number_text(in_millilitres(whole)) + " mL",
                          "at least " + number_text(in_millilitres(last.filtrate)) + " mL, which has run through");
    FilterOutlook out{};
    out.law = held_filter_law(readings);
    out.rest = whole - last.filtrate;
    constexpr std::size_t redrawn = 2000;
    RandomEngine engine(20260401);
    const double volume_share = habits.volume_read_to.value().value(),
                 clock = in_seconds(habits.time_read_to.value()), law_spread = habits.law_holds_to.value().value();
    std::vector<double> alone, shared, saved;
    std::size_t slowing = 0, paying = 0;
    std::vector<FilterReading> again(readings.begin(), readings.end());
    for (std::size_t i = 0; i < redrawn; ++i) {
        for (std::size_t j = 0; j < again.size(); ++j) {
            again[j].filtrate = readings[j].filtrate * std::exp(volume_share * standard_normal(engine));
            again[j].time = seconds(std::max(1e-3 * in_seconds(readings[j].time),
                                             in_seconds(readings[j].time) + clock * standard_normal(engine)));
        }
        slowing += filter_line(again).a > 0.0 ? 1 : 0;
        const FilterLaw law = held_filter_law(again);
        const double factor = std::exp(law_spread * standard_normal(engine));
        const Time rest = (filter_time(law, whole) - filter_time(law, last.filtrate)) * factor;
        const Time rest_shared = time_with_second_filter(law, last.filtrate, out.rest) * factor;
        alone.push_back((last.time + rest).value());
        shared.push_back((last.time + rest_shared).value());
        saved.push_back((rest - rest_shared).value());
        paying += rest - rest_shared > habits.second_paper.value() ? 1 : 0;
    }
    if (filter_line(readings).a < 0.0 && slowing * 40 <= redrawn) throw_runs_faster(readings);
    out.finish = time_band(alone);
    out.finish_with_second = time_band(shared);
    out.saved = seconds(sample_quantile(saved, 0.5));
    out.second_pays = Probability::of(static_cast<double>(paying) / redrawn);
    return out;
}

} // namespace lakebound
