#include "lakebound/record/kin_distance.hpp"

#include <cmath>
#include <vector>

#include "demand_check.hpp"
#include "demand_model.hpp"
#include "lakebound/record/learned_demand.hpp"

namespace lakebound {

KinDistance kin_distance(const DemandWorld& world, const DemandRecord& record, std::size_t jar) {
    check_record(world, record);
    check_index(jar, record.jars.size(), "jar asked about");
    DemandModel model(world, record);
    std::vector<NormalSum> sums, own;
    std::vector<double> values;
    KinDistance answer;
    for (std::size_t i = 0; i < record.rub_outs.size(); ++i) {
        const RubOutReading& r = record.rub_outs[i];
        (r.jar == jar ? own : sums).push_back(model.rub_out(r.jar, r.changes, i));
        if (r.jar == jar) answer.reading += log_reading(record, r);
        else values.push_back(log_reading(record, r));
    }
    answer.readings = own.size();
    if (own.empty()) return answer;
    const double n = static_cast<double>(own.size());
    answer.reading /= n;
    sums.insert(sums.end(), own.begin(), own.end());

    std::vector<double> logarithms, means, variances;
    const double repeat_spread = learned_repeat_spread(world.priors, record);
    for (const JarSpread& b : jar_spreads(world.priors)) {
        const auto v = model.variances(b.spread, 1.0, repeat_spread);
        const auto known = conditioned_on_first(joint_of_sums(sums, v), values);
        double mean = 0.0, variance = 0.0;
        for (const double m : known.rest.mean)
            mean += m / n;
        for (const double c : known.rest.covariance)
            variance += c / (n * n);
        logarithms.push_back(b.log_share + known.log_evidence);
        means.push_back(mean);
        variances.push_back(variance);
    }
    const auto shares = shares_of(logarithms);
    double second = 0.0;
    for (std::size_t i = 0; i < shares.size(); ++i) {
        answer.expected += shares[i] * means[i];
        second += shares[i] * (variances[i] + means[i] * means[i]);
    }
    answer.expected_spread = std::sqrt(second - answer.expected * answer.expected);
    answer.in_spreads = (answer.reading - answer.expected) / answer.expected_spread;
    return answer;
}

} // namespace lakebound
