#include "lakebound/shelf/entry_remark.hpp"

#include <algorithm>
#include <set>
#include <vector>

#include "lakebound/quantity/nearest.hpp"

namespace lakebound {
namespace {

bool is_same_paint(const ReadEntry& one, const ReadEntry& other) {
    const auto* a = std::get_if<BatchEntry>(&one.entry.what);
    const auto* b = std::get_if<BatchEntry>(&other.entry.what);
    return a != nullptr && b != nullptr && a->paint.family == b->paint.family && a->paint.powder == b->paint.powder &&
           a->paint.library_k.value() == b->paint.library_k.value() && one.medium == other.medium && one.medium_mass == other.medium_mass;
}

bool is_same_rub_out(const ReadEntry& one, const ReadEntry& other) {
    const auto* a = std::get_if<RubOutEntry>(&one.entry.what);
    const auto* b = std::get_if<RubOutEntry>(&other.entry.what);
    return a != nullptr && b != nullptr && a->powder == b->powder && a->oil_absorption.value() == b->oil_absorption.value();
}

} // namespace

std::string new_bottle_remark(const Studio& studio, const std::string& bottle) {
    std::set<std::string> named;
    for (const ReadEntry& read : studio.entries)
        if (!read.bottle.empty()) named.insert(read.bottle);
    if (named.empty() || named.contains(bottle)) return {};
    const auto near = nearest_names(bottle, {named.begin(), named.end()}, 1);
    return "No entry names the bottle '" + bottle + "' yet, so it is taken for a new one." +
           (near.empty() ? "" : " If '" + near.front() + "' was meant, take this back with --undo last, and enter it again.");
}

std::string told_twice_remark(const Studio& studio, const std::string& asked_shelf) {
    if (studio.entries.empty()) return {};
    const auto undone = undone_entries(studio);
    const ReadEntry& last = studio.entries.back();
    const auto same = std::find_if(studio.entries.begin(), studio.entries.end() - 1, [&](const ReadEntry& each) {
        return each.entry.jar == last.entry.jar && each.entry.day == last.entry.day && !undone.contains(each.entry.id) &&
               (is_same_paint(each, last) || is_same_rub_out(each, last));
    });
    if (same == studio.entries.end() - 1) return {};
    const std::string name = same->entry.id.substr(last.entry.jar.size() + 1);
    return "Entry " + name + ", of the same day, tells the very same. If it was entered twice, take one back: lakebound-jar " +
           last.entry.jar + asked_shelf + " --undo " + name + ".";
}

} // namespace lakebound
