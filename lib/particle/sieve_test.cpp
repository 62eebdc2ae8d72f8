#include "lakebound/particle/sieve_test.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "lakebound/quantity/error.hpp"
#include "micrometre_text.hpp"

namespace lakebound {
namespace {

void check(const SieveTest& test) {
    if (test.screens.empty())
        throw DomainError("sieve test", "no screen", "one screen at least",
                          "name the screens with their masses");
    for (std::size_t i = 0; i < test.screens.size(); ++i) {
        const auto& screen = test.screens[i];
        if (!(in_metres(screen.aperture) > 0.0))
            throw_out_of_range("aperture", in_micrometres(screen.aperture), "um", "above 0");
        if (!(in_grams(screen.retained) >= 0.0))
            throw_out_of_range("mass retained", in_grams(screen.retained), "g", "0 or more");
        if (i > 0 && !(screen.aperture < test.screens[i - 1].aperture))
            throw DomainError("screen " + std::to_string(i + 1), micrometre_text(screen.aperture),
                              "finer than the screen above it, " +
                                  micrometre_text(test.screens[i - 1].aperture),
                              "list the screens from coarse to fine, each once");
    }
    if (!(in_grams(test.pan) >= 0.0))
        throw_out_of_range("mass in the pan", in_grams(test.pan), "g", "0 or more");
    if (test.charge && !(in_grams(*test.charge) > 0.0))
        throw_out_of_range("charge of the sieve test", in_grams(*test.charge), "g", "above 0");
    if (test.scale_step && !(in_grams(*test.scale_step) > 0.0))
        throw_out_of_range("scale step", in_grams(*test.scale_step), "g", "above 0");
}

void close(SieveAnalysis& analysis, Mass charge) {
    const double m0 = in_grams(charge), sum = in_grams(analysis.recovered);
    double loss = (m0 - sum) / m0;
    if (std::abs(loss) < 1e-12) loss = 0.0; // decimal masses do not add up to the last bit
    analysis.loss = loss;
    if (loss >= 0.0) {
        // A sum of decimal masses can land a few units in the last place beyond the limit.
        analysis.closure = loss <= allowed_sieve_loss * (1.0 + 1e-12) ? Closure::closed : Closure::loss_high;
        return;
    }
    const double readings = static_cast<double>(analysis.fractions.size()) + 1.0;
    const double explained = std::max(0.003 * m0, 3.0 * analysis.reading_uncertainty_g * std::sqrt(readings));
    if (sum - m0 > explained * (1.0 + 1e-12))
        throw DomainError("mass recovered", gram_text(analysis.recovered),
                          "at most the charge, " + gram_text(charge), "check the tares and the charge");
    analysis.closure = Closure::small_gain;
}

} // namespace

SieveTest net_of_tare(std::span<const TaredScreen> screens, Mass pan_empty, Mass pan_loaded,
                      std::optional<Mass> charge, std::optional<Mass> scale_step) {
    SieveTest test;
    test.charge = charge;
    test.scale_step = scale_step;
    const auto net = [](Mass empty, Mass loaded, const std::string& where) {
        if (!(loaded >= empty))
            throw DomainError("loaded mass of " + where, gram_text(loaded),
                              "at least its empty mass, " + gram_text(empty), "were the two readings swapped?");
        return loaded - empty;
    };
    for (const auto& s : screens)
        test.screens.push_back(
            {s.aperture, net(s.empty, s.loaded, "the " + micrometre_text(s.aperture) + " screen")});
    test.pan = net(pan_empty, pan_loaded, "the pan");
    return test;
}

SieveAnalysis analyse(const SieveTest& test) {
    check(test);
    SieveAnalysis analysis;
    const std::size_t classes = test.screens.size() + 1;
    // Summed from the fine end, so that passing is 0 in the pan, never negative, and 1 where nothing was kept so far.
    std::vector<double> below(classes, 0.0);
    double sum = in_kilograms(test.pan);
    for (std::size_t i = classes - 1; i-- > 0;) {
        below[i] = sum;
        sum += in_kilograms(test.screens[i].retained);
    }
    if (!(sum > 0.0)) throw DomainError("mass recovered in the sieve test", "0 g", "above 0");
    analysis.recovered = kilograms(sum);
    const double u = test.scale_step ? in_kilograms(net_reading_uncertainty(*test.scale_step)) : 0.0;
    analysis.reading_uncertainty_g = u * 1e3;

    for (std::size_t i = 0; i < classes; ++i) {
        const bool pan = i + 1 == classes;
        const Mass retained = pan ? test.pan : test.screens[i].retained;
        const double f = in_kilograms(retained) / sum, p = below[i] / sum;
        const auto n = static_cast<double>(classes);
        const double above_count = static_cast<double>(i) + 1.0, below_count = n - above_count;
        SieveFraction row;
        if (!pan) row.aperture = test.screens[i].aperture;
        row.retained = retained;
        row.fraction = MassFraction::of(f);
        row.passing = MassFraction::of(p);
        row.cumulative_retained = complement(row.passing);
        row.fraction_uncertainty = u / sum * std::sqrt((1.0 - f) * (1.0 - f) + (n - 1.0) * f * f);
        row.passing_uncertainty =
            u / sum * std::sqrt(below_count * (1.0 - p) * (1.0 - p) + above_count * p * p);
        analysis.widest_uncertainty = std::max(analysis.widest_uncertainty, row.fraction_uncertainty);
        analysis.fractions.push_back(row);
    }
    analysis.weighed_coarsely = analysis.widest_uncertainty > coarse_weighing;
    if (test.charge) close(analysis, *test.charge);
    return analysis;
}

std::span<const double> fineness_modulus_sieves_um() {
    static constexpr std::array<double, 11> ladder{150000, 75000, 37500, 19000, 9500, 4750,
                                                   2360,   1180,  600,   300,   150};
    return ladder;
}

double fineness_modulus(const SieveAnalysis& analysis) {
    double sum = 0.0;
    for (const double wanted : fineness_modulus_sieves_um()) {
        // The retained share on a screen of this size: from the screen itself, or certain without it.
        std::optional<double> retained;
        bool finer_than_first = false;
        for (const auto& row : analysis.fractions) {
            if (!row.aperture) continue;
            const double um = in_micrometres(*row.aperture);
            const bool is_it = std::abs(um - wanted) <= 0.07 * wanted;
            if (is_it) retained = row.cumulative_retained.value();
            if (um > wanted && !is_it) {
                finer_than_first = true;
                if (row.passing.value() <= 0.0) retained = 1.0;
            }
            if (!is_it && um < wanted && !retained && row.cumulative_retained.value() <= 0.0) retained = 0.0;
        }
        if (!retained && !finer_than_first) retained = 0.0;
        if (!retained)
            throw DomainError("fineness modulus",
                              "no " + micrometre_text(micrometres(wanted)) + " screen in the test",
                              "every standard screen from 150 um upward, each twice the last",
                              "sieve again with that screen, or use the percentiles instead");
        sum += *retained;
    }
    return sum;
}

WetResidue wet_residue(Mass charge, Mass dried_residue, Mass scale_step) {
    if (!(in_grams(charge) > 0.0))
        throw_out_of_range("charge of the wet test", in_grams(charge), "g", "above 0");
    if (!(in_grams(dried_residue) >= 0.0 && dried_residue <= charge))
        throw DomainError("dried residue", gram_text(dried_residue), "0 to the charge, " + gram_text(charge));
    if (!(in_grams(scale_step) > 0.0)) throw_out_of_range("scale step", in_grams(scale_step), "g", "above 0");
    const double r = in_kilograms(dried_residue) / in_kilograms(charge);
    const double u = in_kilograms(net_reading_uncertainty(scale_step)) / in_kilograms(charge);
    WetResidue out;
    out.residue = MassFraction::of(r);
    out.standard_uncertainty = u * std::sqrt(1.0 + r * r);
    out.smallest_seen = 3.0 * u;
    out.below_scale = r < out.smallest_seen;
    return out;
}

} // namespace lakebound
