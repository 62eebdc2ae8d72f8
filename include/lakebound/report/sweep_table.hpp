#pragma once
// Curves as tables: k, PVC, CPVC, reduced PVC and the chance of an underbound film along a line of
// paints, as text or CSV.

#include <optional>
#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/paint/pvc_subject.hpp"

namespace LAKEBOUND_EXPORT lakebound {

enum class SweepOver { medium, extender, size_ratio };

struct SweepWish {
    SweepOver over = SweepOver::medium;
    double from = 0.0, to = 0.0; ///< medium per pigment; mass share of the extender; size ratio
    std::size_t points = 11;
};

struct SweepColumn {
    std::string key;      ///< of CSV and JSON: "medium_per_pigment"
    std::string heading;  ///< of the text
    bool percent = false; ///< in the text
    std::vector<double> values;
    bool drawn = false; ///< in the picture: the curve of what is asked
};

struct SweepTable {
    std::string title;
    std::vector<SweepColumn> columns; ///< all of one length; what is not known is left out
    std::string paint = {};           ///< its name
    std::optional<SufficiencyWindow> window = {}; ///< of k, where k is drawn
    std::optional<double> here = {};              ///< of the first column: the paint as it is, if it was swept over
    std::optional<BinderSufficiency> k_here = {};
};

/// The range swept when the maker names none: a quarter to twice the medium of the paint; extender
/// shares 0 to 1; size ratios 1 to 30.
[[nodiscard]] SweepWish usual_range(SweepOver over, const PvcSubject& subject);

/// Throws DomainError as sweep.hpp and blend.hpp do; for `extender` and `size_ratio` also unless the paint has
/// two pigments, of which the second is the extender, and their densities are known.
[[nodiscard]] SweepTable sweep_table(const PvcSubject& subject, const SweepWish& wish);

/// A value as the text shows it: three digits, or a share in per cent.
[[nodiscard]] std::string sweep_cell(const SweepColumn& column, double x);

/// Lines of `width` columns at most, unless two columns of the table need more; what does not fit beside stands below.
[[nodiscard]] std::string sweep_text(const SweepTable& table, std::size_t width = 80);
[[nodiscard]] std::string sweep_csv(const SweepTable& table);

} // namespace lakebound
