#include "lakebound/shelf/bench_file.hpp"

#include "lakebound/shelf/reader.hpp"

namespace lakebound {
namespace {

Scale read_scale(const Node& node, Faults& faults) {
    const MapReader map(node, "a scale", {"name", "step", "capacity", "repeatability"}, faults);
    Scale scale;
    scale.name = map.text("name");
    scale.step = map.exact<Mass>("step", range::positive);
    scale.capacity = map.optional_exact<Mass>("capacity", range::positive);
    scale.repeatability = map.optional_exact<Mass>("repeatability", range::not_negative);
    if (scale.capacity && *scale.capacity <= scale.step) {
        Diagnostic fault =
            fault_at(*map.find("capacity"), "step-over-capacity", "a scale must carry more than one step",
                     "are step and capacity exchanged?");
        fault.second = SecondPlace{map.find("step")->excerpt(), "its step"};
        faults.add(std::move(fault));
    }
    return scale;
}

Syringe read_syringe(const Node& node, Faults& faults) {
    const MapReader map(node, "a syringe", {"name", "capacity", "step"}, faults);
    Syringe syringe;
    syringe.name = map.text("name");
    syringe.capacity = map.exact<Volume>("capacity", range::positive);
    syringe.step = map.exact<Volume>("step", range::positive);
    if (syringe.capacity < syringe.step && canonical(syringe.capacity) > 0.0) {
        Diagnostic fault =
            fault_at(*map.find("capacity"), "step-over-capacity", "a syringe must hold one step at least",
                     "are step and capacity exchanged?");
        fault.second = SecondPlace{map.find("step")->excerpt(), "its step"};
        faults.add(std::move(fault));
    }
    return syringe;
}

} // namespace

Bench read_bench(Document document) {
    require_kind(document, "bench");
    Faults& faults = document.faults;
    const MapReader map(document.root, "a bench file",
                        {"kind", "name", "include", "scales", "syringes", "drop", "teaspoon", "slab_loss",
                         "weighing_tolerance", "reserve", "humidity", "temperature", "note"},
                        faults);
    Bench bench;
    bench.name = map.text("name");
    for (const Node* node : map.list("scales", true))
        bench.scales.push_back(read_scale(*node, faults));
    for (const Node* node : map.list("syringes", false))
        bench.syringes.push_back(read_syringe(*node, faults));
    bench.kitchen.drop = map.optional_exact<Volume>("drop", range::positive);
    bench.kitchen.teaspoon = map.optional_exact<Volume>("teaspoon", range::positive);
    if (const Node* node = map.need("slab_loss")) {
        const MapReader loss(*node, "the slab loss", {"fixed", "share"}, faults);
        bench.slab_loss.fixed = loss.exact<Mass>("fixed", range::not_negative);
        bench.slab_loss.share = loss.exact<Share>(
            "share", {0.0, 0.9, false, "0 to 90 %", "what stays on the slab is a few percent"});
    }
    bench.weighing_tolerance = map.exact<Share>("weighing_tolerance", range::weighing_tolerance);
    bench.reserve = map.exact<Mass>("reserve", range::not_negative);
    bench.humidity = map.exact<RelativeHumidity>("humidity", range::not_negative);
    bench.temperature = map.exact<Temperature>("temperature", range::room_temperature);
    map.text_or_empty("note");
    faults.throw_if_any();
    return bench;
}

Bench read_bench_file(const std::string& path) { return read_bench(load_document(path)); }

} // namespace lakebound
