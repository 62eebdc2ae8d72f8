#include "lakebound/shelf/diagnostic.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <tuple>

#include "shelf/faults_of.hpp"

using namespace lakebound;
using lakebound::testing::faults_of;

namespace {

Excerpt excerpt(std::string path, std::size_t line, std::size_t column, std::string text, std::size_t length) {
    Excerpt at;
    at.place.path = std::move(path);
    at.place.line = line;
    at.place.column = column;
    at.source_line = std::move(text);
    at.span_length = length;
    return at;
}

Diagnostic density_fault() {
    Diagnostic fault;
    fault.id = "unit-dimension";
    fault.message = "density must be mass per volume, got '2.7 g/cm2'";
    fault.at = excerpt("jars/weld-3.yaml", 12, 14, "    density: 2.7 g/cm2", 9);
    fault.hint = "write '2.7 g/cm3'";
    return fault;
}

} // namespace

TEST_CASE("a fault is printed with place, line, underline and hint", "[unit]") {
    CHECK(render(density_fault()) ==
          "jars/weld-3.yaml:12:14: error: density must be mass per volume, got '2.7 g/cm2' [unit-dimension]\n"
          "   12 |     density: 2.7 g/cm2\n"
          "      |              ^~~~~~~~~\n"
          "hint: write '2.7 g/cm3'\n");
}

TEST_CASE("a fault of two places shows both", "[unit]") {
    Diagnostic fault = density_fault();
    fault.second.emplace();
    fault.second->at = excerpt("jars/weld-3.yaml", 3, 1, "density: 2 g/cm3", 7);
    fault.second->message = "given first here";
    CHECK(render(fault) ==
          "jars/weld-3.yaml:12:14: error: density must be mass per volume, got '2.7 g/cm2' [unit-dimension]\n"
          "   12 |     density: 2.7 g/cm2\n"
          "      |              ^~~~~~~~~\n"
          "jars/weld-3.yaml:3:1: note: given first here\n"
          "    3 | density: 2 g/cm3\n"
          "      | ^~~~~~~\n"
          "hint: write '2.7 g/cm3'\n");
}

TEST_CASE("a fault of the command line or of a whole file has no line", "[unit]") {
    CHECK(render(command_line_fault("option-value", "--pans must be a number, got 'six'", "write --pans 6")) ==
          "command line: error: --pans must be a number, got 'six' [option-value]\nhint: write --pans 6\n");
    CHECK(render(whole_file_fault("file-missing", "a.yaml", "there is no such file")) ==
          "a.yaml: error: there is no such file [file-missing]\n");
}

TEST_CASE("the underline stays within the line and counts characters, not bytes", "[unit]") {
    Diagnostic fault = density_fault();
    fault.at = excerpt("f", 1, 7, "naïf: µm", 99);
    CHECK(render(fault).find("    1 | naïf: µm\n      |       ^~\n") != std::string::npos);
    fault.at = excerpt("f", 123456, 9, "ends", 1); // just behind the end
    CHECK(render(fault).find(" 123456 | ends\n        |         ^\n") != std::string::npos);
}

TEST_CASE("a long line is cut around the fault", "[unit]") {
    Diagnostic fault = density_fault();
    fault.at = excerpt("f", 1, 5001, std::string(5000, 'x') + "HERE" + std::string(5000, 'y'), 4);
    const std::string text = render(fault);
    CHECK(text.size() < 700);
    const std::size_t excerpt = text.find("...xxx"), caret = text.find('^'), bar = text.rfind("| ", caret);
    REQUIRE(excerpt != std::string::npos);
    CHECK(text.compare(excerpt + (caret - bar - 2), 4, "HERE") == 0);
}

TEST_CASE("control characters never reach the terminal", "[unit]") {
    Diagnostic fault = whole_file_fault("file-missing", "a\x1b[31m.yaml", "no '\x07\x7f\xc2\x9b' here", "\r");
    for (const char c : render(fault))
        CHECK((static_cast<unsigned char>(c) >= 0x20 || c == '\n'));
    CHECK(render(fault).find("\xc2\x9b") == std::string::npos);
}

TEST_CASE("all faults of a file come in one error, and twenty are enough", "[errors]") {
    Faults faults;
    CHECK(faults.none());
    CHECK_NOTHROW(faults.throw_if_any());
    for (std::size_t i = 1; i < most_faults; ++i)
        faults.add(density_fault());
    CHECK(faults_of([&] { faults.throw_if_any(); }).size() == most_faults - 1);
    try {
        faults.add(density_fault());
        FAIL("the twentieth fault must end the reading");
    } catch (const InputError& error) {
        CHECK(error.faults().size() == most_faults);
        CHECK(error.more());
        CHECK(error.text().find("stopped after 20 faults") != std::string::npos);
    }
    CHECK_THROWS_AS(InputError(std::vector<Diagnostic>{}), std::invalid_argument);
}

TEST_CASE("faults are told in the order of the lines, whatever order they were found in", "[errors]") {
    // A reader looks for unknown keys first and at values later; a person reads from the top.
    Faults faults;
    for (const auto& [path, line, column] : {std::tuple{"b.yaml", 19, 1}, {"a.yaml", 7, 3}, {"b.yaml", 7, 10},
                                             {"b.yaml", 7, 2}, {"a.yaml", 2, 1}}) {
        Diagnostic fault = density_fault();
        fault.at = excerpt(path, static_cast<std::size_t>(line), static_cast<std::size_t>(column), "x", 1);
        faults.add(fault);
    }
    std::string order;
    for (const auto& fault : faults_of([&] { faults.throw_if_any(); }))
        order += fault.at.place.path.front() + std::to_string(fault.at.place.line) + "." +
                 std::to_string(fault.at.place.column) + " ";
    CHECK(order == "b7.2 b7.10 b19.1 a2.1 a7.3 ");
}

TEST_CASE("a fault is told once at its place, and again at another or of another kind", "[unit]") {
    Faults faults;
    const auto add = [&](const char* id, const char* path, std::size_t line, std::size_t column) {
        Diagnostic fault = density_fault();
        fault.id = id;
        fault.at = excerpt(path, static_cast<int>(line), static_cast<int>(column), "x", 1);
        faults.add_once(fault);
        return faults.count();
    };
    CHECK(add("value-shape", "a.yaml", 1, 1) == 1);
    CHECK(add("value-shape", "a.yaml", 1, 1) == 1);
    CHECK(add("key-missing", "a.yaml", 1, 1) == 2);
    CHECK(add("value-shape", "b.yaml", 1, 1) == 3);
    CHECK(add("value-shape", "a.yaml", 2, 1) == 4);
    CHECK(add("value-shape", "a.yaml", 1, 2) == 5);
    CHECK(add("value-shape", "a.yaml", 1, 2) == 5);
}

TEST_CASE("a note is called one", "[unit]") {
    Diagnostic note = density_fault();
    note.severity = Severity::note;
    CHECK(render(note).find(": note: ") != std::string::npos);
    CHECK(render(note).find("error") == std::string::npos);
}

TEST_CASE("a place without a column, or beyond its line, is marked at an end of it", "[unit]") {
    const auto marks = [](std::size_t column, const std::string& line) {
        Diagnostic fault = whole_file_fault("id", "f", "m", "");
        fault.at = excerpt("f", 3, column, line, 2);
        const std::string told = render(fault);
        return told.substr(told.find("    3 | "));
    };
    CHECK(marks(0, "text") == "    3 | text\n      | ^~\n");
    CHECK(marks(1, "text") == "    3 | text\n      | ^~\n");
    CHECK(marks(4, "text") == "    3 | text\n      |    ^\n");
    CHECK(marks(5, "text") == "    3 | text\n      |     ^\n");
    CHECK(marks(7, "text") == "    3 | text\n      |       ^\n");
    CHECK(marks(500, std::string(200, 'x')).find('^') != std::string::npos); // of a line that is cut
    CHECK(marks(1, "") == "    3 | \n      | ^\n");
}
