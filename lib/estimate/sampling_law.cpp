#include "lakebound/estimate/sampling_law.hpp"

#include <cmath>

#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/fisher_f.hpp>
#include <boost/math/distributions/students_t.hpp>

#include "lakebound/quantity/error.hpp"

namespace lakebound {
namespace {

// In double throughout: 1e-14 or better, and half of the templates.
using InDouble = boost::math::policies::policy<boost::math::policies::promote_float<false>,
                                               boost::math::policies::promote_double<false>>;
using Student = boost::math::students_t_distribution<double, InDouble>;
using ChiSquared = boost::math::chi_squared_distribution<double, InDouble>;
using Fisher = boost::math::fisher_f_distribution<double, InDouble>;

double degrees(double of_freedom) {
    if (!(of_freedom > 0.0 && std::isfinite(of_freedom)))
        throw_out_of_range("degrees of freedom", of_freedom, "", "above 0, finite");
    return of_freedom;
}

double inner(double p) {
    if (!(p > 0.0 && p < 1.0)) throw_out_of_range("probability", p, "", "above 0 and below 1");
    return p;
}

} // namespace

double student_quantile(double p, double degrees_of_freedom) {
    if (!(degrees_of_freedom > 0.0)) throw_out_of_range("degrees of freedom", degrees_of_freedom, "", "above 0");
    return boost::math::quantile(Student(degrees_of_freedom), inner(p));
}

double chi_squared_quantile(double p, double degrees_of_freedom) {
    return boost::math::quantile(ChiSquared(degrees(degrees_of_freedom)), inner(p));
}

double variance_ratio_exceeds(double ratio, double upper_degrees_of_freedom, double lower_degrees_of_freedom) {
    if (!(ratio >= 0.0 && std::isfinite(ratio))) throw_out_of_range("ratio of variances", ratio, "", "0 or more, finite");
    const Fisher law(degrees(upper_degrees_of_freedom), degrees(lower_degrees_of_freedom));
    return boost::math::cdf(boost::math::complement(law, ratio));
}

} // namespace lakebound
