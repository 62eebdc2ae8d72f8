#pragma once
// The limits of every figure in a file, as its refusals tell them, held against what the reader takes and refuses: a
// limit that is told is the limit that is kept.

#include <catch2/catch.hpp>

#include <cctype>
#include <cstdlib>
#include <functional>
#include <set>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

#include "lakebound/shelf/diagnostic.hpp"

namespace lakebound::testing {

class Limits {
public:
    using FaultsIn = std::function<std::vector<Diagnostic>(const std::string& text)>;

    /// Every figure of the text that was not met under its kind and key before. faults: of the text with one figure changed.
    void file(const std::string& kind, const std::string& text, const FaultsIn& faults) {
        for (const auto& place : figures(text)) {
            const std::size_t from = place.first, size = place.second; // by name: clang 14 captures no bindings
            const std::string key = key_of(text, from);
            if (!met_.insert(kind + ": " + key).second) continue;
            CAPTURE(kind, key);
            figure(kind + ": " + key, text.substr(from, size),
                   [&](const std::string& instead) { return told(faults(text.substr(0, from) + instead + text.substr(from + size)), instead); });
        }
    }
    /// A line for each figure: its key, what is told of one far too small, and of one far too large.
    const std::string& text() const { return text_; }

private:
    struct Told {
        bool refused = false;
        std::string hint;
        std::string id, words; ///< "out-of-range", "0.01 to 25 g/cm3"; empty where the figure is no such quantity at all
    };
    using Refusal = std::function<Told(const std::string& figure)>;

    struct Bound {
        std::string text;   ///< "25 g/cm3"
        double number = 0.0;
        std::string unit;   ///< " g/cm3"
        bool included = true;
    };

    /// Places of plain numbers, with a unit or without: behind a colon, a dash or a bracket, or within a list.
    static std::vector<std::pair<std::size_t, std::size_t>> figures(const std::string& text) {
        std::vector<std::pair<std::size_t, std::size_t>> found;
        for (std::size_t at = 2; at < text.size(); ++at) {
            const std::string before = text.substr(at - 2, 2);
            if (before != ": " && before != "- " && before != ", " && text[at - 1] != '[') continue;
            std::size_t digits = at;
            while (digits < text.size() && (std::isdigit(static_cast<unsigned char>(text[digits])) != 0 || text[digits] == '.'))
                ++digits;
            const std::size_t end = text.find_first_of(",}]\n", at);
            if (digits == at || end == std::string::npos) continue;
            if (digits != end && text[digits] != ' ') continue; // a date
            found.emplace_back(at, end - at);
        }
        return found;
    }
    /// The key of the figure, with the key that it stands under where it is a `value`.
    static std::string key_of(const std::string& text, std::size_t at) {
        const auto key_before = [&](std::size_t place) -> std::pair<std::string, std::size_t> {
            const auto colon = text.rfind(':', place);
            if (colon == std::string::npos || colon == 0) return {"", 0};
            const auto begin = text.find_last_of("{,\n -", colon - 1) + 1;
            std::string key = text.substr(begin, colon - begin);
            std::erase(key, '"');
            return {key, begin};
        };
        auto [key, begin] = key_before(at);
        if (key == "value" && begin > 0) return key_before(begin - 1).first;
        return key;
    }
    /// What the fault that quotes the figure says it must be: not "density: a mass must be ...", of the room of quantities.
    static Told told(const std::vector<Diagnostic>& faults, const std::string& figure) {
        Told found;
        for (const auto& fault : faults) {
            const auto must = fault.message.find(" must be "), got = fault.message.find(", got '" + figure + "'");
            if (got == std::string::npos) continue;
            found.refused = true;
            if (must != std::string::npos && fault.message.find(": ") > must)
                found.id = fault.id, found.hint = fault.hint, found.words = fault.message.substr(must + 9, got - must - 9);
        }
        return found;
    }
    static Bound bound(const std::string& words, std::string unit, bool included) {
        Bound b;
        char* rest = nullptr;
        b.number = std::strtod(words.c_str(), &rest);
        if (*rest != '\0') unit = rest;
        b.text = words.substr(0, static_cast<std::size_t>(rest - words.c_str())) + unit;
        b.unit = unit;
        b.included = included;
        return b;
    }
    static std::string number(double x, const std::string& unit) {
        std::ostringstream out;
        out.precision(12);
        out << std::fixed << x << unit;
        return out.str();
    }
    /// A hundredth of the bound; beyond 0 one, and within hardly anything.
    static double step(const Bound& b, bool beyond) {
        if (b.unit.find("deg") != std::string::npos) return 0.01;
        return b.number > 0.0 ? 0.01 * b.number : b.number < 0.0 ? -0.01 * b.number : beyond ? 1.0 : 1e-5;
    }
    static void kept(const Bound& b, double outward, const Refusal& refusal, const Told& told) {
        CAPTURE(b.text);
        CHECK(refusal(b.text).refused != b.included);
        CHECK(refusal(number(b.number - outward * step(b, false), b.unit)).words.empty());
        const Told beyond = refusal(number(b.number + outward * step(b, true), b.unit));
        CHECK(beyond.refused);
        if (beyond.words.empty() || beyond.id != told.id) return; // told by the room of quantities, or as above the whole
        CHECK(beyond.words == told.words);                        // the key's own limit, not a wider one of its kind
        CHECK(beyond.hint == told.hint);
    }
    void figure(const std::string& name, const std::string& as_it_is, const Refusal& refusal) {
        const auto blank = as_it_is.find(' ');
        std::string unit = blank == std::string::npos ? "" : as_it_is.substr(blank);
        for (const char* spread : {" +- ", " x/ "})
            if (unit.rfind(spread, 0) == 0) {
                const auto next = unit.find(' ', 4);
                unit = next == std::string::npos ? "" : unit.substr(next);
            }
        // The nearest figure that is refused tells the key's own limit; further out its unit has others.
        const double here = std::strtod(as_it_is.c_str(), nullptr), from = here > 0.0 ? here : 1.0;
        std::vector<double> down, up;
        for (double x = from / 3.0; x > 1e-6 * from; x /= 3.0)
            down.push_back(x);
        down.insert(down.end(), {0.0, -1.0, -10.0, -30.0, -100.0, -1000.0});
        if (unit.rfind(" %", 0) == 0 && here < 99.95) up.push_back(99.95);
        for (double x = 3.0 * from; x < 1e7 * from; x *= 3.0)
            up.push_back(x);
        const auto nearest = [&](const std::vector<double>& tried) {
            for (const double x : tried)
                if (const Told refused = refusal(number(x, unit)); !refused.words.empty()) return refused;
            return Told{};
        };
        const Told low = nearest(down), high = nearest(up);
        if (low.words.empty() && high.words.empty()) return;
        text_ += name + unit + ": " + low.words + (low.words.empty() ? "" : " (" + low.id + ")");
        if (low.words != high.words || low.id != high.id) text_ += "; " + high.words + (high.words.empty() ? "" : " (" + high.id + ")");
        text_ += "\n";
        limit(low, unit, refusal, true);
        limit(high, unit, refusal, false);
        if (unit == " degC") figure(name, number(here * 1.8 + 32.0, " degF"), refusal);
    }
    static void limit(const Told& told, const std::string& unit, const Refusal& refusal, bool lower) {
        const std::string& words = told.words;
        const bool above = words.rfind("above ", 0) == 0;
        const std::string rest = above ? words.substr(6) : words;
        const auto most = rest.find(", at most "), to = rest.find(" to "), more = rest.find(" or more");
        std::string low, high;
        if (above && most != std::string::npos) low = rest.substr(0, most), high = rest.substr(most + 10);
        else if (above) low = rest;
        else if (to != std::string::npos) low = rest.substr(0, to), high = rest.substr(to + 4);
        else if (more != std::string::npos) low = rest.substr(0, more);
        else return;
        std::string of_high = unit;
        if (const auto blank = high.find(' '); blank != std::string::npos) of_high = high.substr(blank);
        if (of_high != unit) return; // of all masses, which the room of quantities sees to
        if (lower) kept(bound(low, of_high, !above), -1.0, refusal, told);
        else if (!high.empty()) kept(bound(high, unit, true), 1.0, refusal, told);
    }

    std::set<std::string> met_;
    std::string text_;
};

} // namespace lakebound::testing
