#include "lakebound/paint/spread.hpp"

#include <cmath>

#include "lakebound/estimate/probability.hpp"

namespace lakebound {
namespace {

/// Sensitivities of the logarithm of an output to ln q, ln V_b, ln m_p and ln rho_p.
struct LogSensitivity {
    double demand, binder, pigment, density;

    double of(SpreadTerm term) const {
        switch (term) {
        case SpreadTerm::oil_absorption:
        case SpreadTerm::method_transfer:
            return demand;
        case SpreadTerm::binder_solids:
        case SpreadTerm::binder_density:
            return binder;
        case SpreadTerm::moisture:
        case SpreadTerm::weighing:
            return pigment;
        case SpreadTerm::pigment_density:
            return density;
        }
        return 0.0;
    }
};

constexpr LogSensitivity of_sufficiency{-1.0, 1.0, -1.0, 0.0};

LogSensitivity of_pvc(BinderSufficiency k, CriticalPigmentVolumeConcentration c) {
    const double rest = 1.0 - pigment_volume_concentration(k, c).value();
    return {0.0, -rest, rest, -rest};
}

LogSensitivity of_reduced_pvc(BinderSufficiency k, CriticalPigmentVolumeConcentration c) {
    const double pvc = pigment_volume_concentration(k, c).value();
    return {1.0 - c.value(), -(1.0 - pvc), 1.0 - pvc, pvc - c.value()};
}

VarianceShares variances(const LogSpread& spread, const LogSensitivity& sensitivity) {
    VarianceShares v{};
    for (std::size_t i = 0; i < v.size(); ++i) {
        const double s = spread.term(spread_terms[i]);
        if (!(s >= 0.0 && std::isfinite(s))) throw_out_of_range("spread of an input", s, "", "0 or more");
        const double part = s * sensitivity.of(spread_terms[i]);
        v[i] = part * part;
    }
    return v;
}

double sum(const VarianceShares& v) {
    double total = 0.0;
    for (const double x : v)
        total += x;
    return total;
}

VarianceShares shares(VarianceShares v) {
    const double total = sum(v);
    for (double& x : v)
        x = total > 0.0 ? x / total : 0.0;
    return v;
}

double* find(LogSpread& s, SpreadTerm which) {
    switch (which) {
    case SpreadTerm::oil_absorption:
        return &s.oil_absorption;
    case SpreadTerm::method_transfer:
        return &s.method_transfer;
    case SpreadTerm::binder_solids:
        return &s.binder_solids;
    case SpreadTerm::binder_density:
        return &s.binder_density;
    case SpreadTerm::moisture:
        return &s.moisture;
    case SpreadTerm::weighing:
        return &s.weighing;
    case SpreadTerm::pigment_density:
        return &s.pigment_density;
    }
    return &s.oil_absorption;
}

} // namespace

double LogSpread::term(SpreadTerm which) const {
    LogSpread copy = *this;
    return *find(copy, which);
}

LogSpread LogSpread::with(SpreadTerm which, double log_standard_deviation) const {
    LogSpread copy = *this;
    *find(copy, which) = log_standard_deviation;
    return copy;
}

double sufficiency_spread(const LogSpread& s) { return std::sqrt(sum(variances(s, of_sufficiency))); }
double pvc_spread(const LogSpread& s, BinderSufficiency k, CriticalPigmentVolumeConcentration c) {
    return std::sqrt(sum(variances(s, of_pvc(k, c))));
}
double reduced_pvc_spread(const LogSpread& s, BinderSufficiency k, CriticalPigmentVolumeConcentration c) {
    return std::sqrt(sum(variances(s, of_reduced_pvc(k, c))));
}

VarianceShares sufficiency_variance_shares(const LogSpread& s) { return shares(variances(s, of_sufficiency)); }
VarianceShares pvc_variance_shares(const LogSpread& s, BinderSufficiency k,
                                   CriticalPigmentVolumeConcentration c) {
    return shares(variances(s, of_pvc(k, c)));
}
VarianceShares reduced_pvc_variance_shares(const LogSpread& s, BinderSufficiency k,
                                           CriticalPigmentVolumeConcentration c) {
    return shares(variances(s, of_reduced_pvc(k, c)));
}

Probability chance_below(const UnsureSufficiency& belief, BinderSufficiency limit) {
    return Probability::of(lognormal_probability_below(belief.k.value(), belief.sigma, limit.value()));
}
Probability chance_above(const UnsureSufficiency& belief, BinderSufficiency limit) {
    // The mirror image of "below", so that a small chance keeps its digits.
    return Probability::of(lognormal_probability_below(limit.value(), belief.sigma, belief.k.value()));
}
BinderSufficiency sufficiency_for_risk(Probability risk, double sigma, BinderSufficiency limit) {
    return BinderSufficiency::of(lognormal_median_for_risk(limit.value(), sigma, risk.value()));
}

} // namespace lakebound
