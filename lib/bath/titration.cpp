#include "lakebound/bath/titration.hpp"

#include <algorithm>
#include <cmath>

#include <boost/math/tools/toms748_solve.hpp>

#include "lakebound/quantity/error.hpp"

namespace lakebound {
namespace {

constexpr LakeSolid both_solids[] = {LakeSolid::hydroxide, LakeSolid::basic_sulphate};

bool can_be_basic(const Titration& bath) { return bath.aluminium.gives[Ion::sulphate] > 0.0; }

constexpr double most_poured = 6.0; // hydroxides per aluminium
constexpr double lowest_stop = 4.0, highest_stop = 10.0; // pH between which a bath is brought to a stop

// What a bath may read that need not be cloudy: 0.2 mol/L alum has 3.3 (equilibrium.hpp), stronger less; an estimate.
constexpr Ph clear_bath_reads = Ph::of(2.8);
constexpr double surely_cloudy = 0.02; // share of the aluminium laid, from which it is: an estimate

/// A bath as alkali goes into it; what formulas say is read once, and each rest is looked for beside the last one.
class Pouring {
public:
    Pouring(const Titration& bath, LakeSolid solid, const CarbonDioxide& gas)
        : bath_(bath), solid_(solid), gas_(gas), aluminium_(ions_of(bath.aluminium, bath.mass)),
          per_kilogram_(ions_of(bath.alkali, kilograms(1.0))) {
        const double amount = in_moles(amount_of(bath.aluminium, bath.mass));
        al_ = amount * bath.aluminium.gives[Ion::aluminium];
        own_base_ = amount * base_per_mole(bath.aluminium);
        base_per_kilogram_ = in_moles(amount_of(bath.alkali, kilograms(1.0))) * base_per_mole(bath.alkali);
    }

    /// That brings so many hydroxides to an aluminium.
    Mass alkali(double hydroxides) const { return kilograms(std::max(0.0, hydroxides * al_ - own_base_) / base_per_kilogram_); }
    Equilibrium rest(Mass alkali) {
        Ions ions = aluminium_;
        ions += in_kilograms(alkali) * per_kilogram_;
        return equilibrium(ions, bath_.liquor + alkali * bath_.solution, solid_, gas_, last_);
    }

private:
    const Titration& bath_;
    LakeSolid solid_;
    CarbonDioxide gas_;
    Ions aluminium_, per_kilogram_;
    double al_ = 0.0, own_base_ = 0.0, base_per_kilogram_ = 0.0;
    std::optional<RestStart> last_;
};

} // namespace

Equilibrium after_alkali(const Titration& bath, Mass alkali, LakeSolid solid, const CarbonDioxide& gas) {
    if (!(alkali.value() >= 0.0)) throw_out_of_range("mass of a salt", in_grams(alkali), "g", "0 or more");
    return Pouring(bath, solid, gas).rest(alkali);
}

Ph stated_ph(const Equilibrium& rest) {
    if (!rest.cloudy())
        throw DomainError("pH of alum before it clouds", "not known to the model", "a bath in which the lake has begun to fall",
                          "read a strip; strong alum has a pH of about 3");
    return rest.ph;
}

std::vector<TitrationPoint> titration_curve(const Titration& bath, LakeSolid solid, const CarbonDioxide& gas,
                                            double most_hydroxides, std::size_t points) {
    if (points < 2 || points > 2000)
        throw_out_of_range("points of a titration curve", static_cast<double>(points), "", "2 to 2000");
    if (!(most_hydroxides > 0.0 && most_hydroxides <= most_poured))
        throw_out_of_range("hydroxides per aluminium", most_hydroxides, "", "above 0, at most 6");
    std::vector<TitrationPoint> curve;
    curve.reserve(points);
    Pouring pouring(bath, solid, gas);
    for (std::size_t i = 0; i < points; ++i) {
        TitrationPoint point;
        point.hydroxides = most_hydroxides * static_cast<double>(i) / static_cast<double>(points - 1);
        point.alkali = pouring.alkali(point.hydroxides);
        const Equilibrium rest = pouring.rest(point.alkali);
        if (rest.cloudy()) point.ph = rest.ph;
        point.laid = rest.laid;
        curve.push_back(point);
    }
    return curve;
}

std::optional<Mass> alkali_to_ph(const Titration& bath, Ph ph, LakeSolid solid, const CarbonDioxide& gas) {
    const double wanted = ph.value();
    if (!(wanted >= lowest_stop && wanted <= highest_stop)) throw_out_of_range("pH to stop at", wanted, "", "4 to 10");
    Pouring pouring(bath, solid, gas);
    const auto gap = [&](double hydroxides) { return pouring.rest(pouring.alkali(hydroxides)).ph.value() - wanted; };
    const double low = 0.0, at_low = gap(low), at_high = gap(most_poured);
    if (at_low > 0.0 || at_high < 0.0) return std::nullopt;
    boost::uintmax_t most = 60;
    const auto found = boost::math::tools::toms748_solve(gap, low, most_poured, at_low, at_high,
                                                         boost::math::tools::eps_tolerance<double>(24), most);
    return pouring.alkali(0.5 * (found.first + found.second));
}

PhRange possible_ph(const Titration& bath, Mass alkali) {
    Ph low = Ph::of(14.0), high = Ph::of(0.0);
    for (const LakeSolid solid : both_solids) {
        if (solid == LakeSolid::basic_sulphate && !can_be_basic(bath)) continue;
        for (const CarbonDioxide& gas : {closed_jar(), fizzing(), stirred(), open_to_air()}) {
            const Equilibrium rest = after_alkali(bath, alkali, solid, gas);
            low = std::min(low, rest.laid.value() > surely_cloudy ? rest.ph : clear_bath_reads);
            high = std::max(high, rest.ph);
        }
    }
    const double doubt = 2.0 * ph_model_doubt.value();
    return {moved(low, PhDifference::of(-doubt)), moved(high, PhDifference::of(doubt))};
}

std::optional<HydroxideBelief> hydroxides_at_ph(const Titration& bath, Ph ph, PhDifference standard_uncertainty) {
    if (!(standard_uncertainty.value() > 0.0))
        throw_out_of_range("uncertainty of a pH", standard_uncertainty.value(), "", "above 0");
    const double read = ph.value(), u = std::hypot(standard_uncertainty.value(), ph_model_doubt.value());
    std::vector<double> at;
    double spread = 0.0;
    for (const LakeSolid solid : both_solids) {
        if (solid == LakeSolid::basic_sulphate && !can_be_basic(bath)) continue;
        const auto hydroxides = [&](double p) -> std::optional<double> {
            const auto alkali = alkali_to_ph(bath, Ph::of(std::clamp(p, lowest_stop, highest_stop)), solid, stirred());
            if (!alkali) return std::nullopt;
            return hydroxides_poured(bath.aluminium, bath.mass, bath.alkali, *alkali);
        };
        const auto here = hydroxides(read), below = hydroxides(read - u), above = hydroxides(read + u);
        if (!here) return std::nullopt;
        at.push_back(*here);
        spread = std::max(spread, 0.5 * (above.value_or(*here) - below.value_or(*here)));
    }
    const double low = *std::min_element(at.begin(), at.end()), high = *std::max_element(at.begin(), at.end());
    return HydroxideBelief{0.5 * (low + high), std::hypot(0.5 * (high - low), spread)};
}

} // namespace lakebound
