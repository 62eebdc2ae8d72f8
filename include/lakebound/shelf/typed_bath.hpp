#pragma once
// A bath as it is typed, on a command line or in a bath's file (kind: bath; docs/file-formats.md): what is at hand, and
// what was read so far. The same texts in both.

#include <optional>
#include <string>
#include <vector>

#include "lakebound/bath/bath_jar.hpp"
#include "lakebound/bath/bath_plan.hpp"
#include "lakebound/bath/bath_progress.hpp"
#include "lakebound/export.hpp"
#include "lakebound/paint/bench.hpp"
#include "lakebound/particle/powder_habits.hpp"
#include "lakebound/shelf/document.hpp"
#include "lakebound/shelf/library.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct BathTexts {
    using Text = std::optional<std::string>;
    std::string before = "--"; ///< of an option's name in messages; empty for the keys of a file
    Text since;    ///< the day it was begun, of a file
    // What is at hand.
    Text plant;    ///< "100 g dry root"
    Text alum;     ///< "potash-alum, 50 g", or only its name
    Text lake;     ///< "10 g", wanted
    Text alkali;   ///< "soda-ash"
    Text water, pulls, pot, vessel, strength, foam;
    // What was read.
    std::vector<std::string> filter; ///< "0.5 L, 4 min"
    Text to_filter;
    std::vector<std::string> poured; ///< solution: "120 mL"
    Text alum_added;                 ///< against too much alkali: "6 g"
    std::vector<std::string> ph;     ///< "6.4, pen" or "5.3, strip, fizzing"
    Text colour;                     ///< "1 in 8"
    Text blanket;                    ///< "100 mm, 62 mm, 48 mm every 2 h"
    Text wash_water;                 ///< "350 uS/cm" or "350 uS/cm, 16 degC"
    std::vector<std::string> decant; ///< the same
    Text drying;                     ///< "38.6 g, 24.9 g, 17.9 g every 24 h"
    Text cake;                       ///< one weighing, of a record: "38.6 g" or "38.6 g, wet"
    Text hue, swatch;                ///< "warm rose, wet; brick red, dry"; "12"
    Text weighed;                    ///< what came into the jar
    Text moisture;                   ///< "14 +- 2 % w/w"
    Text water_ph;                   ///< of the lake stirred up in water: "6.8, pen"
};

/// Throws InputError: bath-typed for what is not in its form, alkali-missing, and those of the texts.
[[nodiscard]] BathWish bath_wish(const BathTexts& texts, Library& library);
[[nodiscard]] bool says_what_is_at_hand(const BathTexts& texts) noexcept;
[[nodiscard]] bool has_readings(const BathTexts& texts) noexcept;
/// Throws InputError option-alone for what says nothing without another: pulls and pot without a plant, to-filter without
/// a reading at the filter.
void refuse_lone_options(const BathTexts& texts);
/// plan: whose solution was poured. Throws InputError: bath-typed, ph-impossible outside 0 to 14.
[[nodiscard]] BathReadings bath_readings(const BathTexts& texts, const BathPlan& plan);
/// What the plan, the habits and the bench say of the bath that readings are held against.
[[nodiscard]] BathSetting bath_setting(const BathPlan& plan, const LakingHabits& laking, const WashHabits& washing, const PowderHabits& powder,
                                       const Bench& bench);

/// A bath from its file. Throws InputError with all that is wrong in it, at its place.
[[nodiscard]] BathTexts read_bath(Document document, Library& library);

/// The jar as it comes out of the bath. Throws InputError of the texts weighed, moisture and water-ph; DomainError.
[[nodiscard]] BathJar bath_jar(const BathTexts& texts, const BathPlan& plan, const BathStanding& standing, const WashHabits& washing);

} // namespace lakebound
