#include "lakebound/report/fault_json.hpp"

#include "json_pieces.hpp"

namespace lakebound {

std::string fault_json(std::span<const ToldFault> faults) {
    auto json = json_pieces::envelope("faults", fault_json_version);
    json["faults"] = json_pieces::Json::array();
    for (const auto& fault : faults) {
        json_pieces::Json told{{"id", fault.id}, {"path", fault.path}};
        if (fault.line > 0) told.update({{"line", fault.line}, {"column", fault.column}});
        told["message"] = fault.message;
        if (!fault.hint.empty()) told["hint"] = fault.hint;
        json["faults"].push_back(std::move(told));
    }
    return json_pieces::json_text(json);
}

} // namespace lakebound
