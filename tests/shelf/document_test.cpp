#include "lakebound/shelf/document.hpp"

#include <catch2/catch.hpp>

#include <filesystem>

#include "shelf/faults_of.hpp"
#include "support/in_folder.hpp"
#include "support/temp_dir.hpp"

using namespace lakebound;
using lakebound::testing::faults_of;
using lakebound::testing::InFolder;
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
    for (const char* escape : {"\\q", "\\xzz", "\\ud800", "\\Uffffffff"}) { // an unknown letter, no figures, no character
        const auto told = faults_of([&] { load_document("f.yaml", "a: \"" + std::string(escape) + "\"\n").faults.throw_if_any(); });
        CAPTURE(escape);
        REQUIRE(told.size() == 1);
        CHECK(told[0].message == "a backslash in double quotes begins an escape, and this one is unknown");
    }
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
    // 64 files and no more, side by side.
    std::string beside = head;
    for (int i = 1; i <= 65; ++i) {
        dir.write(name('s', i), "kind: jar\n");
        beside.append(i > 1 ? ", " : "").append(name('s', i));
        if (i == 64) CHECK(summary(faults_reading(dir.write("s.yaml", beside + "]\n"))).empty());
    }
    const auto many = faults_reading(dir.write("s.yaml", beside + "]\n"));
    REQUIRE(summary(many) == "include-depth 2:" + std::to_string(beside.size() - std::string("kind: jar\n").size() - std::string("s65.yaml").size() + 1));
    CHECK(many[0].message == "more than 64 files are included");
}

namespace {

/// "id line:column message (second: its message)" of each fault of a jar that includes this.
std::string include_told(const TempDir& dir, const std::string& list) {
    std::string text;
    for (const auto& fault : faults_of([&] { load_document(dir.write("own.yaml", "kind: jar\ninclude: " + list + "\n")).faults.throw_if_any(); })) {
        std::string line = fault.id + " " + std::to_string(fault.at.place.line) + ":" + std::to_string(fault.at.place.column) + " " + fault.message;
        if (fault.second) line += " (" + fault.second->message + " " + std::to_string(fault.second->at.place.line) + ")";
        const std::string folder = dir.path().string() + "/";
        for (std::size_t at = line.find(folder); at != std::string::npos; at = line.find(folder)) line.erase(at, folder.size());
        text += line + "\n";
    }
    return text;
}

} // namespace

TEST_CASE("every way in which an include is wrong is told", "[errors]") {
    const TempDir dir;
    const std::string no_list = "include must be a list of file names\n";
    CHECK(include_told(dir, "{a: b}") == "include-list 2:10 " + no_list);
    CHECK(include_told(dir, "[a: b]") == "include-list 2:11 " + no_list);
    CHECK(include_told(dir, "[[a]]") == "include-list 2:11 " + no_list);
    CHECK(include_told(dir, "[\"\"]") == "include-list 2:11 " + no_list);
    CHECK(include_told(dir, "[\"-\"]") == "include-list 2:11 " + no_list);
    CHECK(include_told(dir, "~") == "value-missing 2:1 'include' has no value\n");
    CHECK(include_told(dir, "[~, none.yaml]") == "value-missing 2:11 an item of this list is empty\n"
                                                 "include-missing 2:14 'none.yaml' cannot be included: there is no such file (the file looked for 0)\n");
    std::filesystem::create_directory(dir.path() / "folder");
    CHECK(include_told(dir, "[folder]") == "file-directory 2:11 'folder' cannot be included: this is a folder, a file is wanted (the file looked for 0)\n");
    dir.write("tab.yaml", "kind: jar\nname:\tx\n");
    CHECK(include_told(dir, "[tab.yaml]") == "text-tab 2:6 a tab stands here; only spaces may space things out (included from here 2)\n");
    dir.write("twice.yaml", "kind: jar\nname: a\nname: b\n");
    CHECK(include_told(dir, "[twice.yaml]") == "key-duplicate 3:1 'name' is given twice (given first here 2)\n"); // both places are its own
    dir.write("list.yaml", "- a\n");
    CHECK(include_told(dir, "[list.yaml]") == "not-a-map 1:1 the file must consist of lines 'key: value' (included from here 2)\n");
    dir.write("nokind.yaml", "name: a\n");
    CHECK(include_told(dir, "[nokind.yaml]") == "include-kind 2:11 'nokind.yaml' is not a file of kind 'jar' (the included file 1)\n");
    dir.write("other.yaml", "name: a\nkind: bench\n");
    CHECK(include_told(dir, "[other.yaml]") == "include-kind 2:11 'other.yaml' is not a file of kind 'jar' (the included file 2)\n");
    // What is wrong in it beside hides nothing of the rest.
    dir.write("half.yaml", "kind: jar\nname: !x a\nsince: 2026-05-01\n");
    CHECK(include_told(dir, "[half.yaml]") == "yaml-tag 2:7 a value beginning with '!' names a YAML type; that is not taken here (included from here 2)\n");
    CHECK(load_document(dir.file("own.yaml")).root.find("since")->text == "2026-05-01");
}

TEST_CASE("what comes by standard input includes from the folder one stands in, and other kinds include nothing", "[unit]") {
    const TempDir dir;
    const InFolder here(dir.path());
    dir.write("base.yaml", "kind: jar\nname: base\ninclude: [again.yaml]\n");
    dir.write("again.yaml", "kind: jar\nsince: 2026-05-01\n");
    const Document document = load_document("standard input", "kind: jar\ninclude: [base.yaml]\n");
    CHECK(document.faults.none());
    CHECK(document.root.find("since")->excerpt().place.path == "again.yaml");
    CHECK(load_document("f.yaml", "kind: recipe\ninclude: [none.yaml]\n").faults.none()); // its reader says that it cannot
    CHECK(load_document("f.yaml", "include: [none.yaml]\n").faults.none());
}

TEST_CASE("the kind of a file is the word that it says", "[unit]") {
    CHECK(load_document("f.yaml", "kind: jar\n").kind() == "jar");
    CHECK(load_document("f.yaml", "name: jar\n").kind().empty());
    CHECK(load_document("f.yaml", "kind: [jar]\n").kind().empty());
}

TEST_CASE("a part of a text is shown where it stands, or the whole where that cannot be told", "[unit]") {
    const Document document = load_document("f.yaml", "a: one two\nb: |\n  one two\nc: \"one\\ttwo three\"\nd: one\n  two\n");
    const auto place = [&](const char* key) {
        const auto at = document.root.find(key)->part(4, 3).place;
        return std::to_string(at.line) + ":" + std::to_string(at.column);
    };
    CHECK(place("a") == "1:8");
    CHECK(place("b") == "2:4"); // a block
    CHECK(place("c") == "4:4"); // an escape
    CHECK(place("d") == "5:4"); // folded
}

TEST_CASE("a tree of odd corners is told in plain words", "[errors]") {
    CHECK(faults_in("a: [1,\n  ]\nb: [,]\n") == "value-missing 3:5");
    CHECK(faults_in("\"\": 1\n") == "key-not-text 1:1");
    CHECK(faults_in("!x : 1\n") == "yaml-tag 1:1, key-not-text 1:1");
    CHECK(faults_in("{a: 1}: 2\n") == "key-not-text 1:1");
    CHECK(faults_in("a: 1\na:\n") == "key-duplicate 2:1");
    CHECK(faults_in("a: !\n") == "yaml-tag 1:4");
    CHECK(faults_in("a: &x !!str 5\n") == "yaml-anchor 1:4");
    CHECK(faults_in("a: \"x\\x07y\"\nb: \"x\\u202Ey\"\nc: \"\\xE9\"\n") == "text-control 1:4, text-control 2:4");
    CHECK(faults_in("a: \"\\xZZ\"\n") == "yaml-syntax 1:9");
    CHECK(faults_in("a: \"\\uD800\"\n") == "yaml-syntax 1:11");
}

TEST_CASE("a bracket that is open at the end is told, whatever the parser makes of its last word", "[errors]") {
    CHECK(faults_in("a: [b\n") == "bracket-open 1:4, value-missing 1:5");
    CHECK(faults_in("a: [b") == "bracket-open 1:4, value-missing 1:5");
    CHECK(faults_in("a: [1, [b\n") == "bracket-open 1:8, value-missing 1:9");
    CHECK(faults_in("a: {b: c, d\ne: f\n") == "bracket-open 1:4, key-not-text 1:11");
    CHECK(faults_in("a: [b, c\n") != "value-missing 1:8");
}

TEST_CASE("files include each other eight deep, and the ninth is told where it is asked for", "[errors]") {
    const TempDir dir;
    const auto chain = [&](int deep) { // f0 includes f1, and so on to the last
        for (int i = 0; i < deep; ++i)
            dir.write("f" + std::to_string(i) + ".yaml", "kind: jar\ninclude: [f" + std::to_string(i + 1) + ".yaml]\n");
        dir.write("f" + std::to_string(deep) + ".yaml", "kind: jar\nname: last\n");
        return faults_of([&] { load_document(dir.file("f0.yaml")).faults.throw_if_any(); });
    };
    CHECK(chain(8).empty());
    const auto faults = chain(9);
    REQUIRE(summary(faults) == "include-depth 2:11");
    CHECK(faults[0].at.place.path == dir.file("f8.yaml"));
    CHECK(faults[0].at.span_length == 7);
    CHECK(faults[0].message == "files include each other more than 8 deep");
}

TEST_CASE("a circle of includes is told with both its places, whole", "[errors]") {
    const TempDir dir;
    const InFolder here(dir.path());
    const auto told = [](const char* path) {
        try {
            load_document(path).faults.throw_if_any();
        } catch (const InputError& error) {
            return error.text();
        }
        return std::string();
    };
    dir.write("own.yaml", "kind: jar\ninclude: [own.yaml]\n");
    CHECK(told("own.yaml") == "own.yaml:2:11: error: 'own.yaml' includes itself in a circle [include-circle]\n"
                              "    2 | include: [own.yaml]\n      |           ^~~~~~~~\n"
                              "own.yaml: note: the file that includes itself\nhint: delete one of the includes\n");
    dir.write("a.yaml", "kind: jar\ninclude: [b.yaml]\n");
    dir.write("b.yaml", "kind: jar\nname: b\ninclude: [c.yaml]\n");
    dir.write("c.yaml", "kind: jar\ninclude:\n  - b.yaml\n");
    CHECK(told("a.yaml") == "c.yaml:3:5: error: 'b.yaml' includes itself in a circle [include-circle]\n"
                            "    3 |   - b.yaml\n      |     ^~~~~~\n"
                            "b.yaml:3:11: note: the circle begins here\n"
                            "    3 | include: [c.yaml]\n      |           ^~~~~~\nhint: delete one of the includes\n");
    dir.write("n.yaml", "name: a\n");
    dir.write("d.yaml", "kind: jar\ninclude: [n.yaml]\n");
    CHECK(told("d.yaml") == "d.yaml:2:11: error: 'n.yaml' is not a file of kind 'jar' [include-kind]\n"
                            "    2 | include: [n.yaml]\n      |           ^~~~~~\n"
                            "n.yaml:1:1: note: the included file\n    1 | name: a\n      | ^\n"
                            "hint: include files of the same kind, with 'kind: jar' as their first line\n");
}
