#include "html_text.hpp"

#include <algorithm>
#include <array>

#include "characters.hpp"
#include "lakebound/page/line_fill.hpp"

namespace lakebound::page {

namespace {

constexpr std::string_view no_break = "\u00a0";
constexpr std::size_t longest_unbroken = 24; ///< so that a chain of numbers still breaks on a phone

struct Spelling {
    std::string_view typed, print;
};
constexpr std::array<Spelling, 13> units{{{"um", "µm"},
                                          {"degC", "°C"},
                                          {"degF", "°F"},
                                          {"g/cm3", "g/cm³"},
                                          {"kg/m3", "kg/m³"},
                                          {"cm3", "cm³"},
                                          {"m3", "m³"},
                                          {"mm2", "mm²"},
                                          {"cm2", "cm²"},
                                          {"m2", "m²"},
                                          {"m2/kg", "m²/kg"},
                                          {"m2/g", "m²/g"},
                                          {"ug", "µg"}}};

/// A word without the marks that may follow it.
std::string_view bare(std::string_view word) {
    while (!word.empty() && std::string_view(".,;:)?!").find(word.back()) != std::string_view::npos)
        word.remove_suffix(1);
    return word;
}

std::string_view unit_spelling(std::string_view word) {
    const auto* const found =
        std::find_if(units.begin(), units.end(), [word](const Spelling& each) { return each.typed == word; });
    return found == units.end() ? std::string_view{} : found->print;
}

/// Whether a line may not end between these words.
bool unparted(std::string_view left, std::string_view right) {
    if (left.empty() || right.empty()) return false;
    if (left == "±" || right == "±" || right == "%" || left == "x/" || right == "x/") return true;
    return is_digit(left.back()) && columns(bare(right)) <= 9;
}

template <class Each>
void for_each_word(std::string_view text, Each each) {
    for (std::size_t at = 0; at < text.size();) {
        const auto end = std::min(text.find(' ', at), text.size());
        each(text.substr(at, end - at), end < text.size());
        at = end + 1;
    }
}

void escape_into(std::string& out, std::string_view text) {
    for (const char c : text) {
        switch (c) {
        case '&':
            out += "&amp;";
            break;
        case '<':
            out += "&lt;";
            break;
        case '>':
            out += "&gt;";
            break;
        case '"':
            out += "&quot;";
            break;
        case '\'':
            out += "&#39;";
            break;
        default:
            out += c;
        }
    }
}

std::string respelled(std::string_view text, bool unbroken) {
    std::string out;
    std::string_view before;
    std::size_t chain = 0;
    bool first = true;
    for_each_word(text, [&](std::string_view word, bool) {
        if (!first) {
            const bool joined = unbroken && unparted(before, word) && chain + columns(word) < longest_unbroken;
            out += joined ? no_break : std::string_view(" ");
            chain = joined ? chain + columns(word) + 1 : columns(word);
        } else {
            chain = columns(word);
        }
        const auto core = bare(word);
        const auto print = !before.empty() && is_digit(before.back()) ? unit_spelling(core) : std::string_view{};
        if (print.empty()) {
            out += word;
        } else {
            out += print;
            out += word.substr(core.size());
        }
        first = false;
        before = word;
    });
    if (!text.empty() && text.back() == ' ') out += ' ';
    return out;
}

const char* element(Style style) {
    switch (style) {
    case Style::plain:
        return nullptr;
    case Style::strong:
    case Style::loud:
        return "b";
    case Style::emphasis:
        return "em";
    case Style::code:
        return "code";
    }
    return nullptr;
}

} // namespace

std::string escaped(std::string_view text) {
    std::string out;
    escape_into(out, isolated(clean(text)));
    return out;
}

std::string spelled(std::string_view text) { return respelled(clean(text), false); }

std::string printed(std::string_view text) {
    std::string out;
    escape_into(out, isolated(respelled(clean(text), true)));
    return out;
}

std::string printed_unit(std::string_view unit) {
    const auto print = unit_spelling(unit);
    return print.empty() ? escaped(unit) : std::string(print);
}

std::string html(const Words& words) {
    std::string out;
    for (const auto& span : words.spans()) {
        const auto* const name = element(span.style);
        const auto text = span.style == Style::code ? escaped(span.text) : printed(span.text);
        if (name == nullptr)
            out += text;
        else
            out.append("<").append(name).append(">").append(text).append("</").append(name).append(">");
    }
    return out;
}

} // namespace lakebound::page
