#!/usr/bin/python3
"""Holds the JSON of every command against its schema, with an independent validator (jsonschema, from Debian).

usage: answers_check.py BIN FORMULATIONS REPORT-SOURCES

The schemas are formulations/schema/answers/<kind>.schema.json: closed, so a key that no schema knows is found.
Every key that a source of the report room writes must be in one of them, and every key of docs/json.md too.
"""
import json
import pathlib
import re
import subprocess
import sys
import tempfile

import jsonschema


# Files that bring the rarer keys; invented.
FILES = {
    "one-5.csv": "screen,mass\ngrinding time,5 min\ncharge,10.0 g\n75 um,4.6 g\npan,5.4 g\nscale step,0.1 g\n",
    "one-15.csv": "screen,mass\ngrinding time,15 min\ncharge,10.0 g\n75 um,2.35 g\npan,7.65 g\nscale step,0.05 g\n",
    "whole.csv": "screen,mass\n250 um,0.5 g\n150 um,1.5 g\n106 um,2.5 g\n75 um,2.5 g\n45 um,2.0 g\n30 um,0.6 g\npan,0.3 g\n"
                 "scale step,0.1 g\n",
    "mesh.csv": "screen,mass\n100 mesh,1.0 g\n200 mesh nylon,0.1 g\npan,8.9 g\nscale step,0.1 g\n",
    "damp.yaml": "kind: jar\nname: Damp\npigment: alumina-lake\nnet_mass: 24 g\nmoisture: 20 % w/w\n",
    "mistyped.yaml": "kind: jar\nname: Weld\npigment: alumina-lake\nnet_mass: 24\nmoisture: 200 % w/w\n",
    "coarse.yaml": "kind: bench\nname: Coarse\nscales:\n  - {name: kitchen scale, step: 0.1 g}\n",
}


def commands(shelf, own):
    """The commands: what the shipped shelf can be asked, and the cases that bring the rarer keys."""
    for family in ("oil", "watercolour-pan"):
        yield ["lakebound-grind", own + "one-5.csv", own + "one-15.csv", "--target", "75 um", "--residue", "1 %"]
        yield ["lakebound-sieve", own + "whole.csv", "--family", family]
        yield ["lakebound-sieve", own + "mesh.csv", "--family", family]
        yield ["lakebound-sieve", own + "mesh.csv", "--target", "75 um", "--residue", "0.5 %"]
    yield ["lakebound-batch", "lake-oil-tube", "--jar", own + "mistyped.yaml", "--pigment", "6 g"]
    yield ["lakebound-batch", "no-such-recipe"]
    for recipe in ("lake-watercolour-half-pans", "lake-oil-with-wax", "lake-egg-tempera", "lake-gouache"):
        for pigment in ("1 g", "3 g", "20 g"):
            yield ["lakebound-batch", recipe, "--jar", own + "damp.yaml", "--pigment", pigment]
            yield ["lakebound-batch", recipe, "--jar", own + "damp.yaml", "--bench", own + "coarse.yaml", "--pigment",
                   pigment]
    studio = "studios/reedmere/"
    weld = ["--jar", studio + "jars/weld.yaml", "--bench", studio + "bench.yaml"]
    for recipe in sorted(p.stem for p in (shelf / "recipes").glob("*.yaml")):
        jar = weld if recipe.startswith("lake") else weld[2:]
        for pigment in ("0.7 g", "6 g"):
            yield ["lakebound-batch", recipe, *jar, "--pigment", pigment, "--explain"]
        yield ["lakebound-batch", recipe, *(weld[:2] if jar is weld else []), "--pigment", "6 g"]
        yield ["lakebound-pvc", recipe, *jar, "--total", "6 g", "--rescue"]
        yield ["lakebound-pvc", recipe, *jar, "--total", "6 g", "--rescue", "--aim", "0.4"]
        yield ["lakebound-pvc", recipe, *jar, "--total", "6 g", "--rescue", "--aim", "4", "--accept", "20 %"]
    pans = "lake-watercolour-half-pans"
    yield ["lakebound-batch", pans, *weld]
    yield ["lakebound-batch", pans, *weld, "--fill", "30 half-pan"]
    yield ["lakebound-batch", pans, *weld, "--fill", "2 half-pan", "--stock", "gum-arabic: 40 g"]
    yield ["lakebound-batch", pans, *weld, "--pigment", "900 g"]
    yield ["lakebound-batch", "--list"]
    for thing in ("oil", "gum-water", "alumina-lake", "lake-oil-tube", "half-pan"):
        yield ["lakebound-batch", "--show", thing]
    year_two = "studios/reedmere-second-year/"
    for jar in ("weld-spring", "weld-autumn", "madder"):
        card = ["lakebound-jar", f"{year_two}jars/{jar}.yaml", "--bench", year_two + "bench.yaml"]
        yield card
        yield [*card, "--date", "2026-10-01", "--sure", "99 %", "--lack", "days"]
        yield [*card, "--as", "oil", "--lack", "powder"]
        yield [*card, "--saw", "chalky"]
        yield ["lakebound-batch", pans, "--jar", card[1], *card[2:], "--pigment", "4 g"]
    # A jar of one's own, begun and written to, in a folder of its own: "@" stands before commands run there.
    yield ["@", "lakebound-jar", "weld", "--new", "alumina-lake, 24.0 g"]
    yield ["@", "lakebound-jar", "weld", "--rub-out", "2.00 g, 1.56 g"]
    yield ["@", "lakebound-jar", "weld", "--by-strokes", "6 g"]
    yield ["@", "lakebound-jar", "weld", "--as-planned"]
    yield ["@", "lakebound-batch", pans, "--jar", "weld", "--pigment", "4 g", "--keep"]
    for poured in "5 g", "1: 9 g", "1: 60 g":
        yield ["@", "lakebound-jar", "weld", "--poured", poured]
    yield ["@", "lakebound-batch", pans, "--jar", "weld", "--pigment", "4 g", "--keep"]
    yield ["@", "lakebound-jar", "weld", "--went", "cracks"]
    yield ["@", "lakebound-jar", "weld", "--rub-out", "2.00 g, 5.9 g"]
    yield ["@", "lakebound-jar", "--studio"]
    for family in ("--humidity", "90 %"), ("--humidity", "30 %"):
        yield ["lakebound-pvc", "--pigment", "alumina-lake: 10 g", "--binder", "gum-glycerol-honey: 36 g", *family,
               "--rescue"]
    yield ["lakebound-pvc", "--pigment", "10 g", "--binder", "linseed: 9 g"]
    yield ["lakebound-pvc", "--pigment", "10 g", "--binder", "linseed: 9 g", "--density", "1.9 g/cm3"]
    yield ["lakebound-pvc", "--pigment", "10 g", "--binder", "glycerol: 9 g", "--oil-absorption", "70 g/100g",
           "--family", "watercolour-pan"]
    yield ["lakebound-pvc", "--pigment", "alumina-lake: 7 g", "--pigment", "chalk: 3 g", "--binder", "linseed: 9 g",
           "--packing", "--median-size", "alumina-lake: 5 um", "--median-size", "chalk: 50 um"]
    yield ["lakebound-pvc", "--pigment", "alumina-lake: 7 g", "--pigment", "chalk: 3 g", "--binder", "linseed: 9 g",
           "--blend-oil-absorption", "45 g/100g"]
    for over in ("medium", "extender", "size-ratio"):
        yield ["lakebound-pvc", "--pigment", "alumina-lake: 7 g", "--pigment", "chalk: 3 g", "--binder",
               "linseed: 9 g", "--sweep", over, "--points", "3"]
    yield ["lakebound-pvc", "--layer", "ultramarine-oil", "--layer", "ultramarine-oil"]
    yield ["lakebound-pvc", *weld[:2], "--layer", "lake-oil-tube", "--layer", "ultramarine-oil"]
    # And one out of a bath, whose salts and pH its paints are told.
    yield ["@", "lakebound-bath", "--alum", "potash-alum, 50 g", "--alkali", "soda-ash", "--poured", "143 mL", "--ph", "6.6, pen",
           "--ph", "6.6, pen", "--wash-water", "300 uS/cm", "--decant", "3000 uS/cm", "--hue", "warm rose", "--swatch", "12",
           "--water-ph", "7.4, strip", "--weighed", "10.4 g", "--jar", "bathed"]
    yield ["@", "lakebound-batch", pans, "--jar", "bathed", "--pigment", "4 g"]
    yield ["@", "lakebound-pvc", "--pigment", "jar: 4 g", "--jar", "bathed", "--binder", "gum-water: 8 g"]
    yield ["@", "lakebound-jar", "bathed"]
    for reading in sorted((shelf / studio / "readings").glob("*.yaml")):
        yield ["lakebound-pvc", "--reading", str(reading)]
    tests = [str(p) for p in sorted((shelf / studio / "sieve-tests").glob("*"))]
    for test in tests:
        for more in ([], ["--family", "watercolour-pan"], ["--family", "oil"], ["--target", "75 um", "--residue", "5 %"]):
            yield ["lakebound-sieve", test, *more]
        yield ["lakebound-sieve", test, "--family", "oil", "--density", "1.9 g/cm3"]
    five, fifteen, thirty = (studio + f"sieve-tests/weld-{n}-min.yaml" for n in (5, 15, 30))
    yield ["lakebound-grind", five, fifteen, "--family", "oil"]
    yield ["lakebound-grind", five, fifteen, thirty, "--target", "75 um", "--residue", "1 %"]
    yield ["lakebound-grind", five, fifteen, "--family", "oil", "--stays", "4 g after 2 rounds of 21 min"]
    yield ["lakebound-grind", five, fifteen, "--target", "75 um", "--residue", "90 %"]
    yield ["lakebound-grind", "--mull", "60 um, 38 um, 27 um every 10 min", "--target", "25 um"]
    yield ["lakebound-grind", "--mull", "60 um, 38 um, 27 um every 10 min", "--target", "10 um"]
    yield ["lakebound-settle", "--depth", "100 mm", "--cut", "45 um", "--sieve", fifteen]
    yield ["lakebound-settle", "--depth", "100 mm", "--cut", "2 um"]
    yield ["lakebound-settle", "--depth", "100 mm", "--cut", "400 um"]
    yield ["lakebound-settle", "--zone", "100 mm, 62 mm, 48 mm every 2 h"]
    alum = ["lakebound-bath", "--alum", "potash-alum, 50 g"]
    yield [*alum, "--alkali", "soda-ash", "--plant", "300 g fresh leaf", "--pot", "4 L"]
    yield [*alum, "--alkali", "chalk"]
    yield ["lakebound-bath", "--alum", "aluminium-sulphate-18", "--alkali", "soda-crystals", "--lake", "20 g"]
    yield ["lakebound-bath", studio + "baths/madder.yaml"]
    yield ["lakebound-bath", "studios/reedmere-second-year/baths/madder-second.yaml"]
    yield [*alum, "--alkali", "soda-ash", "--colour", "1 in 8", "--blanket", "100 mm, 62 mm, 48 mm every 2 h"]
    yield [*alum, "--alkali", "ammonia-10"]
    yield [*alum, "--alkali", "chalk", "--decant", "2400 uS/cm"]
    for readings in (["--poured", "200 mL", "--ph", "8.6, pen", "--ph", "8.7, pen"],
                     ["--poured", "115 mL", "--ph", "5.2, strip, fizzing"], ["--filter", "0.5 L, 4 min", "--filter", "1.0 L, 12 min", "--to-filter", "1.5 L"],
                     ["--poured", "120 mL", "--ph", "5.0, pen", "--ph", "5.0, pen"], ["--drying", "38.6 g, 24.9 g, 17.9 g every 24 h"]):
        yield [*alum, "--alkali", "soda-ash", *readings]
    for test in sorted((shelf / studio / "settling-tests").glob("*.yaml")):
        yield ["lakebound-settle", "--test", str(test), "--depth", "100 mm", "--cut", "45 um"]
        yield ["lakebound-settle", "--test", str(test)]


def answers(programs, shelf):
    """Yields (command, document) of every command that answers."""
    with tempfile.TemporaryDirectory() as folder:
        for name, text in FILES.items():
            (pathlib.Path(folder) / name).write_text(text, encoding="utf-8")
        yield from answered(programs, shelf, commands(shelf, folder + "/"), folder)


def answered(programs, shelf, asked, own=None):
    for command in asked:
        place = shelf
        if command[0] == "@":
            place, command = own, command[1:]
        run = subprocess.run([str(programs / command[0]), *command[1:], "--shelf", str(shelf), "--json"], cwd=place,
                             capture_output=True, text=True)
        if run.returncode in (0, 1):
            yield command, json.loads(run.stdout)
        elif run.returncode == 2:
            yield command, json.loads(run.stderr)
        else:
            raise SystemExit(f"{command}: exit {run.returncode}: {run.stderr}")


def validators(folder):
    store = {}
    for path in folder.glob("*.json"):
        schema = json.loads(path.read_text(encoding="utf-8"))
        jsonschema.Draft202012Validator.check_schema(schema)
        store[schema["$id"]] = schema
        store[path.name] = schema
    made = {}
    for path in folder.glob("*.schema.json"):
        schema = store[path.name]
        resolver = jsonschema.RefResolver(base_uri=schema["$id"], referrer=schema, store=store)
        made[path.name.removesuffix(".schema.json")] = jsonschema.Draft202012Validator(schema, resolver=resolver)
    return made, store


def keys_of(schema):
    """Every key that a schema allows, at any depth."""
    found = set()
    if isinstance(schema, dict):
        found |= set(schema.get("properties", {}))
        for value in schema.values():
            found |= keys_of(value)
    elif isinstance(schema, list):
        for value in schema:
            found |= keys_of(value)
    return found


def main():
    programs, shelf, sources = (pathlib.Path(p).resolve() for p in sys.argv[1:4])
    made, store = validators(shelf / "schema" / "answers")
    failures, count, kinds = [], 0, set()
    for command, document in answers(programs, shelf):
        kind = document["kind"]
        kinds.add(kind)
        count += 1
        if kind not in made:
            failures.append(f"no schema for answers of kind {kind}")
            continue
        for error in list(made[kind].iter_errors(document))[:3]:
            where = "/".join(str(step) for step in error.absolute_path)
            failures.append(f"{' '.join(command)}: {where}: {error.message[:200]}")
        spoiled = dict(document, unheard_of=1)
        if not list(made[kind].iter_errors(spoiled)):
            failures.append(f"{kind}: its schema takes a key that nobody heard of")
    for kind in set(made) - kinds - {"common"}:
        failures.append(f"no command answered with kind {kind}")
    allowed = set().union(*(keys_of(schema) for schema in store.values()))
    written = set()
    for path in sources.glob("*json*.?pp"):
        text = re.sub(r"//[^\n]*", "", path.read_text(encoding="utf-8"))
        written |= set(re.findall(r'(?:\{|\[)"([a-z0-9_]+)"(?=,|\])', text))
    # Values that stand where a key could: the first words of lists.
    words = {"medium", "pigment", "fine_enough", "none", "nothing", "unknown"}
    for key in sorted(written - allowed - words):
        failures.append(f"the report room writes '{key}', which no schema knows")
    page = (shelf.parent / "docs" / "json.md").read_text(encoding="utf-8")
    told = {part for name in re.findall(r"^\| ((?:`[a-z0-9_.]+`(?:, )?)+) \|", page, re.M)
            for dotted in re.findall(r"`([a-z0-9_.]+)`", name) for part in dotted.split(".")}
    for key in sorted(told - allowed - set(made)):
        failures.append(f"docs/json.md tells of '{key}', which no schema knows")
    for failure in failures[:40]:
        print("FAILED: " + failure)
    print(f"{count} answers of {len(kinds)} kinds, {len(failures)} failures")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
