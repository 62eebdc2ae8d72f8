#pragma once
// Running text with its emphasis as data: what is typed by a person is text and never markup.

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "lakebound/export.hpp"

namespace LAKEBOUND_EXPORT lakebound {
namespace page {

/// How a stretch of text is set. Text of 80 columns shows `loud` in capitals and the others as they are.
enum class Style {
    plain,
    strong,   ///< bold
    emphasis, ///< italic
    code,     ///< to be typed as it stands: never re-spelled ("um" stays "um")
    loud      ///< bold; capitals in text: "KEEP THE WATER"
};

struct Span {
    std::string text = {};
    Style style = Style::plain;
};

/// A line or a paragraph: spans in order. Made of a string, or put together with `+`:
/// `strong("Before you begin:") + " mask on."`
class Words {
public:
    Words() = default;
    Words(const char* text) : Words(std::string(text)) {}           // NOLINT: text is words
    Words(std::string_view text) : Words(std::string(text)) {}      // NOLINT
    Words(std::string text, Style style = Style::plain);            // NOLINT

    const std::vector<Span>& spans() const { return spans_; }
    bool empty() const { return spans_.empty(); } ///< no text at all
    std::string plain() const;                    ///< the text without its styles

    Words& operator+=(const Words& more);
    friend Words operator+(Words left, const Words& right) { return left += right; }

private:
    std::vector<Span> spans_;
};

[[nodiscard]] inline Words strong(std::string text) { return {std::move(text), Style::strong}; }
[[nodiscard]] inline Words emphasis(std::string text) { return {std::move(text), Style::emphasis}; }
[[nodiscard]] inline Words code(std::string text) { return {std::move(text), Style::code}; }
[[nodiscard]] inline Words loud(std::string text) { return {std::move(text), Style::loud}; }

} // namespace page
} // namespace lakebound
