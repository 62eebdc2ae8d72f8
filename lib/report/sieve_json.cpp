#include <nlohmann/json.hpp>

#include "lakebound/report/powder_words.hpp"
#include "lakebound/report/sieve_report.hpp"
#include "powder_json.hpp"

namespace lakebound {

namespace {

using namespace powder_json;

Json percentile_json(const Percentile& d) {
    return {{"um", in_micrometres(d.size)}, {"reach", key_of(d.reach)}};
}

Json percentiles_json(const Percentiles& p) {
    Json json{{"d10", percentile_json(p.d10)},
              {"d50", percentile_json(p.d50)},
              {"d80", percentile_json(p.d80)},
              {"d90", percentile_json(p.d90)}};
    if (p.span) json["span"] = *p.span;
    return json;
}

Json fit_json(const SizeFit& fit) {
    const double um = in_micrometres(fit.size);
    Json json{{"model", key_of(fit.model)},
              {"method", fit.method == FitMethod::non_linear ? "non_linear" : "linearised"},
              {"size_um", um},
              {"slope", fit.slope},
              {"r_squared", fit.r_squared},
              {"passing_deviation", fit.passing_deviation},
              {"points", fit.points},
              {"finest_um", in_micrometres(fit.finest)},
              {"coarsest_um", in_micrometres(fit.coarsest)}};
    if (fit.log_size_uncertainty) json["ln_size_standard_uncertainty"] = *fit.log_size_uncertainty;
    if (fit.log_slope_uncertainty) json["ln_slope_standard_uncertainty"] = *fit.log_slope_uncertainty;
    return json;
}

Json fractions_json(const SieveAnswer& answer) {
    Json rows = Json::array();
    for (std::size_t i = 0; i < answer.analysis.fractions.size(); ++i) {
        const auto& row = answer.analysis.fractions[i];
        Json json;
        if (row.aperture) {
            json["screen_um"] = in_micrometres(*row.aperture);
            json["designation"] = answer.record.sieves.at(i).designation;
            if (!answer.record.sieves.at(i).note.empty()) json["note"] = answer.record.sieves.at(i).note;
        } else {
            json["pan"] = true;
        }
        json["retained_g"] = in_grams(row.retained);
        json["fraction"] = computed_json(row.fraction.value(), row.fraction_uncertainty);
        json["cumulative_retained"] = row.cumulative_retained.value();
        json["passing"] = computed_json(row.passing.value(), row.passing_uncertainty);
        rows.push_back(std::move(json));
    }
    return rows;
}

Json verdict_json(const SieveVerdict& verdict) {
    Json json{{"verdict", key_of(verdict.verdict)},
              {"residue", residue_json(verdict.residue, verdict.with_loss)},
              {"as_weighed", key_of(verdict.as_weighed)},
              {"turned_by", key_of(verdict.turned_by)},
              {"separate_by", key_of(verdict.next)},
              {"dry_screens_clog", verdict.clogs}};
    if (verdict.smallest_seen) json["smallest_residue_seen"] = verdict.smallest_seen->value();
    if (verdict.charge_to_see) json["charge_to_see_g"] = in_grams(*verdict.charge_to_see);
    return json;
}

} // namespace

std::string sieve_json(const SieveAnswer& answer) {
    Json json = envelope("sieve_test", sieve_json_version);
    json["name"] = answer.record.name;
    json["method"] = word_of(answer.record.method);
    if (answer.record.grinding_time) json["grinding_time_min"] = in_minutes(*answer.record.grinding_time);
    if (answer.record.test.charge) json["charge_g"] = in_grams(*answer.record.test.charge);
    if (answer.record.density) json["density_g_per_cm3"] = in_grams_per_cubic_centimetre(*answer.record.density);
    json["recovered_g"] = in_grams(answer.analysis.recovered);
    if (answer.analysis.loss) json["loss"] = *answer.analysis.loss;
    json["allowed_loss"] = allowed_sieve_loss;
    json["closure"] = key_of(answer.analysis.closure);
    if (answer.record.test.scale_step) {
        json["scale_step_g"] = in_grams(*answer.record.test.scale_step);
        json["reading_uncertainty_g"] = answer.analysis.reading_uncertainty_g;
    }
    json["fractions"] = fractions_json(answer);
    if (answer.percentiles) json["percentiles"] = percentiles_json(*answer.percentiles);
    if (answer.fineness_modulus) json["fineness_modulus"] = *answer.fineness_modulus;
    json["fits"] = Json::array();
    for (const auto& curve : answer.fits) {
        Json fit = fit_json(curve.fit);
        if (curve.straight_line) fit["straight_line"] = fit_json(*curve.straight_line);
        if (curve.at_target) fit["passing_at_target"] = passing_json(*curve.at_target);
        if (curve.residual_at_target) fit["residual_at_target"] = *curve.residual_at_target;
        json["fits"].push_back(std::move(fit));
    }
    if (answer.best)
        json["best_fit"] = {{"model", key_of(answer.fits.at(answer.best->index).fit.model)},
                            {"told_apart", answer.best->told_apart},
                            {"reason", answer.best->reason}};
    if (!answer.no_fit.empty()) json["not_fitted"] = answer.no_fit;
    if (answer.wet)
        json["wet_residue"] = {
            {"residue", computed_json(answer.wet->residue.value(), answer.wet->standard_uncertainty)},
            {"smallest_seen", answer.wet->smallest_seen},
            {"below_scale", answer.wet->below_scale}};
    if (answer.surface)
        json["surface"] = {{"at_least_m2_per_kg", answer.surface->square_metres_per_kilogram},
                           {"from_screens_m2_per_kg", answer.surface->from_screens},
                           {"from_pan_m2_per_kg", answer.surface->from_pan},
                           {"assumed_pan_mean_um", in_micrometres(answer.surface_assumed->pan_mean)},
                           {"assumed_top_size_um", in_micrometres(answer.surface->top_size)}};
    json["regrind"] = Json::array();
    for (const auto& row : answer.regrind)
        json["regrind"].push_back({{"screen_um", in_micrometres(row.screen)},
                                   {"share", row.residue.share.value()},
                                   {"mass_g", in_grams(row.mass)}});
    if (answer.target) json["target"] = target_json(*answer.target);
    if (answer.verdict) json["fineness"] = verdict_json(*answer.verdict);
    json["cautions"] = cautions_json(PowderWork::sieving);
    return json_text(json);
}

} // namespace lakebound
