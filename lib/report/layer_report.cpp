#include "lakebound/report/layer_report.hpp"

#include <fmt/format.h>

#include "json_pieces.hpp"
#include "lakebound/report/number.hpp"
#include "text_layout.hpp"

namespace lakebound {

namespace {

using json_pieces::Json;
using layout::Page;
using layout::Tone;

std::vector<VolumeFraction> oil_volumes(const std::vector<LayerPaint>& layers) {
    std::vector<VolumeFraction> shares;
    for (const auto& layer : layers)
        shares.push_back(oil_volume_fraction(layer.pvc));
    return shares;
}

} // namespace

bool lies_lean_over_fat(const std::vector<LayerPaint>& layers) {
    return !lean_over_fat(oil_volumes(layers)).empty();
}

std::string layer_text(const std::vector<LayerPaint>& layers, const TextOptions& options) {
    const auto shares = oil_volumes(layers);
    const auto faults = lean_over_fat(shares);
    Page page(options.colour);
    page.line("FAT OVER LEAN", Tone::heading);
    page.blank();
    page.line(faults.empty() ? "  IN ORDER" : "  LEAN OVER FAT", faults.empty() ? Tone::good : Tone::bad);
    for (const auto& fault : faults)
        page.paragraph(
            fmt::format("{} lies over {}, which holds more oil by volume ({} against {}): it may cure "
                        "first and crack over the softer film.",
                        layers[fault.upper].name, layers[fault.lower].name,
                        percent_text(shares[fault.lower].value()), percent_text(shares[fault.upper].value())));
    page.heading("From the ground up");
    page.line("  " + layout::padded("", 44) + layout::right_aligned("oil by volume", 15) +
              layout::right_aligned("by weight", 12));
    for (std::size_t i = 0; i < layers.size(); ++i)
        page.line("  " + layout::padded(fmt::format("{}  {}", i + 1, layers[i].name), 44) +
                  layout::right_aligned(percent_text(shares[i].value()), 15) +
                  layout::right_aligned(percent_text(layers[i].oil_by_mass.value()), 12));
    if (!faults.empty()) {
        page.heading("Better in this order");
        std::size_t number = 1;
        for (const auto i : lean_to_fat(shares))
            page.line(fmt::format("  {}  {}", number++, layers[i].name));
    }
    page.blank();
    page.paragraph("Judged by volume, which is what a film is made of; weights mislead, for pigments differ in "
                   "density. Differences below 2 % of the film are not told apart.");
    return page.text();
}

std::string layer_json(const std::vector<LayerPaint>& layers) {
    const auto shares = oil_volumes(layers);
    Json json{{"schema_version", 1}, {"kind", "layers"}, {"in_order", !lies_lean_over_fat(layers)}};
    json["from_the_ground_up"] = Json::array();
    for (std::size_t i = 0; i < layers.size(); ++i)
        json["from_the_ground_up"].push_back({{"name", layers[i].name},
                                              {"oil_volume_fraction", shares[i].value()},
                                              {"oil_mass_fraction", layers[i].oil_by_mass.value()},
                                              {"pvc", layers[i].pvc.value()}});
    json["lean_over_fat"] = Json::array();
    for (const auto& fault : lean_over_fat(shares))
        json["lean_over_fat"].push_back(
            {{"upper", fault.upper}, {"lower", fault.lower}, {"difference", fault.difference}});
    json["lean_to_fat"] = lean_to_fat(shares);
    return json.dump(2) + "\n";
}

} // namespace lakebound
