#pragma once
// Text layout for a person at the bench: 80 columns, hanging indents, colour only where asked for.
//
// Lines break at spaces, but never between a number and what follows it, nor around ± and x/.

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "lakebound/page/line_fill.hpp"

namespace lakebound::layout {

inline constexpr std::size_t page_width = 80;

enum class Tone { plain, heading, good, care, bad };

using page::columns;
using page::padded;
using page::right_aligned;
using page::wrapped;

/// "a, b and c".
std::string joined(const std::vector<std::string>& names);
/// The first letter as a capital, where it is an ASCII letter.
std::string capitalised(std::string text);
/// All ASCII letters as capitals.
std::string capitals(std::string text);

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
