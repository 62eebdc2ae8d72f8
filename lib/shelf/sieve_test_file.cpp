#include "lakebound/shelf/sieve_test_file.hpp"

#include <cmath>
#include <utility>

#include "lakebound/quantity/error.hpp"
#include "lakebound/shelf/reader.hpp"
#include "lakebound/shelf/sieve_answer_file.hpp"
#include "screen_text.hpp"

namespace lakebound {
namespace {

struct ReadScreen {
    Sieve sieve;
    Mass retained;
    const Node* at;
};

/// A mass given net, or as gross and tare.
std::optional<Mass> read_net(const MapReader& map) {
    Faults& faults = map.faults();
    const Node* net = map.find("mass");
    const Node* gross = map.find("gross");
    const Node* tare = map.find("tare");
    if (!map.is_map()) return std::nullopt;
    if ((net != nullptr) == (gross != nullptr || tare != nullptr)) {
        faults.add(fault_at(net != nullptr ? *net : map.node(), "mass-form",
                            net != nullptr ? "a mass is given both net and as gross and tare"
                                           : "the mass is missing here",
                            "write either 'mass' alone, or 'gross' and 'tare'"));
        return std::nullopt;
    }
    if (net != nullptr) return read_exact<Mass>(*net, "mass", range::not_negative, faults);
    const std::size_t before = faults.count();
    const Mass loaded = map.exact<Mass>("gross", range::positive);
    const Mass empty = map.exact<Mass>("tare", range::positive);
    if (faults.count() != before) return std::nullopt;
    if (loaded < empty) {
        Diagnostic fault = fault_at(*gross, "tare-over-gross", "loaded it weighs less than empty",
                                    "are gross and tare exchanged?");
        fault.second = SecondPlace{tare->excerpt(), "its tare"};
        faults.add(std::move(fault));
        return std::nullopt;
    }
    return loaded - empty;
}

void check_order(const std::vector<ReadScreen>& screens, Faults& faults) {
    for (std::size_t i = 1; i < screens.size(); ++i) {
        const double ratio = screens[i].sieve.aperture / screens[i - 1].sieve.aperture;
        if (ratio < 1.0 - 1e-9) continue;
        const bool twice = ratio < 1.0 + 1e-9;
        Diagnostic fault = fault_at(
            *screens[i].at, twice ? "screen-twice" : "screen-order",
            twice ? "this screen is listed twice" : "this screen is coarser than the one above it",
            twice ? "add the two masses, or mend the aperture" : "list the screens from coarse to fine");
        fault.second =
            SecondPlace{screens[i - 1].at->excerpt(), twice ? "it stands here first" : "the one above"};
        faults.add(std::move(fault));
    }
}

/// What passed a wet screen went with the water: it is what the charge lacks.
Mass passed_by_difference(const MapReader& map, const SieveTest& test) {
    Faults& faults = map.faults();
    if (const Node* pan = map.find("pan"))
        faults.add(fault_at(*pan, "wet-pan", "a wet test has no pan: what passes goes with the water",
                            "leave it out; what passed is the charge less the residues"));
    map.need("charge");
    if (!test.charge) return {};
    Mass sum;
    for (const auto& screen : test.screens)
        sum += screen.retained;
    return *test.charge > sum ? *test.charge - sum : Mass{};
}

/// Faults that only the whole test shows.
void check_masses(const MapReader& map, const SieveRecord& record) {
    Faults& faults = map.faults();
    Mass sum = record.test.pan;
    for (const auto& screen : record.test.screens)
        sum += screen.retained;
    if (!(in_grams(sum) > 0.0)) {
        faults.add(fault_at(*map.find("retained"), "sieve-empty", "nothing was kept and nothing passed",
                            "give the masses on the screens"));
        return;
    }
    try {
        (void)analyse(record.test);
    } catch (const DomainError& error) {
        const Node* charge = map.find("charge");
        faults.add(
            fault_at(charge != nullptr ? *charge : map.node(), "retained-over-charge",
                     "more came off the screens, " + fixed_text(in_grams(sum), 2) + " g, than went on them",
                     error.mend()));
    }
}

RecordPlaces places_in(const MapReader& map) {
    RecordPlaces places{map.node().excerpt(), {}, {}, {}, {}};
    const auto place = [&map](std::string_view key, std::optional<Excerpt>& at) {
        if (const Node* node = map.find(key)) at = node->excerpt();
    };
    place("grinding_time", places.grinding_time);
    places.retained = map.find("retained")->items.front().excerpt(); // of a table: its first screen
    place("density", places.density);
    return places;
}

} // namespace

PlacedSieveTest read_sieve_test(Document document, std::string id) {
    require_kind(document, "sieve test");
    Faults& faults = document.faults;
    const MapReader map(document.root, "a sieve test",
                        {"kind", "name", "method", "charge", "grinding_time", "retained", "pan", "scale_step",
                         "density", "note"},
                        faults);
    SieveRecord record;
    record.id = std::move(id);
    record.path = document.path();
    record.name = map.text("name");
    record.method = map.word<SieveMethod>("method", SieveMethod::dry);
    record.test.charge = map.optional_exact<Mass>("charge", range::positive);
    record.test.scale_step = map.optional_exact<Mass>("scale_step", range::positive);
    record.grinding_time = map.optional_exact<Time>("grinding_time", range::not_negative);
    record.density = map.optional_exact<MassDensity>("density", range::density);
    record.note = map.text_or_empty("note");

    std::vector<ReadScreen> screens;
    for (const Node* node : map.list("retained", true)) {
        const MapReader row(*node, "a screen", {"screen", "mass", "gross", "tare"}, faults);
        const Node* name = row.need("screen");
        const auto sieve = name == nullptr ? std::nullopt : read_screen(*name, "screen", faults);
        const auto mass = read_net(row);
        if (sieve && mass) screens.push_back({*sieve, *mass, name}); // else its fault is told
    }
    check_order(screens, faults);
    for (const auto& screen : screens) {
        record.test.screens.push_back({screen.sieve.aperture, screen.retained});
        record.sieves.push_back(screen.sieve);
    }
    if (record.method == SieveMethod::wet) {
        record.test.pan = passed_by_difference(map, record.test);
    } else if (const Node* pan = map.need("pan")) {
        if (pan->kind == Node::Kind::map)
            record.test.pan = read_net(MapReader(*pan, "the pan", {"gross", "tare"}, faults)).value_or(Mass{});
        else
            record.test.pan = read_exact<Mass>(*pan, "pan", range::not_negative, faults).value_or(Mass{});
    }
    if (faults.none()) check_masses(map, record);
    faults.throw_if_any();
    return {std::move(record), places_in(map)};
}

namespace {

PlacedSieveTest read_either(const std::shared_ptr<const Source>& source) {
    auto id = id_of_path(source->path());
    if (is_sieve_csv(*source)) return read_sieve_test(parse_sieve_csv(source), std::move(id));
    auto document = parse_document(source);
    return read_sieve_test(is_answer(document) ? sieve_test_of_answer(std::move(document)) : std::move(document),
                           std::move(id));
}

} // namespace

PlacedSieveTest read_sieve_test_file(const std::string& path) { return read_either(read_source(path)); }

PlacedSieveTest read_sieve_test_file(const std::string& path, std::string bytes) {
    return read_either(check_text(path, std::move(bytes)));
}

} // namespace lakebound
