#include "lakebound/shelf/bench_reading_file.hpp"

#include <type_traits>
#include <utility>
#include <variant>

#include "lakebound/material/bench_practice.hpp"
#include "lakebound/shelf/domain_fault.hpp"
#include "lakebound/shelf/reader.hpp"
#include "rub_out_text.hpp"

namespace lakebound {
namespace {

Instrument<Mass> read_scale(const MapReader& map) {
    return {map.exact<Mass>("scale", range::positive),
            map.optional_exact<Mass>("repeatability", range::not_negative).value_or(Mass())};
}

RubOutSeries read_rub_outs(const Node& root, Faults& faults) {
    const MapReader map(root, "a rub-out reading",
                        {"kind", "name", "test", "scale", "repeatability", "dropper", "rub_outs", "note"},
                        faults);
    RubOutSeries series;
    const auto scale = read_scale(map);
    series.dropper = read_dropper(map, scale, faults);
    for (const Node* node : map.list("rub_outs", true))
        series.rub_outs.push_back(read_rub_out(MapReader(*node, "a rub-out", {"pigment", "oil"}, faults), scale,
                                               series.dropper.has_value(), faults));
    return series;
}

Pyknometer read_pyknometer(const Node& root, Faults& faults) {
    const MapReader map(root, "a pyknometer reading",
                        {"kind", "name", "test", "scale", "repeatability", "full_of_liquid", "pigment",
                         "pigment_and_liquid", "liquid", "note"},
                        faults);
    Pyknometer test;
    test.scale = read_scale(map);
    test.full_of_liquid = map.exact<Mass>("full_of_liquid", range::positive);
    test.pigment = map.exact<Mass>("pigment", range::positive);
    test.pigment_and_liquid = map.exact<Mass>("pigment_and_liquid", range::positive);
    test.liquid = map.exact<MassDensity>("liquid", range::density);
    return test;
}

Displacement read_displacement(const Node& root, Faults& faults) {
    const MapReader map(
        root, "a displacement reading",
        {"kind", "name", "test", "scale", "repeatability", "pigment", "graduate", "before", "after", "note"},
        faults);
    Displacement test;
    test.scale = read_scale(map);
    test.pigment = map.exact<Mass>("pigment", range::positive);
    test.graduate = {map.exact<Volume>("graduate", range::positive), Volume()};
    test.before = map.exact<Volume>("before", range::not_negative);
    test.after = map.exact<Volume>("after", range::positive);
    return test;
}

TappedFillReading read_tapped_fill(const Node& root, Faults& faults) {
    const MapReader map(
        root, "a tapped fill reading",
        {"kind", "name", "test", "scale", "repeatability", "ruler", "diameter", "height", "powder", "note"},
        faults);
    TappedFillReading reading;
    reading.scale = read_scale(map);
    reading.fill.ruler = {map.exact<Length>("ruler", range::positive), Length()};
    reading.fill.diameter = map.exact<Length>("diameter", range::positive);
    reading.fill.height = map.exact<Length>("height", range::positive);
    reading.powder = map.exact<Mass>("powder", range::positive);
    return reading;
}

DryingTest read_drying(const Node& root, Faults& faults) {
    const MapReader map(
        root, "a drying reading",
        {"kind", "name", "test", "scale", "repeatability", "dish", "dish_and_wet", "dish_and_dry", "note"},
        faults);
    DryingTest test;
    test.scale = read_scale(map);
    test.dish = map.exact<Mass>("dish", range::not_negative);
    test.dish_and_wet = map.exact<Mass>("dish_and_wet", range::positive);
    test.dish_and_dry = map.exact<Mass>("dish_and_dry", range::not_negative);
    return test;
}

/// A reading that no powder gives is a fault of its file, told where it stands: what it comes to is computed once
/// here and thrown away. How well rub-outs repeat does not matter to that.
void check_reading(const BenchReading& reading, const Node& root, Faults& faults) {
    constexpr RubOutPrior any{0.1, 1.0, 0.1};
    const auto compute = [&any](const auto& test) {
        using Test = std::decay_t<decltype(test)>;
        if constexpr (std::is_same_v<Test, RubOutSeries>)
            test.dropper ? static_cast<void>(oil_absorption_by_rub_out(test.rub_outs, *test.dropper, any))
                         : static_cast<void>(oil_absorption_by_rub_out(test.rub_outs, any));
        else if constexpr (std::is_same_v<Test, Pyknometer>)
            static_cast<void>(density_by_pyknometer(test));
        else if constexpr (std::is_same_v<Test, Displacement>)
            static_cast<void>(density_by_displacement(test));
        else if constexpr (std::is_same_v<Test, TappedFillReading>)
            static_cast<void>(tapped_density(test.fill, test.powder, test.scale));
        else if constexpr (std::is_same_v<Test, MediumSolidsReading>)
            static_cast<void>(non_volatile_by_drying(test.test));
        else
            static_cast<void>(moisture_by_drying(test.test));
    };
    try {
        std::visit(compute, reading.test);
    } catch (const DomainError& error) {
        const Node* readings = root.find("rub_outs");
        faults.add(fault_at(readings != nullptr ? *readings : *root.find("test"), "out-of-range", domain_sentence(error),
                            error.mend()));
    }
}

} // namespace

BenchReading read_bench_reading(Document document) {
    require_kind(document, "bench reading");
    Faults& faults = document.faults;
    const Node& root = document.root;
    const Node* test = root.find("test");
    BenchReading reading;
    if (test == nullptr) {
        faults.add(fault_at(root, "key-missing", "a bench reading needs 'test'",
                            "one of rub-out, pyknometer, displacement, tapped fill, medium solids, moisture"));
    } else {
        switch (read_word(*test, "test",
                          {"rub-out", "pyknometer", "displacement", "tapped fill", "medium solids", "moisture"},
                          faults)
                    .value_or(6)) {
        case 0:
            reading.test = read_rub_outs(root, faults);
            break;
        case 1:
            reading.test = read_pyknometer(root, faults);
            break;
        case 2:
            reading.test = read_displacement(root, faults);
            break;
        case 3:
            reading.test = read_tapped_fill(root, faults);
            break;
        case 4:
            reading.test = MediumSolidsReading{read_drying(root, faults)};
            break;
        case 5:
            reading.test = MoistureReading{read_drying(root, faults)};
            break;
        default:
            break;
        }
    }
    if (const Node* name = root.find("name")) {
        reading.name = read_text(*name, "name", faults).value_or("");
    } else {
        faults.add(
            fault_at(root, "key-missing", "a bench reading needs 'name'", "say what was measured, and when"));
    }
    if (const Node* note = root.find("note")) (void)read_text(*note, "note", faults);
    faults.throw_if_any();
    check_reading(reading, root, faults);
    faults.throw_if_any();
    return reading;
}

BenchReading read_bench_reading_file(const std::string& path) {
    return read_bench_reading(load_document(path));
}

} // namespace lakebound
