// Edges of the shelf that no file of it meets: named ranges against their words, counts that are hardly broken, what is told of a
// second document, and input that ends in the middle of a signal.

#include <catch2/catch.hpp>

#include <cerrno>
#include <cstdlib>
#include <filesystem>
#include <string>
#include <vector>

#include <fcntl.h>
#include <unistd.h>

#include "faults_of.hpp"
#include "lakebound/shelf/laking_habits_file.hpp"
#include "lakebound/shelf/library.hpp"
#include "lakebound/shelf/powder_habits_file.hpp"
#include "lakebound/shelf/reader.hpp"
#include "lakebound/shelf/safe_write.hpp"
#include "lakebound/shelf/wash_habits_file.hpp"
#include "small_shelf.hpp"
#include "support/temp_dir.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

/// The numbers in the words of a range: "above 0, at most 50 %" has 0 and 50.
std::vector<double> numbers_in(const std::string& words) {
    std::vector<double> found;
    for (const char* at = words.c_str(); *at != '\0';) {
        char* end = nullptr;
        const double number = (*at >= '0' && *at <= '9') || *at == '-' ? std::strtod(at, &end) : 0.0;
        if (end == nullptr || end == at) ++at;
        else found.push_back(number), at = end;
    }
    return found;
}

std::string with_figure(const std::string& file, const std::string& key, const std::string& value) {
    std::string text = read_bytes(std::string(LAKEBOUND_FORMULATIONS_DIR) + file);
    const auto line = text.find("\n" + key + ":"), from = text.find("value: ", line) + 7;
    return text.replace(from, text.find_first_of(",\n", from) - from, value);
}

std::string second_document(const std::string& text) {
    const auto faults = faults_of([&] { (void)parse_document(std::make_shared<const Source>("f.yaml", text)); });
    return faults.empty() ? "" : summary(faults) + "+" + std::to_string(faults[0].at.span_length);
}

} // namespace

TEST_CASE("every range that has a name is what its words say", "[unit]") {
    struct Named {
        Range range;
        double per; ///< canonical units to one of the words'
    };
    for (const auto& [range, per] : {Named{range::density, 1000.0}, {range::aim, 1.0}, {range::aim_pvc, .01}, {range::weighing_tolerance, .01}}) {
        CAPTURE(range.words);
        const auto words = numbers_in(std::string(range.words).substr(0, std::string(range.words).find(" g/")));
        REQUIRE(words.size() == 2);
        CHECK(range.lowest == Approx(words[0] * per).epsilon(1e-12));
        CHECK(range.highest == Approx(words[1] * per).epsilon(1e-12));
        CHECK(range.above_lowest == (std::string(range.words).rfind("above", 0) == 0));
        CHECK(range.admits(range.highest));
        CHECK(range.admits(range.lowest) != range.above_lowest);
        CHECK_FALSE(range.admits(range.highest * (1 + 1e-9)));
        CHECK(range.admits(range.lowest + 1e-9));
        CHECK_FALSE(range.admits(range.lowest - 1e-9));
    }
    CHECK(range::grain_size.lowest == Approx(1e-9).epsilon(1e-12)); // 1 nm to 5 mm
    CHECK(range::grain_size.highest == Approx(5e-3).epsilon(1e-12));
    CHECK(range::water_depth.lowest == Approx(1e-3).epsilon(1e-12)); // 1 mm to 5 m
    CHECK(range::water_depth.highest == Approx(5.0).epsilon(1e-12));
    for (const auto& [range, low, high] : {std::tuple{range::room_temperature, -20.0, 80.0}, {range::liquid_water, 0.0, 100.0}}) {
        CHECK(numbers_in(range.words) == std::vector<double>{low, high});
        CHECK(range.lowest == Approx(low + 273.15 - 1e-3).epsilon(1e-12)); // a thousandth wider
        CHECK(range.highest == Approx(high + 273.15 + 1e-3).epsilon(1e-12));
    }
    CHECK(range::positive.admits(1e-300));
    CHECK_FALSE(range::positive.admits(0.0));
    CHECK(range::not_negative.admits(0.0));
    CHECK_FALSE(range::not_negative.admits(-1e-300));
    CHECK(range::any.admits(-1e300));
}

TEST_CASE("a count that is hardly broken is broken", "[errors]") {
    const auto powder = [](const char* refills) {
        return summary(faults_of([&] { (void)read_powder_habits(load_document("p.yaml", with_figure("/habits/powder.yaml", "refills", refills))); }));
    };
    CHECK(powder("2").empty());
    for (const char* refills : {"2.0005", "1.9995", "0.0005", "998.9995"})
        CHECK(powder(refills).rfind("out-of-range ", 0) == 0);
    const auto laking = [](const char* key, const char* pulls) {
        return summary(faults_of([&] { (void)read_laking_habits(load_document("l.yaml", with_figure("/laking/home.yaml", key, pulls))); }));
    };
    CHECK(laking("pulls", "3").empty());
    for (const char* pulls : {"3.0005", "2.9995", "5.9995"})
        CHECK(laking("pulls", pulls).rfind("out-of-range ", 0) == 0);
    // The two ends of a stop are no one pH, and may lie as near as you like.
    CHECK(laking("stop_to", "6.0005").empty());
    CHECK(laking("stop_to", "6").rfind("out-of-range ", 0) == 0);
    const auto washing = [](const char* washes) {
        return summary(faults_of([&] { (void)read_wash_habits(load_document("w.yaml", with_figure("/washing/home.yaml", "chalk_washes", washes))); }));
    };
    CHECK(washing("3").empty());
    CHECK(washing("3.0005").rfind("out-of-range ", 0) == 0);
}

TEST_CASE("a second document is told where it begins, at the end of a file too", "[errors]") {
    CHECK(second_document("a: &x 1\n---\nb: 2\n").find("yaml-anchor") == 0);
    CHECK(second_document("a: 'x'\n---\nb: 2\n") == "second-document 2:1+3");
    CHECK(second_document("a: 'x'\n...\n---\nb: 2\n") == "second-document 3:1+3");
    CHECK(second_document("a: 'x'\n---\n") == "second-document 2:1+3");
    CHECK(second_document("a: 'x'\n---") == "second-document 2:1+3");
    CHECK(second_document("a: 'x'\n--- b") == "second-document 2:1+3");
    CHECK(second_document("a: 'x'\n...\n").empty());
}

TEST_CASE("a fault of a whole file underlines one sign", "[unit]") {
    CHECK(Excerpt{}.span_length == 1);
    CHECK(whole_file_fault("id", "f.yaml", "m", "h").at.span_length == 1);
    CHECK(command_line_fault("id", "m", "h").at.span_length == 1);
}

TEST_CASE("an end of input is an end, whatever a signal did before", "[unit]") {
    int ends[2];
    REQUIRE(::pipe(ends) == 0);
    const std::string bytes = "kind: jar\n";
    REQUIRE(::write(ends[1], bytes.data(), bytes.size()) == static_cast<ssize_t>(bytes.size()));
    ::close(ends[1]);
    const int before = ::dup(STDIN_FILENO);
    REQUIRE(::dup2(ends[0], STDIN_FILENO) == STDIN_FILENO);
    ::close(ends[0]);
    errno = EINTR; // of some call before
    std::shared_ptr<const Source> source;
    const auto faults = faults_of([&] { source = read_source("-"); });
    if (before >= 0) ::dup2(before, STDIN_FILENO), ::close(before);
    CHECK(faults.empty());
    REQUIRE(source);
    CHECK(source->text() == bytes);
}

TEST_CASE("a file is closed when it is written, even by a program without input", "[unit]") {
    const TempDir dir;
    const int before = ::dup(STDIN_FILENO);
    ::close(STDIN_FILENO); // the next that is opened is number 0
    safe_write(dir.file("a.txt"), "a\n", Overwrite::refuse, {});
    const bool open = ::fcntl(STDIN_FILENO, F_GETFD) >= 0;
    if (before >= 0) ::dup2(before, STDIN_FILENO), ::close(before);
    CHECK_FALSE(open);
    CHECK(read_bytes(dir.file("a.txt")) == "a\n");
}
