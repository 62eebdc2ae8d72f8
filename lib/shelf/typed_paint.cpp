#include "lakebound/shelf/typed_paint.hpp"

#include "lakebound/shelf/maker_files.hpp"
#include "lakebound/paint/medium_fit.hpp"
#include "lakebound/material/name.hpp"
#include "lakebound/quantity/ratio_arithmetic.hpp"
#include "lakebound/quantity/rounded_text.hpp"
#include "lakebound/quantity/shown_text.hpp"
#include "lakebound/shelf/medium_file.hpp"
#include "typed_paint_steps.hpp"

namespace lakebound {

void TypedPaint::measure_blend(PvcQuestion& question) {
    auto& recipe = question.request.recipe;
    if (recipe.pigments.size() < 2)
        throw typed_fault("blend-single", "there is one pigment: nothing is blended",
                          "give its oil absorption as --oil-absorption");
    if (!question.density_known)
        throw typed_fault("density-missing", "a blend needs the density of every pigment",
                          "give it: --density \"ID: 1.88 g/cm3\"");
    bool assumed = false;
    const double doubt = one_rub_out_spread(question.request.practice.rub_out);
    const auto oil_absorption =
        figure_option<OilAbsorption>("--blend-oil-absorption", *texts_.blend_oil_absorption, doubt, assumed);
    auto blend =
        pigment_of_blend(recipe.pigments, oil_absorption, recipe.pigments.front().pigment.test_oil_density);
    blend.name = "Blend";
    question.blend_measured = true;
    // Without the oil absorption of each there is no additive rule to compare with.
    if (question.oil_absorption_known) question.blend_of = recipe.pigments;
    question.oil_absorption_known = true;
    recipe.pigments = {{std::move(blend), MassFraction::of(1.0)}};
    if (assumed)
        assumed_.push_back("The oil absorption of the blend was typed without an uncertainty: taken as one rub-out, times or "
                           "divided by " + significant_text(std::exp(doubt), 3) + ".");
}

std::size_t TypedPaint::jar_part(const Recipe& recipe) const {
    for (std::size_t i = 0; i < recipe.pigments.size(); ++i)
        if (recipe.pigments[i].pigment.id == jar_->pigment.id) return i;
    throw typed_fault("jar-not-used", "a jar is named, and nothing is taken from it",
                      "leave --jar out, or say how much of it: --pigment \"jar: 6 g\"");
}

void TypedPaint::take_up_record(PvcQuestion& question) {
    if (!recorded_ || !question.request.jar || texts_.without_record || !texts_.oil_absorptions.empty()) return;
    RecordWish wish;
    wish.today = today_here();
    outlook_ = outlook_of(*recorded_, question.request.recipe, bench_, library_, wish);
    if (outlook_)
        take_up(question.request, question.request.jar->pigment, *outlook_,
                {jar_->reference_oil_absorption.value(), jar_->reference_test_oil});
}

PvcQuestion TypedPaint::finish(PvcQuestion question) {
    auto& recipe = question.request.recipe;
    check_labels(recipe);
    if (medium_misfit(recipe.medium, recipe.family.process)) {
        const auto words = misfit_words(recipe.medium, recipe.family, library_);
        throw typed_fault("medium-unfit", words.message, words.hint);
    }
    if (jar_ && !texts_.jar_may_rest && !texts_.blend_oil_absorption)
        question.request.jar = JarOnHand{jar_part(recipe), jar_->net_mass.value(), jar_->remains};
    ask_of_remains(question.request, library_);
    recipe.vessel.reset();
    question.request.bench = bench_;
    question.request.amount = question.pigment;
    question.request.practice = library_.practice();
    std::vector<std::string> names;
    for (const auto& part : recipe.pigments)
        names.push_back(short_name(part.pigment.name));
    if (texts_.blend_oil_absorption) measure_blend(question);
    take_up_record(question);
    question.request.aim = chosen_aim(question.request, question.pigment);
    const auto formulation = formulate(recipe, *question.request.aim);
    question.title += mass_text(question.pigment) + " of " + name_list(names) + " with " +
                      mass_text(formulation.medium_per_pigment * question.pigment) + " of " +
                      name_in_sentence(recipe.medium.name);
    if (!parts_read_.empty()) question.title += " (" + parts_read_ + ")";
    question.assumed = assumed_;
    if (bench_assumed_ && !texts_.humidity && takes_water_from_air(recipe.family.process))
        question.assumed.emplace_back("No bench file was found: a room of " + percent_text(bench_.humidity.value()) + " humidity (--humidity).");
    return question;
}

PvcQuestion TypedPaint::typed() {
    PvcQuestion question;
    set_pigments(question);
    set_binder(question);
    if (!question.oil_absorption_known && !question.density_known && !texts_.blend_oil_absorption)
        throw typed_fault(
            "oil-absorption-missing", "how much oil this powder takes up is not known: k hangs on it",
            "give it as --oil-absorption \"68 g/100g\" (a rub-out takes ten minutes), or name a pigment of "
            "the shelf: --pigment \"alumina-lake: 10 g\"");
    return finish(std::move(question));
}

PvcQuestion TypedPaint::by_recipe(const std::string& name, const StandardInput& standard_input) {
    PvcQuestion question;
    auto& recipe = question.request.recipe;
    recipe = find_recipe(name, library_, jar_ ? &*jar_ : nullptr, standard_input);
    if (jar_) {
        try {
            (void)jar_in_recipe(recipe, *jar_);
        } catch (const InputError&) {
            if (!texts_.jar_may_rest) throw;
        }
    }
    if (texts_.family) recipe.family = library_.family(*texts_.family);
    for (auto& part : recipe.pigments) {
        TypedPigment typed{part.pigment, {}, true, true, true};
        overlay(typed, recipe.pigments.size() == 1);
        part.pigment = typed.pigment;
    }
    bool assumed = false;
    question.pigment = total(assumed);
    if (texts_.used) {
        if (assumed)
            throw typed_fault("amount-missing",
                              "--used says how much medium went in, but not to how much pigment",
                              "add --total \"10 g\"");
        question.request.aim = MediumPerPigment::of(used_mass(question) / question.pigment);
    }
    question.title = recipe.name + ": ";
    return finish(std::move(question));
}

PvcQuestion TypedPaint::by_weigh_sheet(WeighedPaint paint) {
    for (const auto& [given, name] : {std::pair{texts_.total.has_value(), "--total"}, std::pair{texts_.used.has_value(), "--used"},
                                      std::pair{texts_.family.has_value(), "--family"}})
        if (given)
            throw typed_fault("option-unread", "'" + std::string(name) + "' would not be read: a weigh sheet says what went in, of what kind of paint",
                              "leave it out, or name the recipe instead of its sheet");
    PvcQuestion question;
    question.request.recipe = std::move(paint.recipe);
    question.pigment = paint.pigment;
    question.request.aim = paint.medium_per_pigment;
    if (paint.learned_spread && texts_.oil_absorptions.empty())
        question.request.learned_doubt = NormalMixture(*paint.learned_spread);
    question.title = question.request.recipe.name + ", as weighed: ";
    for (auto& part : question.request.recipe.pigments) {
        TypedPigment typed{part.pigment, {}, true, true, true};
        overlay(typed, question.request.recipe.pigments.size() == 1);
        part.pigment = typed.pigment;
    }
    return finish(std::move(question));
}

namespace {

bool looks_like_json(const std::string& path) { return path.ends_with(".json"); }

void refuse_with_recipe(const PaintTexts& texts) {
    const std::pair<bool, const char*> given[] = {{!texts.pigments.empty(), "--pigment"},
                                                  {!texts.binders.empty(), "--binder"},
                                                  {texts.parts.has_value(), "--parts"},
                                                  {texts.paste.has_value(), "--paste"}};
    for (const auto& [is_given, name] : given)
        if (is_given)
            throw typed_fault(
                "option-conflict", "a recipe and '" + std::string(name) + "' cannot both be met",
                "with a recipe, say how much: --total \"10 g\" of pigment, --used \"40 g\" of its medium");
}

} // namespace

namespace {

PvcQuestion asked_of(TypedPaint& paint, const std::string& recipe, Library& library, const StandardInput& standard_input) {
    if (recipe == "-") {
        const auto bytes = standard_input();
        const auto first = bytes.find_first_not_of(" \t\r\n");
        if (first != std::string::npos && bytes[first] == '{')
            return paint.by_weigh_sheet(
                read_weighed_paint(load_document(std::string(standard_input_path), bytes), library));
        return paint.by_recipe(recipe, [&bytes] { return bytes; });
    }
    if (looks_like_json(recipe)) return paint.by_weigh_sheet(read_weighed_paint(load_document(recipe), library));
    return paint.by_recipe(recipe, standard_input);
}

} // namespace

PvcQuestion paint_question(const std::string& recipe, const PaintTexts& texts, Library& library,
                           const StandardInput& standard_input) {
    refuse_with_recipe(texts);
    TypedPaint paint(texts, library);
    return asked_of(paint, recipe, library, standard_input);
}

PvcQuestion paint_question(const PaintTexts& texts, Library& library, const StandardInput& standard_input,
                           std::optional<JarOutlook>* outlook) {
    if (texts.recipe) refuse_with_recipe(texts);
    else if (texts.pigments.empty())
        throw typed_fault(
            "paint-missing", "what paint is not said",
            "name a recipe, or type it: --pigment \"10 g\" --oil-absorption \"68 g/100g\" --binder "
            "\"gum-water: 40 g\"");
    TypedPaint paint(texts, library);
    auto question = texts.recipe ? asked_of(paint, *texts.recipe, library, standard_input) : paint.typed();
    if (outlook != nullptr) *outlook = paint.outlook();
    return question;
}

} // namespace lakebound
