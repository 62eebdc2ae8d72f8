#include "lakebound/shelf/bath_jar_file.hpp"

#include <catch2/catch.hpp>

#include <cmath>

#include "lakebound/shelf/jar_file.hpp"
#include "shelf/faults_of.hpp"
#include "support/in_folder.hpp"
#include "support/temp_dir.hpp"

using namespace lakebound;
using namespace lakebound::testing;

namespace {

BathJar jar_of_bath() {
    const Provenance computed{Origin::computed, "computed from the bath: 50.0 g Potash alum, 14.3 g Soda ash", false};
    BathJar jar{};
    jar.net_mass = Estimate<Mass>::normal(grams(10.4), grams(.1), {Origin::measured, {}, false});
    jar.density = Estimate<MassDensity>::normal(grams_per_cubic_centimetre(1.73), grams_per_cubic_centimetre(.09), computed);
    jar.moisture = Estimate<MassFraction>::normal(MassFraction::of(.17), MassFraction::Difference::of(.05), {Origin::estimate, "judgement", false});
    jar.salts = Estimate<MassFraction>::lognormal(MassFraction::of(.0031), 1.42, computed);
    jar.ph = Estimate<Ph>::normal(Ph::of(6.8), Ph::Difference::of(.2), {Origin::measured, {}, false});
    jar.colour = {"warm rose, wet; \"brick\" when dry", 12, Estimate<Ph>::normal(Ph::of(6.6), Ph::Difference::of(.2), {Origin::measured, {}, false})};
    return jar;
}
Library shelf_of_jars() { return Library({{LAKEBOUND_FORMULATIONS_DIR, "shipped", true}}); }

} // namespace

TEST_CASE("a jar of a bath as its file, whole", "[unit]") {
    CHECK(bath_jar_text("Madder third", jar_of_bath(), "alumina-lake", "madder-third", "2026-05-18") ==
          "kind: jar\n"
          "name: Madder third\n"
          "pigment: alumina-lake\n"
          "net_mass: 10.4 +- 0.1 g\n"
          "since: 2026-05-18\n"
          "density:\n"
          "  value: 1.73 +- 0.09 g/cm3\n"
          "  origin: computed\n"
          "  source: \"computed from the bath: 50.0 g Potash alum, 14.3 g Soda ash\"\n"
          "salts:\n"
          "  value: 0.31 x/ 1.42 % w/w\n"
          "  origin: computed\n"
          "  source: \"computed from the bath: 50.0 g Potash alum, 14.3 g Soda ash\"\n"
          "ph: 6.8 +- 0.2\n"
          "hue: \"warm rose, wet; \\\"brick\\\" when dry\"\n"
          "swatch: 12\n"
          "strike_ph: 6.6 +- 0.2\n"
          "note: \"Out of the bath madder-third.\"\n");
}

TEST_CASE("a moisture that nobody weighed is not the jar's own", "[unit]") {
    // Else a paint of it would be told of water beyond the air-dry state, which is but two estimates of that state.
    BathJar weighed = jar_of_bath();
    CHECK(bath_jar_text("M", weighed, "alumina-lake", {}, "2026-05-18").find("moisture") == std::string::npos);
    weighed.moisture = Estimate<MassFraction>::normal(MassFraction::of(.14), MassFraction::Difference::of(.02), {Origin::measured, {}, false});
    CHECK(bath_jar_text("M", weighed, "alumina-lake", {}, "2026-05-18").find("\nmoisture: 14.0 +- 2.0 % w/w\n") != std::string::npos);
}

TEST_CASE("what is written of a bath's jar is read again", "[identity]") {
    Library library = shelf_of_jars();
    const LakingHabits laking = library.laking_habits();
    for (const bool chalk : {false, true}) {
        const BathJar from = jar_of_bath();
        const Jar read = read_jar(load_document("jars/m.yaml", bath_jar_text("M", from, chalk ? laking.chalk_lake : laking.lake, {}, "2026-05-18")), "m", library);
        CHECK(read.pigment.id == (chalk ? "chalk-lake" : "alumina-lake"));
        CHECK(read.pigment.density.value() == from.density.value());
        CHECK(read.pigment.density.provenance().source == from.density.provenance().source);
        CHECK(read.remains.salts->value().value() == Approx(.0031));
        CHECK(read.remains.salts->distribution().scale == Approx(std::log(1.42)));
        CHECK(read.remains.ph->value().value() == Approx(6.8));
        CHECK(read.remains.ph->standard_uncertainty().value() == Approx(.2));
        CHECK(read.colour.hue == from.colour.hue);
        CHECK(read.colour.swatch == 12u);
        CHECK(read.colour.strike->value().value() == Approx(6.6));
        CHECK(read.note.empty());
    }
    // Clean within the pen's doubt: a share that may be nothing, evenly.
    BathJar clean = jar_of_bath();
    clean.salts = Estimate<MassFraction>::rectangular(MassFraction::of(.001), MassFraction::Difference::of(.001), {Origin::computed, "c", false});
    CHECK(bath_jar_text("M", clean, "alumina-lake", {}, "2026-05-18").find("salts:\n  value: 0.10 +- 0.058 % w/w\n") != std::string::npos); // .1/sqrt(3)
    clean.ph = Estimate<Ph>::normal(Ph::of(6.8), Ph::Difference::of(.04), {Origin::measured, {}, false});
    clean.net_mass = Estimate<Mass>::exact(grams(10.4), {Origin::measured, {}, false}); // none is surer than its last digit
    CHECK(bath_jar_text("M", clean, "alumina-lake", {}, "2026-05-18").find("\nph: 6.8 +- 0.1\n") != std::string::npos);
    CHECK(bath_jar_text("M", clean, "alumina-lake", {}, "2026-05-18").find("\nnet_mass: 10.4 +- 0.1 g\n") != std::string::npos);
    const Jar read = read_jar(load_document("jars/m.yaml", bath_jar_text("M", clean, "alumina-lake", {}, "2026-05-18")), "m", library);
    CHECK(read.remains.salts->value().value() == Approx(.001));
    CHECK(read.remains.salts->standard_uncertainty().value() == Approx(.001 / std::sqrt(3)).epsilon(.01));
}

TEST_CASE("a jar of a bath is written once, under a name that can be one", "[errors]") {
    const TempDir folder;
    const InFolder here(folder.path());
    CHECK(write_bath_jar("madder-two", jar_of_bath(), "alumina-lake", {}, "2026-05-18") == "jars/madder-two.yaml");
    CHECK(summary(faults_of([] { (void)write_bath_jar("madder-two", jar_of_bath(), "alumina-lake", {}, "2026-05-18"); })) == "write-exists");
    CHECK(summary(faults_of([] { (void)write_bath_jar("Madder two", jar_of_bath(), "alumina-lake", {}, "2026-05-18"); })) == "id-form");
}
