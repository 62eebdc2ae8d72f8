#include "lakebound/page/words.hpp"

namespace lakebound::page {

Words::Words(std::string text, Style style) {
    if (!text.empty()) spans_.push_back({std::move(text), style});
}

std::string Words::plain() const {
    std::string text;
    for (const auto& span : spans_)
        text += span.text;
    return text;
}

Words& Words::operator+=(const Words& more) {
    const auto added = more.spans_; // `more` may be this
    for (const auto& span : added) {
        if (!spans_.empty() && spans_.back().style == span.style)
            spans_.back().text += span.text;
        else
            spans_.push_back(span);
    }
    return *this;
}

} // namespace lakebound::page
