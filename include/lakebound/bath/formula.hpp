#pragma once
// Chemical formulas: the atoms in them and the mass of a mole.
//
// Atomic weights: the abridged standard values of IUPAC (iupac-atomic-weights-2021, five figures, values from
// memory); tests hold molar masses against an independent program of the archive.

#include <array>
#include <cstddef>
#include <string_view>

#include "lakebound/export.hpp"
#include "lakebound/quantity/chemical_units.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// The elements of a bath.
enum class Element { hydrogen, carbon, nitrogen, oxygen, sodium, aluminium, sulphur, chlorine, potassium, calcium };
inline constexpr std::size_t element_count = 10;

[[nodiscard]] constexpr MolarMass atomic_weight(Element element) noexcept {
    constexpr std::array<double, element_count> weights{1.0080, 12.011, 14.007, 15.999, 22.990,
                                                        26.982, 32.06,  35.45,  39.098, 40.078};
    return grams_per_mole(weights[static_cast<std::size_t>(element)]);
}

/// Atoms of each element; for a bath moles of each. Counts may be broken: 1.5 H2O.
struct Atoms {
    std::array<double, element_count> count{};

    constexpr double& operator[](Element e) noexcept { return count[static_cast<std::size_t>(e)]; }
    constexpr double operator[](Element e) const noexcept { return count[static_cast<std::size_t>(e)]; }
    constexpr Atoms& operator+=(const Atoms& other) noexcept {
        for (std::size_t i = 0; i < element_count; ++i) count[i] += other.count[i];
        return *this;
    }
    friend constexpr Atoms operator+(Atoms a, const Atoms& b) noexcept { return a += b; }
    friend constexpr Atoms operator*(double times, Atoms a) noexcept {
        for (double& each : a.count) each *= times;
        return a;
    }
};

/// Atoms of a formula as it is written: "KAl(SO4)2.12H2O", "K2CO3.1.5H2O", "Al(OH)3". After a point comes the
/// count of the water or salt that follows; brackets do not nest. Errors: DomainError for anything else.
[[nodiscard]] Atoms atoms_of(std::string_view formula);

/// Sum of counts times atomic weights.
[[nodiscard]] MolarMass molar_mass(const Atoms& atoms) noexcept;

} // namespace lakebound
