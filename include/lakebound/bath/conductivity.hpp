#pragma once
// Conductivity: what the pen in the decanted water says of the salts that are still in it.
//
//   kappa = sum over salts of N Lambda(m, t),  Lambda = L0(t) - D(t) sqrt(m) / (1 + B sqrt(m))
//   N equivalents per kg of water, Lambda per equivalent, t in degC, m mol of sulphate per kg of water, L0 and D
//   parabolas in t. In a mixture each salt has the Lambda of the whole strength, m = I/3, I the ionic strength.
// Source: mccleskey-2012 for sodium and potassium sulphate (coefficients read in a copy). Ammonium sulphate is
// taken for the potassium salt, whose ion moves as fast (73.5 S cm2/eq both, marcus-ions), and sodium, potassium
// and ammonium bicarbonate for the sulphate times the ratio of the limiting values (an approximation of ours).
// Accuracy: within 2.1 % of the handbook row of sodium sulphate to 0.05 mol/kg (from memory); ammonium sulphate
// within 3.5 % of published rows to 2 % by mass, 6 % above at 5 %; bicarbonate 5 % (estimate).
// Range: 0 to 45 degC, up to 0.5 mol of sulphate per kg of water. One litre is taken for one kilogram of water.

#include <boost/units/systems/si/conductivity.hpp>
#include <optional>

#include "lakebound/bath/salt.hpp"
#include "lakebound/estimate/estimate.hpp"
#include "lakebound/export.hpp"
#include "lakebound/material/basis.hpp"
#include "lakebound/quantity/chemical_units.hpp"

namespace LAKEBOUND_EXPORT lakebound {

using Conductivity = boost::units::quantity<si::conductivity>; ///< S/m
/// Per equivalent, S m2/mol.
using EquivalentConductivity = decltype(Conductivity{} / AmountConcentration{});
using Molality = decltype(AmountOfSubstance{} / Mass{}); ///< mol/kg

[[nodiscard]] constexpr Conductivity microsiemens_per_centimetre(double x) { return Conductivity::from_value(x / 1e4); }
[[nodiscard]] constexpr double in_microsiemens_per_centimetre(Conductivity k) { return k.value() * 1e4; }
/// S cm2/eq, as tables have it.
[[nodiscard]] constexpr EquivalentConductivity siemens_square_centimetres_per_equivalent(double x) {
    return EquivalentConductivity::from_value(x / 1e4);
}
[[nodiscard]] constexpr double in_siemens_square_centimetres_per_equivalent(EquivalentConductivity l) { return l.value() * 1e4; }

/// Limiting conductivity of an ion per equivalent at 25 degC. Sodium, potassium, ammonium, calcium, aluminium, sulphate,
/// bicarbonate, carbonate; DomainError for any other. Source: marcus-ions.
[[nodiscard]] EquivalentConductivity limiting_conductivity(Ion ion);

/// Lambda of a sulphate of sodium, potassium or ammonium. Errors: DomainError for another cation or out of range.
[[nodiscard]] EquivalentConductivity sulphate_equivalent_conductivity(Ion cation, Molality sulphate, Temperature temperature);

/// What a bath leaves dissolved, as amounts of each ion to one another: sodium, potassium, ammonium against
/// sulphate, bicarbonate. Range: at least one of either side, charges that balance within 1e-6, no other ion.
struct DissolvedSalts {
    Ions ions;
};
/// 3 Na2SO4 : K2SO4, what potassium alum and soda leave.
[[nodiscard]] DissolvedSalts salts_of_alum_and_soda();
/// Of a liquor's ions: carbonate and hydroxide that are left stand as bicarbonate, which they become in the air.
/// Errors: DomainError for aluminium, calcium, chloride or acetate, which a pen cannot tell from these.
[[nodiscard]] DissolvedSalts salts_of_liquor(const Ions& liquor);
void check(const DissolvedSalts& salts);
/// Mass of the salts to one equivalent of cations.
[[nodiscard]] Mass mass_per_equivalent(const DissolvedSalts& salts);

/// kappa of the salts at this strength (mass of salts per volume of water). Errors: DomainError out of range.
[[nodiscard]] Conductivity salts_conductivity(const DissolvedSalts& salts, WeightPerVolume strength, Temperature temperature);
/// The strength that has this conductivity; inverts salts_conductivity. Errors: DomainError; more than the range's.
[[nodiscard]] WeightPerVolume strength_of(const DissolvedSalts& salts, Conductivity conductivity, Temperature temperature);

/// The pen: what it shows and how it takes heat into account.
enum class Compensation {
    to_25_degrees, ///< it shows what the water would have at 25 degC
    none,          ///< it shows what the water has as it is
};
struct ConductivityPen {
    Compensation compensation = Compensation::to_25_degrees;
    /// Rise of the conductivity of natural water for each kelvin, as a share of that at 25 degC: by it pens compensate.
    double per_kelvin = 0.0;
    Estimate<Share> calibrated_to; ///< standard uncertainty common to all its readings
    Estimate<Share> repeats_to;    ///< standard uncertainty of one reading, as a share of it
    Conductivity step{};           ///< smallest difference it shows
    TemperatureDifference thermometer{}; ///< standard uncertainty of the temperature told
};
/// A pen that shows "dissolved solids" multiplies the conductivity by a factor, .5 mg/L to 1 uS/cm or .7 or another:
/// kappa = shown / factor. Range: factor 0.3 to 1.0 mg/L per uS/cm. Errors: DomainError.
[[nodiscard]] Conductivity shown_as_solids(WeightPerVolume shown, double factor);

struct PenReading {
    Conductivity shown;
    Temperature water; ///< of the water read
    /// Where this reading says so itself; else as the pen does. One that was noted with the water's temperature because
    /// the pen does not correct for it must say `none`: taken for corrected it would pass for far less salt.
    std::optional<Compensation> compensation{};
};

/// Water's own conductivity at 25 degC from a reading: that of a pen without compensation is divided by
/// 1 + per_kelvin (t - 25). For wash water, not for a decant.
[[nodiscard]] Conductivity at_25_degrees(const PenReading& reading, const ConductivityPen& pen);

/// Salts over those of the wash water itself, with doubt.
struct SaltsInWater {
    WeightPerVolume strength;           ///< best estimate, 0 or more
    MassDensity standard_uncertainty{}; ///< of what the two readings differ by; may exceed the strength
    Share scale{};                      ///< of that, common to all readings of the pen: ln-sd of a factor
    Conductivity over_wash_water{};     ///< at 25 degC
};

/// From the decant and the wash water by the same pen; kappa_25(decant) - kappa_25(wash water), turned into salts.
/// Range: pen readings 0 or more, 0 to 45 degC. Errors: DomainError; a decant that conducts less than the water it was
/// washed with, beyond what two readings leave open (2 standard uncertainties), is told as such.
[[nodiscard]] SaltsInWater salts_in_decant(const PenReading& decant, const PenReading& wash_water, const ConductivityPen& pen,
                             const DissolvedSalts& salts);

} // namespace lakebound
