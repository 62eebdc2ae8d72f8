#pragma once
// A sieve test: from the masses on the screens to fractions, closure and curves, with what the scale
// does to each of them.

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/quantity/ratio.hpp"
#include "lakebound/quantity/units.hpp"
#include "lakebound/quantity/word_table.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// What one screen kept back.
struct ScreenMass {
    Length aperture;
    Mass retained;
};

/// One sieve test. Screens from coarse to fine, each aperture once; masses are net.
struct SieveTest {
    std::vector<ScreenMass> screens;
    Mass pan;                       ///< through the finest screen
    std::optional<Mass> charge;     ///< weighed before sieving; without it there is no closure
    std::optional<Mass> scale_step; ///< smallest difference of the scale; without it no uncertainty
};

/// One screen weighed empty and with its load.
struct TaredScreen {
    Length aperture;
    Mass empty;
    Mass loaded;
};

/// Net masses from tared ones. Errors: DomainError when a loaded screen is lighter than the empty one.
[[nodiscard]] SieveTest net_of_tare(std::span<const TaredScreen> screens, Mass pan_empty, Mass pan_loaded,
                                    std::optional<Mass> charge = {}, std::optional<Mass> scale_step = {});

/// One class of the test: kept by `aperture`, through the screen above it.
struct SieveFraction {
    std::optional<Length> aperture; ///< nothing for the pan
    Mass retained;
    MassFraction fraction;             ///< f = m / sum of m
    MassFraction cumulative_retained;  ///< on this screen and all coarser ones
    MassFraction passing;              ///< through this screen; 0 for the pan
    double fraction_uncertainty = 0.0; ///< standard uncertainty of `fraction` from the scale alone
    double passing_uncertainty = 0.0;  ///< the same for `passing`
};

enum class Closure {
    unknown,    ///< no charge was weighed
    closed,     ///< the loss lies within the limit
    loss_high,  ///< more was lost than the limit allows: weigh and sieve again
    small_gain, ///< slightly more came off than went on, within what the scale can explain
};
template <> struct WordTable<Closure> {
    static constexpr WordRow<Closure> rows[] = {
        {Closure::unknown, "unknown"},
        {Closure::closed, "closed"},
        {Closure::loss_high, "loss high"},
        {Closure::small_gain, "small gain"},
    };
};

struct SieveAnalysis {
    std::vector<SieveFraction> fractions; ///< coarse to fine, the pan last
    Mass recovered;                       ///< sum of all masses
    std::optional<double> loss;           ///< (charge - recovered) / charge; negative for a gain
    Closure closure = Closure::unknown;
    double reading_uncertainty_g = 0.0; ///< standard uncertainty of one net mass, g
    double widest_uncertainty = 0.0;    ///< the greatest that the scale alone leaves in a fraction
    bool weighed_coarsely = false;      ///< that is above coarse_weighing: charge more, or weigh finer
};

/// Uncertainty of a share, from the scale alone, above which a weighing is coarse: a point
/// in a hundred (estimate).
inline constexpr double coarse_weighing = 0.01;

/// Loss above which a sieve test should be repeated: 5 % of the charge (usp-786, value from memory).
inline constexpr double allowed_sieve_loss = 0.05;

/// Standard uncertainty of a net mass read on a scale with this step: two roundings, each step/sqrt(12),
/// so step/sqrt(6) = 0.41 step. Source: jcgm-100, 4.3.7.
[[nodiscard]] inline Mass net_reading_uncertainty(Mass scale_step) { return scale_step * 0.40824829046386302; }

/// Fractions, closure and curves of a sieve test. Fractions refer to the mass recovered, not charged.
///   f_i = m_i / M,  M = sum m_i,  P_i = 1 - (f_1 + ... + f_i),  loss = (m_0 - M) / m_0
///   u(f_i)^2 = u_m^2 ((1 - f_i)^2 + (n-1) f_i^2) / M^2
///   u(P_i)^2 = u_m^2 (n_below (1 - P_i)^2 + n_above P_i^2) / M^2   with u_m of net_reading_uncertainty
/// Errors: DomainError for no screens, screens not falling strictly, a negative mass, nothing recovered,
/// and a recovered mass above the charge by more than 0.3 % of it (astm-c136, value from memory) and
/// more than three standard uncertainties of the sum. Source: definitions; jcgm-100 for u.
[[nodiscard]] SieveAnalysis analyse(const SieveTest& test);

/// One screen of the ladder that the fineness modulus counts: 150 um, doubling upward.
/// Source: astm-c125 (value from memory).
[[nodiscard]] std::span<const double> fineness_modulus_sieves_um();

/// Fineness modulus: the sum of the cumulative percentages retained on every standard screen from the
/// coarsest needed down to 150 um, over 100. Screens count when within 7 % of the ladder (80, 40, 20,
/// 10 mm stand for 75, 37.5, 19, 9.5 mm). A screen that was not used counts 100 when nothing passes a
/// coarser one that was used; coarser screens than the first count as 0 (all of the charge passes).
/// Trap: leaving out the 150 um screen because nothing new lies on it makes the modulus 1 too low.
/// Errors: DomainError naming the missing screen. Source: astm-c136 (value from memory).
[[nodiscard]] double fineness_modulus(const SieveAnalysis& analysis);

/// Residue of a wet test on one screen (45 um as a rule), dried and weighed.
struct WetResidue {
    MassFraction residue;
    double standard_uncertainty = 0.0; ///< from the scale
    double smallest_seen = 0.0;        ///< fraction that the scale can tell from none: 3 u_m / charge
    bool below_scale = false;          ///< the residue is under smallest_seen: "less than", not a value
};

/// residue = dried residue / charge. Range: charge above 0, residue from 0 to the charge.
/// Errors: DomainError. Source: iso-787-7 and astm-d185 (principle; value of 45 um published).
[[nodiscard]] WetResidue wet_residue(Mass charge, Mass dried_residue, Mass scale_step);

} // namespace lakebound
