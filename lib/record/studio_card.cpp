#include "lakebound/record/studio_card.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <tuple>
#include <utility>

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

    void weigh(const WeighedEntry& w, std::size_t entry) {
        const double net = checked(w.net, "powder weighed"), u = checked(w.uncertainty, "doubt of a weighing");
        if (card_.left) {
            const double doubt = std::hypot(card_.uncertainty.value(), u);
            const UnexplainedLoss loss{Mass::from_value(card_.left->value() - net), Mass::from_value(doubt), entry};
            if (std::abs(loss.in_spreads()) > worth_saying) card_.losses.push_back(loss);
        }
        card_.left = w.net;
        card_.uncertainty = w.uncertainty;
        card_.left_from = {entry};
    }
    /// False when there was not as much.
    bool draw(Mass powder, Mass uncertainty, std::size_t entry) {
        const double drawn = checked(powder, "powder drawn"), u = checked(uncertainty, "doubt of a draw");
        if (!card_.left || !(drawn > 0.0)) return true;
        const double left = card_.left->value() - drawn, doubt = std::hypot(card_.uncertainty.value(), u);
        card_.left = Mass::from_value(std::max(left, 0.0));
        card_.uncertainty = Mass::from_value(doubt);
        card_.left_from.push_back(entry);
        return left >= -worth_saying * doubt;
    }

private:
    JarCard& card_;
};

class Fold {
public:
    Fold(std::span<const JarStart> starts, std::span<const Entry> entries, std::chrono::sys_days today)
        : starts_(starts), entries_(entries), today_(today) {
        for (const JarStart& start : starts) {
            if (!jar_of_.try_emplace(start.id, card_.jars.size()).second)
                throw DomainError("jar", start.id, "given once");
            card_.jars.push_back({start.id, {}, {}, {}, {}, {}, {}, {}, {}, {}});
            card_.record.jars.push_back({start.plant, start.reference, 0, false});
        }
    }

    StudioCard folded() {
        std::vector<std::size_t> order(entries_.size());
        std::iota(order.begin(), order.end(), std::size_t{0});
        std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
            return std::tie(entries_[a].day, entries_[a].id) < std::tie(entries_[b].day, entries_[b].id);
        });
        std::erase_if(order, [&](std::size_t i) { return !possible(i); });
        std::erase_if(order, [&](std::size_t i) { return undoes(i); });
        for (const std::size_t i : order)
            if (std::find(undone_.begin(), undone_.end(), i) == undone_.end()) take(i);
        for (const auto& [batch, outcome] : outcome_of_)
            learn_outcome(batch, outcome);
        return std::move(card_);
    }

private:
    void fault(Contradiction kind, std::size_t entry, std::optional<std::size_t> other = {}) {
        card_.faults.push_back({kind, entry, other});
    }

    bool possible(std::size_t i) {
        const Entry& e = entries_[i];
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
        const auto* undo = std::get_if<UndoEntry>(&entries_[i].what);
        if (!undo) return false;
        const auto known = entry_of_.find(undo->entry);
        if (known == entry_of_.end() || std::holds_alternative<UndoEntry>(entries_[known->second].what))
            fault(Contradiction::unknown_entry, i);
        else undone_.push_back(known->second);
        return true;
    }

    void draw(std::size_t i, Mass powder, Mass uncertainty) {
        JarCard& card = card_.jars[jar_of_.at(entries_[i].jar)];
        if (!Balance(card).draw(powder, uncertainty, i))
            fault(Contradiction::drawn_beyond_all, i, card.left_from.front());
    }

    PaintTrial trial(std::size_t i, const PaintMade& paint, PaintOutcome outcome, bool in_use) const {
        const std::size_t jar = jar_of_.at(entries_[i].jar);
        return {jar,     paint.family, paint.library_k,      paint.weighing_spread,
                outcome, in_use,       changes_before(i), paint.lot};
    }
    std::size_t changes_before(std::size_t i) const {
        const auto& changes = card_.jars[jar_of_.at(entries_[i].jar)].changes;
        return static_cast<std::size_t>(std::count_if(changes.begin(), changes.end(), [&](std::size_t c) {
            return std::tie(entries_[c].day, entries_[c].id) < std::tie(entries_[i].day, entries_[i].id);
        }));
    }

    void take(std::size_t i) {
        const std::size_t jar = jar_of_.at(entries_[i].jar);
        JarCard& card = card_.jars[jar];
        std::visit(Each{[&](const WeighedEntry& w) { Balance(card).weigh(w, i); },
                        [&](const DrawnEntry& d) { draw(i, d.powder, d.uncertainty); },
                        [&](const RubOutEntry& r) {
                            card_.record.rub_outs.push_back(
                                {jar, r.oil_absorption, changes_before(i), r.reading_spread});
                            card.rub_outs.push_back(i);
                            draw(i, r.powder, {});
                        },
                        [&](const SwatchEntry& s) {
                            card_.record.trials.push_back(trial(i, s.paint, s.outcome, false));
                            card.swatches.push_back(i);
                            draw(i, s.paint.powder, s.paint.uncertainty);
                        },
                        [&](const BatchEntry& b) {
                            card.batches.push_back(i);
                            draw(i, b.paint.powder, b.paint.uncertainty);
                        },
                        [&](const OutcomeEntry& o) {
                            const auto batch = std::find_if(card.batches.begin(), card.batches.end(),
                                                            [&](std::size_t b) { return entries_[b].id == o.batch; });
                            if (batch == card.batches.end()) return fault(Contradiction::unknown_batch, i);
                            outcome_of_[*batch] = i;
                        },
                        [&](const ChangedEntry&) {
                            card.changes.push_back(i);
                            ++card_.record.jars[jar].changes;
                        },
                        [](const UndoEntry&) {}},
                   entries_[i].what);
    }

    void learn_outcome(std::size_t batch, std::size_t outcome) {
        const PaintMade& paint = std::get<BatchEntry>(entries_[batch].what).paint;
        const PaintOutcome seen = std::get<OutcomeEntry>(entries_[outcome].what).outcome;
        card_.record.trials.push_back(trial(batch, paint, seen, true));
        card_.jars[jar_of_.at(entries_[batch].jar)].outcomes.push_back(outcome);
    }

    std::span<const JarStart> starts_;
    std::span<const Entry> entries_;
    std::chrono::sys_days today_;
    StudioCard card_;
    std::map<std::string, std::size_t> jar_of_, entry_of_;
    std::vector<std::size_t> undone_;
    std::map<std::size_t, std::size_t> outcome_of_; ///< of each batch the last
};

} // namespace

double UnexplainedLoss::in_spreads() const {
    if (uncertainty.value() > 0.0) return mass.value() / uncertainty.value();
    return mass.value() == 0.0 ? 0.0 : std::copysign(INFINITY, mass.value());
}

StudioCard studio_card(std::span<const JarStart> starts, std::span<const Entry> entries, std::chrono::sys_days today) {
    return Fold(starts, entries, today).folded();
}

} // namespace lakebound
