#include "lakebound/material/name.hpp"

namespace lakebound {

namespace {

std::string small_first(std::string text) {
    // A second capital marks an abbreviation, which keeps its case.
    if (text.size() > 1 && text[0] >= 'A' && text[0] <= 'Z' && !(text[1] >= 'A' && text[1] <= 'Z'))
        text[0] = static_cast<char>(text[0] - 'A' + 'a');
    return text;
}

std::string plural(const std::string& noun) {
    const auto ends = [&noun](std::string_view tail) {
        return noun.size() >= tail.size() && noun.compare(noun.size() - tail.size(), tail.size(), tail) == 0;
    };
    return noun + (ends("s") || ends("x") || ends("sh") || ends("ch") ? "es" : "s");
}

} // namespace

std::string short_name(std::string_view name) {
    auto text = std::string(name.substr(0, name.find_first_of(",(")));
    while (!text.empty() && text.back() == ' ')
        text.pop_back();
    return text.empty() ? std::string(name) : text;
}

std::string name_in_sentence(std::string_view name) { return small_first(short_name(name)); }

std::string counted_name(int count, std::string_view name) {
    const auto noun = name_in_sentence(name);
    auto text = std::to_string(count) + " " + (count == 1 ? noun : plural(noun));
    if (const auto comma = name.find(", "); comma != std::string_view::npos)
        text += " of " + std::string(name.substr(comma + 2));
    return text;
}

} // namespace lakebound
