#pragma once
// Fills a page in the order in which it is read: sections with their blocks, like items in one list.

#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "lakebound/page/page.hpp"

namespace lakebound::layout {

class PageBuilder {
public:
    explicit PageBuilder(page::Title title) { page_.title = std::move(title); }

    /// Begins a section; what follows goes into it.
    page::Section& section(std::string heading = {}, page::Place place = page::Place::across) {
        boxed_ = false;
        page_.sections.push_back({.heading = std::move(heading), .place = place});
        return page_.sections.back();
    }
    /// The first section has no heading unless one was begun.
    page::Section& current() {
        if (page_.sections.empty()) section();
        return page_.sections.back();
    }
    /// The rest of the section stands in the one box of the page, under these words.
    void box(std::string head = {}, page::Tone tone = page::Tone::plain,
             page::Verdict::Seal seal = page::Verdict::Seal::none) {
        current().blocks.emplace_back(page::Verdict{.head = std::move(head), .tone = tone, .seal = seal});
        boxed_ = true;
    }
    void add(page::Block block) { blocks().push_back(std::move(block)); }
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
        auto& list = blocks();
        if (list.empty() || list.back().shown != page::Shown::always ||
            !std::holds_alternative<Kind>(list.back().is) || !fits(std::get<Kind>(list.back().is)))
            list.emplace_back(std::move(fresh));
        return std::get<Kind>(list.back().is);
    }
    std::vector<page::Block>& blocks() {
        auto& section = current().blocks;
        return boxed_ ? std::get<page::Verdict>(section.back().is).body : section;
    }

    page::Page page_;
    bool boxed_ = false;
};

} // namespace lakebound::layout
