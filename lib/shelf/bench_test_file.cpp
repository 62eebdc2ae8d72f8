#include "lakebound/shelf/bench_test_file.hpp"

#include <utility>

#include "lakebound/shelf/reader.hpp"

namespace lakebound {
namespace {

/// Standard deviation of a logarithm, a number of its own kind while it is read.
struct SpreadAfterTag {
    static constexpr const char* name = "standard deviation of ln k";
    static constexpr const char* range = "0 to 2";
    static constexpr double lowest = 0.0, highest = 2.0;
};
using SpreadAfter = Ratio<SpreadAfterTag>;

} // namespace

template <> struct DimensionOf<SpreadAfter> { static constexpr Dimension value = Dimension::pure_number; };

CandidateTest read_bench_test(Document document, std::string id) {
    require_kind(document, "bench test");
    const MapReader map(document.root, "a bench test file",
                        {"kind", "name", "duration", "improves", "spread_after", "pigment", "note"},
                        document.faults);
    CandidateTest test;
    test.id = std::move(id);
    test.name = map.text("name");
    test.duration = map.exact<Time>("duration", range::positive);
    test.replaces = map.word<SpreadTerm>("improves");
    test.spread_after = canonical(
        map.figure<SpreadAfter>("spread_after", range::not_negative, FigureStyle::with_origin).value());
    if (map.find("pigment") != nullptr)
        test.pigment = map.figure<Mass>("pigment", range::not_negative, FigureStyle::with_origin).value();
    map.text_or_empty("note");
    document.faults.throw_if_any();
    return test;
}

CandidateTest read_bench_test_file(const std::string& path) {
    return read_bench_test(load_document(path), id_of_path(path));
}

} // namespace lakebound
