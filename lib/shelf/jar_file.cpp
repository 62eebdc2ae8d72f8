#include "lakebound/shelf/jar_file.hpp"

#include "lakebound/material/moisture.hpp"
#include "lakebound/material/rub_out.hpp"
#include "lakebound/shelf/domain_fault.hpp"
#include "lakebound/shelf/pigment_file.hpp"
#include "lakebound/shelf/reader.hpp"
#include "lakebound/shelf/typed_bath_reading.hpp"
#include "reference.hpp"

namespace lakebound {

namespace {

/// A figure of the stand-in, marked as not the maker's own.
template <class Q> Estimate<Q> borrowed(const Estimate<Q>& figure, const char* name, Jar& jar) {
    Provenance from = figure.provenance();
    from.library_default = true;
    jar.library_defaults.emplace_back(name);
    return figure.with_provenance(std::move(from));
}

template <class Q> void lay_over(std::optional<Estimate<Q>>& own, const std::optional<Estimate<Q>>& stand_in,
                                 const char* name, Jar& jar) {
    if (!own && stand_in) own = borrowed(*stand_in, name, jar);
}

// A mass less what was drawn. Its uncertainty stays that of the weighing; a factor, which belongs to
// the whole, becomes a standard uncertainty.
Estimate<Mass> less(const Estimate<Mass>& mass, Mass drawn) {
    const Mass left = mass.value() - drawn;
    if (mass.distribution().shape == Shape::exact) return Estimate<Mass>::exact(left, mass.provenance());
    return Estimate<Mass>::normal(left, mass.standard_uncertainty(), mass.provenance());
}

void subtract_drawn(const MapReader& map, Jar& jar) {
    Faults& faults = map.faults();
    const std::size_t before = faults.count();
    const double available = canonical(jar.net_mass.value());
    Mass sum;
    for (const Node* node : map.list("drawn", false)) {
        const MapReader entry(*node, "an entry of what was drawn", {"date", "mass", "for"}, faults);
        if (const Node* date = entry.need("date")) (void)read_date(*date, "date", faults);
        entry.text("for");
        sum += entry.exact<Mass>("mass", range::positive);
        // A millionth more is the rounding of sums, not powder.
        if (available > 0.0 && canonical(sum) > available * (1.0 + 1e-6) && faults.count() == before) {
            Diagnostic fault =
                fault_at(*entry.find("mass"), "jar-overdrawn",
                         "with this, " + fixed_text(in_grams(sum), 2) + " g were drawn, more than there was",
                         "weigh the jar again, write that as net_mass and clear the list of what was drawn");
            fault.second = SecondPlace{map.find("net_mass")->excerpt(), "what there was"};
            faults.add(std::move(fault));
            return;
        }
    }
    if (canonical(sum) > 0.0)
        jar.net_mass = less(jar.net_mass, sum > jar.net_mass.value() ? jar.net_mass.value() : sum);
}

constexpr Range salts_in_lake{0.0, 0.9, false, "0 to 90 % w/w", "an unwashed lake may be half salts; more is no lake"};
constexpr Range ph_of_water{0.0, 14.0, false, "0 to 14", "read it again, of the lake stirred up in water"};

/// Read like any figure; one without its uncertainty is asked for it, for a strip and a pen lie far apart.
std::optional<Estimate<Ph>> read_ph(const MapReader& map, const char* key) {
    const Node* node = map.find(key);
    if (node == nullptr) return std::nullopt;
    auto ph = read_figure<Ph>(*node, key, ph_of_water, FigureStyle::by_maker, map.faults());
    if (ph && ph->distribution().shape != Shape::normal)
        map.faults().add(fault_at(*node, "ph-doubt-missing", std::string(key) + " has no uncertainty, and how sure it is decides what keeps",
                                  "write it like '" + std::string(key) + ": 7.4 +- 0.2' of a pen, '+- 0.5' of a strip"));
    return ph;
}

std::optional<unsigned> read_swatch_number(const Node& node, Faults& faults) {
    const auto text = read_text(node, "swatch", faults);
    if (!text) return std::nullopt;
    try {
        return typed_swatch_number("swatch", *text);
    } catch (const InputError&) {
        faults.add(fault_at(node, "swatch-number", "'" + *text + "' is no number of a swatch", "write the one that stands on it, as in 'swatch: 12'"));
    }
    return std::nullopt;
}

/// The pigment of a jar at the moisture of the powder now; a measured density may be of another.
void lie_at(Pigment& pigment, const Estimate<MassFraction>& now,
            const std::optional<Estimate<MassFraction>>& of_density, bool own_density, const MapReader& map) {
    try {
        if (of_density && pigment.density_state == MoistureState::as_weighed)
            pigment.density = density_at(pigment.density, {.of_figure = of_density->value(), .now = now.value()});
        pigment = at_moisture(std::move(pigment), now, {own_density, false});
    } catch (const DomainError& error) {
        map.faults().add(fault_at(*map.find("moisture"), "out-of-range", domain_sentence(error), error.mend()));
    }
}

/// An oil absorption of another moisture, of the powder as it lies now.
Estimate<OilAbsorption> as_it_lies(const Estimate<OilAbsorption>& read, const Estimate<MassFraction>& then, MassFraction now,
                                   const MapReader& map) {
    try {
        return oil_absorption_at(read, then, now);
    } catch (const DomainError& error) {
        map.faults().add(fault_at(*map.find("oil_absorption"), "out-of-range", domain_sentence(error), error.mend()));
        return read;
    }
}

} // namespace

Jar read_jar(Document document, std::string id, Library& library) {
    require_kind(document, "jar");
    Faults& faults = document.faults;
    const MapReader map(document.root, "a jar file",
                        {"kind", "name", "include", "pigment", "net_mass", "density", "density_state",
                         "density_moisture", "oil_absorption", "oil_absorption_moisture", "test_oil_density", "moisture", "tapped_density", "median_size",
                         "salts", "ph", "hue", "swatch", "strike_ph", "drawn", "plant", "since", "note"},
                        faults);
    constexpr auto style = FigureStyle::by_maker;
    Jar jar;
    jar.id = std::move(id);
    jar.name = map.text("name");
    jar.note = map.text_or_empty("note");
    jar.plant = map.text_or_empty("plant");
    if (jar.plant.empty()) jar.plant = jar.id;
    if (const Node* since = map.find("since")) jar.since = read_date(*since, "since", faults);
    jar.net_mass = map.figure<Mass>("net_mass", range::positive, style);
    jar.remains.salts = map.optional_figure<MassFraction>("salts", salts_in_lake, style);
    jar.remains.ph = read_ph(map, "ph");
    jar.colour.hue = map.text_or_empty("hue");
    if (const Node* node = map.find("swatch")) jar.colour.swatch = read_swatch_number(*node, faults);
    jar.colour.strike = read_ph(map, "strike_ph");
    const auto density = map.optional_figure<MassDensity>("density", range::density, style);
    const MoistureState state = read_density_state(map);
    const auto oil_absorption =
        map.optional_figure<OilAbsorption>("oil_absorption", oil_absorption_range(), style);
    const auto test_oil = map.optional_figure<MassDensity>("test_oil_density", range::density, style);
    auto moisture = map.optional_figure<MassFraction>("moisture", powder_moisture_range(), style);
    const auto density_moisture =
        map.optional_figure<MassFraction>("density_moisture", powder_moisture_range(), style);
    const auto oil_absorption_moisture =
        map.optional_figure<MassFraction>("oil_absorption_moisture", powder_moisture_range(), style);
    for (const char* key : {"density_moisture", "oil_absorption_moisture"})
        if (map.find(key) != nullptr && map.find("moisture") == nullptr)
            faults.add(fault_at(*map.find(key), "moisture-missing",
                                "the moisture of a figure can be reckoned with only beside that of the powder now",
                                "add 'moisture: ', the loss at 105 degC, as in 'moisture: 8 % w/w'"));
    auto tapped = map.optional_figure<MassDensity>("tapped_density", range::density, style);
    auto size = map.optional_figure<Length>("median_size", range::grain_size, style);
    if (map.find("density_state") != nullptr && map.find("density") == nullptr)
        faults.add(fault_at(*map.find("density_state"), "density-state-alone",
                            "density_state belongs to a density of this jar, and there is none",
                            "add the density, or delete this line"));

    const Pigment* stand_in = nullptr;
    if (const Node* node = map.need("pigment")) {
        const auto load = [&](const std::string& wanted) -> const Pigment& { return library.pigment(wanted); };
        stand_in = resolve(*node, "pigment", ShelfKind::pigment, library, faults, load);
    }
    if (stand_in != nullptr) {
        Pigment& pigment = jar.pigment;
        jar.reference_oil_absorption = stand_in->oil_absorption.value().value();
        jar.reference_test_oil = stand_in->test_oil_density.value();
        pigment = *stand_in;
        pigment.name = jar.name;
        pigment.density = density ? *density : borrowed(stand_in->density, "density", jar);
        if (density) pigment.density_state = state;
        pigment.oil_absorption = borrowed(*stand_in->oil_absorption, "oil absorption", jar);
        if (oil_absorption) jar.library_defaults.pop_back();
        pigment.test_oil_density =
            test_oil ? *test_oil : borrowed(stand_in->test_oil_density, "density of the test oil", jar);
        lay_over(tapped, stand_in->tapped_density, "tapped density", jar);
        lay_over(size, stand_in->median_size, "median size", jar);
        pigment.tapped_density = std::move(tapped);
        pigment.median_size = std::move(size);
        if (density)
            require_moisture(map, state, stand_in->moisture.has_value() || map.find("moisture") != nullptr);
        if (!moisture) {
            lay_over(moisture, stand_in->moisture, "moisture", jar);
            pigment.moisture = std::move(moisture);
        } else if (faults.none()) {
            lie_at(pigment, *moisture, density ? density_moisture : std::nullopt, density.has_value(), map);
        }
        if (oil_absorption) {
            // What the library expects, and what was read, of the powder as it lies.
            const auto read = moisture && oil_absorption_moisture
                                  ? as_it_lies(*oil_absorption, *oil_absorption_moisture, moisture->value(), map)
                                  : *oil_absorption;
            Provenance expected = stand_in->oil_absorption->provenance();
            pigment.oil_absorption_belief = {read, pigment.oil_absorption->with_provenance(std::move(expected))};
            pigment.oil_absorption =
                believed_oil_absorption(pigment.oil_absorption_belief->expected, read, library.practice().rub_out);
        }
    }
    subtract_drawn(map, jar);
    faults.throw_if_any();
    return jar;
}

Jar read_jar_file(const std::string& path, Library& library) {
    return read_jar(load_document(path), id_of_path(path), library);
}

} // namespace lakebound
