#include "lakebound/paint/working.hpp"

#include <charconv>
#include <cmath>

#include "lakebound/material/density.hpp"
#include "lakebound/quantity/portable.hpp"

namespace lakebound {
namespace {

// GCC 12 warns falsely of overlap (-Wrestrict) where a literal is put before a temporary string.
using namespace std::string_literals;

// Five digits are what a reader can follow with a pocket calculator.
std::string digits(double x) { return detail::chars_of(x, std::chars_format::general, 5); }
std::string g(Mass m) { return digits(in_grams(m)); }
std::string ml(Volume v) { return digits(in_millilitres(v)); }
std::string density_text(MassDensity d) { return digits(in_grams_per_cubic_centimetre(d)); }

class Working {
public:
    Working(const BatchRequest& request, const Batch& batch)
        : request_(request), recipe_(request.recipe), batch_(batch), f_(batch.formulation) {}

    std::vector<WorkingStep> steps() {
        demand();
        aim();
        medium();
        sizing();
        film();
        volumes();
        vessels();
        weighing();
        family();
        return std::move(steps_);
    }

private:
    void add(WorkingTopic topic, std::string name, std::string symbol, std::string formula,
             std::string substituted, double result, std::string unit) {
        steps_.push_back({topic, std::move(name), std::move(symbol), std::move(formula), std::move(substituted),
                          result, std::move(unit)});
    }

    std::string index(std::size_t i, std::size_t of) const { return of > 1 ? std::to_string(i + 1) : ""; }

    void demand() {
        const std::size_t n = recipe_.pigments.size();
        std::string demands, volumes;
        for (std::size_t i = 0; i < n; ++i) {
            const PigmentPart& part = recipe_.pigments[i];
            const Pigment& p = part.pigment;
            const SpecificVolume q = demand_of(part);
            const bool learned = part.step_from_oil < 1.0 || part.step_from_oil > 1.0;
            add(WorkingTopic::demand, "binder demand of "s + p.name, "q"s + index(i, n),
                learned ? "OA / (100 rho_o) x s" : "OA / (100 rho_o)",
                digits(in_grams_per_100_grams(p.oil_absorption.value().value())) + " / (100 x "s +
                    density_text(p.test_oil_density.value()) + ")" + (learned ? " x " + digits(part.step_from_oil) : ""s),
                in_millilitres_per_gram(q), "mL/g");
            const MassDensity rho = as_weighed_density(p);
            if (p.density_state == MoistureState::bone_dry && p.moisture)
                add(WorkingTopic::demand, "density of "s + p.name + " as weighed", "rho_p"s + index(i, n),
                    "1 / ((1 - w) / rho_dry + w / 1.000)",
                    "1 / ((1 - "s + digits(p.moisture->value().value()) + ") / "s +
                        density_text(p.density.value()) + " + "s + digits(p.moisture->value().value()) +
                        " / 1.000)",
                    in_grams_per_cubic_centimetre(rho), "g/mL");
            const std::string plus = i == 0 ? "" : " + ", share = digits(part.share.value());
            demands += plus + share + " x "s + digits(in_millilitres_per_gram(q));
            volumes += plus + share + " / "s + density_text(rho);
        }
        if (n > 1) {
            add(WorkingTopic::demand, "binder demand of the pigments together", "q", "sum x_i q_i", demands,
                in_millilitres_per_gram(f_.pigment.demand), "mL/g");
            add(WorkingTopic::demand, "density of the pigments together", "rho_p", "1 / sum (x_i / rho_i)",
                "1 / ("s + volumes + ")", in_grams_per_cubic_centimetre(f_.pigment.density), "g/mL");
        }
        const double e = recipe_.family.binder_index.value().value();
        if (e < 1.0)
            add(WorkingTopic::demand, "demand on a binder that reaches the share e of the voids", "q_e",
                "q / e", digits(in_millilitres_per_gram(f_.pigment.demand)) + " / "s + digits(e),
                in_millilitres_per_gram(f_.effective_demand), "mL/g");
        add(WorkingTopic::demand, "critical pigment volume concentration", "CPVC",
            "1 / (1 + "s + q_ + " rho_p)",
            "1 / (1 + "s + digits(in_millilitres_per_gram(f_.effective_demand)) + " x "s +
                density_text(f_.pigment.density) + ")",
            batch_.film.cpvc.value(), "");
    }

    void aim() {
        const std::string c = digits(batch_.film.cpvc.value());
        const double k = f_.k.value();
        if (std::holds_alternative<BinderSufficiency>(batch_.aim))
            add(WorkingTopic::aim, "binder sufficiency aimed at", "k", "the aim", "", k, "");
        else if (const auto* lambda = std::get_if<ReducedPigmentVolumeConcentration>(&batch_.aim))
            add(WorkingTopic::aim, "binder sufficiency for the reduced PVC aimed at", "k",
                "(1 / Lambda - CPVC) / (1 - CPVC)",
                "(1 / "s + digits(lambda->value()) + " - "s + c + ") / (1 - "s + c + ")", k, "");
        else if (const auto* pvc = std::get_if<PigmentVolumeConcentration>(&batch_.aim))
            add(WorkingTopic::aim, "binder sufficiency for the PVC aimed at", "k",
                "(1 / PVC - 1) / (1 / CPVC - 1)",
                "(1 / "s + digits(pvc->value()) + " - 1) / (1 / "s + c + " - 1)", k, "");
        else
            add(WorkingTopic::aim, "medium per pigment asked for", "M", "the aim", "",
                f_.medium_per_pigment.value(), "g/g");
    }

    void medium() {
        std::string sum;
        for (std::size_t i = 0; i < recipe_.medium.parts.size(); ++i) {
            const Ingredient& part = recipe_.medium.parts[i].ingredient;
            if (!(dry_binder_volume(part, grams(1.0)).value() > 0.0)) continue;
            sum += (sum.empty() ? "" : " + ") + digits(f_.medium.parts[i].value()) + " x "s +
                   digits(part.non_volatile.value().value()) + " / "s +
                   density_text(part.solids_density->value());
        }
        add(WorkingTopic::medium, "dry binder in a gram of medium", "v_b", "sum w_i n_i / rho_s,i", sum,
            in_millilitres_per_gram(f_.medium.dry_binder), "mL/g");
        std::string mixed;
        for (std::size_t i = 0; i < recipe_.medium.parts.size(); ++i)
            mixed += (i == 0 ? "" : " + ") + digits(f_.medium.parts[i].value()) + " x "s +
                     ml(mixed_volume(recipe_.medium.parts[i].ingredient, grams(1.0)));
        // A powder dissolves: it takes the room of its solids and of its water, n / rho_s + (1 - n) / rho_w.
        add(WorkingTopic::medium, "density of the medium as mixed, powders dissolved", "rho_m",
            "1 / sum (w_i v_i), v_i = 1 / rho_i or n_i / rho_s,i + (1 - n_i) / rho_w", "1 / ("s + mixed + ")",
            in_grams_per_cubic_centimetre(f_.medium.density), "g/mL");
    }

    void sizing() {
        const Mass m = batch_.pigment;
        // After a shortfall of even one vessel the batch is simply all there is.
        if (const auto* n = std::get_if<VesselCount>(&request_.amount);
            n && batch_.filling && batch_.filling->vessels > 0) {
            const SlabLoss& loss = request_.bench.slab_loss;
            // After a shortfall the batch may be smaller than the vessels asked for.
            const int whole = batch_.filling->vessels < n->count ? batch_.filling->vessels : n->count;
            add(WorkingTopic::sizing,
                "pigment to weigh for "s + std::to_string(whole) + " x "s + n->vessel.name, "m_p",
                "(n m_v + a) / (1 - b)",
                "("s + std::to_string(whole) + " x "s + g(batch_.filling->pigment_per_vessel) + " + "s +
                    g(loss.fixed) + ") / (1 - "s + digits(loss.share.value()) + ")",
                in_grams(m), "g");
        } else {
            add(WorkingTopic::sizing, "pigment", "m_p", "the amount", "", in_grams(m), "g");
        }
        const SpecificVolume q = f_.effective_demand;
        if (!std::holds_alternative<MediumPerPigment>(batch_.aim))
            add(WorkingTopic::sizing, "dry binder", "V_b", "k m_p "s + q_,
                digits(f_.k.value()) + " x "s + g(m) + " x "s + digits(in_millilitres_per_gram(q)),
                in_millilitres(batch_.volumes.dry_binder), "mL");
        Volume added;
        for (std::size_t i = 0; i < recipe_.additives.size(); ++i) {
            const Additive& a = recipe_.additives[i];
            const Volume brings = dry_binder_volume(a.ingredient, batch_.composition.additives[i]);
            added += brings;
            const Mass of = a.basis == DoseBasis::medium    ? batch_.medium
                            : a.basis == DoseBasis::pigment ? m
                                                            : total_mass(batch_.composition);
            add(WorkingTopic::sizing, a.ingredient.name, "a"s + index(i, recipe_.additives.size()),
                a.basis == DoseBasis::medium    ? "d m_m"
                : a.basis == DoseBasis::pigment ? "d m_p"
                                                : "d m_paint",
                digits(a.dose.value()) + " x "s + g(of), in_grams(batch_.composition.additives[i]), "g");
        }
        if (std::holds_alternative<MediumPerPigment>(batch_.aim))
            add(WorkingTopic::sizing, "medium", "m_m", "M m_p",
                digits(f_.medium_per_pigment.value()) + " x "s + g(m), in_grams(batch_.medium), "g");
        else
            add(WorkingTopic::sizing, "medium", "m_m",
                added.value() > 0.0 ? "(V_b - V_additives) / v_b" : "V_b / v_b",
                (added.value() > 0.0 ? "("s + ml(batch_.volumes.dry_binder) + " - "s + ml(added) + ")"
                                     : ml(batch_.volumes.dry_binder)) +
                    " / "s + digits(in_millilitres_per_gram(f_.medium.dry_binder)),
                in_grams(batch_.medium), "g");
        add(WorkingTopic::sizing, "medium, by volume", "V_m", "m_m / rho_m",
            g(batch_.medium) + " / "s + density_text(f_.medium.density), in_millilitres(batch_.medium_volume),
            "mL");
    }

    void film() {
        const PaintVolumes& v = batch_.volumes;
        const FilmState& film = batch_.film;
        add(WorkingTopic::film, "pigment volume", "V_p", "m_p / rho_p",
            g(batch_.pigment) + " / "s + density_text(f_.pigment.density), in_millilitres(v.pigment), "mL");
        add(WorkingTopic::film, "binder sufficiency", "k", "V_b / (m_p "s + q_ + ")",
            ml(v.dry_binder) + " / ("s + g(batch_.pigment) + " x "s +
                digits(in_millilitres_per_gram(f_.effective_demand)) + ")",
            film.k.value(), "");
        add(WorkingTopic::film, "pigment volume concentration", "PVC", "V_p / (V_p + V_b)",
            ml(v.pigment) + " / ("s + ml(v.pigment) + " + "s + ml(v.dry_binder) + ")", film.pvc.value(), "");
        add(WorkingTopic::film, "reduced PVC", "Lambda", "PVC / CPVC",
            digits(film.pvc.value()) + " / "s + digits(film.cpvc.value()), film.reduced_pvc.value(), "");
        if (film.porosity.value() > 0.0)
            add(WorkingTopic::film, "air in the film", "p", "1 - CPVC / PVC",
                "1 - "s + digits(film.cpvc.value()) + " / "s + digits(film.pvc.value()), film.porosity.value(),
                "");
    }

    void volumes() {
        const PaintVolumes& v = batch_.volumes;
        Volume additives;
        for (std::size_t i = 0; i < recipe_.additives.size(); ++i)
            additives += mixed_volume(recipe_.additives[i].ingredient, batch_.composition.additives[i]);
        Volume carriers;
        for (const CarrierOnSlab& carrier : batch_.sheet.carriers)
            carriers += carrier.volume;
        const bool stocks = carriers.value() > 0.0;
        add(WorkingTopic::volumes, "wet paint", "V_wet",
            "V_p + V_m + V_additives + V_water"s + (stocks ? " + V_stocks" : ""),
            ml(v.pigment) + " + "s + ml(batch_.medium_volume) + " + "s + ml(additives) + " + "s +
                ml(batch_.working_water_volume) + (stocks ? " + "s + ml(carriers) : std::string()),
            in_millilitres(v.wet), "mL");
        if (v.held_water.value() > 0.0)
            add(WorkingTopic::volumes, "water held in the room's air", "V_w",
                "gum and plasticiser at the humidity", "", in_millilitres(v.held_water), "mL");
        add(WorkingTopic::volumes, "dry cake", "V_cake",
            v.held_water.value() > 0.0 ? "V_p + V_b + V_w" : "V_p + V_b",
            ml(v.pigment) + " + "s + ml(v.dry_binder) +
                (v.held_water.value() > 0.0 ? " + "s + ml(v.held_water) : std::string()),
            in_millilitres(v.cake), "mL");
        add(WorkingTopic::volumes, "shrinkage", "1 - r", "1 - V_cake / V_wet",
            "1 - "s + ml(v.cake) + " / "s + ml(v.wet), v.shrinkage.value(), "");
        const SlabLoss& loss = request_.bench.slab_loss;
        if (batch_.loss < batch_.pigment)
            add(WorkingTopic::volumes, "pigment left on the slab", "m_loss", "a + b m_p",
                g(loss.fixed) + " + "s + digits(loss.share.value()) + " x "s + g(batch_.pigment),
                in_grams(batch_.loss), "g");
    }

    void vessels() {
        if (!batch_.filling) return;
        const Filling& f = *batch_.filling;
        const bool dry = f.vessel.filled_by == FilledBy::dry_volume;
        const Volume whole = dry ? batch_.volumes.cake : batch_.volumes.wet;
        add(WorkingTopic::vessels, "pigment in one "s + f.vessel.name, "m_v",
            dry ? "m_p F C / V_cake" : "m_p F C / V_wet",
            g(batch_.pigment) + " x "s + digits(f.vessel.fill.value()) + " x "s +
                ml(f.vessel.capacity.value()) + " / "s + ml(whole),
            in_grams(f.pigment_per_vessel), "g");
        add(WorkingTopic::vessels, "vessels filled", "n", "(m_p - m_loss) / m_v, whole ones",
            "("s + g(batch_.pigment) + " - "s + g(batch_.loss) + ") / "s + g(f.pigment_per_vessel), f.vessels,
            "");
        add(WorkingTopic::vessels, "wet paint into one", "V_v", "V_wet m_v / m_p",
            ml(batch_.volumes.wet) + " x "s + g(f.pigment_per_vessel) + " / "s + g(batch_.pigment),
            in_millilitres(f.wet_per_vessel), "mL");
        if (!f.pours) return;
        const std::string fill = digits(f.vessel.fill.value()), r = digits(batch_.volumes.dry_fraction.value());
        if (f.pours->brim)
            add(WorkingTopic::vessels, "pours to the brim", "n_brim", "ln(1 - F) / ln(1 - r), rounded up",
                "ln(1 - "s + fill + ") / ln(1 - "s + r + ")", *f.pours->brim, "");
        add(WorkingTopic::vessels, "pours of a third", "n_third", "F / (r / 3), rounded up",
            fill + " / ("s + r + " / 3)", f.pours->thirds, "");
    }

    void weighing() {
        const Bench& bench = request_.bench;
        for (std::size_t i = 0; i < bench.scales.size(); ++i)
            add(WorkingTopic::weighing, "least that "s + bench.scales[i].name + " weighs to the tolerance",
                "m_min", "2 s / t",
                "2 x "s + g(standard_uncertainty(bench.scales[i])) + " / "s +
                    digits(bench.weighing_tolerance.value()),
                in_grams(batch_.sheet.minimum[i]), "g");
        add(WorkingTopic::weighing, "binder sufficiency of the rounded masses", "k", "", "",
            batch_.sheet.film.k.value(), "");
    }

    void family() {
        if (batch_.watercolour) {
            const WatercolourExtras& w = *batch_.watercolour;
            if (w.plasticiser_ratio)
                add(WorkingTopic::family, "plasticiser per dry gum", "P", "m_plasticiser / m_gum", "",
                    *w.plasticiser_ratio, "g/g");
            add(WorkingTopic::family, "liquid over what just fills the pigment", "",
                "(V_wet - V_p) / (m_p "s + q_ + ")",
                "("s + ml(batch_.volumes.wet) + " - "s + ml(batch_.volumes.pigment) + ") / ("s +
                    g(batch_.pigment) + " x "s + digits(in_millilitres_per_gram(f_.effective_demand)) + ")",
                w.liquid_factor, "");
        }
        if (batch_.oil)
            for (const auto& [film, s] :
                 {std::pair{&batch_.oil->cured_low, recipe_.family.cured_oil_loses.least},
                  {&batch_.oil->cured_high, recipe_.family.cured_oil_loses.most}})
                add(WorkingTopic::family, "reduced PVC once the oil has shrunk by "s + digits(s.value()), "Lambda",
                    "PVC / CPVC with V_oil (1 - s)",
                    digits(film->pvc.value()) + " / "s + digits(film->cpvc.value()), film->reduced_pvc.value(),
                    "");
        if (!batch_.tempera) return;
        for (const MediumPart& part : recipe_.medium.parts)
            if (const auto& egg = part.ingredient.in_one_egg) {
                const std::string least = digits(in_grams(egg->least));
                add(WorkingTopic::family, "eggs to open, at "s + least + " g of usable yolk", "n_egg",
                    "m_yolk / "s + least + ", rounded up", g(batch_.tempera->yolk) + " / " + least,
                    batch_.tempera->eggs, "");
                break;
            }
    }

    const BatchRequest& request_;
    const Recipe& recipe_;
    const Batch& batch_;
    const Formulation& f_;
    std::string q_ = request_.recipe.family.binder_index.value().value() < 1.0 ? "q_e" : "q";
    std::vector<WorkingStep> steps_;
};

} // namespace

std::vector<WorkingStep> working(const BatchRequest& request, const Batch& batch) {
    return Working(request, batch).steps();
}

} // namespace lakebound
