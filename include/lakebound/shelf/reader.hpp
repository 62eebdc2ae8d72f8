#pragma once
// Typed reading of a tree: closed keys, quantities with units, figures with their origin.
//
// Every function adds its faults, with place and hint, to the Faults it is given and goes on, so that
// one run shows all that is wrong with a file. What is returned after a fault is a default that no
// one may use: call Faults::throw_if_any before handing results on.

#include <cstddef>
#include <initializer_list>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "lakebound/estimate/estimate.hpp"
#include "lakebound/export.hpp"
#include "lakebound/quantity/text.hpp"
#include "lakebound/quantity/word_table.hpp"
#include "lakebound/shelf/document.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The values a quantity may have, in its canonical unit.
struct Range {
    double lowest = -std::numeric_limits<double>::infinity();
    double highest = std::numeric_limits<double>::infinity();
    bool above_lowest = false;    ///< lowest itself is no answer
    const char* words = "finite"; ///< "above 0", "2 to 400 g/100g"
    const char* hint = "";
    [[nodiscard]] constexpr bool admits(double x) const noexcept { return x <= highest && (above_lowest ? x > lowest : x >= lowest); }
};

namespace range {
inline constexpr Range any{};
inline constexpr Range not_negative{0.0, std::numeric_limits<double>::infinity(), false, "0 or more",
                                    "drop the sign"};
inline constexpr Range positive{0.0, std::numeric_limits<double>::infinity(), true, "above 0", ""};
/// Powders, liquids and the heaviest metals lie well inside; what does not is mostly a wrong unit.
inline constexpr Range density{10.0, 25000.0, false, "0.01 to 25 g/cm3", "check the unit: is it g/cm3?"};
/// Of k, reduced PVC and medium per pigment that a paint aims at: far wider than any window.
inline constexpr Range aim{0.01, 100.0, false, "0.01 to 100", "check the number: most paints lie between 0.5 and 5"};
/// Of a PVC that a paint aims at.
inline constexpr Range aim_pvc{0.001, 0.99, false, "0.1 to 99 %", "without binder there is no paint"};
/// From a nanometre to the grains of a gravel.
inline constexpr Range grain_size{1e-9, 5e-3, false, "1 nm to 5 mm", "check the unit: is it um?"};
/// Of water in which grains settle: from a spoon to a vat.
inline constexpr Range water_depth{1e-3, 5.0, false, "1 mm to 5 m", "check the unit: is it mm?"};
/// Of a temperature, in degC: a thousandth wider, so that a limit typed in degF is taken too, whatever its last digit becomes.
[[nodiscard]] constexpr Range degrees(double lowest, double highest, const char* words, const char* hint) noexcept {
    return {lowest + 273.149, highest + 273.151, false, words, hint};
}
/// Of a room in which somebody paints, and of its water.
inline constexpr Range room_temperature = degrees(-20.0, 80.0, "-20 to 80 degC", "is the unit right, degC or degF?");
/// Of water and of a bath that do not freeze or boil.
inline constexpr Range liquid_water = degrees(0.0, 100.0, "0 to 100 degC", "is the unit right, degC or degF?");
/// Of the error of one weighing that a maker accepts.
inline constexpr Range weighing_tolerance{0.0, 0.5, true, "above 0, at most 50 %", "how far off may one weighing be?"};
} // namespace range

/// What the type itself admits: the range of a Ratio's tag, anything for other quantities.
template <class Q> struct TypeRange { static constexpr Range value{}; };
template <class Tag> struct TypeRange<Ratio<Tag>> {
    static constexpr Range value{Tag::lowest, Tag::highest, false, Tag::range, ""};
};

/// Where a figure may stand without its origin.
enum class FigureStyle {
    with_origin, ///< the shelf: a map of value, origin and source
    by_maker,    ///< jar and bench: bare text will do, and counts as measured
};

/// The range in the unit that was typed, "0 to 100 % w/w", rounded inward to three digits; its own words where
/// it has no numbers, or they are in that unit already.
[[nodiscard]] std::string range_words(const Range& range, Dimension dimension, std::string_view unit);

/// The fault at a node: the whole of it, or its key's value.
[[nodiscard]] Diagnostic fault_at(const Node& node, std::string_view id, std::string message, std::string hint = {});

/// The text of a scalar; nullopt, with a fault, when the node is none. name: of the key, for messages.
[[nodiscard]] std::optional<std::string> read_text(const Node& node, std::string_view name, Faults& faults);
/// A date as ISO 8601 has it, year-month-day: a real day, not before 1900 and not after tomorrow.
/// Faults: date-form.
[[nodiscard]] std::optional<std::string> read_date(const Node& node, std::string_view name, Faults& faults);
/// A plain number without a unit.
[[nodiscard]] std::optional<double> read_plain_number(const Node& node, std::string_view name, const Range& allowed,
                                                      Faults& faults);
/// A quantity text. type: the range of the type, allowed: of the key. spread_allowed: an uncertainty may be
/// given.
[[nodiscard]] std::optional<Reading> read_reading(const Node& node, std::string_view name, Dimension dimension,
                                                  const Range& type, const Range& allowed, bool spread_allowed,
                                                  Faults& faults);
/// The index of the scalar's text among the words, with a nearest-word hint when it is none of them.
[[nodiscard]] std::optional<std::size_t> read_word(const Node& node, std::string_view name,
                                                   const std::vector<std::string_view>& words, Faults& faults);
/// The value whose word the scalar's text is, with a nearest-word hint when it is none of them.
template <HasWords E> [[nodiscard]] std::optional<E> read_word(const Node& node, std::string_view name, Faults& faults) {
    static const std::vector<std::string_view> words = [] {
        std::vector<std::string_view> all;
        for (const auto& row : WordTable<E>::rows)
            all.push_back(row.word);
        return all;
    }();
    const auto which = read_word(node, name, words, faults);
    return which ? std::optional(WordTable<E>::rows[*which].value) : std::nullopt;
}
/// origin and source of a map that holds `value` or not: {origin:, source:, note:}.
[[nodiscard]] std::optional<Provenance> read_evidence(const Node& node, std::string_view name, bool with_value,
                                                      Faults& faults);
/// The node that holds the text of a figure and its provenance.
[[nodiscard]] std::optional<std::pair<const Node*, Provenance>> read_figure_parts(const Node& node, std::string_view name,
                                                                                  FigureStyle style, Faults& faults);

/// An exact quantity, as in `step: 0.1 g`.
template <class Q>
[[nodiscard]] std::optional<Q> read_exact(const Node& node, std::string_view name, const Range& allowed, Faults& faults) {
    const auto reading =
        read_reading(node, name, DimensionOf<Q>::value, TypeRange<Q>::value, allowed, false, faults);
    if (!reading) return std::nullopt;
    return from_canonical<Q>(reading->value);
}

/// A figure: a quantity with its uncertainty and origin.
template <class Q> std::optional<Estimate<Q>>
read_figure(const Node& node, std::string_view name, const Range& allowed, FigureStyle style, Faults& faults) {
    auto parts = read_figure_parts(node, name, style, faults);
    if (!parts) return std::nullopt;
    const auto reading =
        read_reading(*parts->first, name, DimensionOf<Q>::value, TypeRange<Q>::value, allowed, true, faults);
    if (!reading) return std::nullopt;
    const Q value = from_canonical<Q>(reading->value);
    switch (reading->spread_kind) {
    case Spread::standard_uncertainty:
        return Estimate<Q>::normal(value, from_canonical<Difference<Q>>(reading->spread),
                                   std::move(parts->second));
    case Spread::factor:
        return Estimate<Q>::lognormal(value, reading->spread, std::move(parts->second));
    case Spread::none:
        break;
    }
    return Estimate<Q>::exact(value, std::move(parts->second));
}

/// The keys of one map, closed: a key that is not allowed is a fault with a nearest-name hint.
class MapReader {
public:
    /// what: for messages, "a scale". node: a map; anything else is a fault.
    MapReader(const Node& node, std::string_view what, std::initializer_list<std::string_view> allowed, Faults& faults)
        : MapReader(node, what, std::vector<std::string_view>(allowed), faults) {}
    MapReader(const Node& node, std::string_view what, const std::vector<std::string_view>& allowed, Faults& faults);

    bool is_map() const { return node_.kind == Node::Kind::map; }
    const Node& node() const { return node_; }
    Faults& faults() const { return faults_; }
    /// The value of the key; nullptr when it is absent.
    const Node* find(std::string_view key) const;
    /// The same, but absence is a fault.
    const Node* need(std::string_view key) const;

    std::string text(std::string_view key) const; ///< needed
    std::string text_or_empty(std::string_view key) const;
    double number(std::string_view key, const Range& allowed) const; ///< needed
    /// The index of the word; `otherwise` when the key is absent, which is a fault if it is not given.
    std::size_t word(std::string_view key, const std::vector<std::string_view>& words,
                     std::optional<std::size_t> otherwise = std::nullopt) const;
    /// The value of the word; `otherwise` when the key is absent, which is a fault if it is not given.
    template <HasWords E> E word(std::string_view key, std::optional<E> otherwise = std::nullopt) const {
        const Node* value = otherwise ? find(key) : need(key);
        const E fallback = otherwise.value_or(WordTable<E>::rows[0].value);
        return value == nullptr ? fallback : read_word<E>(*value, key, faults_).value_or(fallback);
    }
    /// The items of a list of at least one; needed or else empty.
    std::vector<const Node*> list(std::string_view key, bool needed) const;

    template <class Q> Q exact(std::string_view key, const Range& allowed) const {
        const Node* value = need(key);
        return value == nullptr ? Q{} : read_exact<Q>(*value, key, allowed, faults_).value_or(Q{});
    }
    template <class Q> std::optional<Q> optional_exact(std::string_view key, const Range& allowed) const {
        const Node* value = find(key);
        return value == nullptr ? std::nullopt : read_exact<Q>(*value, key, allowed, faults_);
    }
    template <class Q> Estimate<Q> figure(std::string_view key, const Range& allowed, FigureStyle style) const {
        const Node* value = need(key);
        if (value == nullptr) return {};
        return read_figure<Q>(*value, key, allowed, style, faults_).value_or(Estimate<Q>());
    }
    /// Nothing where it is a fault, for a quantity that has no value before one is set.
    template <class Q> std::optional<Estimate<Q>> needed_figure(std::string_view key, const Range& allowed, FigureStyle style) const {
        const Node* value = need(key);
        return value == nullptr ? std::nullopt : read_figure<Q>(*value, key, allowed, style, faults_);
    }
    template <class Q> std::optional<Estimate<Q>> optional_figure(std::string_view key, const Range& allowed,
                                                                  FigureStyle style) const {
        const Node* value = find(key);
        return value == nullptr ? std::nullopt : read_figure<Q>(*value, key, allowed, style, faults_);
    }

private:
    const Node& node_;
    Faults& faults_;
};

/// Throws InputError at once, with what was found before, when the file is not of this kind: its keys
/// would all be unknown.
void require_kind(Document& document, std::string_view kind);

/// The id of a shelf file: its name without folder and ".yaml".
[[nodiscard]] std::string id_of_path(const std::string& path);

} // namespace lakebound
