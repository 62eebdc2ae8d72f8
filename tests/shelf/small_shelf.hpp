#pragma once
// A small shelf in a folder of its own, for tests that change one thing and look what happens.
// All figures are invented.

#include <fstream>
#include <iterator>
#include <string>

#include "lakebound/shelf/library.hpp"
#include "support/temp_dir.hpp"

namespace lakebound::testing {

inline const char* const plain_pigment = "kind: pigment\nname: Test lake\nclass: lake\n"
                                         "density: {value: 1.9 +- 0.1 g/cm3, origin: estimate}\n"
                                         "oil_absorption: {value: 65 x/ 1.35 g/100g, origin: estimate}\n";
inline const char* const plain_gum = "kind: ingredient\nname: Test gum\nrole: gum\n"
                                     "density: {value: 1.4 g/cm3, origin: estimate}\n"
                                     "non_volatile: {value: 87 % w/w, origin: estimate}\n"
                                     "solids_density: {value: 1.5 g/cm3, origin: estimate}\n";
inline const char* const plain_water = "kind: ingredient\nname: Water\nrole: water\n"
                                       "density: {value: 0.998 g/cm3, origin: estimate}\n"
                                       "non_volatile: {value: 0 % w/w, origin: estimate}\n";
inline const char* const plain_medium =
    "kind: medium\nname: Test gum water\nbasis: mass\nparts:\n"
    "  - {ingredient: test-gum, parts: 1}\n  - {ingredient: water, parts: 2}\n";
inline const char* const plain_family =
    "kind: family\nname: Test family\nprocess: watercolour\nstart: 1.4\n"
    "window: {amber_low: 1.0, green_low: 1.2, green_high: 1.8, amber_high: 2.4}\n"
    "cohesion: {none_below: 30 %, weak_below: 50 %, evidence: {origin: estimate}}\n"
    "binder_index: {value: 1, origin: common practice}\nmethod_transfer: {value: 0.1, origin: estimate}\n"
    "binder_solids_spread: {value: 0.04, origin: estimate}\nbinder_density_spread: {value: 0.04, origin: "
    "estimate}\n"
    "plasticiser: {least: 0.15, most: 0.5, evidence: {origin: estimate}}\n"
    "soft_share: {brittle_below: 20 %, good_from: 25 %, good_to: 48 %, soft_to: 55 %, sets_to: 70 %, "
    "evidence: {origin: estimate}}\n"
    "evidence: {origin: estimate, note: invented}\n";
inline const char* const plain_vessel =
    "kind: vessel\nname: Test pan\ncapacity: {value: 2 mL, origin: estimate}\n"
    "fill: 90 %\nfilled_by: dry volume\n";
inline const char* const plain_recipe =
    "kind: recipe\nname: Test paint\nfamily: test-family\npigments:\n  - {pigment: jar, share: 70 % w/w}\n"
    "  - {pigment: test-lake, share: 30 % w/w}\nmedium: gum-water\n"
    "additives:\n  - {ingredient: test-gum, dose: 0.1 % w/w, of: paint}\naim: {pvc: 30 %}\nworking_water: 0.5 "
    "mL/g\n"
    "vessel: test-pan\nsource: {origin: estimate}\nnote: Invented.\n";
inline const char* const plain_jar = "kind: jar\nname: Jar\npigment: test-lake\nnet_mass: 24.0 +- 0.1 g\n";
inline const char* const plain_bench =
    "kind: bench\nname: Bench\nscales:\n  - {name: pocket, step: 0.01 g, capacity: 100 g}\nslab_loss: {fixed: "
    "0.6 g, share: 3 %}\n"
    "weighing_tolerance: 5 %\nreserve: 0.5 g\nhumidity: 50 %\ntemperature: 20 degC\n";

inline const char* const plain_practice =
    "kind: bench practice\nname: Home\n"
    "rub_out_repeat_spread: {value: 0.095, origin: estimate}\nrub_out_repeat_weight: {value: 4, origin: estimate}\n"
    "rub_out_hand_and_oil: {value: 0.05, origin: estimate}\nmoisture_drift: {value: 0.03, origin: estimate}\n"
    "shared_guess: {value: 0.18, origin: estimate}\nspoon_filling: {value: 0.1, origin: estimate}\n"
    "drop_spread: {value: 0.1, origin: estimate}\nmost_drops: {value: 40, origin: estimate}\n"
    "most_medium_for_drops: {value: 500 g, origin: estimate}\nstock_share: {value: 0.5, origin: estimate}\n"
    "most_syringe_fills: {value: 3, origin: estimate}\nleast_stock: {value: 2 g, origin: estimate}\n"
    "stock_strengths: {values: [10 % w/w, 1 % w/w], evidence: {origin: common practice}}\n"
    "unusual_dose: {value: 2, origin: estimate}\nrounding_shift: {value: 0.02, origin: estimate}\n"
    "large_loss: {value: 0.2, origin: estimate}\nfluid_paint: {value: 1.5, origin: estimate}\nlayers_alike: {value: 0.02, origin: estimate}\n"
    "assumed_scale: {value: 0.1 g, origin: estimate}\nassumed_slab_loss: {value: 0.6 g, origin: estimate}\n"
    "assumed_slab_loss_share: {value: 3 %, origin: estimate}\nassumed_weighing_tolerance: {value: 5 %, origin: estimate}\n"
    "assumed_humidity: {value: 50 %, origin: estimate}\nassumed_temperature: {value: 20 degC, origin: estimate}\n"
    "typed_density: {value: 0.02, origin: estimate}\n"
    "typed_reading: {value: 0.1, origin: estimate}\nbought_oil: {value: 0.003, origin: estimate}\n"
    "test_oil: {value: 0.93 g/cm3, origin: estimate}\n";

/// The text with the first `from` replaced; `from` must be there.
inline std::string changed(std::string text, const std::string& from, const std::string& to) {
    const std::size_t at = text.find(from);
    if (at == std::string::npos) throw std::runtime_error("not in the text: " + from);
    return text.replace(at, from.size(), to);
}

/// The shipped habits of powders, whose stand-in lies on this shelf.
inline std::string plain_powder_habits() {
    std::ifstream file(LAKEBOUND_FORMULATIONS_DIR "/habits/powder.yaml");
    return changed({std::istreambuf_iterator<char>(file), {}}, "usual_powder: alumina-lake", "usual_powder: test-lake");
}

class SmallShelf {
public:
    SmallShelf() {
        dir_.write("pigments/test-lake.yaml", plain_pigment);
        dir_.write("ingredients/test-gum.yaml", plain_gum);
        dir_.write("ingredients/water.yaml", plain_water);
        dir_.write("media/gum-water.yaml", plain_medium);
        dir_.write("families/test-family.yaml", plain_family);
        dir_.write("vessels/test-pan.yaml", plain_vessel);
        dir_.write("recipes/test-paint.yaml", plain_recipe);
        dir_.write("practice/home.yaml", plain_practice);
        dir_.write("habits/powder.yaml", plain_powder_habits());
    }
    const TempDir& dir() const { return dir_; }
    Library library() const { return Library({{dir_.path().string(), "test", true}}); }

private:
    TempDir dir_;
};

} // namespace lakebound::testing
