#include "lakebound/report/sweep_table.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include <fmt/format.h>

#include "lakebound/paint/sweep.hpp"
#include "lakebound/quantity/text.hpp"
#include "lakebound/material/name.hpp"
#include "lakebound/quantity/rounded_text.hpp"
#include "text_layout.hpp"

namespace lakebound {

namespace {

constexpr std::size_t greatest_size_ratio_sweep = 10'000;

void check(const SweepWish& wish) {
    const auto most = wish.over == SweepOver::size_ratio ? greatest_size_ratio_sweep : greatest_sweep;
    if (wish.points < 2 || wish.points > most)
        throw DomainError("number of points of the sweep", std::to_string(wish.points),
                          "2 to " + std::to_string(most), "a curve is smooth with 100 points");
    if (!(wish.from <= wish.to))
        throw DomainError("range of the sweep", number_text(wish.from) + " to " + number_text(wish.to),
                          "from the smaller to the larger", "exchange --from and --to");
}

/// The two pigments of a blend: the second is the extender.
std::array<BlendPigment, 2> pair_of(const PvcSubject& subject) {
    const auto& question = subject.question;
    const auto& parts = question.blend_measured ? question.blend_of : question.request.recipe.pigments;
    if (parts.size() != 2)
        throw DomainError("pigments of the paint", std::to_string(parts.size()), "two, the second the extender",
                          "name both: --pigment \"alumina-lake: 7 g\" --pigment \"chalk: 3 g\"");
    if (!question.density_known || !question.oil_absorption_known)
        throw DomainError("density and oil absorption of the two pigments", "not all known", "known",
                          "give them: --density \"ID: 1.88 g/cm3\" --oil-absorption \"ID: 68 g/100g\"");
    return {blend_pigment(parts[0].pigment), blend_pigment(parts[1].pigment)};
}

struct Columns {
    explicit Columns(std::size_t n) : at(n), k(n), pvc(n), cpvc(n), reduced(n), chance(n) {}
    std::vector<double> at, k, pvc, cpvc, reduced, chance;
    SweepColumns spans() { return {at, k, pvc, cpvc, reduced, chance}; }
};

SweepTable table_of(std::string title, SweepColumn first, Columns columns, const PvcSubject& subject) {
    first.values = std::move(columns.at);
    SweepTable table{std::move(title), {std::move(first)}};
    table.columns.push_back({"k", "k", false, std::move(columns.k), true});
    table.window = subject.family().window;
    if (subject.question.density_known) {
        table.columns.push_back({"pvc", "PVC", true, std::move(columns.pvc)});
        table.columns.push_back({"cpvc", "CPVC", true, std::move(columns.cpvc)});
        table.columns.push_back({"reduced_pvc", "Lambda", false, std::move(columns.reduced)});
    }
    table.columns.push_back({"chance_underbound", "underbound", true, std::move(columns.chance)});
    return table;
}

double sigma_of(const PvcSubject& subject) {
    if (!subject.base.chance)
        throw DomainError("oil absorption of the pigment", "not known", "known", "add --oil-absorption");
    return subject.base.chance->sigma;
}

SweepTable over_medium(const PvcSubject& subject, const SweepWish& wish) {
    const auto& formulation = subject.batch().formulation;
    MediumSweep sweep{MediumPerPigment::of(wish.from),
                      MediumPerPigment::of(wish.to),
                      formulation.medium.dry_binder,
                      formulation.binder_from_additives,
                      formulation.effective_demand,
                      formulation.pigment.density,
                      sigma_of(subject)};
    Columns columns(wish.points);
    sweep_medium(sweep, columns.spans());
    auto table = table_of("Over the medium, g for each g of pigment", {"medium_per_pigment", "medium g/g", false, {}},
                          std::move(columns), subject);
    const auto now = formulation.medium_per_pigment;
    if (covers(sweep, now)) table.here = now.value(), table.k_here = subject.batch().film.k;
    return table;
}

SweepTable over_extender(const PvcSubject& subject, const SweepWish& wish) {
    const auto pair = pair_of(subject);
    const auto& family = subject.family();
    const auto& batch = subject.batch();
    ExtenderSweep sweep{MassFraction::of(wish.from),
                        MassFraction::of(wish.to),
                        effective_demand(pair[0].demand, family.binder_index.value()),
                        effective_demand(pair[1].demand, family.binder_index.value()),
                        pair[0].density,
                        pair[1].density,
                        batch.volumes.dry_binder / batch.pigment,
                        sigma_of(subject)};
    Columns columns(wish.points);
    sweep_extender(sweep, columns.spans());
    // Binder that just fills: of the fixed binder, what k says is too much of it.
    std::vector<double> demand(wish.points);
    for (std::size_t i = 0; i < demand.size(); ++i)
        demand[i] = in_millilitres_per_gram(sweep.binder) / columns.k[i];
    auto table = table_of("Over the extender, by weight of all pigment, binder as it is",
                          {"extender_mass_fraction", "extender", true, {}}, std::move(columns), subject);
    table.columns.insert(table.columns.begin() + 1,
                         {"binder_demand_ml_per_g", "fills mL/g", false, std::move(demand)});
    return table;
}

SweepTable over_size_ratio(const PvcSubject& subject, const SweepWish& wish) {
    const auto pair = pair_of(subject);
    std::vector<double> ratios(wish.points);
    const double step = (wish.to - wish.from) / static_cast<double>(wish.points - 1);
    for (std::size_t i = 0; i < ratios.size(); ++i)
        ratios[i] = i + 1 == ratios.size() ? wish.to : wish.from + step * static_cast<double>(i);
    const auto points = size_ratio_curve(pair[0], pair[1], subject.blend.value().volume_shares.at(1), ratios);
    SweepTable table{"Over the grain size of the extender, in sizes of the pigment",
                     {{"size_ratio", "ratio", false, {}},
                      {"additive_cpvc", "CPVC additive", true, {}, true},
                      {"possible_cpvc", "CPVC possible", true, {}, true},
                      {"possible_saving", "saving", true, {}}}};
    for (const auto& point : points) {
        table.columns[0].values.push_back(point.ratio);
        table.columns[1].values.push_back(point.blend.additive_cpvc.value());
        table.columns[2].values.push_back(point.blend.possible_cpvc.value().value());
        table.columns[3].values.push_back(point.blend.possible_saving);
    }
    return table;
}

std::size_t rows(const SweepTable& table) { return table.columns.front().values.size(); }

/// Of each column: even where the terminal is wide enough for that, else no wider than what stands in it.
std::vector<std::size_t> widths_of(const SweepTable& table, std::size_t width) {
    std::vector<std::size_t> even, narrow;
    for (const auto& column : table.columns) {
        even.push_back(std::max<std::size_t>(13, column.heading.size() + 2));
        std::size_t widest = column.heading.size();
        for (const double x : column.values)
            widest = std::max(widest, sweep_cell(column, x).size());
        narrow.push_back(widest + 2);
    }
    return std::accumulate(even.begin(), even.end(), std::size_t{0}) <= width ? even : narrow;
}

} // namespace

SweepWish usual_range(SweepOver over, const PvcSubject& subject) {
    const double now = subject.batch().formulation.medium_per_pigment.value();
    switch (over) {
    case SweepOver::medium:
        return {over, 0.25 * now, 2.0 * now, 8};
    case SweepOver::extender:
        return {over, 0.0, 1.0, 11};
    case SweepOver::size_ratio:
        return {over, 1.0, 30.0, 11};
    }
    return {};
}

SweepTable sweep_table(const PvcSubject& subject, const SweepWish& wish) {
    check(wish);
    auto table = wish.over == SweepOver::medium     ? over_medium(subject, wish)
                 : wish.over == SweepOver::extender ? over_extender(subject, wish)
                                                    : over_size_ratio(subject, wish);
    table.paint = subject.question.title;
    return table;
}

std::string sweep_cell(const SweepColumn& column, double x) {
    if (!column.percent) return significant_text(x, 3);
    if (column.key == "chance_underbound" && x < 0.0005) return "below 0.1 %";
    return fmt::format("{:.1f} %", 100.0 * x);
}

std::string sweep_text(const SweepTable& table, std::size_t width) {
    const std::vector<std::size_t> widths = widths_of(table, width);
    std::string text = table.title + "\n";
    // As many columns as fit, each block with the first of them; one at least, however narrow it is.
    for (std::size_t from = 1; from < widths.size();) {
        std::size_t to = from, taken = widths.front();
        while (to < widths.size() && (to == from || taken + widths[to] <= width))
            taken += widths[to++];
        const auto line = [&](auto cell) {
            text += layout::right_aligned(cell(table.columns.front()), widths.front());
            for (std::size_t c = from; c < to; ++c)
                text += layout::right_aligned(cell(table.columns[c]), widths[c]);
            text += '\n';
        };
        text += '\n';
        line([](const SweepColumn& column) { return column.heading; });
        for (std::size_t i = 0; i < rows(table); ++i)
            line([i](const SweepColumn& column) { return sweep_cell(column, column.values[i]); });
        from = to;
    }
    return text;
}

std::string sweep_csv(const SweepTable& table) {
    fmt::memory_buffer out;
    for (std::size_t c = 0; c < table.columns.size(); ++c)
        fmt::format_to(std::back_inserter(out), "{}{}", c == 0 ? "" : ",", table.columns[c].key);
    out.push_back('\n');
    for (std::size_t i = 0; i < rows(table); ++i) {
        for (std::size_t c = 0; c < table.columns.size(); ++c)
            fmt::format_to(std::back_inserter(out), "{}{}", c == 0 ? "" : ",", table.columns[c].values[i]);
        out.push_back('\n');
    }
    return fmt::to_string(out);
}

} // namespace lakebound
