// Questions about one jar of a studio, put together from its files.

#include "lakebound/shelf/jar_record.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>

#include "shelf/faults_of.hpp"
#include "shelf/own_studio.hpp"

using namespace lakebound;
using namespace lakebound::testing;

TEST_CASE("A medium that was never swatched is another lot", "[unit]") {
    OwnStudio own;
    own.write(typed_rub_out(own.context("2026-05-02"), "2.00 g, 1.56 g", {}), "2026-05-02");
    own.write(typed_swatch(own.context("2026-05-03"), "0.20 g, 0.80 g: chalks", "watercolour-pan", "gum-water"), "2026-05-03");
    own.write(typed_swatch(own.context("2026-05-04"), "0.20 g, 0.92 g: does not chalk", "watercolour-pan", "gum-water"), "2026-05-04");
    RecordWish wish;
    wish.today = studio_today;
    const Studio studio = own.read();
    const auto same = jar_story(studio, 0, studio_bench(), false, own.library, wish).outlook;
    wish.medium = "gum-glycerol-honey";
    const auto other = jar_story(studio, 0, studio_bench(), false, own.library, wish).outlook;
    CHECK(other.coaching.now.chance.value() < same.coaching.now.chance.value() - 0.005);
    CHECK(other.coaching.now.chance.value() > same.coaching.now.chance.value() - 0.05);
}

TEST_CASE("What was poured besides is asked of the last batch, where it says of what", "[unit][errors]") {
    OwnStudio own;
    const auto asked = [&](const std::string& text) {
        const Studio studio = own.read();
        return poured_question(studio, own.story(), text, own.library);
    };
    CHECK(summary(faults_of([&] { asked("9 g"); })) == "entry-typed");
    const Medium& gum_water = own.library.medium("gum-water");
    own.write(typed_mixed(own.context("2026-05-02"), "2.00 g, 7.00 g", "watercolour-pan", gum_water), "2026-05-02");
    const auto question = asked("7.9 g");
    CHECK(in_grams(question.powder) == Approx(2.0));
    CHECK(in_grams(question.planned) == Approx(7.0));
    CHECK(in_grams(question.poured) == Approx(7.9));
    CHECK(summary(faults_of([&] { asked("0 g"); })) == "out-of-range");
    // The strokes of a batch are priced at what a swatch costs: a thousandth a minute, ten minutes.
    RecordWish wish;
    wish.today = studio_today;
    const Studio studio = own.read();
    CHECK(stepwise_plan(studio, own.story(), "6.0 g", own.library, wish).question.price_per_stroke == Approx(0.01));
}

TEST_CASE("A jar with a record has what is left and what was measured since its file was typed", "[unit]") {
    OwnStudio own;
    const auto at = [&] { return recorded_jar("jars/weld.yaml", own.library, studio_today); };
    CHECK_FALSE(at().has_record());
    CHECK(in_grams(at().jar.net_mass.value()) == Approx(24.0));
    const Recipe recipe = own.library.recipe("lake-watercolour-half-pans", &own.jar);
    RecordWish wish;
    wish.today = studio_today;
    CHECK_FALSE(outlook_of(at(), recipe, studio_bench(), own.library, wish));
    own.write(typed_drawn(own.context("2026-05-02"), "4.00 g"), "2026-05-02");
    own.write(typed_measured(own.context("2026-05-03"), "density: 1.86 +- 0.05 g/cm3"), "2026-05-03");
    const auto recorded = at();
    CHECK(recorded.has_record());
    CHECK(in_grams(recorded.jar.net_mass.value()) == Approx(20.0));
    CHECK(recorded.jar.net_mass.provenance().source == "record");
    CHECK(in_grams_per_cubic_centimetre(recorded.jar.pigment.density.value()) == Approx(1.86));
    const auto outlook = outlook_of(recorded, recipe, studio_bench(), own.library, wish);
    REQUIRE(outlook);
    CHECK(outlook->own_readings.readings == 0);
    CHECK(outlook->coaching.now.chance.value() > 0.3);
}

TEST_CASE("What is asked of a batch is asked as that batch was made", "[unit]") {
    OwnStudio own;
    RecordWish wish;
    wish.today = studio_today;
    const auto told = [&](const char* text) {
        const auto faults = faults_of([&] { (void)as_batch(own.read(), own.story(), text, wish); });
        return faults.empty() ? std::string() : faults.front().message;
    };
    CHECK(told("7.9 g") == "--poured \"7.9 g\": no batch of this jar was kept");
    auto pans = own.context("2026-05-01");
    pans.lot = "May";
    own.write(typed_mixed(pans, "2.00 g, 7.00 g", "watercolour-pan", own.library.medium("gum-water")), "2026-05-01");
    own.write(typed_mixed(own.context("2026-05-02"), "2.50 g, 1.60 g", "oil", own.library.medium("linseed")), "2026-05-02");
    own.write(typed_swatch(own.context("2026-05-03"), "0.20 g, 0.80 g: chalks", "watercolour-pan", "gum-water"), "2026-05-03");
    const auto as_last = as_batch(own.read(), own.story(), "1.7 g", wish);
    CHECK(as_last.family == "oil");
    CHECK(as_last.medium == "linseed");
    CHECK_FALSE(as_last.lot);
    const auto as_first = as_batch(own.read(), own.story(), "1: 7.9 g", wish);
    CHECK(as_first.family == "watercolour-pan");
    CHECK(as_first.medium == "gum-water");
    CHECK(as_first.lot == "May");
    const auto poured = [&](const char* text) { return poured_question(own.read(), own.story(), text, own.library); };
    CHECK(poured("1.7 g").batch == 1);
    CHECK(in_grams(poured("1.7 g").powder) == Approx(2.5));
    CHECK(poured("1: 7.9 g").batch == 0);
    CHECK(in_grams(poured("1: 7.9 g").planned) == Approx(7.0));
    CHECK(in_grams(poured("1: 7.9 g").poured) == Approx(7.9));
    for (const char* number : {"0: 7.9 g", "3: 7.9 g", "last: 7.9 g"})
        CHECK(told(number) == "--poured \"" + std::string(number) + "\": this jar has no batch of that number");
    wish.family = "oil", wish.medium = "gum-water";
    CHECK(summary(faults_of([&] { (void)jar_story(own.read(), 0, studio_bench(), false, own.library, wish); })) == "medium-unfit");
    wish.medium.reset();
    CHECK(summary(faults_of([&] { (void)stepwise_plan(own.read(), own.story(), "0.1 g", own.library, wish); })) == "out-of-range");
}

TEST_CASE("A studio as of a day is without what came later", "[unit]") {
    OwnStudio own;
    own.write(typed_drawn(own.context("2026-05-02"), "4.00 g"), "2026-05-02");
    own.write(typed_mixed(own.context("2026-05-10"), "2.50 g, 1.60 g", "oil", own.library.medium("linseed")), "2026-05-10");
    std::ofstream("jars/madder.yaml") << "kind: jar\nname: Madder\npigment: alumina-lake\nnet_mass: 10 g\nsince: 2026-05-06\n";
    own.library = shipped_library();
    const auto left_on = [&](const char* day) {
        const auto recorded = as_of(recorded_jar("jars/weld.yaml", own.library, studio_today), day_of_iso(day).value(), own.library);
        return in_grams(recorded.studio.card.jars.at(recorded.index).left.value());
    };
    CHECK(left_on("2026-05-01") == Approx(24.0));
    CHECK(left_on("2026-05-02") == Approx(20.0)); // of that very day
    CHECK(left_on("2026-05-09") == Approx(20.0));
    CHECK(left_on("2026-05-10") == Approx(17.5));
    const auto jars_on = [&](const char* day) { return as_of(own.read(), day_of_iso(day).value(), own.library).jars.size(); };
    CHECK(jars_on("2026-05-05") == 1);
    CHECK(jars_on("2026-05-06") == 2);
    const auto faults = faults_of([&] { (void)left_on("2026-04-30"); });
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].message == "--date 2026-04-30: this jar was not there yet, its file begins on 2026-05-01");
}


TEST_CASE("A batch between its strokes is told, and planned on from where it stands", "[unit]") {
    OwnStudio own;
    const auto stroke = [&](const char* day, const char* text, const char* family = "watercolour-pan", const char* medium = "gum-water") {
        own.write(typed_stroke(own.context(day), text, family, medium), day);
    };
    stroke("2026-06-01", "6.0 g, 12.0 g: chalks");
    auto story = own.story();
    REQUIRE(story.slab);
    CHECK(story.slab->paint.strokes == 1);
    CHECK(story.next() == NextStep::go_on);
    RecordWish wish;
    wish.today = studio_today;
    const auto plan = [&](const char* powder) { return stepwise_plan(own.read(), own.story(), powder, own.library, wish).question.started; };
    REQUIRE(plan("6.0 g"));
    CHECK(plan("6.0 g")->chalks);
    CHECK(plan("6.0 g")->library_k.value() == Approx(story.slab->paint.library_k.value()));
    CHECK_FALSE(plan("5.0 g")); // of other powder
    stroke("2026-06-02", "6.0 g, 16.0 g: does not chalk");
    REQUIRE(plan("6.0 g"));
    CHECK_FALSE(plan("6.0 g")->chalks);
    CHECK(plan("6.0 g")->strokes == 2);
    // An oil lies beside it: another family, another slab.
    stroke("2026-06-03", "4.0 g, 2.0 g: chalks", "oil", "linseed");
    wish.family = "oil";
    CHECK(in_grams(jar_story(own.read(), 0, studio_bench(), false, own.library, wish).slab->paint.powder) == Approx(4.0));
    wish.family = "watercolour-pan";
    CHECK(in_grams(jar_story(own.read(), 0, studio_bench(), false, own.library, wish).slab->paint.powder) == Approx(6.0));
    // A slipped point begins another batch, and both entries are named.
    stroke("2026-06-04", "6.0 g, 1.6 g: does not chalk");
    story = jar_story(own.read(), 0, studio_bench(), false, own.library, wish);
    REQUIRE(story.begun_anew.size() == 1);
    CHECK(story.lines[story.begun_anew[0].first].name == "2026-06-04-01-swatch");
    CHECK(story.lines[story.begun_anew[0].second].name == "2026-06-02-01-swatch");
}

TEST_CASE("What is asked again is what was asked, and a recipe is offered that paints it", "[unit]") {
    OwnStudio own;
    RecordWish wish;
    wish.today = studio_today;
    const auto told = [&] { return jar_story(own.read(), 0, studio_bench(), true, own.library, wish); };
    CHECK(told().asked_paint.empty());
    CHECK(told().bench_assumed);
    wish.family = "oil", wish.medium = "linseed", wish.lot = "May", wish.asked_wish = " --lack days";
    wish.shortage = Shortage::days, wish.wanted = Probability::of(0.1); // little is wanted: paint
    const auto oil = told();
    CHECK(oil.asked_paint == " --as oil --with linseed --bottle \"May\"");
    CHECK(oil.asked_wish == " --lack days");
    CHECK(oil.bottle == "May");
    CHECK(oil.outlook.coaching.advice == CoachAdvice::target_met);
    CHECK(oil.recipe_id == "lake-oil-tube");
    CHECK(oil.recipe_has_medium == (own.library.recipe("lake-oil-tube", &own.jar).medium.id == "linseed"));
    CHECK(own.library.recipe(oil.recipe_id, &own.jar).family.id == "oil");
    // Of a batch that was kept, its own recipe; where there is no usual one, none.
    wish = {};
    wish.today = studio_today, wish.wanted = Probability::of(0.1);
    CHECK(own.library.recipe(told().recipe_id, &own.jar).family.id == "watercolour-pan");
    wish.family = "gouache", wish.medium.reset();
    const auto gouache = told();
    CHECK((gouache.recipe_id.empty() || own.library.recipe(gouache.recipe_id, &own.jar).family.id == "gouache"));
    wish.family = "oil", wish.medium = "gum-water";
    const auto faults = faults_of([&] { (void)told(); });
    REQUIRE(summary(faults) == "medium-unfit");
    CHECK(faults[0].hint.find("linseed") != std::string::npos);
    wish.family = "no-such";
    CHECK(summary(faults_of([&] { (void)told(); })) == "id-unknown");
}

TEST_CASE("The medium is that of the last paint of its family, else of its kind, else the usual one", "[unit]") {
    OwnStudio own;
    RecordWish wish;
    wish.today = studio_today;
    const auto medium_as = [&](const char* family) {
        wish.family = family;
        return jar_story(own.read(), 0, studio_bench(), false, own.library, wish).medium_id;
    };
    const auto usual = medium_as("watercolour-pan");
    own.write(typed_swatch(own.context("2026-06-01"), "0.20 g, 0.30 g: chalks", "oil", "linseed-wax"), "2026-06-01");
    CHECK(medium_as("oil") == "linseed-wax");
    CHECK(medium_as("watercolour-pan") == usual);
    own.write(typed_swatch(own.context("2026-06-02"), "0.20 g, 0.80 g: chalks", "gouache", "gum-glycerol-honey"), "2026-06-02");
    CHECK(medium_as("watercolour-pan") == "gum-glycerol-honey"); // another family of its kind
    own.write(typed_swatch(own.context("2026-06-03"), "0.20 g, 0.80 g: chalks", "watercolour-pan", "gum-water"), "2026-06-03");
    CHECK(medium_as("watercolour-pan") == "gum-water");
    CHECK(medium_as("gouache") == "gum-glycerol-honey");
    wish.family.reset();
    CHECK(jar_story(own.read(), 0, studio_bench(), false, own.library, wish).family.id == "watercolour-pan"); // the last paint's
}

TEST_CASE("Swatches and batches are counted apart, and the last of either says what is painted", "[unit]") {
    OwnStudio own;
    RecordWish wish;
    wish.today = studio_today;
    const auto told = [&] { return jar_story(own.read(), 0, studio_bench(), false, own.library, wish); };
    own.write(typed_drawn(own.context("2026-05-01"), "1.00 g"), "2026-05-01");
    own.write(typed_swatch(own.context("2026-05-02"), "0.20 g, 0.30 g: chalks", "watercolour-pan", "gum-water"), "2026-05-02");
    own.write(typed_swatch(own.context("2026-05-03"), "0.20 g, 0.15 g: chalks", "oil", "linseed"), "2026-05-03");
    CHECK(told().family.id == "oil"); // not the usual one, and a swatch
    own.write(typed_mixed(own.context("2026-05-04"), "2.50 g, 1.60 g", "oil", own.library.medium("linseed")), "2026-05-04");
    own.write(typed_swatch(own.context("2026-05-05"), "0.20 g, 0.30 g: chalks", "watercolour-pan", "gum-water"), "2026-05-05");
    CHECK(told().family.id == "watercolour-pan");
    own.write(typed_mixed(own.context("2026-05-06"), "2.50 g, 1.60 g", "oil", own.library.medium("linseed")), "2026-05-06");
    const auto story = told();
    CHECK(story.family.id == "oil"); // a batch
    std::string numbers;
    for (const auto& line : story.lines)
        numbers += line.name.substr(14) + " " + std::to_string(line.number) + "; ";
    CHECK(numbers == "drawn 0; swatch 1; swatch 2; batch 1; swatch 3; batch 2; ");
}

TEST_CASE("A blend, or a batch of unknown medium, is not asked about", "[errors]") {
    OwnStudio own;
    std::filesystem::create_directories("records/weld");
    const auto told = [&](const char* keys) {
        std::ofstream("records/weld/2026-05-03-01-batch.yaml") << "kind: entry\njar: weld\ndate: 2026-05-03\nwhat: batch\nfamily: watercolour-pan\npigment: 2.0 g\ndry_binder: 1.5 mL\nk_spread: 0.02\n" << keys;
        const auto faults = faults_of([&] { (void)poured_question(own.read(), own.story(), "7.9 g", own.library); });
        return faults.empty() ? std::string() : faults[0].message + " | " + faults[0].hint;
    };
    const std::string unknown = "--poured \"7.9 g\": the entry of that batch does not say how much of which medium, or is of a blend | ask lakebound-pvc --rescue with the masses";
    CHECK(told("") == unknown);
    CHECK(told("medium: gum-water\n") == unknown);
    CHECK(told("medium: gum-water\nmedium_mass: 7.0 g\nblend: yes\n") == unknown);
    CHECK(told("medium: gum-water\nmedium_mass: 7.0 g\n").empty());
}
