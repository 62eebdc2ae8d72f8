#include <algorithm>
#include <cmath>

#include "lakebound/quantity/error.hpp"
#include "lakebound/quantity/text.hpp"
#include "lakebound/report/grind_report.hpp"

namespace lakebound {

namespace {

constexpr double coverage = 0.90;
/// Scatter of a residue that sieving itself adds, of the charge; an estimate.
constexpr double sieving_repeats_to = 0.01;

struct Analysed {
    std::vector<SieveAnalysis> analyses;
    std::vector<GrindingTest> tests;
    bool same_screens = true;
};

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

double reading_uncertainty(const Residue& residue) {
    return std::hypot(residue.standard_uncertainty, sieving_repeats_to);
}

void choose_model(GrindSubject& subject, const Analysed& data) {
    const auto& target = subject.question.target;
    const auto& screens = subject.question.tests.front().test.screens;
    const bool target_is_screen = std::any_of(screens.begin(), screens.end(), [&](const ScreenMass& s) {
        return std::abs(s.aperture / target.residue_screen - 1.0) < 1e-6;
    });
    if (!data.same_screens)
        subject.why_one_screen = "the tests did not use the same screens";
    else if (!target_is_screen)
        subject.why_one_screen = "the target is none of the screens of the tests";
    else
        subject.why_one_screen = obstacle_to_breakage_fit(screens.size() + 1, data.tests.size());
    subject.model = subject.why_one_screen.empty() ? GrindModel::population_balance : GrindModel::one_screen;
}

BreakageFit fitted(std::span<const Length> classes, std::span<const GrindingTest> tests, unsigned resamples) {
    BreakageFitOptions options;
    options.resamples = resamples;
    return fit_breakage(classes, tests, options);
}

void fit_balance(GrindSubject& subject, const Analysed& data, Progress progress) {
    const auto& habits = subject.question.habits;
    const auto& first = data.analyses.front();
    const Length largest = habits.largest_grain.value_or(2.0 * *first.fractions.front().aperture);
    const auto classes = grinding_classes(first, largest);
    progress(0.05);
    subject.fit = fitted(classes, data.tests, 500);
    progress(0.5);
    const auto limit = class_limit(subject.fit->model, subject.question.target.residue_screen);
    const auto rate = parameter_interval(*subject.fit, BreakageParameter::log_rate, coverage);
    subject.rate_per_minute = CoverageInterval{60.0 * std::exp(rate.low), 60.0 * std::exp(rate.high)};
    const auto alpha = parameter_interval(*subject.fit, BreakageParameter::log_exponent, coverage);
    subject.selection_exponent = CoverageInterval{std::exp(alpha.low), std::exp(alpha.high)};
    const auto gamma = parameter_interval(*subject.fit, BreakageParameter::log_gamma, coverage);
    subject.breakage_exponent = CoverageInterval{std::exp(gamma.low), std::exp(gamma.high)};
    if (data.tests.size() < 3) return;
    const std::vector<GrindingTest> two(data.tests.begin(), data.tests.begin() + 2);
    if (!obstacle_to_breakage_fit(classes.size(), 2).empty()) return;
    try {
        const auto early = fitted(classes, two, 200);
        for (std::size_t i = 2; i < data.tests.size(); ++i) {
            const auto check = check_later_test(early, data.tests[i], limit);
            subject.later.push_back({data.tests[i].time, check.predicted, check.observed, check.deviations,
                                     check.slowing, check.faster});
        }
    } catch (const DomainError&) {
        // Two tests alone did not tell the parameters; then they foresee nothing to compare with.
    }
    progress(0.7);
}

void fit_law(GrindSubject& subject) {
    std::vector<ResidueReading> readings;
    for (const auto& row : subject.rows)
        readings.push_back({row.time, row.residue.share, reading_uncertainty(row.residue)});
    subject.law = fit_first_order(readings);
    if (readings.size() < 3) return;
    const auto early = fit_first_order(std::span(readings).first(2));
    for (std::size_t i = 2; i < readings.size(); ++i) {
        const auto check = check_later_reading(early, readings[i]);
        subject.later.push_back({readings[i].time, check.predicted, readings[i].residue.value(),
                                 check.deviations, check.slowing, check.faster});
    }
}

void forecast_time(GrindSubject& subject) {
    const double allowed = subject.question.target.allowed_residue.value().value();
    try {
        if (subject.fit) {
            const auto limit = class_limit(subject.fit->model, subject.question.target.residue_screen);
            const auto t = predicted_time(*subject.fit, limit, allowed, coverage);
            subject.one_long_grind = GrindTime{t.time, t.low, t.high};
        } else {
            const Time t = time_to_residue(*subject.law, allowed);
            if (subject.law->covariance) {
                const auto interval = time_interval(*subject.law, allowed, coverage);
                subject.one_long_grind = GrindTime{t, interval.low, interval.high};
            } else {
                subject.one_long_grind = GrindTime{t, t, std::nullopt};
            }
        }
    } catch (const DomainError& error) {
        subject.why_no_time = error.what();
    }
}

/// Times worth showing: the last test, then doubling, and when the target is reached.
std::vector<Time> forecast_times(const GrindSubject& subject) {
    std::vector<double> m;
    for (const auto& row : subject.rows)
        m.push_back(in_minutes(row.time));
    const double last = m.back();
    for (const double factor : {1.5, 2.0, 3.0, 4.0})
        m.push_back(std::round(last * factor));
    if (subject.one_long_grind) {
        const double end = std::ceil(in_minutes(subject.one_long_grind->time));
        m.erase(std::remove_if(m.begin() + static_cast<std::ptrdiff_t>(subject.rows.size()), m.end(),
                               [&](double x) { return x >= end; }),
                m.end());
        if (end > last) m.push_back(end);
    }
    std::vector<Time> times;
    for (const double x : m)
        if (times.empty() || minutes(x) > times.back()) times.push_back(minutes(x));
    return times;
}

void forecast(GrindSubject& subject) {
    const auto screen = subject.question.target.residue_screen;
    if (subject.fit)
        subject.screens.assign(subject.fit->model.class_sizes.begin() + 1,
                               subject.fit->model.class_sizes.end());
    else
        subject.screens = {screen};
    for (const Time& time : forecast_times(subject)) {
        GrindForecast row;
        row.time = time;
        if (subject.fit) {
            const auto fractions = predicted_fractions(*subject.fit, time);
            for (std::size_t i = 1; i < fractions.size(); ++i)
                row.passing.push_back(1.0 - residue_above(fractions, i));
            const auto limit = class_limit(subject.fit->model, screen);
            row.residue = residue_above(fractions, limit);
            // The redrawn tests know scatter, not that the powder grinds slower than the model can.
            if (!subject.slowing)
                row.interval = predicted_residue(*subject.fit, limit, time, coverage).interval;
        } else {
            row.residue = residue_at(*subject.law, time);
            row.passing = {1.0 - row.residue};
        }
        subject.forecast.push_back(std::move(row));
    }
}

GrindLoad load_now(const GrindSubject& subject, const Analysed& data) {
    const double exponent = subject.question.habits.load_exponent;
    if (!subject.fit)
        return one_screen_load(*subject.law, subject.now, subject.question.target.residue_screen, exponent);
    GrindLoad load;
    load.model = subject.fit->model;
    load.feed = data.tests.back().fractions; // what lies in the mortar now was measured
    load.limit = class_limit(load.model, subject.question.target.residue_screen);
    load.load_exponent = exponent;
    return load;
}

std::vector<Separation> separations(const GrindSubject& subject, const GrindLoad& load) {
    const auto& habits = subject.question.habits;
    const auto& target = subject.question.target;
    std::vector<Separation> ways;
    const auto advice = screening_advice(target.residue_screen, target);
    if (advice == ScreeningAdvice::dry_sieving)
        ways.push_back(
            sieving(load, habits.dry_efficiency, habits.handling.value_or(minutes(4.0)), subject.loss));
    if (advice != ScreeningAdvice::levigation) {
        auto wet = sieving(load, habits.wet_efficiency, habits.handling.value_or(minutes(10.0)), subject.loss);
        wet.name = "wet screening";
        wet.elapsed = wet.hands + habits.drying;
        ways.push_back(std::move(wet));
    }
    const Slurry slurry{subject.density, water_at(habits.water), VolumeFraction::of(0.02)};
    const LevigationHandling handling{minutes(3.0), minutes(1.0)};
    const auto plan =
        plan_levigation(target.residue_screen, millimetres(100.0), millimetres(80.0), 4, slurry, handling);
    const Length finest = std::min(micrometres(1.0), 0.1 * target.residue_screen);
    ways.push_back(levigating(load, plan, slurry, finest, habits.drying, subject.loss));
    return ways;
}

/// Rounds of whole minutes, which a kitchen clock can tell: the better of the two beside the best.
GrindPlan in_whole_minutes(const GrindLoad& load, const Separation& separation, const GrindTarget& target,
                           GrindPlan plan) {
    std::optional<GrindPlan> best;
    for (const double m : {std::floor(in_minutes(plan.cycle)), std::ceil(in_minutes(plan.cycle))}) {
        if (!(m >= 1.0)) continue;
        auto run = run_rounds(load, separation, minutes(m), target);
        if (run.reached && (!best || run.hands < best->run.hands))
            best = GrindPlan{plan.name, true, minutes(m), std::move(run)};
    }
    return best ? *best : plan;
}

void compare_ways(GrindSubject& subject, const GrindLoad& load, Progress progress) {
    const double allowed = subject.question.target.allowed_residue.value().value();
    const auto& habits = subject.question.habits;
    const auto ways = separations(subject, load);
    double done = 0.7;
    for (const auto& separation : ways) {
        std::optional<GrindWay> rounds;
        std::string reason;
        for (const bool first : {false, true}) {
            const GrindTarget target{allowed, 60, first};
            try {
                auto plan = in_whole_minutes(load, separation, target, best_rounds(load, separation, target));
                if (!rounds || plan.run.hands < rounds->plan.run.hands)
                    rounds = GrindWay{std::move(plan), separation, first, false};
            } catch (const DomainError& error) {
                reason = error.what();
            }
            if (habits.cycle) {
                auto run = run_rounds(load, separation, *habits.cycle, target);
                if (run.reached && !first)
                    subject.ways.push_back(
                        {{separation.name + " in rounds", true, *habits.cycle, std::move(run)},
                         separation,
                         first,
                         true});
                else if (!first)
                    subject.out_of_reach.push_back(separation.name +
                                                   " in rounds of your length: not reached in 60");
            }
        }
        if (rounds)
            subject.ways.push_back(std::move(*rounds));
        else
            subject.out_of_reach.push_back(separation.name + " in rounds: " + reason);
        try {
            auto run = one_long_grind(load, separation, {allowed, 60, false});
            const Time time = run.grinding;
            subject.ways.push_back({{"one long grind, then " + separation.name, false, time, std::move(run)},
                                    separation,
                                    false,
                                    false});
        } catch (const DomainError& error) {
            subject.out_of_reach.push_back("one long grind, then " + separation.name + ": " + error.what());
        }
        progress(done += 0.3 / static_cast<double>(ways.size()));
    }
    std::stable_sort(subject.ways.begin(), subject.ways.end(),
                     [](const GrindWay& a, const GrindWay& b) { return a.plan.run.hands < b.plan.run.hands; });
}

void settle_assumptions(GrindSubject& subject, const Analysed& data) {
    const auto& habits = subject.question.habits;
    double sum = 0.0;
    int weighed = 0;
    for (const auto& analysis : data.analyses)
        if (analysis.loss && *analysis.loss > 0.0) sum += *analysis.loss, ++weighed;
    if (habits.loss) {
        subject.loss = *habits.loss;
        subject.loss_origin = "as you say";
    } else if (weighed > 0) {
        subject.loss = Share::of(sum / weighed);
        subject.loss_origin = "as your tests lost";
    } else {
        subject.loss = Share::of(0.01);
        subject.loss_origin = "an estimate";
    }
    subject.density = grams_per_cubic_centimetre(1.88);
    subject.density_origin = "an estimate for an alumina lake";
    for (const auto& record : subject.question.tests)
        if (record.density) subject.density = *record.density, subject.density_origin = "as your tests say";
    if (habits.density) subject.density = *habits.density, subject.density_origin = "as you say";
}

} // namespace

GrindSubject grind_subject(GrindQuestion question, Progress progress) {
    GrindSubject subject;
    for (const auto& record : question.tests)
        if (!record.grinding_time)
            throw DomainError("grinding time of '" + record.name + "'", "unknown", "known for every test");
    // value_or: the compiler cannot see the check above and warns of a time that is not there.
    std::stable_sort(question.tests.begin(), question.tests.end(),
                     [](const SieveRecord& a, const SieveRecord& b) {
                         return a.grinding_time.value_or(Time{}) < b.grinding_time.value_or(Time{});
                     });
    subject.question = std::move(question);
    const auto& target = subject.question.target;
    const auto data = analysed(subject.question);
    for (std::size_t i = 0; i < data.analyses.size(); ++i) {
        GrindTestRow row{subject.question.tests[i].name, data.tests[i].time,
                         residue_over(data.analyses[i], target.residue_screen), std::nullopt, std::nullopt};
        row.with_loss = residue_with_loss(row.residue, data.analyses[i]);
        if (row.residue.reach != Reach::within)
            throw DomainError("target screen", quantity_text(target.residue_screen, "um"),
                              "between the coarsest and the finest screen of every test",
                              "sieve again with that screen; below 75 um sieve wet");
        if (subject.question.tests[i].test.screens.size() >= 2)
            row.d50 = percentile(passing_curve(data.analyses[i]), MassFraction::of(0.5));
        subject.rows.push_back(std::move(row));
    }
    subject.now = subject.rows.back().time;
    subject.residue_now = subject.rows.back().residue.share.value();
    subject.charge = data.analyses.back().recovered;
    settle_assumptions(subject, data);
    choose_model(subject, data);
    if (subject.model == GrindModel::population_balance)
        fit_balance(subject, data, progress);
    else
        fit_law(subject);
    for (const auto& check : subject.later)
        subject.slowing = subject.slowing || check.slowing;
    subject.fine_already = subject.residue_now <= target.allowed_residue.value().value();
    forecast_time(subject);
    forecast(subject);
    if (!subject.fine_already) compare_ways(subject, load_now(subject, data), progress);
    progress(1.0);
    return subject;
}

bool fine_part_in_water(const GrindWay& way) noexcept { return way.separation.name != "dry sieving"; }

bool will_not_get_there(const GrindSubject& subject) noexcept {
    return !subject.fine_already && subject.ways.empty();
}

MullSubject mull_subject(const MullQuestion& question) {
    MullSubject subject;
    subject.question = question;
    subject.mulling = fit_mulling(question.readings);
    subject.stop = stop_time(subject.mulling);
    subject.so_far = question.readings.back().time - question.readings.front().time;
    subject.more_to_stop = std::max(subject.stop - subject.so_far, Time{});
    if (question.target) {
        try {
            subject.reached = time_to_fineness(subject.mulling, *question.target);
            const Time left = std::max(*subject.reached - subject.so_far, Time{});
            // A kitchen clock, and a gauge that reads to 2 um: no seconds.
            subject.more_to_target = minutes(std::ceil(in_minutes(left) - 1e-6));
        } catch (const DomainError&) {
            subject.out_of_reach = true;
        }
    }
    return subject;
}

} // namespace lakebound
