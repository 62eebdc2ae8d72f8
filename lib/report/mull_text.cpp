#include <fmt/format.h>

#include "lakebound/report/grind_report.hpp"
#include "lakebound/quantity/rounded_text.hpp"
#include "lakebound/report/powder_words.hpp"
#include "page_builder.hpp"
#include "powder_page.hpp"

namespace lakebound {

page::Page mull_page(const MullAnswer& answer) {
    layout::PageBuilder page({.kind = "Mulling"});
    page.section("Do this");
    page.box();
    if (answer.out_of_reach)
        page.paragraph(
            fmt::format(
                "{} IS OUT OF REACH: no mulling goes below {}. A muller opens clumps, it does not break "
                "grains: back to the mortar, or levigate.",
                size_text(*answer.question.target), size_text(answer.mulling.end)),
            page::Tone::bad);
    const auto spell = time_text(answer.question.spell),
               gains = "gains less than " + size_text(answer.question.worth_gaining);
    const bool past = answer.past_stop;
    if (answer.more_to_target) {
        const auto target = size_text(*answer.question.target);
        const Time more = *answer.more_to_target;
        if (in_seconds(more) <= 0.0)
            page.paragraph("STOP: " + target + " is reached.", page::Tone::good);
        else
            page.paragraph(fmt::format("Mull {} more, to {} in all: {} is reached then.", time_text(more),
                                       time_text(answer.in_all), target),
                           page::Tone::good);
        page.paragraph(past ? fmt::format("Another {} {}: it does not pay.", spell, gains)
                            : fmt::format("After {} in all, another {} {}.", time_text(answer.stop), spell, gains));
    } else if (past) {
        page.paragraph(fmt::format("STOP: another {} {}: it does not pay.", spell, gains), page::Tone::good);
    } else {
        page.paragraph(fmt::format("Mull {} more, to {} in all; after that another {} {}.", time_text(answer.more_to_stop),
                                   time_text(answer.stop), spell, gains),
                       answer.out_of_reach ? page::Tone::plain : page::Tone::good);
    }
    page.section("Readings of the gauge");
    page::Table table{.caption = "Readings of the gauge",
                      .columns = {{.head = "mulled", .align = page::Align::left, .width = 12},
                                  {.head = "um", .align = page::Align::right, .width = 4},
                                  {.head = "Hegman", .align = page::Align::right, .width = 9},
                                  {.head = "curve", .align = page::Align::right, .width = 8}}};
    for (const auto& row : answer.rows)
        table.rows.push_back({.cells = {time_text(row.mulled), fixed_text(in_micrometres(row.read), 0),
                                        row.hegman ? fixed_text(*row.hegman, 1) : "-",
                                        fixed_text(in_micrometres(row.curve), 0)}});
    page.add(std::move(table));
    page.paragraph(fmt::format(
        "It tends to {} ± {} um; two thirds of the way are gone after {}. The gauge reads to ± {} um.",
        fixed_text(in_micrometres(answer.mulling.end), 0),
        significant_text(in_micrometres(answer.mulling.end_uncertainty), 1), time_text(answer.mulling.tau),
        fixed_text(gauge_half_width_um, 0)));
    layout::add_powder_cautions(page, PowderWork::grinding);
    return std::move(page).page();
}

std::string mull_text(const MullAnswer& answer, const TextOptions& options) {
    return page::write_text(mull_page(answer), options);
}

} // namespace lakebound
