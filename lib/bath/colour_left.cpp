#include "lakebound/bath/colour_left.hpp"

#include <algorithm>
#include <cmath>

#include "lakebound/estimate/probability.hpp"
#include "lakebound/quantity/error.hpp"
#include "lakebound/quantity/rounded_text.hpp"

namespace lakebound {
namespace {

/// Aluminium of a second laying, against the first, whose lake is `depth` as deep: 1 / (1 + K A) = depth.
double alumina_for_depth(double left, double depth) { return (1.0 / depth - 1.0) / (1.0 / left - 1.0); }

} // namespace

SecondLaying second_laying(const ColourMatch& match, Volume clear, Volume liquor, const ColourHabits& habits) {
    constexpr double nine_in_ten_sd = 1.6448536269514722, most_left = 0.999;
    if (!(match.dilution >= 1.0 && match.dilution <= 1000.0))
        throw_out_of_range("dilution that matches the clear liquor", match.dilution, "", "1 to 1000");
    if (!(clear.value() > 0.0 && liquor.value() > 0.0))
        throw DomainError("volume of the liquor", "0", "above 0");
    const double spread = habits.matched_to.value().value();
    const double left = (clear / liquor).value() / match.dilution;
    if (left > std::exp(2.0 * spread))
        throw DomainError("colour left in the clear liquor", percent_text(left) + " of what went in", "at most all of it",
                          "with all that was poured it is " + significant_text((clear / liquor).value(), 2) +
                              " times the dye liquor: unchanged it would match at that dilution");
    const auto share = [&](double z) { return Share::of(std::min(left * std::exp(z * spread), most_left)); };
    SecondLaying out{share(0.0), share(-nine_in_ten_sd), share(nine_in_ten_sd), {}, {}, {}};
    const double depth = habits.second_depth.value().value(), least = habits.second_least.value().value();
    // No larger than the first: where nearly all is left the second is as deep as the first anyway.
    const double part = std::min(1.0, alumina_for_depth(out.left.value(), depth));
    const double left_again = 1.0 / (1.0 + part * (1.0 / out.left.value() - 1.0));
    out.alumina = Share::of(part);
    out.colour = Share::of(out.left.value() * (1.0 - left_again));
    // It pays from this share on: alumina_for_depth(left) = least.
    const double from = 1.0 / (1.0 + (1.0 / depth - 1.0) / least);
    out.pays = Probability::of(spread > 0.0 ? standard_normal_cdf(std::log(left / from) / spread) : (left >= from ? 1.0 : 0.0));
    return out;
}

} // namespace lakebound
