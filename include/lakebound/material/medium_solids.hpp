#pragma once
// Medium solids: what stays of a medium, or how much water a powder holds, by drying a weighed sample.
//   NV = (m_dry - m_dish) / (m_wet - m_dish)        moisture = 1 - NV
// Dry thin, warm and to constant mass: two weighings a day apart within 0.5 % (common practice, no
// source). Glycerol leaves slowly when heated above about 60 degC, so a hot oven reads too low.

#include "lakebound/estimate/estimate.hpp"
#include "lakebound/export.hpp"
#include "lakebound/material/reading.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct DryingTest {
    Mass dish; ///< empty
    Mass dish_and_wet;
    Mass dish_and_dry;      ///< at constant mass; not below the dish, not above the wet
    Instrument<Mass> scale; ///< one reading each
};

/// Non-volatile mass fraction, u = u_r sqrt(1 + NV^2 + (1 - NV)^2) / (m_wet - m_dish), u_r of one
/// reading: the dish weighs on both differences. Normal.
/// Throws DomainError unless dish <= dry <= wet and some wet sample was taken.
[[nodiscard]] Estimate<MassFraction> non_volatile_by_drying(const DryingTest& test);

/// Water per mass as weighed, 1 - NV, with the same uncertainty.
[[nodiscard]] Estimate<MassFraction> moisture_by_drying(const DryingTest& test);

/// True when two weighings of the dried sample, dish subtracted, agree within the share.
[[nodiscard]] bool constant_mass(Mass earlier, Mass later, Share within);

} // namespace lakebound
