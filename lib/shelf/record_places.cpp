#include "lakebound/shelf/record_places.hpp"

#include "lakebound/shelf/domain_fault.hpp"

namespace lakebound {

const Excerpt& RecordPlaces::at(RecordPart part) const noexcept {
    const auto written = [this](const std::optional<Excerpt>& place) -> const Excerpt& {
        return place ? *place : whole;
    };
    switch (part) {
    case RecordPart::grinding_time:
        return written(grinding_time);
    case RecordPart::retained:
        return written(retained);
    case RecordPart::density:
        return written(density);
    case RecordPart::timed_grains:
        return written(timed_grains);
    case RecordPart::whole:
        break;
    }
    return whole;
}

Diagnostic record_fault(const RecordError& error, std::span<const RecordPlaces> records) {
    Diagnostic fault = domain_fault(records[error.record()].at(error.part()), error);
    if (error.beside())
        fault.second = SecondPlace{records[*error.beside()].at(error.part()), "the test that it is held against"};
    return fault;
}

} // namespace lakebound
