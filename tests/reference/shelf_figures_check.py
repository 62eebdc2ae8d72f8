"""No answer repeats a figure of the shelf that a maker may lay his own over.

usage: shelf_figures_check.py BIN SHELF

Every figure of the habits, bench tests, targets and families of the shelf is changed in turn, in a folder that is
laid over the shelf, and the commands below whose answers hold that figure (as it is written, as a percentage, as a
factor, a count as a word) are asked again. The figure must then be gone from its place. Numbers that move with other
files of the shelf, with the command or with the files that it reads are worked out, and pass for no figure of the shelf.
A number that equals several figures may follow any of them. A sentence where the same number means something else is named in ELSEWHERE, with what it is. The text of --help knows
no shelf of the maker's, so no figure may stand in it at all, but in quotes as an example.
"""
import math
import os
import pathlib
import re
import shlex
import shutil
import subprocess
import sys
import tempfile

import yaml

KINDS = ["practice", "learning", "laking", "washing", "habits", "tests", "targets", "families"]

# Of these there are several, and an answer goes by one.
NAMED_ONES = ["targets", "families", "tests"]
MATERIALS = ["pigments", "ingredients", "salts", "vessels"]
LESS = 0.85

# Each is run in a folder of its own where `s` is the shelf and `a` is reedmere, `b` its second year.
COMMANDS = """
lakebound-batch lake-watercolour-half-pans --jar s/studios/reedmere/jars/weld.yaml --shelf a --pigment "6 g"
lakebound-batch lake-watercolour-half-pans --jar s/studios/reedmere/jars/weld.yaml --shelf a --pigment "6 g" --explain
lakebound-batch lake-watercolour-half-pans --jar s/studios/reedmere/jars/weld.yaml --pigment "6 g"
lakebound-batch lake-oil-tube --jar s/studios/reedmere/jars/weld.yaml --pigment "2 g"
lakebound-batch lake-oil-with-wax --jar s/studios/reedmere/jars/weld.yaml --pigment "20 g"
lakebound-batch lake-egg-tempera --jar s/studios/reedmere/jars/weld.yaml --pigment "6 g"
lakebound-batch lake-watercolour-tube --jar s/studios/reedmere/jars/weld.yaml --pigment "6 g" --shelf a
lakebound-batch lake-gouache --jar s/studios/reedmere/jars/weld.yaml --pigment "6 g"
lakebound-batch yellow-ochre-egg-tempera --pigment "6 g"
lakebound-batch --list
lakebound-pvc --pigment "10 g" --oil-absorption "68.8 g/100g" --density "1.88 g/cm3" --binder "gum-glycerol-honey: 10 g" --family watercolour-pan --rescue --aim 1.4
lakebound-pvc --pigment "alumina-lake: 10 g" --binder "gum-glycerol-honey: 36.5 g" --family watercolour-pan
lakebound-pvc --pigment "6 g" --jar s/studios/reedmere/jars/weld.yaml --binder "gum-glycerol-honey: 20 g" --family watercolour-pan
lakebound-pvc --pigment "madder-lake: 100 g" --binder "linseed-oil: 55 g" --family oil
lakebound-pvc --pigment "alumina-lake: 7 g" --pigment "chalk: 3 g" --blend-oil-absorption "45 g/100g" --binder "linseed-oil: 8 g"
lakebound-pvc --pigment "alumina-lake: 10 mL" --tapped-density "0.35 g/cm3" --binder "egg-yolk: 8 g" --family egg-tempera
lakebound-pvc --pigment "alumina-lake: 20 mL" --tapped-density "0.35 g/cm3" --moisture "15 % w/w" --binder "egg-yolk: 8 g" --family egg-tempera
lakebound-pvc --layer lake-oil-tube --layer lake-chalk-oil --jar s/studios/reedmere/jars/weld.yaml
lakebound-pvc --layer lake-chalk-oil --layer lake-oil-tube --jar s/studios/reedmere/jars/weld.yaml
lakebound-pvc --reading s/studios/reedmere/readings/madder-rub-out.yaml
lakebound-pvc --reading s/studios/reedmere/readings/weld-rub-outs.yaml
lakebound-pvc --reading s/studios/reedmere/readings/weld-bottle.yaml
lakebound-pvc --reading solids.yaml
lakebound-pvc --reading moisture.yaml
lakebound-jar --swatch-test
lakebound-jar --studio --shelf b
lakebound-jar weld-autumn --shelf b --date 2026-10-01
lakebound-jar weld-autumn --shelf b --date 2026-10-01 --as oil --lack days
lakebound-jar weld-autumn --shelf b --date 2026-10-01 --by-strokes "6 g"
lakebound-jar madder --shelf b --date 2026-10-01 --with gum-glycerol-honey
lakebound-jar weld --shelf a --date 2026-10-01
lakebound-bath --alum "potash-alum, 50 g" --alkali soda-crystals
lakebound-bath --alum "potash-alum, 50 g" --alkali soda-ash --foam "40 s" --vessel "12 L"
lakebound-bath --alum "potash-alum, 50 g" --alkali chalk
lakebound-bath --plant "100 g dry root" --alum "potash-alum, 50 g" --alkali soda-ash --water "3.0 L" --vessel "12 L"
lakebound-bath --plant "300 g fresh herb" --alum potash-alum --alkali potash-dry
lakebound-bath madder-second --shelf b --date 2026-09-14
lakebound-bath --alum "potash-alum, 50 g" --alkali soda-ash --drying "38.6 g, 24.9 g, 17.9 g every 24 h"
lakebound-grind s/studios/reedmere/sieve-tests/weld-5-min.yaml s/studios/reedmere/sieve-tests/weld-15-min.yaml --family watercolour-pan
lakebound-grind s/studios/reedmere/sieve-tests/weld-5-min.yaml s/studios/reedmere/sieve-tests/weld-15-min.yaml --target "75 um"
lakebound-grind s/studios/reedmere/sieve-tests/weld-5-min.yaml s/studios/reedmere/sieve-tests/weld-15-min.yaml --family oil --stays "6.3 g after 2 rounds of 5 min"
lakebound-grind --mull "60 um, 38 um, 27 um every 10 min" --target "25 um"
lakebound-sieve s/studios/reedmere/sieve-tests/weld-washed.yaml --family watercolour-pan
lakebound-sieve s/studios/reedmere/sieve-tests/weld-15-min.yaml --family oil
lakebound-sieve s/studios/reedmere/sieve-tests/weld-15-min.yaml --target "75 um"
lakebound-settle --depth "100 mm" --cut "45 um" --density "1.88 g/cm3"
lakebound-settle --depth "100 mm" --cut "2 um" --density "1.88 g/cm3"
lakebound-settle --zone "100 mm, 62 mm, 48 mm every 2 h"
lakebound-settle --test s/studios/reedmere/settling-tests/weld-fresh.yaml
""".strip().splitlines()

HELPS = ["batch", "bath", "grind", "jar", "pvc", "settle", "sieve"]

FILES = {
    "solids.yaml": "kind: bench reading\nname: Gum\ntest: medium solids\nscale: 0.01 g\ndish: 10 g\ndish_and_wet: 20 g\ndish_and_dry: 14.4 g\n",
    "moisture.yaml": "kind: bench reading\nname: Lake\ntest: moisture\nscale: 0.01 g\ndish: 10 g\ndish_and_wet: 12 g\ndish_and_dry: 11.7 g\n",
}

WORDS = ["nought", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"]
NUMBER = re.compile(r"(?<![\w.])(\d+(?:\.\d+)?)(?![\w.]*\d)|\b(" + "|".join(WORDS[1:]) + r")\b")


def figures(top, kinds):
    """Every number of the files of these kinds: file, key, place in the text, number and unit."""
    for kind in kinds:
        for path in sorted((top / kind).glob("*.yaml")):
            def walk(node, keys):
                if isinstance(node, yaml.MappingNode):
                    for key, value in node.value:
                        if key.value not in ("note", "source", "origin", "name", "kind", "duration_note"):
                            yield from walk(value, keys + [key.value])
                elif isinstance(node, yaml.SequenceNode):
                    for i, value in enumerate(node.value):
                        yield from walk(value, keys + [str(i)])
                else:
                    match = re.match(r"(\d+(?:\.\d+)?)(?: (?:\+-|x/) [\d.]+)?(?: ?(.*))?$", node.value)
                    if match:
                        yield (path.relative_to(top), ".".join(k for k in keys if k != "value"), node.start_mark.index,
                               match.group(1), (match.group(2) or "").strip())
            yield from walk(yaml.compose(path.read_text(encoding="utf-8")), [])


def same(a, b):
    return math.isclose(a, b, rel_tol=1e-9, abs_tol=1e-12)


def shown_as(number, unit):
    """The (number, unit) pairs by which a sentence may show a figure; a unit of None is a bare number."""
    value = float(number)
    if unit.startswith("%"):
        return [(value, "%"), (value / 100.0, None)]
    if unit:
        return [(value, unit)]
    shown = [(value, None)]
    if value < 1.0:
        shown += [(100.0 * value, "%")]
        if value >= 0.005:
            shown += [(round(math.exp(value), 2), None)]
    return shown


def is_count(number, unit):
    return not unit and float(number).is_integer()


def numbers(sentence):
    for match in NUMBER.finditer(sentence):
        value = float(match.group(1)) if match.group(1) else float(WORDS.index(match.group(2)))
        rest = sentence[match.end():]
        unit = re.match(r" ?(%|[a-zA-Z°µ]+(?:/[a-zA-Z0-9]+)*)", rest)
        yield match, value, unit.group(1).replace("µ", "u").replace("°C", "degC") if unit else None


def holds(sentence, figure):
    """Where a sentence shows that figure."""
    _, key, _, number, unit = figure
    places = []
    stems = [word.rstrip("s")[:4] for word in re.split(r"[._]", key) if len(word) > 3]
    for match, value, followed in numbers(sentence):
        for shown, wanted in shown_as(number, unit):
            if not same(shown, value):
                continue
            if wanted is None and followed in ("%", "g", "mL", "um", "mm", "h", "min", "degC"):
                continue
            if wanted is not None and followed != wanted and not (followed or "").startswith(wanted + "s"):
                continue
            if wanted is None and (is_count(number, unit) or shown < 10 and same(shown, round(shown, 1))):
                if not any(stem in sentence.lower() for stem in stems):
                    continue
            places.append(match)
            break
    return places


def template(sentence):
    return NUMBER.sub("#", sentence)


def sentences(text):
    """The prose of an answer: its lines joined where they go on, cut at the ends of sentences."""
    text = re.sub(r"\n(?!\n)[ #|]*", " ", text)
    for paragraph in text.split("\n"):
        for sentence in re.split(r"(?<=[.;:!?]) +|  +", paragraph):
            if len(re.findall(r"\b[A-Za-z]{2,}\b", sentence)) >= 3: # a row of a table is none
                yield sentence.strip()


def helped(text):
    """What --help says of each option, examples left out."""
    text = re.sub(r'"[^"]*"', '""', re.sub(r"\n {8,}", " ", text))
    return [line.strip() for line in text.splitlines() if line.startswith("  ")]


def run(command, folder, environment):
    done = subprocess.run(shlex.split(command), cwd=folder, env=environment, text=True, timeout=60,
                          stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
    return done.returncode, done.stdout


# Pieces of sentences whose number is another thing than the figure that it equals, and what it is.
ELSEWHERE = {
    " = ": "a formula that is worked out",
    "below 0.1 %": "the end of the scale on which chances are told",
    "(usp-786, value from memory)": "what a published method lets a test lose",
    "make water 5 % thinner": "physics",
    "Linseed oil with 2 %": "the name of a medium",
    "Rosin-Rammler misses": "a fit of the maker's tests",
    " together make the oil absorption ": "figures of the pigment's own file",
    "rub-out oil 0.930 ": "figures of the pigment's own file",
    " mL syringe, ": "fills that were counted out",
    " most likely;": "rounds that were counted out",
    " % full": "of a vessel",
    "The gauge reads to": "of an instrument",
    "Stir, wait ": "a time that was worked out",
    "DO THIS Grind ": "a time that was worked out",
    "Without any separation ": "a time that was worked out",
    "Enough oil to bind": "the aim of a recipe",
    "for two minutes": "work at the slab",
    "binder index ": "of the family",
    "two times in three": "what a standard uncertainty covers",
    "times in 10": "what an interval covers",
    "nine times in ten": "what an interval covers",
    "the blanket three times": "readings that the law of settling wants",
    "its height three times": "readings that the law of settling wants",
    "--blanket ": "readings by way of example",
    "1 just fills": "the definition of k",
    "Refills after the first fill: 3 make": "by way of example",
    " % Four swatches ": "chances that were worked out",
}


def elsewhere(sentence):
    return any(piece in sentence for piece in ELSEWHERE)


def laid_over(shelf, over, changes):
    """Files in the folder `over` with these figures changed: figure to number."""
    by_file = {}
    for figure, changed in changes.items():
        by_file.setdefault(figure[0], []).append((figure[2], figure[3], changed))
    for file, places in by_file.items():
        text = (shelf / file).read_text(encoding="utf-8")
        for at, number, changed in sorted(places, reverse=True):
            text = text[:at] + changed + text[at + len(number):]
        (over / file).parent.mkdir(parents=True, exist_ok=True)
        (over / file).write_text(text, encoding="utf-8")


def typed_numbers(command, folder):
    """The numbers with units of a command and of the files that it names: the maker's, and no figures of ours."""
    text = command
    for word in shlex.split(command):
        path = folder / word
        if word.endswith(".yaml") and path.exists():
            text += "\n" + path.read_text(encoding="utf-8")
        elif word in ("a", "b"):
            text += "".join("\n" + p.read_text(encoding="utf-8") for p in path.rglob("*.yaml"))
    return {(value, unit) for _, value, unit in numbers(text)}


def otherwise(text):
    """A command or a file with its quantities a little other, each by a factor of its own."""
    factors = iter([1.06, 1.02, 1.08, 1.04, 1.03, 1.09] * 100)
    return re.sub(r"\b(\d+(?:\.\d+)?)(?= (?:g|mL|um|mm|g/cm3|g/100g|uS/cm|h)\b)",
                  lambda m: f"{float(m.group(1)) * next(factors):.6g}", text)


class Answers:
    """What a command says, and which of its numbers stay whatever the shelf holds."""

    def __init__(self, command, folder, environment, shelves, other_folder):
        self.command, self.folder, self.environment = command, folder, environment
        code, text = self.ask()
        if code > 1:
            raise SystemExit(f"{command}\n    cannot be asked: {text}")
        self.text = list(sentences(text))
        own = typed_numbers(command, folder)
        self.said = {}
        for sentence in sentences(text):
            shown = list(numbers(sentence))
            fixed = [i for i, (_, value, unit) in enumerate(shown) if (value, unit) not in own]
            if fixed:
                self.said.setdefault(template(sentence), (sentence, shown, set(fixed)))
        for shelf in shelves:
            code, text = self.ask(shelf)
            if code <= 1: # else the figures make the question impossible, and the other shelves must tell
                self.keep_what_stays(text)
        for again in (command, otherwise(command)):
            code, text = run(again, other_folder, environment)
            if code <= 1:
                self.keep_what_stays(text)

    def ask(self, over=None):
        environment = dict(self.environment)
        if over:
            environment["LAKEBOUND_SHELF"] = f"{over}:{environment['LAKEBOUND_SHELF']}"
        return run(self.command, self.folder, environment)

    def stays(self, text):
        """By template of a sentence, which of its fixed numbers the text shows too."""
        for sentence in sentences(text):
            was = self.said.get(template(sentence))
            if was:
                now = list(numbers(sentence))
                yield template(sentence), {i for i in was[2] if same(now[i][1], was[1][i][1])}

    def keep_what_stays(self, text):
        for shape, fixed in list(self.stays(text)):
            sentence, shown, _ = self.said[shape]
            self.said[shape] = (sentence, shown, fixed)

    def showing(self, figure):
        """The sentences that show the figure by a number that stays, and which number."""
        for sentence, shown, fixed in self.said.values():
            places = {match.start() for match in holds(sentence, figure)}
            for i in fixed:
                if shown[i][0].start() in places:
                    yield template(sentence), sentence, i


def main():
    bins, shelf = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
    environment = {k: v for k, v in os.environ.items() if not k.startswith(("LAKEBOUND", "XDG"))}
    environment.update(PATH=f"{bins}{os.pathsep}{environment['PATH']}", NO_COLOR="1", LC_ALL="C.UTF-8",
                       LAKEBOUND_SHELF=str(shelf))
    wrong = []
    with tempfile.TemporaryDirectory() as scratch:
        folder = pathlib.Path(scratch)
        (folder / "s").symlink_to(shelf)
        (folder / "a").symlink_to(shelf / "studios/reedmere")
        (folder / "b").symlink_to(shelf / "studios/reedmere-second-year")
        for name, text in FILES.items():
            (folder / name).write_text(text, encoding="utf-8")
        environment["HOME"] = scratch
        ours = list(figures(shelf, KINDS))
        # One shelf for each kind on which all of its figures are a little less.
        for kind in KINDS + MATERIALS:
            laid_over(shelf, folder / "less" / kind, {figure: f"{float(figure[3]) * LESS:.12g}" for figure in figures(shelf, [kind])
                                                      if '.' in figure[3] or figure[4]})
        shelves = [folder / "less" / kind for kind in KINDS + MATERIALS]
        # And a bench at which everything weighs a little more or less.
        bench = folder / "bench"
        bench.mkdir()
        (bench / "s").mkdir()
        (bench / "s/studios").mkdir()
        for name, studio in (("a", "reedmere"), ("b", "reedmere-second-year")):
            shutil.copytree(shelf / "studios" / studio, bench / "s/studios" / studio)
            (bench / name).symlink_to(bench / "s/studios" / studio)
        for name, text in FILES.items():
            (bench / name).write_text(text, encoding="utf-8")
        for path in bench.rglob("*.yaml"):
            path.write_text(otherwise(path.read_text(encoding="utf-8")), encoding="utf-8")
        answers = [Answers(command, folder, environment, shelves, bench) for command in COMMANDS]
        helps = {f"lakebound-{name} --help": helped(run(f"lakebound-{name} --help", folder, environment)[1])
                 for name in HELPS}
        asked = 0
        stays_for, follows = {}, set() # places by answer, sentence and number
        for figure in ours:
            file, key, at, number, unit = figure
            for command, said in helps.items():
                for sentence in said:
                    if holds(sentence, figure) and not elsewhere(sentence):
                        wrong.append(f"{command} {file} {key} {number} {unit}\n    says: {sentence}")
            for answer in answers:
                shown = [each for each in answer.showing(figure)
                         if not elsewhere(each[1])]
                if not shown:
                    continue
                for factor in (1.25, 0.75, 1.1, 0.9, 1.5, 2.0, 0.5):
                    changed = f"{float(number) * factor:.12g}"
                    if is_count(number, unit) and factor < 2.0:
                        changed = str(int(float(number)) + (1 if factor > 1.0 else -1))
                    laid_over(shelf, folder / "over", {figure: changed})
                    code, text = answer.ask(folder / "over")
                    (folder / "over" / file).unlink()
                    asked += 1
                    if code <= 1:
                        break
                else:
                    wrong.append(f"{answer.command} {file} {key} {number} {unit}\n    cannot be changed: {text}")
                    continue
                if str(file.parent) in NAMED_ONES and list(sentences(text)) == answer.text:
                    continue # another family, or its target
                stays = dict(answer.stays(text))
                for shape, sentence, i in shown:
                    place = (answer.command, shape, i)
                    if i in stays.get(shape, set()):
                        stays_for.setdefault(place, (sentence, []))[1].append(f"{file} {key} {number} {unit}".strip())
                    else:
                        follows.add(place)
        for place, (sentence, equal) in stays_for.items():
            if place not in follows: # else it is that figure which it follows
                wrong.append(f"{place[0]}\n    still says: {sentence}\n    whatever the shelf says in {'; '.join(equal)}")
    for line in wrong:
        print(line)
    print(f"{asked} answers asked again; {len(wrong)} places that repeat a figure of the shelf")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
