#pragma once
// Breakage of grains in a mortar: the population balance with first-order selection.
//
// Each class of size loses mass in proportion to what it holds (selection) and gives it to the finer
// classes in fixed proportions (breakage function). The finest class only gains.

#include <boost/units/systems/si/frequency.hpp>
#include <cstddef>
#include <span>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/quantity/units.hpp"

namespace LAKEBOUND_EXPORT lakebound {

using BreakageRate = boost::units::quantity<si::frequency>; ///< 1/s
[[nodiscard]] constexpr BreakageRate per_minute(double x) { return BreakageRate::from_value(x / 60.0); }
[[nodiscard]] constexpr double in_per_minute(BreakageRate r) { return r.value() * 60.0; }

/// S_i = a (x_i / x_1)^alpha. Range: a 0 or more, alpha 0 to 5. Source: austin-1984 (value from memory).
struct SelectionFunction {
    BreakageRate top;      ///< a, of the coarsest class
    double exponent = 1.0; ///< alpha
};

/// B(r) = phi r^gamma + (1 - phi) r^beta, the share of the fragments finer than r times the parent size.
/// Range: phi 0 to 1, gamma and beta above 0. Normalised: the same for every parent.
/// Source: austin-1984 (value from memory).
struct BreakageFunction {
    double phi = 1.0;
    double gamma = 0.9;
    double beta = 5.8;
};
/// B(r) for r from 0 to 1.
[[nodiscard]] double cumulative_breakage(const BreakageFunction& breakage, double ratio);

/// What the population balance needs to know.
struct BreakageModel {
    /// Upper size of each class, coarse to fine: the largest grain, then every screen. The last class is
    /// what passes the finest screen. Two classes at least.
    std::vector<Length> class_sizes;
    SelectionFunction selection;
    BreakageFunction breakage;
    /// c: fines cushion the grains, so that every rate is divided by 1 + c F, F the share of the mortar's load
    /// that is finer than the finest screen. 0 is first-order grinding. A little below 0 stands for what the
    /// width of the classes hides: grains of first order look faster by and by. Range: least_cushioning up.
    double cushioning = 0.0;
};
/// The most that the width of the classes is taken to hide (estimate).
inline constexpr double least_cushioning = -0.4;

/// The population balance, ready to run:
///   (1 + c F) dw_i/dt = -S_i w_i + sum_{j<i} b_ij S_j w_j,  b_ij = B(x_i / x_j+1) - B(x_i+1 / x_j+1),
/// With c = 0 it is first order and
/// solved by uniformisation: with L = max S and P = I + A/L, exp(A t) = sum_k Poisson(k; L t) P^k. Every
/// term is 0 or more, so nothing cancels and no class turns negative; masses add up to 1e-12.
/// Cushioning slows all rates alike, so it bends the clock and not the path: with s the first-order time,
///   t = s + c (integral of F over s), and the classes are those of first order after s.
/// Origin of 1 + c F: estimate; a form of ours for the cushioning that makers see.
/// Source: equation koka-trass-1988 and reid-1965; uniformisation after jensen-1953 (value from memory).
class PopulationBalance {
public:
    /// Errors: DomainError for sizes that do not fall, and parameters out of their range.
    explicit PopulationBalance(const BreakageModel& model);

    std::size_t classes() const noexcept { return rates_.size(); }
    /// S_i in 1/s; 0 for the last class.
    double selection_rate(std::size_t i) const { return rates_.at(i); }
    /// b_ij, the share of class j's fragments that land in class i.
    double fragments(std::size_t i, std::size_t j) const;

    /// Grinds class masses (any unit, coarse to fine) for a time, in place.
    /// Range: time 0 or more, masses 0 or more, one per class, fastest rate times time finite. Errors: DomainError.
    void grind(std::span<double> masses, Time time) const;
    /// The same as if nothing cushioned the grains: `first_order` is s above.
    void grind_unhindered(std::span<double> masses, Time first_order) const;
    /// Integral over s of the mass finer than the finest screen, on the way from `before` to `after` in the
    /// first-order time s; masses of any sign. Exact: dW_i S_i = w_i(0) - w_i(s) + what W_j broke into it.
    double fines_over_time(std::span<const double> before, std::span<const double> after,
                           Time first_order) const;
    /// The clock time of that way: s + c times the integral, for masses that add up to `total`.
    Time clock_time(std::span<const double> before, std::span<const double> after, Time first_order) const;
    /// dw_i/ds at these masses, 1/s.
    void flow(std::span<const double> masses, std::span<double> out) const;
    double cushioning() const noexcept { return cushioning_; }
    bool cushioned() const noexcept { return cushioning_ < 0.0 || cushioning_ > 0.0; }

private:
    void substeps(std::span<double> masses, double span) const;
    void squared(std::span<double> masses, double span) const;

    std::vector<double> rates_;     // S_i, 1/s
    std::vector<double> fragments_; // b_ij, row by row, n x n
    std::vector<double> jump_;      // P, lower triangle packed row by row
    double uniform_rate_ = 0.0;     // L, 1/s
    double cushioning_ = 0.0;       // c
};

/// Share of the mass coarser than a class limit: the sum of the classes above class_sizes[limit].
/// Range: limit 1 to the number of classes less one. Errors: DomainError.
[[nodiscard]] double residue_above(std::span<const double> fractions, std::size_t limit);

/// The class limit that is this screen. Errors: DomainError when the model has no such screen: it cannot
/// see between its screens, nor below the finest.
[[nodiscard]] std::size_t class_limit(const BreakageModel& model, Length screen);

/// Time until the share above a class limit has fallen to `target`; 0 when it already has.
/// Trap: with selection falling with size, a feed whose grains sit just above the limit can take longer than
/// one of coarser grains, which break sooner and past it. Material that was ground further never does.
/// Range: target above 0 and below 1, reached within `longest`. Errors: DomainError when it is not.
[[nodiscard]] Time time_to_residue(const PopulationBalance& balance, std::span<const double> feed, std::size_t limit,
                                   double target, Time longest = hours(1000));

} // namespace lakebound
