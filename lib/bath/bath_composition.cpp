#include "lakebound/bath/bath_composition.hpp"

#include <array>
#include <cmath>

#include "lakebound/estimate/monte_carlo.hpp"
#include "lakebound/quantity/error.hpp"

namespace lakebound {
namespace {

constexpr MassDensity hydroxide_density = grams_per_cubic_centimetre(2.42);      // crc-densities
constexpr MassDensity basic_sulphate_density = grams_per_cubic_centimetre(2.12); // value from memory
constexpr MassDensity calcite_density = grams_per_cubic_centimetre(2.71);        // crc-densities
constexpr MassDensity gypsum_density = grams_per_cubic_centimetre(2.32);         // crc-densities

/// g/mol for one aluminium of each end member.
double hydroxide_grams() {
    static const double grams_of = in_grams_per_mole(molar_mass(atoms_of("Al(OH)3")));
    return grams_of;
}
double basic_sulphate_grams() {
    static const double grams_of = in_grams_per_mole(molar_mass(atoms_of("Al4(OH)10SO4"))) / 4.0;
    return grams_of;
}

/// Share of the aluminium that is in basic sulphate.
double basic_share(HydroxidesPerAluminium n) { return (3.0 - n.value()) / 0.5; }

LakeParts parts_of(std::span<const Component> solids_by_mass, Mass solids, Mass dye, MassFraction water, MassFraction salts,
                   const PartDensities& densities) {
    if (!(dye.value() >= 0.0)) throw_out_of_range("dye in the lake", in_grams(dye), "g", "0 or more");
    const double dry_share = 1.0 - water.value() - salts.value();
    if (!(dry_share > 1e-9))
        throw_out_of_range("water and salts of the lake", water.value() + salts.value(), "", "less than all of it");
    LakeParts parts{};
    parts.solid = solids;
    parts.dye = dye;
    parts.whole = (solids + dye) / dry_share;
    parts.water = parts.whole * water.value();
    parts.salts = parts.whole * salts.value();
    std::vector<Component> all;
    for (const Component& c : solids_by_mass)
        all.push_back({MassFraction::of(c.share.value() * (solids / parts.whole).value()), c.density});
    all.push_back({MassFraction::of((dye / parts.whole).value()), densities.dye});
    all.push_back({salts, densities.salts});
    all.push_back({water, sorbed_water_density()});
    parts.density = mixture_density(all);
    parts.dry_density = bone_dry_density(parts.density, water);
    return parts;
}

enum LakeInput : std::size_t { aluminium, hydroxides, dye, water, salts, dye_density, salts_density, recovered, lake_inputs };

LakeParts parts_from(std::span<const double> x) {
    return lake_parts({moles(x[aluminium]), HydroxidesPerAluminium::of(x[hydroxides]), kilograms(x[dye]),
                       MassFraction::of(x[water]), MassFraction::of(x[salts]),
                       {kilograms_per_cubic_metre(x[dye_density]), kilograms_per_cubic_metre(x[salts_density])}});
}

} // namespace

MolarMass solid_per_aluminium(HydroxidesPerAluminium n) {
    const double x = basic_share(n);
    return grams_per_mole((1.0 - x) * hydroxide_grams() + x * basic_sulphate_grams());
}

MassDensity solid_density(HydroxidesPerAluminium n) {
    const double x = basic_share(n);
    const MolarMass whole = solid_per_aluminium(n);
    const auto volume = (1.0 - x) * grams_per_mole(hydroxide_grams()) / hydroxide_density +
                        x * grams_per_mole(basic_sulphate_grams()) / basic_sulphate_density;
    return MassDensity(whole / volume);
}

LakeParts lake_parts(const LakeMakeUp& m) {
    if (!(m.aluminium.value() > 0.0)) throw_out_of_range("aluminium in the lake", in_moles(m.aluminium), "mol", "above 0");
    const Mass solid = m.aluminium * solid_per_aluminium(m.hydroxides);
    const std::array one{Component{MassFraction::of(1.0), solid_density(m.hydroxides)}};
    return parts_of(one, solid, m.dye, m.water, m.salts, m.densities);
}

LakeExpectation expected_lake(const LakeEstimate& lake) {
    const std::vector<UncertainInput> inputs{uncertain_input("aluminium", lake.aluminium),
                                             uncertain_input("hydroxides per aluminium", lake.hydroxides),
                                             uncertain_input("dye", lake.dye),
                                             uncertain_input("water", lake.water),
                                             uncertain_input("salts", lake.salts),
                                             uncertain_input("density of the dye", lake.dye_density),
                                             uncertain_input("density of the salts", lake.salts_density),
                                             uncertain_input("recovered", lake.recovered)};
    MonteCarloOptions options;
    options.draws = 4096;
    options.drawing = Drawing::sobol;
    options.greatest_refused_share = 0.1;
    const auto draws = joint_monte_carlo(
        [](std::span<const double> x, std::span<double> y) {
            const LakeParts parts = parts_from(x);
            y[0] = in_kilograms(parts.whole) * x[recovered];
            y[1] = in_kilograms_per_cubic_metre(parts.density);
        },
        2, inputs, options);
    LakeExpectation out;
    const auto mass = summarise(draws, 0.90, 0), density = summarise(draws, 0.90, 1);
    out.mass = kilograms(mass.median);
    out.mass_standard_uncertainty = kilograms(mass.standard_deviation);
    out.mass_kg = mass.symmetric;
    out.density = kilograms_per_cubic_metre(density.median);
    out.density_standard_uncertainty = kilograms_per_cubic_metre(density.standard_deviation);
    out.density_kg_m3 = density.symmetric;
    std::array<double, lake_inputs> best{};
    for (std::size_t i = 0; i < lake_inputs; ++i)
        best[i] = inputs[i].distribution.location;
    out.dry_density = parts_from(best).dry_density;
    out.density_budget =
        budget([](std::span<const double> x) { return in_kilograms_per_cubic_metre(parts_from(x).density); }, inputs);
    return out;
}

LakeParts chalk_lake_parts(const ChalkLake& c, Mass dye_mass, MassFraction water_share, MassFraction salts_share,
                           const PartDensities& densities) {
    const Mass gypsum = c.gypsum - c.gypsum_dissolved, solids = c.alumina + gypsum + c.chalk_left;
    if (!(solids.value() > 0.0)) throw_out_of_range("solids laid with chalk", in_grams(solids), "g", "above 0");
    const auto share = [&](Mass m) { return MassFraction::of((m / solids).value()); };
    const std::array all{Component{share(c.alumina), hydroxide_density}, Component{share(gypsum), gypsum_density},
                         Component{share(c.chalk_left), calcite_density}};
    return parts_of(all, solids, dye_mass, water_share, salts_share, densities);
}

LakeExpectation expected_chalk_lake(const ChalkLake& chalk_laid, const LakeEstimate& lake) {
    LakeExpectation out = expected_lake(lake);
    const LakeParts parts = chalk_lake_parts(chalk_laid, lake.dye.value(), lake.water.value(), lake.salts.value(),
                                             {lake.dye_density.value(), lake.salts_density.value()});
    const double mass = (parts.whole * lake.recovered.value().value() / out.mass).value();
    const double density = (parts.density / out.density).value();
    out.mass *= mass;
    out.mass_standard_uncertainty *= mass;
    out.mass_kg = {out.mass_kg.low * mass, out.mass_kg.high * mass};
    out.density *= density;
    out.density_standard_uncertainty *= density;
    out.density_kg_m3 = {out.density_kg_m3.low * density, out.density_kg_m3.high * density};
    out.dry_density = parts.dry_density;
    return out;
}

} // namespace lakebound
