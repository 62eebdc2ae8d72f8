#!/usr/bin/python3
"""Holds the files on the shelf and their JSON Schemas to each other, in both directions.

1. Every shipped file is valid by the schema that its first line names, and the schemas themselves
   are valid. References between the files exist; every published figure names a key of
   docs/references.md; density, parts and doses give the check vectors of docs/theory.md.
2. Every schema refuses each shipped file once it is spoiled in one place: a required key taken out,
   an unknown key put in, a word outside its list, a text of the wrong dimension or without a unit,
   a map where text belongs.
3. Every schema still accepts each shipped file once it is varied in one place: an optional key taken
   out, another notation of the uncertainty, another unit of the same dimension.
4. With --shelf-check PROGRAM the loader of the library reads the same shipped, spoiled and varied
   files: both must refuse, or both accept (exit status 2 and 0). PROGRAM --units prints the units the
   loader knows, which must be those of the schemas.

Needs python3-yaml and python3-jsonschema. The reader below takes YAML 1.2 core types, as editors do.
"""
import argparse
import copy
import json
import math
import pathlib
import re
import subprocess
import sys
import tempfile

import jsonschema
import yaml

DUMPER = getattr(yaml, "CSafeDumper", yaml.SafeDumper)  # the one in C writes the same ten times as fast

HERE = pathlib.Path(__file__).resolve()
SHELF = HERE.parents[2] / "formulations"
REFERENCES = HERE.parents[2] / "docs" / "references.md"
KINDS = ["pigment", "ingredient", "medium", "family", "vessel", "recipe", "jar", "bench",
         "fineness target", "sieve test", "settling test", "bench test", "bench reading",
         "bench practice", "powder habits", "learning habits", "entry", "salt", "laking habits", "wash habits", "bath", "bath entry"]
FOLDER = {"pigment": "pigments", "ingredient": "ingredients", "medium": "media", "family": "families",
          "vessel": "vessels", "recipe": "recipes", "fineness target": "targets", "bench test": "tests",
          "bench practice": "practice", "powder habits": "habits", "learning habits": "learning",
          "salt": "salts", "laking habits": "laking", "wash habits": "washing"}


def schema_file(kind):
    return SHELF / "schema" / f"{kind.replace(' ', '-')}.schema.json"


class CoreLoader(yaml.SafeLoader):
    """SafeLoader without dates and without the YAML 1.1 words for true and false."""


CoreLoader.yaml_implicit_resolvers = {
    first: [(tag, pattern) for tag, pattern in rules
            if tag not in ("tag:yaml.org,2002:timestamp", "tag:yaml.org,2002:bool")]
    for first, rules in yaml.SafeLoader.yaml_implicit_resolvers.items()}


def load(path):
    with open(path, encoding="utf-8") as file:
        return yaml.load(file, Loader=CoreLoader)


def validator(kind):
    path = schema_file(kind)
    schema = json.loads(path.read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    resolver = jsonschema.RefResolver(base_uri=path.as_uri(), referrer=schema)
    return jsonschema.Draft202012Validator(schema, resolver=resolver)


class Report:
    def __init__(self):
        self.failures = 0
        self.checks = 0

    def check(self, good, text):
        self.checks += 1
        if not good:
            self.failures += 1
            print("FAILED:", text)


# ---------------------------------------------------------------- 1. what is shipped is valid
def shipped():
    return sorted(p for p in SHELF.rglob("*.yaml"))


def check_shipped(report, validators):
    files = shipped()
    count = {kind: 0 for kind in KINDS}
    for path in files:
        name = path.relative_to(SHELF)
        first = path.read_text(encoding="utf-8").split("\n", 1)[0]
        data = load(path)
        kind = data.get("kind")
        report.check(next(iter(data)) == "kind", f"{name}: kind is the first key")
        report.check(kind in KINDS, f"{name}: kind {kind!r} is known")
        count[kind] += 1
        # Entries are written by the programs, at a place of the maker's own: no editor follows a hint from there.
        hint = re.fullmatch(r"# yaml-language-server: \$schema=(\S+)", first)
        report.check(kind in ("entry", "bath entry") or hint is not None and (path.parent / hint[1]).resolve() == schema_file(kind),
                     f"{name}: the editor hint names the schema of its kind")
        for error in validators[kind].iter_errors(data):
            report.check(False, f"{name}: {'/'.join(map(str, error.absolute_path))}: {error.message}")
        if kind in FOLDER:
            report.check(path.parent == SHELF / FOLDER[kind], f"{name}: lies in {FOLDER[kind]}/")
        report.check(re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", path.stem) is not None, f"{name}: stem is an id")
    extenders = sum(load(p)["class"] == "extender" for p in (SHELF / "pigments").glob("*.yaml"))
    # The least numbers are those the project promises its users.
    for what, have, least in (("materials", count["pigment"] + count["ingredient"], 30), ("extenders", extenders, 6),
                              ("pigments proper", count["pigment"] - extenders, 12),
                              ("ingredients", count["ingredient"], 10), ("families", count["family"], 3),
                              ("recipes", count["recipe"], 6), ("vessels", count["vessel"], 4)):
        report.check(have >= least, f"{have} {what} are shipped, at least {least} are wanted")
    return files


def figures(data, where=""):
    """Every map with a value and an origin, with its place."""
    if isinstance(data, dict):
        if "value" in data and "origin" in data:
            yield where, data
        for key, value in data.items():
            yield from figures(value, f"{where}/{key}")
    elif isinstance(data, list):
        for at, value in enumerate(data):
            yield from figures(value, f"{where}/{at}")


# Oil in finished paint, g per 100 g of lake: church-1901 (two makers each of madder and brown madder),
# uebele-1913 (carmine, alizarine lake, carmine lake, crimson lake), massey-1967 (alizarin).
PRINTED_GRINDS = {
    "alumina-lake": [103, 55, 81, 93, 100, 100, 66.7, 66.7, 151.5],
    "madder-lake": [103, 55, 100],
    "alizarin-lake": [151.5, 100],
    "carmine": [100],
    "cochineal-lake": [66.7, 66.7],
}


def check_printed_grinds(report):
    """The lakes' oil absorptions are their printed grinds over the usual k of oil paint, 1.35."""
    for lake, grinds in PRINTED_GRINDS.items():
        logs = [math.log(g / 1.35) for g in grinds]
        median, factor = re.fullmatch(r"(\S+) x/ (\S+) g/100g", load(SHELF / "pigments" / f"{lake}.yaml")["oil_absorption"]["value"]).groups()
        centre = math.exp(sum(logs) / len(logs))
        # The figures are rounded to whole grams: 0.8 % of 61.
        report.check(abs(float(median) / centre - 1) < 0.01, f"{lake}: {median} g/100g against {centre:.1f} from {len(logs)} grinds")
        if len(logs) >= 3:
            scatter = (sum((x - sum(logs) / len(logs)) ** 2 for x in logs) / (len(logs) - 1)) ** 0.5
            # All nine: their own scatter. Madder alone: joined with 0.25 for the division by k.
            wanted = scatter if lake == "alumina-lake" else math.hypot(scatter, 0.25)
            report.check(abs(math.log(float(factor)) - wanted) < 0.01, f"{lake}: x/ {factor} against {math.exp(wanted):.3f}")


def check_references(report, files):
    text = REFERENCES.read_text(encoding="utf-8")
    keys = re.findall(r"^- \*\*([^*]+)\*\*: \S", text, re.M)
    report.check(keys == sorted(keys) and len(keys) == len(set(keys)), "docs/references.md is sorted, each key once")
    for kind in ("pigment", "ingredient"):
        said = re.search(rf"Still from memory, {kind}s: ([^.]+)\.", text)
        told = set(re.split(r",\s+", said.group(1))) if said else set()
        held = {path.stem for path in files if path.parent == SHELF / FOLDER[kind]
                and any(figure["origin"] == "memory" for _, figure in figures(load(path)))}
        report.check(told == held, f"docs/references.md tells which {kind}s stand on memory: {sorted(told ^ held)} differ")
    for path in files:
        name = path.relative_to(SHELF)
        data = load(path)
        for where, figure in figures(data):
            if figure["origin"] == "published":
                report.check(figure["source"] in keys, f"{name}{where}: published in {figure['source']!r}, a key of docs/references.md")
        # A word that looks like a key (letters, then a year) must be one.
        for word in re.findall(r"\b[a-z]+(?:-[a-z]+)*-(?:1[89]|20)\d\d\b", path.read_text(encoding="utf-8")):
            report.check(word in keys, f"{name}: {word} is a key of docs/references.md")

    # The same for the code and the docs; words before a year that are no key stand here.
    no_keys = {"pre"}
    for folder in ("include", "lib", "apps", "tests", "docs"):
        for path in sorted((SHELF.parent / folder).rglob("*")):
            if path.suffix not in (".hpp", ".cpp", ".md", ".py"):
                continue
            for word in set(re.findall(r"(?<![\w/.-])([a-z]+(?:-[a-z]+)*)-((?:1[89]|20)\d\d)(?![\w/-])", path.read_text(encoding="utf-8"))):
                report.check(word[0] in no_keys or "-".join(word) in keys,
                             f"{path.relative_to(SHELF.parent)}: {'-'.join(word)} is cited; add its line to docs/references.md")

    def need(name, folder, stem):
        report.check((SHELF / folder / f"{stem}.yaml").exists(), f"{name}: {folder}/{stem}.yaml exists")
    for path in sorted((SHELF / "families").glob("*.yaml")):
        need(f"families/{path.name}", "targets", path.stem)
    for path in sorted((SHELF / "targets").glob("*.yaml")):
        need(f"targets/{path.name}", "families", path.stem)
    for path in files:
        name, data = path.relative_to(SHELF), load(path)
        for part in data.get("parts", []):
            need(name, "ingredients", part["ingredient"])
        for part in data.get("additives", []):
            need(name, "ingredients", part["ingredient"])
        for part in data.get("pigments", []):
            if part["pigment"] != "jar":
                need(name, "pigments", part["pigment"])
        if data["kind"] == "jar":
            need(name, "pigments", data["pigment"])
        if data["kind"] == "recipe":
            need(name, "media", data["medium"])
            need(name, "families", data["family"])
            if "vessel" in data:
                need(name, "vessels", data["vessel"])
        if data["kind"] == "recipe" and len(data["pigments"]) > 1:
            total = sum(number(part["share"]) for part in data["pigments"])
            report.check(abs(total - 100) < 1e-9, f"{name}: the shares sum to {total} %, not 100")
        if data["kind"] == "medium" and data["basis"] == "volume":
            for part in data["parts"]:
                ingredient = load(SHELF / "ingredients" / f"{part['ingredient']}.yaml")
                report.check(ingredient["role"] != "gum" or "bulk_density" in ingredient,
                             f"{name}: {part['ingredient']} is a powder in parts by volume and has a bulk density")
        if data["kind"] == "family":
            w = [float(data["window"][k]) for k in ("amber_low", "green_low", "green_high", "amber_high")]
            report.check(w == sorted(w) and w[0] <= float(data["start"]) <= w[3], f"{name}: the window is in order and holds the start")


# ---------------------------------------------------------------- check vectors
def number(text):
    return float(re.match(r"[0-9.eE-]+", str(text))[0])


def ingredient(stem):
    data = load(SHELF / "ingredients" / f"{stem}.yaml")
    solids = data.get("solids_density")
    return (number(data["density"]["value"]), number(data["non_volatile"]["value"]) / 100,
            number(solids["value"]) if solids else 1.0)


def check_vectors(report):
    def near(what, got, expected, relative):
        report.check(abs(got - expected) <= relative * abs(expected), f"{what}: {got:.6g}, expected {expected} within {relative}")
    # Yolk from the USDA composition (usda-egg-yolk: water 52.31, protein 15.86, fat 26.54, carbohydrate
    # 3.59, ash 1.70 g/100 g), component densities from memory: density 1.0427 g/cm3, solids 47.69 %,
    # 0.45455 mL dry per mL. The tolerance is that of figures shipped to four and five digits.
    parts = {"protein": (.1586, 1.35), "fat": (.2654, .92), "carbohydrate": (.0359, 1.55), "ash": (.0170, 2.5)}
    dry = sum(w / rho for w, rho in parts.values())
    density, solids, solids_density = ingredient("egg-yolk")
    near("yolk density from composition", density, 1 / (.5231 + dry), 1e-4)
    near("yolk solids", solids, sum(w for w, _ in parts.values()), 1e-4)
    near("yolk solids density", solids_density, solids / dry, 1e-4)
    near("dry volume of yolk, mL/mL", solids * density / solids_density, .45455, 1e-4)
    # Base medium 100/200/25/15 by mass, gum 12 % water, honey 82 % solids: computed by hand.
    medium = load(SHELF / "media" / "gum-glycerol-honey.yaml")
    parts = {part["ingredient"]: float(part["parts"]) for part in medium["parts"]}
    mass = sum(parts.values())
    dry_mass = {k: m * ingredient(k)[1] for k, m in parts.items()}
    volume = {k: m / ingredient(k)[2] for k, m in dry_mass.items()}
    near("solids of the base medium", sum(dry_mass.values()) / mass, .36853, 1e-4)
    near("dry binder volume of the base medium, mL/g", sum(volume.values()) / mass, .26392, 1e-4)
    # Were dry gum denser (docs/theory.md, Dry gum): computed by hand to three digits.
    for dry_gum, left in ((1.507, .253), (1.60, .243)):
        denser = sum(volume.values()) - volume["gum-arabic"] + dry_mass["gum-arabic"] / dry_gum
        near(f"base medium with dry gum at {dry_gum}, mL/g", denser / mass, left, 3e-3)
    near("gum share of it", volume["gum-arabic"] / sum(volume.values()), .69063, 1e-4)
    # 1 gum to 2 water by mass 29.3 %, by volume with loose powder at 0.60 g/mL 20.3 % (computed by hand,
    # to three digits and with water at 1.00).
    gum, solids_gum = load(SHELF / "ingredients" / "gum-arabic.yaml"), ingredient("gum-arabic")[1]
    near("gum water by mass", solids_gum / 3, .293, 3e-3)
    bulk = number(gum["bulk_density"]["value"])
    near("gum water by volume", bulk * solids_gum / (bulk + 2 * ingredient("water")[0]), .203, 3e-3)
    # The lake of the worked example: hydrous alumina, dye, water and salts (computed by hand: 1.879).
    mix = sum(w / rho for w, rho in ((.69348, 2.42), (.12652, 1.5), (.15, 1.0), (.03, 2.66)))
    lake = load(SHELF / "pigments" / "alumina-lake.yaml")
    near("density of the default lake", number(lake["density"]["value"]), 1 / mix, 1e-3)


def pigment(stem):
    data = load(SHELF / "pigments" / f"{stem}.yaml")
    density = number(data["density"]["value"])
    if data.get("density_state") == "bone dry":  # to as weighed: volumes of powder and water add
        water = number(data["moisture"]["value"]) / 100
        density = 1 / ((1 - water) / density + water / 0.9982)
    return density, number(data["oil_absorption"]["value"]) / 100


def check_recipes(report):
    """Each recipe aims inside the green window of its family, with library figures throughout."""
    for path in sorted((SHELF / "recipes").glob("*.yaml")):
        recipe = load(path)
        family = load(SHELF / "families" / f"{recipe['family']}.yaml")
        medium = load(SHELF / "media" / f"{recipe['medium']}.yaml")
        index = number(family["binder_index"]["value"])
        mass = dry = 0.0
        for part in medium["parts"]:
            density, solids, solids_density = ingredient(part["ingredient"])
            amount = float(part["parts"])
            if medium["basis"] == "volume":
                bulk = load(SHELF / "ingredients" / f"{part['ingredient']}.yaml").get("bulk_density")
                amount *= number(bulk["value"]) if bulk else density
            mass += amount
            dry += amount * solids / solids_density
        demand = volume = 0.0  # mL of binder that just fills, and mL of solid, per g of pigment
        for part in recipe["pigments"]:
            share = number(part.get("share", "100")) / 100
            density, oil = pigment("alumina-lake" if part["pigment"] == "jar" else part["pigment"])
            demand += share * oil / 0.93
            volume += share / density
        voids = demand / volume / index  # at the critical PVC of this binder
        (kind, aim), = recipe.get("aim", {"k": family["start"]}).items()
        aim = number(aim)
        k = {"k": lambda: aim, "medium_per_pigment": lambda: aim * dry / mass * index / demand,
             "pvc": lambda: (100 / aim - 1) / voids,
             "reduced_pvc": lambda: ((1 + voids) / aim - 1) / voids}[kind]()
        window = family["window"]
        report.check(float(window["green_low"]) <= k <= float(window["green_high"]),
                     f"recipes/{path.name}: aims at k {k:.3f}, outside the green window of {recipe['family']}")


# ---------------------------------------------------------------- 2. what is spoiled is refused
WRONG_WORD = "zzz-no-such-word"


def maps(data, path=()):
    """Every map in the data, as a path to it."""
    if isinstance(data, dict):
        yield path
        for key, value in data.items():
            yield from maps(value, path + (key,))
    elif isinstance(data, list):
        for at, value in enumerate(data):
            yield from maps(value, path + (at,))


def at(data, path):
    for key in path:
        data = data[key]
    return data


def spoiled(kind, data, required_of):
    """Yields (what was done, the data with it done). Each must be refused."""
    def altered(path, change):
        copied = copy.deepcopy(data)
        change(at(copied, path))
        return copied
    for path in maps(data):
        here = at(data, path)
        shown = "/".join(map(str, path)) or "top"
        yield f"{shown}: unknown key", altered(path, lambda m: m.update({"colour_of_the_day": "blue"}))
        for key in here:
            if key in required_of(kind, path, data):
                yield f"{shown}: {key} taken out", altered(path, lambda m: m.pop(key))
            value = here[key]
            if isinstance(value, (str, int, float)):
                yield f"{shown}: {key} is a map", altered(path, lambda m: m.update({key: {"deep": "inside"}}))
                yield f"{shown}: {key} is a list", altered(path, lambda m: m.update({key: ["one", "two"]}))
            if isinstance(value, (dict, list)):
                yield f"{shown}: {key} is a word", altered(path, lambda m: m.update({key: WRONG_WORD}))
            if key in ("class", "role", "basis", "process", "filled_by", "origin", "of", "density_state", "kind", "sorbs_as",
                       "improves", "test", "what", "sign", "blend") and (kind, key) != ("entry", "of"):
                yield f"{shown}: {key} outside its list", altered(path, lambda m: m.update({key: WRONG_WORD}))
            if key == "hazards":
                yield f"{shown}: a hazard outside the list", altered(path, lambda m: m.update({key: value + [WRONG_WORD]}))
            if is_quantity(path, key, value):
                for wrong in wrong_quantities(value):
                    yield f"{shown}: {key} = {wrong!r}", altered(path, lambda m: m.update({key: wrong}))
            if key in ("parts", "pigments", "scales", "retained", "blanket") and isinstance(value, list):
                yield f"{shown}: {key} is empty", altered(path, lambda m: m.update({key: []}))
    if kind == "recipe" and "aim" in data:
        yield "two aims", altered((), lambda m: m.update({"aim": {"k": 1.2, "pvc": "30 %"}}))
        yield "no aim in aim", altered((), lambda m: m.update({"aim": {}}))
        for key, beyond in (("k", 0.009), ("k", 100.1), ("k", "1000000000"), ("reduced_pvc", "0.0099"), ("reduced_pvc", 0),
                            ("pvc", "0.09 %"), ("pvc", "99.1 %"), ("medium_per_pigment", "101 g/g"),
                            ("medium_per_pigment", "0.009 g/g")):
            yield f"aim: {key} of {beyond}", altered((), lambda m: m.update({"aim": {key: beyond}}))
    if kind == "recipe" and len(data["pigments"]) > 1:
        yield "a share left out of two", altered(("pigments", 0), lambda m: m.pop("share"))
    for path in maps(data):
        if at(data, path).get("origin") == "published":
            yield f"{'/'.join(map(str, path))}: published without source", altered(path, lambda m: m.pop("source", None))


WORDS_KEYS = {"name", "note", "source", "origin", "date", "for", "kind", "class", "role", "basis", "process", "filled_by",
              "of", "density_state", "family", "medium", "vessel", "pigment", "ingredient", "shelf_life", "screen", "residue_screen", "method",
              "improves", "test", "sorbs_as", "plant", "since", "usual_family", "usual_powder", "lake", "chalk_lake", "gum_medium", "oil_medium", "yolk_medium",
              "jar", "what", "sign", "lot", "recipe", "entry", "blend", "formula", "water", "wash-water", "alum", "alkali", "bath", "hour", "reading"}


def is_quantity(path, key, value):
    return key not in WORDS_KEYS and isinstance(value, (str, int, float))


def wrong_quantities(value):
    """Texts that cannot be that quantity, whatever its dimension."""
    text = str(value)
    match = re.fullmatch(r"([0-9.]+)( *(?:\+-|x/) *[0-9.]+)?( *)(.*)", text)
    if match is None:  # several in one text, as a reading of a bath
        yield "plenty"
        return
    amount, spread, unit = match[1], match[2] or "", match[4]
    end = f" {unit}" if unit else ""
    yield "plenty"
    yield f"{amount}{spread} lightyears"
    yield f"-{amount}{spread}{end} again" if unit == "degC" else f"-{text}"  # below zero is a temperature
    yield (amount.replace(".", ",") if "." in amount else amount + ",5") + spread + end
    yield f"0{text}" if not text.startswith("0") else f"00{text}"
    yield f"nan{end}"
    yield f"inf{end}"
    yield f"{text} {text}"
    yield f"{amount} +- {end}"
    yield f"{amount} +- -0.1{end}"
    yield f"{amount} x/ 0.8{end}"
    yield f"{amount} x/ 1.0{end}"
    if unit:
        yield amount  # the unit left out
        for other in ("g", "mL", "g/cm3", "g/100g", "% w/w", "%", "degC", "mL/g"):
            if other != unit and (unit, other) not in (("% v/v", "%"), ("g/L", "g/cm3"), ("K", "degC"), ("L", "mL")):  # a bare % is by volume where volumes are meant
                yield f"{amount}{spread} {other}"
    else:
        yield f"{amount}{spread} g"


def required_keys():
    """required_of(kind, path, data): the keys that the schema demands of the map at that path."""
    folder = SHELF / "schema"
    common = json.loads((folder / "common.schema.json").read_text(encoding="utf-8"))["$defs"]

    def whole(node):
        """The schema with every reference written out."""
        if isinstance(node, list):
            return [whole(item) for item in node]
        if not isinstance(node, dict):
            return node
        if "$ref" in node:
            return whole(common[node["$ref"].rsplit("/", 1)[1]])
        return {key: whole(value) for key, value in node.items()}
    schemas = {kind: whole(json.loads(schema_file(kind).read_text(encoding="utf-8"))) for kind in KINDS}

    def required_of(kind, path, data):
        node = schemas[kind]
        if kind in ("entry", "bath entry"):  # the form that the file has
            node = next(form for form in node["oneOf"] if form["properties"]["what"]["const"] == data["what"])
        for step in (*path, None):
            if "anyOf" in node:  # bare text or a figure: here it is the figure
                node = next(form for form in node["anyOf"] if form["type"] == "object")
            if step is not None:
                node = node["items"] if isinstance(step, int) else node["properties"][step]
        keys = node["required"] if "required" in node else []
        if not path and kind in ("jar", "bench"):
            keys = keys + node["then"]["required"]
        if kind == "salt" and path == ("gives",):  # each ion stands in the formula, which wants it
            keys = keys + list(data["gives"])
        if not path and kind == "bench test":  # what it costs, in one way or the other
            keys = keys + ["step" if "step" in data else "duration"]
        if not path and kind == "bench reading":  # each test wants all that stands in its readings
            keys = keys + [key for form in node["allOf"] for key in form["then"]["required"]]
        return keys
    return required_of


def check_spoiled(report, validators, files):
    required_of = required_keys()
    cases = []
    for path in files:
        data = load(path)
        kind = data["kind"]
        if data.get("density_state") == "bone dry" and kind == "pigment":
            damp = copy.deepcopy(data)
            del damp["moisture"]
            cases.append((path, kind, "moisture of a bone-dry density taken out", damp))
        if kind == "jar" and "density" in data:
            alone = copy.deepcopy(data) | {"density_state": "bone dry"}
            del alone["density"]
            cases.append((path, kind, "density_state without density", alone))
        if kind == "ingredient" and "solids_density" in data and not str(data["non_volatile"]["value"]).startswith("0"):
            bare = copy.deepcopy(data)
            del bare["solids_density"]
            cases.append((path, kind, "solids_density taken out", bare))
        for what, bad in spoiled(kind, data, required_of):
            cases.append((path, kind, what, bad))
    for path, kind, what, bad in cases:
        refused = bad.get("kind") != kind or not validators[kind].is_valid(bad)
        report.check(refused, f"{path.relative_to(SHELF)}: the schema accepts: {what}")
    return cases


# ---------------------------------------------------------------- 3. what is varied is accepted
def unit_lists():
    """The units by dimension, from the examples in common.schema.json."""
    common = json.loads((SHELF / "schema" / "common.schema.json").read_text(encoding="utf-8"))["$defs"]
    return {name: {example.removeprefix("1 ") for example in node["examples"]}
            for name, node in common.items() if "examples" in node}


# Amounts that must agree with others of the file: another amount alone would rightly be refused.
LINKED = {("sieve test", key) for key in ("charge", "mass", "gross", "tare", "pan")}
LINKED |= {("entry", key) for key in ("pigment", "oil", "medium_mass")}
LINKED |= {("settling test", key) for key in ("size", "depth", "time", "height")}
LINKED |= {("fineness target", "value"), ("salt", "at")}


def varied(kind, data, required_of, units):
    """Yields (what was done, the data with it done). Each must be accepted."""
    def altered(path, change):
        copied = copy.deepcopy(data)
        change(at(copied, path))
        return copied
    for path in maps(data):
        here = at(data, path)
        shown = "/".join(map(str, path)) or "top"
        for key, value in here.items():
            needed = (key in required_of(kind, path, data) or key in ("solids_density", "sorbs_as") or path == ("aim",)
                      or (key == "share" and kind == "recipe" and len(data["pigments"]) > 1)
                      or (key == "source" and here.get("origin") in ("published", "memory", "computed"))
                      or (key == "moisture" and here.get("density_state") == "bone dry")
                      or (key == "density" and "density_state" in here)
                      or key in ("mass", "gross", "tare", "pan", "method", "grains", "blanket")
                      or (kind == "family" and key in ("plasticiser", "soft_share", "most_excess_water",
                                                       "cured_oil_loses", "medium_keeps"))
                      or (key == "charge" and here.get("method") == "wet"))
            if not needed:
                yield f"{shown}: {key} taken out", altered(path, lambda m: m.pop(key))
            if not is_quantity(path, key, value):
                continue
            match = re.fullmatch(r"([0-9.]+)( *(?:\+-|x/) *[0-9.]+)?( *)(.*)", str(value))
            if match is None:
                continue
            amount, spread, unit = match[1], match[2] or "", match[4]
            end = f" {unit}" if unit else ""
            spellings = [f"+{value}", f"{amount}{spread}{unit}"] + ([f"{amount}e0{end}"] if not spread else [])
            if "+-" in spread:
                spellings += [str(value).replace("+-", "±"), str(value).replace(" +- ", "+-"), str(value).replace("+-", "+/-")]
            if "x/" in spread:
                spellings += [str(value).replace("x/", sign) for sign in ("×/", "x/÷", "×/÷")]
            for spelling in spellings:
                yield f"{shown}: {key} = {spelling!r}", altered(path, lambda m: m.update({key: spelling}))
            for dimension, names in units.items():
                if unit in names and not (unit == "g/g" or unit == "%" or (kind, key) in LINKED or "warmth_read_to" in path):
                    for name in names:
                        yield (f"{shown}: {key} in {name}",
                               altered(path, lambda m: m.update({key: f"{scaled(dimension, amount, unit, name)} {name}"})))


# Sizes of the units, from NIST SP 811: one of the unit in g, mL, um, g/cm3.
SIZES = {"g": 1, "mg": 1e-3, "kg": 1e3, "ug": 1e-6, "µg": 1e-6, "oz": 28.349523125, "lb": 453.59237,
         "mL": 1, "ml": 1, "L": 1e3, "l": 1e3, "uL": 1e-3, "µL": 1e-3, "cL": 10, "cm3": 1, "m3": 1e6,
         "US cup": 236.5882365, "metric cup": 250, "imperial cup": 284.130625, "US pint": 473.176473,
         "imperial pint": 568.26125, "US fl oz": 29.5735295625, "imperial fl oz": 28.4130625,
         "US tablespoon": 14.78676478125, "metric tablespoon": 15, "Australian tablespoon": 20,
         "metric teaspoon": 5, "US teaspoon": 4.92892159375,
         "um": 1, "µm": 1, "mm": 1e3, "cm": 1e4, "m": 1e6, "nm": 1e-3, "in": 25400, "mil": 25.4,
         "g/cm3": 1, "g/mL": 1, "g/ml": 1, "kg/m3": 1e-3, "kg/L": 1, "g/L": 1e-3,
         "% w/w": 0.01, "% v/v": 0.01, "%": 0.01, "mL/mL": 1, "g/g": 1, "g/kg": 1e-3}


def scaled(dimension, amount, unit, name):
    """The same amount in another unit of its dimension."""
    if dimension == "temperature":
        return {"K": "293", "degF": "68", "°F": "68"}.get(name, "20")
    singular = name.removesuffix("s") if name not in SIZES else name
    if unit not in SIZES or singular not in SIZES:
        return amount  # spellings of one unit
    return f"{float(amount) * SIZES[unit] / SIZES[singular]:.6g}"


def check_varied(report, validators, files):
    required_of, units = required_keys(), unit_lists()
    common = json.loads((SHELF / "schema" / "common.schema.json").read_text(encoding="utf-8"))["$defs"]
    for dimension, names in units.items():
        for name in names:
            for text in (f"1 {name}", f"1{name}", f"1\u00a0{name.replace('3', '³').replace('µ', 'μ').replace('/', ' / ')}"):
                report.check(re.search(common[dimension]["pattern"], text) is not None, f"{text!r} is a {dimension}")
    cases = []
    for path in files:
        data = load(path)
        for what, good in varied(data["kind"], data, required_of, units):
            cases.append((path, data["kind"], what, good))
            for error in validators[data["kind"]].iter_errors(good):
                report.check(False, f"{path.relative_to(SHELF)}: {what}: the schema refuses: {error.message}")
    report.check(len(cases) > 1000, "variations were made")
    return cases


# ---------------------------------------------------------------- 4. the loader says the same
def check_loader(report, program, files, spoiled_cases, varied_cases):
    def run(*arguments):
        done = subprocess.run([program, *map(str, arguments)], stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)
        return done.returncode, done.stdout

    def outcomes(paths):
        """Of each file: (read, what was said)."""
        code, said = run(SHELF, *paths)
        pieces = re.split(r"^(read|refused): (.*)\n", said, flags=re.M)
        found = {pathlib.Path(name): (word == "read", text) for word, name, text in zip(pieces[1::3], pieces[2::3], pieces[3::3])}
        report.check(set(found) == set(paths), f"the loader speaks of every file (status {code}): {pieces[0]}")
        expected = 0 if all(read for read, _ in found.values()) else 2
        report.check(code == expected, f"the loader ends with {code}, not {expected}")
        return found
    code, said = run("--units")
    report.check(code == 0, f"{program} --units ends with {code}")
    known = {}
    for line in said.splitlines():
        dimension, unit = line.split("\t")
        known.setdefault(dimension.replace(" ", "_"), set()).add(unit)
    for dimension, units in unit_lists().items():
        # A teaspoon or a drop has a size only by the bench file, which no file on the shelf may lean on.
        wanted = known.get(dimension, set()) - {"tsp", "teaspoon", "teaspoons", "drop", "drops"}
        report.check(units == wanted, f"units of {dimension}: schema {sorted(units)}, loader {sorted(wanted)}")

    for path, (read, text) in outcomes(files).items():
        report.check(read, f"{path.relative_to(SHELF)}: the loader refuses a shipped file\n{text}")
    # Cases are few in kind and many in number: one of each sort for each file kind.
    count = 0
    with tempfile.TemporaryDirectory() as folder:
        for cases, expected, word in ((spoiled_cases, False, "refuses"), (varied_cases, True, "accepts")):
            chosen = {}
            for path, kind, what, data in cases:
                chosen.setdefault((kind, re.sub(r"[0-9.]+", "#", what)), (path, what, data))
            written = {}
            for path, what, data in chosen.values():
                file = pathlib.Path(folder) / f"{word}-{len(written)}" / path.name
                file.parent.mkdir()
                text = yaml.dump(data, Dumper=DUMPER, sort_keys=False, allow_unicode=True, width=4096)
                file.write_text(text, encoding="utf-8")
                written[file] = f"{path.relative_to(SHELF)}: {what}: the schema {word} it, the loader does not"
            for file, (read, text) in outcomes(list(written)).items():
                report.check(read == expected, f"{written[file]}\n{text}")
            count += len(written)
    return count


def main():
    arguments = argparse.ArgumentParser(description=__doc__.split("\n", 1)[0])
    arguments.add_argument("--shelf-check", metavar="PROGRAM", help="the loader to compare with")
    options = arguments.parse_args()
    report = Report()
    validators = {kind: validator(kind) for kind in KINDS}
    files = check_shipped(report, validators)
    check_references(report, files)
    check_printed_grinds(report)
    check_vectors(report)
    if not report.failures:  # else what a recipe names may not be there
        check_recipes(report)
    spoiled_cases = check_spoiled(report, validators, files)
    varied_cases = check_varied(report, validators, files)
    print(f"{len(files)} files shipped, {len(spoiled_cases)} spoiled, {len(varied_cases)} varied")
    if options.shelf_check:
        print(f"{check_loader(report, options.shelf_check, files, spoiled_cases, varied_cases)} sorts read by the loader")
    print(f"{report.checks} checks, {report.failures} failed")
    return 1 if report.failures else 0


if __name__ == "__main__":
    sys.exit(main())
