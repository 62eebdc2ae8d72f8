#include "lakebound/shelf/document.hpp"

#include <catch2/catch.hpp>

#include "shelf/faults_of.hpp"
#include "support/temp_dir.hpp"

using namespace lakebound;
using lakebound::testing::faults_of;
using lakebound::testing::summary;
using lakebound::testing::TempDir;

namespace {

std::string faults_in(const std::string& text) {
    return summary(faults_of([&] { load_document("f.yaml", text).faults.throw_if_any(); }));
}

std::string repeat(const std::string& text, int times) {
    std::string all;
    for (int i = 0; i < times; ++i)
        all += text;
    return all;
}

} // namespace

TEST_CASE("a plain file becomes a tree with places", "[unit]") {
    const Document document =
        load_document("jar.yaml", "kind: jar\nname: \"weld, 3\"\ndensity: {value: 1.9 g/cm3}\n"
                                  "drawn:\n  - mass: 2 g\n    for: 'test'\nnote: |\n  two\n  lines\n"
                                  "long: folded\n  text of two lines\n");
    CHECK(document.faults.none());
    CHECK(document.kind() == "jar");
    const Node& root = document.root;
    REQUIRE(root.kind == Node::Kind::map);
    CHECK(root.keys.size() == 6);
    CHECK(root.find("name")->text == "weld, 3");
    CHECK(root.find("name")->style == Node::Style::quoted);
    CHECK(root.find("name")->excerpt().span_length == 9);
    const Node& value = *root.find("density")->find("value");
    CHECK(value.text == "1.9 g/cm3");
    CHECK(value.excerpt().place.line == 3);
    CHECK(value.excerpt().place.column == 18);
    CHECK(value.part(4, 5).place.column == 22);
    CHECK(root.find("name")->part(6, 1).place.column == 14); // behind the opening quote
    const Node& drawn = *root.find("drawn");
    REQUIRE(drawn.kind == Node::Kind::sequence);
    CHECK(drawn.items.at(0).find("for")->text == "test");
    CHECK(root.find("note")->text == "two\nlines\n");
    CHECK(root.find("long")->text == "folded text of two lines");
    CHECK(root.find("nothing") == nullptr);
}

TEST_CASE("whatever hides something from the reader is refused", "[errors]") {
    CHECK(faults_in("a: &x 1\n") == "yaml-anchor 1:4");
    CHECK(faults_in("a: &x 1\nb: *x\n") == "yaml-anchor 1:4, yaml-alias 2:4");
    CHECK(faults_in("a: *nope\n") == "yaml-alias 1:4");
    CHECK(faults_in("a: &a [*a]\n") == "yaml-anchor 1:4, yaml-alias 1:8");
    CHECK(faults_in("a: !!str 5\nb: !mine {c: 1}\nd: ! x\n") == "yaml-tag 1:4, yaml-tag 2:4, yaml-tag 3:4");
    CHECK(faults_in("<<: {a: 1}\n") == "yaml-merge-key 1:1");
    CHECK(faults_in("a: 1\nb: 2\na: 3\n") == "key-duplicate 3:1");
    CHECK(faults_in("a: {b: 1, b: 2}\n") == "key-duplicate 1:11");
    CHECK(faults_in("a: 1\n\"a\": 3\n") == "key-duplicate 2:1");
    CHECK(faults_in("? [x]\n: 1\n") == "key-not-text 1:3");
    CHECK(faults_in(": 1\n") == "key-not-text 1:1");
    CHECK(faults_in("a: 1\n---\nb: 2\n") == "second-document 2:1");
    CHECK(faults_in("a: 1\n...\nb: 2\n") == "second-document 3:1");
    CHECK(faults_in("# only this\n") == "file-empty");
    CHECK(faults_in("---\n") == "file-empty");
    CHECK(faults_in("- a\n- b\n") == "not-a-map 1:1");
    CHECK(faults_in("weld\n") == "not-a-map 1:1");
    CHECK(faults_in("a: [1,,2]\nb:\nc: ~\nd:\n  - x\n  -\n") ==
          "value-missing 1:7, value-missing 2:1, value-missing 3:1, value-missing 6:3");
    CHECK(faults_in("a: \"x\\0y\"\n") == "text-control 1:4");
}

TEST_CASE("a key given twice shows both places", "[errors]") {
    const auto faults = faults_of([] { load_document("f.yaml", "a: 1\nb: 2\na: 3\n").faults.throw_if_any(); });
    REQUIRE(faults.size() == 1);
    REQUIRE(faults[0].second);
    CHECK(faults[0].second->at.place.line == 1);
    std::string many;
    for (int i = 0; i < 100; ++i)
        many.append("k").append(std::to_string(i)).append(": 1\n");
    CHECK(faults_in(many + "k3: 2\nk77: 2\n") == "key-duplicate 101:1, key-duplicate 102:1");
}

TEST_CASE("a quote left open never swallows the file", "[errors]") {
    CHECK(faults_in("a: \"foo\nb: 2\n") == "quote-open 1:4");
    CHECK(faults_in("a: 'foo\n\n") == "quote-open 1:4");
    CHECK(faults_in("a: \"foo\nb: \"bar\"\nc: 1\n") == "quote-open 1:4");
    CHECK(faults_in("a: \"foo\nb: 1\nc: \"\n") == "quote-open 1:4");
    CHECK(faults_in("a: \"two\n  lines of text\"\nb: 1\n").empty());
}

TEST_CASE("a key swallowed by the text above it is found", "[errors]") {
    CHECK(faults_in("a: foo\n  b:2\nc: 3\n") == "line-swallowed 2:3");
    CHECK(faults_in("a: foo\n  b: 2\n") == "line-swallowed 2:3");
    CHECK(faults_in("a: foo\n  - b\n") == "line-swallowed 2:3");
    CHECK(faults_in("note: see\n  https://example.org/x for more\n").empty());
    CHECK(faults_in("a: [1, 2\nb: 3\n") == "bracket-open 1:4");
    CHECK(faults_in("a: {b: 1\n") == "bracket-open 1:4");
    CHECK(faults_in("a: b\ndensity:1.9\nd: e\n") == "colon-space 2:8");
}

TEST_CASE("what YAML itself refuses is told in plain words", "[errors]") {
    CHECK(faults_in("a: b: c\n") == "yaml-syntax 1:5");
    CHECK(faults_in("a: 'x' y\n") == "yaml-syntax 1:8");
    CHECK(faults_in("a: }\n") == "yaml-syntax 1:4");
    CHECK(faults_in("a: - b\n") == "yaml-syntax 1:4");
    CHECK(faults_in("a: @b\n") == "yaml-syntax 1:4");
    CHECK(faults_in("a: \"\\q\"\n").rfind("yaml-syntax 1:", 0) == 0);
    CHECK(faults_in("a:\n  b: 1\n c: 2\n") == "yaml-syntax 3:2");
    CHECK(faults_in("a:1\nb: 2\n") == "colon-space 1:2");
}

TEST_CASE("bombs are refused before they go off", "[errors]") {
    CHECK(faults_in(repeat("a:\n ", 1) + repeat("[", 63) + repeat("]", 63)).empty()); // 64 with the map
    CHECK(faults_in(repeat("a:\n ", 1) + repeat("[", 64) + repeat("]", 64)) == "nesting-depth 2:65");
    CHECK(faults_in(repeat("[", 400'000)).rfind("nesting-depth 1:", 0) == 0);
    CHECK(faults_in(repeat("{b: ", 200'000)).rfind("nesting-depth 1:", 0) == 0);
    CHECK(faults_in(repeat("- ", 400'000)).rfind("nesting-depth 1:", 0) == 0);
    CHECK(faults_in(repeat("x", 3).append(": [").append(repeat("x,", 200'000)).append("x]"))
              .rfind("too-many-nodes", 0) == 0);
    std::string bomb = "a0: &a0 [x, x]\n";
    for (int i = 1; i < 30; ++i) {
        const std::string here = std::to_string(i), before = std::to_string(i - 1);
        bomb.append("a").append(here).append(": &a").append(here);
        bomb.append(" [*a").append(before).append(", *a").append(before).append("]\n");
    }
    CHECK(faults_of([&] { load_document("f.yaml", bomb); }).size() == most_faults);
}

TEST_CASE("jar and bench files may include others of their kind", "[unit]") {
    const TempDir dir;
    dir.write("common/base.yaml", "kind: jar\nname: base\nnote: from below\ninclude: [deeper.yaml]\n");
    dir.write("common/deeper.yaml", "kind: jar\nname: deepest\nmoisture: 3 % w/w\n");
    const std::string path = dir.write("weld.yaml", "kind: jar\ninclude:\n  - common/base.yaml\nname: weld\n");
    const Document document = load_document(path);
    CHECK(document.faults.none());
    CHECK(document.sources.size() == 3);
    CHECK(document.root.find("name")->text == "weld");
    CHECK(document.root.find("note")->text == "from below");
    CHECK(document.root.find("moisture")->excerpt().place.path == dir.file("common/deeper.yaml"));
}

TEST_CASE("includes that cannot be followed are told with both places", "[errors]") {
    const TempDir dir;
    const auto faults_reading = [](const std::string& path) {
        return faults_of([&] { load_document(path).faults.throw_if_any(); });
    };
    const std::string a = dir.write("a.yaml", "kind: jar\ninclude: [b.yaml]\n");
    dir.write("b.yaml", "kind: jar\ninclude: [./a.yaml]\n");
    auto faults = faults_reading(a);
    CHECK(summary(faults) == "include-circle 2:11");
    REQUIRE(faults.at(0).second);
    CHECK(faults[0].at.place.path == dir.file("b.yaml"));
    CHECK(faults[0].second->at.place.path == a);

    faults = faults_reading(dir.write("self.yaml", "kind: jar\ninclude: [self.yaml]\n"));
    CHECK(summary(faults) == "include-circle 2:11");
    CHECK(faults.at(0).second);

    faults = faults_reading(dir.write("gone.yaml", "kind: jar\ninclude: [nowhere.yaml, alsogone.yaml]\n"));
    CHECK(summary(faults) == "include-missing 2:11, include-missing 2:25");
    REQUIRE(faults.at(0).second);
    CHECK(faults[0].second->at.place.path == dir.file("nowhere.yaml"));

    dir.write("bench.yaml", "kind: bench\n");
    CHECK(summary(faults_reading(dir.write("kind.yaml", "kind: jar\ninclude: [bench.yaml]\n"))) ==
          "include-kind 2:11");
    dir.write("broken.yaml", "kind: jar\nname: [\n");
    faults = faults_reading(dir.write("bad.yaml", "kind: jar\ninclude: [broken.yaml]\n"));
    CHECK(summary(faults) == "bracket-open 2:7");
    REQUIRE(faults.at(0).second);
    CHECK(faults[0].second->message == "included from here");
    CHECK(summary(faults_reading(dir.write("list.yaml", "kind: jar\ninclude: base.yaml\n"))) ==
          "include-list 2:10");

    const auto name = [](char letter, int i) {
        return std::string(1, letter).append(std::to_string(i)).append(".yaml");
    };
    const std::string head = "kind: jar\ninclude: [";
    for (int i = 0; i < 10; ++i)
        dir.write(name('n', i), head + name('n', i + 1) + "]\n");
    CHECK(summary(faults_reading(dir.file("n0.yaml"))) == "include-depth 2:11");
    for (int i = 0; i < 5; ++i) {
        std::string list = name('w', i + 1);
        for (int n = 1; n < 10; ++n)
            list.append(", ").append(name('w', i + 1));
        dir.write(name('w', i), head + list + "]\n");
    }
    dir.write("w5.yaml", "kind: jar\n");
    CHECK(faults_reading(dir.file("w0.yaml")).at(0).id == "include-depth");
}
