// Files of every kind with one line left out, or one value spoiled: what is told of each, whole. A reader that forgets to
// ask for a key, or a bound, shows here as a line that is missing.

#include <catch2/catch.hpp>

#include <algorithm>

#include "faults_of.hpp"
#include "lakebound/shelf/check_file.hpp"
#include "small_shelf.hpp"
#include "support/expected_text.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

const char* const spoilt_jar = "kind: jar\nname: Jar\npigment: test-lake\nnet_mass: 24.0 +- 0.1 g\nsince: 2026-05-01\nplant: weld\n"
                               "density: 1.9 g/cm3\ndensity_state: as weighed\ndensity_moisture: 8 % w/w\noil_absorption: 70 g/100g\noil_absorption_moisture: 9 % w/w\n"
                               "moisture: 10 % w/w\ntapped_density: 0.4 g/cm3\nmedian_size: 12 um\ntest_oil_density: 0.93 g/cm3\n"
                               "drawn:\n  - {date: 2026-05-02, mass: 2 g, for: pans}\nnote: mine\n";
const char* const spoilt_sieving = "kind: sieve test\nname: Weld\nmethod: dry\ncharge: 20 g\ngrinding_time: 15 min\nscale_step: 0.1 g\ndensity: 1.9 g/cm3\n"
                                   "retained:\n  - {screen: 75 um, mass: 4 g}\n  - {screen: 45 um, mass: 6 g}\npan: 9.8 g\n";
const char* const spoilt_settling = "kind: settling test\nname: Weld\ntemperature: 18 degC\ngrains: {size: 49 um, depth: 100 mm, time: 3 min}\n";
const char* const spoilt_rub_out = "kind: rub-out\nname: Weld\ndropper: {drops: 50, weighed: 1.81 g}\nscale: 0.01 g\nrub_outs:\n  - {pigment: 1.00 g, drops: 19}\n  - {pigment: 1.05 g, drops: 20}\n";
const char* const spoilt_oil_family = "kind: family\nname: Oil\nprocess: oil\nstart: 1.2\n"
                                      "window: {amber_low: 1.0, green_low: 1.1, green_high: 1.5, amber_high: 2.0}\n"
                                      "cohesion: {none_below: 30 %, weak_below: 50 %, evidence: {origin: estimate}}\n"
                                      "binder_index: {value: 1, origin: common practice}\nmethod_transfer: {value: 0.1, origin: estimate}\n"
                                      "binder_solids_spread: {value: 0.04, origin: estimate}\nbinder_density_spread: {value: 0.04, origin: estimate}\n"
                                      "most_excess_water: {value: 12 % w/w, origin: estimate}\n"
                                      "cured_oil_loses: {least: 2 %, most: 15 %, evidence: {origin: estimate}}\nevidence: {origin: estimate, note: invented}\n";

std::vector<std::string> lines_of_text(const std::string& text) {
    std::vector<std::string> lines;
    for (std::size_t from = 0; from < text.size();) {
        const auto end = text.find('\n', from);
        lines.push_back(text.substr(from, end - from));
        from = end + 1;
    }
    return lines;
}

/// Spoils one file after the other.
class Spoiled {
public:
    void file(const std::string& path, const std::string& text) {
        text_ += "==== " + path + "\n";
        told("as it is", path, text);
        const auto lines = lines_of_text(text);
        for (std::size_t i = 1; i < lines.size(); ++i) {
            auto without = lines;
            without.erase(without.begin() + static_cast<std::ptrdiff_t>(i));
            told("without '" + lines[i] + "'", path, joined(without));
        }
        // Each value, wherever it stands: behind a colon to the next comma, bracket or end of line.
        for (std::size_t at = text.find(": "); at != std::string::npos; at = text.find(": ", at + 1)) {
            const auto from = at + 2, to = text.find_first_of(",}\n", from);
            const auto begin = text.find_last_of("{,\n ", at - 1) + 1;
            if (text[from] == '{' || to == from || begin == 0) continue; // the kind stays
            const std::string key = text.substr(begin, at - begin);
            for (const char* spoilt : {"nonsense", "-1", "[a]", "{b: c}", "1e9 kg"})
                told(key + ": " + spoilt + ", for " + text.substr(from, to - from), path, text.substr(0, from) + spoilt + text.substr(to));
        }
    }
    const std::string& text() const { return text_; }

private:
    static std::string joined(const std::vector<std::string>& lines) {
        std::string text;
        for (const auto& line : lines)
            text += line + "\n";
        return text;
    }
    void told(const std::string& what, const std::string& path, const std::string& content) {
        const SmallShelf shelf;
        Library library = shelf.library();
        const std::string file = shelf.dir().write(path, content);
        const Jar jar;
        text_ += what + "\n";
        for (const auto& fault : faults_of([&] { check_file(file, library, &jar); })) {
            const bool here = fault.at.place.path == file;
            text_ += "  " + (here ? std::to_string(fault.at.place.line) + ":" + std::to_string(fault.at.place.column) : std::string("elsewhere")) + " " + fault.id + ": " +
                     (fault.message.find(shelf.dir().path().string()) == std::string::npos ? fault.message : "of the file") + "\n";
        }
    }
    std::string text_;
};

} // namespace

TEST_CASE("spoiled materials of the shelf, whole", "[errors]") {
    Spoiled spoiled;
    spoiled.file("pigments/mine.yaml", plain_pigment);
    spoiled.file("ingredients/mine.yaml", plain_gum);
    spoiled.file("media/mine.yaml", plain_medium);
    spoiled.file("families/mine.yaml", plain_family);
    spoiled.file("families/mine-oil.yaml", spoilt_oil_family);
    spoiled.file("vessels/mine.yaml", plain_vessel);
    spoiled.file("recipes/mine.yaml", plain_recipe);
    check_expected("shelf", "spoiled-materials", spoiled.text());
}

TEST_CASE("spoiled files of a maker, whole", "[errors]") {
    Spoiled spoiled;
    spoiled.file("jars/mine.yaml", spoilt_jar);
    spoiled.file("bench.yaml", plain_bench);
    spoiled.file("sieve.yaml", spoilt_sieving);
    spoiled.file("settle.yaml", spoilt_settling);
    spoiled.file("rub-out.yaml", spoilt_rub_out);
    check_expected("shelf", "spoiled-files", spoiled.text());
}
