#pragma once
// Curves as tables: those of a sweep under their headings, as text or CSV.

#include <optional>
#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/paint/sweep_answer.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct SweepColumn {
    std::string key{};    ///< of CSV and JSON: "medium_per_pigment"
    std::string heading;  ///< of the text
    bool percent = false; ///< in the text
    std::vector<double> values{};
    bool drawn = false; ///< in the picture: the curve of what is asked
};

struct SweepTable {
    std::string title;
    std::vector<SweepColumn> columns{}; ///< all of one length; what is not known is left out
    std::string paint = {};           ///< its name
    std::optional<SufficiencyWindow> window = {}; ///< of k, where k is drawn
    std::optional<double> here = {};              ///< of the first column: the paint as it is, if it was swept over
    std::optional<BinderSufficiency> k_here = {};
};

[[nodiscard]] SweepTable sweep_table(SweepAnswer answer);

/// A value as the text shows it: three digits, or a share in per cent.
[[nodiscard]] std::string sweep_cell(const SweepColumn& column, double x);

/// Lines of `width` columns at most, unless two columns of the table need more; what does not fit beside stands below.
[[nodiscard]] std::string sweep_text(const SweepTable& table, std::size_t width = 80);
[[nodiscard]] std::string sweep_csv(const SweepTable& table);

} // namespace lakebound
