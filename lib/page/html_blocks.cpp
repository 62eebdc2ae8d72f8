#include "html_parts.hpp"

#include <algorithm>

#include "html_text.hpp"

namespace lakebound::page {

namespace {

const char* tone_class(Tone tone) {
    switch (tone) {
    case Tone::plain:
    case Tone::good:
        return "";
    case Tone::care:
        return " class=\"care\"";
    case Tone::bad:
        return " class=\"bad\"";
    }
    return "";
}

/// Holds: a full disc. May hold: half of one. Does not: a ring with a stroke.
const char* seal(Verdict::Seal seal) {
    switch (seal) {
    case Verdict::Seal::none:
        return "";
    case Verdict::Seal::holds:
        return "<circle class=\"edge solid\" cx=\"12\" cy=\"12\" r=\"10\"/>";
    case Verdict::Seal::may_hold:
        return "<circle class=\"edge open\" cx=\"12\" cy=\"12\" r=\"10\"/><path class=\"solid\" d=\"M12 2a10 10 0 0 0 0 20z\"/>";
    case Verdict::Seal::fails:
        return "<circle class=\"edge open\" cx=\"12\" cy=\"12\" r=\"10\"/><path class=\"edge\" d=\"M5 19L19 5\"/>";
    }
    return "";
}

/// A command whose words are not broken at their hyphens: "--" at the end of a line is no option.
std::string command_html(const std::string& line) {
    std::string out;
    for (std::size_t start = 0; start <= line.size();) {
        const std::size_t end = std::min(line.find(' ', start), line.size());
        const std::string word = line.substr(start, end - start);
        out += start > 0 ? " " : "";
        out += word.find('-') == word.npos ? escaped(word) : "<span>" + escaped(word) + "</span>";
        start = end + 1;
    }
    return out;
}

std::string paragraph(const char* attributes, const std::string& text) {
    return std::string("<p").append(attributes).append(">").append(text).append("</p>\n");
}

} // namespace

void HtmlBlocks::blocks(const std::vector<Block>& blocks) {
    for (const auto& block : blocks)
        if (block.shown != Shown::text_only) std::visit(*this, block.is);
}

void HtmlBlocks::notes(const std::vector<Words>& notes) {
    for (const auto& note : notes)
        out_ += paragraph(" class=\"note\"", html(note));
}

void HtmlBlocks::operator()(const Paragraph& block) { out_ += paragraph(tone_class(block.tone), html(block.words)); }
void HtmlBlocks::operator()(const Note& block) { out_ += paragraph(" class=\"note\"", html(block.words)); }
void HtmlBlocks::operator()(const Lead& block) { out_ += paragraph(" class=\"lead\"", html(block.words)); }
void HtmlBlocks::operator()(const Watch& block) {
    out_ += paragraph(block.tone == Tone::bad ? " class=\"watch bad\"" : " class=\"watch\"", html(block.words));
}
void HtmlBlocks::operator()(const Guard& block) { out_ += paragraph(" class=\"guard\"", html(block.words)); }

void HtmlBlocks::operator()(const Facts& block) {
    out_ += "<dl class=\"facts\">\n";
    for (const auto& fact : block.facts) {
        out_ += "<dt>" + printed(fact.label) + "</dt><dd>" + html(fact.words);
        if (fact.blank)
            out_ += "<input type=\"text\" class=\"line\" autocomplete=\"off\" aria-label=\"" + escaped(fact.label) + "\">";
        out_ += "</dd>\n";
    }
    out_ += "</dl>\n";
}

void HtmlBlocks::operator()(const Steps& block) {
    out_ += "<ol class=\"steps\">\n";
    for (const auto& step : block.steps)
        out_ += "<li>" + html(step) + "</li>\n";
    out_ += "</ol>\n";
    for (const auto& aside : block.asides)
        out_ += paragraph(" class=\"aside\"", html(aside));
}

void HtmlBlocks::operator()(const Bullets& block) {
    out_ += block.marker == '!' ? "<ul class=\"warn\">\n" : "<ul>\n";
    for (const auto& item : block.items)
        out_ += "<li>" + html(item) + "</li>\n";
    out_ += "</ul>\n";
}

void HtmlBlocks::operator()(const Cautions& block) {
    out_ += "<dl class=\"cautions\">\n";
    for (const auto& caution : block.cautions) {
        out_ += "<div><dt>" + printed(caution.subject) + "</dt><dd>";
        if (!caution.who.empty()) out_ += "<b>" + printed(caution.who) + ".</b> ";
        out_ += html(caution.words) + "</dd></div>\n";
    }
    out_ += "</dl>\n";
}

void HtmlBlocks::operator()(const Command& block) {
    out_ += "<p class=\"command\"><code>" + command_html(block.line) + "</code></p>\n";
}

void HtmlBlocks::operator()(const Formula& block) {
    out_ += "<div class=\"formula\"><p>" + html(block.name) + "</p>\n";
    bool first = true;
    for (const auto& line : block.lines) {
        out_ += "<p><span>" + (first ? escaped(block.symbol) : std::string()) + "</span> = " + escaped(line) + "</p>\n";
        first = false;
    }
    out_ += "</div>\n";
}

void HtmlBlocks::operator()(const Preformatted& block) {
    out_ += "<pre>";
    for (const auto& line : block.lines)
        out_ += escaped(line) + "\n";
    out_ += "</pre>\n";
}

void HtmlBlocks::operator()(const Swatches& block) {
    out_ += "<div class=\"swatches\">";
    for (const auto& label : block.labels)
        out_ += "<p>" + printed(label) + "</p>";
    out_ += "</div>\n";
}

void HtmlBlocks::operator()(const Foot& block) {
    out_ += "<p class=\"foot\">" + html(block.words);
    if (!block.command.empty()) out_ += " <code>" + command_html(block.command) + "</code>";
    out_ += "</p>\n";
}

void HtmlBlocks::operator()(const Table& block) {
    write_table(out_, block);
    notes(block.notes);
}

void HtmlBlocks::operator()(const TickList& block) {
    write_tick_list(out_, block);
    notes(block.notes);
}

void HtmlBlocks::operator()(const Picture& block) {
    write_picture(out_, block, "p" + std::to_string(++pictures_));
}

void HtmlBlocks::operator()(const Verdict& block) {
    out_ += "<div class=\"verdict\"><div>\n";
    if (!block.head.empty()) {
        out_ += "<p class=\"word\">";
        if (const std::string drawn = seal(block.seal); !drawn.empty())
            out_ += "<svg viewBox=\"0 0 24 24\" aria-hidden=\"true\">" + drawn + "</svg>";
        out_ += "<span>" + printed(block.head) + "</span>";
        if (!block.figure.empty()) out_ += "<span class=\"figure\">" + printed(block.figure) + "</span>";
        out_ += "</p>\n";
    }
    if (!block.chance.empty() && block.chance_shown != Shown::text_only) out_ += paragraph(" class=\"chance\"", html(block.chance));
    blocks(block.body);
    out_ += "</div>";
    if (!block.beside.empty()) {
        out_ += "<div>\n";
        blocks(block.beside);
        out_ += "</div>";
    }
    out_ += "</div>\n";
}

} // namespace lakebound::page
