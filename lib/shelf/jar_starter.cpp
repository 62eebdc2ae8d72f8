#include "lakebound/shelf/jar_starter.hpp"

#include <algorithm>
#include <filesystem>

#include "lakebound/paint/weighing.hpp"
#include "lakebound/quantity/text.hpp"
#include "lakebound/shelf/reader.hpp"
#include "lakebound/shelf/safe_write.hpp"
#include "lakebound/shelf/typed_quantity.hpp"
#include "typed_masses.hpp"

namespace lakebound {

std::string new_jar_path(const std::string& id) {
    std::error_code error;
    std::filesystem::create_directories("jars", error); // a fault shows when the file is written
    std::string path = "jars/" + id + ".yaml";
    if (std::filesystem::exists(path, error))
        throw InputError(command_line_fault("write-exists", path + ": this jar is there already, and was left alone",
                                            "give the new one another name; the old one's file is yours to edit"));
    return path;
}

std::string begin_jar_file(const std::string& id, const std::string& text, const EntryContext& context, Library& library) {
    if (!is_id(id)) throw InputError(library.unknown(ShelfKind::jar, id));
    const auto [pigment, mass] = parted(text, ',');
    const auto refuse = [&](std::string message, std::string hint) {
        return InputError(command_line_fault("jar-typed", std::move(message), std::move(hint)));
    };
    if (mass.empty())
        throw refuse("--new \"" + text + "\": expected what it is and how much",
                     "write it like --new \"alumina-lake, 24.0 g\"; lakebound-batch --list shows the pigments");
    library.pigment(pigment); // the fault names those on the shelf
    std::string net = mass;
    try {
        const auto reading = read_quantity(mass, Dimension::mass, context.bench.kitchen);
        const Mass value = Mass::from_value(reading.value);
        if (reading.spread_kind == Spread::none)
            net = (mass.ends_with(" g") ? mass.substr(0, mass.size() - 2) : number_text(in_grams(value))) + " +- " +
                  number_text(in_grams(standard_uncertainty(scale_of(mass, value, context.bench)))) + " g";
    } catch (const QuantityTextError& error) {
        throw InputError(command_line_fault(error.id, "--new \"" + text + "\": " + error.what(), error.hint));
    }
    std::string name = id;
    std::replace(name.begin(), name.end(), '-', ' ');
    if (name.front() >= 'a' && name.front() <= 'z') name.front() = static_cast<char>(name.front() - 'a' + 'A');
    const std::string path = new_jar_path(id);
    safe_write(path, "kind: jar\nname: " + name + "\npigment: " + pigment + "\nnet_mass: " + net + "\nsince: " +
                         context.date +
                         "\n# What its lake was made from, so that jars of one plant teach each other:\n# plant: " + id.substr(0, id.find('-')) + "\n"
                         "# Whatever you measure goes into the record: lakebound-jar " +
                         id + " --measured \"density: 1.86 +- 0.05 g/cm3\"\n");
    return path;
}

} // namespace lakebound
