#include "lakebound/report/batch_subject.hpp"

#include <algorithm>
#include <utility>

namespace lakebound {

BatchSubject batch_subject(BatchRequest request) {
    BatchSubject subject;
    subject.request = std::move(request);
    subject.answer = size_batch(subject.request);
    if (!subject.answer.batch) return subject;
    const auto& batch = *subject.answer.batch;
    subject.chance = batch_chance(subject.request, batch);
    subject.tests = common_tests();
    MeasurementRule rule;
    rule.limit = holding_limit(subject.request.recipe.family);
    subject.next = next_measurement(batch.film.k, subject.chance->spread, subject.tests, rule);
    return subject;
}

Verdict verdict_as_weighed(const Batch& batch, const Family& family) {
    return verdict(batch.sheet.film.k, family.window);
}

BinderSufficiency holding_limit(const Family& family) {
    return std::min(BinderSufficiency::of(1.0), family.window.amber_low);
}

} // namespace lakebound
