#pragma once
// Which numbers behind an answer the library filled in, because nobody has measured them yet.

#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/paint/batch.hpp"

namespace LAKEBOUND_EXPORT lakebound {

/// A figure of one material that the maker did not measure.
struct LibraryFigure {
    std::string material; ///< "Madder lake, Reedmere"
    std::string figure;   ///< "oil absorption"
    std::string value;    ///< "65 x/ 1.35 g/100 g"
    Provenance provenance;
};

/// Library figures of pigments, medium, binder index and vessel, in that order.
[[nodiscard]] std::vector<LibraryFigure> library_figures(const BatchRequest& request);

/// The same as lines: one per pigment with its figures, "Madder lake: oil absorption 65 g/100 g
/// (estimate)", and one that names what else came from the library.
[[nodiscard]] std::vector<std::string> library_figure_lines(const BatchRequest& request);

/// One line for each pigment whose oil absorption was read and taken as it was, because the library expects
/// nothing of its kind. Only where the oil absorption is known at all.
[[nodiscard]] std::vector<std::string> taken_as_read_lines(const BatchRequest& request);

} // namespace lakebound
