#include "lakebound/paint/batch_subject.hpp"

#include <utility>

namespace lakebound {

BatchSubject batch_subject(BatchRequest request, BenchTests tests) {
    BatchSubject subject;
    subject.request = std::move(request);
    subject.tests = std::move(tests.candidates);
    subject.answer = size_batch(subject.request);
    if (!subject.answer.batch) return subject;
    if (!subject.request.aim && !subject.request.recipe.aim) {
        subject.request.aim = chosen_aim(subject.request, subject.answer.batch->pigment);
        subject.answer = size_batch(subject.request);
        if (!subject.answer.batch) return subject;
    }
    const auto& window = subject.request.recipe.family.window;
    const auto& batch = *subject.answer.batch;
    subject.chance = batch_chance(subject.request, batch);
    // The maker gets what the rounded masses make.
    subject.judgement = judge(batch.sheet.film.k, subject.chance->doubt, window, batch.objections);
    if (subject.request.learned_doubt) return subject; // the record's own coach advises
    subject.next = next_measurement(*subject.judgement, subject.chance->doubt, subject.chance->spread,
                                    subject.tests, window, tests.rule);
    return subject;
}

bool is_good(const BatchSubject& subject) {
    return subject.judgement && subject.judgement->holds && !subject.answer.shortfall;
}

} // namespace lakebound
