#pragma once
// What every text report may be asked for.

namespace lakebound {

struct TextOptions {
    bool colour = false; ///< escape codes for verdict and headings: only for a terminal
};

} // namespace lakebound
