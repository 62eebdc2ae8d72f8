#include "lakebound/particle/grind_answer.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "lakebound/particle/record_error.hpp"
#include "lakebound/quantity/text.hpp"
#include "grind_parts.hpp"

namespace lakebound {

namespace {

using detail::Analysed;
using detail::grind_coverage;
using detail::range_of;

constexpr unsigned redrawn = 300;
/// Of chi squared, one-sided: 1 in 20 of first-order mortars would look so by chance.
constexpr double slowing_shows = 2.7;

/// A fault that lies in what one test says.
RecordError fault_in(const Analysed& data, std::size_t test, RecordPart part, const DomainError& error) {
    return {error, part, data.asked[test]};
}

/// Of the last test, held against the first: no law falls through them.
RecordError fault_between(const Analysed& data, const DomainError& error) {
    return {error, RecordPart::retained, data.asked.back(), data.asked.front()};
}

Analysed analysed(const GrindQuestion& question) {
    Analysed result;
    for (const auto& record : question.tests) {
        result.analyses.push_back(analyse(record.test));
        result.tests.push_back(grinding_test(*record.grinding_time, result.analyses.back()));
        const auto &mine = record.test.screens, &first = question.tests.front().test.screens;
        bool same = mine.size() == first.size();
        for (std::size_t i = 0; same && i < mine.size(); ++i)
            same = std::abs(mine[i].aperture / first[i].aperture - 1.0) < 1e-6;
        result.same_screens = result.same_screens && same;
    }
    return result;
}

void choose_model(GrindAnswer& answer, const Analysed& data) {
    const auto& target = answer.question.target;
    const auto& screens = answer.question.tests.front().test.screens;
    const bool target_is_screen = std::any_of(screens.begin(), screens.end(), [&](const ScreenMass& s) {
        return std::abs(s.aperture / target.residue_screen - 1.0) < 1e-6;
    });
    if (!data.same_screens)
        answer.why_one_screen = "the tests did not use the same screens";
    else if (!target_is_screen)
        answer.why_one_screen = "the target is none of the screens of the tests";
    else
        answer.why_one_screen = obstacle_to_breakage_fit(screens.size() + 1, data.tests.size());
    answer.model = answer.why_one_screen.empty() ? GrindModel::population_balance : GrindModel::one_screen;
}

BreakageFit fitted(const GrindAnswer& answer, std::span<const Length> classes,
                   std::span<const GrindingTest> tests, unsigned resamples, bool cushioned = true) {
    BreakageFitOptions options;
    options.resamples = resamples;
    options.prior = answer.question.habits.breakage;
    if (cushioned) options.cushioning = answer.question.habits.cushioning;
    return fit_breakage(classes, tests, options);
}

void fit_balance(GrindAnswer& answer, const Analysed& data, Progress progress) {
    const auto& first = data.analyses.front();
    const Length largest =
        answer.question.say.largest_grain.value_or(answer.question.habits.largest_grain *
                                                    *first.fractions.front().aperture);
    const auto classes = grinding_classes(first, largest);
    progress(0.05);
    try {
        answer.fit = fitted(answer, classes, data.tests, redrawn);
    } catch (const DomainError& error) {
        throw fault_between(data, error);
    }
    progress(0.5);
    const auto& fit = *answer.fit;
    const auto limit = class_limit(fit.model, answer.question.target.residue_screen);
    const auto interval = [&](BreakageParameter which, double unit) {
        const auto range = parameter_interval(fit, which, grind_coverage);
        return CoverageInterval{unit * std::exp(range.low), unit * std::exp(range.high)};
    };
    answer.rate_per_minute = interval(BreakageParameter::log_rate, 60.0);
    answer.selection_exponent = interval(BreakageParameter::log_exponent, 1.0);
    answer.breakage_exponent = interval(BreakageParameter::log_gamma, 1.0);
    answer.cushioning = fit.model.cushioning;
    std::vector<double> drawn;
    for (const auto& draw : fit.draws)
        drawn.push_back(draw.cushioning);
    answer.cushioning_range = range_of(std::move(drawn));
    if (data.tests.size() < 3) return;
    const auto straight = fitted(answer, classes, data.tests, 0, false);
    const double scatter = fit.fraction_deviation * fit.fraction_deviation;
    answer.slowing = fit.model.cushioning > 0.0 && straight.misfit - fit.misfit > slowing_shows * scatter;
    const std::vector<GrindingTest> two(data.tests.begin(), data.tests.begin() + 2);
    if (!obstacle_to_breakage_fit(classes.size(), 2).empty()) return;
    try {
        const auto early = fitted(answer, classes, two, 100);
        for (std::size_t i = 2; i < data.tests.size(); ++i) {
            const auto check = check_later_test(early, data.tests[i], limit);
            answer.later.push_back({data.tests[i].time, check.predicted, check.observed, check.deviations,
                                    check.slowing, check.faster});
        }
    } catch (const DomainError&) {
        // Two tests alone did not tell the parameters; then they foresee nothing to compare with.
    }
    progress(0.7);
}

void fit_law(GrindAnswer& answer, const Analysed& data) {
    std::vector<ResidueReading> readings;
    for (const auto& row : answer.rows) {
        if (!(row.residue.share.value() > 0.0))
            throw fault_in(data, readings.size(), RecordPart::retained,
                           {"residue over the target screen", "0 %", "above 0: a clean screen tells no rate",
                            "sieve at an earlier time, or name a finer screen"});
        readings.push_back({row.time, row.residue.share,
                            std::hypot(row.residue.standard_uncertainty, row.residue.repeatability)});
    }
    try {
        answer.law = fit_cushioned_law(readings, answer.question.habits.cushioning);
    } catch (const DomainError& error) {
        throw fault_between(data, error);
    }
    answer.cushioning = answer.law->cushioning;
    std::vector<double> drawn;
    for (const auto& draw : answer.law->draws)
        drawn.push_back(draw.cushioning);
    answer.cushioning_range = range_of(std::move(drawn));
    if (readings.size() < 3) return;
    answer.slowing = answer.law->cushioning > 0.0 && answer.law->misfit_gain > slowing_shows;
    const auto early = fit_cushioned_law(std::span(readings).first(2), answer.question.habits.cushioning);
    for (std::size_t i = 2; i < readings.size(); ++i) {
        const auto foreseen = predicted_residue(early, readings[i].time, grind_coverage);
        const double u = std::hypot(foreseen.standard_deviation, readings[i].standard_uncertainty);
        const double off = (readings[i].residue.value() - foreseen.residue) / u;
        answer.later.push_back(
            {readings[i].time, foreseen.residue, readings[i].residue.value(), off, off > 2.0, off < -2.0});
    }
}

void forecast_time(GrindAnswer& answer) {
    const double allowed = answer.question.target.allowed_residue.value().value();
    try {
        if (answer.fit) {
            const auto limit = class_limit(answer.fit->model, answer.question.target.residue_screen);
            answer.one_long_grind = predicted_time(*answer.fit, limit, allowed, grind_coverage);
        } else {
            answer.one_long_grind = predicted_time(*answer.law, allowed, grind_coverage);
        }
        answer.long_grind_left = std::max(answer.one_long_grind->time - answer.now, Time{});
    } catch (const DomainError& error) {
        answer.why_no_time = error.what();
    }
}

/// Times worth showing: the last test, then doubling, and when the target is reached.
std::vector<Time> forecast_times(const GrindAnswer& answer) {
    std::vector<double> m;
    for (const auto& row : answer.rows)
        m.push_back(in_minutes(row.time));
    const double last = m.back();
    for (const double factor : {1.5, 2.0, 3.0, 4.0})
        m.push_back(std::round(last * factor));
    if (answer.one_long_grind) {
        const double end = std::ceil(in_minutes(answer.one_long_grind->time));
        m.erase(std::remove_if(m.begin() + static_cast<std::ptrdiff_t>(answer.rows.size()), m.end(),
                               [&](double x) { return x >= end; }),
                m.end());
        if (end > last) m.push_back(end);
    }
    std::vector<Time> times;
    for (const double x : m)
        if (times.empty() || minutes(x) > times.back()) times.push_back(minutes(x));
    return times;
}

void forecast(GrindAnswer& answer) {
    const auto screen = answer.question.target.residue_screen;
    if (answer.fit)
        answer.screens.assign(answer.fit->model.class_sizes.begin() + 1,
                               answer.fit->model.class_sizes.end());
    else
        answer.screens = {screen};
    for (const Time& time : forecast_times(answer)) {
        GrindForecast row;
        row.time = time;
        if (answer.fit) {
            const auto fractions = predicted_fractions(*answer.fit, time);
            for (std::size_t i = 1; i < fractions.size(); ++i)
                row.passing.push_back(1.0 - residue_above(fractions, i));
            const auto limit = class_limit(answer.fit->model, screen);
            row.residue = residue_above(fractions, limit);
            row.interval = predicted_residue(*answer.fit, limit, time, grind_coverage).interval;
        } else {
            const auto foreseen = predicted_residue(*answer.law, time, grind_coverage);
            row.residue = foreseen.residue;
            row.interval = foreseen.interval;
            row.passing = {1.0 - row.residue};
        }
        answer.forecast.push_back(std::move(row));
    }
    answer.forecast_far =
        answer.fit && answer.one_long_grind && answer.forecast.back().time > far_forecast * answer.now;
}

void settle_assumptions(GrindAnswer& answer, const Analysed& data) {
    const auto& habits = answer.question.habits;
    const auto& say = answer.question.say;
    double sum = 0.0;
    int weighed = 0;
    for (const auto& analysis : data.analyses)
        if (analysis.loss && *analysis.loss > 0.0) sum += *analysis.loss, ++weighed;
    answer.loss = {habits.loss.value(), GivenBy::shelf};
    if (weighed > 0) answer.loss = {Share::of(sum / weighed), GivenBy::sieve_tests};
    if (say.loss) answer.loss = {*say.loss, GivenBy::maker};
    answer.density = {answer.question.usual_density, GivenBy::shelf};
    std::size_t gave_density{};
    for (std::size_t i = 0; i < answer.question.tests.size(); ++i)
        if (const auto& density = answer.question.tests[i].density)
            answer.density = {*density, GivenBy::sieve_tests}, gave_density = i;
    if (say.density) answer.density = {*say.density, GivenBy::maker};
    try {
        check_sinks(answer.density.value, water_at(answer.question.water));
    } catch (const DomainError& error) {
        if (answer.density.by == GivenBy::sieve_tests) throw fault_in(data, gave_density, RecordPart::density, error);
        throw;
    }
    answer.emptier_is_faster = {LoadExponent::of(habits.emptier_is_faster.value().value()), GivenBy::shelf};
    if (say.emptier_is_faster) answer.emptier_is_faster = {*say.emptier_is_faster, GivenBy::maker};
}

/// Puts the tests in order of their times; returns where each stood before.
std::vector<std::size_t> in_order_of_time(std::vector<SieveRecord>& tests) {
    std::vector<std::size_t> asked(tests.size());
    std::iota(asked.begin(), asked.end(), std::size_t{0});
    for (const std::size_t i : asked)
        if (!tests[i].grinding_time)
            throw RecordError({"grinding time of '" + tests[i].name + "'", "unknown", "known for every test"},
                              RecordPart::whole, i);
    // value_or: the compiler cannot see the check above and warns of a time that is not there.
    const auto time = [&](std::size_t i) { return tests[i].grinding_time.value_or(Time{}); };
    std::stable_sort(asked.begin(), asked.end(), [&](std::size_t a, std::size_t b) { return time(a) < time(b); });
    std::vector<SieveRecord> sorted;
    for (const std::size_t i : asked)
        sorted.push_back(std::move(tests[i]));
    tests = std::move(sorted);
    return asked;
}

} // namespace

GrindAnswer plan_grinding(GrindQuestion question, Progress progress) {
    GrindAnswer answer;
    const auto asked = in_order_of_time(question.tests);
    answer.question = std::move(question);
    const auto& target = answer.question.target;
    auto data = analysed(answer.question);
    data.asked = asked;
    for (std::size_t i = 0; i < data.analyses.size(); ++i) {
        GrindTestRow row{answer.question.tests[i].name, data.tests[i].time,
                         residue_over(data.analyses[i], target.residue_screen), std::nullopt, std::nullopt};
        row.residue.repeatability =
            sieving_deviation(answer.question.habits.sieving_repeats_to.value(), row.residue.share.value());
        row.with_loss = residue_with_loss(row.residue, data.analyses[i]);
        if (row.residue.reach != Reach::within)
            throw fault_in(data, i, RecordPart::retained,
                           {"target screen", quantity_text(target.residue_screen, "um"),
                            "between the coarsest and the finest screen of every test",
                            "sieve again with that screen; below " + quantity_text(target.dry_sieving_ends.value(), "um") + " sieve wet"});
        if (answer.question.tests[i].test.screens.size() >= 2)
            row.d50 = percentile(passing_curve(data.analyses[i]), MassFraction::of(0.5));
        answer.rows.push_back(std::move(row));
    }
    answer.now = answer.rows.back().time;
    answer.residue_now = answer.rows.back().residue.share.value();
    answer.charge = data.analyses.back().recovered;
    settle_assumptions(answer, data);
    choose_model(answer, data);
    if (answer.model == GrindModel::population_balance)
        fit_balance(answer, data, progress);
    else
        fit_law(answer, data);
    for (const auto& check : answer.later)
        answer.slowing = answer.slowing || check.slowing;
    answer.fine_already = answer.residue_now <= target.allowed_residue.value().value();
    forecast_time(answer);
    forecast(answer);
    if (!answer.fine_already) detail::plan_ways(answer, data, progress);
    progress(1.0);
    return answer;
}

bool will_not_get_there(const GrindAnswer& answer) noexcept {
    return !answer.fine_already && answer.ways.empty();
}

} // namespace lakebound
