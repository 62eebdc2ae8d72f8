#pragma once
// The lines of a page of text as they are written: wrapped, indented, never wider than asked.

#include <cstddef>
#include <string>
#include <string_view>

#include "lakebound/page/text_writer.hpp"

namespace lakebound::page {

class TextLines {
public:
    explicit TextLines(const TextOptions& options);

    std::size_t width() const { return width_; }

    /// Words as they stand in text: cleaned, `loud` in capitals, in ASCII where that is asked for.
    std::string shown(const Words& words) const;

    void blank(); ///< one empty line, never two
    void heading(std::string_view text);
    /// The line as it is, cut where it is too long. `text` is shown already.
    void line(std::string_view text, Tone tone = Tone::plain);
    /// Wrapped at `indent`, or less where the page is narrow.
    void paragraph(std::string_view text, std::size_t indent = 2, Tone tone = Tone::plain);
    /// `marker` in the margin, the text wrapped beside it; below it where the page is too narrow for both.
    void item(std::string_view marker, std::string_view text, std::size_t indent = 2);
    /// Words in bold where there is colour; used for headings.
    void strong_line(std::string_view text);

    std::string text() && { return std::move(text_); }

private:
    std::size_t indent(std::size_t wanted) const; ///< at most a quarter of a narrow page
    void put(std::string_view text, const char* escape);

    std::size_t width_;
    bool colour_;
    bool ascii_;
    std::string text_;
};

/// The table at the indent of a paragraph (text_table.cpp).
void write_table(TextLines& lines, const Table& table);
/// The picture, where text can show it (text_picture.cpp).
void write_picture(TextLines& lines, const Picture& picture);
/// A share as a bar of at most `width` columns, to an eighth of one.
std::string text_bar(double share, std::size_t width);

} // namespace lakebound::page
