#include <catch2/catch.hpp>

#include "lakebound/report/powder_words.hpp"

using namespace lakebound;

TEST_CASE("Sizes are written as screens are sold", "[unit]") {
    CHECK(size_text(micrometres(45.0)) == "45 um");
    CHECK(size_text(micrometres(22.5)) == "22.5 um");
    CHECK(size_text(micrometres(2.0)) == "2 um");
    CHECK(size_text(micrometres(89.957)) == "90 um");
    CHECK(size_text(micrometres(123.62)) == "124 um");
    CHECK(size_text(micrometres(3.1415)) == "3.1 um");
    CHECK(size_text(millimetres(1.18)) == "1.18 mm");
    CHECK(size_text(millimetres(4.75)) == "4.75 mm");
    CHECK(size_text(millimetres(1.0)) == "1 mm");
}

TEST_CASE("Times are written as people say them", "[unit]") {
    CHECK(time_text(seconds(0.0)) == "0 s");
    CHECK(time_text(seconds(3.24)) == "3.2 s");
    CHECK(time_text(seconds(37.2)) == "37 s");
    CHECK(time_text(seconds(99.4)) == "99 s");
    CHECK(time_text(seconds(102.9)) == "1 min 45 s");
    CHECK(time_text(minutes(5.0)) == "5 min");
    CHECK(time_text(minutes(34.8)) == "35 min");
    CHECK(time_text(minutes(62.0)) == "1 h 2 min");
    CHECK(time_text(hours(14.5)) == "14 h 30 min");
    CHECK(time_text(hours(51.0)) == "2 d 3 h");
    // On either side of each place where the words change.
    const std::pair<double, const char*> edges[] = {{9.94, "9.9 s"}, {9.96, "10 s"}, {59.4, "59 s"}, {59.6, "1 min"}, {60.4, "1 min"}, {60.6, "61 s"},
                                                    {99.6, "1 min 40 s"}, {594.9, "9 min 55 s"}, {595.1, "10 min"}, {3569, "59 min"}, {3571, "1 h"},
                                                    {35969, "9 h 59 min"}, {35971, "10 h"}, {36059, "10 h"}, {36210, "10 h 5 min"}, {86280, "24 h"}, {86369, "24 h"},
                                                    {86371, "1 d"}, {87000, "1 d"}, {88300, "1 d 1 h"}, {89999, "1 d 1 h"}};
    for (const auto& [s, words] : edges) {
        CAPTURE(s);
        CHECK(time_text(seconds(s)) == words);
    }
}

TEST_CASE("Times foreseen that are the same to a maker read the same", "[unit]") {
    CHECK(rough_time_text(minutes(150)) == rough_time_text(minutes(151)));
    CHECK(rough_time_text(minutes(151)) == "2 h 30 min");
    CHECK(rough_time_text(minutes(59)) == "59 min");
    CHECK(rough_time_text(minutes(62.6)) == "1 h 5 min");
}

TEST_CASE("A share bears one digit of what the scale knows", "[unit]") {
    CHECK(share_text(0.1146, 0.000186) == "11.46 ± 0.02 %");
    CHECK(share_text(0.2030, 0.0021) == "20.3 ± 0.2 %");
    CHECK(share_text(0.2030, 0.021) == "20 ± 2 %");
    CHECK(share_text(0.2030, 0.0) == "20.3 %");
}

TEST_CASE("Dust is the first caution of dry work, and the data sheet goes before all", "[unit]") {
    for (const auto work : {PowderWork::sieving, PowderWork::grinding, PowderWork::settling}) {
        const auto cautions = powder_cautions(work);
        REQUIRE(cautions.size() >= 3);
        CHECK((cautions.front().subject == "Dust") == (work != PowderWork::settling));
        CHECK(cautions[cautions.size() - 2].text.find("safety data sheet") != std::string::npos);
        CHECK(cautions.back().text.find("not a certificate") != std::string::npos);
    }
}

TEST_CASE("The command to part grains in water can be typed as it stands", "[unit]") {
    CHECK(settle_command(millimetres(100.0), micrometres(25.0), grams_per_cubic_centimetre(1.86)) ==
          "lakebound-settle --depth \"100 mm\" --cut \"25 um\" --density \"1.86 g/cm3\"");
    CHECK(settle_command(millimetres(250.0), micrometres(25.0), {}) ==
          "lakebound-settle --depth \"250 mm\" --cut \"25 um\"");
}

TEST_CASE("A residue bears two decimals, one or none, by the widest of what it is unsure by", "[unit]") {
    const auto of = [](double u, std::optional<LossBounds> loss = {}) {
        Residue residue;
        residue.share = MassFraction::of(0.12345);
        residue.standard_uncertainty = u;
        return residue_text(residue, loss);
    };
    CHECK(of(0.0) == "12.3 %"); // nothing known of the scale
    CHECK(of(0.0009) == "12.35 %");
    CHECK(of(0.00094) == "12.35 %");
    CHECK(of(0.00096) == "12.3 %");
    CHECK(of(0.0011) == "12.3 %");
    CHECK(of(0.0094) == "12.3 %");
    CHECK(of(0.0096) == "12 %");
    CHECK(of(0.0001, LossBounds{0.12, 0.125}) == "12.3 %"); // half of the half per cent that the loss leaves open
    CHECK(of(0.0001, LossBounds{0.12, 0.1218}) == "12.35 %");
    CHECK(of(0.0001, LossBounds{0.12, 0.14}) == "12 %");
}

TEST_CASE("Who gave a figure, and how powder is parted, have words of their own", "[unit]") {
    CHECK(std::string(given_words(GivenBy::maker)) == "as you say");
    CHECK(std::string(given_words(GivenBy::sieve_tests)) == "as your tests say");
    CHECK(std::string(given_words(GivenBy::settling_test)) == "as in the settling test");
    CHECK(std::string(given_words(GivenBy::bench)) == "as on the bench");
    CHECK(std::string(advice_words(ScreeningAdvice::dry_sieving)) == "sieve it dry");
    CHECK(std::string(advice_words(ScreeningAdvice::levigation)) == "levigate it");
}

TEST_CASE("What leaves a residue open is told piece by piece, each piece alone too", "[unit]") {
    const Residue bare{MassFraction::of(0.12), 0.0, 0.0, Reach::within};
    CHECK(scale_text(bare) == "-");
    CHECK(residue_doubt_text(bare, {}).empty());
    Residue weighed = bare;
    weighed.standard_uncertainty = 0.002;
    CHECK(scale_text(weighed) == "± 0.2 %");
    CHECK(residue_doubt_text(weighed, {}) == "scale alone ± 0.2 %");
    Residue repeated = bare;
    repeated.repeatability = 0.01;
    CHECK(residue_doubt_text(repeated, {}) == "a second sieving would differ by ± 1 %");
    CHECK(residue_doubt_text(bare, LossBounds{0.11, 0.14}) == "the 3.0 % lost could make it " + loss_range_text(bare, {0.11, 0.14}));
    repeated.standard_uncertainty = 0.002;
    const auto all = residue_doubt_text(repeated, LossBounds{0.11, 0.14});
    CHECK(all.find("scale alone ± 0.2 %; a second sieving would differ by ± 1 %; the 3.0 % lost could make it ") == 0);
}
