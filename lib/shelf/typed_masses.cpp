#include "typed_masses.hpp"

#include <algorithm>

#include "lakebound/paint/weighing.hpp"
#include "lakebound/quantity/rounded_text.hpp"
#include "lakebound/shelf/typed_series.hpp"
#include "lakebound/shelf/typed_text.hpp"

namespace lakebound {

std::pair<std::string, std::string> parted(std::string_view text, char mark) {
    if (mark == ',') refuse_decimal_comma(text);
    const auto at = text.find(mark);
    if (at == std::string_view::npos) return {trimmed(text), {}};
    return {trimmed(text.substr(0, at)), trimmed(text.substr(at + 1))};
}

std::string grams_text(Mass mass) {
    std::string text = fixed_text(in_grams(mass), 4);
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
    return text + " g";
}

const Scale& scale_of(std::string_view typed, Mass mass, const Bench& bench) {
    const auto point = typed.find('.');
    const std::size_t end = typed.find_first_not_of("0123456789", point == std::string_view::npos ? 0 : point + 1);
    const int decimals = point == std::string_view::npos ? 0 : static_cast<int>(std::min(end, typed.size()) - point - 1);
    for (const Scale& scale : bench.scales)
        if (typed.ends_with(" g") && decimals_of_step(in_grams(scale.step)) == decimals) return scale;
    return bench.scales.at(best_scale(bench, mass));
}

} // namespace lakebound
