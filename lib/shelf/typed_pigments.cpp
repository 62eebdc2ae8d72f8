#include "typed_paint_steps.hpp"

#include <algorithm>
#include <cmath>

#include "lakebound/shelf/maker_files.hpp"
#include "lakebound/material/basis.hpp"
#include "lakebound/material/moisture.hpp"
#include "lakebound/material/rub_out.hpp"
#include "lakebound/material/sorption.hpp"
#include "lakebound/material/name.hpp"
#include "lakebound/quantity/rounded_text.hpp"
#include "lakebound/shelf/domain_fault.hpp"
#include "lakebound/shelf/pigment_file.hpp"

namespace lakebound {

namespace {

template <class Held> bool all_hold(const std::vector<TypedPigment>& pigments) {
    return std::all_of(pigments.begin(), pigments.end(),
                       [](const TypedPigment& each) { return std::holds_alternative<Held>(each.amount); });
}

} // namespace

TypedPaint::TypedPaint(const PaintTexts& texts, Library& library) : texts_(texts), library_(library) {
    auto found = find_bench(texts.bench, library);
    bench_ = std::move(found.bench);
    bench_assumed_ = found.assumed;
    if (texts.jar) {
        recorded_ = recorded_jar(library.jar_path(*texts.jar), library, today_here());
        jar_ = recorded_->jar;
        for (auto* each : {&texts_.oil_absorptions, &texts_.densities, &texts_.moistures,
                            &texts_.tapped_densities, &texts_.median_sizes})
            for (auto& text : *each)
                if (const auto given = labelled("", text); given.label == "jar")
                    text = jar_->pigment.id + ": " + given.text;
    }
    if (texts.humidity) {
        bench_.humidity = quantity_option<RelativeHumidity>("--humidity", *texts.humidity);
        if (bench_.humidity.value() > highest_sorption_humidity)
            throw typed_fault("out-of-range", "--humidity \"" + *texts.humidity + "\": must be 0 to 92.5 %",
                              "in wetter air gum and honey take up water without end");
    }
}

std::optional<Estimate<OilAbsorption>> TypedPaint::expected_oil_absorption(const TypedPigment& typed) {
    if (!typed.oil_absorption_known) return std::nullopt;
    const auto& pigment = typed.pigment;
    if (pigment.oil_absorption_belief) return pigment.oil_absorption_belief->expected;
    if (pigment.oil_absorption->provenance().origin != Origin::measured) return pigment.oil_absorption;
    // A weigh sheet knows what was believed, not what the library expected before.
    if (library_.find(ShelfKind::pigment, pigment.id)) return library_.pigment(pigment.id).oil_absorption;
    return std::nullopt;
}

void TypedPaint::set_moisture(TypedPigment& typed, const std::string& text, MeasuredAsItLies own) {
    bool ignored = false;
    const auto now = figure_option<MassFraction>("--moisture", text, library_.practice().typed.reading, ignored,
                                                 powder_moisture_range());
    try {
        if (typed.of_shelf)
            typed.pigment = at_moisture(std::move(typed.pigment), now, own);
        else
            typed.pigment.moisture = now;
    } catch (const DomainError& error) {
        throw typed_fault("out-of-range", "--moisture \"" + text + "\": " + domain_sentence(error), error.mend());
    }
}

void TypedPaint::overlay(TypedPigment& typed, bool only_pigment) {
    auto& pigment = typed.pigment;
    const auto figure = [&](const std::string& option, const std::vector<std::string>& texts) {
        return text_for(option, texts, pigment.id, only_pigment);
    };
    const TypedDoubts doubts = library_.practice().typed;
    bool assumed_oil = false, assumed_density = false, ignored = false;
    if (const auto text = figure("--density", texts_.densities)) {
        pigment.density = figure_option<MassDensity>("--density", *text, doubts.density, assumed_density, range::density);
        pigment.density_state = texts_.bone_dry ? MoistureState::bone_dry : MoistureState::as_weighed;
        typed.density_known = true;
    }
    if (const auto text = figure("--moisture", texts_.moistures))
        set_moisture(typed, *text, {figure("--density", texts_.densities).has_value(), false});
    if (const auto text = figure("--oil-absorption", texts_.oil_absorptions)) {
        const auto& prior = library_.practice().rub_out;
        const auto reading = figure_option<OilAbsorption>("--oil-absorption", *text, one_rub_out_spread(prior),
                                                          assumed_oil);
        if (const auto expected = expected_oil_absorption(typed)) {
            pigment.oil_absorption_belief = {reading, *expected};
            pigment.oil_absorption = believed_oil_absorption(*expected, reading, prior);
        } else {
            pigment.oil_absorption = reading;
        }
        typed.oil_absorption_known = true;
    }
    if (const auto text = figure("--tapped-density", texts_.tapped_densities))
        pigment.tapped_density = figure_option<MassDensity>("--tapped-density", *text, doubts.reading, ignored, range::density);
    if (const auto text = figure("--median-size", texts_.median_sizes))
        pigment.median_size = figure_option<Length>("--median-size", *text, doubts.reading, ignored, range::grain_size);
    if (texts_.test_oil) {
        pigment.test_oil_density =
            figure_option<MassDensity>("--test-oil", *texts_.test_oil, doubts.bought_oil, ignored, range::density);
    }
    if (pigment.density_state == MoistureState::bone_dry && !pigment.moisture)
        throw typed_fault("moisture-missing",
                          "a bone-dry density goes with a bone-dry mass; the powder is weighed as it is",
                          "say how damp it is: --moisture \"15 % w/w\", or give the density as weighed");
    if (assumed_oil)
        assumed_.push_back("The oil absorption of " + short_name(pigment.name) +
                           " was typed without an uncertainty: taken as one rub-out, times or divided by " +
                           significant_text(std::exp(one_rub_out_spread(library_.practice().rub_out)), 3) + ".");
    if (assumed_density)
        assumed_.push_back("The density of " + short_name(pigment.name) +
                           " was typed without an uncertainty: taken as good to " + percent_text(doubts.density) + ".");
}

TypedPigment TypedPaint::typed_pigment(const Labelled& given, bool only_pigment) {
    TypedPigment typed;
    // "alumina-lake" alone names a powder; "10 g" alone is an amount of one without a name.
    auto label = given.label;
    auto amount = given.text;
    if (label.empty() && is_id(amount) && amount[0] > '9') std::swap(label, amount);
    if (!amount.empty()) typed.amount = read_amount("--pigment", amount, bench_.kitchen, true);
    auto& pigment = typed.pigment;
    pigment.id = label.empty() ? "pigment" : label;
    const bool jar = label == "jar" || (jar_ && (label.empty() ? only_pigment : label == jar_->pigment.id));
    const bool own_figures =
        text_for("--oil-absorption", texts_.oil_absorptions, pigment.id, only_pigment).has_value() ||
        text_for("--density", texts_.densities, pigment.id, only_pigment).has_value();
    if (jar && !jar_) throw typed_fault("jar-missing", "--pigment \"jar\": no jar is named", "add --jar FILE");
    if (jar) {
        pigment = jar_->pigment;
        typed.of_shelf = true;
        typed.oil_absorption_known = typed.density_known = true;
    } else if (!label.empty() && (library_.find(ShelfKind::pigment, label) || !own_figures)) {
        pigment = library_.pigment(label); // throws with the nearest names
        typed.of_shelf = true;
        typed.oil_absorption_known = typed.density_known = true;
    } else {
        pigment.name = label.empty() ? "pigment" : label;
        // Stand-ins that no report shows: the flags say that they are not known.
        const Pigment& stand_in = library_.pigment(library_.powder_habits().usual_powder);
        const auto& oil_absorption = stand_in.oil_absorption.value();
        const Provenance unknown{.origin = Origin::estimate, .source = "stands in for what is not known", .stand_in = true};
        pigment.oil_absorption = Estimate<OilAbsorption>::lognormal(
            oil_absorption.value(), std::exp(oil_absorption.distribution().scale), unknown);
        pigment.density = Estimate<MassDensity>::exact(stand_in.density.value(), unknown);
        const auto& practice = library_.practice();
        const MassDensity oil = practice.test_oil.value();
        pigment.test_oil_density =
            Estimate<MassDensity>::normal(oil, practice.typed.bought_oil * oil, practice.test_oil.provenance());
    }
    overlay(typed, only_pigment);
    return typed;
}

void TypedPaint::check_labels(const Recipe& recipe) const {
    const auto check = [&recipe](const std::string& option, const std::vector<std::string>& texts) {
        for (const auto& text : texts) {
            const auto label = labelled(option, text).label;
            if (label.empty()) continue;
            std::string names;
            bool known = false;
            for (const auto& part : recipe.pigments) {
                known = known || part.pigment.id == label;
                names += (names.empty() ? "" : ", ") + part.pigment.id;
            }
            if (!known)
                throw typed_fault("label-unknown",
                                  option + " \"" + text + "\": there is no pigment '" + label +
                                      "' in this paint",
                                  "its pigments are " + names);
        }
    };
    check("--oil-absorption", texts_.oil_absorptions);
    check("--density", texts_.densities);
    check("--moisture", texts_.moistures);
    check("--tapped-density", texts_.tapped_densities);
    check("--median-size", texts_.median_sizes);
}

Mass TypedPaint::total(bool& assumed) const {
    assumed = !texts_.total;
    return assumed ? grams(10.0) : positive_option<Mass>("--total", *texts_.total, bench_.kitchen);
}

std::vector<double> TypedPaint::shares_of(const std::vector<TypedPigment>& pigments, bool density_known) const {
    const bool by_volume = all_hold<VolumeFraction>(pigments);
    std::vector<double> shares;
    double sum = 0.0;
    for (const auto& each : pigments) {
        shares.push_back(by_volume ? std::get<VolumeFraction>(each.amount).value()
                                   : std::get<MassFraction>(each.amount).value());
        sum += shares.back();
    }
    if (!(std::abs(sum - 1.0) <= 0.001))
        throw typed_fault("share-sum",
                          "the shares of the pigments add up to " + percent_text(sum) + ", not to 100 %",
                          "mend the share that is wrong, or give the amounts: --pigment \"chalk: 3 g\"");
    for (auto& x : shares)
        x /= sum;
    if (!by_volume) return shares;
    if (!density_known)
        throw typed_fault("density-missing", "shares by volume need the density of every pigment",
                          "give it: --density \"ID: 1.88 g/cm3\", or give shares by weight (% w/w)");
    std::vector<BlendPigment> blend;
    std::vector<VolumeFraction> volumes;
    for (std::size_t i = 0; i < pigments.size(); ++i) {
        blend.push_back(blend_pigment(pigments[i].pigment));
        volumes.push_back(VolumeFraction::of(std::min(1.0, shares[i])));
    }
    shares.clear();
    for (const auto& x : mass_shares(blend, volumes))
        shares.push_back(x.value());
    return shares;
}

std::vector<Mass> TypedPaint::masses_of(const std::vector<TypedPigment>& pigments, PvcQuestion& question) {
    std::vector<Mass> masses;
    for (const auto& each : pigments) {
        const auto name = short_name(each.pigment.name);
        if (const auto* mass = std::get_if<Mass>(&each.amount)) {
            masses.push_back(*mass);
        } else if (const auto* volume = std::get_if<Volume>(&each.amount)) {
            if (!each.pigment.tapped_density)
                throw typed_fault("bulk-density-missing",
                                  "a volume of powder holds air: what a spoonful of " + name +
                                      " weighs is not known",
                                  "weigh it, or give --tapped-density \"" + each.pigment.id + ": 0.35 g/cm3\"");
            question.request.by_volume.push_back({masses.size(), *each.pigment.tapped_density});
            masses.push_back(mass_of_bulk(*volume, each.pigment.tapped_density->value()));
            assumed_.push_back("A volume of " + name + " is what a tapped spoon holds, air and all.");
        } else {
            throw typed_fault(
                "amount-missing", "how much " + name + " is not said, or not as of the others",
                "give masses of all (--pigment \"chalk: 3 g\") or shares of all (\"chalk: 30 % w/w\")");
        }
    }
    return masses;
}

void TypedPaint::set_pigments(PvcQuestion& question) {
    const bool only = texts_.pigments.size() == 1;
    std::vector<TypedPigment> pigments;
    for (const auto& text : texts_.pigments) {
        auto each = typed_pigment(labelled("--pigment", text), only);
        if (std::any_of(pigments.begin(), pigments.end(),
                        [&each](const auto& other) { return other.pigment.id == each.pigment.id; }))
            throw typed_fault("pigment-twice", "--pigment \"" + text + "\": a second pigment of the same name",
                              "give each a name of its own: --pigment \"chalk: 3 g\"");
        question.oil_absorption_known = question.oil_absorption_known && each.oil_absorption_known;
        question.density_known = question.density_known && each.density_known;
        pigments.push_back(std::move(each));
    }
    bool assumed = false;
    std::vector<double> shares;
    if (all_hold<MassFraction>(pigments) || all_hold<VolumeFraction>(pigments)) {
        shares = shares_of(pigments, question.density_known);
        question.pigment = total(assumed);
    } else if (only && all_hold<std::monostate>(pigments)) {
        shares = {1.0};
        question.pigment = total(assumed);
    } else {
        const auto masses = masses_of(pigments, question);
        if (texts_.total)
            throw typed_fault("option-conflict", "'--total' and the amounts of the pigments cannot both be met",
                              "leave --total out, or give shares in %");
        for (const auto& mass : masses)
            question.pigment += mass;
        for (const auto& mass : masses)
            shares.push_back(mass / question.pigment);
    }
    if (assumed && !texts_.parts)
        throw typed_fault("amount-missing", "how much pigment is not said",
                          "add --total \"10 g\", or write the amount: --pigment \"" +
                              pigments.front().pigment.id + ": 10 g\"");
    for (std::size_t i = 0; i < pigments.size(); ++i)
        question.request.recipe.pigments.push_back(
            {std::move(pigments[i].pigment), MassFraction::of(std::min(1.0, shares[i]))});
}

} // namespace lakebound
