#include "lakebound/page/html_writer.hpp"

#include <algorithm>

#include "html_parts.hpp"
#include "html_text.hpp"

namespace lakebound::page {

namespace {

bool has_cautions(const Section& section) {
    return std::any_of(section.blocks.begin(), section.blocks.end(),
                       [](const Block& block) { return std::holds_alternative<Cautions>(block.is); });
}

/// Boxes to paint in are of no use on a screen.
bool is_for_paper(const Section& section) {
    return !section.blocks.empty() &&
           std::all_of(section.blocks.begin(), section.blocks.end(),
                       [](const Block& block) { return std::holds_alternative<Swatches>(block.is); });
}

/// A language tag is letters, digits and hyphens: anything else is not one of ours.
std::string language_tag(const std::string& language) {
    const auto good = [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-';
    };
    return !language.empty() && std::all_of(language.begin(), language.end(), good) ? language : "en";
}

std::string document_title(const Title& title) {
    if (title.name.empty()) return escaped(title.kind);
    return escaped(title.kind + ": " + title.name);
}

class HtmlWriter {
public:
    explicit HtmlWriter(std::string& out) : out_(out), blocks_(out) {}

    void page(const Page& page);

private:
    void title(const Title& title);
    void section(const Section& section, bool side);
    void pair(const std::vector<const Section*>& sections);

    std::string& out_;
    HtmlBlocks blocks_;
};

void HtmlWriter::title(const Title& title) {
    out_ += "<header class=\"top\"><div><div>\n";
    if (!title.name.empty()) out_ += "<p class=\"kind\">" + printed(title.kind) + "</p>\n";
    out_ += "<h1>" + printed(title.name.empty() ? title.kind : title.name) + "</h1>\n";
    for (const auto& lead : title.lead)
        out_ += "<p class=\"lead\">" + html(lead) + "</p>\n";
    out_ += "</div>\n";
    if (!title.slip.empty()) {
        out_ += "<dl class=\"slip\">\n";
        for (const auto& fact : title.slip) {
            out_ += "<dt>" + printed(fact.label) + "</dt><dd>" + html(fact.words);
            if (fact.blank)
                out_ += "<input type=\"text\" class=\"line\" autocomplete=\"off\" aria-label=\"" + escaped(fact.label) +
                        "\">";
            out_ += "</dd>\n";
        }
        out_ += "</dl>\n";
    }
    out_ += "</div></header>\n";
}

void HtmlWriter::section(const Section& section, bool side) {
    std::string name = section.heading.empty() || !section.heading_shown ? "bare" : "";
    const auto add = [&name](const char* more) { name += (name.empty() ? "" : " ") + std::string(more); };
    if (side) add("side");
    if (section.keep_together) add("whole");
    if (is_for_paper(section)) add("paper");
    out_ += name.empty() ? "<section>\n" : "<section class=\"" + name + "\">\n";
    if (!section.heading.empty()) {
        out_ += !section.heading_shown ? "<h2 class=\"unseen\">" : has_cautions(section) ? "<h2 class=\"red\">" : "<h2>";
        out_ += printed(section.heading) + "</h2>\n";
    }
    blocks_.blocks(section.blocks);
    out_ += "</section>\n";
}

void HtmlWriter::pair(const std::vector<const Section*>& sections) {
    std::string name = sections.front()->split == Split::even ? "pair even" : "pair";
    if (sections.front()->new_side) name += " side";
    out_ += "<div class=\"" + name + "\">";
    for (const auto place : {Place::left, Place::right}) {
        out_ += "<div>\n";
        for (const auto* each : sections)
            if (each->place == place) section(*each, false);
        out_ += "</div>";
    }
    out_ += "</div>\n";
}

void HtmlWriter::page(const Page& page) {
    out_ += "<article>\n";
    title(page.title);
    std::vector<const Section*> run;
    const auto flush = [&] {
        if (!run.empty()) pair(run);
        run.clear();
    };
    for (const auto& each : page.sections) {
        if (each.shown == Shown::text_only) continue;
        if (each.place != Place::across) {
            if (each.new_side) flush();
            run.push_back(&each);
            continue;
        }
        flush();
        section(each, each.new_side);
    }
    flush();
    out_ += "</article>\n";
}

} // namespace

std::string write_html(const Page& page) { return write_html(std::vector<Page>{page}); }

std::string write_html(const std::vector<Page>& pages) {
    std::string out;
    out.reserve(40'000);
    const Page none;
    const auto& first = pages.empty() ? none : pages.front();
    out += "<!DOCTYPE html>\n<html lang=\"" + language_tag(first.language) + "\">\n<head>\n<meta charset=\"utf-8\">\n" +
           "<meta name=\"viewport\" content=\"width=device-width,initial-scale=1\">\n" +
           "<meta name=\"color-scheme\" content=\"light dark\">\n<title>" + document_title(first.title) +
           "</title>\n<style>\n" + style_sheet() + "</style>\n</head>\n<body>\n<main>\n";
    HtmlWriter writer(out);
    for (const auto& page : pages)
        writer.page(page);
    out += "</main>\n</body>\n</html>\n";
    return out;
}

} // namespace lakebound::page
