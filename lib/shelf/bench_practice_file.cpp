#include "lakebound/shelf/bench_practice_file.hpp"

#include <utility>

#include "lakebound/shelf/reader.hpp"

namespace lakebound {
namespace {

struct PracticeTag {
    static constexpr const char* name = "figure of bench practice";
    static constexpr const char* range = "0 to 1000";
    static constexpr double lowest = 0.0, highest = 1000.0;
};
using PracticeFigure = Ratio<PracticeTag>;

} // namespace

template <> struct DimensionOf<PracticeFigure> { static constexpr Dimension value = Dimension::pure_number; };

namespace {

/// {values: [10 % w/w, ...], evidence: {...}}, from the strongest down.
std::vector<MassFraction> read_strengths(const MapReader& map) {
    const Node* node = map.need("stock_strengths");
    std::vector<MassFraction> strengths;
    if (node == nullptr) return strengths;
    const MapReader list(*node, "the strengths of stocks", {"values", "evidence"}, map.faults());
    constexpr Range strength{0.0, 0.5, true, "above 0, at most 50 % w/w", ""};
    for (const Node* value : list.list("values", true)) {
        const auto read = read_exact<MassFraction>(*value, "a strength", strength, map.faults());
        if (!read) continue;
        if (!strengths.empty() && !(*read < strengths.back()))
            map.faults().add(fault_at(*value, "out-of-range", "this strength is not below the one before it",
                                      "list them from the strongest to the weakest"));
        strengths.push_back(*read);
    }
    if (const Node* from = list.need("evidence")) (void)read_evidence(*from, "evidence", false, map.faults());
    return strengths;
}

} // namespace

BenchPractice read_bench_practice(Document document) {
    require_kind(document, "bench practice");
    const MapReader map(document.root, "a bench practice file",
                        {"kind", "name", "rub_out_repeat_spread", "rub_out_repeat_weight", "rub_out_hand_and_oil",
                         "moisture_drift", "shared_guess", "spoon_filling", "drop_spread", "most_drops",
                         "most_medium_for_drops", "stock_share", "most_syringe_fills", "least_stock",
                         "stock_strengths", "unusual_dose", "rounding_shift", "large_loss", "fluid_paint", "layers_alike",
                         "assumed_scale", "assumed_slab_loss", "assumed_slab_loss_share",
                         "assumed_weighing_tolerance", "assumed_humidity", "assumed_temperature", "typed_density",
                         "typed_reading", "bought_oil", "test_oil", "note"},
                        document.faults);
    const auto figure = [&map](std::string_view key, const Range& range) {
        return canonical(map.figure<PracticeFigure>(key, range, FigureStyle::with_origin).value());
    };
    constexpr Range spread{0.0, 2.0, false, "0 to 2", "it is the standard deviation of a logarithm"};
    constexpr Range some{0.0, 2.0, true, "above 0, at most 2", "it is the standard deviation of a logarithm"};
    map.text("name");
    BenchPractice practice;
    practice.rub_out.repeat_spread = figure("rub_out_repeat_spread", some);
    practice.rub_out.repeat_weight = figure("rub_out_repeat_weight", {0.0, 1000.0, true, "above 0, at most 1000",
                                                                       "it counts repeats"});
    practice.rub_out.hand_and_oil = figure("rub_out_hand_and_oil", some);
    practice.moisture_drift = figure("moisture_drift", spread);
    practice.shared_guess = figure("shared_guess", spread);
    practice.spoon_filling = figure("spoon_filling", spread);
    constexpr Range count{0.0, 1000.0, false, "0 to 1000", "it counts"};
    auto& small = practice.small_amounts;
    small.drop_spread = figure("drop_spread", spread);
    small.most_drops = figure("most_drops", count);
    const auto mass = [&map](std::string_view key) {
        return map.figure<Mass>(key, range::not_negative, FigureStyle::with_origin).value();
    };
    small.most_medium_for_drops = mass("most_medium_for_drops");
    small.least_stock = mass("least_stock");
    small.stock_share = figure("stock_share", {0.0, 1.0, false, "0 to 1", "it is a share of the oil"});
    small.most_syringe_fills = figure("most_syringe_fills", count);
    small.stock_strengths = read_strengths(map);
    auto& notice = practice.notice;
    notice.unusual_dose = figure("unusual_dose", {1.0, 1000.0, false, "1 to 1000", "it counts usual doses"});
    constexpr Range share{0.0, 1.0, false, "0 to 1", "it is a share"};
    notice.rounding_shift = figure("rounding_shift", share);
    notice.large_loss = figure("large_loss", share);
    notice.fluid_paint = figure("fluid_paint", {1.0, 1000.0, false, "1 to 1000", "1 is what just fills the pigment"});
    notice.layers_alike = figure("layers_alike", {0.0, 0.5, false, "0 to 0.5", "it is a share of the volume"});
    practice.assumed_bench = {
        map.figure<Mass>("assumed_scale", range::positive, FigureStyle::with_origin).value(),
        mass("assumed_slab_loss"),
        map.figure<Share>("assumed_slab_loss_share", {0.0, 0.5, false, "0 to 50 %", "name what is lost of the pigment"},
                          FigureStyle::with_origin)
            .value(),
        map.figure<Share>("assumed_weighing_tolerance", range::weighing_tolerance, FigureStyle::with_origin).value(),
        map.figure<RelativeHumidity>("assumed_humidity", range::not_negative, FigureStyle::with_origin).value(),
        map.figure<Temperature>("assumed_temperature", range::room_temperature, FigureStyle::with_origin).value()};
    practice.typed = {figure("typed_density", some), figure("typed_reading", some), figure("bought_oil", some)};
    practice.test_oil = map.figure<MassDensity>("test_oil", range::density, FigureStyle::with_origin);
    map.text_or_empty("note");
    document.faults.throw_if_any();
    return practice;
}

BenchPractice read_bench_practice_file(const std::string& path) {
    return read_bench_practice(load_document(path));
}

} // namespace lakebound
