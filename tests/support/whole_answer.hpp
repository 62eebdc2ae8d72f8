#pragma once
// An answer whole, as lines that a person can read and a test can compare: the text of a page with what only HTML shows,
// what its pictures are drawn from, and JSON; numbers to as many digits as any machine agrees on.

#include <catch2/catch.hpp>

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <sstream>
#include <string>
#include <type_traits>
#include <variant>

#include <nlohmann/json.hpp>

#include "lakebound/page/text_writer.hpp"
#include "support/expected_text.hpp"

namespace lakebound::testing {

class PictureLines {
public:
    std::string of(const page::Picture& picture) {
        std::visit([&](const auto& each) { tell(each); }, picture.is);
        if (picture.narrow) lines_ << "  narrow\n";
        return lines_.str();
    }

private:
    std::ostringstream lines_;

    static std::string number(double x) {
        char text[32];
        std::snprintf(text, sizeof text, "%.4g", std::abs(x) < 1e-9 ? 0.0 : x);
        return text;
    }
    void line(const std::string& words) { lines_ << "  " << words << '\n'; }
    static std::string interval(const char* what, const std::optional<page::Interval>& i) {
        return i ? std::string(what) + number(i->low) + " to " + number(i->high) : "";
    }
    static std::string points(const std::vector<page::Point>& all) {
        std::string text;
        const std::size_t step = all.size() > 12 ? all.size() / 6 : 1;
        for (std::size_t i = 0; i < all.size(); i += step)
            text += " (" + number(all[i].x) + ", " + number(all[i].y) + ")";
        if (all.size() > 12) text += " ... (" + number(all.back().x) + ", " + number(all.back().y) + ")";
        return text;
    }
    template <class P> void head(const char* kind, const P& p) {
        line(std::string(kind) + ": " + p.question);
        if (!p.description.empty()) line("told: " + p.description);
        if (!p.caption.empty()) line("caption: " + p.caption);
        if constexpr (requires { p.in_text; })
            if (p.in_text) line("in text");
    }
    void axis(const char* name, const page::Axis& a) {
        CHECK(a.high > a.low); // else nothing could be drawn
        std::string text = std::string(name) + " " + a.name + " [" + a.unit + "] " + number(a.low) + " to " + number(a.high) +
                           (a.scale == page::Scale::linear        ? ""
                            : a.scale == page::Scale::logarithmic ? " logarithmic"
                                                                  : " probability");
        for (const double tick : a.ticks)
            text += " " + number(tick);
        line(text);
    }
    void band(const page::Band& b) {
        line("band " + number(b.from) + " to " + number(b.to) + (b.of_x ? " of x " : " ") + b.label);
    }
    void limit(const page::Limit& l) { line("limit " + number(l.at) + (l.of_x ? " of x " : " ") + l.label); }
    static const char* fill(page::Fill f) {
        return f == page::Fill::solid ? "solid" : f == page::Fill::hatched ? "hatched" : f == page::Fill::shaded ? "shaded" : "open";
    }

    void tell(const page::Chart& c) {
        head("Chart", c);
        axis("x", c.x), axis("y", c.y);
        for (const auto& b : c.bands)
            band(b);
        for (const auto& r : c.regions)
            line("between" + points(r.low) + " and" + points(r.high) + " " + r.label);
        for (const auto& s : c.series)
            line("series " + std::to_string(int(s.stroke)) + "/" + std::to_string(s.number) + points(s.points) + " " + s.label);
        for (const auto& l : c.limits)
            limit(l);
        for (const auto& m : c.marks)
            line((m.symbol == page::Symbol::square ? "square" : "diamond") + points({m.at}) + interval(" likely ", m.likely) +
                 interval(" nearly ", m.nearly_sure) + interval(" along ", m.along) + (m.dropped ? " dropped " : " ") + m.label);
        if (c.graduation) {
            std::string text = "below " + c.graduation->name;
            for (const auto& e : c.graduation->entries)
                text += " " + number(e.x) + " = " + e.text;
            line(text);
        }
        line("height " + number(c.height));
    }
    void tell(const page::DotPlot& d) {
        head("Dots", d);
        axis("x", d.axis);
        band(d.window);
        for (const auto& l : d.limits)
            limit(l);
        std::string text = "at";
        for (const double v : d.values)
            text += " " + number(v);
        line(text);
    }
    void tell(const page::Bars& b) {
        head("Bars", b);
        line("full " + number(b.full));
        for (const auto& bar : b.bars) {
            std::string text = bar.label + " | " + bar.value + " | " + bar.end + (bar.chosen ? " | chosen" : "");
            for (const auto& s : bar.segments)
                text += " | " + number(s.value) + " " + fill(s.fill);
            line(text);
        }
    }
    void tell(const page::StackedBar& b) {
        head("Stacked bar", b);
        for (const auto& group : b.groups) {
            line(group.name + " | " + group.amount);
            for (const auto& p : group.parts)
                line("  " + p.name + " | " + p.amount + " | " + number(p.value) + " " + fill(p.fill));
        }
    }
    void tell(const page::Filling& f) {
        head("Filling", f);
        for (const auto& p : f.pours)
            line(p.name + " | " + p.amount + " | " + number(p.wet_level) + " | " + number(p.dry_level) + " | " + p.after);
    }
    void tell(const page::Glass& g) {
        head("Glass", g);
        line(number(g.drawn) + " | " + g.pour_off + " | " + g.mark + " | " + g.stays);
    }
    void tell(const page::Clock& c) {
        head("Clock", c);
        for (const auto& s : c.spans)
            line(number(s.from_seconds) + " to " + number(s.to_seconds) + " s " + std::to_string(int(s.doing)) + " " + s.label);
        for (const auto& words : c.middle)
            line("middle " + words);
    }
    void tell(const page::Stains& s) {
        head("Stains", s);
        for (const auto& cloth : s.cloths)
            line(cloth.score + " | " + cloth.words + " | " + number(cloth.colour));
    }
};

/// What a table is told by besides its words: what only HTML shows, and the least widths that text keeps to.
inline std::string table_lines(const page::Table& table) {
    std::string text = "  table: " + table.caption + (table.caption_shown ? " (shown)" : "") + (table.tick ? " | tick" : "") + (table.large ? " | large" : "") +
                       (table.blank.empty() ? "" : " | blank " + table.blank + " [" + table.blank_unit + "]") +
                       (table.chosen_word == page::Table{}.chosen_word ? "" : " | chosen: " + table.chosen_word) + "\n   ";
    for (const auto& column : table.columns) {
        const char* align = column.align == page::Align::left ? "left" : column.align == page::Align::right ? "right" : "point";
        text += " '" + column.head + "' " + align + " " + std::to_string(column.width) + (column.unit.empty() ? "" : " [" + column.unit + "]") +
                (column.text_unit == page::UnitPlace::head ? " in the head" : "") + (column.strong ? " strong" : "") + (column.bar ? " bar" : "") + ";";
    }
    text += "\n";
    for (const auto& row : table.rows)
        for (const auto& cell : row.cells)
            if (cell.share) {
                char share[32];
                std::snprintf(share, sizeof share, "%.4g", *cell.share);
                text += std::string("    share ") + share + "\n";
            }
    return text;
}

inline void show_all(std::vector<page::Block>& blocks, std::string& besides) {
    for (auto& block : blocks) {
        block.shown = page::Shown::always;
        if (auto* picture = std::get_if<page::Picture>(&block.is)) {
            besides += PictureLines().of(*picture);
            // Drawn in letters by the writer, whose tests hold it; here stands what it is drawn from.
            std::visit([](auto& each) { if constexpr (requires { each.in_text; }) each.in_text = false; }, picture->is);
        } else if (const auto* table = std::get_if<page::Table>(&block.is)) {
            besides += table_lines(*table);
        } else if (auto* verdict = std::get_if<page::Verdict>(&block.is)) {
            verdict->chance_shown = page::Shown::always;
            show_all(verdict->body, besides);
            show_all(verdict->beside, besides);
        } else if (auto* cautions = std::get_if<page::Cautions>(&block.is)) { // their words have tests of their own
            besides += "  cautions:";
            for (const auto& each : cautions->cautions)
                besides += " " + each.subject + (each.who.empty() ? "" : " (" + each.who + ")") + ";";
            besides += "\n";
            cautions->cautions.clear();
        } else if (const auto* swatches = std::get_if<page::Swatches>(&block.is))
            for (const auto& label : swatches->labels)
                besides += "  swatch: " + label + "\n";
    }
}

inline std::string whole(page::Page page) {
    std::string besides;
    for (auto& section : page.sections) {
        section.shown = page::Shown::always;
        section.heading_shown = true;
        show_all(section.blocks, besides);
    }
    std::string text = page::write_text(page);
    for (const auto& fact : page.title.slip)
        text += "  slip: " + fact.label + " " + fact.words.plain() + (fact.blank ? " ____\n" : "\n");
    return text + (besides.empty() ? "" : "\nBESIDES\n" + besides);
}

inline nlohmann::ordered_json rounded_json(nlohmann::ordered_json json) {
    if (json.is_number_float()) {
        char digits[40];
        const double x = json.get<double>();
        std::snprintf(digits, sizeof digits, "%.5g", std::abs(x) < 1e-9 ? 0.0 : x);
        return std::strtod(digits, nullptr);
    }
    if (json.is_structured())
        for (auto& each : json)
            each = rounded_json(each);
    // Where a figure is from, and a figure with its doubt, in one piece: "1.88 +- 0.2, estimate [docs/theory.md], ours".
    if (json.is_object() && json.contains("origin") && json.contains("library_default")) {
        std::string text;
        for (const auto& [key, value] : json.items())
            if (key == "library_default")
                text += value.get<bool>() ? ", ours" : "";
            else
                text += key == "origin" ? value.get<std::string>() : " [" + (value.is_string() ? value.get<std::string>() : value.dump()) + "]";
        return text;
    }
    if (json.is_object() && json.size() == 3 && json.contains("value") && json.contains("standard_uncertainty") &&
        json.contains("provenance"))
        return json["value"].dump() + " +- " + json["standard_uncertainty"].dump() + ", " + json["provenance"].get<std::string>();
    return json;
}
/// JSON with keys in their order, what is short side by side.
inline void tell_json(const nlohmann::ordered_json& json, std::size_t depth, std::string& text) {
    constexpr std::size_t width = 118;
    const auto line = json.dump();
    if (!json.is_structured() || json.empty() || line.size() + depth <= width) {
        text += line;
        return;
    }
    const std::string margin = "\n" + std::string(depth + 1, ' ');
    text += json.is_object() ? '{' : '[';
    std::size_t column = width, left = json.size();
    for (auto it = json.begin(); it != json.end(); ++it) {
        const std::string key = json.is_object() ? nlohmann::ordered_json(it.key()).dump() + ": " : "";
        const std::size_t length = key.size() + it->dump().size() + 1;
        const bool is_short = length + depth <= width;
        if (!is_short || column + 1 + length > width)
            text += margin, column = depth + 1;
        else
            text += ' ', ++column;
        text += key;
        tell_json(*it, depth + 1, text);
        if (--left > 0) text += ',';
        column = is_short ? column + length : width;
    }
    text += margin.substr(0, depth + 1) + (json.is_object() ? '}' : ']');
}
inline std::string whole_json(const std::string& json) {
    std::string text;
    tell_json(rounded_json(nlohmann::ordered_json::parse(json)), 0, text);
    return text + "\n";
}

} // namespace lakebound::testing
