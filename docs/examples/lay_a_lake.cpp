// How much soda for 50 g of potash alum and 100 g of dry root, where to stop, and what jar to expect. Argument: the
// shelf, for its salts and the usual habits of a kitchen (in CMake ${lakebound_SHELF_DIR}).
// By hand: 50 / 474.39 mol of aluminium, 3/2 mol of Na2CO3 (105.99 g) to each is 16.76 g; of that 2.6/3 is 14.52 g.
// Prints:
//   soda 14.5 g, from 13.1 g to 15.9 g; by the book 16.8 g
//   a vessel of 10 L, 2 washes
//   in the jar about 12 g, 1.7 g/cm3
#include <cstdio>
#include <lakebound/bath/bath_plan.hpp>
#include <lakebound/shelf/library.hpp>
using namespace lakebound;

int main(int, char** arguments) {
    Library library({{arguments[1], "shipped"}});
    BathWish wish;
    wish.plant = PlantLot{grams(100), false, PlantPart::root};
    wish.aluminium = library.salt("potash-alum");
    wish.aluminium_mass = grams(50);
    wish.alkali = library.salt("soda-ash");

    const BathPlan plan = plan_bath(wish, library.laking_habits(), library.wash_habits());
    std::printf("soda %.1f g, from %.1f g to %.1f g; by the book %.1f g\n", in_grams(plan.alkali.middle),
                in_grams(plan.alkali.low), in_grams(plan.alkali.high), in_grams(plan.book_alkali));
    std::printf("a vessel of %.0f L, %u washes\n", in_litres(plan.vessel_good), plan.washes);
    std::printf("in the jar about %.0f g, %.1f g/cm3\n", in_grams(plan.lake->mass),
                in_grams_per_cubic_centimetre(plan.lake->density));
}
