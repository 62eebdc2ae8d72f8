// Files in which YAML says what the shelf does not take: each fault whole, with its place, what is marked there and how to mend it.

#include <catch2/catch.hpp>

#include <string>
#include <vector>

#include "faults_of.hpp"
#include "lakebound/shelf/document.hpp"
#include "support/expected_text.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

std::string place_of(const Excerpt& at) {
    return std::to_string(at.place.line) + ":" + std::to_string(at.place.column) + "+" + std::to_string(at.span_length);
}

std::string tree_of(const Node& node) {
    std::string text;
    if (node.kind == Node::Kind::broken) return "?";
    if (node.kind == Node::Kind::scalar) text = "'" + node.text + "'";
    for (std::size_t i = 0; i < node.items.size(); ++i)
        text += (i == 0 ? "" : ", ") + (i < node.keys.size() ? tree_of(node.keys[i]) + ": " : std::string()) + tree_of(node.items[i]);
    if (node.kind == Node::Kind::sequence) text = "[" + text + "]";
    if (node.kind == Node::Kind::map) text = "{" + text + "}";
    return text + "@" + place_of(node.excerpt());
}

/// What is told of a text, and the tree that is left of it.
std::string told(const std::string& text) {
    std::string all;
    for (std::size_t from = 0; from < text.size();) {
        const auto end = std::min(text.find('\n', from), text.size());
        all += "| " + text.substr(from, end - from) + (end == text.size() ? "$" : "") + "\n";
        from = end + 1;
    }
    std::vector<Diagnostic> faults;
    std::string tree;
    faults = faults_of([&] {
        Document document = load_document("f.yaml", text);
        tree = tree_of(document.root);
        document.faults.throw_if_any();
    });
    for (const auto& fault : faults) {
        all += "  " + fault.id + " " + place_of(fault.at) + " " + fault.message + "; " + fault.hint + "\n";
        if (fault.second) all += "      " + place_of(fault.second->at) + " " + fault.second->message + "\n";
    }
    if (!tree.empty()) all += "  " + tree + "\n";
    for (char& c : all)
        if (c == '\x07' || c == '\x01') c = '^';
    return all;
}

} // namespace

TEST_CASE("what YAML would let hide is told whole", "[errors]") {
    std::string text;
    for (const char* file :
         {// names, references and types, alone, before others, as a key, at the end
          "a: &x 1\n", "a: &long-name one two\nb: 1\n", "a: [&x, b]\n", "a: {b: &x}\n", "a: &x\n  b: 1\n", "&x a: 1\n", "a: &x", "a: *x\n", "a: &x 1\nb: *x\nc: 2\n",
          "a: &x 1\nb: [*x, *x]\n", "a: &x 1\nb: {c: *x}\n", "a: &x 1\n*x : 2\n", "a: !t 1\n", "a: !t\n", "a: !", "a: ! x\n", "a: ! 'x'\n", "a: ! [b]\n", "a: !!str 'x'\n", "a: !t {b: 1}\nc: 2\n",
          "a: [!t b, c]\n", "a: {!t b: c}\n", "!t a: 1\n", "!t\na: 1\n", "a: &x !t 1\n", "a: !t &x 1\n", "a: &x !t [1]\n", "a: '!x'\nb: \"!y\"\n", "a: |\n  !x\nb: >\n  !y\n",
          // what is empty
          "a:\nb: 1\n", "b: 1\na:\n", "b: 1\na:", "a: ~\n", "a: null\n", "a: [~]\n", "a: [1,,2]\n", "a: [ , 1]\n", "a: [1, ~ , 2]\n", "a:\n  - 1\n  -\n  - 2\n", "a:\n  -\n", "a:\n  - 1\n  -", "a:\n  -  \n\n  - 2\n", "a: {b: , c: 1}\n",
          "a: {b, c: 1}\n", "a: []\nb: {}\n", "a: ''\nb: \"\"\n", "- \n", "-", "a: {\n  b: 1}\n", "a: [\n  1]\n",
          // keys
          "'': 1\na: 2\n", "? a\n: 1\n", "? [x, y]\n: 1\nb: 2\n", "? {x: y}\n: 1\nb: 2\n", ": 1\n", "a: {: 1}\n", "<<: 1\na: 2\n", "a: {<<: {b: 1}}\n", "<<:\n", "a: 1\na: 2\n", "a: 1\n'a': 2\nb: 3\n", "a: 1\nb: 2\na:\n  c: 3\n", "a: {b: 1, b: [2]}\n",
          "a: 1\n? a\n: 2\n", "~: 1\n", "[a]: 1\n", "a: 1\n[a, b]: 2\nc: 3\n",
          // other roots, more than one file
          "weld\n", "'weld'\n", "- a\n- b\n", "[a, b]\n", "~\n", "# only\n", "---\n", "---\na: 1\n", "--- \na: 1\n---\nb: 2\n", "a: 1\n--- b\n", "a: 1\n...\n", "a: 1\n...\nb: 2\n", "---\n---\n", "---\n...\n---\na: 1\n", "a: 1\n---", "%YAML 1.2\n---\na: 1\n"})
        text += told(file);
    check_expected("shelf", "yaml-hidden", text);
}

TEST_CASE("quotes and brackets left open, and lines that were swallowed, are told whole", "[errors]") {
    std::string text;
    for (const char* file :
         {"a: 'b\n", "a: 'b", "a: \"b\n", "a: \"b", "a: '", "a: \"", "a: 'b\nc: 'd'\n", "a: 'b\nc: d\ne: 'f'\n", "a: \"b\nc: d\"\n", "a: \"b\n c: d\"\n", "a: \"b\n c:d\"\n", "a: \"b\n  c\"\nd: 1\n", "a: \"b\n  c\" # d\n", "a: [\"b\n  c\", d]\n",
          "a: {b: \"c\n  d\"}\n", "a: \"b\n  - c\"\n", "a: 'b''c'\n", "a: 'b' c\n", "a: 'b'c: 1\n", "a: \"b\\\"c\"\n", "a: \"b\\x07\"\nc: 1\n", "a: \"\\u0001b\nc: 1\"\n", "a: \"b\\u202Ec\"\n", "a: \"b\\\n  c\"\n", "'a\nb': 1\n", "\"a\": 1\n",
          "a: [b\n", "a: [b", "a: [b, c\nd: 1\n", "a: [b\nd: 1\ne: 2\n", "a: {b: c\n", "a: {b: c", "a: {b: c\nd: 1\n", "a: {b: c, d\ne: f\n", "a: {b: [c, d}\n", "a: [b}\n", "a: {b: c]\n", "a: [{b: c]\n", "a: [b, [c\nd: 1\n", "a: {b: c\n  d:e}\n", "a: [b\n  - c]\n", "a: [b c\n  d: e]\n",
          "a: ]\n", "a: }\n", "a: b]\n", "a: ,\n", "a: [b] c\n", "a: {b: c} d\n",
          "a: b\n  c: d\n", "a: b\n  c:d\n", "a: b\n c:d\ne: f\n", "a: b\n  - c\n", "a: b\n  -c\n", "a: b\n\n  c:d\n", "a: b\n  'c':d\n", "a: b\n  c ://d\n", "a: b\n  c://d\n", "a: b\n  c\n  d:e\n  f:g\nh: i\n", "- a\n  b:c\n- d\n", "a:\n  - b\n    c:d\n  - e\n",
          "a:b\nc: d\n", "c: d\na:b\n", "c: d\na:b", "c: d\na:b\ne: f\n", "a:b\n", "c: d\n  a:b\ne: f\n", "- a:b\n- c: d\n", "c:\n  - a:b\n  - e: f\n", "a://b\nc: d\n", "A:b\nc: d\n", "a_z:b\nc: d\n", "a1:b\nc: d\n", "a:\n  b: c: d\n", "a:\n\n  b: c: d\n", "x:y\na:\n  b: c: d\n", "a:'b'\nc: d\n",
          "a: b: c\n", "a: b\n c: d\n", "a:\n  b: 1\n c: 2\n", "a:\n - b\nc\n", "a: 1\nb\nc: 2\n", "a: - b\n", "a: - b\n  - c\n", "a: 1\n- b\n", "a:\n  - b\n  c: d\n", "a: @b\n", "a: `b\n", "a: %b\n", "a: |x\n  b\n", "a: >\nb: 1\n", "a: \"\\q\"\n", "a: \"b\\\n", "a: \"\\x\"\n",
          "a: |\n  b\n  c\n", "a: >-\n  b\n\n  c\nd: e\n", "a: |", "a: >\n"})
        text += told(file);
    check_expected("shelf", "yaml-open", text);
}

TEST_CASE("a key given twice is found wherever the first stands among many", "[errors]") {
    std::string many;
    for (int i = 0; i < 60; ++i)
        many += "k" + std::to_string(i) + ": 1\n";
    for (int i = 0; i < 60; ++i) {
        const auto faults = faults_of([&] { load_document("f.yaml", many + "k" + std::to_string(i) + ": '2'\n").faults.throw_if_any(); });
        REQUIRE(summary(faults) == "key-duplicate 61:1");
        REQUIRE(faults[0].second);
        CHECK(faults[0].second->at.place.line == static_cast<std::size_t>(i + 1));
    }
    CHECK(faults_of([&] { load_document("f.yaml", many + "k60: '2'\n").faults.throw_if_any(); }).empty());
}

TEST_CASE("a file may hold a hundred thousand keys and values, and 64 levels", "[errors]") {
    // A map, its key, the list, and its items.
    const auto with = [](int items) {
        std::string text = "a: [\"b";
        for (int i = 0; i < items - 1; ++i)
            text += "\",\"b";
        return text + "\"]\n";
    };
    CHECK(summary(faults_of([&] { load_document("f.yaml", with(100'000 - 3)).faults.throw_if_any(); })).empty());
    const auto faults = faults_of([&] { load_document("f.yaml", with(100'000 - 2)).faults.throw_if_any(); });
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].id == "too-many-nodes");
    CHECK(faults[0].message == "the file holds more than 100 000 keys and values");
    CHECK(faults[0].at.span_length == 1);
    const auto deep = [](std::size_t levels) { return "a:\n  " + std::string(levels - 1, '[') + "b" + std::string(levels - 1, ']') + "\n"; };
    CHECK(faults_of([&] { load_document("f.yaml", deep(64)).faults.throw_if_any(); }).empty());
    const auto deeper = faults_of([&] { load_document("f.yaml", deep(65)).faults.throw_if_any(); });
    REQUIRE(summary(deeper) == "nesting-depth 2:66");
    CHECK(deeper[0].at.span_length == 1);
}
