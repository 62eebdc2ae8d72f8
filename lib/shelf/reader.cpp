#include "lakebound/shelf/reader.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>

#include "lakebound/shelf/iso_date.hpp"
#include "lakebound/quantity/nearest.hpp"
#include "lakebound/quantity/shown_text.hpp"

namespace lakebound {
namespace {

std::string in_quotes(std::string_view text) {
    constexpr std::size_t shown = 60;
    std::string out("'");
    if (text.size() <= shown) return out.append(text) += '\'';
    std::size_t end = shown;
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0u) == 0x80u)
        --end;
    return out.append(text.substr(0, end)).append("...'");
}

std::string joined(const std::vector<std::string_view>& words) {
    std::string out;
    for (const std::string_view word : words) {
        if (!out.empty()) out += ", ";
        out += word;
    }
    return out;
}

std::string nearest_hint(std::string_view word, const std::vector<std::string_view>& words,
                         std::string_view list_title) {
    const auto near = nearest_names(word, std::span<const std::string_view>(words), 2);
    if (near.size() == 1) return "did you mean '" + near[0] + "'?";
    if (near.size() == 2) return "did you mean '" + near[0] + "' or '" + near[1] + "'?";
    std::string out(list_title);
    return out.append(": ").append(joined(words));
}

// Quantity texts name the dimension ("mass must have a unit"); the key is put before it when it is
// another word.
std::string about(std::string_view name, std::string_view message) {
    std::string out, words(name);
    std::replace(words.begin(), words.end(), '_', ' ');
    if (message.substr(0, words.size()) != words) out.append(name).append(": ");
    return out.append(message);
}

// Three digits, so that what is named is still allowed.
double rounded_inward(double x, bool up) {
    if (!(std::abs(x) > 0.0)) return 0.0;
    const double step = std::pow(10.0, std::floor(std::log10(std::abs(x)) + 1e-9) - 2.0);
    const double steps = x / step, margin = 1e-6;
    const double whole = up ? std::ceil(steps - margin) : std::floor(steps + margin);
    return read_number(fixed_text(whole * step, 9));
}

// True, with a fault, when x lies outside.
bool refuse_outside(const Node& node, std::string_view name, double x, const Range& allowed, Faults& faults,
                    Dimension dimension = Dimension::pure_number, std::string_view unit = {}) {
    if (allowed.admits(x)) return false;
    const bool low = x <= 0.0 && allowed.lowest >= 0.0;
    const bool high = x > 1.0 && !(allowed.highest > 1.0);
    std::string message(name);
    message.append(" must be ")
        .append(range_words(allowed, dimension, unit))
        .append(", got ")
        .append(in_quotes(node.text));
    std::string hint(allowed.hint);
    if (high && hint.empty())
        hint = node.text.find('%') == std::string::npos ? "a fraction is 1 at most"
                                                        : "a fraction is 100 % at most";
    faults.add(fault_at(node,
                        low    ? "quantity-negative"
                        : high ? "fraction-above-one"
                               : "out-of-range",
                        std::move(message), std::move(hint)));
    return true;
}

Diagnostic text_fault(const Node& node, std::string_view name, const QuantityTextError& error) {
    std::string hint = error.hint;
    if (hint.empty() && error.id == "number-missing")
        hint = "write the number first, then its unit, as in '12.5 g'";
    Diagnostic fault = fault_at(node, error.id, about(name, error.what()), std::move(hint));
    fault.at = node.part(std::min(error.offset, node.text.size()), std::max<std::size_t>(error.length, 1));
    return fault;
}

const char* kind_words(const Node& node) {
    switch (node.kind) {
    case Node::Kind::map:
        return "a map of keys";
    case Node::Kind::sequence:
        return "a list";
    case Node::Kind::scalar:
        return "a text";
    case Node::Kind::broken:
        break;
    }
    return "nothing";
}

// True when the node is a scalar; otherwise a fault, unless it is reported already.
bool want_scalar(const Node& node, std::string_view name, std::string_view wanted, Faults& faults) {
    if (node.kind == Node::Kind::scalar) return true;
    if (node.kind != Node::Kind::broken) {
        std::string message(name);
        message.append(" must be ").append(wanted).append(", got ").append(kind_words(node));
        faults.add(fault_at(node, "value-shape", std::move(message), "write it on one line, behind the key"));
    }
    return false;
}

bool needs_source(Origin origin) {
    return origin == Origin::published || origin == Origin::memory || origin == Origin::computed;
}

} // namespace

std::string range_words(const Range& range, Dimension dimension, std::string_view unit) {
    const std::string_view words(range.words);
    const bool numbers = words.find_first_of("123456789") != std::string_view::npos;
    const bool so_already = words.size() > unit.size() && words.substr(words.size() - unit.size()) == unit;
    if (unit.empty() || !numbers || so_already || !std::isfinite(range.lowest) || !std::isfinite(range.highest))
        return std::string(words);
    try {
        const double low = rounded_inward(number_in_unit(range.lowest, dimension, unit), true);
        const double high = rounded_inward(number_in_unit(range.highest, dimension, unit), false);
        std::string text = range.above_lowest ? "above " : "";
        text.append(number_text(low)).append(range.above_lowest ? ", at most " : " to ");
        return text.append(number_text(high)).append(" ").append(unit);
    } catch (const QuantityTextError&) {
        return std::string(words); // a spoon has a size of its own, and no range in spoons
    }
}

Diagnostic fault_at(const Node& node, std::string_view id, std::string message, std::string hint) {
    Diagnostic fault = whole_file_fault(id, node.source->path(), std::move(message), std::move(hint));
    fault.at = node.excerpt();
    return fault;
}

std::optional<std::string> read_text(const Node& node, std::string_view name, Faults& faults) {
    if (!want_scalar(node, name, "text", faults)) return std::nullopt;
    if (node.text.find_first_not_of(" \n") == std::string::npos) {
        faults.add(
            fault_at(node, "value-missing", in_quotes(name) + " has no value", "give it one, or delete the line"));
        return std::nullopt;
    }
    std::string text = node.text;
    if (node.style == Node::Style::block) text.erase(text.find_last_not_of('\n') + 1);
    return shown(text); // an escape in quotes could end our line or hide something
}

std::optional<std::string> read_date(const Node& node, std::string_view name, Faults& faults) {
    const auto text = read_text(node, name, faults);
    if (!text) return std::nullopt;
    const auto refuse = [&](std::string message, std::string hint) -> std::optional<std::string> {
        faults.add(fault_at(node, "date-form", std::move(message), std::move(hint)));
        return std::nullopt;
    };
    bool form = text->size() == 10;
    for (std::size_t i = 0; form && i < 10; ++i)
        form = i == 4 || i == 7 ? (*text)[i] == '-' : (*text)[i] >= '0' && (*text)[i] <= '9';
    if (!form)
        return refuse(in_quotes(name) + " must be a date written year-month-day, got " + in_quotes(*text),
                      "write it like 2026-03-02");
    const auto day = day_of_iso(*text);
    if (!day) return refuse(in_quotes(*text) + " is no day of the calendar", "write year-month-day, like 2026-03-02");
    if (std::chrono::year_month_day(*day).year() < std::chrono::year(1900))
        return refuse(in_quotes(*text) + " lies before 1900", "check the year");
    // A day's grace, for it is tomorrow already further east.
    const auto tomorrow =
        std::chrono::floor<std::chrono::days>(std::chrono::system_clock::now()) + std::chrono::days(1);
    if (*day > tomorrow) return refuse(in_quotes(*text) + " has not come yet", "check day, month and year");
    return text;
}

std::optional<double> read_plain_number(const Node& node, std::string_view name, const Range& allowed,
                                        Faults& faults) {
    if (!want_scalar(node, name, "a number", faults)) return std::nullopt;
    try {
        const double x = read_number(node.text);
        if (refuse_outside(node, name, x, allowed, faults)) return std::nullopt;
        return x;
    } catch (const QuantityTextError& error) {
        faults.add(text_fault(node, name, error));
    }
    return std::nullopt;
}

std::optional<Reading> read_reading(const Node& node, std::string_view name, Dimension dimension,
                                    const Range& type, const Range& allowed, bool spread_allowed,
                                    Faults& faults) {
    if (!want_scalar(node, name, "a quantity", faults)) return std::nullopt;
    try {
        Reading reading = read_quantity(node.text, dimension);
        // The key's own range first: it may have a question to ask.
        if (refuse_outside(node, name, reading.value, allowed, faults, dimension, reading.unit)) return std::nullopt;
        if (refuse_outside(node, name, reading.value, type, faults, dimension, reading.unit)) return std::nullopt;
        if (!spread_allowed && reading.spread_kind != Spread::none) {
            std::string message(name);
            faults.add(fault_at(node, "spread-unwanted",
                                message.append(" must be exact, got ").append(in_quotes(node.text)),
                                "leave the uncertainty out"));
            return std::nullopt;
        }
        const bool positive = allowed.above_lowest || allowed.lowest > 0.0 || type.lowest > 0.0;
        if (positive && reading.spread_kind == Spread::standard_uncertainty &&
            reading.spread >= reading.value) {
            std::string message("the uncertainty of ");
            faults.add(fault_at(
                node, "spread-too-wide", message.append(name).append(" is as large as its value"),
                "write a factor, as in '65 x/ 1.35 g/100g', when it may be a third larger or smaller"));
            return std::nullopt;
        }
        return reading;
    } catch (const QuantityTextError& error) {
        faults.add(text_fault(node, name, error));
    }
    return std::nullopt;
}

std::optional<std::size_t> read_word(const Node& node, std::string_view name,
                                     const std::vector<std::string_view>& words, Faults& faults) {
    if (!want_scalar(node, name, "a word", faults)) return std::nullopt;
    const auto found = std::find(words.begin(), words.end(), node.text);
    if (found != words.end()) return static_cast<std::size_t>(found - words.begin());
    std::string message(name);
    faults.add(fault_at(node, "word-unknown", message.append(" cannot be ").append(in_quotes(node.text)),
                        nearest_hint(node.text, words, "one of")));
    return std::nullopt;
}

std::optional<Provenance> read_evidence(const Node& node, std::string_view name, bool with_value,
                                        Faults& faults) {
    const std::size_t before = faults.count();
    std::string what("the figure of ");
    if (!with_value) what = "the source of ";
    what.append(name);
    const MapReader map = with_value ? MapReader(node, what, {"value", "origin", "source", "note"}, faults)
                                     : MapReader(node, what, {"origin", "source", "note"}, faults);
    if (!map.is_map()) return std::nullopt;
    Provenance from;
    from.origin = map.word<Origin>("origin");
    from.source = map.text_or_empty("source");
    map.text_or_empty("note");
    if (faults.count() != before) return std::nullopt;
    if (needs_source(from.origin) && from.source.empty()) {
        const Node& origin = *map.find("origin");
        faults.add(fault_at(origin, "source-missing",
                            "a figure of origin " + in_quotes(origin.text) + " must name its source",
                            "add 'source: ' and a key of the page references.md or a sentence"));
        return std::nullopt;
    }
    return from;
}

std::optional<std::pair<const Node*, Provenance>> read_figure_parts(const Node& node, std::string_view name,
                                                                    FigureStyle style, Faults& faults) {
    if (node.kind == Node::Kind::broken) return std::nullopt;
    if (node.kind == Node::Kind::scalar && style == FigureStyle::by_maker)
        return std::pair<const Node*, Provenance>(&node, Provenance{Origin::measured, {}, false});
    if (node.kind == Node::Kind::scalar) {
        std::string message(name);
        faults.add(fault_at(node, "figure-bare", message.append(" must say where its value comes from"),
                            "write '{value: " + node.text +
                                ", origin: measured}', or another origin with its source"));
        return std::nullopt;
    }
    auto from = read_evidence(node, name, true, faults);
    if (node.kind != Node::Kind::map) return std::nullopt;
    const Node* value = node.find("value");
    if (value == nullptr) {
        std::string message(name);
        faults.add(
            fault_at(node, "key-missing", message.append(" has no 'value'"), "add 'value: ' and the quantity"));
        return std::nullopt;
    }
    // A fault in the origin must not hide one in the value.
    return std::pair<const Node*, Provenance>(value, from.value_or(Provenance{}));
}

MapReader::MapReader(const Node& node, std::string_view what, const std::vector<std::string_view>& words,
                     Faults& faults)
    : node_(node), faults_(faults) {
    if (node.kind == Node::Kind::broken) return;
    if (node.kind != Node::Kind::map) {
        std::string message(what);
        faults.add(fault_at(node, "value-shape",
                            message.append(" must be a map of keys, got ").append(kind_words(node)),
                            "write 'key: value' lines, or '{key: value, key: value}'"));
        return;
    }
    for (const Node& key : node.keys) {
        if (std::find(words.begin(), words.end(), key.text) != words.end()) continue;
        std::string message(what);
        message.append(" has no key ").append(in_quotes(key.text));
        faults.add(fault_at(key, "key-unknown", std::move(message),
                            key.text == "include" ? "only jar and bench files may include others"
                                                  : nearest_hint(key.text, words, "keys here")));
    }
}

const Node* MapReader::find(std::string_view key) const { return is_map() ? node_.find(key) : nullptr; }

const Node* MapReader::need(std::string_view key) const {
    const Node* value = find(key);
    if (value == nullptr && is_map())
        faults_.add(fault_at(node_, "key-missing", in_quotes(key) + " is missing here",
                             std::string("add '").append(key).append(": ' and its value")));
    return value;
}

std::string MapReader::text(std::string_view key) const {
    const Node* value = need(key);
    return value == nullptr ? std::string() : read_text(*value, key, faults_).value_or("");
}

std::string MapReader::text_or_empty(std::string_view key) const {
    const Node* value = find(key);
    return value == nullptr ? std::string() : read_text(*value, key, faults_).value_or("");
}

double MapReader::number(std::string_view key, const Range& allowed) const {
    const Node* value = need(key);
    return value == nullptr ? 0.0 : read_plain_number(*value, key, allowed, faults_).value_or(0.0);
}

std::size_t MapReader::word(std::string_view key, const std::vector<std::string_view>& words,
                            std::optional<std::size_t> otherwise) const {
    const Node* value = otherwise ? find(key) : need(key);
    if (value == nullptr) return otherwise.value_or(0);
    return read_word(*value, key, words, faults_).value_or(0);
}

std::vector<const Node*> MapReader::list(std::string_view key, bool needed) const {
    std::vector<const Node*> items;
    const Node* value = needed ? need(key) : find(key);
    if (value == nullptr || value->kind == Node::Kind::broken) return items;
    std::string name(key);
    if (value->kind != Node::Kind::sequence)
        faults_.add(fault_at(*value, "value-shape",
                             name.append(" must be a list, got ").append(kind_words(*value)),
                             "write each item on a line of its own behind '- '"));
    else if (value->items.empty())
        faults_.add(fault_at(*value, "list-empty", name.append(" must have one item at least"),
                             needed ? "add one" : "add one, or delete the key"));
    for (const Node& item : value->items)
        if (value->kind == Node::Kind::sequence) items.push_back(&item);
    return items;
}

void require_kind(Document& document, std::string_view kind) {
    const Node* node = document.root.find("kind");
    if (node != nullptr && node->kind == Node::Kind::scalar && node->text == kind) return;
    const std::string wanted(kind);
    if (node == nullptr) {
        document.faults.add(fault_at(document.root, "key-missing", "'kind' is missing here",
                                     "write 'kind: " + wanted + "' as the first line"));
    } else if (node->kind != Node::Kind::broken) {
        document.faults.add(fault_at(
            *node, "kind-wrong", "a file of kind '" + wanted + "' is wanted here, got " + in_quotes(node->text),
            "is this the right file?"));
    }
    document.faults.throw_if_any();
}

std::string id_of_path(const std::string& path) {
    std::string name = path.substr(path.find_last_of('/') + 1);
    if (name.size() > 5 && name.ends_with(".yaml")) name.resize(name.size() - 5);
    return name;
}

} // namespace lakebound
