#pragma once
// Fills a page in the order in which it is read: sections with their blocks, like items in one list.

#include <string>
#include <utility>
#include <variant>

#include "lakebound/page/page.hpp"

namespace lakebound::layout {

class PageBuilder {
public:
    explicit PageBuilder(page::Title title) { page_.title = std::move(title); }

    /// Begins a section; what follows goes into it.
    page::Section& section(std::string heading = {}, page::Place place = page::Place::across) {
        page_.sections.push_back({.heading = std::move(heading), .place = place});
        return page_.sections.back();
    }
    /// The first section has no heading unless one was begun.
    page::Section& current() {
        if (page_.sections.empty()) section();
        return page_.sections.back();
    }
    void add(page::Block block) { current().blocks.push_back(std::move(block)); }
    void paragraph(page::Words words, page::Tone tone = page::Tone::plain) {
        add(page::Paragraph{std::move(words), tone});
    }
    void note(page::Words words) { add(page::Note{std::move(words)}); }
    /// An item of the list that the section ends in, or of a new one.
    void item(page::Words words, char marker = '-') {
        auto& list = last<page::Bullets>([marker](const page::Bullets& each) { return each.marker == marker; },
                                         page::Bullets{{}, marker});
        list.items.push_back(std::move(words));
    }
    void fact(std::string label, page::Words words) {
        auto& facts = last<page::Facts>([](const page::Facts&) { return true; }, page::Facts{});
        facts.facts.push_back({std::move(label), std::move(words)});
    }
    /// For paper and screen only.
    void drawn(page::Picture picture) { add(page::Block(std::move(picture), page::Shown::html_only)); }

    page::Page page() && { return std::move(page_); }

private:
    template <class Kind, class Test> Kind& last(Test fits, Kind fresh) {
        auto& blocks = current().blocks;
        if (blocks.empty() || blocks.back().shown != page::Shown::always ||
            !std::holds_alternative<Kind>(blocks.back().is) || !fits(std::get<Kind>(blocks.back().is)))
            add(std::move(fresh));
        return std::get<Kind>(current().blocks.back().is);
    }

    page::Page page_;
};

} // namespace lakebound::layout
