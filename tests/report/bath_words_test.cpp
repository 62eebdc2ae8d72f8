#include "lakebound/report/bath_words.hpp"

#include <catch2/catch.hpp>

#include <set>
#include <string>

using namespace lakebound;

TEST_CASE("every word of the bath has its own", "[unit]") {
    std::set<std::string> cautions, steps, doubts, stages, keys;
    for (const auto& [each, word] : WordTable<BathCaution>::rows) {
        CHECK(cautions.insert(bath_caution_words(each).text).second);
        CHECK(keys.insert(key_of(each)).second);
        CHECK(bath_caution_words(each).text.size() > 40);
    }
    for (const auto& [each, word] : WordTable<BathStep>::rows) {
        CHECK(steps.insert(bath_step_words(each)).second);
        CHECK(keys.insert(key_of(each)).second);
        CHECK(std::string(bath_step_words(each)).back() == '.');
    }
    for (const auto& [each, word] : WordTable<BathDoubt>::rows) {
        CHECK(doubts.insert(bath_doubt_words(each)).second);
        CHECK(keys.insert(key_of(each)).second);
    }
    for (const auto& [each, word] : WordTable<BathStage>::rows) {
        CHECK(stages.insert(bath_stage_words(each)).second);
        CHECK(keys.insert(key_of(each)).second);
    }
    for (const auto* set : {&cautions, &steps, &doubts, &stages, &keys}) CHECK(set->count("") == 0);
}

TEST_CASE("the cautions of a bath end by deferring", "[unit]") {
    const auto last = bath_caution_words(BathCaution::data_sheet).text;
    CHECK_THAT(last, Catch::Contains("safety data sheet") && Catch::Contains("local codes") && Catch::Contains("licensed practice"));
    CHECK_THAT(bath_caution_words(BathCaution::drain).text, Catch::Contains("sewer"));
}

TEST_CASE("every remark on a jar has words of its own", "[unit]") {
    std::set<std::string> words;
    for (const auto& [remark, word] : WordTable<JarRemark>::rows) {
        const std::string text = jar_remark_words(remark);
        CHECK(text.size() > 20);
        CHECK(text.back() != ' ');
        words.insert(text);
    }
    CHECK(words.size() == std::size(WordTable<JarRemark>::rows));
    CHECK(bath_happened_words("filter") == "at the filter");
    CHECK(bath_happened_words("poured") == "poured");
}
