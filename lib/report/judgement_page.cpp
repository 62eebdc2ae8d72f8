#include "lakebound/report/judgement_page.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "amount_words.hpp"
#include "judgement_tone.hpp"
#include "lakebound/paint/window_curve.hpp"
#include "lakebound/report/chance_words.hpp"
#include "lakebound/material/name.hpp"
#include "lakebound/quantity/rounded_text.hpp"
#include "lakebound/report/objection_words.hpp"
#include "lakebound/report/verdict_words.hpp"
#include "lakebound/report/warning_words.hpp"
#include "text_layout.hpp"

namespace lakebound {

namespace {

constexpr std::size_t dots = 20, curve_points = 41, graduations = 6;

bool binds(const Judgement& judgement) {
    return std::none_of(judgement.objections.begin(), judgement.objections.end(), [](const Objection& objection) {
        return objection.kind == ObjectionKind::does_not_bind;
    });
}

page::Verdict::Seal seal_of(const Judgement& judgement) {
    if (!judgement.holds) return page::Verdict::Seal::fails;
    return layout::is_surely_good(judgement) ? page::Verdict::Seal::holds : page::Verdict::Seal::may_hold;
}

/// Steps of 0.2, or of more where the range is wide.
double tick_step(double range) {
    for (const double step : {0.2, 0.5, 1.0, 2.0, 5.0, 10.0})
        if (range / step <= 8.0) return step;
    return 50.0;
}

page::Axis k_axis(double low, double high) {
    page::Axis axis{.name = "k"};
    const double step = tick_step(high - low);
    axis.low = std::max(0.0, std::floor(low / step) * step);
    axis.high = std::ceil(high / step) * step;
    return axis;
}

page::Picture dot_picture(const Judgement& judgement, const NormalMixture& doubt, const SufficiencyWindow& window) {
    page::DotPlot plot{.question = fmt::format("Where {} mixes like this would land", dots)};
    for (const auto& k : equal_chances(judgement.k, doubt, dots))
        plot.values.push_back(k.value());
    // About the window, however far a mix lies from it: dots beyond an end stand at that end.
    plot.axis = k_axis(std::max(std::min(plot.values.front(), 0.95), 0.6 * window.amber_low.value()),
                       std::clamp(plot.values.back(), 1.05 * window.green_high.value(), 1.4 * window.amber_high.value()));
    plot.window = {window.green_low.value(), window.green_high.value(), "holds"};
    // Matt paints hold with a little air in them: there the line would part nothing.
    if (window.wants_voids_filled()) plot.limits = {{1.0, "underbound", true}};
    plot.caption = fmt::format("Each dot: one mix in {}. Open dots miss the window.", dots);
    return {std::move(plot)};
}

page::Words chance_in_whole_numbers(const Judgement& judgement) {
    const auto parts = of_hundred(judgement.chances);
    return page::strong(fmt::format("{} of 100", parts.in_window)) +
           fmt::format(" mixes made like this land in the window; {} fall below it and {} above.", parts.leaner,
                       parts.richer);
}

} // namespace

OfHundred of_hundred(const WindowChances& chances) {
    // The largest remainders get what rounding down leaves.
    const std::array<double, 3> exact{100.0 * chances.below_green.value(), 100.0 * chances.in_window.value(),
                                      100.0 * chances.above_green.value()};
    std::array<int, 3> whole{};
    int left = 100;
    for (std::size_t i = 0; i < 3; ++i)
        left -= whole[i] = static_cast<int>(std::floor(exact[i]));
    std::array<std::size_t, 3> order{0, 1, 2};
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return exact[a] - whole[a] > exact[b] - whole[b]; });
    for (std::size_t i = 0; i < 3 && left > 0; ++i, --left)
        ++whole[order[i]];
    return {whole[0], whole[1], whole[2]};
}

page::Verdict verdict_block(const BatchSubject& subject) {
    const auto& judgement = subject.judgement.value();
    const auto& family = subject.request.recipe.family;
    page::Verdict verdict{.head = layout::capitalised(verdict_head(judgement, family.process)),
                          .figure = "k " + sufficiency_text(judgement.k),
                          .tone = layout::tone_of(judgement),
                          .seal = seal_of(judgement)};
    for (const auto& objection : judgement.objections)
        verdict.body.push_back(page::Paragraph{objection_text(objection, subject.request, *subject.answer.batch)});
    if (judgement.objections.empty())
        verdict.body.push_back(page::Paragraph{verdict_words(judgement.verdict, family.process).detail});
    verdict.body.push_back(page::Paragraph{
        fmt::format("k is binder over what just fills the pigment. {} holds from {} to {} (provisional).", family.name,
                    sufficiency_text(family.window.green_low), sufficiency_text(family.window.green_high))});
    // Of a mixture that does not bind, no share lands in a window of paints that do.
    if (!binds(judgement)) return verdict;
    verdict.body.push_back(page::Block(page::Paragraph{window_chance_text(judgement, family.window)}));
    if (subject.chance) {
        verdict.chance = chance_in_whole_numbers(judgement);
        verdict.chance_shown = page::Shown::html_only;
        verdict.beside = {page::Block(dot_picture(judgement, subject.chance->doubt, family.window),
                                      page::Shown::html_only)};
    }
    return verdict;
}

page::Picture medium_picture(const BatchSubject& subject) {
    const auto& judgement = subject.judgement.value();
    const auto& chance = subject.chance.value();
    const auto& batch = subject.answer.batch.value();
    const auto& window = subject.request.recipe.family.window;
    const auto curve = window_curve(batch, chance.doubt, window, curve_points);
    page::Chart chart{.question = "How much medium holds"};
    chart.x = {.name = fmt::format("medium to {} of pigment", total_text(batch.pigment, subject.request.bench)),
               .unit = "g",
               .low = in_grams(curve.front().medium),
               .high = in_grams(curve.back().medium)};
    chart.y = k_axis(curve.front().k.value(), curve.back().k.value());
    page::Series line, low{.stroke = page::Stroke::thin_dashed}, high{.stroke = page::Stroke::thin_dashed};
    for (const auto& point : curve) {
        const double grams = in_grams(point.medium);
        line.points.push_back({grams, point.k.value()});
        low.points.push_back({grams, point.likely_low.value()});
        if (point.likely_high.value() <= chart.y.high) high.points.push_back({grams, point.likely_high.value()});
    }
    chart.series = {std::move(line), std::move(low), std::move(high)};
    chart.bands = {{window.green_low.value(), window.green_high.value(),
                    fmt::format("holds, {} to {}", sufficiency_text(window.green_low), sufficiency_text(window.green_high))}};
    chart.limits = {{1.0, window.wants_voids_filled() ? "underbound below 1.00" : "just filled at 1.00"}};
    const auto reach = [&](double low_share, double high_share) {
        return page::Interval{k_below_which(low_share, judgement.k, chance.doubt).value(),
                              k_below_which(high_share, judgement.k, chance.doubt).value()};
    };
    chart.marks = {{.at = {in_grams(batch.medium), judgement.k.value()},
                    .symbol = page::Symbol::diamond,
                    .label = "this batch, k " + sufficiency_text(judgement.k),
                    .likely = reach(1.0 / 6.0, 5.0 / 6.0),
                    .nearly_sure = reach(0.05, 0.95),
                    .dropped = true}};
    page::Graduation graduation{.name = "of 100 mixes, so many land in the window"};
    for (std::size_t i = 0; i < graduations; ++i) {
        const auto& point = curve[i * (curve.size() - 1) / (graduations - 1)];
        graduation.entries.push_back({in_grams(point.medium), std::to_string(of_hundred(point.chances).in_window)});
    }
    chart.graduation = std::move(graduation);
    chart.caption = "Dashed: two times in three the true k lies between. The thick bar says the same of this batch, "
                    "the thin one nine times in ten.";
    return {std::move(chart)};
}

page::Picture doubt_picture(const BatchSubject& subject) {
    const auto& chance = subject.chance.value();
    const auto& lines = chance.ln_k.lines;
    std::vector<std::size_t> order(lines.size());
    for (std::size_t i = 0; i < order.size(); ++i)
        order[i] = i;
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return lines[a].share > lines[b].share; });
    constexpr std::size_t most_bars = 5;
    constexpr double least_share = 0.01;
    page::Bars bars{.question = "Where the doubt in k comes from", .full = 1.0};
    double rest = 0.0;
    for (const auto i : order) {
        const auto& line = lines[i];
        if (bars.bars.size() >= most_bars || line.share < least_share) {
            rest += line.share;
            continue;
        }
        std::string label = chance_input_words(chance.kinds.at(i));
        if (!chance.subjects.at(i).empty())
            label += ", " + short_name(name_of(chance.subjects[i], subject.request));
        const bool measured = line.provenance.origin == Origin::measured;
        bars.bars.push_back({label,
                             {{line.share, measured ? page::Fill::solid : page::Fill::hatched}},
                             percent_text(line.share)});
    }
    if (rest > 0.0)
        bars.bars.push_back({"all the rest", {{rest, page::Fill::hatched}}, percent_text(rest)});
    bars.caption = "Solid bars rest on your own measurements, hatched ones do not.";
    return {std::move(bars)};
}

} // namespace lakebound
