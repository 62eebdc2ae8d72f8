#include "lakebound/shelf/bath_jar_file.hpp"

#include <algorithm>
#include <cmath>

#include "lakebound/quantity/rounded_text.hpp"
#include "lakebound/quantity/text.hpp"
#include "lakebound/shelf/entry_file.hpp"
#include "lakebound/shelf/jar_starter.hpp"
#include "lakebound/shelf/reader.hpp"
#include "lakebound/shelf/safe_write.hpp"
#include "lakebound/shelf/typed_text.hpp"

namespace lakebound {
namespace {

std::string spread_text(double value, double u, int decimals) {
    return fixed_text(value, decimals) + " +- " + fixed_text(std::max(u, std::pow(10.0, -decimals)), decimals);
}

/// "0.8 x/ 1.40 % w/w", or "0.10 +- 0.06 % w/w" of a lake that is clean within the doubt.
std::string salts_text(const Estimate<MassFraction>& salts) {
    const std::string middle = significant_text(100.0 * salts.value().value(), 2);
    if (salts.distribution().shape == Shape::lognormal)
        return middle + " x/ " + fixed_text(std::exp(salts.distribution().scale), 2) + " % w/w";
    return middle + " +- " + significant_text(100.0 * salts.standard_uncertainty().value(), 2) + " % w/w";
}

/// A figure that the maker measured stands bare; any other says where it is from.
void add_figure(EntryText& text, std::string_view key, const std::string& value, const Provenance& from) {
    if (from.origin == Origin::measured) {
        text.add(key, value);
        return;
    }
    text.add(key, "");
    text.add("  value", value).add("  origin", word_of(from.origin));
    if (!from.source.empty()) text.add_quoted("  source", from.source);
}

void add_ph(EntryText& text, std::string_view key, const std::optional<Estimate<Ph>>& ph) {
    if (ph) text.add(key, spread_text(ph->value().value(), ph->standard_uncertainty().value(), 1));
}

} // namespace

std::string bath_jar_text(const std::string& name, const BathJar& jar, const std::string& pigment, const std::string& bath, const std::string& day) {
    EntryText text("jar", "name", name, {}, {});
    text.add("pigment", pigment);
    add_figure(text, "net_mass", spread_text(in_grams(jar.net_mass.value()), in_grams(jar.net_mass.standard_uncertainty()), 1) + " g",
               jar.net_mass.provenance());
    text.add("since", day);
    add_figure(text, "density", spread_text(in_grams_per_cubic_centimetre(jar.density.value()),
                                            in_grams_per_cubic_centimetre(jar.density.standard_uncertainty()), 2) + " g/cm3",
               jar.density.provenance());
    // One that nobody weighed is not the jar's own: as it lies in ordinary air, which is what its kind has too.
    if (jar.moisture.provenance().origin == Origin::measured)
        add_figure(text, "moisture", spread_text(jar.moisture.value().value() * 100.0, jar.moisture.standard_uncertainty().value() * 100.0, 1) + " % w/w",
                   jar.moisture.provenance());
    add_figure(text, "salts", salts_text(jar.salts), jar.salts.provenance());
    add_ph(text, "ph", jar.ph);
    if (!jar.colour.hue.empty()) text.add_quoted("hue", jar.colour.hue);
    if (jar.colour.swatch) text.add("swatch", std::to_string(*jar.colour.swatch));
    add_ph(text, "strike_ph", jar.colour.strike);
    if (!bath.empty()) text.add_quoted("note", "Out of the bath " + bath + ".");
    return text.text();
}

std::string write_bath_jar(const std::string& id, const BathJar& jar, const std::string& pigment, const std::string& bath, const std::string& day) {
    if (!is_id(id)) throw typed_fault("id-form", "--jar \"" + id + "\" cannot be the name of a jar", "small letters, digits and single hyphens");
    std::string name = id;
    std::replace(name.begin(), name.end(), '-', ' ');
    if (name.front() >= 'a' && name.front() <= 'z') name.front() = static_cast<char>(name.front() - 'a' + 'A');
    const std::string path = new_jar_path(id);
    safe_write(path, bath_jar_text(name, jar, pigment, bath, day));
    return path;
}

} // namespace lakebound
