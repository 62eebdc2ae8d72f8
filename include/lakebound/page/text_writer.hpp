#pragma once
// A page as text for a terminal or a file.

#include <cstddef>
#include <string>

#include "lakebound/export.hpp"
#include "lakebound/page/page.hpp"

namespace LAKEBOUND_EXPORT lakebound {
namespace page {

inline constexpr std::size_t text_width = 80;
inline constexpr std::size_t least_text_width = 20;

struct TextOptions {
    std::size_t width = text_width; ///< of the terminal: taken from `least_text_width` to `text_width`
    bool colour = false;            ///< escape codes for headings and tones: only for a terminal
    bool ascii = false;             ///< for a C locale: ± as +-, bars of #, other letters without accents or as ?
};

/// The page in lines of at most `options.width` columns, each ended by a newline. Control characters,
/// invisible ones and those that turn the direction of text are left out, so that no name can forge a line.
[[nodiscard]] std::string write_text(const Page& page, const TextOptions& options = {});

/// Only the blocks, as `write_text` would show them below a heading.
[[nodiscard]] std::string write_text(const std::vector<Block>& blocks, const TextOptions& options = {});

} // namespace page
} // namespace lakebound
