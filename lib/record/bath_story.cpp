#include "lakebound/record/bath_story.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <numeric>
#include <set>

#include "lakebound/quantity/error.hpp"

namespace lakebound {
namespace {

using std::chrono::sys_days;

constexpr double beyond_doubt = 2.5; // standard uncertainties of a difference

/// "2026-05-03-02-poured": 2; 0 where the name has no number.
int number_of_the_day(const std::string& id) {
    constexpr std::size_t after_date = 11;
    int number = 0;
    if (id.size() > after_date) std::from_chars(id.data() + after_date, id.data() + id.size(), number);
    return number;
}

std::vector<std::size_t> bath_order(std::span<const BathEntry> entries) {
    std::vector<std::size_t> order(entries.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        const auto key = [&](std::size_t i) { return std::tuple(entries[i].day, number_of_the_day(entries[i].id), entries[i].id); };
        return key(a) < key(b);
    });
    return order;
}

class BathFold {
public:
    BathFold(std::span<const BathEntry> entries, const BathSetting& setting, BathStory& story)
        : entries_(entries), setting_(setting), story_(story) {}

    void take(std::size_t i) {
        at_ = i;
        const bool counts = std::visit([this](const auto& what) { return apply(what); }, entries_[i].what);
        if (!counts) return;
        story_.lines.push_back(i);
        story_.last = entries_[i].day;
    }

    void finish() {
        weigh();
        if (jarred_) hold_jar_against_cake();
        hold_decants_against_water();
    }

    void fault(BathContradiction kind, std::size_t entry, std::optional<std::size_t> other = {}) {
        story_.faults.push_back({kind, entry, other});
    }

private:
    bool apply(const FilterEntry& e) {
        auto& r = story_.readings;
        if (e.whole) r.to_filter = e.whole, whole_ = at_;
        if (!r.filter.empty() && !(e.reading.time > r.filter.back().time && e.reading.filtrate > r.filter.back().filtrate))
            return refuse(BathContradiction::filter_falls, filter_);
        const double room = 1.0 + 2.0 * setting_.habits.filter.volume_read_to.value().value();
        if (r.to_filter && e.reading.filtrate > *r.to_filter * room) return refuse(BathContradiction::beyond_the_whole, whole_);
        r.filter.push_back(e.reading);
        filter_ = at_;
        return true;
    }
    bool apply(const PouredEntry& e) {
        story_.readings.alkali.push_back(e.solution / setting_.bath.solution);
        story_.readings.ph.clear();
        return true;
    }
    bool apply(const AluminiumEntry& e) {
        story_.readings.aluminium.push_back(e.salt);
        story_.readings.ph.clear();
        return true;
    }
    bool apply(const PhEntry& e) { return story_.readings.ph.push_back(e.seen), true; }
    bool apply(const FoamEntry& e) { return story_.readings.foam_life = e.life, true; }
    bool apply(const BlanketEntry& e) { return story_.readings.blanket = e.heights, true; }
    bool apply(const ColourEntry& e) { return story_.readings.colour = e.match, true; }
    bool apply(const WashWaterEntry& e) {
        story_.readings.wash_water = e.reading;
        water_ = at_;
        return true;
    }
    bool apply(const DecantEntry& e) {
        story_.readings.decants.push_back(e.reading);
        story_.readings.blanket.reset();
        story_.last_washed = entries_[at_].day;
        decants_.push_back(at_);
        return true;
    }
    bool apply(const CakeEntry&) { return cakes_.push_back(at_), true; }
    bool apply(const HueEntry& e) { return story_.readings.hue = e.words, true; }
    bool apply(const BathSwatchEntry& e) { return story_.readings.swatch = e.number, true; }
    bool apply(const JarredEntry& e) {
        story_.jar = e;
        jarred_ = at_;
        return true;
    }
    bool apply(const NoteEntry&) { return true; }
    bool apply(const UndoEntry&) { return false; }

    bool refuse(BathContradiction kind, std::optional<std::size_t> other) {
        fault(kind, at_, other);
        return false;
    }
    void leave_out(std::size_t entry) { std::erase(story_.lines, entry); }

    /// Weighings in order of time, each with its hour: its own, else that of the others, else noon.
    void weigh() {
        if (cakes_.empty()) return;
        std::chrono::minutes usual = std::chrono::hours(12);
        for (const std::size_t i : cakes_)
            if (entries_[i].hour) {
                usual = *entries_[i].hour;
                break;
            }
        const auto hour = [&](std::size_t i) { return entries_[i].hour.value_or(usual); };
        const auto moment = [&](std::size_t i) { return entries_[i].day + hour(i); };
        std::stable_sort(cakes_.begin(), cakes_.end(), [&](std::size_t a, std::size_t b) { return moment(a) < moment(b); });
        story_.first_weighed = entries_[cakes_.front()].day;
        story_.readings.weighings.clear();
        std::optional<std::size_t> before;
        for (const std::size_t i : cakes_) {
            const auto& cake = std::get<CakeEntry>(entries_[i].what);
            if (before && entries_[*before].day == entries_[i].day &&
                (moment(*before) == moment(i) || !entries_[*before].hour || !entries_[i].hour)) {
                fault(BathContradiction::weighed_at_once, i, before);
                leave_out(i);
                continue;
            }
            if (before) {
                const Mass last = std::get<CakeEntry>(entries_[*before].what).mass;
                const double u = std::hypot(doubt(last).value(), doubt(cake.mass).value());
                if ((cake.mass - last).value() > beyond_doubt * u) {
                    fault(BathContradiction::cake_rises, i, before);
                    leave_out(i);
                    continue;
                }
            }
            const auto since = std::chrono::duration_cast<std::chrono::seconds>(moment(i) - *story_.first_weighed);
            story_.readings.weighings.push_back({seconds(static_cast<double>(since.count())), cake.mass, cake.surface_wet});
            before = i;
        }
        cake_ = before;
    }
    Mass doubt(Mass mass) const { return weighing_doubt(mass, setting_.scale, setting_.habits.drying); }

    void hold_jar_against_cake() {
        if (!story_.jar->net || !cake_) return;
        const Mass cake = std::get<CakeEntry>(entries_[*cake_].what).mass;
        // Beyond what two weighings and damp air leave open.
        const double damp = setting_.habits.air_dry_water.standard_uncertainty().value() * cake.value();
        const double u = std::hypot(std::hypot(doubt(cake).value(), doubt(*story_.jar->net).value()), damp);
        if ((*story_.jar->net - cake).value() <= beyond_doubt * u) return;
        fault(BathContradiction::jar_above_cake, *jarred_, cake_);
        leave_out(*jarred_);
        story_.jar.reset();
    }

    void hold_decants_against_water() {
        auto& r = story_.readings;
        if (!r.wash_water || setting_.chalk) return;
        const std::size_t of_file = r.decants.size() - decants_.size();
        for (std::size_t i = decants_.size(); i-- > 0;) {
            const PenReading& decant = r.decants[of_file + i];
            if (!(at_25_degrees(decant, setting_.pen) < at_25_degrees(*r.wash_water, setting_.pen))) continue;
            try {
                (void)salts_in_decant(decant, *r.wash_water, setting_.pen, setting_.salts);
            } catch (const DomainError&) {
                fault(BathContradiction::below_wash_water, decants_[i], water_);
                leave_out(decants_[i]);
                r.decants.erase(r.decants.begin() + static_cast<std::ptrdiff_t>(of_file + i));
            }
        }
    }

    std::span<const BathEntry> entries_;
    const BathSetting& setting_;
    BathStory& story_;
    std::size_t at_ = 0;
    std::optional<std::size_t> filter_, whole_, water_, cake_, jarred_; ///< entries that later ones are held against
    std::vector<std::size_t> decants_, cakes_;
};

} // namespace

BathStory bath_story(const BathReadings& before, std::span<const BathEntry> entries, const BathSetting& setting,
                     std::optional<sys_days> since, sys_days today) {
    BathStory story;
    story.readings = before;
    BathFold fold(entries, setting, story);
    const auto order = bath_order(entries);
    std::set<std::string> undone;
    for (const std::size_t i : order)
        if (const auto* undo = std::get_if<UndoEntry>(&entries[i].what)) {
            const auto of = std::find_if(entries.begin(), entries.end(), [&](const BathEntry& e) {
                return e.id == undo->entry && !std::holds_alternative<UndoEntry>(e.what);
            });
            if (of == entries.end()) fold.fault(BathContradiction::unknown_entry, i);
            else undone.insert(undo->entry);
        }
    for (const std::size_t i : order) {
        if (entries[i].day > today) fold.fault(BathContradiction::in_the_future, i);
        else if (since && entries[i].day < *since) fold.fault(BathContradiction::before_the_bath, i);
        else if (!undone.contains(entries[i].id)) fold.take(i);
    }
    fold.finish();
    story.readings.jarred = story.jar.has_value();
    return story;
}

BathStanding bath_standing_on(sys_days day, const BathStory& story, const BathSetting& setting) {
    BathStanding at = bath_standing(story.readings, setting);
    if (!at.dried || !story.first_weighed || at.dried->state != DryingState::falling) return at;
    const Time noon = hours(24.0 * static_cast<double>((day - *story.first_weighed).count()) + 12.0);
    if (!(noon > story.readings.weighings.back().time)) return at;
    at.dried->dry_now = chance_dry(at.dried->belief, noon, setting.habits.drying.dry_within.value());
    if (at.next == BathStep::keep_drying && at.dried->dry_now.value() >= 0.9) at.next = BathStep::weigh_once_more;
    return at;
}

std::optional<DayRange> dry_days(const BathStory& story, const BathStanding& standing, const WashHabits& habits, sys_days today) {
    const auto day_of = [](sys_days midnight, Time since) {
        return midnight + std::chrono::days(static_cast<int>(std::floor(in_hours(since) / 24.0)));
    };
    const auto not_past = [&](DayRange range) -> std::optional<DayRange> {
        if (range.last < today) return std::nullopt;
        return DayRange{std::max(range.first, today), range.last};
    };
    if (story.jar) return std::nullopt;
    if (standing.dried) {
        if (!story.first_weighed || standing.dried->state == DryingState::stuck) return std::nullopt;
        if (standing.dried->state == DryingState::constant) return not_past({today, today});
        const Share within = habits.drying.dry_within.value();
        const auto early = time_dry_with(standing.dried->belief, within, 0.05), late = time_dry_with(standing.dried->belief, within, 0.95);
        if (!early || !late) return std::nullopt;
        return not_past({day_of(*story.first_weighed, *early), day_of(*story.first_weighed, *late)});
    }
    if (const auto from = story.last_washed ? story.last_washed : story.last; standing.dry_after && from) {
        const Time noon = hours(12);
        return not_past({day_of(*from, noon + standing.dry_after->early), day_of(*from, noon + standing.dry_after->late)});
    }
    return std::nullopt;
}

} // namespace lakebound
