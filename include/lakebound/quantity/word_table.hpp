#pragma once
// The words of an enum: one table beside the enum, which files, messages, JSON and text read.
//
//   enum class SorbsAs { nothing, gum };
//   template <> struct WordTable<SorbsAs> {
//       static constexpr WordRow<SorbsAs> rows[] = {{SorbsAs::nothing, "nothing"}, {SorbsAs::gum, "gum"}};
//   };

#include <optional>
#include <string>
#include <string_view>

#include "lakebound/export.hpp"

namespace LAKEBOUND_EXPORT lakebound {

template <class E> struct WordRow {
    E value;
    std::string_view word; ///< "drying oil": as files and text have it
};

/// To be specialised beside an enum, one row for each of its values, in their order.
template <class E> struct WordTable;

template <class E> concept HasWords = requires { WordTable<E>::rows; };

/// "drying oil": as files and text have it. Empty for a value that the enum has not.
template <HasWords E> [[nodiscard]] constexpr std::string_view word_of(E value) noexcept {
    for (const auto& row : WordTable<E>::rows)
        if (row.value == value) return row.word;
    return {};
}

/// "drying_oil": as JSON has it; "rosin_rammler" of "Rosin-Rammler".
template <HasWords E> [[nodiscard]] std::string key_of(E value) {
    std::string key(word_of(value));
    for (char& c : key)
        c = c == ' ' || c == '-' ? '_' : c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    return key;
}

/// The value of that word; nothing when it is none of them.
template <HasWords E> [[nodiscard]] constexpr std::optional<E> value_of_word(std::string_view word) noexcept {
    for (const auto& row : WordTable<E>::rows)
        if (row.word == word) return row.value;
    return std::nullopt;
}

} // namespace lakebound
