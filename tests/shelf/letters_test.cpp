// Texts letter by letter: the first and last of each alphabet, the signs beside them, and texts of none and of one.

#include <catch2/catch.hpp>

#include <cctype>
#include <chrono>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include "faults_of.hpp"
#include "lakebound/shelf/bath_jar_file.hpp"
#include "lakebound/shelf/entry_names.hpp"
#include "lakebound/shelf/iso_date.hpp"
#include "lakebound/shelf/jar_starter.hpp"
#include "lakebound/shelf/reader.hpp"
#include "lakebound/shelf/sieve_test_file.hpp"
#include "lakebound/shelf/typed_bath.hpp"
#include "lakebound/shelf/typed_bath_reading.hpp"
#include "lakebound/shelf/typed_paint.hpp"
#include "lakebound/shelf/typed_salt.hpp"
#include "lakebound/shelf/typed_series.hpp"
#include "own_studio.hpp"
#include "shelf/plain_lines.hpp"
#include "shelf/scalar_text.hpp"
#include "small_shelf.hpp"
#include "support/in_folder.hpp"
#include "support/temp_dir.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

bool is_small_letter(char c) { return std::islower(static_cast<unsigned char>(c)) != 0; }
bool is_letter(char c) { return std::isalpha(static_cast<unsigned char>(c)) != 0; }
bool is_digit_sign(char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; }

/// Every sign of ASCII that can be seen, and the blank.
std::vector<char> seen_signs() {
    std::vector<char> all;
    for (char c = ' '; c <= '~'; ++c)
        all.push_back(c);
    return all;
}

/// "id: message; hint" of the first fault.
template <class Code> std::string first_told(Code&& code) {
    const auto faults = faults_of(std::forward<Code>(code));
    return faults.empty() ? std::string() : faults[0].id + ": " + faults[0].message + "; " + faults[0].hint;
}

bool taken_as_plain(const std::string& text) {
    const Source source("f.yaml", text);
    return plain_lines(source).has_value();
}

} // namespace

TEST_CASE("a name is of small letters, digits and single hyphens between them, sign by sign", "[unit]") {
    for (int code = 0; code < 256; ++code) {
        const char c = static_cast<char>(static_cast<unsigned char>(code));
        CAPTURE(code);
        const bool good = code < 128 && (is_small_letter(c) || is_digit_sign(c));
        CHECK(is_id(std::string(1, c)) == good);
        CHECK(is_id(std::string("a") + c) == good);
        CHECK(is_id(c + std::string("a")) == good);
        CHECK(is_id(std::string("a") + c + "b") == (good || c == '-'));
    }
    CHECK_FALSE(is_id(""));
    for (const char* none : {"-", "--", "a--b", "a-", "-a", "a---b"})
        CHECK_FALSE(is_id(none));
    CHECK(is_id("a-b-c"));
    CHECK(is_id(std::string(64, 'a')));
    CHECK_FALSE(is_id(std::string(65, 'a')));
}

TEST_CASE("keys and values are plain or not, sign by sign", "[unit]") {
    const std::string harmless = " .,;+-/_()%='";
    for (const char c : seen_signs()) {
        CAPTURE(c);
        const bool letter = is_letter(c) || is_digit_sign(c);
        CHECK(taken_as_plain(std::string("a: ") + c + "\n") == letter);
        CHECK(taken_as_plain(std::string("a: ") + c + "x\n") == letter);
        CHECK(taken_as_plain(std::string("a: x") + c + "y\n") == (letter || harmless.find(c) != std::string::npos));
        CHECK(taken_as_plain(std::string("a: x") + c + "\n") == (c != ' ' && (letter || harmless.find(c) != std::string::npos)));
        CHECK(taken_as_plain(std::string(1, c) + ": 1\n") == is_small_letter(c));
        CHECK(taken_as_plain(std::string("k") + c + ": 1\n") == (is_small_letter(c) || is_digit_sign(c) || c == '_'));
        // In folded texts and in quotes whatever is seen is taken, but for what ends them.
        CHECK(taken_as_plain(std::string("a: >-\n  x") + c + "y\n"));
        CHECK(taken_as_plain(std::string("a: \"x") + c + "y\"\n") == (c != '"' && c != '\\'));
    }
    for (const char c : {'\x01', '\x1F', '\x7F', '\x80', '\xFF'}) {
        CHECK_FALSE(taken_as_plain(std::string("a: >-\n  x") + c + "y\n"));
        CHECK_FALSE(taken_as_plain(std::string("a: \"x") + c + "y\"\n"));
    }
}

TEST_CASE("short texts and long ones are plain up to their limits", "[unit]") {
    for (const char* one : {"a: \"b\"\n", "a: [b]\n", "a: {b: c}\n", "a: b", "a: >-\n  b", "a:\n  - b", "a:\n  b: c", "a: [b, c]", "a: \"b\""})
        CHECK(taken_as_plain(one));
    for (const char* none : {"a: \"\"\n", "a: []\n", "a: {}\n", "a: \"\n", "a: [\n", "a: {\n", "a: ]\n", "a: [b\n", "a: b]\n", "a: {b: c]\n", "a: [b}\n", "a: [b, ]\n", "a: [b, ", "a:", "a: ", "a"})
        CHECK_FALSE(taken_as_plain(none));
    const auto bracket = [](std::size_t signs) { return "a: [" + std::string(signs - 2, 'b') + "]\n"; };
    CHECK(taken_as_plain(bracket(4096)));
    CHECK_FALSE(taken_as_plain(bracket(4097)));
    const auto lines = [](std::size_t count) {
        std::string text = "a: b\n";
        for (std::size_t i = 1; i < count; ++i)
            text += "#\n";
        return text;
    };
    CHECK(taken_as_plain(lines(4096)));
    CHECK_FALSE(taken_as_plain(lines(4097)));
}

TEST_CASE("a line is swallowed where any word of letters, digits and underlines stands before a colon", "[unit]") {
    for (const char c : seen_signs()) {
        CAPTURE(c);
        const bool word = is_letter(c) || is_digit_sign(c) || c == '_';
        const std::string text = std::string("f\nx") + c + "y:z";
        if (c != ':') CHECK((swallowed_line(text, 0, text.size(), false, false) == 2) == word);
        const std::string lone = std::string("f\n") + c + ":z";
        CHECK((swallowed_line(lone, 0, lone.size(), false, false) == 2) == word);
    }
    // At the very end, and where the value ends before the text does.
    for (const char* text : {"f\na:", "f\na: ", "f\na:\n", "f\n  a:", "f\n'a':", "f\n- a:"})
        CHECK(swallowed_line(text, 0, std::string(text).size(), true, false) != not_closed);
    for (const char* text : {"f", "f\n", "f\na", "f\n:", "f\n  ", "f\n- ", "f\n-", "f\n'", "", "\n"})
        CHECK(swallowed_line(text, 0, std::string(text).size(), false, false) == not_closed);
    CHECK(swallowed_line("f\n-", 0, 3, false, true) == not_closed);
    CHECK(swallowed_line("f\n- ", 0, 4, false, true) == 2);
    CHECK(swallowed_line("f\n a: b", 0, 2, true, true) == not_closed); // its line end is the value's last sign
    CHECK(swallowed_line("f\n a: b", 0, 1, true, true) == not_closed);
}

TEST_CASE("a jar is called after its file, with a capital where it begins with a letter", "[unit]") {
    const TempDir folder;
    const InFolder here(folder.path());
    BathJar jar{};
    jar.net_mass = Estimate<Mass>::normal(grams(10.4), grams(.1), {Origin::measured, {}, false});
    jar.density = Estimate<MassDensity>::normal(grams_per_cubic_centimetre(1.73), grams_per_cubic_centimetre(.09), {Origin::measured, {}, false});
    jar.moisture = Estimate<MassFraction>::normal(MassFraction::of(.17), MassFraction::Difference::of(.05), {Origin::estimate, "judgement", false});
    jar.salts = Estimate<MassFraction>::lognormal(MassFraction::of(.0031), 1.42, {Origin::measured, {}, false});
    OwnStudio own;
    for (const auto& [id, name] : {std::pair{"a", "A"}, {"z", "Z"}, {"ash-bark-2", "Ash bark 2"}, {"zinnia", "Zinnia"}, {"0", "0"}, {"9-a", "9 a"}}) {
        CAPTURE(id);
        const std::string told = "\nname: " + std::string(name) + "\n";
        CHECK(read_bytes(write_bath_jar(id, jar, "alumina-lake", {}, "2026-05-18")).find(told) != std::string::npos);
        std::filesystem::remove("jars/" + std::string(id) + ".yaml");
        CHECK(read_bytes(begin_jar_file(id, "alumina-lake, 24.0 g", own.context("2026-05-18"), own.library)).find(told) != std::string::npos);
        std::filesystem::remove("jars/" + std::string(id) + ".yaml");
    }
}

TEST_CASE("plants whose names differ in capitals are one plant, letter by letter", "[unit]") {
    OwnStudio own;
    const auto kin = [&](const std::string& one, const std::string& other) {
        for (const auto& [file, plant] : {std::pair{"weld", one}, {"other", other}})
            std::ofstream("jars/" + std::string(file) + ".yaml") << "kind: jar\nname: J\npigment: alumina-lake\nnet_mass: 24 +- 0.1 g\nplant: \"" << plant << "\"\n";
        own.library = shipped_library();
        const Studio studio = own.read();
        return studio.card.record.jars.at(0).plant == studio.card.record.jars.at(1).plant;
    };
    CHECK(kin("A", "a"));
    CHECK(kin("Z", "z"));
    CHECK(kin("AZalea", "azALEA"));
    CHECK_FALSE(kin("@", "`"));
    CHECK_FALSE(kin("[", "{"));
    CHECK_FALSE(kin("a", "b"));
}

TEST_CASE("what is typed in capitals is told in small letters, from A to Z and no further", "[errors]") {
    JarStory story;
    const EntryContext context{"weld", "2026-05-02", {}, {}, studio_bench()};
    CHECK(first_told([&] { typed_sign(context, "  @AZ[  `az{ Z", story); }).starts_with("entry-typed: --saw \"@az[ `az{ z\": no such sign; "));
    const auto header = [](const std::string& word) {
        return first_told([&] { (void)parse_sieve_csv(check_text("t.csv", "screen," + word + "\n75 um,1 g\n")); });
    };
    CHECK(header("@AZ[").starts_with("csv-header: there is no column '@az['; "));
    const auto row = [](const std::string& word) {
        return first_told([&] { (void)read_sieve_test(parse_sieve_csv(check_text("t.csv", "screen,mass\n75 um,1 g\npan,1 g\n" + word + ",1 g\n")), "t"); });
    };
    CHECK(row("PAN") == "csv-row: the row 'pan' stands here twice; keep the one that is right");
    CHECK(row("Zone") == "csv-row: 'Zone' is no screen and no row known here; rows are screens, pan, charge, scale step, grinding time, density, method, name, note");
    CHECK(row("Charg") == "csv-row: 'Charg' is no screen and no row known here; did you mean 'charge'?");
}

TEST_CASE("a comma between digits is told from one between other signs, digit by digit", "[errors]") {
    const auto cells = [](const std::string& first, const std::string& second) {
        const auto faults = faults_of([&] { (void)parse_sieve_csv(check_text("t.csv", "screen,mass\n75 um," + first + "," + second + "\n")); });
        return faults.empty() ? std::string() : faults[0].id;
    };
    for (const char c : seen_signs()) {
        if (c == '"' || c == ',' || c == ' ') continue;
        CAPTURE(c);
        CHECK(cells(std::string("1") + c, "5 g") == (is_digit_sign(c) ? "number-comma" : "csv-columns"));
        CHECK(cells("1", c + std::string(" g")) == (is_digit_sign(c) ? "number-comma" : "csv-columns"));
        if (c == '\'') continue;
        const std::string list = std::string("a") + c + ",5", other = std::string("5,") + c;
        CHECK((first_told([&] { refuse_decimal_comma(list); }) == "number-comma: \"" + list + "\": a decimal is written with a point; write \"a" + c + ".5\"") == is_digit_sign(c));
        CHECK(first_told([&] { refuse_decimal_comma(other); }).empty() != is_digit_sign(c));
    }
    for (const char* none : {"", ",", "1", "1,", ",1", "a,1", "1,a"})
        CHECK(first_told([&] { refuse_decimal_comma(none); }).empty());
    CHECK(first_told([] { refuse_decimal_comma("1,5 g, 2,5 g"); }) == "number-comma: \"1,5 g, 2,5 g\": a decimal is written with a point; write \"1.5 g, 2.5 g\"");
}

TEST_CASE("a date is of ten signs, digits and hyphens in their places", "[errors]") {
    const std::string good = "2019-10-09";
    const auto told = [](const std::string& text) {
        Document document = load_document("f.yaml", "date: \"" + text + "\"\n");
        Faults faults;
        (void)read_date(*document.root.find("date"), "date", faults);
        return first_told([&] { faults.throw_if_any(); });
    };
    CHECK(told(good).empty());
    for (std::size_t i = 0; i < good.size(); ++i)
        for (const char c : {'/', ':', '-', '0', '9', 'a', ' '}) {
            std::string text = good;
            text[i] = c;
            CAPTURE(text);
            const bool form = i == 4 || i == 7 ? c == '-' : is_digit_sign(c);
            CHECK(told(text).starts_with("date-form: 'date' must be a date written year-month-day, got '") != form);
            if (!form) CHECK_FALSE(day_of_iso(text));
        }
    for (const char* none : {"2019-10-9", "2019-10-090", "2", ""})
        CHECK_FALSE(day_of_iso(none));
    CHECK(told("2019-10-9") == "date-form: 'date' must be a date written year-month-day, got '2019-10-9'; write it like 2026-03-02");
    CHECK(told("2019-02-29") == "date-form: '2019-02-29' is no day of the calendar; write year-month-day, like 2026-03-02");
    CHECK(told("1899-12-31") == "date-form: '1899-12-31' lies before 1900; check the year");
    CHECK(told("1900-01-01").empty());
    const auto now = [] { return std::chrono::floor<std::chrono::days>(std::chrono::system_clock::now()); };
    const auto today = now();
    const std::string morrow = told(iso_text(today + std::chrono::days(1))), later = told(iso_text(today + std::chrono::days(2)));
    CHECK(morrow.empty());
    if (now() == today) CHECK(later == "date-form: '" + iso_text(today + std::chrono::days(2)) + "' has not come yet; check day, month and year");
}

TEST_CASE("an hour is of four digits about a colon, to 23:59", "[errors]") {
    const auto hour = [](const std::string& text) { return first_told([&] { (void)typed_hour("--at", text); }).empty(); };
    for (const char* good : {"00:00", "09:09", "19:59", "23:59", "20:00"})
        CHECK(hour(good));
    for (const char* none : {"24:00", "23:60", "3:00", "003:00", "", "0a:00", "00:0/", "00:0:", "/0:00", ":0:00", "0/:00", "00-00", "00:/0", "99:99"})
        CHECK_FALSE(hour(none));
    CHECK(typed_hour("--at", "23:59") == std::chrono::minutes(23 * 60 + 59));
    CHECK(typed_hour("--at", "10:07") == std::chrono::minutes(607));
}

TEST_CASE("a pull is numbered from 1 to 6", "[errors]") {
    Library library = shipped_library();
    const auto pulls = [&](const std::string& text) {
        BathTexts texts;
        texts.alum = "potash-alum, 50 g", texts.alkali = "soda-ash", texts.plant = "100 g dry root", texts.pulls = text;
        return bath_wish(texts, library).pulls.value();
    };
    for (unsigned n = 1; n <= 6; ++n)
        CHECK(pulls(std::to_string(n)) == n);
    for (const char* none : {"0", "7", "", "12", "/", ":", "a"})
        CHECK(first_told([&] { (void)pulls(none); }) == "bath-typed: --pulls \"" + std::string(none) + "\": a whole number from 1 to 6 is wanted; write it like --pulls \"2\"");
}

TEST_CASE("a powder named alone begins with a letter, an amount with a digit", "[errors]") {
    const SmallShelf shelf;
    auto library = shelf.library();
    const auto id = [&](const std::string& pigment) {
        PaintTexts texts;
        texts.pigments = {pigment}, texts.binders = {"gum-water: 40 g"}, texts.family = "test-family";
        const auto faults = faults_of([&] { (void)paint_question(texts, library, []() -> std::string { return {}; }); });
        return faults.empty() ? std::string() : faults[0].id;
    };
    for (char c = 'a'; c <= 'z'; ++c)
        CHECK(id(c + std::string("9")) == "id-unknown");
    for (char c = '0'; c <= '9'; ++c)
        CHECK(id(c + std::string("a")) != "id-unknown");
    CHECK(id("a") == "id-unknown");
    CHECK(id("z") == "id-unknown");
}

TEST_CASE("a name written in capitals is told as the shelf writes it, from A to Z", "[errors]") {
    const SmallShelf shelf;
    for (const char* file : {"pigments/az-a-z.yaml", "pigments/a.yaml", "pigments/z.yaml"})
        shelf.dir().write(file, plain_pigment);
    Library library = shelf.library();
    const auto hint = [&](const std::string& id) { return library.unknown(ShelfKind::pigment, id).hint; };
    for (const char* id : {"AZ_a Z", "AZ-A-Z", "Az a_z"})
        CHECK(hint(id) == "did you mean 'az-a-z'?");
    CHECK(hint("A") == "did you mean 'a'?");
    CHECK(hint("Z") == "did you mean 'z'?");
    CHECK(hint("@").starts_with("names are file stems"));
    CHECK(hint("[").starts_with("names are file stems"));
    CHECK(library.unknown(ShelfKind::pigment, std::string(70, 'A')).message == "'" + std::string(64, 'A') + "' cannot be the name of a file in pigments");
    const SmallShelf other;
    for (const char* name : {"A.yml", "Z.YAML", "AZ Z_A.yaml", "[.yaml", "@.yml"})
        other.dir().write(std::string("media/") + name, plain_medium);
    const std::string told = other.library().describe_search();
    for (const char* line : {"  not read: media/A.yml; its name must be a.yaml\n", "  not read: media/Z.YAML; its name must be z.yaml\n", "  not read: media/AZ Z_A.yaml; its name must be az-z-a.yaml\n",
                             "  not read: media/[.yaml; names are", "  not read: media/@.yml; names are"})
        CHECK(told.find(line) != std::string::npos);
}

TEST_CASE("a file's name is its id, without folder and ending", "[unit]") {
    for (const auto& [path, id] : {std::pair{"a.yaml", "a"}, {"x/a.yaml", "a"}, {"/a.yaml", "a"}, {".yaml", ".yaml"}, {"x/.yaml", ".yaml"}, {"a", "a"}, {"x/", ""}, {"", ""}, {"a.yml", "a.yml"}, {"a.yaml.yaml", "a.yaml"}, {"yaml", "yaml"}})
        CHECK(id_of_path(path) == id);
}

TEST_CASE("a name is quoted whole or to a sign that begins within its first sixty bytes", "[errors]") {
    const auto quoted = [](const std::string& text) {
        Document document = load_document("f.yaml", "a: \"" + text + "\"\n");
        const MapReader map(document.root, "the file", {"a"}, document.faults);
        (void)map.word("a", {"green"});
        return faults_of([&] { document.faults.throw_if_any(); }).at(0).message;
    };
    for (std::size_t before = 56; before <= 60; ++before) {
        const std::string start(before, 'x');
        // A sign of two bytes and one of three that the sixtieth byte cuts are left out whole.
        CHECK(quoted(start + "\xC2\xB5yyyyy") == "a cannot be '" + start + (before <= 58 ? "\xC2\xB5" + std::string(58 - before, 'y') : "") + "...'");
        CHECK(quoted(start + "\xE2\x82\xACyyyyy") == "a cannot be '" + start + (before <= 57 ? "\xE2\x82\xAC" + std::string(57 - before, 'y') : "") + "...'");
    }
}

TEST_CASE("words that are nearly meant are named, one or two of them; of more all are", "[errors]") {
    const auto hint = [](const std::string& word, const std::vector<std::string_view>& words) {
        Document document = load_document("f.yaml", "a: " + word + "\n");
        const MapReader map(document.root, "the file", {"a"}, document.faults);
        (void)map.word("a", words);
        return faults_of([&] { document.faults.throw_if_any(); }).at(0).hint;
    };
    CHECK(hint("gren", {"green", "blue"}) == "did you mean 'green'?");
    CHECK(hint("greem", {"green", "greek", "blue"}) == "did you mean 'green' or 'greek'?");
    CHECK(hint("greem", {"green", "greek", "greet", "blue"}) == "did you mean 'green' or 'greek'?"); // the first two
    CHECK(hint("red", {"green", "blue"}) == "one of: green, blue");
    CHECK(hint("gr", {"green"}) == "one of: green");
}

TEST_CASE("salts go by id, by name and by trade name, in capitals and with underlines too", "[errors]") {
    const TempDir dir;
    const auto salt = [&](const std::string& id, const std::string& name, const std::string& trade) {
        std::string text = read_bytes(std::string(LAKEBOUND_FORMULATIONS_DIR) + "/salts/chalk.yaml");
        const auto line = [&](const std::string& key, const std::string& value) {
            const auto at = text.find("\n" + key + ":") + 1;
            text.replace(at, text.find('\n', at) - at, key + ": " + value);
        };
        line("name", name), line("trade_names", trade);
        dir.write("salts/" + id + ".yaml", text);
    };
    salt("azurine", "Blue of Zaffre", "[Zed earth, common]");
    salt("zinc-a", "White, a", "[flowers of A, common]");
    Library library({{dir.path().string(), "test", true}});
    for (const char* name : {"azurine", "AZURINE", "Blue of Zaffre", "blue_of-zaffre", "BLUE OF ZAFFRE", "Zed earth", "zed-EARTH"})
        CHECK(named_salt(library, "--alum", name).id == "azurine");
    for (const char* name : {"zinc-a", "Zinc A", "ZINC_A", "white, A", "flowers of a"})
        CHECK(named_salt(library, "--alum", name).id == "zinc-a");
    CHECK(first_told([&] { (void)named_salt(library, "--alum", "Common"); }).starts_with("salt-hydrate: --alum: 'Common' is sold as 2 different salts; look at the packet and name one: azurine ("));
    CHECK(first_told([&] { (void)named_salt(library, "--alum", "white; a"); }) == "id-form: --alum: 'white; a' cannot be the name of a file in salts; names are file stems: small letters, digits and single hyphens, such as 'alumina-lake'");
}
