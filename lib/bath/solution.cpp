#include "lakebound/bath/solution.hpp"

#include <algorithm>
#include <cmath>

#include "lakebound/particle/water.hpp"
#include "lakebound/quantity/error.hpp"

namespace lakebound {
namespace {

struct SoluteFigures {
    const char* formula;
    double c0, c1, c2, c3, c4;
};

constexpr SoluteFigures figures_of(Solute solute) {
    switch (solute) {
    case Solute::sodium_carbonate:
        return {"Na2CO3", 5.45486543455015e-7, 1.72154929405038e-7, -0.0825850207323492, 0.00168822949783412, 4705.39822185746};
    case Solute::potassium_carbonate:
        return {"K2CO3", 2290.10867876218, 1038.77363895405, 0.109769327294915, 0.000497783340935823, -74.0786862142127};
    case Solute::sodium_bicarbonate:
        return {"NaHCO3", 0.0377378060615898, 0.00710029652458366, 0.0735733388535116, 0.00168369765511221, 3291.38382252025};
    case Solute::sodium_hydroxide:
        return {"NaOH", 319.020509469838, 528.592358475315, -0.102197896602724, 0.000350420706415566, 765.970470238438};
    case Solute::sodium_sulphate:
        return {"Na2SO4", 4.45025449497252e-6, 9.12086519621226e-6, 0.0840358370073922, 0.00465767525381795, 4349.50513887423};
    case Solute::potassium_sulphate:
        return {"K2SO4", 7.10599369467468e-6, 4.6555866279207e-5, 0.349566841181191, 0.00751053641501126, 4200.09377806549};
    case Solute::ammonium_sulphate:
        return {"(NH4)2SO4", 618.24075073611, 966.128116121243, 0.602706202526747, 0.0016279026793269, 667.573420648081};
    case Solute::aluminium_sulphate:
        return {"Al2(SO4)3", -0.0054335130421113, 0.00615454451922733, -0.0281614954186176, 0.00391344328446045, 3645.62065396415};
    case Solute::aluminium_chloride:
        return {"AlCl3", -63.5506457736032, 338.780498541295, 0.162759786321933, 0.0153181315946676, 1539.83480739683};
    case Solute::sodium_chloride:
        return {"NaCl", -0.00324112223655149, 0.0636354335906616, 1.01371399467365, 0.0145951015210159, 3317.34854426537};
    }
    return {"NaCl", 0, 0, 0, 0, 0};
}

void check_bath_temperature(Temperature at) {
    const double t = in_degrees_celsius(at);
    if (!(t >= 15.0 && t <= 55.0)) throw_out_of_range("temperature of a solution", t, "degC", "15 to 55 degC");
}

/// kg/m3 of the dissolved salt alone, at the strength of all solutes together.
double apparent_density(const SoluteFigures& f, double all, double t) {
    return (f.c0 * all + f.c1) * std::exp(1e-6 * (t + f.c4) * (t + f.c4)) / (all + f.c2 + f.c3 * t);
}

} // namespace

MassDensity solution_density(const std::vector<SoluteShare>& solutes, Temperature at) {
    double all = 0.0;
    for (const auto& each : solutes) all += each.share.value();
    if (!(all < 0.3)) throw_out_of_range("salt per mass of solution", all, "", "below 0.3");
    check_bath_temperature(at);
    const double t = in_degrees_celsius(at);
    double volume = (1.0 - all) / in_kilograms_per_cubic_metre(water_density(at)); // m3 per kg
    for (const auto& each : solutes)
        volume += each.share.value() / apparent_density(figures_of(each.solute), all, t);
    return kilograms_per_cubic_metre(1.0 / volume);
}

std::optional<std::vector<SoluteShare>> solutes_of(const Salt& salt) {
    // Pairs of ions that these salts are made of, in the order in which they are taken out.
    struct Pair {
        Solute solute;
        Ion cation, anion;
        double cations, anions;
    };
    static constexpr Pair pairs[] = {{Solute::aluminium_sulphate, Ion::aluminium, Ion::sulphate, 2, 3},
                                     {Solute::aluminium_chloride, Ion::aluminium, Ion::chloride, 1, 3},
                                     {Solute::potassium_sulphate, Ion::potassium, Ion::sulphate, 2, 1},
                                     {Solute::sodium_sulphate, Ion::sodium, Ion::sulphate, 2, 1},
                                     {Solute::ammonium_sulphate, Ion::ammonium, Ion::sulphate, 2, 1},
                                     {Solute::sodium_carbonate, Ion::sodium, Ion::carbonate, 2, 1},
                                     {Solute::potassium_carbonate, Ion::potassium, Ion::carbonate, 2, 1},
                                     {Solute::sodium_bicarbonate, Ion::sodium, Ion::bicarbonate, 1, 1},
                                     {Solute::sodium_hydroxide, Ion::sodium, Ion::hydroxide, 1, 1},
                                     {Solute::sodium_chloride, Ion::sodium, Ion::chloride, 1, 1}};
    Ions left = salt.gives;
    const double whole = in_grams_per_mole(molar_mass(salt));
    std::vector<SoluteShare> found;
    for (const Pair& pair : pairs) {
        const double moles = std::min(left[pair.cation] / pair.cations, left[pair.anion] / pair.anions);
        if (!(moles > 1e-9)) continue;
        left[pair.cation] -= moles * pair.cations;
        left[pair.anion] -= moles * pair.anions;
        const double mass = moles * in_grams_per_mole(molar_mass(atoms_of(figures_of(pair.solute).formula)));
        found.push_back({pair.solute, MassFraction::of(std::min(1.0, mass / whole))});
    }
    const bool all = std::all_of(left.count.begin(), left.count.end(), [](double x) { return std::abs(x) < 1e-9; });
    return all ? std::optional(std::move(found)) : std::nullopt;
}

std::optional<MassDensity> solution_density(const Salt& salt, MassFraction strength, Temperature at) {
    auto solutes = solutes_of(salt);
    if (!solutes) return std::nullopt;
    for (auto& each : *solutes) each.share = MassFraction::of(each.share.value() * strength.value());
    return solution_density(*solutes, at);
}

MadeUp made_up(const Salt& salt, Mass mass, const Strength& strength, Temperature at) {
    if (!(in_grams(mass) >= 0.0)) throw_out_of_range("mass of a salt", in_grams(mass), "g", "0 or more");
    if (!(strength.value > 0.0 && strength.value < 0.5))
        throw_out_of_range("strength of a solution", strength.value, "g/g or g/mL", "above 0, below 0.5");
    const auto density_at = [&](double w) {
        const auto density = solution_density(salt, MassFraction::of(w), at);
        if (!density)
            throw DomainError("density of a solution of " + salt.name, "unknown", "a salt with published figures",
                              "make it up by mass: g of salt in g of solution");
        return *density;
    };
    double w = strength.value;
    if (strength.basis == StrengthBasis::per_water) {
        const double water = in_grams_per_cubic_centimetre(water_density(at)); // g/mL
        w = strength.value / (strength.value + water);
    } else if (strength.basis == StrengthBasis::by_volume) {
        // w = c / rho(w) closes in on itself: rho changes by less than w does.
        for (int i = 0; i < 60; ++i) w = strength.value / in_grams_per_cubic_centimetre(density_at(w));
    }
    MadeUp out;
    out.by_mass = MassFraction::of(w);
    out.salt = mass;
    const Mass solution = mass / w;
    out.water = solution - mass;
    out.density = density_at(w);
    out.volume = solution / out.density;
    return out;
}

Mass salt_in(const Salt& salt, Volume solution, const Strength& strength, Temperature at) {
    if (!(in_millilitres(solution) >= 0.0))
        throw_out_of_range("volume of a solution", in_millilitres(solution), "mL", "0 or more");
    const MadeUp of_one = made_up(salt, grams(1.0), strength, at);
    return grams(solution / of_one.volume);
}

std::optional<bool> dissolves(const Salt& salt, MassFraction by_mass, Temperature at) noexcept {
    const auto most = solubility_at(salt, at);
    if (!most) return std::nullopt;
    return by_mass.value() <= *most * (1.0 - by_mass.value());
}

} // namespace lakebound
