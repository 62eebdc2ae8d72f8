#include "rub_out_text.hpp"

#include "lakebound/quantity/text.hpp"

namespace lakebound {
namespace {

/// "19 drops": the count, or nothing when the text is no count of drops.
std::optional<double> drops_of(const Node& node) {
    if (node.kind != Node::Kind::scalar) return std::nullopt;
    KitchenMeasures one_is_one;
    one_is_one.drop = millilitres(1.0);
    try {
        const auto reading = read_quantity(node.text, Dimension::volume, one_is_one);
        if (reading.unit.rfind("drop", 0) != 0 || reading.spread_kind != Spread::none) return std::nullopt;
        return in_millilitres(Volume::from_value(reading.value));
    } catch (const QuantityTextError&) {
        return std::nullopt; // read as a mass, the fault is told there
    }
}

} // namespace

RubOut read_rub_out(const MapReader& map, const Instrument<Mass>& scale, bool dropper, Faults& faults) {
    RubOut rub_out;
    rub_out.scale = scale;
    rub_out.pigment = map.exact<Mass>("pigment", range::positive);
    const Node* oil = map.need("oil");
    if (oil == nullptr) return rub_out;
    if (const auto drops = drops_of(*oil)) {
        rub_out.drops = *drops;
        if (!(*drops > 0.0))
            faults.add(fault_at(*oil, "quantity-negative", "the drops must be above 0", "count them"));
        else if (!dropper)
            faults.add(fault_at(*oil, "rub-out-oil", "drops were counted, but what a drop weighs is not said",
                                "add 'dropper: {drops: 50, weighed: 1.81 g}'"));
        return rub_out;
    }
    const auto before = faults.count();
    rub_out.oil = map.exact<Mass>("oil", range::positive);
    if (dropper && faults.count() == before) // else it was no mass
        faults.add(fault_at(*oil, "rub-out-oil", "the oil was weighed, but a dropper is given as well",
                            "leave the dropper out, or count drops in every rub-out: 'oil: 19 drops'"));
    return rub_out;
}

std::optional<DropCalibration> read_dropper(const MapReader& map, const Instrument<Mass>& scale, Faults& faults) {
    const Node* node = map.find("dropper");
    if (node == nullptr) return std::nullopt;
    const MapReader dropper(*node, "a dropper", {"drops", "weighed"}, faults);
    DropCalibration calibration;
    constexpr Range whole{1.0, 1000.0, false, "1 to 1000", "count 50 drops or so"};
    const double drops = dropper.number("drops", whole);
    calibration.drops = static_cast<int>(drops);
    if (static_cast<double>(calibration.drops) < drops)
        faults.add(fault_at(*dropper.find("drops"), "out-of-range",
                            "drops of the dropper must be whole ones", "half a drop cannot be weighed"));
    calibration.weighed = dropper.exact<Mass>("weighed", range::positive);
    calibration.scale = scale;
    return calibration;
}

} // namespace lakebound
