#pragma once
// Rub-out: oil is worked into the pigment, drop by drop, until the heap just hangs together as one
// firm dough. OA = m_oil / m_p, with m_oil = n m_drop when drops are counted.
//
// Source: the spatula rub-out of ISO 787-5 (iso-787-5, title and form from memory) and ASTM D281
// (astm-d281). The folding method (ASTM D1483) works the paste more gently and has another end
// point: do not mix the two in one mean.
// Uncertainty, all as standard deviations of ln OA, independent: the reader of the end point 0.10
// (estimate), the last drop 1/sqrt(12) of a drop, the scale, and the drop calibration, which is
// shared by all rub-outs made with one dropper.

#include <span>

#include "lakebound/estimate/estimate.hpp"
#include "lakebound/material/reading.hpp"

namespace lakebound {

/// Standard deviation of ln OA from judging the end point by eye and feel, one rub-out at home;
/// estimate: home practice, no source.
inline constexpr double rub_out_operator_spread = 0.10;

/// Weighing a counted number of drops out of the dropper bottle.
struct DropCalibration {
    int drops = 0; ///< 1 or more; 50 is a good number
    Mass weighed;  ///< of all of them, before minus after
    Instrument<Mass> scale;
};

/// Mass of one drop, with the two roundings of the weighing. Throws DomainError unless drops and
/// mass are above 0.
Estimate<Mass> drop_mass(const DropCalibration& calibration);

/// One rub-out. Exactly one of `drops` (above 0) and `oil` (above 0) is given; both together are refused.
struct RubOut {
    Mass pigment;           ///< as weighed, above 0
    double drops = 0.0;     ///< counted to the end point; half drops allowed
    Mass oil;               ///< weighed: dropper bottle before minus after
    Instrument<Mass> scale; ///< that weighed the pigment, and the oil
};

/// Oil absorption of one rub-out in counted drops. Lognormal.
/// Throws DomainError outside 2 to 400 g/100 g, and when the drops were not counted.
Estimate<OilAbsorption> oil_absorption_from_drops(const RubOut& rub_out, const DropCalibration& calibration,
                                                  double operator_spread = rub_out_operator_spread);

/// Oil absorption of one rub-out with weighed oil. Lognormal; errors as above.
Estimate<OilAbsorption> oil_absorption_from_weighing(const RubOut& rub_out,
                                                     double operator_spread = rub_out_operator_spread);

/// Mean of replicates made with one dropper: geometric mean; operator, last drop and scale average
/// out, the calibration does not. With weighed oil leave the calibration out.
/// Throws DomainError when there is no rub-out. Three replicates of 0.10 give about 0.06.
Estimate<OilAbsorption> mean_oil_absorption(std::span<const RubOut> rub_outs,
                                            const DropCalibration& calibration,
                                            double operator_spread = rub_out_operator_spread);
Estimate<OilAbsorption> mean_oil_absorption(std::span<const RubOut> rub_outs,
                                            double operator_spread = rub_out_operator_spread);

/// Change of OA that one drop makes: m_drop / m_p. Above 3 g/100 g take more pigment.
OilAbsorption one_drop_of_oil_absorption(const DropCalibration& calibration, Mass pigment);

} // namespace lakebound
