#include "lakebound/report/fault_json.hpp"

#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

#include <vector>

using namespace lakebound;

TEST_CASE("faults in JSON keep their place, and leave out what is not known", "[unit]") {
    const std::vector<ToldFault> faults{{"unit-missing", "weld.yaml", 4, 11, "mass must have a unit", "write 24 g"},
                                        {"recipe-missing", "command line", 0, 0, "no recipe is named", ""},
                                        {"file-missing", "w\xe9ld.yaml", 0, 0, "there is no such file", ""},
                                        {"kind-wrong", "weld.yaml", 1, 1, "a jar is wanted", ""}};
    const auto json = nlohmann::json::parse(fault_json(faults));
    CHECK(json.at("kind") == "faults");
    CHECK(json.at("schema_version") == fault_json_version);
    REQUIRE(json.at("faults").size() == 4);
    CHECK(json["faults"][0] == nlohmann::json{{"id", "unit-missing"},
                                              {"path", "weld.yaml"},
                                              {"line", 4},
                                              {"column", 11},
                                              {"message", "mass must have a unit"},
                                              {"hint", "write 24 g"}});
    CHECK(json["faults"][3].at("line") == 1);
    CHECK(json["faults"][3].at("column") == 1);
    CHECK_FALSE(json["faults"][1].contains("line"));
    CHECK_FALSE(json["faults"][1].contains("hint"));
    CHECK(json["faults"][2].at("path") == "w\uFFFDld.yaml"); // bytes that are no UTF-8
}
