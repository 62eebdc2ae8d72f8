#pragma once
// Expectation propagation: pass-or-fail trials of several quantities that are known jointly.
//
// The belief before is jointly normal; each quantity with trials has one site, the product of its trials'
// logistic chances (threshold_site.hpp). Every site is replaced by exp(-precision s^2/2 + shift s), chosen so that
// the belief without that site (its cavity) times the replacement has the mean and variance of the cavity times
// the true site; all sites at once, again and again, until they agree (minka-2001; the stable form with
// B = I + S^1/2 K S^1/2, which never inverts K: rasmussen-williams-2006, 3.6).
// The sites are log-concave, so no precision is ever below 0. Two to nine sweeps are usual; from the 21st on
// a step goes half way only, and after the 60th a DomainError is thrown. "Agree": each quantity's mean within
// 1e-5 of its sd and sd within 1e-5 of itself. Deterministic.
// Accuracy: chances of a window within .1 point, .5 at worst, once the quantity asked for is treated exactly by the
// nodes of tilted_grid.hpp; a normal with these moments alone is off by up to .9 (measured on studios of 1 to 30
// jars). Put all trials of one quantity into one site: shared out over two the sd comes out 7 % short, as it does
// (8 %) for the slope of a bioassay of four doses.

#include <cstddef>
#include <span>
#include <vector>

#include "lakebound/estimate/joint_normal.hpp"
#include "lakebound/estimate/threshold_site.hpp"
#include "lakebound/export.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// Normal stand-ins of the sites: exp(-precision s^2/2 + shift s), one for each quantity with a site.
struct SiteMessages {
    std::vector<double> precision, shift;
};

struct Propagation {
    SiteMessages sites;
    double log_evidence = 0.0; ///< ln of the chance of all the trials
    std::size_t sweeps = 0;
};

/// The first trials.size() quantities of `prior` have sites (an empty list of trials is none). `start`: messages of
/// a like case to begin from, null to begin from none; the answer does not depend on it beyond 1e-5.
/// DomainError: more sites than quantities, messages of another number, trials that are none (see
/// tilted_moments), no agreement.
[[nodiscard]] Propagation propagate(const JointNormal& prior, std::span<const LogisticTrials> trials,
                                    const SiteMessages* start = nullptr);

/// Joint belief of the `wanted` quantities after the messages of all sites but those `without`.
[[nodiscard]] JointNormal with_messages(const JointNormal& prior, const SiteMessages& sites,
                                        std::span<const std::size_t> without, std::span<const std::size_t> wanted);

/// ln of the integral of the prior times all messages: compares priors under the same messages, for a choice of
/// those that are worth a run of their own.
[[nodiscard]] double log_mass_of_messages(const JointNormal& prior, const SiteMessages& sites);

} // namespace lakebound
