#include "lakebound/bath/equilibrium.hpp"

#include <algorithm>
#include <cmath>

#include <boost/math/tools/toms748_solve.hpp>

#include "lakebound/quantity/error.hpp"
#include "lakebound/quantity/rounded_text.hpp"
#include "rest_newton.hpp"

namespace lakebound {
namespace {

using rest::constants;
using rest::Totals;

/// Davies: log10 of the activity coefficient of a charge.
struct Activities {
    double one, two, three;
    explicit Activities(double ionic_strength) {
        const double root = std::sqrt(ionic_strength), f = root / (1.0 + root) - 0.3 * ionic_strength;
        const double g = std::pow(10.0, -0.509 * f);
        const double g2 = g * g, g4 = g2 * g2;
        one = g;
        two = g4;
        three = g4 * g4 * g;
    }
};

/// The liquor at one pH and one ionic strength, mol/L.
struct LiquorAt {
    double al_activity = 0.0, al_dissolved = 0.0, solid_al = 0.0, solid_sulphate = 0.0, carbon = 0.0, co2_activity = 0.0;
    double charge = 0.0, ionic_strength = 0.0;
};

/// Sign change of a function that is positive at low and negative at high, or 0 at an end.
template <class F> double crossing(F&& f, double low, double high, double f_low, double f_high, int digits) {
    if (!(f_low > 0.0)) return low;
    if (!(f_high < 0.0)) return high;
    boost::uintmax_t most = 120;
    const boost::math::tools::eps_tolerance<double> near_enough(static_cast<unsigned>(digits));
    const auto found = boost::math::tools::toms748_solve(f, low, high, f_low, f_high, near_enough, most);
    return 0.5 * (found.first + found.second);
}

/// Three nested sign changes: slow, and never lost.
class BracketedRest {
public:
    BracketedRest(const Totals& totals, LakeSolid solid, const CarbonDioxide& gas) : t_(totals), solid_(solid), gas_(gas) {}

    rest::Liquor solve() {
        // Between nothing dissolved and more than all of it: what comes out less what went in changes sign.
        constexpr double most = 3.0;
        constexpr int rough = 30, fine = 48; // bits; the charge is balanced to the last at any ionic strength
        const auto gap = [&](double strength) { return at_strength(strength, rough).ionic_strength - strength; };
        const double low = 1e-9, strength = crossing(gap, low, most, gap(low), gap(most), 26);
        const LiquorAt found = at_strength(strength, fine);
        return {ph_,          found.al_dissolved, found.solid_al, found.solid_sulphate, found.carbon, found.co2_activity,
                found.charge, found.ionic_strength};
    }

private:
    /// Everything at an ionic strength, with the pH that balances the charge, looked for beside the last one first.
    LiquorAt at_strength(double strength, int digits) {
        const Activities g(strength);
        const auto charge = [&](double p) { return liquor(p, g).charge; };
        double low = ph_ - 0.1, high = ph_ + 0.1, at_low = charge(low), at_high = charge(high);
        if (!(at_low > 0.0)) at_low = charge(low = -1.0);
        if (!(at_high < 0.0)) at_high = charge(high = 15.0);
        ph_ = crossing(charge, low, high, at_low, at_high, digits);
        return liquor(ph_, g);
    }

    LiquorAt liquor(double ph, const Activities& g) {
        const auto& k = constants();
        const double h = std::pow(10.0, -ph), h2 = h * h, h3 = h2 * h;
        // Per unit of aluminium activity: everything but the sulphates; and per unit of sulphate activity.
        const double al0 = 1.0 / g.three + k.al1 / (h * g.two) + k.al2 / (h2 * g.one) + k.al3 / h3 + k.al4 / (h2 * h2 * g.one);
        const double al_charge0 =
            3.0 / g.three + 2.0 * k.al1 / (h * g.two) + k.al2 / (h2 * g.one) - k.al4 / (h2 * h2 * g.one);
        const double basic = k.basic_solid * h2 * h2 * h2 * h2 * h2;
        LiquorAt out;
        const auto aluminium = [&](double s) { // s: activity of sulphate
            const double per = al0 + (k.also4 * s + k.also42 * s * s) / g.one;
            const double activity = t_.aluminium / per;
            double most = activity;
            if (solid_ == LakeSolid::hydroxide)
                most = k.hydroxide_solid * h3;
            else if (s > 0.0)
                most = std::sqrt(std::sqrt(basic / s));
            out.al_activity = std::min(activity, most);
            out.al_dissolved = out.al_activity * per;
            out.solid_al = std::max(0.0, t_.aluminium - out.al_dissolved);
            out.solid_sulphate = solid_ == LakeSolid::basic_sulphate ? 0.25 * out.solid_al : 0.0;
        };
        const auto sodium = [&](double s) { return t_.sodium / (1.0 + k.naso4 * s); }; // free; g cancels
        const auto potassium = [&](double s) { return t_.potassium / (1.0 + k.kso4 * s); };
        double s = 0.0;
        if (t_.sulphate > 0.0) {
            const auto rest = [&](double x) {
                aluminium(x);
                return t_.sulphate - (x / g.two + k.hso4 * h * x / g.one + k.naso4 * x * sodium(x) + k.kso4 * x * potassium(x) +
                                      out.al_activity * (k.also4 * x + 2.0 * k.also42 * x * x) / g.one + out.solid_sulphate);
            };
            // Beside the last one first; else between none and all of it free.
            double low = 0.98 * sulphate_, high = 1.02 * sulphate_, at_low = rest(low), at_high = rest(high);
            if (!(at_low > 0.0)) { low = 0.0; at_low = t_.sulphate; }
            if (!(at_high < 0.0)) at_high = rest(high = t_.sulphate * g.two);
            s = sulphate_ = crossing(rest, low, high, at_low, at_high, 50);
        }
        aluminium(s);
        const double na = sodium(s), ka = potassium(s), naso4 = t_.sodium - na, kso4 = t_.potassium - ka;
        const double so4 = s / g.two, hso4 = k.hso4 * h * s / g.one;
        const double also4 = k.also4 * out.al_activity * s / g.one, also42 = k.also42 * out.al_activity * s * s / g.one;
        const double nh4 = t_.ammonium / (1.0 + k.ammonia * g.one / h);
        // Carbon: per unit of activity of dissolved gas.
        const double hco3_per = k.bicarbonate / (h * g.one), co3_per = k.carbonate / (h2 * g.two);
        const double per = 1.0 + hco3_per + co3_per, all = t_.carbon / per,
                     at_pressure = k.henry * in_standard_atmospheres(gas_.pressure);
        switch (gas_.way) {
        case CarbonDioxide::Way::balanced: out.co2_activity = at_pressure; break;
        case CarbonDioxide::Way::vents: out.co2_activity = std::min(all, at_pressure); break;
        case CarbonDioxide::Way::closed: out.co2_activity = all; break;
        }
        out.carbon = out.co2_activity * per;
        const double hco3 = out.co2_activity * hco3_per, co3 = out.co2_activity * co3_per;
        const double hydrogen = h / g.one, hydroxide = k.water / (h * g.one);
        out.charge = hydrogen - hydroxide + na + ka + nh4 - naso4 - kso4 - hso4 - 2.0 * so4 + out.al_activity * al_charge0 +
                     also4 - also42 - hco3 - 2.0 * co3 - t_.chloride;
        const double al_squares = out.al_activity * (9.0 / g.three + 4.0 * k.al1 / (h * g.two) + k.al2 / (h2 * g.one) +
                                                     k.al4 / (h2 * h2 * g.one));
        out.ionic_strength = 0.5 * (hydrogen + hydroxide + na + ka + nh4 + naso4 + kso4 + hso4 + 4.0 * so4 + al_squares +
                                    also4 + also42 + hco3 + 4.0 * co3 + t_.chloride);
        return out;
    }

    Totals t_;
    LakeSolid solid_;
    CarbonDioxide gas_;
    double ph_ = 7.0, sulphate_ = 0.0; ///< where to look first
};

} // namespace

rest::Liquor rest::by_brackets(const Totals& totals, LakeSolid solid, const CarbonDioxide& gas) {
    return BracketedRest(totals, solid, gas).solve();
}

namespace {

constexpr const char* too_much = "is the amount of salt or alkali right, and its unit?";

/// By Newton's method from the last answer or a guess, else by brackets.
rest::Liquor liquor_at_rest(const Totals& totals, LakeSolid solid, const CarbonDioxide& gas, std::optional<RestStart>& near) {
    const double salts = totals.sodium + totals.potassium + totals.ammonium + 3.0 * totals.aluminium;
    const double strength = std::max(1e-7, std::min(1.4, 0.6 * salts + totals.sulphate));
    const double sulphate = std::log(std::max(1e-12, 0.2 * totals.sulphate));
    const auto guess = [&](double ph) { return rest::Start{-2.302585092994046 * ph, sulphate, strength}; };
    std::array<rest::Start, 4> starts{};
    std::size_t count = 0;
    if (near) starts[count++] = {near->log_hydrogen, near->log_sulphate, near->ionic_strength};
    for (const double ph : {4.8, 7.0, 9.5}) starts[count++] = guess(ph);
    for (std::size_t i = 0; i < count; ++i)
        if (const auto found = rest::newton(totals, solid, gas, starts[i])) {
            near = RestStart{starts[i].u, starts[i].v, starts[i].ionic_strength};
            return *found;
        }
    return rest::by_brackets(totals, solid, gas);
}

} // namespace

Equilibrium equilibrium(const Ions& bath, Volume volume, LakeSolid solid, const CarbonDioxide& gas) {
    std::optional<RestStart> nowhere;
    return equilibrium(bath, volume, solid, gas, nowhere);
}

Equilibrium equilibrium(const Ions& bath, Volume volume, LakeSolid solid, const CarbonDioxide& gas, std::optional<RestStart>& near) {
    const double litre = in_litres(volume);
    if (!(litre > 0.0)) throw_out_of_range("volume of the bath", litre, "L", "above 0");
    if (bath[Ion::acetate] > 0.0 || bath[Ion::calcium] > 0.0)
        throw DomainError("pH of a bath with acetate, chalk or lime", "not known to the model",
                          "alum, aluminium sulphate or chloride with soda, potash or bicarbonate", "read a strip");
    const Totals totals{bath[Ion::sodium] / litre,    bath[Ion::potassium] / litre, bath[Ion::ammonium] / litre,
                        bath[Ion::aluminium] / litre, bath[Ion::sulphate] / litre,  bath[Ion::chloride] / litre,
                        (bath[Ion::carbonate] + bath[Ion::bicarbonate]) / litre};
    const rest::Liquor found = liquor_at_rest(totals, solid, gas, near);
    if (!(found.ionic_strength < 1.5))
        throw DomainError("ionic strength of the bath", significant_text(found.ionic_strength, 3) + " mol/L", "below 1.5 mol/L", too_much);
    if (!(found.ph >= 0.0 && found.ph <= 14.0))
        throw DomainError("pH that the bath comes to", significant_text(found.ph, 4), "0 to 14", too_much);
    Equilibrium out;
    out.ph = Ph::of(found.ph);
    out.ionic_strength = found.ionic_strength;
    out.laid = Share::of(totals.aluminium > 0.0 ? std::clamp(found.solid_al / totals.aluminium, 0.0, 1.0) : 0.0);
    out.aluminium_laid = moles(found.solid_al * litre);
    out.aluminium_left = moles(found.al_dissolved * litre);
    out.sulphate_laid = moles(found.solid_sulphate * litre);
    out.carbon_held = moles(found.carbon * litre);
    out.carbon_gone = moles((totals.carbon - found.carbon) * litre);
    out.carbon_dioxide = standard_atmospheres(found.co2_activity / constants().henry);
    out.charge_left = found.charge;
    return out;
}

AmountConcentration aluminium_dissolved(Ph ph, double free_sulphate, double ionic_strength, LakeSolid solid) {
    if (!(ph.value() >= 2.0 && ph.value() <= 12.0)) throw_out_of_range("pH", ph.value(), "", "2 to 12");
    if (!(free_sulphate >= 0.0 && ionic_strength >= 0.0))
        throw DomainError("sulphate or ionic strength", "below 0", "0 or more");
    const auto& k = constants();
    const Activities g(ionic_strength);
    const double h = std::pow(10.0, -ph.value()), h2 = h * h, s = free_sulphate * g.two;
    if (solid == LakeSolid::basic_sulphate && !(s > 0.0))
        throw DomainError("sulphate beside a basic sulphate", "none", "above 0");
    const double activity = solid == LakeSolid::hydroxide ? k.hydroxide_solid * h2 * h
                                                          : std::pow(k.basic_solid * std::pow(h, 10.0) / s, 0.25);
    return moles_per_litre(activity * (1.0 / g.three + k.al1 / (h * g.two) + k.al2 / (h2 * g.one) + k.al3 / (h2 * h) +
                                       k.al4 / (h2 * h2 * g.one) + (k.also4 * s + k.also42 * s * s) / g.one));
}

} // namespace lakebound
