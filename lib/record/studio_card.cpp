#include "lakebound/record/studio_card.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <string_view>
#include <tuple>
#include <unordered_map>
#include <utility>

#include "lakebound/material/moisture.hpp"
#include "lakebound/quantity/error.hpp"

namespace lakebound {
namespace {

constexpr double worth_saying = 2.0; ///< sd

template <class... Of> struct Each : Of... {
    using Of::operator()...;
};
template <class... Of> Each(Of...) -> Each<Of...>; // clang 14 does not find it by itself

double checked(Mass m, const char* what) {
    if (!(m.value() >= 0.0 && std::isfinite(m.value()))) throw_out_of_range(what, in_grams(m), "g", "0 or more, finite");
    return m.value();
}

/// Reckons the powder of one jar.
class Balance {
public:
    explicit Balance(JarCard& card) : card_(card) {}

    void weigh(const WeighedEntry& w, std::size_t entry, std::chrono::sys_days day) {
        const double net = checked(w.net, "powder weighed"), u = checked(w.uncertainty, "doubt of a weighing");
        if (card_.left) {
            const double doubt = std::hypot(card_.uncertainty.value(), u);
            const UnexplainedLoss loss{Mass::from_value(card_.left->value() - net), Mass::from_value(doubt), entry, day};
            if (std::abs(loss.in_spreads()) > worth_saying) card_.losses.push_back(loss);
        }
        card_.left = w.net;
        card_.uncertainty = w.uncertainty;
        card_.left_from = {entry};
        card_.from_its_file = false;
    }
    void begin(const WeighedEntry& w) {
        checked(w.net, "powder of a jar's file"), checked(w.uncertainty, "doubt of a jar's file");
        card_.left = w.net;
        card_.uncertainty = w.uncertainty;
        card_.from_its_file = true;
    }
    bool holds(Mass powder, Mass uncertainty) const {
        if (!card_.left) return true;
        const double doubt = std::hypot(card_.uncertainty.value(), uncertainty.value());
        return card_.left->value() - powder.value() >= -worth_saying * doubt;
    }
    /// False when there was not as much.
    bool draw(Mass powder, Mass uncertainty, std::size_t entry) {
        const double drawn = checked(powder, "powder drawn"), u = checked(uncertainty, "doubt of a draw");
        if (!card_.left || !(drawn > 0.0)) return true;
        const double left = card_.left->value() - drawn, doubt = std::hypot(card_.uncertainty.value(), u);
        const bool enough = holds(powder, uncertainty);
        card_.left = Mass::from_value(std::max(left, 0.0));
        card_.uncertainty = Mass::from_value(doubt);
        card_.left_from.push_back(entry);
        return enough;
    }

private:
    JarCard& card_;
};

class Fold {
public:
    Fold(std::span<const JarStart> starts, std::span<const Entry* const> entries, std::chrono::sys_days today)
        : starts_(starts), entries_(entries), today_(today), undone_(entries.size(), false) {
        entry_of_.reserve(entries.size());
        for (const JarStart& start : starts) {
            if (!jar_of_.try_emplace(start.id, card_.jars.size()).second)
                throw DomainError("jar", start.id, "given once");
            JarCard& card = card_.jars.emplace_back();
            card.id = start.id;
            if (start.net) Balance(card).begin(*start.net);
            card.stated_oil_absorption = start.oil_absorption.has_value();
            card_.record.jars.push_back({start.plant, start.reference, 0, false});
            if (start.oil_absorption)
                card_.record.rub_outs.push_back({card_.jars.size() - 1, start.oil_absorption->value, 0, 0.0,
                                                 start.oil_absorption->spread});
        }
    }

    StudioCard folded() {
        std::vector<std::size_t> order(entries_.size());
        std::iota(order.begin(), order.end(), std::size_t{0});
        std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
            return std::tie(entries_[a]->day, entries_[a]->id) < std::tie(entries_[b]->day, entries_[b]->id);
        });
        std::erase_if(order, [&](std::size_t i) { return !possible(i); });
        std::erase_if(order, [&](std::size_t i) { return undoes(i); });
        for (const std::size_t i : order)
            if (!undone_[i]) take(i);
        for (const bool in_use : {false, true})
            for (const auto& [paint, outcome] : outcome_of_)
                if (std::holds_alternative<BatchEntry>(entries_[paint]->what) == in_use) learn(paint, outcome);
        for (JarCard& card : card_.jars)
            for (const std::size_t i : card.swatches)
                if (!outcome_of_.contains(i)) card.open_swatches.push_back(i);
        return std::move(card_);
    }

private:
    void fault(Contradiction kind, std::size_t entry, std::optional<std::size_t> other = {}) {
        card_.faults.push_back({kind, entry, other});
    }

    bool possible(std::size_t i) {
        const Entry& e = *entries_[i];
        const auto [known, fresh] = entry_of_.try_emplace(e.id, i);
        if (!fresh) return fault(Contradiction::same_id, i, known->second), false;
        if (e.day > today_) return fault(Contradiction::in_the_future, i), false;
        if (std::holds_alternative<UndoEntry>(e.what)) return true;
        const auto jar = jar_of_.find(e.jar);
        if (jar == jar_of_.end()) return fault(Contradiction::unknown_jar, i), false;
        if (e.day < starts_[jar->second].day) return fault(Contradiction::before_its_jar, i), false;
        return true;
    }

    bool undoes(std::size_t i) {
        const auto* undo = std::get_if<UndoEntry>(&entries_[i]->what);
        if (!undo) return false;
        const auto known = entry_of_.find(undo->entry);
        if (known == entry_of_.end() || std::holds_alternative<UndoEntry>(entries_[known->second]->what))
            fault(Contradiction::unknown_entry, i);
        else undone_[known->second] = true;
        return true;
    }

    bool is_undone(const std::string& id) const {
        const auto known = entry_of_.find(id);
        return known != entry_of_.end() && undone_[known->second];
    }

    void draw(std::size_t i, Mass powder, Mass uncertainty) {
        JarCard& card = card_.jars[jar_of_.at(entries_[i]->jar)];
        if (!Balance(card).draw(powder, uncertainty, i)) beyond_all(card, i);
    }
    void beyond_all(const JarCard& card, std::size_t i) {
        fault(Contradiction::drawn_beyond_all, i, card.from_its_file ? std::nullopt : std::optional(card.left_from.front()));
    }

    PaintTrial trial(std::size_t i, const PaintMade& paint, PaintOutcome outcome, bool in_use) const {
        const std::size_t jar = jar_of_.at(entries_[i]->jar);
        return {jar,     paint.family, paint.library_k,      paint.weighing_spread,
                outcome, in_use,       changes_before(i), paint.lot};
    }
    std::size_t changes_before(std::size_t i) const {
        const auto& changes = card_.jars[jar_of_.at(entries_[i]->jar)].changes;
        return static_cast<std::size_t>(std::count_if(changes.begin(), changes.end(), [&](std::size_t c) {
            return std::tie(entries_[c]->day, entries_[c]->id) < std::tie(entries_[i]->day, entries_[i]->id);
        }));
    }

    void take(std::size_t i) {
        const std::size_t jar = jar_of_.at(entries_[i]->jar);
        JarCard& card = card_.jars[jar];
        std::visit(Each{[&](const WeighedEntry& w) { Balance(card).weigh(w, i, entries_[i]->day); },
                        [&](const DrawnEntry& d) { draw(i, d.powder, d.uncertainty); },
                        [&](const RubOutEntry& r) {
                            card_.record.rub_outs.push_back(
                                {jar, r.oil_absorption, changes_before(i), r.reading_spread, {}});
                            card.rub_outs.push_back(i);
                            draw(i, r.powder, {});
                        },
                        [&](const MeasuredEntry& m) { measure(card, m, i); },
                        [&](const SwatchEntry& s) {
                            card.swatches.push_back(i);
                            if (s.sign) outcome_of_[i] = i;
                            if (s.on_slab) stroke(card, s, i);
                            else draw(i, s.paint.powder, s.paint.uncertainty);
                        },
                        [&](const BatchEntry& b) {
                            card.batches.push_back(i);
                            batch(card, b.paint, i);
                        },
                        [&](const OutcomeEntry& o) {
                            if (is_undone(o.of)) return; // of what did not happen
                            const auto paint = paint_called(card, o.of);
                            if (!paint) return fault(Contradiction::unknown_paint, i);
                            outcome_of_[*paint] = i;
                            if (is_lost(o.sign)) std::erase_if(card.slabs, [&](const Slab& slab) { return slab.entry == *paint; });
                        },
                        [&](const NoteEntry&) { card.notes.push_back(i); },
                        [&](const ChangedEntry&) {
                            card.changes.push_back(i);
                            card.measured.median_size.reset();
                            card.measured.tapped_density.reset();
                            card.settled.reset();
                            ++card_.record.jars[jar].changes;
                        },
                        [](const UndoEntry&) {},
                        [&](const SieveTestEntry& s) {
                            MeasuredEntry size;
                            size.median_size = s.seen.median_size;
                            measure(card, size, i);
                            if (Balance(card).holds(s.seen.charge, s.seen.uncertainty)) draw(i, s.seen.used, s.seen.uncertainty);
                            else beyond_all(card, i);
                        },
                        [&](const SettlingTestEntry& s) { card.settled = s.seen; }},
                   entries_[i]->what);
    }

    static std::vector<Slab>::iterator slab_of(JarCard& card, std::size_t family) {
        return std::find_if(card.slabs.begin(), card.slabs.end(), [&](const Slab& slab) { return slab.family == family; });
    }
    void stroke(JarCard& card, const SwatchEntry& s, std::size_t i) {
        const Mass powder = s.on_slab->powder;
        const auto slab = slab_of(card, s.paint.family);
        const bool goes_on = draw_for_batch(card, s.paint, powder, s.on_slab->uncertainty, i);
        const Slab now{i, s.paint.family, powder, s.paint.library_k, goes_on ? slab->strokes + 1 : 1};
        if (slab == card.slabs.end()) card.slabs.push_back(now);
        else *slab = now;
        if (s.sign && is_lost(*s.sign)) card.slabs.erase(slab_of(card, s.paint.family));
    }
    void batch(JarCard& card, const PaintMade& paint, std::size_t i) {
        if (draw_for_batch(card, paint, paint.powder, paint.uncertainty, i)) card.slabs.erase(slab_of(card, paint.family));
    }
    /// What came out of the jar for it already, by its strokes, does not come out twice. True where there are such.
    bool draw_for_batch(JarCard& card, const PaintMade& paint, Mass powder, Mass uncertainty, std::size_t i) {
        const auto slab = slab_of(card, paint.family);
        if (slab == card.slabs.end()) return draw(i, powder, uncertainty), false;
        if (!is_on_slab(*slab, paint.family, powder, paint.library_k)) {
            card.begun_anew.push_back({i, slab->entry});
            return draw(i, powder, uncertainty), false;
        }
        if (const Mass more = added_since(*slab, powder); more.value() > 0.0) draw(i, more, uncertainty);
        return true;
    }

    static void measure(JarCard& card, const MeasuredEntry& m, std::size_t i) {
        if (m.density) card.measured.density = m.density;
        if (m.tapped_density) card.measured.tapped_density = m.tapped_density;
        if (m.moisture) card.measured.moisture = m.moisture;
        if (m.median_size) card.measured.median_size = m.median_size;
        card.measurements.push_back(i);
    }

    std::optional<std::size_t> paint_called(const JarCard& card, const std::string& id) const {
        for (const auto* list : {&card.swatches, &card.batches})
            for (const std::size_t i : *list)
                if (entries_[i]->id == id) return i;
        return std::nullopt;
    }

    void learn(std::size_t i, std::size_t outcome) {
        const auto* swatch = std::get_if<SwatchEntry>(&entries_[i]->what);
        const PaintMade& paint = swatch ? swatch->paint : std::get<BatchEntry>(entries_[i]->what).paint;
        const PaintSign sign = outcome == i ? *swatch->sign : std::get<OutcomeEntry>(entries_[outcome]->what).sign;
        const auto seen = outcome_of(sign);
        if (seen && paint.of_this_jar_alone) {
            card_.record.trials.push_back(trial(i, paint, *seen, !swatch));
            note_judged(jar_of_.at(entries_[i]->jar), outcome);
        }
        if (outcome != i) card_.jars[jar_of_.at(entries_[i]->jar)].outcomes.push_back(outcome);
    }

    void note_judged(std::size_t jar, std::size_t outcome) {
        const auto last = last_outcome_.find(jar);
        const auto when = [this](std::size_t i) { return std::tie(entries_[i]->day, entries_[i]->id); };
        if (last != last_outcome_.end() && when(outcome) < when(last->second)) return;
        last_outcome_[jar] = outcome;
        card_.jars[jar].last_judged = card_.record.trials.size() - 1;
    }

    std::span<const JarStart> starts_;
    std::span<const Entry* const> entries_;
    std::chrono::sys_days today_;
    StudioCard card_;
    std::unordered_map<std::string_view, std::size_t> jar_of_, entry_of_; ///< of ids
    std::vector<bool> undone_;                                            ///< of each entry
    std::map<std::size_t, std::size_t> outcome_of_;   ///< of each swatch and batch the last
    std::map<std::size_t, std::size_t> last_outcome_; ///< of each jar, that taught
};

} // namespace

double UnexplainedLoss::in_spreads() const {
    if (uncertainty.value() > 0.0) return mass.value() / uncertainty.value();
    return mass.value() == 0.0 ? 0.0 : std::copysign(INFINITY, mass.value());
}

Pigment with_measured(Pigment pigment, const MeasuredEntry& measured) {
    if (measured.tapped_density) pigment.tapped_density = measured.tapped_density;
    if (measured.median_size) pigment.median_size = measured.median_size;
    if (measured.density) {
        pigment.density = *measured.density;
        pigment.density_state = MoistureState::as_weighed;
    }
    if (measured.moisture)
        pigment = at_moisture(std::move(pigment), *measured.moisture, {measured.density.has_value(), false});
    return pigment;
}

StudioCard studio_card(std::span<const JarStart> starts, std::span<const Entry> entries, std::chrono::sys_days today) {
    std::vector<const Entry*> list;
    list.reserve(entries.size());
    for (const Entry& entry : entries)
        list.push_back(&entry);
    return studio_card_of(starts, list, today);
}

StudioCard studio_card_of(std::span<const JarStart> starts, std::span<const Entry* const> entries, std::chrono::sys_days today) {
    return Fold(starts, entries, today).folded();
}

} // namespace lakebound
