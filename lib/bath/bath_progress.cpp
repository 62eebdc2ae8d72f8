#include "lakebound/bath/bath_progress.hpp"

#include <algorithm>
#include <cmath>

#include "lakebound/quantity/error.hpp"

namespace lakebound {
namespace {

HydroxidesPerAluminium hydroxides_at(const HydroxideBelief& belief, double z) {
    return HydroxidesPerAluminium::of(std::clamp(belief.mean + z * belief.standard_uncertainty, 2.0, 3.0));
}

/// Of the lake, by the bath alone.
Estimate<Mass> expected_mass(const BathStanding& at) {
    const Mass mass = at.expected.mass;
    return Estimate<Mass>::lognormal(mass, std::exp((at.expected.mass_standard_uncertainty / mass).value()),
                                     {Origin::computed, "expected of the bath", false});
}

void stand_at_filter(const BathReadings& r, const BathSetting& s, BathStanding& out) {
    out.stage = BathStage::straining;
    out.next = BathStep::read_filter_again;
    if (r.filter.size() < 2) return;
    const Volume whole = r.to_filter.value_or(std::max(s.dye_liquor, r.filter.back().filtrate));
    out.filter = filter_outlook(r.filter, whole, s.habits.filter);
    out.next = out.filter->second_pays.value() > 0.5 ? BathStep::fold_second_paper : BathStep::let_it_run;
}

/// The titration with what was added against too much alkali.
Titration bath_now(const BathReadings& r, const BathSetting& s) {
    Titration bath = s.bath;
    for (const Mass& salt : r.aluminium) {
        if (!(salt.value() >= 0.0)) throw_out_of_range("aluminium salt added", in_grams(salt), "g", "0 or more");
        bath.mass += salt;
    }
    return bath;
}

constexpr Ph chalk_reaches = Ph::of(9.9); // of calcite in water without carbon dioxide, the most it can bring (value from memory)

/// What the last pH says of the stop.
BathStep step_by_ph(const BathReadings& r, const BathSetting& s, const Titration& bath, AlkaliStanding& a,
                    std::vector<BathDoubt>& doubts) {
    const PhSeen& last = r.ph.back();
    const double read = last.ph.value();
    if (last.fizzing) {
        a.ph = PhRange{moved(last.ph, fizzing_reads_low_by_least), moved(last.ph, fizzing_reads_low_by_most)};
        doubts.push_back(BathDoubt::fizzing_reads_low);
        return BathStep::stir_and_read;
    }
    a.read_to = s.habits.ph_read_to.by(last.means);
    const double u = a.read_to.value();
    a.ph = PhRange{moved(last.ph, PhDifference::of(-u)), moved(last.ph, a.read_to)};
    if (s.chalk) {
        if (read - 2.0 * u > chalk_reaches.value()) return BathStep::look_at_the_salt;
    } else {
        a.possible = possible_ph(bath, a.poured);
        if (read + 2.0 * u < a.possible->low.value() || read - 2.0 * u > a.possible->high.value()) return BathStep::look_at_the_salt;
    }
    a.at_rest = r.ph.size() > 1 && !r.ph[r.ph.size() - 2].fizzing &&
                std::abs(r.ph[r.ph.size() - 2].ph.value() - read) <= s.habits.ph_rests_within.value() + 1e-9;
    if (!a.at_rest) {
        doubts.push_back(BathDoubt::read_once);
        return BathStep::stir_and_read;
    }
    if (s.chalk) doubts.push_back(BathDoubt::chalk_is_slow);
    if (last.ph < s.stop.low) return s.chalk && a.poured >= a.needed_high ? BathStep::stir_and_read : BathStep::pour_rest_by_drops;
    return last.ph > s.stop.high && !s.chalk ? BathStep::add_aluminium : BathStep::settle_and_wash;
}

/// Alkali or aluminium salt to add, by what is believed of the hydroxides, or by its far end where the pH says that
/// the middle was wrong; never none where the pH asks for some.
void mend(const BathSetting& s, const Titration& bath, AlkaliStanding& a, BathStep step) {
    const auto balance = [&](double z) {
        return alkali_balance(bath.aluminium, bath.mass, bath.alkali, a.poured, hydroxides_at(s.hydroxides, z));
    };
    if (step == BathStep::pour_alkali || step == BathStep::pour_rest_by_drops) {
        Mass missing = balance(0.0).more_alkali;
        if (!(missing.value() > 0.0)) missing = balance(1.645).more_alkali;
        if (!(missing.value() > 0.0)) missing = 0.01 * a.needed;
        a.pour_now = s.habits.first_portion.value().value() * missing;
    }
    if (step == BathStep::add_aluminium) {
        Mass wanted = balance(0.0).more_aluminium;
        if (!(wanted.value() > 0.0)) wanted = balance(-1.645).more_aluminium;
        if (!(wanted.value() > 0.0)) wanted = 0.01 * bath.mass;
        a.add_aluminium = wanted;
    }
}

/// Washes that are still to come, then the drying that is usual.
void forecast_drying(const BathSetting& s, double washes, BathStanding& out) {
    const DryingForecast drying = usual_drying(s.habits.drying);
    const Time washing = washes * s.habits.wash_takes.value();
    out.dry_after = DryingForecast{washing + drying.early, washing + drying.likely, washing + drying.late};
}

void stand_at_pot(const BathReadings& r, const BathSetting& s, BathStanding& out) {
    out.stage = BathStage::laying;
    AlkaliStanding a{};
    for (const Mass& portion : r.alkali) {
        if (!(portion.value() >= 0.0)) throw_out_of_range("alkali poured", in_grams(portion), "g", "0 or more");
        a.poured += portion;
    }
    const Titration bath = bath_now(r, s);
    const auto needed = [&](double z) {
        return alkali_needed(bath.aluminium, bath.mass, bath.alkali, hydroxides_at(s.hydroxides, z));
    };
    a.needed = needed(0.0);
    a.needed_low = needed(-1.645);
    a.needed_high = needed(1.645);
    a.hydroxides_poured = hydroxides_poured(bath.aluminium, bath.mass, bath.alkali, a.poured);
    if (!r.ph.empty()) out.next = step_by_ph(r, s, bath, a, out.doubts);
    else out.next = a.poured < a.needed_low ? BathStep::pour_alkali : BathStep::stir_and_read;
    mend(s, bath, a, out.next);
    if (s.chalk) {
        // What chalk leaves unused stays in the lake: its end point teaches nothing.
    } else if (out.next == BathStep::settle_and_wash) {
        const EndPoint end{a.hydroxides_poured, s.habits.end_point_doubt};
        a.learned = learn_hydroxides(s.hydroxides, std::span(&end, 1));
    } else {
        out.doubts.push_back(BathDoubt::hydroxides_unknown);
    }
    if (a.pour_now && r.foam_life && s.headspace.value() > 0.0) {
        const Ions ions = ions_of(s.bath.alkali, *a.pour_now);
        const AmountOfSubstance gas = moles(ions[Ion::carbonate] + ions[Ion::bicarbonate]);
        if (gas.value() > 0.0) a.foam = plan_foam(gas, s.warmth, s.headspace, *r.foam_life, s.foam_fill);
    }
    out.alkali = std::move(a);
    if (out.next == BathStep::settle_and_wash && s.planned_washes > 0) {
        out.washes_by_plan = s.planned_washes;
        forecast_drying(s, s.planned_washes, out);
    }
}

/// No pen tells gypsum that dissolves for ever from salts that wash out: so many washes, and no more is known.
void stand_at_chalk_wash(const BathReadings& r, const BathSetting& s, BathStanding& out) {
    out.doubts.push_back(BathDoubt::gypsum_on_the_pen);
    const double washed = static_cast<double>(r.decants.size()), wanted = s.habits.chalk_washes;
    out.next = washed < wanted ? BathStep::wash_again : BathStep::drain_and_dry;
    forecast_drying(s, std::max(0.0, wanted - washed), out);
}

void stand_at_blanket(const BathReadings& r, const BathSetting& s, BathStanding& out) {
    const ZoneSettling zone = fit_zone_settling(*r.blanket);
    const ZoneInterval open = zone_interval(*r.blanket, s.height_read_to, s.decant_within, 0.9);
    const Time draw_off = decant_time(zone, s.decant_within);
    out.sinking = SinkingStanding{draw_off, open.decant_low, open.decant_high, interface_height(zone, draw_off)};
    if (out.stage < BathStage::washing) out.stage = BathStage::washing;
    out.next = BathStep::let_it_sink;
}

void stand_at_colour(const BathReadings& r, const BathSetting& s, BathStanding& out) {
    Mass alkali{};
    for (const Mass& portion : r.alkali) alkali += portion;
    const Titration bath = bath_now(r, s);
    const SecondLaying laying = second_laying(*r.colour, bath.liquor + alkali * bath.solution, s.dye_liquor, s.habits.colour);
    const double part = laying.alumina.value();
    out.second = SecondBath{laying, part * bath.mass,
                            part * alkali_needed(bath.aluminium, bath.mass, bath.alkali, hydroxides_at(s.hydroxides, 0.0))};
}

void stand_at_wash(const BathReadings& r, const BathSetting& s, BathStanding& out) {
    out.stage = BathStage::washing;
    if (s.chalk) return stand_at_chalk_wash(r, s, out);
    if (!r.wash_water) {
        out.next = BathStep::read_wash_water;
        out.doubts.push_back(BathDoubt::water_unread);
        return;
    }
    const auto read = [&](const PenReading& decant) { return salts_in_decant(decant, *r.wash_water, s.pen, s.salts); };
    WashedLake lake{};
    lake.water = read(r.decants.back());
    lake.bed = s.bed;
    lake.filled = s.filled;
    lake.lake = expected_mass(out); // goes out of it: a drained cake holds so much to a gram
    lake.stirred_to = s.habits.stirred_to;
    lake.held = usual_held(s.habits); // the step after it says: drain it on paper
    out.water = lake.water;
    if (r.weighings.empty()) out.doubts.push_back(BathDoubt::if_drained);
    if (r.decants.size() > 1) {
        const SaltsInWater before = read(r.decants[r.decants.size() - 2]);
        if (before.strength.value.value() > 2.0 * before.standard_uncertainty.value() && lake.water.strength.value.value() > 0.0) {
            out.kept = kept_by_reading(before, lake.water, s.bed, s.filled);
            const double surprise = std::log(out.kept->observed / out.kept->expected) / out.kept->log_standard_uncertainty;
            if (out.kept->observed >= 1.0) out.doubts.push_back(BathDoubt::salts_rose);
            if (surprise > 2.0 && out.kept->observed < 1.0) { // washes to come are reckoned as they go, not as they should
                out.doubts.push_back(BathDoubt::salts_trapped);
                lake.filled = Estimate<Volume>::lognormal(s.bed.value() / out.kept->observed, std::exp(s.filled.relative_uncertainty()),
                                                          s.filled.provenance());
            }
        }
    }
    const MassFraction allowed = s.habits.salts_allowed.value();
    out.washed = wash_outlook(lake, allowed, solids_of_wash_water(at_25_degrees(*r.wash_water, s.pen), s.habits));
    if (out.washed->sure && *out.washed->sure == 0)
        out.next = out.washed->from_wash_water > allowed ? BathStep::wash_with_pure_water : BathStep::drain_and_dry;
    else
        out.next = BathStep::wash_again;
    if (out.washed->sure) forecast_drying(s, static_cast<double>(*out.washed->sure), out);
}

void stand_at_scale(const BathReadings& r, BathStanding& out) {
    out.stage = BathStage::drying;
    out.next = BathStep::weigh_tomorrow;
    if (!out.dried) {
        if (r.weighings.size() > 2 && !r.weighings.back().surface_wet) out.doubts.push_back(BathDoubt::end_open);
        return;
    }
    if (out.dried->unexpected) out.doubts.push_back(BathDoubt::unlike_the_bath);
    if (out.dried->end_high - out.dried->end_low > 0.2 * out.dried->end) out.doubts.push_back(BathDoubt::end_open);
    switch (out.dried->state) {
    case DryingState::falling:
        out.next = out.dried->dry_now.value() >= 0.9 ? BathStep::jar_it : BathStep::keep_drying;
        break;
    case DryingState::stuck: out.next = BathStep::break_the_cake; break;
    case DryingState::constant: out.next = BathStep::jar_it; break;
    }
    if (out.next == BathStep::jar_it) out.stage = BathStage::at_rest;
}

} // namespace

ColourRecord colour_written_down(const BathStanding& standing) {
    const BathReadings& read = standing.readings;
    ColourRecord colour{read.hue, read.swatch, {}};
    if (standing.alkali && standing.alkali->at_rest)
        colour.strike = Estimate<Ph>::normal(read.ph.back().ph, standing.alkali->read_to, {Origin::measured, {}, false});
    return colour;
}

std::vector<BathCaution> cautions_at(BathStage stage, const std::vector<BathCaution>& all) {
    const bool at_the_pot = stage == BathStage::planned || stage == BathStage::straining || stage == BathStage::laying;
    const bool wet = at_the_pot || stage == BathStage::washing;
    std::vector<BathCaution> chosen;
    for (const BathCaution each : all) {
        bool applies = true;
        switch (each) {
        case BathCaution::never_closed:
        case BathCaution::foam_over:
        case BathCaution::ammonia:
        case BathCaution::scald:
        case BathCaution::poisonous_plant: applies = at_the_pot; break;
        case BathCaution::eye_damage:
        case BathCaution::alkali_splash:
        case BathCaution::drain: applies = wet; break;
        case BathCaution::mould:
        case BathCaution::dust: applies = !at_the_pot; break;
        case BathCaution::kitchen:
        case BathCaution::data_sheet: break;
        }
        if (applies) chosen.push_back(each);
    }
    return chosen;
}

BathStanding bath_standing(const BathReadings& r, const BathSetting& s) {
    BathStanding out;
    out.readings = r;
    out.salts_allowed = s.habits.salts_allowed.value();
    LakeEstimate lake = s.lake;
    const double grown = (bath_now(r, s).mass / s.bath.mass).value();
    if (grown > 1.0) lake.aluminium = measured(grown * lake.aluminium.value());
    out.expected = s.chalk ? expected_chalk_lake(*s.chalk, lake) : expected_lake(lake);
    if (!dries_evenly(r.weighings)) out.dried = drying_outlook(r.weighings, s.scale, s.habits.drying, expected_mass(out));
    // Each topic that has readings speaks; the last one says where the bath stands.
    if (!r.filter.empty()) stand_at_filter(r, s, out);
    if (!r.alkali.empty() || !r.ph.empty() || !r.aluminium.empty()) stand_at_pot(r, s, out);
    if (r.colour) stand_at_colour(r, s, out);
    if (!r.decants.empty()) {
        out.doubts.clear(); // of the pot: the lake is laid
        out.washes_by_plan.reset(), out.dry_after.reset();
        stand_at_wash(r, s, out);
    }
    if (r.blanket) stand_at_blanket(r, s, out);
    if (!r.weighings.empty()) {
        out.washes_by_plan.reset(), out.dry_after.reset();
        std::erase(out.doubts, BathDoubt::hydroxides_unknown);
        stand_at_scale(r, out);
    }
    out.to_expect_kg = out.expected.mass_kg;
    if (out.dried && !out.dried->unexpected) out.to_expect_kg = {in_kilograms(out.dried->end_low), in_kilograms(out.dried->end_high)};
    if (r.jarred) {
        out.stage = BathStage::jarred;
        out.next = BathStep::in_its_jar;
        out.washes_by_plan.reset(), out.dry_after.reset();
    }
    return out;
}

} // namespace lakebound
