#include "lakebound/shelf/typed_bath_reading.hpp"

#include <sstream>

#include "lakebound/quantity/text.hpp"
#include "lakebound/shelf/typed_series.hpp"
#include "lakebound/shelf/typed_text.hpp"

namespace lakebound {

std::vector<std::string> typed_pieces(const std::string& text, char at) {
    if (at == ',') refuse_decimal_comma(text);
    std::vector<std::string> found;
    std::stringstream stream(text);
    for (std::string each; std::getline(stream, each, at);) found.push_back(trimmed(each));
    return found;
}

void refuse_typed_bath(const std::string& option, const std::string& text, const std::string& wanted, const std::string& example) {
    throw typed_fault("bath-typed", option + " \"" + text + "\": " + wanted, "write it like " + option + " \"" + example + "\"");
}

PhSeen typed_ph(const std::string& option, const std::string& text) {
    const auto words = typed_pieces(text, ',');
    const std::string example = "6.4, pen";
    if (words.size() < 2 || words.size() > 3 || (words[1] != "pen" && words[1] != "strip") || (words.size() == 3 && words[2] != "fizzing"))
        refuse_typed_bath(option, text, "the pH, how it was read (pen or strip), and 'fizzing' if it still did are wanted", example);
    double read = 0.0;
    try {
        read = read_number(words[0]);
    } catch (const QuantityTextError& error) {
        refuse_typed_bath(option, text, error.what(), example);
    }
    if (!(read >= 0.0 && read <= 14.0))
        throw typed_fault("ph-impossible", option + " \"" + text + "\": a pH lies between 0 and 14", "read it again, of the clear liquor");
    return {Ph::of(read), words[1] == "pen" ? PhMeans::pen : PhMeans::strip, words.size() == 3};
}

PenReading typed_pen_reading(const std::string& option, const std::string& text) {
    const auto words = typed_pieces(text, ',');
    const std::string example = "350 uS/cm, 16 degC", conductivity = " uS/cm", solids = " mg/L", factor = "factor ";
    const bool in_solids = !words.empty() && words[0].ends_with(solids);
    if (words.empty() || words.size() > 3 || (!in_solids && !words[0].ends_with(conductivity)))
        refuse_typed_bath(option, text, "a conductivity in uS/cm, and the water's temperature if the pen does not correct for it, are wanted", example);
    if (in_solids && (words.size() < 2 || !words[1].starts_with(factor)))
        refuse_typed_bath(option, text, "a pen that shows dissolved solids multiplies by a factor, mostly 0.5 or 0.7: it is on its box", "175 mg/L, factor 0.5");
    if (!in_solids && words.size() > 2) refuse_typed_bath(option, text, "a conductivity and a temperature at most are wanted", example);
    const auto number_before = [&](const std::string& unit) { return read_number(words[0].substr(0, words[0].size() - unit.size())); };
    PenReading reading;
    try {
        reading.shown = in_solids ? shown_as_solids({kilograms_per_cubic_metre(number_before(solids) / 1000.0)}, read_number(words[1].substr(factor.size())))
                                  : microsiemens_per_centimetre(number_before(conductivity));
    } catch (const QuantityTextError& error) {
        refuse_typed_bath(option, text, error.what(), in_solids ? "175 mg/L, factor 0.5" : example);
    } catch (const DomainError& error) {
        refuse_typed_bath(option, text, error.quantity() + " must be " + error.valid(), "175 mg/L, factor 0.5");
    }
    const std::size_t at = in_solids ? 2 : 1;
    reading.water = words.size() > at ? quantity_option<Temperature>(option, words[at]) : degrees_celsius(25);
    if (words.size() > at) reading.compensation = Compensation::none; // it is named for the pens that do not correct
    return reading;
}

FilterReading typed_filter_reading(const std::string& option, const std::string& text) {
    const auto words = typed_pieces(text, ',');
    if (words.size() != 2) refuse_typed_bath(option, text, "the volume run through and the time since pouring are wanted", "0.5 L, 4 min");
    return {positive_option<Time>(option, words[1]), positive_option<Volume>(option, words[0])};
}

ColourMatch typed_colour_match(const std::string& option, const std::string& text) {
    const std::string begins = "1 in ";
    if (!text.starts_with(begins))
        refuse_typed_bath(option, text, "how far the dye liquor is to be filled up to look like the clear liquor is wanted", "1 in 8");
    try {
        const double dilution = read_number(trimmed(text.substr(begins.size())));
        if (dilution >= 1.0 && dilution <= 1000.0) return {dilution};
    } catch (const QuantityTextError& error) {
        refuse_typed_bath(option, text, error.what(), "1 in 8");
    }
    refuse_typed_bath(option, text, "a number from 1 to 1000 is wanted after '1 in'", "1 in 8");
}

CakeEntry typed_cake(const std::string& option, const std::string& text) {
    const auto words = typed_pieces(text, ',');
    if (words.empty() || words.size() > 2 || (words.size() == 2 && words[1] != "wet"))
        refuse_typed_bath(option, text, "the cake's mass, and 'wet' while its surface still looks so, are wanted", "38.6 g, wet");
    return {positive_option<Mass>(option, words[0]), words.size() == 2};
}

std::string typed_hue(const std::string& option, const std::string& text) {
    constexpr std::size_t longest = 200;
    const std::string words = trimmed(text);
    if (words.empty() || words.size() > longest || words.find('\n') != std::string::npos)
        refuse_typed_bath(option, text, "the hue in a few words, on one line, is wanted", "warm rose, wet; brick red, dry");
    return words;
}

unsigned typed_swatch_number(const std::string& option, const std::string& text) {
    const bool digits = !text.empty() && text.size() <= 6 && text.find_first_not_of("0123456789") == std::string::npos;
    if (!digits || text.front() == '0') refuse_typed_bath(option, text, "the number that stands on the swatch is wanted, from 1", "12");
    return static_cast<unsigned>(std::stoul(text));
}

std::chrono::minutes typed_hour(const std::string& option, const std::string& text) {
    const auto digit = [&](std::size_t i) { return text[i] >= '0' && text[i] <= '9'; };
    if (text.size() == 5 && text[2] == ':' && digit(0) && digit(1) && digit(3) && digit(4)) {
        const int hour = (text[0] - '0') * 10 + (text[1] - '0'), minute = (text[3] - '0') * 10 + (text[4] - '0');
        if (hour < 24 && minute < 60) return std::chrono::hours(hour) + std::chrono::minutes(minute);
    }
    refuse_typed_bath(option, text, "an hour of the day from 00:00 to 23:59 is wanted", "08:30");
}

} // namespace lakebound
