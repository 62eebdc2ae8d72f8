#pragma once
// How a gum pan of a soft share behaves, in words.

#include "lakebound/material/sorption.hpp"

namespace lakebound {

/// "likely to stay sticky"
constexpr const char* soft_phase_words(SoftPhase phase) noexcept {
    switch (phase) {
    case SoftPhase::brittle:
        return "brittle, likely to crack";
    case SoftPhase::firm:
        return "firm";
    case SoftPhase::good:
        return "neither brittle nor sticky";
    case SoftPhase::soft:
        return "soft";
    case SoftPhase::sticky:
        return "likely to stay sticky";
    case SoftPhase::never_sets:
        return "a syrup that does not set";
    }
    return "";
}

} // namespace lakebound
