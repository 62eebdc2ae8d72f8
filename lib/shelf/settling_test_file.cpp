#include "lakebound/shelf/settling_test_file.hpp"

#include <cmath>
#include <utility>

#include "lakebound/quantity/error.hpp"
#include "lakebound/shelf/domain_fault.hpp"
#include "lakebound/shelf/reader.hpp"

namespace lakebound {
namespace {

struct HeightReading {
    Time time;
    Length height;
    const Node* at = nullptr;
};

std::optional<InterfaceHeights> read_blanket(const MapReader& map) {
    Faults& faults = map.faults();
    const std::size_t before = faults.count();
    std::vector<HeightReading> readings;
    for (const Node* node : map.list("blanket", true)) {
        const MapReader row(*node, "a reading of the blanket", {"time", "height"}, faults);
        HeightReading reading;
        reading.time = row.exact<Time>("time", range::not_negative);
        reading.height = row.exact<Length>("height", range::water_depth);
        reading.at = node;
        readings.push_back(reading);
    }
    const Node& list = *map.find("blanket");
    if (faults.count() != before) return std::nullopt;
    if (readings.size() != 3) {
        faults.add(fault_at(list, "blanket-readings",
                            "three readings of the blanket are wanted, got " + std::to_string(readings.size()),
                            "read its height three times, equally far apart in time"));
        return std::nullopt;
    }
    const Time first = readings[1].time - readings[0].time, second = readings[2].time - readings[1].time;
    if (!(in_seconds(first) > 0.0 && std::abs(second / first - 1.0) <= 0.02)) {
        Diagnostic fault =
            fault_at(*readings[2].at, "blanket-readings", "the readings must be equally far apart in time",
                     "read at 0, 2 and 4 hours, say; a minute or two does not matter");
        fault.second = SecondPlace{readings[1].at->excerpt(), "the one before"};
        faults.add(std::move(fault));
        return std::nullopt;
    }
    const InterfaceHeights heights{readings[0].height, readings[1].height, readings[2].height,
                                   0.5 * (first + second)};
    return checked_heights(list.excerpt(), heights, faults);
}

} // namespace

std::optional<InterfaceHeights> checked_heights(const Excerpt& at, const InterfaceHeights& heights,
                                                Faults& faults) {
    try {
        (void)fit_zone_settling(heights);
        return heights;
    } catch (const DomainError& error) {
        faults.add(placed_fault("blanket-heights", at, domain_sentence(error), error.mend()));
    }
    return std::nullopt;
}

PlacedSettlingTest read_settling_test(Document document, std::string id) {
    require_kind(document, "settling test");
    Faults& faults = document.faults;
    const MapReader map(document.root, "a settling test",
                        {"kind", "name", "temperature", "grains", "blanket", "note"}, faults);
    SettlingRecord record;
    record.id = std::move(id);
    record.path = document.path();
    record.name = map.text("name");
    record.temperature = map.optional_exact<Temperature>("temperature", range::liquid_water);
    record.note = map.text_or_empty("note");
    const Node* grains = map.find("grains");
    const Node* blanket = map.find("blanket");
    if ((grains != nullptr) == (blanket != nullptr)) {
        faults.add(fault_at(blanket != nullptr ? *blanket : map.node(), "settling-form",
                            "a settling test watches either grains of one size or the blanket of a fresh lake",
                            "give 'grains' with size, depth and time, or 'blanket' with three heights"));
    } else if (grains != nullptr) {
        const MapReader timed(*grains, "the timed grains", {"size", "depth", "time"}, faults);
        TimedGrains read;
        read.size = timed.exact<Length>("size", range::grain_size);
        read.depth = timed.exact<Length>("depth", range::water_depth);
        read.time = timed.exact<Time>("time", range::positive);
        record.grains = read;
    } else {
        record.blanket = read_blanket(map);
    }
    faults.throw_if_any();
    RecordPlaces places{map.node().excerpt(), {}, {}, {}, {}};
    if (grains != nullptr) places.timed_grains = grains->excerpt();
    return {std::move(record), std::move(places)};
}

PlacedSettlingTest read_settling_test_file(const std::string& path) {
    return read_settling_test(load_document(path), path == "-" ? std::string() : id_of_path(path));
}

} // namespace lakebound
