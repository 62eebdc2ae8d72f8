#pragma once
// Test sieves: apertures, ASTM numbers, tolerances, and what `mesh` does not say.
//
// An aperture is what is stored, always. A mesh number counts threads, so the hole depends on the
// thread: 200 per inch is 74 um in one woven wire and 77 um in one nylon.

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "lakebound/estimate/provenance.hpp"
#include "lakebound/export.hpp"
#include "lakebound/quantity/text.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// One aperture of the ISO 565 / ISO 3310-1 / ASTM E11 wire cloth range, 125 mm to 20 um.
struct StandardSieve {
    double aperture_um;
    const char* astm_number; ///< "200", "3/8 in", or "" where E11 has no such sieve in our table
    bool r20_3;              ///< principal series R 20/3
    bool r40_3;              ///< supplementary series R 40/3 (every R 20/3 aperture is in it too)
    bool r20;                ///< supplementary series R 20
    Origin origin;           ///< of the number-to-aperture row: published or memory

    constexpr Length aperture() const { return micrometres(aperture_um); }
};

/// The whole table, coarse to fine. Source: astm-e11 (rows with a tolerance, and numbers 4, 10, 20,
/// 40, 60, 80, 100, 200 published; the others value from memory), iso-565 (value from memory).
[[nodiscard]] std::span<const StandardSieve> standard_sieves();

/// The row with this aperture (relative difference below 1e-6), or nothing.
[[nodiscard]] std::optional<StandardSieve> standard_sieve(Length aperture);

/// The row of an ASTM E11 number written as on the frame: "200", "3 1/2", "3/8 in".
/// Errors: DomainError when E11 has no such number.
[[nodiscard]] StandardSieve sieve_of_number(std::string_view number);

/// The row with the largest aperture not above `size`; nothing below 20 um.
[[nodiscard]] std::optional<StandardSieve> next_standard_sieve_below(Length size);

enum class SieveCloth { wire, nylon };

/// A sieve as a maker names it: its aperture, how it was named, and a warning where one is due.
struct Sieve {
    Length aperture;
    SieveCloth cloth = SieveCloth::wire;
    std::string designation; ///< the text as given
    std::string note;        ///< old series, not standard, computed from threads; may be empty
};

/// Reads "No. 200", "75 um", "0.075 mm", "nylon 200 mesh thread 50 um", "wire 200 mesh thread 53 um".
/// A mesh count without its thread is refused, because it is not an aperture.
/// Range: 1 um to 125 mm. Errors: QuantityTextError, ids sieve-mesh, sieve-number, sieve-aperture, and
/// those of read<Length>.
[[nodiscard]] Sieve parse_sieve(std::string_view text);

/// Aperture of a plain weave: w = 25.4 mm / N - d, with N threads per inch and d the thread diameter.
/// Range: N > 0, 0 < d < 25.4 mm / N. Errors: DomainError. Source: geometry.
[[nodiscard]] Length aperture_of_mesh(double threads_per_inch, Length thread);

/// The note on an aperture of the older fourth-root-of-two series (149, 74, 44, 37 um ...), empty for
/// any other. Source: sieve-chart-old.
[[nodiscard]] std::string old_series_note(Length aperture);

/// How far a new wire sieve may stray from its nominal aperture w.
struct ApertureTolerance {
    Length average;        ///< Y: the mean opening lies within w +- average
    Length largest_single; ///< X: no opening exceeds w + largest_single
    Origin origin = Origin::memory;
    std::string source;
};

/// Tolerance of a nominal aperture: the published row of ASTM E11-01 where we read one, else the
/// formulas of ISO 3310-1: Y = w^0.98 / 27 + 1.6, X = (2/3) w^0.75 + 4 w^0.25, w in um.
/// Range: 20 um to 125 mm. Accuracy: the formula is within 1 % of the rows for Y, wider for X.
/// Errors: DomainError. Source: astm-e11 (published rows), iso-3310-1 (value from memory).
[[nodiscard]] ApertureTolerance aperture_tolerance(Length aperture);

/// The ISO 3310-1 formulas alone, for any w in range (value from memory).
[[nodiscard]] ApertureTolerance aperture_tolerance_formula(Length aperture);

} // namespace lakebound
