#include "lakebound/paint/pvc_subject.hpp"

#include <utility>

namespace lakebound {

namespace {

QuickCheck check_of(const PvcQuestion& question, const Batch& batch) {
    const auto& mixture = batch.formulation.pigment;
    const auto& family = question.request.recipe.family;
    QuickQuestion quick;
    quick.pigment = batch.pigment;
    // Any test oil will do, for k sees only the quotient; the usual one keeps the figure readable.
    quick.test_oil = question.request.practice.test_oil.value();
    if (question.oil_absorption_known)
        quick.oil_absorption =
            OilAbsorption::from_proven(canonical(mixture.demand) * canonical(quick.test_oil));
    if (question.density_known) quick.pigment_density = mixture.density;
    quick.binders.push_back({"binder", batch.volumes.dry_binder, MassFraction::of(1.0), {}, {}});
    quick.binder_index = family.binder_index.value();
    quick.window = family.window;
    return quick_check(quick);
}

std::optional<Blend> blend_of(const PvcQuestion& question) {
    const auto& parts = question.blend_measured ? question.blend_of : question.request.recipe.pigments;
    if (parts.size() < 2 || !question.density_known || !question.oil_absorption_known) return std::nullopt;
    std::vector<BlendPigment> pigments;
    std::vector<MassFraction> shares;
    for (const auto& part : parts) {
        pigments.push_back(blend_pigment(part.pigment));
        shares.push_back(part.share);
    }
    std::optional<MeasuredBlend> measured;
    if (question.blend_measured) {
        const auto& pigment = question.request.recipe.pigments.front().pigment;
        measured = MeasuredBlend{pigment.oil_absorption.value().value(), pigment.test_oil_density.value()};
    }
    return blend(pigments, shares, measured);
}

PaintOnSlab on_slab(const Batch& batch, bool density_known) {
    PaintOnSlab paint{batch.pigment, batch.formulation.effective_demand, batch.volumes.dry_binder, {}};
    if (density_known) paint.pigment_density = batch.formulation.pigment.density;
    return paint;
}

std::vector<BatchLine> parts_of(const Medium& medium, Mass mass) {
    std::vector<BatchLine> parts;
    const auto fractions = part_mass_fractions(medium);
    for (std::size_t i = 0; i < fractions.size(); ++i) {
        const auto& ingredient = medium.parts[i].ingredient;
        parts.push_back({ingredient.id, ingredient.name, mass * fractions[i].value(), std::nullopt,
                         counts_as_binder(ingredient.role)});
    }
    return parts;
}

RescueAnswer rescue_of(const PvcQuestion& question, const Batch& batch, const BatchSubject& base) {
    const auto& wish = *question.rescue;
    const auto& recipe = question.request.recipe;
    const RescueMedium medium{batch.formulation.medium.dry_binder, batch.formulation.medium.density};
    std::optional<JarLeft> jar;
    if (wish.jar)
        jar = JarLeft{*wish.jar, question.request.bench.reserve};
    else if (batch.left_in_jar)
        jar = JarLeft{*batch.left_in_jar, question.request.bench.reserve};
    const auto paint = on_slab(batch, question.density_known);
    RescueAnswer answer;
    const auto& judgement = *base.judgement;
    const auto& doubt = base.chance->doubt;
    const auto& window = recipe.family.window;
    answer.by_accepted_chance = !wish.aim && wish.accepted;
    answer.aim = wish.aim        ? *wish.aim
                 : wish.accepted ? nearest_aim(judgement.k, doubt, window, *wish.accepted)
                                 : judgement.likeliest_aim;
    if (answer.by_accepted_chance)
        answer.accepted_in_reach =
            !(judgement.in_window_there.value() < 1.0 - wish.accepted->value() - 1e-9);
    answer.rescue = rescue(paint, answer.aim, medium, jar);
    const bool sticky = batch.watercolour && batch.watercolour->soft_share > recipe.family.soft_share.soft_to;
    const Ingredient* gum = nullptr;
    if (sticky || wish.soft_aim)
        for (const auto& part : recipe.medium.parts)
            if (part.ingredient.role == Role::gum && part.ingredient.solids_density) gum = &part.ingredient;
    if (gum != nullptr)
        answer.sticky = rescue_sticky(
            paint, sorbing_binder(recipe, batch.composition, batch.volumes.dry_binder),
            question.request.bench.humidity, wish.soft_aim.value_or(recipe.family.soft_share.good_to), answer.aim,
            gum->solids_density->value(), complement(gum->non_volatile.value()), medium, jar);
    answer.medium_parts = parts_of(recipe.medium, answer.last().medium);
    const auto& rescued = answer.last().paint;
    answer.checked = binder_sufficiency(rescued.dry_binder, rescued.pigment, rescued.demand);
    // k is known as well as before: what limits it is the pigment.
    answer.chances = window_chances(answer.checked, doubt, window);
    return answer;
}

} // namespace

PvcSubject pvc_subject(PvcQuestion question) {
    PvcSubject subject;
    subject.question = std::move(question);
    const auto& asked = subject.question;
    subject.base.request = asked.request;
    subject.base.answer.batch = batch_of(asked.request, asked.pigment);
    const auto& batch = subject.batch();
    subject.check = check_of(asked, batch);
    subject.blend = blend_of(asked);
    if (subject.check.spare_binder && batch.formulation.medium.dry_binder.value() > 0.0)
        subject.spare_medium = *subject.check.spare_binder / batch.formulation.medium.dry_binder;
    if (!subject.check.k) return subject;
    subject.base.chance = batch_chance(asked.request, batch);
    subject.base.tests = asked.tests.candidates;
    const auto& window = subject.family().window;
    const auto& doubt = subject.base.chance->doubt;
    subject.base.judgement = judge(*subject.check.k, doubt, window, batch.objections);
    if (!asked.request.learned_doubt) // else the record's own coach advises
        subject.base.next = next_measurement(*subject.base.judgement, doubt, subject.base.chance->spread,
                                             subject.base.tests, window, asked.tests.rule);
    if (asked.rescue) subject.rescue = rescue_of(asked, batch, subject.base);
    return subject;
}

bool will_not_hold(const PvcSubject& subject) {
    return subject.base.judgement && !subject.base.judgement->holds;
}

} // namespace lakebound
