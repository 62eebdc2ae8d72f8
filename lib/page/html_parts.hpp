#pragma once
// The parts of the HTML writer.

#include <string>

#include "lakebound/page/page.hpp"

namespace lakebound::page {

/// The style sheet of every page.
const char* style_sheet();

/// Writes blocks into one document: gives every picture names of its own.
class HtmlBlocks {
public:
    explicit HtmlBlocks(std::string& out) : out_(out) {}

    void blocks(const std::vector<Block>& blocks);

    void operator()(const Paragraph& block);
    void operator()(const Note& block);
    void operator()(const Lead& block);
    void operator()(const Facts& block);
    void operator()(const Steps& block);
    void operator()(const Bullets& block);
    void operator()(const Watch& block);
    void operator()(const Guard& block);
    void operator()(const Cautions& block);
    void operator()(const Command& block);
    void operator()(const Formula& block);
    void operator()(const Preformatted& block);
    void operator()(const Swatches& block);
    void operator()(const Foot& block);
    void operator()(const Table& block);
    void operator()(const TickList& block);
    void operator()(const Picture& block);
    void operator()(const Verdict& block);

private:
    void notes(const std::vector<Words>& notes);

    std::string& out_;
    int pictures_ = 0;
};

void write_table(std::string& out, const Table& table);
void write_tick_list(std::string& out, const TickList& list);
/// A `figure` with its SVG, title, description and caption; `name` is of its ids.
void write_picture(std::string& out, const Picture& picture, const std::string& name);

} // namespace lakebound::page
