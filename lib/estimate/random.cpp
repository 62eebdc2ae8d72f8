#include "lakebound/estimate/random.hpp"

#include <boost/random/normal_distribution.hpp>

namespace lakebound {

double standard_normal(RandomEngine& engine) { return boost::random::normal_distribution<double>{}(engine); }

void fill_standard_normal(RandomEngine& engine, std::span<double> out) {
    boost::random::normal_distribution<double> normal;
    RandomEngine local = engine; // kept in registers
    for (auto& z : out)
        z = normal(local);
    engine = local;
}

} // namespace lakebound
