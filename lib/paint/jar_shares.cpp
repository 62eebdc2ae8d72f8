#include "lakebound/paint/jar_shares.hpp"

#include <algorithm>

namespace lakebound {

std::optional<JarShares> jar_shares(const BatchRequest& request, const Batch& batch) {
    if (!request.jar || !batch.left_in_jar) return std::nullopt;
    JarShares shares;
    shares.in_jar = request.jar->net_mass;
    shares.stays = *batch.left_in_jar;
    shares.drawn = shares.in_jar - shares.stays;
    const double of_jar = batch.pigment.value() > 0.0 ? shares.drawn.value() / batch.pigment.value() : 0.0;
    shares.to_slab = std::min(batch.loss, batch.pigment) * of_jar;
    const Mass kept = shares.drawn - shares.to_slab;
    shares.in_vessels = kept;
    if (batch.filling && batch.filling->vessels > 0)
        shares.in_vessels =
            std::min(kept, batch.filling->pigment_per_vessel * (static_cast<double>(batch.filling->vessels) * of_jar));
    shares.left_over = kept - shares.in_vessels;
    shares.reserve = std::min(request.bench.reserve, shares.stays);
    return shares;
}

} // namespace lakebound
