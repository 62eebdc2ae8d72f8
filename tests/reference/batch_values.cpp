// Prints what the library makes of three batches, as key=value lines. Read by batch_check.py, which
// works the same batches out again from the same materials.
#include <cmath>
#include <cstdio>
#include <string>

#include "lakebound/paint/chance.hpp"
#include "support/worked_paints.hpp"

using namespace worked;

namespace {

void put(const std::string& batch, const std::string& key, double value) {
    std::printf("%s.%s=%.17g\n", batch.c_str(), key.c_str(), value);
}

void print(const std::string& name, BatchRequest request) {
    Pigment& p = request.recipe.pigments[0].pigment;
    p.oil_absorption = Estimate<OilAbsorption>::lognormal(p.oil_absorption.value().value(), 1.35, from());
    p.density = Estimate<MassDensity>::normal(p.density.value(), grams_per_cubic_centimetre(0.2), from());
    const Batch b = *size_batch(request).batch;
    put(name, "pigment_g", in_grams(b.pigment));
    put(name, "medium_g", in_grams(b.medium));
    put(name, "medium_mL", in_millilitres(b.medium_volume));
    for (const BatchLine& line : b.medium_parts)
        put(name, "part." + line.id + "_g", in_grams(line.mass));
    for (const BatchLine& line : b.additives)
        put(name, "additive." + line.id + "_g", in_grams(line.mass));
    put(name, "working_water_g", in_grams(b.working_water));
    put(name, "paint_g", in_grams(b.paint));
    put(name, "k", b.film.k.value());
    put(name, "pvc", b.film.pvc.value());
    put(name, "cpvc", b.film.cpvc.value());
    put(name, "reduced_pvc", b.film.reduced_pvc.value());
    put(name, "wet_mL", in_millilitres(b.volumes.wet));
    put(name, "dry_mL", in_millilitres(b.volumes.dry));
    put(name, "cake_mL", in_millilitres(b.volumes.cake));
    put(name, "loss_g", in_grams(b.loss));
    put(name, "vessels", b.filling->vessels_exact);
    if (b.filling->pours) put(name, "brim_pours", *b.filling->pours->brim);
    if (b.filling->pours) put(name, "third_pours", b.filling->pours->thirds);
    put(name, "k_rounded", b.sheet.film.k.value());
    const BatchChance c = batch_chance(request, b);
    put(name, "sigma", c.ln_k.standard_uncertainty);
    const WindowChances chances = window_chances(b.film.k, c.doubt, request.recipe.family.window);
    put(name, "underbound", chances.underbound.value());
    put(name, "in_window", chances.in_window.value());
    put(name, "pvc_uncertainty", c.pvc_uncertainty);
    put(name, "reduced_pvc_uncertainty", c.reduced_pvc_uncertainty);
}

} // namespace

int main() {
    BatchRequest pans = request(blend(), VesselCount{half_pan(), 12});
    pans.aim = ReducedPigmentVolumeConcentration::of(0.75);
    print("pans", pans);
    BatchRequest tube = request(oil_paint(), grams(10.0));
    tube.vessel = tube_15();
    print("tube", tube);
    BatchRequest egg = request(tempera(), grams(10.0));
    egg.vessel = tube_15();
    egg.recipe.family.binder_index = Estimate<BinderIndex>::normal(BinderIndex::of(0.85), BinderIndex::Difference::of(0.07), from());
    egg.bench = bench(0.01);
    print("egg", egg);
}
