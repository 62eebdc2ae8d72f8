#include "lakebound/bath/gas.hpp"

#include <algorithm>
#include <cmath>

#include "lakebound/quantity/error.hpp"

namespace lakebound {

Volume gas_volume(AmountOfSubstance gas, Temperature at, Pressure pressure) {
    if (!(in_moles(gas) >= 0.0)) throw_out_of_range("amount of gas", in_moles(gas), "mol", "0 or more");
    constexpr double gas_constant = 8.314462618; // J/(mol K), exact since 2019 (si-brochure)
    if (!(in_pascals(pressure) > 0.0)) throw_out_of_range("pressure", in_pascals(pressure), "Pa", "above 0");
    return Volume::from_value(in_moles(gas) * gas_constant * in_kelvin(at) / in_pascals(pressure));
}

AmountOfSubstance dissolved_gas(Volume liquor, Pressure gas) {
    if (!(in_litres(liquor) >= 0.0 && in_pascals(gas) >= 0.0))
        throw DomainError("liquor or pressure of the gas", "below 0", "0 or more");
    return moles(std::pow(10.0, -1.468) * in_standard_atmospheres(gas) * in_litres(liquor));
}

FoamPlan plan_foam(AmountOfSubstance gas, Temperature at, Volume headspace, Time life, Share fill) {
    if (!(in_litres(headspace) > 0.0)) throw_out_of_range("headspace", in_litres(headspace), "L", "above 0");
    if (!(in_seconds(life) > 0.0)) throw_out_of_range("life of the foam", in_seconds(life), "s", "above 0");
    if (!(fill.value() > 0.0)) throw_out_of_range("share of the headspace for foam", fill.value(), "", "above 0");
    FoamPlan plan;
    plan.gas = gas_volume(gas, at);
    plan.headspace = headspace;
    const double times = plan.gas / (headspace * fill.value());
    plan.pouring = life * times;
    plan.portions = static_cast<unsigned>(std::clamp(std::ceil(times), 1.0, 1000.0));
    return plan;
}

} // namespace lakebound
