#pragma once
// Text layout for a person at the bench: 80 columns, hanging indents, colour only where asked for.
//
// Lines break at spaces, but never between a number and what follows it, nor around ± and x/.

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace lakebound::layout {

inline constexpr std::size_t page_width = 80;

enum class Tone { plain, heading, good, care, bad };

/// Columns that UTF-8 text takes: its code points (we print none that is wide or combining).
std::size_t columns(std::string_view text);
/// Text followed by spaces up to `width` columns.
std::string padded(std::string text, std::size_t width);
/// Spaces up to `width` columns followed by the text.
std::string right_aligned(std::string text, std::size_t width);
/// Lines of at most `width` columns; a word longer than that stands alone.
std::vector<std::string> wrapped(std::string_view text, std::size_t width);
/// "a, b and c".
std::string joined(const std::vector<std::string>& names);
/// The first letter as a capital, where it is an ASCII letter.
std::string capitalised(std::string text);

class Page {
public:
    explicit Page(bool colour) : colour_(colour) {}

    void blank();                        ///< one empty line, never two
    void heading(std::string_view text); ///< blank line before, capital letters
    void line(std::string_view text, Tone tone = Tone::plain);
    void paragraph(std::string_view text, std::size_t indent = 2, Tone tone = Tone::plain);
    /// `marker` in the margin, the text wrapped beside it.
    void item(std::string_view marker, std::string_view text, std::size_t indent = 2);

    std::string text() const { return text_; }

private:
    bool colour_;
    std::string text_;
};

} // namespace lakebound::layout
