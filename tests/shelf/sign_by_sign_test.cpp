// Texts sign by sign: what each sign of Unicode is told to be where it stands, tables with one sign changed, and lines too long to
// show.

#include <catch2/catch.hpp>

#include <cstdint>
#include <cstdio>
#include <string>
#include <vector>

#include "faults_of.hpp"
#include "lakebound/shelf/entry_remark.hpp"
#include "lakebound/shelf/reader.hpp"
#include "lakebound/shelf/sieve_test_file.hpp"
#include "lakebound/shelf/source.hpp"
#include "support/expected_text.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

std::string utf8(std::uint32_t c) {
    const auto byte = [](std::uint32_t b) { return static_cast<char>(static_cast<unsigned char>(b)); };
    if (c < 0x80) return {byte(c)};
    if (c < 0x800) return {byte(0xC0 | c >> 6), byte(0x80 | (c & 0x3F))};
    if (c < 0x10000) return {byte(0xE0 | c >> 12), byte(0x80 | (c >> 6 & 0x3F)), byte(0x80 | (c & 0x3F))};
    return {byte(0xF0 | c >> 18), byte(0x80 | (c >> 12 & 0x3F)), byte(0x80 | (c >> 6 & 0x3F)), byte(0x80 | (c & 0x3F))};
}

/// "id line:column+span: message" of each fault, without what names the sign itself.
std::string told_of(const std::vector<Diagnostic>& faults) {
    std::string text;
    for (const auto& fault : faults) {
        std::string message = fault.message;
        if (const auto at = message.find("U+"); at != std::string::npos) message.replace(at, message.find_first_not_of("0123456789ABCDEF", at + 2) - at, "U+...");
        text += (text.empty() ? "" : "; ") + fault.id + " " + std::to_string(fault.at.place.line) + ":" + std::to_string(fault.at.place.column) + "+" + std::to_string(fault.at.span_length) + " " + message;
    }
    return text.empty() ? "taken" : text;
}

std::string hexadecimal(std::uint32_t c) {
    char text[16];
    std::snprintf(text, sizeof text, "%04X", static_cast<unsigned>(c));
    return text;
}

/// What is told of each sign, in ranges of those told alike.
template <class Told> std::string in_ranges(const std::vector<std::uint32_t>& signs, Told&& told) {
    std::string text, last;
    std::uint32_t from = 0, to = 0;
    const auto flush = [&] {
        if (!last.empty()) text += hexadecimal(from) + (to > from ? " to " + hexadecimal(to) : "") + ": " + last + "\n";
    };
    for (const std::uint32_t sign : signs) {
        const std::string now = told(sign);
        if (now == last && sign == to + 1) {
            to = sign;
            continue;
        }
        flush();
        last = now, from = to = sign;
    }
    flush();
    return text;
}

std::vector<std::uint32_t> signs_to(std::uint32_t from, std::uint32_t to) {
    std::vector<std::uint32_t> all;
    for (std::uint32_t c = from; c <= to; ++c)
        all.push_back(c);
    return all;
}

std::string checked(const std::string& text) {
    return told_of(faults_of([&] { (void)check_text("f.yaml", text); }));
}

} // namespace

TEST_CASE("every sign is told where a value begins, and within a text", "[errors]") {
    std::vector<std::uint32_t> signs = signs_to(1, 0x350);
    for (const auto& [from, to] : {std::pair{0x600u, 0x620u}, {0x1670u, 0x1690u}, {0x1800u, 0x1810u}, {0x1FF0u, 0x2080u}, {0x2FF0u, 0x3010u}, {0xD7F0u, 0xE010u}, {0xFDD0u, 0x10010u}, {0x1D170u, 0x1D17Fu}, {0xE0000u, 0xE0200u}, {0x10FFF0u, 0x110010u}})
        for (const std::uint32_t c : signs_to(from, to))
            signs.push_back(c);
    std::string text = "==== behind a colon\n" + in_ranges(signs, [](std::uint32_t c) { return checked("k: 1\na:" + utf8(c) + " b\n"); });
    text += "==== within a text\n" + in_ranges(signs, [](std::uint32_t c) { return checked("k: 1\na: b" + utf8(c) + "c\n"); });
    text += "==== at the end\n" + in_ranges(signs, [](std::uint32_t c) { return checked("k: 1" + utf8(c)); });
    text += "==== two of them on a line, one on the next\n" +
            in_ranges(signs_to(1, 0xB0), [](std::uint32_t c) { return checked("a: " + utf8(c) + utf8(c) + "\n " + utf8(c) + "\n"); });
    check_expected("shelf", "signs", text);
}

TEST_CASE("every byte that begins no sign is told once a line", "[errors]") {
    const auto byte_text = [](std::uint32_t b) { return std::string(1, static_cast<char>(static_cast<unsigned char>(b))); };
    std::string text = "==== alone\n" + in_ranges(signs_to(0x80, 0xFF), [&](std::uint32_t b) { return checked("a: " + byte_text(b) + byte_text(b) + "x\nb: " + byte_text(b)); });
    text += "==== with one that follows\n" + in_ranges(signs_to(0x80, 0xFF), [&](std::uint32_t b) { return checked("a: " + byte_text(b) + "\x80x\n"); });
    text += "==== with two that follow\n" + in_ranges(signs_to(0x80, 0xFF), [&](std::uint32_t b) { return checked("a: " + byte_text(b) + "\x90\x80x\n"); });
    text += "==== with three that follow\n" + in_ranges(signs_to(0x80, 0xFF), [&](std::uint32_t b) { return checked("a: " + byte_text(b) + "\x90\x80\x80x\n"); });
    check_expected("shelf", "bytes", text);
}

TEST_CASE("tables with one sign changed, whole", "[errors]") {
    std::string text;
    for (const std::string& table : {std::string("screen,mass\n75 um,1.5 g\npan,2 g\n"), std::string("gross,screen,tare\n\"3 g\",75 um,1 g\n4 g,pan,2 g\n")})
        for (std::size_t at = 0; at < table.size(); ++at)
            for (const std::string& sign : {std::string(","), std::string("\""), std::string(" "), std::string(";"), std::string("x"), std::string("5"), std::string()}) {
                std::string changed = table;
                changed.replace(at, 1, sign);
                if (changed == table) continue;
                std::string shown = changed, told;
                for (char& c : shown)
                    if (c == '\n') c = '|';
                const auto faults = faults_of([&] {
                    const auto record = read_sieve_test(parse_sieve_csv(check_text("trial.csv", changed)), "trial").record;
                    for (const auto& screen : record.test.screens)
                        told += std::to_string(in_micrometres(screen.aperture)) + " um " + std::to_string(in_grams(screen.retained)) + " g, ";
                    told += "pan " + std::to_string(in_grams(record.test.pan)) + " g";
                });
                text += shown + "  " + (faults.empty() ? told : told_of(faults)) + "\n";
            }
    check_expected("shelf", "spoiled-tables", text);
}

TEST_CASE("of a line too long to show 160 signs are shown, 60 of them before the fault", "[unit]") {
    for (const std::size_t length : {159u, 160u, 161u, 219u, 220u, 221u, 222u, 500u}) {
        std::string line;
        for (std::size_t i = 0; i < length; ++i)
            line += static_cast<char>('a' + i % 23);
        for (const std::size_t column : {1u, 2u, 60u, 61u, 62u, 63u, 100u, 159u, 160u, 161u, 200u, 221u, 280u, 499u}) {
            if (column > length) continue;
            CAPTURE(length, column);
            Diagnostic fault = whole_file_fault("id", "f", "m", "");
            fault.at.place.line = 7, fault.at.place.column = column, fault.at.source_line = line, fault.at.span_length = 1;
            const std::string told = render(fault), rest = told.substr(told.find('\n') + 1), gutter = "    7 | ";
            REQUIRE(rest.rfind(gutter, 0) == 0);
            std::string shown = rest.substr(gutter.size(), rest.find('\n') - gutter.size());
            const std::string under = rest.substr(rest.find('\n') + 1);
            const std::size_t caret = under.find('^') - gutter.size();
            CHECK(shown.at(caret) == line[column - 1]);
            if (length <= 160) {
                CHECK(shown == line);
                continue;
            }
            const std::size_t from = column > 61 ? column - 61 : 0, to = std::min(length, from + 160); // by hand
            CHECK(shown == (from > 0 ? "..." : "") + line.substr(from, to - from) + (to < length ? "..." : ""));
            CHECK(caret == std::min<std::size_t>(column - 1, 60) + (from > 0 ? 3 : 0));
        }
    }
    // The gutter is five wide, and wider for a long number.
    for (const auto& [number, gutter] : {std::pair{1u, "    1 | "}, {9999u, " 9999 | "}, {10000u, " 10000 | "}, {123456u, " 123456 | "}}) {
        Diagnostic fault = whole_file_fault("id", "f", "m", "");
        fault.at.place.line = number, fault.at.place.column = 1, fault.at.source_line = "text", fault.at.span_length = 2;
        const std::string told = render(fault);
        CHECK(told.find(std::string("\n") + gutter + "text\n") != std::string::npos);
        CHECK(told.find("\n" + std::string(std::string(gutter).size() - 2, ' ') + "| ^~\n") != std::string::npos);
    }
}

TEST_CASE("a range is told in three digits that lie within it", "[unit]") {
    const auto told = [](double low, double high, const char* unit) { return range_words({low, high, false, "1 to 2 pieces", ""}, Dimension::length, unit); };
    CHECK(told(.0010015, .9985, "mm") == "1.01 to 998 mm");
    CHECK(told(.0009985, .99949, "mm") == "0.999 to 999 mm");
    CHECK(told(.001, .1, "mm") == "1 to 100 mm");
    CHECK(told(.00123, .4567, "mm") == "1.23 to 456 mm");
    CHECK(told(-.4567, -.00123, "mm") == "-456 to -1.23 mm");
    CHECK(told(0, 1.5, "m") == "0 to 1.5 m");
    CHECK(range_words({0.0, .0451, true, "above 0, at most 1 piece", ""}, Dimension::length, "cm") == "above 0, at most 4.51 cm");
    CHECK(range_words({.001, 2.0, false, "as many as 7", ""}, Dimension::length, "") == "as many as 7");
    CHECK(range_words({.001, 2.0, false, "finite", ""}, Dimension::length, "mm") == "finite");
    CHECK(range_words({.001, 2.0, false, "m", ""}, Dimension::length, "m") == "m");
    CHECK(range_words({.001, 2.0, false, "1 to 2 m", ""}, Dimension::length, "m") == "1 to 2 m");
}

TEST_CASE("a long text is quoted to its sixtieth byte", "[errors]") {
    const auto quoted = [](std::size_t length) {
        Document document = load_document("f.yaml", "a: " + std::string(length, 'x') + "\n");
        const MapReader map(document.root, "the file", {"a"}, document.faults);
        (void)map.word("a", {"green"});
        return faults_of([&] { document.faults.throw_if_any(); }).at(0).message;
    };
    CHECK(quoted(59) == "a cannot be '" + std::string(59, 'x') + "'");
    CHECK(quoted(60) == "a cannot be '" + std::string(60, 'x') + "'");
    CHECK(quoted(61) == "a cannot be '" + std::string(60, 'x') + "...'");
}

TEST_CASE("two rub-outs of other powder are two", "[unit]") {
    const auto day = std::chrono::sys_days(std::chrono::year(2026) / 5 / 2);
    const auto rub_out = [&](const char* id, double powder) {
        ReadEntry read;
        read.entry = {id, "weld", day, RubOutEntry{grams_per_100_grams(78), 0.0, grams(powder)}};
        return read;
    };
    Studio studio;
    studio.entries = {rub_out("weld/a", 2.0), rub_out("weld/b", 2.0)};
    CHECK(told_twice_remark(studio, " --shelf own") ==
          "Entry a, of the same day, tells the very same. If it was entered twice, take one back: lakebound-jar weld --shelf own --undo a.");
    studio.entries[0] = rub_out("weld/a", 2.1);
    CHECK(told_twice_remark(studio).empty());
}
