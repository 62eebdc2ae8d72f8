#include "lakebound/shelf/family_file.hpp"

#include <initializer_list>
#include <limits>
#include <utility>

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

Provenance evidence_in(const MapReader& map) {
    const Node* from = map.need("evidence");
    return from == nullptr ? Provenance{}
                           : read_evidence(*from, "evidence", false, map.faults()).value_or(Provenance{});
}

// Each limit is at least the one before it; what is missing is told already.
void check_rising(const Node& limits, std::initializer_list<std::pair<const char*, double>> named, Faults& faults) {
    const std::pair<const char*, double>* before = nullptr;
    for (const auto& one : named) {
        if (limits.find(one.first) == nullptr) continue;
        if (before != nullptr && one.second < before->second) {
            Diagnostic fault = fault_at(*limits.find(one.first), "window-order",
                                        std::string(one.first) + " is smaller than " + before->first,
                                        "the limits must rise");
            fault.second = SecondPlace{limits.find(before->first)->excerpt(), "the larger one"};
            faults.add(std::move(fault));
            return;
        }
        before = &one;
    }
}

void read_gum(const MapReader& map, Family& family) {
    Faults& faults = map.faults();
    if (const Node* node = map.need("plasticiser")) {
        const MapReader guide(*node, "the plasticiser", {"least", "most", "evidence"}, faults);
        if (guide.is_map()) {
            family.plasticiser = {guide.number("least", range::not_negative), guide.number("most", range::positive)};
            family.plasticiser_evidence = evidence_in(guide);
            check_rising(*node, {{"least", family.plasticiser.least}, {"most", family.plasticiser.most}}, faults);
        }
    }
    if (const Node* node = map.need("soft_share")) {
        const MapReader soft(*node, "the soft share",
                             {"brittle_below", "good_from", "good_to", "soft_to", "sets_to", "evidence"}, faults);
        if (!soft.is_map()) return;
        const auto limit = [&soft](std::string_view key) {
            return VolumeFraction::of(soft.exact<Share>(key, range::not_negative).value());
        };
        auto& to = family.soft_share;
        to = {limit("brittle_below"), limit("good_from"), limit("good_to"), limit("soft_to"), limit("sets_to")};
        family.soft_share_evidence = evidence_in(soft);
        check_rising(*node,
                     {{"brittle_below", to.brittle_below.value()},
                      {"good_from", to.good_from.value()},
                      {"good_to", to.good_to.value()},
                      {"soft_to", to.soft_to.value()},
                      {"sets_to", to.sets_to.value()}},
                     faults);
    }
}

void read_oil(const MapReader& map, Family& family) {
    constexpr auto style = FigureStyle::with_origin;
    family.most_excess_water = map.figure<MassFraction>("most_excess_water", range::not_negative, style).value();
    if (const Node* node = map.need("cured_oil_loses")) {
        const MapReader loses(*node, "what the oil loses", {"least", "most", "evidence"}, map.faults());
        if (!loses.is_map()) return;
        family.cured_oil_loses = {loses.exact<Share>("least", range::not_negative),
                                  loses.exact<Share>("most", range::not_negative)};
        family.cured_oil_evidence = evidence_in(loses);
        check_rising(*node,
                     {{"least", family.cured_oil_loses.least.value()}, {"most", family.cured_oil_loses.most.value()}},
                     map.faults());
    }
}

/// What only one way of making up a paint has; a key of another is a slip.
void read_of_process(const MapReader& map, Family& family) {
    const std::pair<std::string_view, Process> keys[] = {{"plasticiser", Process::watercolour},
                                                         {"soft_share", Process::watercolour},
                                                         {"most_excess_water", Process::oil},
                                                         {"cured_oil_loses", Process::oil},
                                                         {"medium_keeps", Process::egg_tempera}};
    if (map.find("process") == nullptr) return;
    for (const auto& [key, process] : keys)
        if (const Node* node = map.find(key); node != nullptr && process != family.process)
            map.faults().add(fault_at(*node, "key-unknown", std::string(key).append(" belongs to another process"),
                                      "leave it out, or correct the process"));
    switch (family.process) {
    case Process::watercolour:
        return read_gum(map, family);
    case Process::oil:
        return read_oil(map, family);
    case Process::egg_tempera:
        family.medium_keeps = map.figure<Time>("medium_keeps", range::positive, FigureStyle::with_origin).value();
    }
}

} // namespace

Family read_family(Document document, std::string id) {
    require_kind(document, "family");
    Faults& faults = document.faults;
    const MapReader map(document.root, "a family file",
                        {"kind", "name", "process", "start", "window", "cohesion", "plasticiser", "soft_share",
                         "most_excess_water", "cured_oil_loses", "medium_keeps", "binder_index", "method_transfer",
                         "binder_solids_spread", "binder_density_spread", "evidence", "note"},
                        faults);
    Family family;
    family.id = std::move(id);
    family.name = map.text("name");
    family.process = map.word<Process>("process");
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
    read_of_process(map, family);
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
