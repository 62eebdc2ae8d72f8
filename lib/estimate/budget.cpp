#include "lakebound/estimate/budget.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "lakebound/quantity/error.hpp"

namespace lakebound {
namespace {

constexpr double first_step = 1e-3;  ///< in standard uncertainties; truncation and rounding both near 1e-7
constexpr double second_step = 5e-2; ///< second and third derivatives need more room for rounding

void check(std::span<const UncertainInput> inputs, const CorrelationMatrix& correlation) {
    if (correlation.size() != 0 && correlation.size() != inputs.size())
        throw DomainError("size of the correlation matrix", std::to_string(correlation.size()),
                          std::to_string(inputs.size()) + ", the number of inputs");
    if (correlation.size() != 0 && !correlation.independent()) (void)correlation.factor();
    for (const auto& input : inputs) {
        const auto& d = input.distribution;
        if (!std::isfinite(d.location) || !(d.scale >= 0.0 && std::isfinite(d.scale)))
            throw DomainError(input.name, "not a finite number, or its uncertainty is not",
                              "finite, uncertainty 0 or more");
        if (!(input.degrees_of_freedom > 0.0))
            throw_out_of_range("degrees of freedom", input.degrees_of_freedom, "", "above 0");
    }
}

/// The differences every budget needs, over any number of outputs.
class Differences {
public:
    Differences(JointModel f, std::size_t outputs, std::span<const UncertainInput> inputs)
        : f_(f), inputs_(inputs), x_(inputs.size()), at_best_(outputs), above_(outputs), below_(outputs) {
        for (std::size_t i = 0; i < inputs.size(); ++i)
            x_[i] = inputs[i].distribution.location;
        evaluate(at_best_);
    }

    const std::vector<double>& at_best() const { return at_best_; }

    /// df/dz of all outputs for input i, z in standard uncertainties.
    void per_standard_uncertainty(std::size_t i, std::span<double> out) {
        const Distribution& d = inputs_[i].distribution;
        const double u = linear_uncertainty(d);
        // An uncertainty below the last digits of the value would step onto the value itself.
        const double least = 1e3 * std::numeric_limits<double>::epsilon() * std::abs(d.location) / u;
        const auto place = [&d](double z) { return at_standard_deviations(d, z); };
        // The step as the machine represents it; a lognormal's is exact in the logarithm.
        const auto width = [&](double z) {
            return d.shape == Shape::lognormal ? z : (place(z) - d.location) / u;
        };
        if (!slope(i, place, width, std::max(first_step, least), out))
            throw DomainError(inputs_[i].name, "at the very border of what the model accepts",
                              "room on one side for its uncertainty");
    }

    /// df/dx of all outputs for an input without uncertainty; 0 where the model accepts no other value.
    void per_unit(std::size_t i, std::span<double> out) {
        const double x = inputs_[i].distribution.location;
        const double h = std::cbrt(std::numeric_limits<double>::epsilon()) * (x != 0.0 ? std::abs(x) : 1.0);
        const auto place = [x](double dx) { return x + dx; };
        const auto width = [x](double dx) { return (x + dx) - x; };
        if (!slope(i, place, width, h, out)) std::fill(out.begin(), out.end(), 0.0);
    }

    /// f at z standard deviations along i and j (i may equal j: only the first counts), output 0.
    double moved(std::size_t i, double zi, std::size_t j, double zj) {
        x_[i] = at_standard_deviations(inputs_[i].distribution, zi);
        if (j != i) x_[j] = at_standard_deviations(inputs_[j].distribution, zj);
        evaluate(above_);
        x_[i] = inputs_[i].distribution.location;
        x_[j] = inputs_[j].distribution.location;
        return above_[0];
    }

private:
    template <class Place, class Width>
    bool slope(std::size_t i, Place place, Width width, double h, std::span<double> out) {
        const double best = x_[i];
        const bool up = try_evaluate(i, place(h), above_), down = try_evaluate(i, place(-h), below_);
        bool good = up || down;
        if (up && down) {
            for (std::size_t k = 0; k < out.size(); ++k)
                out[k] = (above_[k] - below_[k]) / (width(h) - width(-h));
        } else if (good) {
            // A border of the domain: a parabola through the best estimate and two points inside.
            const double s = up ? h : -h, a = width(s), b = width(2.0 * s);
            auto& near = up ? above_ : below_;
            auto& far = up ? below_ : above_;
            good = try_evaluate(i, place(2.0 * s), far);
            for (std::size_t k = 0; k < out.size(); ++k)
                out[k] = ((near[k] - at_best_[k]) * b / a - (far[k] - at_best_[k]) * a / b) / (b - a);
        }
        x_[i] = best;
        for (const double y : out)
            good = good && std::isfinite(y);
        return good;
    }
    void evaluate(std::span<double> out) {
        f_(x_, out);
        for (const double y : out)
            if (!std::isfinite(y)) throw_out_of_range("result of the model", y, "", "finite");
    }
    bool try_evaluate(std::size_t i, double x, std::span<double> out) {
        x_[i] = x;
        try {
            evaluate(out);
            return true;
        } catch (const DomainError&) {
            return false;
        }
    }

    JointModel f_;
    std::span<const UncertainInput> inputs_;
    std::vector<double> x_, at_best_, above_, below_;
};

double covariance_of(std::span<const double> a, std::span<const double> b, const CorrelationMatrix& r) {
    double sum = 0.0;
    for (std::size_t i = 0; i < a.size(); ++i) {
        sum += a[i] * b[i];
        if (r.size() == 0) continue;
        for (std::size_t j = 0; j < b.size(); ++j)
            if (j != i) sum += a[i] * r(i, j) * b[j];
    }
    return sum;
}

std::optional<double> effective_degrees_of_freedom(std::span<const UncertainInput> inputs,
                                                   std::span<const double> contributions, double variance,
                                                   const CorrelationMatrix& correlation) {
    double sum = 0.0;
    for (std::size_t i = 0; i < inputs.size(); ++i) {
        const double nu = inputs[i].degrees_of_freedom;
        if (std::isinf(nu) || contributions[i] == 0.0) continue;
        if (correlation.size() != 0 && correlation.correlated(i)) return std::nullopt;
        const double share = contributions[i] * contributions[i] / variance;
        sum += share * share / nu;
    }
    return sum > 0.0 ? 1.0 / sum : std::numeric_limits<double>::infinity();
}

/// sum_ij [f_ij^2 / 2 + f_i f_ijj], derivatives taken in units of standard deviations.
double second_order_variance(Differences& f, std::span<const UncertainInput> inputs,
                             std::span<const double> first) {
    const double h = second_step, f0 = f.at_best()[0];
    const auto uncertain = [&](std::size_t i) { return linear_uncertainty(inputs[i].distribution) > 0.0; };
    double sum = 0.0;
    for (std::size_t i = 0; i < inputs.size(); ++i) {
        if (!uncertain(i)) continue;
        const double p1 = f.moved(i, h, i, 0), m1 = f.moved(i, -h, i, 0);
        const double p2 = f.moved(i, 2 * h, i, 0), m2 = f.moved(i, -2 * h, i, 0);
        const double f_ii = (-p2 + 16 * p1 - 30 * f0 + 16 * m1 - m2) / (12 * h * h);
        const double f_iii = (p2 - 2 * p1 + 2 * m1 - m2) / (2 * h * h * h);
        sum += 0.5 * f_ii * f_ii + first[i] * f_iii;
        for (std::size_t j = 0; j < inputs.size(); ++j) {
            if (j == i || !uncertain(j)) continue;
            const double pp = f.moved(i, h, j, h), pm = f.moved(i, h, j, -h);
            const double mp = f.moved(i, -h, j, h), mm = f.moved(i, -h, j, -h);
            const double f_ij = (pp - pm - mp + mm) / (4 * h * h);
            const double f_ijj = ((pp - 2 * p1 + pm) - (mp - 2 * m1 + mm)) / (2 * h * h * h);
            sum += 0.5 * f_ij * f_ij + first[i] * f_ijj;
        }
    }
    return sum;
}

} // namespace

JointBudget joint_budget(JointModel f, std::size_t outputs, std::span<const UncertainInput> inputs,
                         const BudgetOptions& options) {
    if (outputs == 0) throw DomainError("number of outputs", "0", "1 or more");
    check(inputs, options.correlation);
    Differences differences(f, outputs, inputs);
    const std::size_t n = inputs.size();

    std::vector<std::vector<double>> contribution(outputs, std::vector<double>(n));
    std::vector<double> derivative(outputs);
    JointBudget joint;
    joint.outputs.resize(outputs);
    for (auto& b : joint.outputs)
        b.lines.resize(n);
    for (std::size_t i = 0; i < n; ++i) {
        const double u = linear_uncertainty(inputs[i].distribution);
        if (u > 0.0)
            differences.per_standard_uncertainty(i, derivative);
        else
            differences.per_unit(i, derivative);
        // A negative lognormal median mirrors the axis.
        const double slope =
            inputs[i].distribution.shape == Shape::lognormal && inputs[i].distribution.location < 0 ? -u : u;
        for (std::size_t k = 0; k < outputs; ++k) {
            contribution[k][i] = u > 0.0 ? derivative[k] : 0.0;
            auto& line = joint.outputs[k].lines[i];
            line.name = inputs[i].name;
            line.provenance = inputs[i].provenance;
            line.value = inputs[i].distribution.location;
            line.standard_uncertainty = u;
            line.sensitivity = u > 0.0 ? derivative[k] / slope : derivative[k];
            line.contribution = contribution[k][i];
        }
    }

    joint.covariance.resize(outputs * outputs);
    joint.correlation = CorrelationMatrix(outputs);
    for (std::size_t k = 0; k < outputs; ++k) {
        auto& b = joint.outputs[k];
        b.value = differences.at_best()[k];
        const double variance =
            std::max(covariance_of(contribution[k], contribution[k], options.correlation), 0.0);
        b.standard_uncertainty = std::sqrt(variance);
        for (std::size_t i = 0; i < n; ++i) {
            double row = contribution[k][i];
            if (options.correlation.size() != 0)
                for (std::size_t j = 0; j < n; ++j)
                    if (j != i) row += options.correlation(i, j) * contribution[k][j];
            b.lines[i].share = variance > 0.0 ? contribution[k][i] * row / variance : 0.0;
        }
        b.effective_degrees_of_freedom =
            effective_degrees_of_freedom(inputs, contribution[k], variance, options.correlation);
        if (options.second_order && (options.correlation.size() == 0 || options.correlation.independent())) {
            const JointModel all = f;
            std::vector<double> every(outputs);
            const auto one = [&](std::span<const double> x, std::span<double> y) {
                all(x, every);
                y[0] = every[k];
            };
            try {
                Differences single(one, 1, inputs);
                const double second = variance + second_order_variance(single, inputs, contribution[k]);
                if (second >= 0.0) b.second_order_uncertainty = std::sqrt(second);
            } catch (const DomainError&) {
                // Too near a border of the model for second differences: left empty.
            }
        }
    }
    for (std::size_t k = 0; k < outputs; ++k)
        for (std::size_t l = 0; l < outputs; ++l) {
            const double c = covariance_of(contribution[k], contribution[l], options.correlation);
            joint.covariance[k * outputs + l] = c;
            const double u = joint.outputs[k].standard_uncertainty * joint.outputs[l].standard_uncertainty;
            if (l > k && u > 0.0) joint.correlation.set(k, l, std::min(std::max(c / u, -1.0), 1.0));
        }
    return joint;
}

Budget budget(Model f, std::span<const UncertainInput> inputs, const BudgetOptions& options) {
    const auto joint = [&f](std::span<const double> x, std::span<double> y) { y[0] = f(x); };
    return std::move(joint_budget(joint, 1, inputs, options).outputs.front());
}

double first_order_uncertainty(Model f, std::span<const UncertainInput> inputs, const BudgetOptions& options) {
    check(inputs, options.correlation);
    const auto joint = [&f](std::span<const double> x, std::span<double> y) { y[0] = f(x); };
    Differences differences(joint, 1, inputs);
    std::vector<double> contribution(inputs.size(), 0.0);
    for (std::size_t i = 0; i < inputs.size(); ++i)
        if (linear_uncertainty(inputs[i].distribution) > 0.0)
            differences.per_standard_uncertainty(i, std::span(contribution).subspan(i, 1));
    return std::sqrt(std::max(covariance_of(contribution, contribution, options.correlation), 0.0));
}

} // namespace lakebound
