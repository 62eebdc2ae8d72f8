// The steps at the slab of each kind of paint, and each way in which a batch changes them. The text under expected/ was
// read against the masses and the vessels that are set here.
#include "lakebound/report/order_of_work.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <sstream>

#include "support/example_paint.hpp"
#include "support/expected_text.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

struct Work {
    BatchRequest request;
    Batch batch;
    explicit Work(Process process) : request(example_request(process)), batch(*size_batch(request).batch) {}
    void size_anew() { batch = *size_batch(request).batch; }
    std::vector<std::string> steps() const { return order_of_work(request, batch); }
};

/// The steps of a work whole, and of each change of it only those that are new or gone.
class Told {
public:
    Told(const char* name, Process process) : process_(process), usual_(Work(process).steps()) {
        text_ << "==== " << name << '\n';
        for (const auto& step : usual_)
            text_ << step << '\n';
    }
    template <class Change> void when(const char* what, Change change) {
        Work work(process_);
        change(work);
        const auto steps = work.steps();
        text_ << "---- " << what << '\n';
        std::size_t told = 0;
        for (const auto& step : usual_)
            if (std::find(steps.begin(), steps.end(), step) == steps.end()) text_ << "- " << step << '\n', ++told;
        for (std::size_t i = 0; i < steps.size(); ++i)
            if (std::find(usual_.begin(), usual_.end(), steps[i]) == usual_.end()) text_ << i + 1 << ". " << steps[i] << '\n', ++told;
        if (told == 0) text_ << "(as usual)\n";
    }
    std::string text() const { return text_.str(); }

private:
    Process process_;
    std::vector<std::string> usual_;
    std::ostringstream text_;
};

Filling filling(const char* name, int vessels, double ml, double fill = 1.0) {
    Filling f;
    f.vessel = example_vessel("vessel", name, 15.0, fill, FilledBy::wet_volume);
    f.vessels = vessels;
    f.wet_per_vessel = millilitres(ml);
    return f;
}
Weighing& line(Work& work, SheetPart part) {
    auto& slab = work.batch.sheet.slab;
    return *std::find_if(slab.begin(), slab.end(), [part](const Weighing& each) { return each.part == part; });
}
/// An additive of the recipe that the sheet weighs as 0.30 g.
Weighing& add(Work& work, const char* name, Role role) {
    auto& additives = work.request.recipe.additives;
    additives.push_back({example_ingredient(name, name, role, 0.96, 1.0, 0.96), MassFraction::of(0.02), DoseBasis::medium});
    Weighing weighing;
    weighing.part = SheetPart::additive;
    weighing.index = additives.size() - 1;
    weighing.id = weighing.name = name;
    weighing.exact = weighing.to_weigh = weighing.rounded = grams(0.3);
    weighing.scale = 1;
    work.batch.sheet.slab.push_back(weighing);
    return work.batch.sheet.slab.back();
}
StockSolution tenth_in(const char* carrier) {
    StockSolution stock;
    stock.strength = MassFraction::of(0.1);
    stock.carrier = stock.carrier_name = carrier;
    stock.stock = stock.rounded = grams(3.0);
    return stock;
}
void blend(Work& work) {
    Pigment chalk = example_lake();
    chalk.id = "chalk", chalk.name = "Chalk", chalk.hazards.clear();
    work.request.recipe.pigments.front().share = MassFraction::of(0.7);
    work.request.recipe.pigments.push_back({chalk, MassFraction::of(0.3)});
    work.size_anew();
}

} // namespace

TEST_CASE("The order of work in gum, and what changes it, whole", "[unit]") {
    Told told("Watercolour", Process::watercolour);
    told.when("the sheet bids make a stock for the medium", [](Work& w) { w.batch.sheet.medium.front().stock = tenth_in("water"); });
    told.when("the medium is gum alone", [](Work& w) { w.request.recipe.medium.parts.resize(1), w.size_anew(); });
    told.when("the medium is of two parts, and no gum", [](Work& w) { auto& parts = w.request.recipe.medium.parts; parts.erase(parts.begin()), parts.resize(2); });
    told.when("no powder is dusty", [](Work& w) { w.request.recipe.pigments.front().pigment.hazards = {Hazard::light_sensitive}; });
    told.when("two powders, of which one is dusty", blend);
    told.when("no water of its own", [](Work& w) { w.request.recipe.working_water = {}, w.size_anew(); });
    told.when("not fluid", [](Work& w) { w.batch.watercolour->fluid = false; });
    told.when("nothing known of how it flows", [](Work& w) { w.batch.watercolour.reset(); });
    told.when("the additive is left out", [](Work& w) { auto& clove = line(w, SheetPart::additive); clove.stock.reset(), clove.below_minimum = true, clove.rounded = grams(0); });
    told.when("a drop, and two things to weigh", [](Work& w) {
        auto& clove = line(w, SheetPart::additive);
        clove.stock.reset(), clove.drops = DropCount{1, grams(41.0)};
        add(w, "Ox gall", Role::wetting_agent), add(w, "Borax", Role::salt);
    });
    told.when("three drops", [](Work& w) { auto& clove = line(w, SheetPart::additive); clove.stock.reset(), clove.drops = DropCount{3, grams(120.4)}; });
    told.when("no vessel", [](Work& w) { w.batch.filling.reset(); });
    told.when("a vessel that is not filled once", [](Work& w) { w.batch.filling->vessels = 0; });
    for (const int brim : {1, 2})
        told.when(brim == 1 ? "one pan, to the brim once" : "two pans, to the brim twice", [brim](Work& w) {
            w.batch.filling->vessels = brim;
            w.batch.filling->pours->brim = brim, w.batch.filling->pours->thirds = 5;
        });
    told.when("never to the brim", [](Work& w) { w.batch.filling->pours->brim.reset(), w.batch.filling->pours->thirds = 9; });
    check_expected("report", "order-of-work-in-gum", told.text());
}

TEST_CASE("The order of work in oil, and what changes it, whole", "[unit]") {
    Told told("Oil", Process::oil);
    told.when("one tube, full", [](Work& w) { w.batch.filling = filling("Tube, 15 mL", 1, 15.0); });
    told.when("two tubes, nine tenths full", [](Work& w) { w.batch.filling = filling("Tube, 15 mL", 2, 13.5, 0.9); });
    told.when("wax", [](Work& w) { add(w, "Beeswax", Role::wax); });
    told.when("wax by a stock", [](Work& w) { add(w, "Beeswax", Role::wax).stock = tenth_in("Linseed oil"); });
    told.when("a resin", [](Work& w) { add(w, "Dammar", Role::resin); });
    told.when("a resin by a stock", [](Work& w) { add(w, "Dammar", Role::resin).stock = tenth_in("Turpentine"); });
    told.when("wax, a resin, and two drops of clove", [](Work& w) {
        add(w, "Beeswax", Role::wax), add(w, "Dammar", Role::resin);
        add(w, "Clove oil", Role::preservative).drops = DropCount{2, grams(31.0)};
    });
    told.when("wax in the medium", [](Work& w) { w.request.recipe.medium.parts.push_back({example_ingredient("beeswax", "Beeswax", Role::wax, 0.96, 1.0, 0.96), 0.03}); });
    told.when("a medium of two oils", [](Work& w) { w.request.recipe.medium.parts.push_back({example_ingredient("walnut", "Walnut oil", Role::drying_oil, 0.925, 1.0, 0.925), 0.5}); });
    told.when("a medium of wax alone", [](Work& w) { w.request.recipe.medium.parts.front().ingredient.role = Role::wax; });
    told.when("two powders", blend);
    check_expected("report", "order-of-work-in-oil", told.text());
}

TEST_CASE("The order of work in yolk, and what changes it, whole", "[unit]") {
    Told told("Egg tempera", Process::egg_tempera);
    for (const int eggs : {0, 1, 3})
        told.when(eggs == 0 ? "no egg counted" : eggs == 1 ? "one egg" : "three eggs", [eggs](Work& w) { w.batch.tempera->eggs = eggs; });
    told.when("to 1 g of paste 0.456 g", [](Work& w) { w.batch.tempera->medium_per_paste = 0.456; });
    told.when("no water of its own", [](Work& w) { w.request.recipe.working_water = {}, w.size_anew(); });
    told.when("yolk and water", [](Work& w) { w.request.recipe.medium.parts.push_back({example_ingredient("water", "Water", Role::water, 0.9982, 0.0), 0.5}); });
    told.when("an additive to weigh", [](Work& w) { add(w, "Vinegar", Role::preservative); });
    told.when("no vessel", [](Work& w) { w.batch.filling.reset(); });
    told.when("a vessel that is not filled once", [](Work& w) { w.batch.filling->vessels = 0; });
    told.when("one vessel", [](Work& w) { w.batch.filling->vessels = 1; });
    told.when("two vessels", [](Work& w) { w.batch.filling->vessels = 2; });
    check_expected("report", "order-of-work-in-yolk", told.text());
}
