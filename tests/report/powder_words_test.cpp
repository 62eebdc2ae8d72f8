#include <catch2/catch.hpp>

#include "lakebound/report/powder_words.hpp"

#include <string>
#include <tuple>

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

TEST_CASE("Sizes on either side of each place where their words change", "[unit]") {
    const std::pair<double, const char*> sizes[] = {
        {0.4567, "0.46 um"}, {1.0, "1 um"},       {9.94, "9.9 um"},    {9.96, "10 um"},     {10.04, "10 um"},     {99.44, "99 um"},
        {22.4999999, "22.5 um"}, {22.50001, "23 um"}, {99.94, "100 um"}, {100.44, "100 um"}, {101.26, "101 um"}, {112.34, "112 um"},
        {999.44, "999 um"},  {999.6, "1 mm"},     {1004.9, "1 mm"},    {1005.1, "1.01 mm"}, {1180.0, "1.18 mm"}};
    for (const auto& [um, words] : sizes) {
        CAPTURE(um);
        CHECK(size_text(micrometres(um)) == words);
    }
    const std::pair<double, const char*> heights[] = {{0.0, "0 mm"}, {62.0, "62 mm"}, {62.04, "62 mm"}, {62.06, "62.1 mm"}, {1234.5, "1234.5 mm"}};
    for (const auto& [mm, words] : heights) {
        CAPTURE(mm);
        CHECK(height_text(millimetres(mm)) == words);
    }
}

TEST_CASE("Times foreseen go by five minutes from an hour on", "[unit]") {
    const std::pair<double, const char*> times[] = {{0.5, "30 s"}, {57.0, "57 min"}, {59.4, "59 min"}, {60.0, "1 h"}, {62.4, "1 h"}, {62.6, "1 h 5 min"},
                                                    {67.4, "1 h 5 min"}, {74.0, "1 h 15 min"}, {302.4, "5 h"}, {302.6, "5 h 5 min"}};
    for (const auto& [min, words] : times) {
        CAPTURE(min);
        CHECK(rough_time_text(minutes(min)) == words);
    }
}

TEST_CASE("The digits of a share go by what it is unsure by, on either side of each place where they change", "[unit]") {
    const std::tuple<double, const char*, const char*> doubts[] = {
        // standard uncertainty, the share with it, and the scale alone
        {0.00001, "12.35 ± 0.01 %", "± 0.01 %"}, {0.0005, "12.35 ± 0.05 %", "± 0.05 %"}, {0.00094, "12.35 ± 0.09 %", "± 0.09 %"},
        {0.00096, "12.3 ± 0.1 %", "± 0.1 %"},    {0.0094, "12.3 ± 0.9 %", "± 0.9 %"},    {0.0096, "12 ± 1 %", "± 1 %"}};
    for (const auto& [u, share, scale] : doubts) {
        CAPTURE(u);
        CHECK(share_text(0.12346, u) == share);
        Residue residue{MassFraction::of(0.12346), u, 0.0, Reach::within};
        CHECK(scale_text(residue) == scale);
        CHECK(residue_doubt_text(residue, {}) == std::string("scale alone ") + scale);
        residue.standard_uncertainty = 0.0, residue.repeatability = u;
        CHECK(residue_doubt_text(residue, {}) == std::string("a second sieving would differ by ") + scale);
    }
    CHECK(share_text(0.12346, 0.0) == "12.3 %");
    // By hand: half of what the loss leaves open is .04, .5 and 5 points; two, one and no decimals.
    const Residue residue{MassFraction::of(0.12346), 0.0, 0.0, Reach::within};
    CHECK(loss_range_text(residue, {0.1230, 0.1238}) == "12.30 to 12.38 %");
    CHECK(loss_range_text(residue, {0.1201, 0.1301}) == "12.0 to 13.0 %");
    CHECK(loss_range_text(residue, {0.0751, 0.1749}) == "8 to 17 %");
    CHECK(residue_doubt_text({MassFraction::of(0.12346), 0.0012, 0.0107, Reach::within}, LossBounds{0.1201, 0.1301}) ==
          "scale alone ± 0.1 %; a second sieving would differ by ± 1 %; the 1.0 % lost could make it 12.0 to 13.0 %");
}

TEST_CASE("The cautions of work with powder are those of that work", "[unit]") {
    const auto subjects = [](PowderWork work) {
        std::string text;
        for (const auto& each : powder_cautions(work)) text += each.subject + "; ";
        return text;
    };
    CHECK(subjects(PowderWork::sieving) == "Dust; Kitchen; First of all; Estimate; ");
    CHECK(subjects(PowderWork::grinding) == "Dust; Kitchen; First of all; Estimate; ");
    CHECK(subjects(PowderWork::settling) == "Water; Kitchen; First of all; Estimate; ");
    CHECK(std::string(given_words(GivenBy::shelf)) == "an estimate");
    CHECK(std::string(advice_words(ScreeningAdvice::wet_screening)) == "wash it through a screen");
}
