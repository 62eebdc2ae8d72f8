// What the reader says about a unit it cannot take. Not on the fast path.
#include "lakebound/quantity/nearest.hpp"
#include "lakebound/quantity/vocabulary.hpp"
#include "unit_table.hpp"

namespace lakebound {
namespace {

struct Pair {
    std::string_view typed, meant;
};

// Other spellings of units of the vocabulary. They are not read, only recognised for the hint.
constexpr Pair other_spellings[] = {
    {"gm", "g"},
    {"gms", "g"},
    {"gram", "g"},
    {"grams", "g"},
    {"gramme", "g"},
    {"grammes", "g"},
    {"mgs", "mg"},
    {"milligram", "mg"},
    {"kilo", "kg"},
    {"kilos", "kg"},
    {"kilogram", "kg"},
    {"kgs", "kg"},
    {"mcg", "ug"},
    {"ounce", "oz"},
    {"ounces", "oz"},
    {"lbs", "lb"},
    {"pound", "lb"},
    {"pounds", "lb"},
    {"cc", "cm3"},
    {"ccm", "cm3"},
    {"litre", "L"},
    {"litres", "L"},
    {"liter", "L"},
    {"liters", "L"},
    {"millilitre", "mL"},
    {"millilitres", "mL"},
    {"milliliter", "mL"},
    {"milliliters", "mL"},
    {"micron", "um"},
    {"microns", "um"},
    {"inch", "in"},
    {"inches", "in"},
    {"metre", "m"},
    {"meter", "m"},
    {"mils", "mil"},
    {"sec", "s"},
    {"secs", "s"},
    {"second", "s"},
    {"seconds", "s"},
    {"mins", "min"},
    {"minute", "min"},
    {"minutes", "min"},
    {"hr", "h"},
    {"hrs", "h"},
    {"hour", "h"},
    {"hours", "h"},
    {"day", "d"},
    {"days", "d"},
    {"C", "degC"},
    {"F", "degF"},
    {"deg C", "degC"},
    {"deg F", "degF"},
    {"\u00BAC", "degC"},
    {"\u2103", "degC"},
    {"Celsius", "degC"},
    {"celsius", "degC"},
    {"Fahrenheit", "degF"},
    {"fahrenheit", "degF"},
    {"wt%", "% w/w"},
    {"wt %", "% w/w"},
    {"% m/m", "% w/w"},
    {"vol%", "% v/v"},
    {"vol %", "% v/v"},
    {"g/cc", "g/cm3"},
    {"gm/cc", "g/cm3"},
    {"percent", "%"},
    {"US tbsp", "US tablespoon"},
    {"US tsp", "US teaspoon"},
    {"metric tbsp", "metric tablespoon"},
    {"metric tsp", "metric teaspoon"},
};

struct Unqualified {
    std::string_view typed, qualified;
};
constexpr std::string_view cups = "'US cup' (236.6 mL), 'metric cup' (250 mL) or 'imperial cup' (284.1 mL)";
constexpr std::string_view pints = "'US pint' (473.2 mL) or 'imperial pint' (568.3 mL)";
constexpr std::string_view fluid_ounces = "'US fl oz' (29.57 mL) or 'imperial fl oz' (28.41 mL)";
constexpr std::string_view tablespoons =
    "'metric tablespoon' (15 mL), 'US tablespoon' (14.79 mL) or 'Australian tablespoon' (20 mL)";
constexpr Unqualified unqualified[] = {
    {"cup", cups},
    {"cups", cups},
    {"pint", pints},
    {"pints", pints},
    {"fl oz", fluid_ounces},
    {"fl. oz", fluid_ounces},
    {"fl. oz.", fluid_ounces},
    {"floz", fluid_ounces},
    {"fluid ounce", fluid_ounces},
    {"fluid ounces", fluid_ounces},
    {"tablespoon", tablespoons},
    {"tablespoons", tablespoons},
    {"tbsp", tablespoons},
    {"Tbsp", tablespoons},
};

std::string in_quotes(std::string_view a, std::string_view b = {}) {
    std::string out = "'";
    out += a;
    if (!a.empty() && !b.empty()) out += ' ';
    return out.append(b) += '\'';
}

bool is_known(std::string_view plain) {
    for (const UnitRow& row : all_unit_rows())
        if (row.name == plain) return true;
    return false;
}

/// In the vocabulary for some quantity, or made of two units that are ("g/cm2").
bool is_measure(std::string_view plain) {
    if (plain.empty()) return false;
    if (is_known(plain)) return true;
    const std::size_t slash = plain.find('/');
    if (slash == std::string_view::npos) return false;
    std::string_view below = plain.substr(slash + 1);
    if (below.substr(0, 3) == "100") below.remove_prefix(below.substr(0, 4) == "100 " ? 4 : 3);
    return is_known(plain.substr(0, slash)) && is_known(below);
}

/// A unit of the dimension that the typed one was probably meant to be; empty when none is near.
std::string meant_unit(std::string_view plain, Dimension dimension) {
    for (const Pair& pair : other_spellings)
        if (pair.typed == plain && find_unit(pair.meant, dimension) != nullptr) return std::string(pair.meant);
    const std::vector<std::string_view> names = unit_names(dimension);
    // Case is the commonest slip ("ML", "KG") and decides even in a word of one letter.
    const std::vector<std::string> near = nearest_names(plain, std::span<const std::string_view>(names), 1);
    return near.empty() ? std::string() : near.front();
}

/// How to mend a unit of another dimension.
std::string dimension_hint(std::string_view number, std::string_view plain, Dimension dimension) {
    const DimensionWords& words = words_of(dimension);
    const bool is_percent = !plain.empty() && plain.front() == '%';
    const bool is_per_100 = plain.find("/100") != std::string_view::npos;
    switch (dimension) {
    case Dimension::oil_absorption:
        if (is_percent) return "write " + in_quotes(number, "g/100g") + ": grams of oil for 100 g of pigment";
        if (is_per_100 && find_unit(plain.substr(0, plain.find('/')), Dimension::volume) != nullptr)
            return "multiply by the test oil's density in g/cm3 and write g/100g";
        break;
    case Dimension::pure_number:
        return is_percent ? "write a decimal, such as 0.75 for 75 %" : "leave the unit out";
    case Dimension::length:
        if (plain == "mesh")
            return "a mesh number is not a length: write the aperture, such as '75 um'; nylon mesh is not wire "
                   "mesh";
        break;
    case Dimension::mass:
        if (find_unit(plain, Dimension::volume) != nullptr)
            return "weigh it, or multiply the volume by the density; a mass is in " + std::string(words.units);
        break;
    case Dimension::volume:
        if (plain == "oz") return "an oz is a mass; for a volume write " + std::string(fluid_ounces);
        if (find_unit(plain, Dimension::mass) != nullptr)
            return "divide the mass by the density; a volume is in " + std::string(words.units);
        break;
    default:
        break;
    }
    if (is_percent && words.example.front() == '%')
        return "write " + in_quotes(number, words.example) + " if that is what is meant";
    const std::string near = meant_unit(plain, dimension);
    const std::size_t slash = plain.find('/');
    if (slash != std::string_view::npos && near.substr(0, slash + 1) == plain.substr(0, slash + 1))
        return "write " + in_quotes(number, near);
    return "write it in " + std::string(words.units);
}

/// The rest of a unit text whose beginning is a unit of the dimension ("g of gum"): 0 when it is none.
std::size_t length_of_leading_unit(std::string_view unit, Dimension dimension) {
    std::size_t best = 0;
    for (std::size_t at = 1; at < unit.size(); ++at)
        if (blank_at(unit, at) > 0 || unit[at] == '+' || unit[at] == ',' || unit[at] == ';' || unit[at] == '(')
            if (find_unit(plain_unit(unit.substr(0, at)).view(), dimension) != nullptr) best = at;
    return best;
}

[[noreturn]] void refuse_from_to(const char* id, std::size_t begin, std::size_t end, const std::string& message,
                         std::string hint) {
    throw QuantityTextError(id, begin, end - begin, message, std::move(hint));
}

} // namespace

void refuse_uncalibrated(const TextParts& parts, UnitSize size) {
    const bool is_drop = size == UnitSize::drop;
    refuse_from_to("unit-uncalibrated", parts.unit_begin, parts.end,
           is_drop ? "the size of a drop is not known" : "the size of a teaspoon is not known",
           is_drop
               ? "say how big yours is in the bench file (count the drops in 1 mL; drop: 0.039 mL), or write mL"
               : "say how big yours is in the bench file (teaspoon: 4.8 mL), or write mL, 'metric teaspoon' "
                 "(5 mL) or 'US teaspoon' (4.93 mL)");
}

void refuse_unit(const TextParts& parts, Dimension dimension) {
    const DimensionWords& words = words_of(dimension);
    const std::string name(words.name);
    const std::string_view all = parts.text.substr(parts.begin, parts.end - parts.begin);
    const std::string_view number = parts.text.substr(parts.begin, parts.number_end - parts.begin);
    const std::string_view unit = parts.text.substr(parts.unit_begin, parts.end - parts.unit_begin);
    const PlainUnit kept = plain_unit(unit);
    const std::string_view plain = kept.view();
    const std::string got = ", got " + quoted(all);

    if (unit.empty())
        refuse_from_to("unit-missing", parts.begin, parts.end, name + " must have a unit" + got,
               "write the unit as well, for example " + in_quotes(number, words.example));
    const bool is_mesh = plain == "mesh" || number.empty();
    if (dimension == Dimension::length && is_mesh && (plain == "mesh" || !is_measure(plain)))
        refuse_from_to("unit-dimension", parts.begin, parts.end, name + " must be " + std::string(words.nature) + got,
               dimension_hint(number, "mesh", dimension));
    if (plain == "%" && (dimension == Dimension::mass_fraction || dimension == Dimension::solution_strength))
        refuse_from_to("percent-basis", parts.unit_begin, parts.end, name + " must say what the percent is of" + got,
               dimension == Dimension::mass_fraction
                   ? "write " + in_quotes(number, "% w/w")
                   : "write " + in_quotes(number, "% w/w") + " (g in 100 g) or " + in_quotes(number, "% w/v") +
                         " (g in 100 mL)");
    if (dimension == Dimension::volume)
        for (const Unqualified& word : unqualified)
            if (word.typed == plain)
                refuse_from_to("unit-unqualified", parts.unit_begin, parts.end,
                       "a " + std::string(plain) + " is not the same everywhere" + got,
                       "write " + std::string(word.qualified));
    if (is_measure(plain))
        refuse_from_to("unit-dimension", parts.begin, parts.end, name + " must be " + std::string(words.nature) + got,
               dimension_hint(number, plain, dimension));
    if (dimension == Dimension::pure_number)
        refuse_from_to("number-trailing", parts.unit_begin, parts.end, "the number is followed by " + quoted(unit),
               "write the number alone");
    if (const std::size_t length = length_of_leading_unit(unit, dimension)) {
        std::size_t rest = parts.unit_begin + length;
        while (const std::size_t bytes = blank_at(parts.text, rest))
            rest += bytes;
        const std::string_view left = parts.text.substr(rest, parts.end - rest);
        const bool is_spread = left.substr(0, 1) == "+" || left.substr(0, 2) == "\u00B1" ||
                               left.substr(0, 2) == "x/" || left.substr(0, 2) == "\u00D7";
        refuse_from_to("number-trailing", rest, parts.end,
               quoted(left) + " is left over after " +
                   quoted(parts.text.substr(parts.begin, parts.unit_begin + length - parts.begin)),
               is_spread ? "write the uncertainty before the unit, as in '12.5 +- 0.1 g'" : "leave it out");
    }
    const std::string near = meant_unit(plain, dimension);
    refuse_from_to("unit-unknown", parts.unit_begin, parts.end, quoted(unit) + " is not a unit of " + name,
           near.empty() ? "write it in " + std::string(words.units) : "write " + in_quotes(number, near));
}

} // namespace lakebound
