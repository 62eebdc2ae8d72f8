#include "lakebound/estimate/input.hpp"

#include <numbers>

#include "lakebound/estimate/probability.hpp"
#include "lakebound/quantity/error.hpp"

namespace lakebound {

double draw(const Distribution& d, RandomEngine& engine) {
    switch (d.shape) {
    case Shape::exact:
        return d.location;
    case Shape::normal:
        return d.location + d.scale * standard_normal(engine);
    case Shape::lognormal:
        return d.location * std::exp(d.scale * standard_normal(engine));
    case Shape::rectangular:
    case Shape::arc_sine:
        return quantile(d, uniform(engine));
    }
    return d.location;
}

double quantile(const Distribution& d, double p) {
    if (!(p > 0.0 && p < 1.0)) throw_out_of_range("probability", p, "", "above 0 and below 1");
    switch (d.shape) {
    case Shape::exact:
        return d.location;
    case Shape::normal:
        return d.location + d.scale * standard_normal_quantile(p);
    case Shape::lognormal:
        return d.location * std::exp(d.scale * standard_normal_quantile(p));
    case Shape::rectangular:
        return d.location + d.scale * (2.0 * p - 1.0);
    // The inverse of 1/2 + asin(x/a)/pi; one to one, where sin(2 pi r) would fold the strata.
    case Shape::arc_sine:
        return d.location + d.scale * std::sin(std::numbers::pi * (p - 0.5));
    }
    return d.location;
}

} // namespace lakebound
