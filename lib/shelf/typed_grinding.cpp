#include "lakebound/shelf/typed_grinding.hpp"

#include "lakebound/quantity/error.hpp"
#include "lakebound/shelf/typed_fineness.hpp"
#include "lakebound/shelf/typed_series.hpp"
#include "lakebound/shelf/typed_text.hpp"

namespace lakebound {

namespace {

/// How to mend a number without a unit; the reader says nothing when there is no number at all.
std::string digits_wanted(const QuantityTextError& error) {
    return error.hint.empty() ? "write the number in digits" : error.hint;
}

LoadExponent emptier_option(const std::string& option, const std::string& text) {
    try {
        const double x = read_number(text);
        if (x >= 0.0 && x <= 2.0) return LoadExponent::of(x);
    } catch (const QuantityTextError& error) {
        throw typed_fault(error.id, option + " \"" + text + "\": " + error.what(), digits_wanted(error));
    }
    throw typed_fault("out-of-range", option + " \"" + text + "\": must be 0 to 2",
                      "0: an emptier mortar grinds no faster; 1: twice as fast when half empty; left out: the shelf's");
}

Time time_option(const std::string& option, const std::string& text) {
    const auto time = quantity_option<Time>(option, text);
    if (in_seconds(time) < 0.0)
        throw typed_fault("out-of-range", option + " \"" + text + "\": must be 0 or more",
                          "check the number and its sign");
    return time;
}

Share loss_option(const std::string& option, const std::string& text) {
    const auto loss = quantity_option<Share>(option, text);
    if (loss.value() > 0.5)
        throw typed_fault("out-of-range", option + " \"" + text + "\": must be at most 50 %",
                          "name what is lost at one separation, as in '1 %'");
    return loss;
}

/// Behind the comma of what stays: how it was separated.
std::optional<ScreeningAdvice> separated_by(const std::string& word) {
    if (word == "dry") return ScreeningAdvice::dry_sieving;
    if (word == "wet") return ScreeningAdvice::wet_screening;
    if (word == "levigated") return ScreeningAdvice::levigation;
    return std::nullopt;
}

/// "2 rounds": 1 to 99.
std::optional<unsigned> rounds_of(const std::string& text) {
    const auto blank = text.find(' ');
    const std::string count = text.substr(0, blank), word = blank == std::string::npos ? "" : text.substr(blank + 1);
    if (count.empty() || count.size() > 2 || count.find_first_not_of("0123456789") != std::string::npos ||
        (word != "round" && word != "rounds"))
        return std::nullopt;
    const auto rounds = static_cast<unsigned>(std::stoul(count));
    return rounds > 0 ? std::optional(rounds) : std::nullopt;
}

} // namespace

WeighedStay stays_option(const std::string& option, const std::string& text) {
    const auto refuse = [&] {
        return typed_fault("stays-form", option + " \"" + text + "\": must say what stays, after how many rounds, of what length",
                           "write it like " + option + " \"6.3 g after 2 rounds of 5 min\"");
    };
    std::string rest = text;
    WeighedStay weighed;
    if (const auto comma = rest.rfind(','); comma != std::string::npos) {
        const auto from = rest.find_first_not_of(' ', comma + 1);
        weighed.by = separated_by(from == std::string::npos ? "" : rest.substr(from));
        if (!weighed.by) throw refuse();
        rest.resize(comma);
    }
    const auto after = rest.find(" after ");
    const auto of = rest.find(" of ");
    if (after == std::string::npos || of == std::string::npos || of < after + 7) throw refuse();
    const auto rounds = rounds_of(rest.substr(after + 7, of - after - 7));
    if (!rounds) throw refuse();
    weighed.rounds = *rounds;
    weighed.stays = positive_option<Mass>(option, rest.substr(0, after));
    weighed.cycle = positive_option<Time>(option, rest.substr(of + 4));
    return weighed;
}

std::vector<FinenessReading> gauge_option(const std::string& option, const std::string& text) {
    static const std::string hegman = " Hegman";
    const auto series = series_option(option, text, "60 um, 38 um, 27 um every 10 min");
    std::vector<FinenessReading> readings;
    Time at{};
    for (const auto& each : series.readings) {
        FinenessReading reading{.time = at, .fineness = {}};
        if (each.ends_with(hegman) && each.size() > hegman.size()) {
            try {
                reading.fineness = fineness_of_hegman(read_number(each.substr(0, each.size() - hegman.size())));
            } catch (const QuantityTextError& error) {
                throw typed_fault(error.id, option + " \"" + each + "\": " + error.what(), digits_wanted(error));
            } catch (const DomainError& error) {
                throw typed_fault("out-of-range", option + " \"" + each + "\": must be " + error.valid() + " Hegman", error.mend());
            }
        } else {
            reading.fineness = grain_size_option(option, each);
        }
        readings.push_back(reading);
        at += series.interval;
    }
    return readings;
}

GrindSay grind_say(const GrindTexts& texts) {
    GrindSay say;
    if (texts.handling) say.handling = time_option("--handling", *texts.handling);
    if (texts.drying) say.drying = time_option("--drying", *texts.drying);
    if (texts.loss) say.loss = loss_option("--loss", *texts.loss);
    if (texts.emptier) say.emptier_is_faster = emptier_option("--emptier", *texts.emptier);
    if (texts.cycle) say.cycle = positive_option<Time>("--cycle", *texts.cycle);
    if (texts.density) say.density = positive_option<MassDensity>("--density", *texts.density);
    if (texts.largest) say.largest_grain = grain_size_option("--largest", *texts.largest);
    if (texts.stays) say.weighed = stays_option("--stays", *texts.stays);
    return say;
}

} // namespace lakebound
