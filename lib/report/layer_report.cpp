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

std::vector<VolumeFraction> oil_volumes(const std::vector<LayerPaint>& layers) {
    std::vector<VolumeFraction> shares;
    for (const auto& layer : layers)
        shares.push_back(oil_volume_fraction(layer.pvc));
    return shares;
}

} // namespace

bool lies_lean_over_fat(const std::vector<LayerPaint>& layers, double alike) {
    return !lean_over_fat(oil_volumes(layers), alike).empty();
}

page::Page layer_page(const std::vector<LayerPaint>& layers, double alike) {
    const auto shares = oil_volumes(layers);
    const auto faults = lean_over_fat(shares, alike);
    PageBuilder page({.kind = "Fat over lean"});
    page.section("Verdict").heading_shown = false;
    page::Verdict verdict{.head = faults.empty() ? "In order" : "Lean over fat",
                          .tone = faults.empty() ? Tone::good : Tone::bad,
                          .seal = faults.empty() ? page::Verdict::Seal::holds : page::Verdict::Seal::fails};
    for (const auto& fault : faults)
        verdict.body.push_back(page::Paragraph{
            fmt::format("{} lies over {}, which holds more oil by volume ({} against {}): it may cure "
                        "first and crack over the softer film.",
                        layers[fault.upper].name, layers[fault.lower].name,
                        percent_text(shares[fault.lower].value()), percent_text(shares[fault.upper].value()))});
    page.add(std::move(verdict));
    page.section("From the ground up");
    page::Table table{.caption = "Layers from the ground up",
                      .columns = {{.align = Align::left, .width = 44},
                                  {.head = "oil by volume", .align = Align::right, .width = 15},
                                  {.head = "by weight", .align = Align::right, .width = 12}}};
    for (std::size_t i = 0; i < layers.size(); ++i)
        table.rows.push_back({.cells = {fmt::format("{}  {}", i + 1, layers[i].name), percent_text(shares[i].value()),
                                        percent_text(layers[i].oil_by_mass.value())}});
    page.add(std::move(table));
    if (!faults.empty()) {
        page.section("Better in this order");
        page::Steps steps;
        for (const auto i : lean_to_fat(shares))
            steps.steps.emplace_back(layers[i].name);
        page.add(std::move(steps));
    }
    page.section();
    page.note("Judged by volume, which is what a film is made of; weights mislead, for pigments differ in "
              "density. Differences below 2 % of the film are not told apart.");
    return std::move(page).page();
}

std::string layer_text(const std::vector<LayerPaint>& layers, double alike, const TextOptions& options) {
    return page::write_text(layer_page(layers, alike), options);
}

std::string layer_json(const std::vector<LayerPaint>& layers, double alike) {
    const auto shares = oil_volumes(layers);
    Json json = json_pieces::envelope("layers", 1);
    json["in_order"] = !lies_lean_over_fat(layers, alike);
    json["from_the_ground_up"] = Json::array();
    for (std::size_t i = 0; i < layers.size(); ++i)
        json["from_the_ground_up"].push_back({{"name", layers[i].name},
                                              {"oil_volume_fraction", shares[i].value()},
                                              {"oil_mass_fraction", layers[i].oil_by_mass.value()},
                                              {"pvc", layers[i].pvc.value()}});
    json["lean_over_fat"] = Json::array();
    for (const auto& fault : lean_over_fat(shares, alike))
        json["lean_over_fat"].push_back(
            {{"upper", fault.upper}, {"lower", fault.lower}, {"difference", fault.difference}});
    json["lean_to_fat"] = lean_to_fat(shares);
    return json_pieces::json_text(json);
}

} // namespace lakebound
