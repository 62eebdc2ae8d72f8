#include "yaml_syntax.hpp"

#include <algorithm>
#include <optional>
#include <string_view>

#include <yaml-cpp/exceptions.h>

#include "yaml_tree.hpp"

namespace lakebound {
namespace {

// "density:1.9 g/cm3": without the space yaml-cpp takes it for text and stumbles on the next line.
std::optional<std::size_t> missing_space_before(const Source& source, std::size_t line) {
    for (std::size_t number = line; number + 1 >= line && number > 0; --number) {
        const std::string_view all = source.line(number);
        std::size_t i = all.find_first_not_of(' ');
        if (i == std::string_view::npos) continue;
        if (all.substr(i, 2) == "- ") i += 2;
        const std::size_t word = i;
        while (i < all.size() &&
               (std::string_view("abcdefghijklmnopqrstuvwxyz_").find(all[i]) != std::string_view::npos))
            ++i;
        if (i > word && i + 1 < all.size() && all[i] == ':' && all[i + 1] != ' ' && all[i + 1] != '/')
            return source.line_start(number) + i;
    }
    return std::nullopt;
}

} // namespace

Diagnostic syntax_fault(const Source& source, const Node* open_bracket, const std::string& what, int position) {
    namespace msg = YAML::ErrorMsg;
    const std::string& text = source.text();
    const std::size_t offset = std::min(static_cast<std::size_t>(position), text.size() - 1);
    const auto plain = [&](std::string message, std::string hint) {
        return located(source, offset, 1, "yaml-syntax", std::move(message), std::move(hint));
    };
    if (what.starts_with(msg::UNKNOWN_ANCHOR)) // from yaml-cpp 0.8 on its name follows
        return located(source, offset, 1, "yaml-alias",
                       "a value beginning with '*' refers to another one; that is not taken here",
                       "write the value out; put quotes around a text that begins with '*'");
    if (what == msg::END_OF_SEQ_FLOW || what == msg::END_OF_MAP_FLOW)
        if (open_bracket != nullptr)
            return located(source, open_bracket->offset, 1, "bracket-open",
                           "this bracket is not closed, or a comma is missing",
                           std::string("close it with ") + (text[open_bracket->offset] == '[' ? "']'" : "'}'"));
    if (const auto colon = missing_space_before(source, source.line_of(offset)))
        return located(source, *colon, 1, "colon-space", "a space is missing after the colon",
                       "write 'key: value'");
    if (what == msg::MAP_VALUE)
        return plain("a second colon stands in this value",
                     "put quotes around a text with ': ' in it, or check how far this line is indented");
    if (what == msg::END_OF_MAP || what == msg::END_OF_SEQ || what == msg::MAP_KEY)
        return plain("this does not fit what stands above it",
                     "check how far the line is indented, and that nothing follows a closing quote or bracket");
    if (what == msg::BLOCK_ENTRY)
        return plain("a list item begins with '-' where a value stands",
                     "put the list on the lines below its key, one '- ' each");
    if (what == msg::FLOW_END)
        return plain("a bracket is closed that was not opened", "delete it, or put quotes around the text");
    if (what == msg::UNKNOWN_TOKEN)
        return plain(std::string("a value cannot begin with '") + text[offset] + "'", "put quotes around it");
    if (what.rfind(msg::INVALID_ESCAPE, 0) == 0 || what == msg::INVALID_HEX ||
        what.rfind(msg::INVALID_UNICODE, 0) == 0)
        return plain("a backslash in double quotes begins an escape, and this one is unknown",
                     "use single quotes, or write two backslashes");
    return plain("this cannot be read as YAML: " + what,
                 "compare with a file of the shelf that comes with the program");
}

} // namespace lakebound
