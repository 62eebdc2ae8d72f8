#include "lakebound/report/layer_report.hpp"

#include <fmt/format.h>

#include "json_pieces.hpp"
#include "lakebound/quantity/rounded_text.hpp"
#include "page_builder.hpp"

namespace lakebound {

namespace {

using json_pieces::Json;
using layout::PageBuilder;
using page::Align;
using page::Tone;

} // namespace

page::Page layer_page(const LayerAnswer& answer) {
    const auto& layers = answer.from_the_ground_up;
    const auto oil = [](const LayerAnswer::Layer& layer) { return percent_text(layer.oil_by_volume.value()); };
    PageBuilder page({.kind = "Fat over lean"});
    page.section("Verdict").heading_shown = false;
    page::Verdict verdict{.head = answer.in_order() ? "In order" : "Lean over fat",
                          .tone = answer.in_order() ? Tone::good : Tone::bad,
                          .seal = answer.in_order() ? page::Verdict::Seal::holds : page::Verdict::Seal::fails};
    for (const auto& fault : answer.lean_over_fat) {
        const auto &upper = layers.at(fault.upper), &lower = layers.at(fault.lower);
        verdict.body.push_back(page::Paragraph{
            fmt::format("{} lies over {}, which holds more oil by volume ({} against {}): it may cure "
                        "first and crack over the softer film.",
                        upper.paint.name, lower.paint.name, oil(lower), oil(upper))});
    }
    page.add(std::move(verdict));
    page.section("From the ground up");
    page::Table table{.caption = "Layers from the ground up",
                      .columns = {{.align = Align::left, .width = 44},
                                  {.head = "oil by volume", .align = Align::right, .width = 15},
                                  {.head = "by weight", .align = Align::right, .width = 12}}};
    for (const auto& layer : layers)
        table.rows.push_back({.cells = {fmt::format("{}  {}", table.rows.size() + 1, layer.paint.name), oil(layer),
                                        percent_text(layer.paint.oil_by_mass.value())}});
    page.add(std::move(table));
    if (!answer.in_order()) {
        page.section("Better in this order");
        page::Steps steps;
        for (const auto i : answer.lean_to_fat)
            steps.steps.emplace_back(layers.at(i).paint.name);
        page.add(std::move(steps));
    }
    page.section();
    const auto alike =
        answer.alike > 0.0
            ? fmt::format(" Differences below {:.3g} % of the film are not told apart.", 100.0 * answer.alike)
            : std::string();
    page.note("Judged by volume, which is what a film is made of; weights mislead, for pigments differ in "
              "density." +
              alike);
    return std::move(page).page();
}

std::string layer_text(const LayerAnswer& answer, const TextOptions& options) {
    return page::write_text(layer_page(answer), options);
}

std::string layer_json(const LayerAnswer& answer) {
    Json json = json_pieces::envelope("layers", 1);
    json["in_order"] = answer.in_order();
    json["from_the_ground_up"] = Json::array();
    for (const auto& layer : answer.from_the_ground_up)
        json["from_the_ground_up"].push_back({{"name", layer.paint.name},
                                              {"oil_volume_fraction", layer.oil_by_volume.value()},
                                              {"oil_mass_fraction", layer.paint.oil_by_mass.value()},
                                              {"pvc", layer.paint.pvc.value()}});
    json["lean_over_fat"] = Json::array();
    for (const auto& fault : answer.lean_over_fat)
        json["lean_over_fat"].push_back(
            {{"upper", fault.upper}, {"lower", fault.lower}, {"difference", fault.difference}});
    json["lean_to_fat"] = answer.lean_to_fat;
    return json_pieces::json_text(json);
}

} // namespace lakebound
