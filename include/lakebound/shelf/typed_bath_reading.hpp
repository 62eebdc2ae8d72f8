#pragma once
// One reading of a bath as it is typed, on a command line, in a bath's file or in an entry: the same texts in all.
// Each throws InputError: bath-typed for what is not in its form, and those of its quantities. option: named in the fault.

#include <chrono>
#include <string>
#include <vector>

#include "lakebound/bath/bath_progress.hpp"
#include "lakebound/export.hpp"
#include "lakebound/record/bath_entry.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The pieces of a text, trimmed.
[[nodiscard]] std::vector<std::string> typed_pieces(const std::string& text, char at);
/// The fault bath-typed. wanted: what is; example: of the option's text.
[[noreturn]] void refuse_typed_bath(const std::string& option, const std::string& text, const std::string& wanted,
                                    const std::string& example);

/// "6.4, pen" or "5.3, strip, fizzing". Also ph-impossible.
[[nodiscard]] PhSeen typed_ph(const std::string& option, const std::string& text);
/// "350 uS/cm", or "350 uS/cm, 16 degC" of a pen that does not correct.
[[nodiscard]] PenReading typed_pen_reading(const std::string& option, const std::string& text);
/// "0.5 L, 4 min".
[[nodiscard]] FilterReading typed_filter_reading(const std::string& option, const std::string& text);
/// "1 in 8": dye liquor, filled up to eight times its volume, looks like the clear liquor.
[[nodiscard]] ColourMatch typed_colour_match(const std::string& option, const std::string& text);
/// "38.6 g", or "38.6 g, wet" while the surface still looks so.
[[nodiscard]] CakeEntry typed_cake(const std::string& option, const std::string& text);
/// A hue in words: as it is, but not empty nor longer than a line.
[[nodiscard]] std::string typed_hue(const std::string& option, const std::string& text);
/// "12": the number of a swatch, from 1.
[[nodiscard]] unsigned typed_swatch_number(const std::string& option, const std::string& text);
/// "14:30".
[[nodiscard]] std::chrono::minutes typed_hour(const std::string& option, const std::string& text);

} // namespace lakebound
