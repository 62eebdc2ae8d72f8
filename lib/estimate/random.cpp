#include "lakebound/estimate/random.hpp"

#include <cmath>

namespace lakebound {
namespace {

// The tables are made by the compiler, with elementary functions of our own: the mathematical
// library of the machine has no say in them.
constexpr double square_root(double x) {
    double r = x > 1.0 ? x : 1.0;
    for (int i = 0; i < 60; ++i)
        r = 0.5 * (r + x / r);
    return r;
}
constexpr double exponential(double x) { // x from -20 to 1
    const double y = x / 64.0;
    double sum = 1.0;
    for (int n = 18; n > 0; --n)
        sum = 1.0 + y * sum / n;
    for (int i = 0; i < 6; ++i)
        sum *= sum;
    return sum;
}
constexpr double logarithm(double x) { // x from 1e-4 to 1
    double y = x - 1.0;
    for (int i = 0; i < 30; ++i)
        y += x * exponential(-y) - 1.0;
    return y;
}
constexpr double density(double x) { return exponential(-0.5 * x * x); }

constexpr int layers = 256;
constexpr double tail_start = 3.6541528853610088;    ///< where 256 layers of equal area close
constexpr double layer_area = 0.0049286732339746606; ///< the lowest includes the tail

struct Ziggurat {
    double edge[layers + 1] =
        {}; ///< right end of each layer, falling; edge[0] is that of the box with the tail's area
    double height[layers + 1] = {}; ///< exp(-edge^2/2)
    double unit[layers] = {};       ///< edge / 2^52
};

constexpr Ziggurat make_ziggurat() {
    Ziggurat z;
    z.edge[0] = layer_area / density(tail_start);
    z.edge[1] = tail_start;
    z.height[0] = 0.0;
    z.height[1] = density(tail_start);
    for (int i = 1; i < layers - 1; ++i) {
        z.height[i + 1] = z.height[i] + layer_area / z.edge[i];
        z.edge[i + 1] = square_root(-2.0 * logarithm(z.height[i + 1]));
    }
    z.edge[layers] = 0.0;
    z.height[layers] = 1.0;
    for (int i = 0; i < layers; ++i)
        z.unit[i] = z.edge[i] * 0x1p-52;
    return z;
}

constexpr Ziggurat ziggurat = make_ziggurat();
static_assert(ziggurat.height[layers - 1] + layer_area / ziggurat.edge[layers - 1] - 1.0 < 1e-13);
static_assert(ziggurat.height[layers - 1] + layer_area / ziggurat.edge[layers - 1] - 1.0 > -1e-13);

/// Beyond tail_start: an exponential under which the normal tail lies (marsaglia-1964).
double tail(RandomEngine& engine) {
    for (;;) {
        const double x = -std::log(uniform(engine)) / tail_start;
        if (-2.0 * std::log(uniform(engine)) > x * x) return tail_start + x;
    }
}

/// The one draw in eighty that does not lie wholly inside its layer.
[[gnu::noinline]] bool outside(RandomEngine& engine, int layer, double& x) {
    if (layer == 0) {
        x = x < 0.0 ? -tail(engine) : tail(engine);
        return true;
    }
    const double low = ziggurat.height[layer], high = ziggurat.height[layer + 1];
    return low + uniform(engine) * (high - low) < std::exp(-0.5 * x * x);
}

inline double next(RandomEngine& engine) {
    for (;;) {
        const std::uint64_t bits = engine();
        const int layer = static_cast<int>(bits & 255u);
        // The upper 53 bits as a signed number: value and sign in one, apart from the layer's bits.
        double x = static_cast<double>(static_cast<std::int64_t>(bits) >> 11) * ziggurat.unit[layer];
        if (std::abs(x) < ziggurat.edge[layer + 1]) [[likely]]
            return x;
        RandomEngine escaped = engine; // so that the engine itself may stay in registers
        const bool good = outside(escaped, layer, x);
        engine = escaped;
        if (good) return x;
    }
}

} // namespace

double standard_normal(RandomEngine& engine) { return next(engine); }

void fill_standard_normal(RandomEngine& engine, std::span<double> out) {
    RandomEngine local = engine; // kept in registers
    for (auto& z : out)
        z = next(local);
    engine = local;
}

} // namespace lakebound
