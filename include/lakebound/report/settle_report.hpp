#pragma once
// Parting grains in water, with the clock of the pour-offs and what each carries over; and when to decant
// a fresh lake. As text of 80 columns and as JSON.

#include <optional>
#include <string>
#include <vector>

#include "lakebound/particle/levigation.hpp"
#include "lakebound/particle/settling_record.hpp"
#include "lakebound/particle/sieve_record.hpp"
#include "lakebound/particle/size_fit.hpp"
#include "lakebound/report/text_options.hpp"

namespace lakebound {

struct SettleQuestion {
    Length cut;                 ///< nothing coarser is poured off
    Length depth;               ///< of the water in the vessel
    std::optional<Length> draw; ///< poured off from the top; else 0.8 of the depth
    unsigned pours = 4;         ///< pour-offs in all
    MassDensity density;        ///< of the solid
    std::string density_origin; ///< "as you say", ...
    Temperature temperature = degrees_celsius(20.0);
    std::string temperature_origin;
    VolumeFraction solids = VolumeFraction::of(0.02);
    LevigationHandling handling{minutes(3.0), minutes(1.0)};
    std::optional<SettlingRecord> test; ///< timed grains
    std::optional<SieveRecord> sieve;
};

/// What n pour-offs carry over of one size, n = 1, 2, ...
struct RecoveryRow {
    Length size;
    Time falls;                 ///< how long it needs for the draw depth
    std::vector<double> poured; ///< after each pour-off
};

struct SettleSubject {
    SettleQuestion question;
    Fluid water;
    Slurry slurry;                        ///< with the density that is used
    std::optional<MassDensity> effective; ///< from the timed grains
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

/// Shortest wait that hands can keep.
inline constexpr double shortest_wait_s = 5.0;

/// Errors: DomainError: lighter than water, draw above depth, outside Stokes and its correction, a test
/// that no density explains.
SettleSubject settle_subject(const SettleQuestion& question);

/// True when the answer is that it cannot be done by hand.
bool cannot_be_done(const SettleSubject& subject) noexcept;

std::string settle_text(const SettleSubject& subject, const TextOptions& options = {});

inline constexpr int settle_json_version = 1;
/// One document of kind "levigation"; docs/json.md.
std::string settle_json(const SettleSubject& subject);

/// A blanket: when to decant.
struct DecantSubject {
    std::string name; ///< of the test; may be empty
    InterfaceHeights heights;
    ZoneSettling zone;
    Share within = Share::of(0.05); ///< of the end height
    Time decant;                    ///< after the first reading
    Time at;                        ///< when it can be poured: decant, or the third reading where that is later
    Length blanket;                 ///< height of the blanket then
    Length draw_to;                 ///< the water line that leaves a finger of water above it
    Length drawn;                   ///< from the first reading's height down to there
};

/// Water left above the blanket: a finger. Common practice, no source.
inline Length water_left_above() { return millimetres(15.0); }

/// Errors: DomainError as fit_zone_settling.
DecantSubject decant_subject(std::string name, const InterfaceHeights& heights);
std::string decant_text(const DecantSubject& subject, const TextOptions& options = {});
/// One document of kind "decanting".
std::string decant_json(const DecantSubject& subject);

} // namespace lakebound
