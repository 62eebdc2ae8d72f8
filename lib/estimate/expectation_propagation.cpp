#include "lakebound/estimate/expectation_propagation.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>

#include <Eigen/Cholesky>
#include <Eigen/Core>

#include "eigen_index.hpp"
#include "lakebound/quantity/error.hpp"

namespace lakebound {
namespace {

using Index = Eigen::Index;
using Matrix = Eigen::MatrixXd;
using Vector = Eigen::VectorXd;

constexpr double agreement = 1e-5;
constexpr double unmoved = 1e-7; ///< of a cavity: its site is not worked out again
constexpr std::size_t undamped_sweeps = 20, most_sweeps = 60;
constexpr double least_precision = 1e-12;

/// The quantities with messages, and the belief after them.
class MessagesOverPrior {
public:
    MessagesOverPrior(const JointNormal& prior, std::vector<std::size_t> active)
        : prior_(prior), active_(std::move(active)) {
        const Index n = index(active_.size());
        covariance_.resize(n, n);
        mean_.resize(n);
        precision_.setZero(n);
        shift_.setZero(n);
        for (Index i = 0; i < n; ++i) {
            mean_[i] = prior.mean[at(i)];
            for (Index j = 0; j < n; ++j)
                covariance_(i, j) = prior.covariance_of(at(i), at(j));
        }
    }

    std::size_t at(Index i) const { return active_[static_cast<std::size_t>(i)]; }
    Index size() const { return mean_.size(); }
    Vector& precision() { return precision_; }
    Vector& shift() { return shift_; }

    /// B = I + S^1/2 K S^1/2, factored; pull = shift - precision x prior mean.
    void factor() {
        root_ = precision_.cwiseSqrt();
        b_ = root_.asDiagonal() * covariance_ * root_.asDiagonal();
        b_.diagonal().array() += 1.0;
        factor_.compute(b_);
        pull_ = shift_ - precision_.cwiseProduct(mean_);
    }
    /// Means and variances of the active quantities; after factor().
    void marginals(Vector& mean, Vector& variance) {
        spread_ = root_.asDiagonal() * covariance_;
        factor_.matrixL().solveInPlace(spread_);
        variance = covariance_.diagonal() - spread_.colwise().squaredNorm().transpose();
        mean = mean_ + covariance_ * pull_ - spread_.transpose() * (spread_ * pull_);
    }
    /// ln of the integral of prior times messages; after factor().
    double log_mass() const {
        const Vector carried = covariance_ * pull_;
        const Vector lost = factor_.matrixL().solve(Vector(root_.cwiseProduct(carried)));
        double sum = 0.5 * (pull_.dot(carried) - lost.squaredNorm());
        for (Index i = 0; i < size(); ++i)
            sum += mean_[i] * (shift_[i] - 0.5 * precision_[i] * mean_[i]) -
                   std::log(factor_.matrixLLT()(i, i));
        return sum;
    }
    /// Joint belief of any quantities of the prior; after factor().
    JointNormal joint(std::span<const std::size_t> wanted) const {
        const std::size_t n = wanted.size();
        Matrix cross(size(), index(n));
        for (Index i = 0; i < size(); ++i)
            for (std::size_t j = 0; j < n; ++j)
                cross(i, index(j)) = prior_.covariance_of(at(i), wanted[j]);
        const Matrix spread = factor_.matrixL().solve(Matrix(root_.asDiagonal() * cross));
        const Vector carried = factor_.matrixL().solve(Vector(root_.cwiseProduct(covariance_ * pull_)));
        const Vector moved = cross.transpose() * pull_ - spread.transpose() * carried;
        const Matrix known = spread.transpose() * spread;
        JointNormal answer{std::vector<double>(n), std::vector<double>(n * n)};
        for (std::size_t i = 0; i < n; ++i) {
            answer.mean[i] = prior_.mean[wanted[i]] + moved[index(i)];
            for (std::size_t j = 0; j < n; ++j)
                answer.covariance[i * n + j] =
                    prior_.covariance_of(wanted[i], wanted[j]) - known(index(i), index(j));
        }
        return answer;
    }

private:
    const JointNormal& prior_;
    std::vector<std::size_t> active_;
    Matrix covariance_, b_, spread_;
    Vector mean_, precision_, shift_, root_, pull_;
    Eigen::LLT<Matrix> factor_;
};

/// ln of the integral of N(s; mean, variance) exp(-precision s^2/2 + shift s).
double log_message_mass(double mean, double variance, double precision, double shift) {
    const double pull = shift - precision * mean, widened = 1.0 + precision * variance;
    return mean * (shift - 0.5 * precision * mean) + 0.5 * pull * pull * variance / widened -
           0.5 * std::log(widened);
}

void check_messages(const JointNormal& prior, const SiteMessages& sites) {
    if (sites.precision.size() != sites.shift.size() || sites.precision.size() > prior.size())
        throw DomainError("number of messages", std::to_string(sites.precision.size()),
                          "one precision and one shift for each site");
    for (const double p : sites.precision)
        if (!(p >= 0.0 && std::isfinite(p)))
            throw_out_of_range("precision of a message", p, "", "0 or more, finite");
}

MessagesOverPrior over_prior(const JointNormal& prior, const SiteMessages& sites,
                             std::span<const std::size_t> without = {}) {
    check_messages(prior, sites);
    std::vector<std::size_t> active;
    for (std::size_t i = 0; i < sites.precision.size(); ++i)
        if (sites.precision[i] > 0.0 && std::find(without.begin(), without.end(), i) == without.end())
            active.push_back(i);
    MessagesOverPrior state(prior, std::move(active));
    for (Index i = 0; i < state.size(); ++i) {
        state.precision()[i] = sites.precision[state.at(i)];
        state.shift()[i] = sites.shift[state.at(i)];
    }
    state.factor();
    return state;
}

} // namespace

Propagation propagate(const JointNormal& prior, std::span<const LogisticTrials> trials,
                      const SiteMessages* start) {
    if (trials.size() > prior.size())
        throw DomainError("number of sites", std::to_string(trials.size()),
                          "at most the " + std::to_string(prior.size()) + " quantities");
    if (start) {
        check_messages(prior, *start);
        if (start->precision.size() != trials.size())
            throw DomainError("number of messages", std::to_string(start->precision.size()),
                              "as many as sites: " + std::to_string(trials.size()));
    }
    std::vector<std::size_t> active;
    for (std::size_t i = 0; i < trials.size(); ++i)
        if (!trials[i].empty()) active.push_back(i);
    MessagesOverPrior state(prior, std::move(active));
    const Index n = state.size();
    Vector& precision = state.precision();
    Vector& shift = state.shift();
    for (Index i = 0; start && i < n; ++i) {
        precision[i] = start->precision[state.at(i)];
        shift[i] = start->shift[state.at(i)];
    }

    Propagation answer;
    Vector mean, variance;
    Vector cavity_mean = Vector::Constant(n, std::numeric_limits<double>::infinity());
    Vector cavity_variance = Vector::Zero(n);
    std::vector<TiltedMoments> tilted(static_cast<std::size_t>(n));
    for (bool agreed = false; !agreed;) {
        if (answer.sweeps == most_sweeps)
            throw DomainError("learning from trials", "no agreement after 60 sweeps",
                              "sites that settle", "look for trials of very unlike widths on one quantity");
        ++answer.sweeps;
        state.factor();
        state.marginals(mean, variance);
        agreed = true;
        const double part = answer.sweeps > undamped_sweeps ? 0.5 : 1.0;
        for (Index i = 0; i < n; ++i) {
            const double cavity_precision = 1.0 / variance[i] - precision[i];
            const double v = 1.0 / cavity_precision, m = v * (mean[i] / variance[i] - shift[i]);
            TiltedMoments& t = tilted[static_cast<std::size_t>(i)];
            const double sd = std::sqrt(variance[i]);
            if (!(std::abs(m - cavity_mean[i]) < unmoved * sd &&
                  std::abs(v - cavity_variance[i]) < unmoved * v)) {
                t = tilted_moments(m, v, trials[state.at(i)]);
                cavity_mean[i] = m;
                cavity_variance[i] = v;
            }
            if (std::abs(t.mean - mean[i]) > agreement * sd ||
                std::abs(t.variance - variance[i]) > 2.0 * agreement * variance[i])
                agreed = false;
            const double wanted = std::max(1.0 / t.variance - cavity_precision, least_precision);
            const double wanted_shift = t.mean * (wanted + cavity_precision) - m * cavity_precision;
            precision[i] += part * (wanted - precision[i]);
            shift[i] += part * (wanted_shift - shift[i]);
        }
    }

    state.factor();
    answer.log_evidence = state.log_mass();
    answer.sites = {std::vector<double>(trials.size(), 0.0), std::vector<double>(trials.size(), 0.0)};
    for (Index i = 0; i < n; ++i) {
        answer.log_evidence += tilted[static_cast<std::size_t>(i)].log_mass -
                               log_message_mass(cavity_mean[i], cavity_variance[i], precision[i], shift[i]);
        answer.sites.precision[state.at(i)] = precision[i];
        answer.sites.shift[state.at(i)] = shift[i];
    }
    return answer;
}

JointNormal with_messages(const JointNormal& prior, const SiteMessages& sites,
                          std::span<const std::size_t> without, std::span<const std::size_t> wanted) {
    for (const std::size_t w : wanted)
        if (w >= prior.size())
            throw DomainError("quantity wanted", std::to_string(w), "one of the " + std::to_string(prior.size()));
    return over_prior(prior, sites, without).joint(wanted);
}

double log_mass_of_messages(const JointNormal& prior, const SiteMessages& sites) {
    return over_prior(prior, sites).log_mass();
}

} // namespace lakebound
