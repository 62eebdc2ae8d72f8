// The habits of the house hold: one topic has one stem and a test, a source is no longer than a reader has patience
// for, an enum has its words in one table, an answer cannot be ignored by oversight, a report compares no figures of
// the domain, and a new kind of file, unit or process touches few files. What does not hold yet is named here, and a name that is
// no longer needed is a fault too, so that the lists only become shorter.

#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <initializer_list>
#include <map>
#include <regex>
#include <set>
#include <string>
#include <vector>

#include "source_files.hpp"

namespace fs = std::filesystem;

using lakebound::testing::included;
using lakebound::testing::slurp;

namespace {

const fs::path top = LAKEBOUND_SOURCE_DIR;
using Names = std::set<std::string>;

/// "room/stem" of every file below a folder whose name ends so.
Names stems(const fs::path& folder, const std::string& ending) {
    Names found;
    for (const auto& entry : fs::recursive_directory_iterator(folder)) {
        const auto path = fs::relative(entry.path(), folder).generic_string();
        if (path.size() > ending.size() && path.compare(path.size() - ending.size(), ending.size(), ending) == 0 &&
            std::count(path.begin(), path.end(), '/') == 1)
            found.insert(path.substr(0, path.size() - ending.size()));
    }
    return found;
}

/// A second source of a topic, because one would be too long: source -> topic.
const std::map<std::string, std::string> parts = {
    {"estimate/monte_carlo_summary", "estimate/monte_carlo"},
    {"page/html_blocks", "page/html_parts"},
    {"page/html_style", "page/html_parts"},
    {"page/html_table", "page/html_parts"},
    {"page/svg_bars", "page/svg"},
    {"page/svg_chart", "page/svg"},
    {"page/svg_picture", "page/svg"},
    {"page/svg_stains", "page/svg"},
    {"page/svg_work", "page/svg"},
    {"page/text_picture", "page/text_lines"},
    {"page/text_table", "page/text_lines"},
    {"particle/breakage_forecast", "particle/breakage_fit"},
    {"particle/grind_ways", "particle/grind_parts"},
    {"quantity/text_refusal", "quantity/text"},
    {"quantity/text_writing", "quantity/text"},
    {"quantity/unit_spelling", "quantity/unit_table"},
    {"report/bath_json", "report/bath_sheet"},
    {"report/bath_standing", "report/bath_sheet"},
    {"report/grind_json", "report/grind_report"},
    {"report/grind_text", "report/grind_report"},
    {"report/jar_json", "report/jar_card"},
    {"report/jar_page", "report/jar_card"},
    {"report/mull_text", "report/grind_report"},
    {"report/settle_json", "report/settle_report"},
    {"report/settle_text", "report/settle_report"},
    {"report/sieve_json", "report/sieve_report"},
    {"report/sieve_text", "report/sieve_report"},
    {"shelf/sieve_csv", "shelf/sieve_test_file"},
    {"shelf/typed_binder", "shelf/typed_paint_steps"},
    {"shelf/typed_pigments", "shelf/typed_paint_steps"},
};

/// Topics that no test of their own room reads the header of; they are tested through others.
const Names tested_through_others = {
    "particle/powder_habits", "shelf/wash_habits_file",
};

Names without(Names names, const Names& others) {
    for (const auto& each : others)
        names.erase(each);
    return names;
}

/// Comparisons of a figure of the domain with anything but 0 in this line: "is there any" is a question of what to
/// show, "is it more than" one of what to answer.
bool compares_figures(const std::string& line) {
    static const std::regex right(R"((?:\.value\(\)|\bin_[a-z_]+\([^()]*\))\s*(?:<=?|>=?)\s+(?!0\.0\b(?!\d)))");
    static const std::regex left(R"((\S+)\s+(?:<=?|>=?)\s+(?:[A-Za-z_][\w.>-]*(?:\(\))?\.value\(\)|in_[a-z_]+\())");
    const auto code = line.substr(0, line.find("//"));
    return std::regex_search(code, right) || std::regex_search(code, left);
}

/// Lines of a report that compare, by source, because of how a figure is shown: a chance below the last digit, a curve that
/// leaves the chart, minutes that are rounded above an hour.
const std::map<std::string, std::size_t> still_compares = {
    {"chance_words.cpp", 1}, {"judgement_page.cpp", 1}, {"powder_words.cpp", 1},
};

/// Sources that are longer than 400 lines.
const std::vector<std::string> still_too_long = {};

/// Headers, and rooms, whose functions may still be ignored.
const Names still_may_be_ignored = {};

/// Functions that still spell the keys of an enum in a switch. Of a quick answer the keys are those of figures.
const Names still_in_switches = {
    "answer_key(QuickAnswer)"};

/// The sources and public headers that hold the text.
std::vector<std::string> that_mention(const std::string& text) {
    std::vector<std::string> found;
    for (const char* folder : {"lib", "include", "apps"})
        for (const auto& entry : fs::recursive_directory_iterator(top / folder)) {
            const auto extension = entry.path().extension();
            if ((extension == ".cpp" || extension == ".hpp") && slurp(entry.path()).find(text) != std::string::npos)
                found.push_back(fs::relative(entry.path(), top).generic_string());
        }
    return found;
}

/// Sources and headers of some folders, with their text.
std::vector<std::pair<std::string, std::string>> texts_in(std::initializer_list<const char*> folders) {
    std::vector<std::pair<std::string, std::string>> found;
    for (const char* folder : folders)
        for (const auto& entry : fs::recursive_directory_iterator(top / folder)) {
            const auto extension = entry.path().extension();
            if (extension == ".cpp" || extension == ".hpp")
                found.emplace_back(fs::relative(entry.path(), top).generic_string(), slurp(entry.path()));
        }
    return found;
}

/// The values of an enum as it is declared in a text; empty when it is not.
std::vector<std::string> values_of(const std::string& text, const std::string& name) {
    const auto at = text.find("enum class " + name + " {");
    std::vector<std::string> values;
    if (at == std::string::npos) return values;
    const auto end = text.find('}', at);
    std::string body = text.substr(text.find('{', at) + 1, end - text.find('{', at) - 1);
    body = std::regex_replace(body, std::regex("//[^\n]*"), "");
    static const std::regex word("[a-z][a-z0-9_]*");
    for (std::sregex_iterator i(body.begin(), body.end(), word), none; i != none; ++i)
        values.push_back(i->str());
    return values;
}

/// Functions that spell the keys of an enum in a switch: the enum's table has them.
Names key_switches(const std::string& text) {
    static const std::regex function(R"re((\w+_key)\((\w+) \w+\)(?: noexcept)? \{\s*switch)re");
    Names found;
    for (std::sregex_iterator i(text.begin(), text.end(), function), none; i != none; ++i)
        found.insert((*i)[1].str() + "(" + (*i)[2].str() + ")");
    return found;
}

/// Free functions of a header that return something which may be ignored without a word.
std::vector<std::string> may_be_ignored(const std::string& text) {
    static const std::regex function(R"re(\n((?:template <.*> )?(?:constexpr |inline )*[A-Za-z_][\w:<>, *&]*[ &*>](?:operator[*/]|\w+)\().*)re");
    static const std::regex other(R"re(^(template <.*> )?(constexpr |inline )*(void|using|return|friend|struct|class|static_assert)\b.*)re");
    std::vector<std::string> found;
    for (std::sregex_iterator i(text.begin(), text.end(), function), none; i != none; ++i) {
        const std::string head = (*i)[1];
        if (head.find("[[nodiscard]]") == std::string::npos && !std::regex_match(head, other)) found.push_back(head);
    }
    return found;
}

std::string listed(const std::vector<std::string>& names) {
    std::string text;
    for (const auto& each : names)
        text += each + "\n";
    return text;
}

} // namespace

TEST_CASE("one topic has one stem", "[unit]") {
    const auto sources = stems(top / "lib", ".cpp"), inner = stems(top / "lib", ".hpp");
    const auto headers = stems(top / "include/lakebound", ".hpp");
    REQUIRE(sources.size() > 100);
    for (const auto& source : sources) {
        INFO("lib/" << source << ".cpp has no header of its stem, and is not named as a part of a topic");
        const bool has_header = headers.count(source) + inner.count(source) > 0;
        CHECK(has_header != (parts.count(source) == 1));
    }
    for (const auto& [part, topic] : parts) {
        INFO(part << " is named as a part of " << topic);
        CHECK(sources.count(part) == 1);
        CHECK(headers.count(topic) + inner.count(topic) == 1);
    }
}

TEST_CASE("every topic with a source is tested in its own room", "[unit]") {
    Names tested;
    for (const auto& entry : fs::recursive_directory_iterator(top / "tests")) {
        if (entry.path().extension() != ".cpp" && entry.path().extension() != ".hpp") continue;
        const auto room = entry.path().parent_path().filename().string();
        const std::string ours = "lakebound/" + room + "/";
        for (const auto& header : included(slurp(entry.path())))
            if (header.compare(0, ours.size(), ours) == 0)
                tested.insert(header.substr(10, header.size() - 14)); // without "lakebound/" and ".hpp"
    }
    Names topics;
    const auto headers = stems(top / "include/lakebound", ".hpp");
    for (const auto& source : stems(top / "lib", ".cpp"))
        if (headers.count(source) != 0) topics.insert(source);
    CHECK(without(topics, tested) == tested_through_others);
}

TEST_CASE("a report compares no figures of the domain", "[unit]") {
    std::map<std::string, std::size_t> found;
    for (const auto& entry : fs::directory_iterator(top / "lib/report")) {
        const auto text = slurp(entry.path());
        for (std::size_t at = 0; at < text.size();) {
            const auto end = std::min(text.find('\n', at), text.size());
            if (compares_figures(text.substr(at, end - at))) ++found[entry.path().filename().string()];
            at = end + 1;
        }
    }
    CHECK(found == still_compares);
}

TEST_CASE("the check of comparisons sees one", "[unit]") {
    CHECK(compares_figures("if (kept.value() < pigment.value()) text += x;"));
    CHECK(compares_figures("    if (in_grams(left) >= 0.05)"));
    CHECK(compares_figures("return 1.0 < window.green_low.value();"));
    CHECK_FALSE(compares_figures("if (left.value() > 0.0) text += x; // more.value() > 1.0"));
    CHECK_FALSE(compares_figures("std::vector<std::string> names = words(answer.value());"));
    CHECK(compares_figures("if (left.value() > 0.05)"));
}

TEST_CASE("a source is no longer than 400 lines", "[unit]") {
    std::map<std::string, long> too_long;
    for (const auto& [name, text] : texts_in({"lib", "include", "apps", "tests"}))
        if (const auto lines = std::count(text.begin(), text.end(), '\n'); lines > 400) too_long[name] = lines;
    std::vector<std::string> found;
    for (const auto& [name, lines] : too_long)
        found.push_back(name);
    CHECK(found == still_too_long);
}

TEST_CASE("a function of the tests' own headers has its name alone", "[unit]") {
    // Two inline functions of one name in two headers are one to the linker, whatever they return.
    static const std::regex function(R"re(\ninline [\w:<>&* ]+[ &*](\w+)\()re");
    std::map<std::string, Names> headers;
    for (const auto& [name, text] : texts_in({"tests"}))
        if (name.ends_with(".hpp"))
            for (std::sregex_iterator i(text.begin(), text.end(), function), none; i != none; ++i)
                headers[(*i)[1]].insert(name);
    REQUIRE(headers.size() > 30);
    for (const auto& [name, places] : headers) {
        INFO(name << " stands in " << listed({places.begin(), places.end()}));
        CHECK(places.size() == 1);
    }
}

TEST_CASE("a word table has each value of its enum, in its order", "[unit]") {
    static const std::regex table(R"re(struct WordTable<(\w+)> \{([^;]*);)re");
    static const std::regex row(R"re(\{(\w+)::(\w+), "([^"]+)"\})re");
    std::size_t tables = 0;
    for (const auto& [name, text] : texts_in({"include"})) {
        if (name.find("word_table.hpp") != std::string::npos) continue;
        for (std::sregex_iterator i(text.begin(), text.end(), table), none; i != none; ++i, ++tables) {
            const std::string rows = (*i)[2];
            std::vector<std::string> values;
            Names words;
            for (std::sregex_iterator r(rows.begin(), rows.end(), row); r != none; ++r) {
                values.push_back((*r)[2]);
                words.insert((*r)[3]);
            }
            INFO(name << ": " << (*i)[1]);
            CHECK_FALSE(values.empty());
            CHECK(values == values_of(text, (*i)[1]));
            CHECK(words.size() == values.size());
        }
    }
    CHECK(tables > 20);
}

TEST_CASE("the keys of an enum stand in its table and in no switch", "[unit]") {
    Names found;
    for (const auto& [name, text] : texts_in({"lib", "apps", "include"}))
        found.merge(key_switches(text));
    CHECK(found == still_in_switches);
    CHECK(key_switches("const char* reach_key(Reach reach) noexcept {\n    switch (reach) {\n").size() == 1);
}

TEST_CASE("what a function answers is not ignored by oversight", "[unit]") {
    Names found;
    for (const auto& [name, text] : texts_in({"include"})) {
        if (may_be_ignored(text).empty()) continue;
        const auto header = name.substr(std::string("include/lakebound/").size());
        const auto room = header.substr(0, header.find('/') + 1);
        found.insert(still_may_be_ignored.count(room) != 0 ? room : header);
    }
    CHECK(found == still_may_be_ignored); // write [[nodiscard]] before what a new header's functions return
    CHECK(may_be_ignored("\nBatch size_batch(const BatchRequest& request);\n").size() == 1);
    CHECK(may_be_ignored("\ntemplate <class Q> std::string text(const Q& q) {\n").size() == 1);
    CHECK(may_be_ignored("\n[[nodiscard]] Batch size_batch(const BatchRequest& request);\n").empty());
    CHECK(may_be_ignored("\nvoid write(const Page& page);\n    return f(x);\n").empty());
}

// What a new one of these touches is what names an old one, besides its own file.
TEST_CASE("a unit is one row", "[unit]") {
    const auto files = that_mention("\"imperial pint\"");
    INFO(listed(files));
    CHECK(files.size() == 1);
}

TEST_CASE("a kind of file is one row, and its reader", "[unit]") {
    auto files = that_mention("{\"fineness target\"");
    const auto readers = that_mention("require_kind(document, \"fineness target\"");
    files.insert(files.end(), readers.begin(), readers.end());
    CHECK(files == std::vector<std::string>{"lib/shelf/file_kind.cpp", "lib/shelf/fineness_target_file.cpp"});
}

TEST_CASE("a process is one file in paint and one in report, beside its reader", "[unit]") {
    // Its name and what follows from it, with their source; its words and its order of work; the keys of its family.
    auto files = that_mention("Process::egg_tempera");
    std::sort(files.begin(), files.end());
    CHECK(files == std::vector<std::string>{"include/lakebound/paint/process.hpp", "lib/paint/process.cpp", "lib/report/process_words.cpp",
                                            "lib/shelf/family_file.cpp"});
}

TEST_CASE("messages name pages that are installed, and no folder of the sources", "[unit]") {
    static const std::regex page(R"(([a-z-]+)\.md)");
    static const std::regex literal(R"re("((?:[^"\\\n]|\\.)*)")re");
    std::size_t named = 0;
    for (const char* folder : {"lib", "apps"})
        for (const auto& entry : fs::recursive_directory_iterator(top / folder)) {
            if (entry.path().extension() != ".cpp") continue;
            INFO(entry.path());
            const auto text = slurp(entry.path());
            for (std::sregex_iterator at(text.begin(), text.end(), literal), end; at != end; ++at) {
                const std::string words = (*at)[1];
                CHECK(words.find("docs/") == std::string::npos);
                for (std::sregex_iterator name(words.begin(), words.end(), page); name != end; ++name, ++named)
                    CHECK(fs::exists(top / "docs" / name->str()));
            }
        }
    CHECK(named > 3);
}

TEST_CASE("public headers mark what they declare for shared libraries, and no other does", "[unit]") {
    // Unmarked, a function links in a static library and is missing in a shared one.
    const auto marked = [](const std::string& text) {
        static const std::regex opened(R"re(\nnamespace (LAKEBOUND_EXPORT )?lakebound\b)re");
        const std::sregex_iterator at(text.begin(), text.end(), opened), end;
        return at != end && std::all_of(at, end, [](const std::smatch& each) { return each[1].matched; });
    };
    CHECK_FALSE(marked("#pragma once\nnamespace lakebound {\n"));
    std::size_t headers = 0;
    for (const auto& [name, text] : texts_in({"include", "lib"})) {
        if (!name.ends_with(".hpp") || name == "include/lakebound/export.hpp") continue;
        INFO(name);
        const bool is_public = name.starts_with("include/");
        CHECK(marked(text) == is_public);
        const auto read = included(text);
        CHECK((std::find(read.begin(), read.end(), "lakebound/export.hpp") != read.end()) == is_public);
        ++headers;
    }
    CHECK(headers > 250);
}

TEST_CASE("every example is named by the header that it shows", "[unit]") {
    std::string headers;
    for (const auto& entry : fs::recursive_directory_iterator(top / "include"))
        if (entry.path().extension() == ".hpp") headers += slurp(entry.path());
    std::size_t examples = 0;
    for (const auto& entry : fs::directory_iterator(top / "docs/examples")) {
        if (entry.path().extension() != ".cpp") continue;
        ++examples;
        INFO(entry.path());
        CHECK(headers.find("docs/examples/" + entry.path().filename().string()) != std::string::npos);
    }
    CHECK(examples > 10);
}
