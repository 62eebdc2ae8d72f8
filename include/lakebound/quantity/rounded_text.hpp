#pragma once
// Numbers as a person reads them at the bench: to the step of the scale, with no digit too many.
//
// Nothing here decides anything; JSON carries the unrounded values.

#include <string>

#include "lakebound/export.hpp"
#include "lakebound/quantity/ratio.hpp"
#include "lakebound/quantity/units.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Decimals that show every multiple of a step: 0.1 -> 1, 0.25 -> 2, 1 and 5 -> 0; at most 6.
/// step: above 0, in the unit that will be written.
[[nodiscard]] int decimals_of_step(double step);

/// A mass as a scale of that step shows it: 11.63 g at 0.1 g is "11.6 g". step above 0.
[[nodiscard]] std::string mass_text(Mass mass, Mass step);
/// A volume as a syringe of that step shows it: "5.5 mL". step above 0.
[[nodiscard]] std::string volume_text(Volume volume, Volume step);

/// Where no instrument sets the digits: one decimal from 1 to 100, whole numbers above, two significant
/// digits below 1: "11.6 g", "0.013 g", "125 g".
[[nodiscard]] std::string mass_text(Mass mass);
[[nodiscard]] std::string volume_text(Volume volume);                        ///< "4.5 mL"
[[nodiscard]] std::string plain_text(double x);                              ///< the number alone, without ".0": "19", "2.5"
[[nodiscard]] std::string density_text(MassDensity density);                 ///< "1.88 g/cm3"
[[nodiscard]] std::string specific_volume_text(SpecificVolume volume);       ///< "0.740 mL/g"
[[nodiscard]] std::string oil_absorption_text(OilAbsorption oil_absorption); ///< "68.8 g/100 g"

/// x rounded to `digits` significant digits (1 to 9), trailing zeros kept, written out in full.
[[nodiscard]] std::string significant_text(double x, int digits);

/// A fraction as percent: "42 %", and one decimal below 10 %: "5.3 %"; "0 %" for 0.
[[nodiscard]] std::string percent_text(double fraction);

/// k and reduced PVC: two decimals, "1.40".
[[nodiscard]] std::string ratio_text(double x);
[[nodiscard]] std::string sufficiency_text(BinderSufficiency k);

/// The two numbers of "1.40 ± 0.19": the uncertainty to two digits when it begins with 1 or 2, else
/// to one, and the value to the same place. Source: jcgm-100, 7.2.6 (two digits at most).
struct ValueAndUncertainty {
    std::string value, uncertainty;
};
[[nodiscard]] ValueAndUncertainty value_and_uncertainty(double value, double standard_uncertainty);
/// "1.40 ± 0.19"; only the value, to three digits, when the uncertainty is 0.
[[nodiscard]] std::string value_text(double value, double standard_uncertainty);
/// k and reduced PVC, two decimals: "1.35 ± 0.36".
[[nodiscard]] std::string ratio_value_text(double value, double standard_uncertainty);
/// In percent: "37 ± 4 %".
[[nodiscard]] std::string percent_value_text(double fraction, double standard_uncertainty);

} // namespace lakebound
