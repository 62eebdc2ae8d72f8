#include "lakebound/shelf/diagnostic.hpp"

#include <algorithm>
#include <tuple>
#include <utility>

#include "lakebound/quantity/shown_text.hpp"

namespace lakebound {
namespace {

constexpr std::size_t widest_line = 160;
constexpr std::size_t shown_before = 60;

bool continues(char c) { return (static_cast<unsigned char>(c) & 0xC0u) == 0x80u; }

std::vector<std::size_t> character_starts(std::string_view text) {
    std::vector<std::size_t> starts;
    for (std::size_t i = 0; i < text.size(); ++i)
        if (!continues(text[i])) starts.push_back(i);
    starts.push_back(text.size());
    return starts;
}

void put_excerpt(std::string& out, const Excerpt& at) {
    if (at.place.line == 0) return;
    const std::string number = std::to_string(at.place.line);
    const std::string gutter(std::max<std::size_t>(5, number.size() + 1), ' ');
    std::string line = shown(at.source_line);
    std::size_t column = at.place.column == 0 ? 0 : at.place.column - 1;
    const auto starts = character_starts(line);
    const std::size_t characters = starts.size() - 1;
    if (characters > widest_line) {
        const std::size_t first = column > shown_before ? column - shown_before : 0;
        const std::size_t last = std::min(characters, first + widest_line);
        line = (first > 0 ? "..." : "") +
               line.substr(starts[std::min(first, characters)],
                           starts[last] - starts[std::min(first, characters)]) +
               (last < characters ? "..." : "");
        column = column - first + (first > 0 ? 3 : 0);
    }
    const std::size_t width = character_starts(line).size() - 1;
    const std::size_t room = column < width ? width - column : 1;
    const std::size_t span = std::clamp<std::size_t>(at.span_length, 1, room);
    out.append(gutter.size() - number.size(), ' ').append(number).append(" | ").append(line) += '\n';
    out.append(gutter).append(" | ").append(column, ' ').append("^").append(span - 1, '~') += '\n';
}

void put_head(std::string& out, const Excerpt& at, std::string_view severity, std::string_view message) {
    out += shown(at.place.path);
    if (at.place.line != 0)
        out.append(":")
            .append(std::to_string(at.place.line))
            .append(":")
            .append(std::to_string(at.place.column));
    out.append(": ").append(severity).append(": ").append(shown(message));
}

std::string render_all(const std::vector<Diagnostic>& faults, bool more) {
    std::string out;
    for (const Diagnostic& fault : faults)
        out += render(fault);
    if (more) out += "note: stopped after " + std::to_string(faults.size()) + " faults; mend these first\n";
    return out;
}

std::vector<Diagnostic> one(Diagnostic fault) {
    std::vector<Diagnostic> faults;
    faults.push_back(std::move(fault));
    return faults;
}

/// Files in the order in which they first appear, each from its top to its end.
std::vector<Diagnostic> in_order_of_lines(std::vector<Diagnostic> faults) {
    std::vector<std::string> paths;
    for (const Diagnostic& fault : faults)
        if (std::find(paths.begin(), paths.end(), fault.at.place.path) == paths.end())
            paths.push_back(fault.at.place.path);
    const auto key = [&](const Diagnostic& fault) {
        const Place& place = fault.at.place;
        return std::tuple(std::find(paths.begin(), paths.end(), place.path), place.line, place.column);
    };
    std::stable_sort(faults.begin(), faults.end(),
                     [&](const Diagnostic& a, const Diagnostic& b) { return key(a) < key(b); });
    return faults;
}

} // namespace

Diagnostic whole_file_fault(std::string_view id, std::string_view path, std::string message, std::string hint) {
    Diagnostic fault;
    fault.id = id;
    fault.message = std::move(message);
    fault.at.place.path = path;
    fault.hint = std::move(hint);
    return fault;
}

Diagnostic placed_fault(std::string_view id, const Excerpt& at, std::string message, std::string hint) {
    Diagnostic fault = whole_file_fault(id, at.place.path, std::move(message), std::move(hint));
    fault.at = at;
    return fault;
}

Diagnostic command_line_fault(std::string_view id, std::string message, std::string hint) {
    return whole_file_fault(id, command_line_path, std::move(message), std::move(hint));
}

std::string render(const Diagnostic& fault) {
    std::string out;
    put_head(out, fault.at, fault.severity == Severity::error ? "error" : "note", fault.message);
    out.append(" [").append(fault.id).append("]\n");
    put_excerpt(out, fault.at);
    if (fault.second) {
        put_head(out, fault.second->at, "note", fault.second->message);
        out += '\n';
        put_excerpt(out, fault.second->at);
    }
    if (!fault.hint.empty()) out.append("hint: ").append(shown(fault.hint)) += '\n';
    return out;
}

InputError::InputError(Diagnostic fault) : InputError(one(std::move(fault))) {}

InputError::InputError(std::vector<Diagnostic> faults, bool more)
    : InputError(Ordered{in_order_of_lines(std::move(faults))}, more) {}

InputError::InputError(Ordered ordered, bool more)
    : std::runtime_error(render_all(ordered.faults, more)), faults_(std::move(ordered.faults)), more_(more) {
    if (faults_.empty()) throw std::invalid_argument("InputError needs one fault at least");
}

std::string InputError::text() const { return what(); }

void Faults::add(Diagnostic fault) {
    faults_.push_back(std::move(fault));
    if (faults_.size() >= most_faults) throw InputError(faults_, true);
}

void Faults::add_once(Diagnostic fault) {
    for (const Diagnostic& known : faults_)
        if (known.id == fault.id && known.at.place.path == fault.at.place.path &&
            known.at.place.line == fault.at.place.line && known.at.place.column == fault.at.place.column)
            return;
    add(std::move(fault));
}

void Faults::add_all(const InputError& error) {
    for (const Diagnostic& fault : error.faults())
        add(fault);
}

void Faults::throw_if_any() const {
    if (!faults_.empty()) throw InputError(faults_);
}

} // namespace lakebound
