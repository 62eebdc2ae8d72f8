#include "rest_newton.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace lakebound::rest {
namespace {

constexpr double ln10 = 2.302585092994045684;

/// d ln gamma_1 / dI and gamma_1, by Davies.
struct Davies {
    double one, two, three, slope;
    explicit Davies(double ionic_strength) {
        const double root = std::sqrt(ionic_strength), denominator = 1.0 + root;
        one = std::exp(-0.509 * ln10 * (root / denominator - 0.3 * ionic_strength));
        const double g2 = one * one, g4 = g2 * g2;
        two = g4;
        three = g4 * g4 * one;
        slope = -0.509 * ln10 * (0.5 / (root * denominator * denominator) - 0.3);
    }
};

/// A sum over species with its three derivatives.
struct Sum {
    double value = 0.0, u = 0.0, v = 0.0, strength = 0.0;
    /// times: of a concentration whose logarithm has these derivatives.
    void add(double times, double concentration, double du, double dv, double dstrength) {
        const double c = times * concentration;
        value += c;
        u += c * du;
        v += c * dv;
        strength += c * dstrength;
    }
};

struct State {
    Sum charge, sulphate, ionic; ///< charge, all sulphate, twice the ionic strength
    Liquor liquor;
    double gross = 0.0; ///< all charges, of either sign
    bool holds = true;  ///< the solid is there just where the liquor is saturated
};

/// Whether the solid is there. Where it is about to, a step that decides anew each time may go to and fro for ever.
enum class Falls { as_it_must, always, never };

class Bath {
public:
    Bath(const Totals& totals, LakeSolid solid, const CarbonDioxide& gas, Falls falls)
        : t_(totals), solid_(solid), falls_(falls), way_(gas.way),
          co2_at_pressure_(constants().henry * in_standard_atmospheres(gas.pressure)),
          ln_solid_(std::log(solid == LakeSolid::hydroxide ? constants().hydroxide_solid : constants().basic_solid)) {}

    State at(const Start& x) const {
        const Constants& k = constants();
        const Davies g(x.ionic_strength);
        const double h = std::exp(x.u), hi = 1.0 / h, hi2 = hi * hi, s = t_.sulphate > 0.0 ? std::exp(x.v) : 0.0;
        const double g1 = 1.0 / g.one, g2 = 1.0 / g.two, d1 = -g.slope, d2 = -4.0 * g.slope, d3 = -9.0 * g.slope;
        State out;
        const auto ion = [&](double z, double c, double du, double dv, double di) {
            out.charge.add(z, c, du, dv, di);
            out.ionic.add(z * z, c, du, dv, di);
            out.gross += std::abs(z) * c;
        };
        ion(1.0, h * g1, 1.0, 0.0, d1);
        ion(-1.0, k.water * hi * g1, -1.0, 0.0, d1);
        paired(out, ion, t_.sodium, k.naso4 * s);
        paired(out, ion, t_.potassium, k.kso4 * s);
        if (t_.ammonium > 0.0) {
            const double q = k.ammonia * g.one * hi, held = q / (1.0 + q);
            ion(1.0, t_.ammonium / (1.0 + q), held, 0.0, -held * g.slope);
        }
        if (t_.chloride > 0.0) ion(-1.0, t_.chloride, 0.0, 0.0, 0.0);
        if (t_.sulphate > 0.0) {
            const double so4 = s * g2, hso4 = k.hso4 * h * s * g1;
            ion(-2.0, so4, 0.0, 1.0, d2);
            ion(-1.0, hso4, 1.0, 1.0, d1);
            out.sulphate.add(1.0, so4, 0.0, 1.0, d2);
            out.sulphate.add(1.0, hso4, 1.0, 1.0, d1);
        }
        if (t_.aluminium > 0.0) {
            const std::array<Aluminium, 7> species{{{1.0 / g.three, 3.0, 0.0, 0.0, d3},
                                                    {k.al1 * hi * g2, 2.0, -1.0, 0.0, d2},
                                                    {k.al2 * hi2 * g1, 1.0, -2.0, 0.0, d1},
                                                    {k.al3 * hi2 * hi, 0.0, -3.0, 0.0, 0.0},
                                                    {k.al4 * hi2 * hi2 * g1, -1.0, -4.0, 0.0, d1},
                                                    {k.also4 * s * g1, 1.0, 0.0, 1.0, d1},
                                                    {k.also42 * s * s * g1, -1.0, 0.0, 2.0, d1}}};
            aluminium(out, ion, species, x);
        }
        carbon(out, ion, g, hi, hi2);
        out.liquor.charge = out.charge.value;
        out.liquor.ionic_strength = 0.5 * out.ionic.value;
        return out;
    }

private:
    struct Aluminium {
        double per, z, u, v, strength; ///< concentration per activity of Al+++, charge, derivatives of its logarithm
    };

    /// Sodium or potassium, free and with sulphate; activity coefficients cancel between the two.
    template <class Ion> void paired(State& out, Ion& ion, double total, double bound) const {
        if (!(total > 0.0)) return;
        const double free = total / (1.0 + bound), pair = total - free, share = bound / (1.0 + bound);
        ion(1.0, free, 0.0, -share, 0.0);
        if (!(t_.sulphate > 0.0)) return;
        ion(-1.0, pair, 0.0, 1.0 - share, 0.0);
        out.sulphate.add(1.0, pair, 0.0, 1.0 - share, 0.0);
    }

    template <class Ion> void aluminium(State& out, Ion& ion, const std::array<Aluminium, 7>& species, const Start& x) const {
        Sum per;
        for (const Aluminium& each : species) per.add(1.0, each.per, each.u, each.v, each.strength);
        double activity = t_.aluminium / per.value, au = -per.u / per.value, av = -per.v / per.value, ai = -per.strength / per.value;
        const bool hydroxide = solid_ == LakeSolid::hydroxide;
        const double most = std::exp(hydroxide ? ln_solid_ + 3.0 * x.u : 0.25 * (ln_solid_ + 10.0 * x.u - x.v));
        const bool may_fall = hydroxide || t_.sulphate > 0.0;
        const bool over = activity > most;
        const bool falls = may_fall && (falls_ == Falls::as_it_must ? over : falls_ == Falls::always);
        if (falls) {
            activity = most;
            au = hydroxide ? 3.0 : 2.5;
            av = hydroxide ? 0.0 : -0.25;
            ai = 0.0;
        }
        out.holds = !may_fall || falls == over;
        Sum dissolved;
        for (std::size_t i = 0; i < species.size(); ++i) {
            const Aluminium& each = species[i];
            const double c = activity * each.per, du = each.u + au, dv = each.v + av, di = each.strength + ai;
            dissolved.add(1.0, c, du, dv, di);
            ion(each.z, c, du, dv, di);
            if (i >= 5) out.sulphate.add(i == 5 ? 1.0 : 2.0, c, du, dv, di);
        }
        out.liquor.al_dissolved = dissolved.value;
        out.liquor.solid_al = falls ? t_.aluminium - dissolved.value : 0.0;
        if (!hydroxide && falls) { // a quarter of a sulphate for each aluminium laid
            out.liquor.solid_sulphate = 0.25 * out.liquor.solid_al;
            out.sulphate.value += out.liquor.solid_sulphate;
            out.sulphate.u -= 0.25 * dissolved.u;
            out.sulphate.v -= 0.25 * dissolved.v;
            out.sulphate.strength -= 0.25 * dissolved.strength;
        }
    }

    template <class Ion> void carbon(State& out, Ion& ion, const Davies& g, double hi, double hi2) const {
        const Constants& k = constants();
        const double hco3 = k.bicarbonate * hi / g.one, co3 = k.carbonate * hi2 / g.two, per = 1.0 + hco3 + co3;
        const double all = t_.carbon / per;
        double co2 = all;
        bool held = true;
        if (way_ == CarbonDioxide::Way::balanced || (way_ == CarbonDioxide::Way::vents && co2_at_pressure_ < all)) {
            co2 = co2_at_pressure_;
            held = false;
        }
        out.liquor.co2_activity = co2;
        out.liquor.carbon = co2 * per;
        if (!(co2 > 0.0)) return;
        const double cu = held ? (hco3 + 2.0 * co3) / per : 0.0;
        const double ci = held ? (hco3 + 4.0 * co3) / per * g.slope : 0.0;
        ion(-1.0, co2 * hco3, -1.0 + cu, 0.0, -g.slope + ci);
        ion(-2.0, co2 * co3, -2.0 + cu, 0.0, -4.0 * g.slope + ci);
    }

    Totals t_;
    LakeSolid solid_;
    Falls falls_;
    CarbonDioxide::Way way_;
    double co2_at_pressure_, ln_solid_;
};

std::optional<Liquor> newton_with(const Bath& bath, const Totals& totals, Start& start, int most_steps) {
    constexpr double near_enough = 1e-11, longest = 2.0;
    const bool with_sulphate = totals.sulphate > 0.0;
    Start x = start;
    for (int step = 0; step < most_steps; ++step) {
        const State at = bath.at(x);
        // Rows: charge, sulphate, ionic strength; columns: u, v, I. Solved by elimination, I last.
        const double f1 = -at.charge.value, f3 = x.ionic_strength - 0.5 * at.ionic.value;
        double a11 = at.charge.u, a13 = at.charge.strength, a31 = 0.5 * at.ionic.u, a33 = 0.5 * at.ionic.strength - 1.0;
        double b1 = f1, b3 = f3, v_of_b = 0.0, v_of_u = 0.0, v_of_i = 0.0;
        if (with_sulphate) {
            const double s22 = at.sulphate.v;
            v_of_b = (totals.sulphate - at.sulphate.value) / s22;
            v_of_u = -at.sulphate.u / s22;
            v_of_i = -at.sulphate.strength / s22;
            a11 += at.charge.v * v_of_u;
            a13 += at.charge.v * v_of_i;
            b1 -= at.charge.v * v_of_b;
            a31 += 0.5 * at.ionic.v * v_of_u;
            a33 += 0.5 * at.ionic.v * v_of_i;
            b3 -= 0.5 * at.ionic.v * v_of_b;
        }
        const double determinant = a11 * a33 - a13 * a31;
        const double du = (b1 * a33 - a13 * b3) / determinant, di = (a11 * b3 - b1 * a31) / determinant;
        const double dv = with_sulphate ? v_of_b + v_of_u * du + v_of_i * di : 0.0;
        if (!(std::isfinite(du) && std::isfinite(dv) && std::isfinite(di))) return std::nullopt;
        const double largest = std::max(std::abs(du), std::abs(dv)), cut = largest > longest ? longest / largest : 1.0;
        x.u += cut * du;
        x.v += cut * dv;
        x.ionic_strength = std::clamp(x.ionic_strength + cut * di, 0.2 * x.ionic_strength, 5.0 * x.ionic_strength + 1e-9);
        const bool balanced = std::abs(at.charge.value) <= 1e-10 * at.gross;
        // Where little is left that holds the pH, rounding of the large charges moves it by more.
        const double rounding = 1e-15 * at.gross * std::abs(a33 / determinant);
        if (cut == 1.0 && balanced && largest < near_enough + 4.0 * rounding && std::abs(di) < (near_enough + 1e-14) * x.ionic_strength) {
            const State last = bath.at(x);
            if (!last.holds) return std::nullopt;
            Liquor found = last.liquor;
            found.ph = -x.u / ln10;
            if (!(found.ph > -1.0 && found.ph < 15.0)) return std::nullopt;
            start = x;
            return found;
        }
    }
    return std::nullopt;
}

} // namespace

const Constants& constants() {
    static const Constants values = [] {
        const auto ten = [](double x) { return std::pow(10.0, x); };
        return Constants{ten(-5.0),  ten(-10.1), ten(-16.9),           ten(-22.7),   ten(3.5),    ten(5.0), ten(1.988), ten(0.94),
                         ten(1.18),  ten(10.329 - 16.681), ten(-16.681), ten(-1.468), ten(-9.252), 1e-14,    ten(10.8),  ten(22.7)};
    }();
    return values;
}

std::optional<Liquor> newton(const Totals& totals, LakeSolid solid, const CarbonDioxide& gas, Start& start) {
    constexpr std::pair<Falls, int> tries[] = {{Falls::as_it_must, 12}, {Falls::always, 40}, {Falls::never, 40}};
    for (const auto& [falls, most_steps] : tries)
        if (const auto found = newton_with(Bath(totals, solid, gas, falls), totals, start, most_steps)) return found;
    return std::nullopt;
}

} // namespace lakebound::rest
