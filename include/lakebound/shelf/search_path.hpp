#pragma once
// Where shelves are sought: folders of the maker laid over the one that is shipped.
//
// Order, first wins: the studio one stands in (a folder with a bench.yaml or with jars/), --shelf, LAKEBOUND_SHELF, lakebound/ in the XDG data folders, the shipped shelf.
// Source of the XDG order: XDG Base Directory Specification 0.8 (key xdg-basedir).

#include <optional>
#include <string>
#include <vector>

#include "lakebound/export.hpp"
#include "lakebound/shelf/diagnostic.hpp"

namespace LAKEBOUND_EXPORT lakebound {

struct ShelfFolder {
    std::string path;    ///< holds pigments/, ingredients/, media/, families/, vessels/, recipes/, jars/
    std::string why;     ///< "--shelf", "LAKEBOUND_SHELF", "XDG data folder", "shipped with the program"
    bool present = true; ///< false: sought, not there
};

/// What the search depends on; empty means not set.
struct SearchInputs {
    std::string standing; ///< the studio one stands in, "."; empty: none
    /// --shelf, as often as given; earlier ones win. A name without '/' that is no folder here may be that of a studio
    /// on a shelf of LAKEBOUND_SHELF, or on the shipped one.
    std::vector<std::string> options;
    std::string lakebound_shelf;      ///< folders separated by ':'
    std::string xdg_data_home, xdg_data_dirs, home;
    std::vector<std::string> shipped; ///< candidates; the first that is there is taken
};

/// From the environment of the process, with the shipped shelf sought beside the running program
/// (../share/lakebound/formulations) and where it was to be installed.
[[nodiscard]] SearchInputs search_inputs(std::vector<std::string> shelf_options);

/// All folders sought, in order. Throws InputError: shelf-missing when a folder named by an option or
/// by LAKEBOUND_SHELF is not there, shelf-unusable when what is there is no folder or a broken link.
[[nodiscard]] std::vector<ShelfFolder> search_path(const SearchInputs& inputs);

/// The fault shelf-unusable: something is there and cannot be used as a folder. reason: errno.
[[nodiscard]] Diagnostic unusable_folder(const std::string& path, int reason);

} // namespace lakebound
