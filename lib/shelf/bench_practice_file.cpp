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

BenchPractice read_bench_practice(Document document) {
    require_kind(document, "bench practice");
    const MapReader map(document.root, "a bench practice file",
                        {"kind", "name", "rub_out_repeat_spread", "rub_out_repeat_weight", "rub_out_hand_and_oil",
                         "moisture_drift", "shared_guess", "spoon_filling", "drop_spread", "most_drops",
                         "most_medium_for_drops", "stock_share", "most_syringe_fills", "least_stock", "note"},
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
    map.text_or_empty("note");
    document.faults.throw_if_any();
    return practice;
}

BenchPractice read_bench_practice_file(const std::string& path) {
    return read_bench_practice(load_document(path));
}

} // namespace lakebound
