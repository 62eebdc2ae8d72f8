#include "lakebound/record/paint_sign.hpp"

namespace lakebound {

std::optional<PaintOutcome> outcome_of(PaintSign sign) noexcept {
    switch (sign) {
    case PaintSign::chalks:
        return PaintOutcome::lean;
    case PaintSign::does_not_chalk:
        return PaintOutcome::not_lean;
    case PaintSign::holds:
        return PaintOutcome::holds;
    case PaintSign::shines:
    case PaintSign::cracks:
    case PaintSign::stays_sticky:
    case PaintSign::wrinkles:
        return PaintOutcome::rich;
    case PaintSign::grows_mould:
    case PaintSign::thrown_away:
        break;
    }
    return std::nullopt;
}

} // namespace lakebound
