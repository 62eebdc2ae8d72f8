#include "lakebound/particle/powder_habits.hpp"

#include <cmath>

#include "lakebound/quantity/error.hpp"

namespace lakebound {

double sieving_deviation(MassFraction repeats_to, double share) {
    if (!(share >= 0.0 && share <= 1.0))
        throw_out_of_range("share over a screen", share * 100.0, "%", "0 to 100 %");
    return 2.0 * repeats_to.value() * std::sqrt(share * (1.0 - share));
}

} // namespace lakebound
