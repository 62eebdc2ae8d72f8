#include "lakebound/paint/loss.hpp"

#include "lakebound/quantity/ratio_arithmetic.hpp"

namespace lakebound {
namespace {

void check(const SlabLoss& loss) {
    if (!(loss.fixed.value() >= 0.0))
        throw_out_of_range("pigment that always stays on the slab", loss.fixed.value(), "kg", "0 or more");
}

} // namespace

Mass pigment_lost(Mass pigment, const SlabLoss& loss) {
    if (!(pigment.value() >= 0.0)) throw_out_of_range("pigment mass", pigment.value(), "kg", "0 or more");
    check(loss);
    const Mass lost = loss.fixed + loss.share * pigment;
    return lost < pigment ? lost : pigment;
}

Mass pigment_kept(Mass pigment, const SlabLoss& loss) { return pigment - pigment_lost(pigment, loss); }

Mass pigment_to_keep(Mass kept, const SlabLoss& loss) {
    if (!(kept.value() >= 0.0)) throw_out_of_range("pigment to keep", kept.value(), "kg", "0 or more");
    check(loss);
    if (!(loss.share.value() < 1.0))
        throw_out_of_range("share lost on the slab", loss.share.value(), "", "below 1");
    if (!(kept.value() > 0.0)) return Mass();
    return (kept + loss.fixed) / complement(loss.share);
}

} // namespace lakebound
