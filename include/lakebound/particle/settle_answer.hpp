#pragma once
// Parting grains in water: the clock of the pour-offs and what each carries over.
// Example: docs/examples/settle_a_powder.cpp.

#include <limits>
#include <optional>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/particle/levigation.hpp"
#include "lakebound/particle/powder_habits.hpp"
#include "lakebound/particle/settling_record.hpp"
#include "lakebound/particle/sieve_record.hpp"
#include "lakebound/particle/size_fit.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct SettleQuestion {
    Length cut;                 ///< nothing coarser is poured off
    Length depth;               ///< of the water in the vessel
    std::optional<Length> draw; ///< poured off from the top; else `usual_draw` of the depth
    Share usual_draw;
    unsigned pours = 1; ///< pour-offs in all
    /// That hands, and the warmth of a room, can keep; no limits until they are told.
    Time shortest_wait{}, longest_wait = seconds(std::numeric_limits<double>::infinity());
    Given<MassDensity> density; ///< of the solid
    Given<Temperature> temperature; ///< of the water
    VolumeFraction solids;
    LevigationHandling handling;
    std::optional<SettlingRecord> test; ///< timed grains
    std::optional<SieveRecord> sieve;
};

/// What n pour-offs carry over of one size, n = 1, 2, ...
struct RecoveryRow {
    Length size;
    Time falls;                 ///< how long it needs for the draw depth
    std::vector<double> poured; ///< after each pour-off
};

struct SettleAnswer {
    SettleQuestion question;
    Fluid water;
    Slurry slurry;                        ///< with the density that is used
    std::optional<MassDensity> effective; ///< from the timed grains
    std::optional<VolumeFraction> open;   ///< water in each of those grains
    Settling at_cut;                      ///< of a single grain of the cut size
    Velocity hindered;                    ///< as it falls among the others
    LevigationPlan plan;
    Mass powder_per_half_litre;         ///< dry, that makes the share of solids the wait is reckoned for
    std::vector<RecoveryRow> recovery;  ///< fine to coarse, the cut last
    std::optional<Levigated> levigated; ///< of the sieve test
    Mass charge;                        ///< of the sieve test
    std::optional<SizeFit> carried_on;  ///< the curve used below the finest screen
    bool below_screens_guessed = false;
    bool too_fast = false; ///< the wait is too short for hands
    bool too_slow = false; ///< the wait is so long that drafts of warmth stir the water
    bool brownian = false; ///< the cut lies where heat keeps grains afloat
    bool crowded = false;  ///< grains hinder each other by more than a quarter
};

/// Errors: DomainError: lighter than water, draw above depth, beyond the drag law, a test that no density
/// explains; RecordError where what a test says brings it about.
[[nodiscard]] SettleAnswer plan_settling(const SettleQuestion& question);

/// True when the answer is that it cannot be done by hand.
[[nodiscard]] bool cannot_be_done(const SettleAnswer& answer) noexcept;

} // namespace lakebound
