#include "lakebound/report/powder_words.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "lakebound/quantity/text.hpp"
#include "lakebound/quantity/rounded_text.hpp"

namespace lakebound {

std::string size_text(Length size) {
    const double um = in_micrometres(size);
    if (um >= 999.5) return number_text(std::round(um / 10.0) / 100.0) + " mm";
    // A screen keeps the digits it is sold by; anything else has three at most.
    const auto text = significant_text(um, um < 100.0 ? 2 : 3);
    const bool exact = std::abs(um - std::round(um * 10.0) / 10.0) < 1e-6;
    return (exact ? number_text(std::round(um * 10.0) / 10.0) : text) + " um";
}

std::string height_text(Length height) {
    return number_text(std::round(in_millimetres(height) * 10.0) / 10.0) + " mm";
}

std::string time_text(Time time) {
    const double s = in_seconds(time);
    const auto two = [](long long big, const char* big_unit, long long small, const char* small_unit) {
        return small == 0 ? fmt::format("{} {}", big, big_unit)
                          : fmt::format("{} {} {} {}", big, big_unit, small, small_unit);
    };
    if (std::abs(s - 60.0) < 0.5) return "1 min";
    if (s < 99.5) return significant_text(s, 2) + " s";
    if (s < 595.0) {
        const auto whole = std::llround(s / 5.0) * 5;
        return two(whole / 60, "min", whole % 60, "s");
    }
    const auto whole_minutes = std::llround(s / 60.0);
    if (whole_minutes < 60) return fmt::format("{} min", whole_minutes);
    if (whole_minutes < 24 * 60) {
        const auto rounded = whole_minutes < 600 ? whole_minutes : (whole_minutes + 2) / 5 * 5;
        return two(rounded / 60, "h", rounded % 60, "min");
    }
    const auto whole_hours = std::llround(s / 3600.0);
    return two(whole_hours / 24, "d", whole_hours % 24, "h");
}

std::string rough_time_text(Time time) {
    return time_text(in_minutes(time) < 60.0 ? time : minutes(5.0 * std::round(in_minutes(time) / 5.0)));
}

std::string share_text(double share, double standard_uncertainty) {
    if (standard_uncertainty > 0.0) {
        // One digit of uncertainty: it is the scale's alone, and sieving itself repeats worse.
        const double u = std::max(standard_uncertainty * 100.0, 0.005);
        const int decimals = u < 0.095 ? 2 : u < 0.95 ? 1 : 0;
        return fixed_text(share * 100.0, decimals) + " ± " + fixed_text(u, decimals) + " %";
    }
    return fixed_text(share * 100.0, 1) + " %";
}

namespace {

/// Decimals of a share in percent that leave one digit of `half_width`, a share.
int share_decimals(double half_width) {
    const double points = half_width * 100.0;
    return points < 0.095 ? 2 : points < 0.95 ? 1 : 0;
}

int residue_decimals(const Residue& residue, const std::optional<LossBounds>& with_loss) {
    const double loss = with_loss ? 0.5 * (with_loss->high - with_loss->low) : 0.0;
    const double widest = std::max(loss, residue.standard_uncertainty);
    return widest > 0.0 ? share_decimals(widest) : 1;
}

} // namespace

std::string residue_text(const Residue& residue, const std::optional<LossBounds>& with_loss) {
    return fixed_text(residue.share.value() * 100.0, residue_decimals(residue, with_loss)) + " %";
}

std::string scale_text(const Residue& residue) {
    if (!(residue.standard_uncertainty > 0.0)) return "-";
    const double u = std::max(residue.standard_uncertainty, 0.00005);
    return "± " + fixed_text(u * 100.0, share_decimals(u)) + " %";
}

std::string loss_range_text(const Residue& residue, const LossBounds& with_loss) {
    const int decimals = residue_decimals(residue, with_loss);
    return fmt::format("{} to {} %", fixed_text(with_loss.low * 100.0, decimals),
                       fixed_text(with_loss.high * 100.0, decimals));
}

std::string residue_doubt_text(const Residue& residue, const std::optional<LossBounds>& with_loss) {
    std::string text;
    if (residue.standard_uncertainty > 0.0) text = "scale alone " + scale_text(residue);
    if (residue.repeatability > 0.0)
        text += fmt::format("{}a second sieving would differ by ± {} %", text.empty() ? "" : "; ",
                            fixed_text(std::max(residue.repeatability, 0.00005) * 100.0,
                                       share_decimals(residue.repeatability)));
    if (with_loss)
        text +=
            fmt::format("{}the {} lost could make it {}", text.empty() ? "" : "; ",
                        percent_text(with_loss->high - with_loss->low), loss_range_text(residue, *with_loss));
    return text;
}

std::string settle_command(Length depth, Length cut, const std::optional<MassDensity>& density) {
    auto text = fmt::format("lakebound-settle --depth \"{}\" --cut \"{}\"", quantity_text(depth, "mm"), size_text(cut));
    if (density) text += fmt::format(" --density \"{}\"", density_text(*density));
    return text;
}

const char* given_words(GivenBy by) noexcept {
    switch (by) {
    case GivenBy::maker:
        return "as you say";
    case GivenBy::sieve_tests:
        return "as your tests say";
    case GivenBy::settling_test:
        return "as in the settling test";
    case GivenBy::bench:
        return "as on the bench";
    case GivenBy::shelf:
        return "an estimate";
    }
    return "";
}

const char* advice_words(ScreeningAdvice advice) noexcept {
    switch (advice) {
    case ScreeningAdvice::dry_sieving:
        return "sieve it dry";
    case ScreeningAdvice::wet_screening:
        return "wash it through a screen";
    case ScreeningAdvice::levigation:
        return "levigate it";
    }
    return "";
}

std::vector<Caution> powder_cautions(PowderWork work) {
    std::vector<Caution> result;
    if (work != PowderWork::settling)
        result.push_back(
            {"Dust",
             "Wear a fitted P3 or FFP2 mask, work away from draughts, wipe up with a damp cloth and "
             "never sweep. Wet work makes no dust: prefer it where you can. Plant dust and earths with "
             "crystalline silica harm the lungs most.",
             {}});
    if (work == PowderWork::settling)
        result.push_back(
            {"Water",
             "Pour nothing down the sink that your sewer may not have. Keep the jars labelled and out "
             "of reach of children; cover them against flies and dust.",
             {}});
    result.push_back(
        {"Kitchen", "Mortar, screens and jars never go back to food. Do not taste; wash your hands.", {}});
    result.push_back(
        {"First of all",
         "What the safety data sheet of each product says goes before this page, and so do local codes "
         "and licensed practice.",
         {}});
    result.push_back(
        {"Estimate", "These figures are an estimate, not a certificate. Try a small part first.", {}});
    return result;
}

} // namespace lakebound
