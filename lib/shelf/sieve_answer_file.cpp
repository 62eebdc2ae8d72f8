#include "lakebound/shelf/sieve_answer_file.hpp"

#include <cmath>
#include <optional>
#include <utility>

#include "lakebound/particle/sieve_record.hpp"
#include "lakebound/shelf/reader.hpp"

namespace lakebound {

namespace {

/// A key that the JSON has under another name: it takes the place of the value it leads to.
Node key_at(const Node& value, std::string_view name) {
    Node key = value;
    key.kind = Node::Kind::scalar;
    key.text = name;
    key.keys.clear();
    key.items.clear();
    return key;
}

void put(Node& map, std::string_view key, Node value) {
    map.keys.push_back(key_at(value, key));
    map.items.push_back(std::move(value));
}

Node empty_like(const Node& where, Node::Kind kind) {
    Node node = key_at(where, "");
    node.kind = kind;
    return node;
}

/// The bare number of the JSON with the unit that its key ends in.
Node with_unit(Node number, std::string_view unit) {
    if (number.kind == Node::Kind::scalar) number.text.append(" ").append(unit);
    return number;
}

struct Taken {
    std::string_view answer_key, file_key, unit; ///< unit: of a bare number; empty for text
};
constexpr Taken taken_over[] = {
    {"name", "name", ""},
    {"method", "method", ""},
    {"charge_g", "charge", "g"},
    {"grinding_time_min", "grinding_time", "min"},
    {"scale_step_g", "scale_step", "g"},
    {"density_g_per_cm3", "density", "g/cm3"},
};

/// The screen as the maker named it, where that is the aperture that the answer was reckoned with.
Node screen_of(const Node& row, const Node& aperture, Faults& faults) {
    Node screen = with_unit(aperture, "um");
    const Node* name = row.find("designation");
    if (name == nullptr || name->kind != Node::Kind::scalar || aperture.kind != Node::Kind::scalar) return screen;
    try {
        const double um = read_number(aperture.text);
        if (std::abs(in_micrometres(parse_sieve(name->text).aperture) / um - 1.0) < 1e-6) return *name;
        Diagnostic fault = fault_at(*name, "value-shape", "this is the name of another screen than the aperture beside it",
                                    "write the answer anew with lakebound-sieve --json");
        fault.second = SecondPlace{aperture.excerpt(), "the aperture, in um"};
        faults.add(std::move(fault));
    } catch (const QuantityTextError&) {
        // The reader of the test says what is wrong with the aperture; a name that it does not know is only a name.
    }
    return screen;
}

/// One row of `fractions`, as a screen or as the pan.
void take_row(const Node& row, Node& test, Node& retained, Faults& faults) {
    const Node* mass = row.find("retained_g");
    const Node* aperture = row.find("screen_um");
    if (row.kind != Node::Kind::map || mass == nullptr || (aperture == nullptr && row.find("pan") == nullptr)) {
        faults.add(fault_at(row, "value-shape", "expected a screen or the pan, and what it retained",
                            "write the answer anew with lakebound-sieve --json"));
        return;
    }
    if (aperture == nullptr) {
        const Node* method = test.find("method");
        // What passed a wet screen is the charge less the residues, and is computed so again.
        if (method == nullptr || method->text != word_of(SieveMethod::wet)) put(test, "pan", with_unit(*mass, "g"));
        return;
    }
    Node screen = empty_like(row, Node::Kind::map);
    put(screen, "screen", screen_of(row, *aperture, faults));
    put(screen, "mass", with_unit(*mass, "g"));
    retained.items.push_back(std::move(screen));
}

} // namespace

bool is_answer(const Document& document) { return document.root.find("schema_version") != nullptr; }

Document sieve_test_of_answer(Document answer) {
    Faults& faults = answer.faults;
    const Node root = std::move(answer.root);
    const Node* kind = root.find("kind");
    if (kind == nullptr || kind->text != "sieve_test")
        faults.add(fault_at(kind == nullptr ? root : *kind, "kind-wrong",
                            kind == nullptr || kind->kind != Node::Kind::scalar
                                ? std::string("expected the answer to a sieve test, this does not say what it answers")
                                : "expected the answer to a sieve test, this is a '" + kind->text + "'",
                            "write it with lakebound-sieve --json"));
    const Node& version = *root.find("schema_version");
    if (faults.none() && version.text != std::to_string(sieve_answer_version))
        faults.add(fault_at(version, "schema-version",
                            "expected version " + std::to_string(sieve_answer_version) + " of a sieve test's answer",
                            "write it anew with the lakebound-sieve of this version"));
    const Node* fractions = root.find("fractions");
    if (faults.none() && (fractions == nullptr || fractions->kind != Node::Kind::sequence))
        faults.add(fault_at(fractions == nullptr ? root : *fractions, "value-shape",
                            "expected a list 'fractions' with what each screen retained",
                            "write the answer anew with lakebound-sieve --json"));
    faults.throw_if_any();

    answer.root = empty_like(root, Node::Kind::map);
    Node word = *kind;
    word.text = "sieve test";
    put(answer.root, "kind", std::move(word));
    for (const auto& each : taken_over)
        if (const Node* value = root.find(each.answer_key))
            put(answer.root, each.file_key, each.unit.empty() ? *value : with_unit(*value, each.unit));
    Node retained = empty_like(*fractions, Node::Kind::sequence);
    for (const Node& row : fractions->items)
        take_row(row, answer.root, retained, faults);
    put(answer.root, "retained", std::move(retained));
    faults.throw_if_any();
    return answer;
}

} // namespace lakebound
