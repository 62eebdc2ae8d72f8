// What is read without the general parser is what the general parser reads.

#include "shelf/plain_lines.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "lakebound/estimate/random.hpp"
#include "shelf/faults_of.hpp"
#include "shelf/yaml_tree.hpp"

using namespace lakebound;

namespace {

std::string shown(const Node& n) {
    std::string text = std::to_string(static_cast<int>(n.kind)) + "/" + std::to_string(static_cast<int>(n.style)) + " " +
                       std::to_string(n.offset) + "+" + std::to_string(n.length) + " '" + n.text + "'\n";
    for (std::size_t i = 0; i < n.items.size(); ++i)
        text += (i < n.keys.size() ? shown(n.keys[i]) : std::string()) + shown(n.items[i]);
    return text;
}

/// How yaml-cpp reads it; its faults where it has any.
std::string by_the_general_parser(const Source& source) {
    Node root;
    Faults faults;
    const auto thrown = testing::faults_of([&] {
        parse_tree(source, root, faults);
        faults.throw_if_any();
    });
    return thrown.empty() ? shown(root) : testing::summary(thrown);
}

/// True when the text is taken as plain; then both readings must be one.
bool is_taken(const std::string& text) {
    const Source source("f.yaml", text);
    const auto root = plain_lines(source);
    if (!root) return false;
    INFO(text);
    CHECK(shown(*root) == by_the_general_parser(source));
    CHECK(root->source == &source);
    return true;
}

} // namespace

TEST_CASE("an entry is read as its plain lines", "[unit]") {
    CHECK(is_taken("kind: entry\njar: weld\ndate: 2026-05-02\nwhat: rub-out\npigment: 2.00 g\noil: 1.56 g\nscale: 0.01 g\n"));
    CHECK(is_taken("# of mine\nkind: jar\n\nname: Weld, 3rd (bath 2)\n# more\nmoisture: 15 +- 4 % w/w\nnet: 24.0 g"));
    CHECK(is_taken("a: b"));
    CHECK(is_taken("\n\na: true\nb: 0x1F\nc: 1e5\nd: nullary\ne: 12-05-2026\n"));
}

TEST_CASE("maps, lists, brackets and folded notes are read as they stand", "[unit]") {
    CHECK(is_taken("a:\n  b: c\n  d:\n    e: f\n  g: h\ni: j\n"));
    CHECK(is_taken("a:\n  - b\n  - c\nd: e\n"));
    CHECK(is_taken("a:\n  - {b: 1 g, c: 2 %}\n  - {b: 3 g, c: 4 %}\n"));
    CHECK(is_taken("a:\n  - b: 1\n    c: 2\n  - b: 3\n    c:\n      d: e\nf: g\n"));
    CHECK(is_taken("a: {b: c}\nd: [e, f g, 1.5 g]\n"));
    CHECK(is_taken("a: >-\n  One's own: text # with [signs] \"of\" all - kinds\n  and more\nb: c\n"));
    CHECK(is_taken("a:\n  b: >-\n    text\n    - more\n  c: d\n\n# said\ne: >-\n  # no remark\n\n"));
    CHECK(is_taken("a:\n\n  # said\n  b: c\n  # again\nd:\n    # so far in\n  - e\n"));
    CHECK(is_taken("a: \"b: c, #d [e] - 'f'\"\nb:\n  - \" g \"\n"));
    CHECK(is_taken("a:\n  b: >-\n    c\n# at the margin\n  d: e\n"));
    std::string all; // that can be seen
    for (char c = '!'; c <= '~'; ++c)
        all += c;
    CHECK(is_taken("a: >-\n  x " + all + "\n"));
}

TEST_CASE("what leaves anything to interpret goes to the general parser", "[unit]") {
    for (const char* text :
         {"", "\n", "# only\n", "a:\n", "a: \n", "a:b\n", "a:  b\n", " a: b\n", "a: b \n", "a: b\n  c: d\n", "a: 'b'\n",
          "a: \"b\n", "a: \"\"\n", "a: \"b\\\"c\"\n", "a: \"b\\\\\"\n", "a: \"b\" c\n", "a: \"b\" # c\n", "a: \"b\": c\n", "a: \"b\xC3\xA9\"\n", "a: b # c\n", "a: b: c\n", "a: &b\n", "a: *b\n", "a: !b\n", "a: |\n  b\n",
          "a: >\n", "a: - b\n", "- a: b\n", "a: b\na: c\n", "a: b\nc\n", "a: b\n c\n", "A: b\n", "a: ~\n", "a: null\n",
          "null: a\n", "a: NULL\n", "---\na: b\n", "a: b\n...\n", "a: b\n---\nc: d\n", "a: \xC3\xA9\n", "%YAML 1.2\n",
          "? a: b\n", "a: @b\n", "a: `b\n", "a: b:\n", "<<: b\n", "a: .5 g\n", "a: b\t\n",
          // maps and lists
          "a:\nb: c\n", "a:\n   b: c\n", "a:\n    b: c\n", "a:\n  b: c\n    d: e\n", "a:\n  b: c\n d: e\n", "a:\n  b: c\n  b: d\n",
          "a:\n  b:\n", "a:\n- b\n", "a:\n  - b\n  c: d\n", "a:\n  -\n", "a:\n  - \n", "a:\n  -b\n", "a:\n  - b\n    c\n",
          "a:\n  b: c\n  - d\n", "a:\n  - - b\n", "a: b\n  - c\n",
          // brackets
          "a: {}\n", "a: []\n", "a: [b\n", "a: {b: c\n", "a: [b,]\n", "a: [b, ]\n", "a: [, b]\n", "a: [b,c]\n", "a: {b: c,d: e}\n",
          "a: [b]c\n", "a: [[b]]\n", "a: {b: {c: d}}\n", "a: {b: c, b: d}\n", "a: {b}\n", "a: {b:c}\n", "a: [b: c]\n", "a: [ b]\n",
          "a: [b ]\n", "a: [null]\n", "a: [b] # c\n", "a: [b,\n  c]\n", "a: {b: c, }\n",
          // folded texts
          "a: >-\n", "a: >-\nb: c\n", "a: >-\n  b\n\n  c\n", "a: >-\n  b\n    c\n", "a: >-\n    b\n", "a: >-\n  b \n", "a: >\n  b\n",
          "a: >+\n  b\n", "a: >- \n  b\n", "a: >-\n  b\n # c\n   d\n", "a: >-\n  b\xC3\xA9\n"}) {
        INFO(text);
        CHECK_FALSE(plain_lines(Source("f.yaml", text)).has_value());
    }
    std::string many;
    for (int i = 0; i < 97; ++i)
        many += "k" + std::to_string(i) + ": 1\n";
    CHECK_FALSE(plain_lines(Source("f.yaml", many)).has_value());
    // However plain: so long a file is counted by the general parser, which refuses more than 100 000 nodes.
    std::string items = "a:\n", brackets = "a: [b";
    for (int i = 0; i < 100'000; ++i)
        items += "  - b\n", brackets += ", b";
    for (const std::string& text : {items, brackets + "]\n"}) {
        const Source source("f.yaml", text);
        CHECK_FALSE(plain_lines(source).has_value());
        CHECK(by_the_general_parser(source).starts_with("too-many-nodes"));
        CHECK_THROWS_AS(parse_document(std::make_shared<const Source>("f.yaml", text)), InputError);
    }
}

TEST_CASE("texts put together at random are read alike wherever they are taken", "[identity]") {
    const std::vector<std::string> pieces{"kind", "b", "1.5 g", "0.20", "-", "- ", "+-", "%", "null", ",", "'", "\"", "[", "]",
                                          "{", "}", "&", "*", "!", "|", ">", "?", "#", " #", ":", ": ", "---", "...", "/",
                                          "(b)", "=", " ", "\n", "~", "\n  ", "<<", "@", "`", "\\", ".5", "_", ">-", "\n  - ", ":\n  ", ": >-\n  ", "{a: b}", "[a, b]", ", ", "\n    "};
    RandomEngine engine(20261127);
    const auto any = [&] { return pieces[engine() % pieces.size()]; };
    int taken = 0;
    for (int i = 0; i < 20000; ++i) {
        std::string text;
        for (auto line = 1 + engine() % 3; line > 0; --line) {
            text += (engine() % 8 == 0 ? any() : std::string(1, static_cast<char>('a' + engine() % 5)));
            text += (engine() % 8 == 0 ? any() : std::string(": "));
            text += (engine() % 2 == 0 ? any() : std::string("x"));
            if (engine() % 2 == 0) text += any();
            if (engine() % 8 != 0) text += "\n";
        }
        if (text.find_first_not_of(" \n") == std::string::npos) continue; // refused before any parser
        taken += is_taken(text);
    }
    CHECK(taken > 2000);
}

TEST_CASE("all of the shelf is read alike, and nearly all of it as plain lines", "[identity]") {
    int taken = 0, all = 0;
    for (const auto& file : std::filesystem::recursive_directory_iterator(LAKEBOUND_FORMULATIONS_DIR)) {
        if (file.path().extension() != ".yaml") continue;
        ++all;
        taken += is_taken(read_source(file.path().string())->text());
    }
    CHECK(all > 150);
    CHECK(10 * taken >= 9 * all);
}

TEST_CASE("the shelf with one sign changed is read alike wherever it is taken", "[identity]") {
    const std::string signs = " \n:-#'\"[]{},>|&*!%a0\\\t~";
    RandomEngine engine(20261128);
    int taken = 0;
    for (const auto& file : std::filesystem::recursive_directory_iterator(LAKEBOUND_FORMULATIONS_DIR)) {
        if (file.path().extension() != ".yaml") continue;
        const std::string text = read_source(file.path().string())->text();
        for (int i = 0; i < 40; ++i) {
            std::string changed = text;
            const auto at = engine() % changed.size(), how = engine() % 3;
            const char sign = signs[engine() % signs.size()];
            if (how == 0) changed[at] = sign;
            else if (how == 1) changed.insert(at, 1, sign);
            else changed.erase(at, 1 + engine() % 3);
            if (changed.find_first_not_of(" \n") == std::string::npos || changed.find('\t') != std::string::npos) continue;
            taken += is_taken(changed);
        }
    }
    CHECK(taken > 1000);
}

TEST_CASE("whatever is not plain is left to the general parser, at its edges too", "[unit]") {
    const auto rows = [](int count, const std::string& behind) {
        std::string text;
        for (int i = 0; i < count; ++i)
            text.append("k").append(std::to_string(i)).append(behind);
        return text;
    };
    CHECK(is_taken(rows(96, ": 1\n")));
    CHECK_FALSE(is_taken(rows(97, ": 1\n")));
    const auto bracket = [&](int count) { return "a: {" + rows(count, ": 1, ").substr(0, rows(count, ": 1, ").size() - 2) + "}\n"; };
    CHECK(is_taken(bracket(96)));
    CHECK_FALSE(is_taken(bracket(97)));
    std::string deep, indent;
    for (int i = 0; i < 9; ++i, indent += "  ")
        deep.append(indent).append("a:\n");
    CHECK(is_taken(deep.substr(0, deep.rfind(indent.substr(2))) + indent.substr(2) + "a: 1\n"));
    CHECK_FALSE(is_taken(deep + indent + "a: 1\n"));
    for (const char* none : {"a: Null\n", "a: NULL\n", "a: null\n"})
        CHECK_FALSE(is_taken(none));
    CHECK_FALSE(is_taken("a: \"na\xC3\xAFve\"\n")); // beyond what can be counted byte by byte
    CHECK_FALSE(is_taken("  a: 1\nb: 2\n"));
    CHECK_FALSE(is_taken("# only this\n"));
    CHECK_FALSE(is_taken("a:\n  b: 1\n c: 2\n"));
}
