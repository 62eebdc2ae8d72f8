#pragma once
// Ingredient: anything but pigment that goes on the slab, and what of it stays in the dry film.

#include <optional>
#include <string>
#include <vector>

#include "lakebound/estimate/estimate.hpp"
#include "lakebound/export.hpp"
#include "lakebound/material/hazard.hpp"
#include "lakebound/quantity/word_table.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// What the ingredient does. The role decides whether its non-volatile part counts as binder volume:
/// see `counts_as_binder`.
enum class Role {
    gum,         ///< water-soluble film former: gum arabic, dextrin, tragacanth, cellulose ether
    plasticiser, ///< glycerol, sugar solids: fills voids and softens, does not bind by itself
    drying_oil,
    resin,
    wax,      ///< wax and metal soaps: fill voids, do not form a film
    emulsion, ///< egg yolk and the like: a particulate binder
    protein,  ///< glue, casein, egg white
    water,
    solvent,
    preservative,
    wetting_agent,
    salt, ///< alkali, soluble salt: a contaminant, not a binder
};
template <> struct WordTable<Role> {
    static constexpr WordRow<Role> rows[] = {
        {Role::gum, "gum"},
        {Role::plasticiser, "plasticiser"},
        {Role::drying_oil, "drying oil"},
        {Role::resin, "resin"},
        {Role::wax, "wax"},
        {Role::emulsion, "emulsion"},
        {Role::protein, "protein"},
        {Role::water, "water"},
        {Role::solvent, "solvent"},
        {Role::preservative, "preservative"},
        {Role::wetting_agent, "wetting agent"},
        {Role::salt, "salt"},
    };
};

/// What takes up the room's water as this ingredient's solids do (material/sorption.hpp).
enum class SorbsAs { nothing, gum, glycerol, sugar };
template <> struct WordTable<SorbsAs> {
    static constexpr WordRow<SorbsAs> rows[] = {
        {SorbsAs::nothing, "nothing"},
        {SorbsAs::gum, "gum"},
        {SorbsAs::glycerol, "glycerol"},
        {SorbsAs::sugar, "sugar"},
    };
};

/// The acid that a preservative works as, where it is the salt of one: only what is not dissociated passes into a
/// mould's cell (material/keeping.hpp).
enum class PreservativeAcid { benzoic, sorbic };
template <> struct WordTable<PreservativeAcid> {
    static constexpr WordRow<PreservativeAcid> rows[] = {
        {PreservativeAcid::benzoic, "benzoic acid"},
        {PreservativeAcid::sorbic, "sorbic acid"},
    };
};

/// In place of an id: the drying oil that the paint's own medium holds.
inline constexpr const char* oil_of_the_medium = "oil of the medium";

/// How a weaker solution of an ingredient is made, where too little of it is wanted to weigh. From the shelf.
struct StockPractice {
    /// Ids of ingredients that dissolve it, or `oil_of_the_medium`, the preferred one first.
    std::vector<std::string> carriers{};
    Estimate<MassFraction> strongest{}; ///< w/w, that still pours or spreads
    Mass most{};                        ///< of a carrier, all steps together: more is waste. Above 0
    /// Most of a carrier that the paint does not hold already, by mass of the medium: spirit takes its water from
    /// a gum. No limit when absent.
    std::optional<Estimate<MassFraction>> beside{};
};

/// What one egg gives of an ingredient.
struct EggYield {
    Mass usual{}, least{}; ///< both above 0; the least counts the eggs to open
    Provenance evidence{};
};

/// Every member has an initialiser, so that a designated one may leave out the rest without a warning.
struct Ingredient {
    std::string id{};
    std::string name{};
    Role role = Role::water;
    Estimate<MassDensity> density{};                       ///< as supplied (the true density of a powder)
    std::optional<Estimate<MassDensity>> bulk_density{};   ///< of a loose powder, for spoons and cups
    Estimate<MassFraction> non_volatile{};                 ///< share of the mass that stays in the dry film
    std::optional<Estimate<MassDensity>> solids_density{}; ///< of what stays; needed when non_volatile > 0
    /// Needed of a plasticiser; a gum sorbs as gum where it does not say otherwise.
    std::optional<SorbsAs> sorbs_as{};
    std::optional<PreservativeAcid> works_as{};            ///< of a preservative that alkali disables
    std::optional<Estimate<MassFraction>> usual_dose{};    ///< of the medium, where practice has one
    std::optional<StockPractice> stock{};                  ///< none is offered without
    std::optional<EggYield> in_one_egg{};                  ///< of a yolk
    std::vector<Hazard> hazards{};
    std::string note{};
};

/// True for gum, plasticiser, oil, resin, wax, emulsion and protein: their non-volatile volume is dry
/// binder volume V_b. Water, solvents, preservatives, wetting agents and salts do not count.
/// Source: table "which parts of a vehicle count", docs/theory.md; common practice.
[[nodiscard]] constexpr bool counts_as_binder(Role role) noexcept {
    switch (role) {
    case Role::gum:
    case Role::plasticiser:
    case Role::drying_oil:
    case Role::resin:
    case Role::wax:
    case Role::emulsion:
    case Role::protein:
        return true;
    case Role::water:
    case Role::solvent:
    case Role::preservative:
    case Role::wetting_agent:
    case Role::salt:
        return false;
    }
    return false;
}

/// True for what holds a film together by itself: gum, oil, resin, yolk and protein. A plasticiser or a wax
/// fills voids and counts as binder volume, but does not bind (paint/cohesion.hpp). Source: table "which parts
/// of a vehicle count", docs/theory.md; common practice.
[[nodiscard]] constexpr bool is_cohesive(Role role) noexcept {
    return counts_as_binder(role) && role != Role::plasticiser && role != Role::wax;
}

/// How the ingredient takes up water: as it says, else as gum for a gum, and not at all for the others.
/// Throws DomainError for a plasticiser that does not say: sugars and glycerol differ by half.
[[nodiscard]] SorbsAs sorption_of(const Ingredient& ingredient);

} // namespace lakebound
