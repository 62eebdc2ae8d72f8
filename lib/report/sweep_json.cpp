#include "lakebound/report/sweep_json.hpp"

#include "json_pieces.hpp"

namespace lakebound {

std::string sweep_json(const SweepTable& table) {
    auto json = json_pieces::envelope("sweep", 1);
    json["title"] = table.title;
    for (const auto& column : table.columns)
        json["columns"][column.key] = column.values;
    return json_pieces::json_text(json);
}

} // namespace lakebound
