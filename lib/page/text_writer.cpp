#include "lakebound/page/text_writer.hpp"

#include <algorithm>

#include "lakebound/page/line_fill.hpp"
#include "text_lines.hpp"

namespace lakebound::page {

namespace {

constexpr std::size_t label_width = 13; ///< of facts and cautions
constexpr std::size_t tick_margin = 17; ///< of names in a tick list
constexpr std::size_t step_margin = 6;

class TextWriter {
public:
    explicit TextWriter(TextLines& lines) : lines_(lines) {}

    void title(const Title& title);
    void section(const Section& section);
    void blocks(const std::vector<Block>& blocks) {
        for (const auto& block : blocks)
            if (block.shown != Shown::html_only) std::visit(*this, block.is);
    }

    void operator()(const Paragraph& block) { lines_.paragraph(lines_.shown(block.words), 2, block.tone); }
    void operator()(const Note& block) { lines_.paragraph(lines_.shown(block.words)); }
    void operator()(const Lead& block) { lines_.paragraph(lines_.shown(block.words), lead_indent_); }
    void operator()(const Facts& block);
    void operator()(const Steps& block);
    void operator()(const Bullets& block) {
        for (const auto& item : block.items)
            lines_.item(std::string(1, block.marker), lines_.shown(item));
    }
    void operator()(const Watch& block) { lines_.paragraph(lines_.shown(block.words), 2, block.tone); }
    void operator()(const Guard& block) { lines_.paragraph(lines_.shown(block.words), 2, Tone::care); }
    void operator()(const Cautions& block);
    void operator()(const Command& block);
    void operator()(const Formula& block);
    void operator()(const Preformatted& block) {
        for (const auto& each : block.lines)
            lines_.line("  " + lines_.shown(each));
    }
    void operator()(const Swatches&) {}
    void operator()(const Foot&) {}
    void operator()(const Table& block) { write_table(lines_, block); }
    void operator()(const TickList& block);
    void operator()(const Picture& block) { write_picture(lines_, block); }
    void operator()(const Verdict& block);

private:
    void tick_line(const TickLine& line);

    TextLines& lines_;
    std::size_t lead_indent_ = 2;
};

void TextWriter::title(const Title& title) {
    std::string head = lines_.shown(loud(title.kind));
    const auto name = lines_.shown(title.name);
    if (title.form == TitleForm::below || name.empty()) {
        lines_.strong_line(head);
        if (!name.empty()) lines_.paragraph(name);
    } else if (title.form == TitleForm::after_colon) {
        lines_.strong_line(head + ": " + name);
    } else {
        head += "   ";
        lead_indent_ = columns(head);
        lines_.strong_line(head + name);
    }
    for (const auto& lead : title.lead)
        (*this)(Lead{lead});
}

void TextWriter::section(const Section& section) {
    if (section.shown == Shown::html_only) return;
    lines_.blank();
    if (section.heading_shown && !section.heading.empty()) lines_.heading(lines_.shown(section.heading));
    blocks(section.blocks);
}

void TextWriter::operator()(const Facts& block) {
    for (const auto& fact : block.facts)
        if (!fact.blank) lines_.item(padded(lines_.shown(fact.label), label_width), lines_.shown(fact.words));
}

void TextWriter::operator()(const Steps& block) {
    std::size_t number = 0;
    for (const auto& step : block.steps)
        lines_.item(right_aligned(std::to_string(++number), 2) + '.', lines_.shown(step));
    for (const auto& aside : block.asides)
        lines_.paragraph(lines_.shown(aside), step_margin);
}

void TextWriter::operator()(const Cautions& block) {
    for (const auto& caution : block.cautions)
        lines_.item(padded(lines_.shown(caution.subject), label_width),
                    (caution.who.empty() ? "" : lines_.shown(caution.who) + ". ") + lines_.shown(caution.words));
}

/// A shell reads on after a backslash at the end of a line.
void TextWriter::operator()(const Command& block) {
    const auto command = lines_.shown(block.line);
    const std::string margin(lines_.width() >= 60 ? 4 : 2, ' ');
    const auto room = lines_.width() - margin.size();
    std::string rest = command;
    while (columns(rest) > room) {
        std::size_t at = std::string::npos;
        for (auto space = rest.find(' '); space != std::string::npos; space = rest.find(' ', space + 1)) {
            if (columns(std::string_view(rest).substr(0, space)) + 2 > room) break;
            const auto quotes = std::count(rest.begin(), rest.begin() + static_cast<std::ptrdiff_t>(space), '"');
            if (space > 2 && quotes % 2 == 0 && rest[space - 1] != ' ') at = space;
        }
        if (at == std::string::npos) break;
        lines_.line(margin + rest.substr(0, at) + " \\");
        rest = "  " + rest.substr(at + 1);
    }
    lines_.line(margin + rest);
}

void TextWriter::operator()(const Formula& block) {
    lines_.paragraph(lines_.shown(block.name));
    bool first = true;
    for (const auto& each : block.lines) {
        const auto sign = first ? right_aligned(lines_.shown(block.symbol), 12) + " =" : std::string(13, ' ') + '=';
        lines_.item(sign, lines_.shown(each));
        first = false;
    }
}

void TextWriter::tick_line(const TickLine& line) {
    constexpr std::size_t most_name = 38, scale_width = 22, gap = 2;
    const auto amount = lines_.shown(line.amount);
    const auto name = lines_.shown(line.name);
    const auto where = lines_.shown(line.instrument);
    if (lines_.width() < tick_margin + 18 + gap + scale_width) { // a narrow page: the scale goes below
        lines_.item("[ ]", amount + (amount.empty() ? "" : "  ") + name);
        if (!where.empty()) lines_.paragraph(where, step_margin);
    } else {
        const auto name_width = std::min(most_name, lines_.width() - tick_margin - gap - scale_width);
        const auto names = wrapped(name, name_width);
        const auto scales = wrapped(where, scale_width);
        for (std::size_t i = 0; i < std::max(names.size(), scales.size()); ++i) {
            std::string row =
                i == 0 ? "  [ ] " + right_aligned(amount, 9) + "  " : std::string(tick_margin, ' ');
            row += padded(i < names.size() ? names[i] : "", name_width);
            if (i < scales.size()) row += "  " + scales[i];
            lines_.line(row);
        }
    }
    const auto indent = lines_.width() < 60 ? step_margin : tick_margin;
    if (!line.alternative.empty()) lines_.paragraph("or " + lines_.shown(line.alternative), indent);
    for (const auto& note : line.notes)
        lines_.paragraph(lines_.shown(note), indent);
}

void TextWriter::operator()(const TickList& block) {
    for (const auto& line : block.lines)
        tick_line(line);
    for (const auto& note : block.notes)
        lines_.paragraph(lines_.shown(note), lines_.width() < 60 ? step_margin : tick_margin);
}

void TextWriter::operator()(const Verdict& block) {
    auto head = lines_.shown(loud(block.head));
    if (!head.empty()) {
        if (!block.figure.empty()) head += "   " + lines_.shown(block.figure);
        lines_.line("  " + head, block.tone);
    }
    if (!block.chance.empty() && block.chance_shown != Shown::html_only) lines_.paragraph(lines_.shown(block.chance));
    blocks(block.body);
    blocks(block.beside);
}

} // namespace

std::string write_text(const Page& page, const TextOptions& options) {
    TextLines lines(options);
    TextWriter writer(lines);
    writer.title(page.title);
    for (const auto& section : page.sections)
        writer.section(section);
    return std::move(lines).text();
}

std::string write_text(const std::vector<Block>& blocks, const TextOptions& options) {
    TextLines lines(options);
    TextWriter(lines).blocks(blocks);
    return std::move(lines).text();
}

} // namespace lakebound::page
