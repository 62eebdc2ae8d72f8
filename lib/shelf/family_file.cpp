#include "lakebound/shelf/family_file.hpp"

#include <limits>

#include "lakebound/shelf/reader.hpp"

namespace lakebound {
namespace {

/// Standard deviation of ln k, a number of its own kind while it is read.
struct SpreadOfLogKTag {
    static constexpr const char* name = "standard deviation of ln k";
    static constexpr const char* range = "0 to 2";
    static constexpr double lowest = 0.0, highest = 2.0;
};
using SpreadOfLogK = Ratio<SpreadOfLogKTag>;

} // namespace

template <> struct DimensionOf<SpreadOfLogK> { static constexpr Dimension value = Dimension::pure_number; };

namespace {

const std::vector<std::string_view> process_words{"watercolour", "oil", "egg tempera"};
constexpr Process processes[] = {Process::watercolour, Process::oil, Process::egg_tempera};
constexpr Range k_range{0.0, 100.0, true, "above 0, at most 100", ""};

double log_spread(const MapReader& map, std::string_view key) {
    return canonical(map.figure<SpreadOfLogK>(key, range::not_negative, FigureStyle::with_origin).value());
}

// amber_low <= green_low <= green_high <= amber_high: the first pair out of order is the fault.
void check_window(const Node& window, const double (&limits)[4], Faults& faults) {
    constexpr const char* keys[] = {"amber_low", "green_low", "green_high", "amber_high"};
    for (std::size_t i = 1; i < 4; ++i) {
        if (limits[i - 1] <= limits[i]) continue;
        Diagnostic fault = fault_at(*window.find(keys[i]), "window-order",
                                    std::string(keys[i]) + " is smaller than " + keys[i - 1],
                                    "the limits must rise: amber_low, green_low, green_high, amber_high");
        fault.second = SecondPlace{window.find(keys[i - 1])->excerpt(), "the larger one"};
        faults.add(std::move(fault));
        return;
    }
}

} // namespace

Family read_family(Document document, std::string id) {
    require_kind(document, "family");
    Faults& faults = document.faults;
    const MapReader map(document.root, "a family file",
                        {"kind", "name", "process", "start", "window", "cohesion", "binder_index", "method_transfer",
                         "binder_solids_spread", "binder_density_spread", "evidence", "note"},
                        faults);
    Family family;
    family.id = std::move(id);
    family.name = map.text("name");
    family.process = processes[map.word("process", process_words)];
    const double start = map.number("start", k_range);
    family.start = BinderSufficiency::of(start);
    if (const Node* node = map.need("window")) {
        const std::size_t before = faults.count();
        const MapReader window(*node, "the window", {"amber_low", "green_low", "green_high", "amber_high"},
                               faults);
        const double limits[] = {window.number("amber_low", k_range), window.number("green_low", k_range),
                                 window.number("green_high", k_range), window.number("amber_high", k_range)};
        if (faults.count() == before && window.is_map()) check_window(*node, limits, faults);
        if (faults.count() == before && window.is_map() && start > 0.0 &&
            (start < limits[0] || start > limits[3])) {
            Diagnostic fault = fault_at(*map.find("start"), "window-order", "the start lies outside the window",
                                        "choose a start between amber_low and amber_high");
            fault.second = SecondPlace{node->excerpt(), "the window"};
            faults.add(std::move(fault));
        }
        family.window = {BinderSufficiency::of(limits[0]), BinderSufficiency::of(limits[1]),
                         BinderSufficiency::of(limits[2]), BinderSufficiency::of(limits[3])};
    }
    if (const Node* node = map.need("cohesion")) {
        const MapReader cohesion(*node, "the cohesion", {"none_below", "weak_below", "evidence"}, faults);
        if (cohesion.is_map()) {
            family.cohesion = {VolumeFraction::of(cohesion.exact<Share>("none_below", range::not_negative).value()),
                               VolumeFraction::of(cohesion.exact<Share>("weak_below", range::not_negative).value())};
            if (const Node* from = cohesion.need("evidence"))
                family.cohesion_evidence = read_evidence(*from, "evidence", false, faults).value_or(Provenance{});
            if (node->find("weak_below") != nullptr && node->find("none_below") != nullptr &&
                family.cohesion.weak_below < family.cohesion.none_below)
                faults.add(fault_at(*node->find("weak_below"), "window-order",
                                    "weak_below is smaller than none_below",
                                    "the limits must rise: none_below, weak_below"));
        }
    }
    if (map.need("binder_index") != nullptr)
        family.binder_index =
            map.optional_figure<BinderIndex>("binder_index", range::positive, FigureStyle::with_origin)
                .value_or(family.binder_index);
    family.method_transfer = log_spread(map, "method_transfer");
    family.binder_solids_spread = log_spread(map, "binder_solids_spread");
    family.binder_density_spread = log_spread(map, "binder_density_spread");
    if (const Node* node = map.need("evidence"))
        family.evidence = read_evidence(*node, "evidence", false, faults).value_or(Provenance{});
    family.note = map.text_or_empty("note");
    faults.throw_if_any();
    return family;
}

Family read_family_file(const std::string& path) { return read_family(load_document(path), id_of_path(path)); }

} // namespace lakebound
