"""Makers who follow the advice of the commands, and where their first paint lands.

Each maker is drawn from the priors that docs/theory.md, section 11, states (written again here, with Python's own
generator), gets a jar, a scale of 0.01 g and an empty studio, asks lakebound-jar what to do next, does it, enters what
the drawn jar shows, and asks again until the card says that it is enough or that nothing pays. Then lakebound-batch
sizes a paint at the card's aim, and the masses of the sheet, as rounded, are judged against the drawn truth: a paint at
x = ln(dry binder per powder over the library's demand) truly has ln k = x - c.

Outside the project stand: the draws, the sum for k of masses, and the count of what landed. The rest is the commands.

    jar_benches.py BIN SHELF [--makers N] [--seed S] [--plan coach|two|four|six|rub-out|strokes|"rub-out and strokes"] [--who NAME] [--sure "95 %"]
                             [--most-swatches M] [--seconds S] [--check]
"""

import argparse
import collections
import datetime
import json
import math
import os
import pathlib
import random
import shutil
import subprocess
import sys
import tempfile
import time

# Of the shipped shelf: gum water is 1 gum to 2 water; bought gum is 88 % dry, of 1.42 g/cm3; a lake's oil absorption is
# 65 g of oil of 0.93 g/cm3 to 100 g.
REFERENCE_OIL = 65.0
DEMAND = REFERENCE_OIL / 100.0 / 0.93                # mL/g
BINDER_OF_MEDIUM = 1.0 / 3.0 * 0.88 / 1.42           # mL/g
LEAN_WIDTH = 0.06
WINDOW = (1.2, 1.8)                                  # pans
SCALE = 0.01                                         # g
BENCH = """kind: bench
name: own bench
scales:
  - {name: pocket scale, step: 0.01 g, capacity: 200 g}
drop: 0.039 mL
slab_loss: {fixed: 0.6 g, share: 3 %}
weighing_tolerance: 5 %
reserve: 0.5 g
humidity: 50 %
temperature: 20 degC
"""


class Maker:
    """One maker with one jar, of the stated priors; "plain" without the one in ten who is odd; else somebody whom the
    priors do not know."""

    def __init__(self, seed, who):
        self.random = random.Random(seed)
        normal = self.random.gauss
        odd = self.random.random() < 0.10 and who != "plain"
        self.hand = normal(0.0, 0.05)
        self.repeat = 0.087 * math.exp(normal(0.0, 0.35))
        step = normal(0.0, math.hypot(0.08, 0.04)) * (2.5 if odd else 1.0)
        self.bias = normal(0.0, 0.05)
        self.demand = normal(0.0, 0.26) + normal(0.0, 0.15 * math.exp(normal(0.0, 0.40)))
        of_this_jar = normal(0.0, math.hypot(0.06, 0.04))
        damp = normal(0.0, 0.03)
        if who == "lean":
            self.hand, step, damp = math.log(0.92), math.log(1.10), math.log(1.05)
            self.demand = math.log(90.0 / REFERENCE_OIL)
        elif who == "rich":
            self.hand, step, damp = math.log(1.08), math.log(0.90), math.log(0.95)
            self.demand = math.log(50.0 / REFERENCE_OIL)
        elif who == "bias .10":
            self.bias *= 2.0
        elif who == "clumsy":
            self.repeat *= 2.0
        self.critical = self.demand + step + damp + of_this_jar

    def rub_out_oil(self, powder):
        """Grams of oil, as the scale shows them."""
        reading = self.demand + self.hand + self.random.gauss(0.0, self.repeat)
        return round(powder * REFERENCE_OIL / 100.0 * math.exp(reading) / SCALE) * SCALE

    def chalks(self, powder, medium):
        """A swatch of these masses on the scale, which are true to the rounding of two readings each."""
        def true(mass):
            return mass + (self.random.random() - self.random.random()) * SCALE
        x = position(true(powder), true(medium))
        return self.random.random() < 1.0 / (1.0 + math.exp((x - self.critical - self.bias) / LEAN_WIDTH))


def position(powder, medium):
    return math.log(medium * BINDER_OF_MEDIUM / (powder * DEMAND))


class Commands:
    def __init__(self, programs, shelf, studio):
        self.programs, self.studio = pathlib.Path(programs), studio
        self.environment = {"LAKEBOUND_SHELF": str(shelf), "PATH": os.environ.get("PATH", "")}

    def run(self, program, *arguments, expected=(0,)):
        run = subprocess.run([self.programs / program, *arguments, "--json"], cwd=self.studio, text=True,
                             env=self.environment, capture_output=True, check=False)
        if run.returncode not in expected:
            raise AssertionError(f"{program} {arguments}: exit {run.returncode}\n{run.stdout}{run.stderr}")
        return json.loads(run.stdout)


class Visit:
    """What one maker did, was told and got."""

    def __init__(self, maker, commands, options):
        self.maker, self.commands, self.sure = maker, commands, options.sure
        self.minutes = self.grams = self.days = 0.0
        self.steps = collections.Counter()
        self.entries = 0
        self.day = datetime.date(2026, 1, 5)
        self.card = None
        commands.run("lakebound-jar", "own", "--new", "alumina-lake, 24.0 g", "--date", str(self.day))
        self.ask()

    def ask(self):
        self.card = self.commands.run("lakebound-jar", "own", "--with", "gum-water", "--sure", self.sure, "--date", str(self.day))

    def enter(self, *arguments):
        answer = self.commands.run("lakebound-jar", "own", *arguments, "--with", "gum-water", "--sure", self.sure, "--date", str(self.day))
        self.entries += 1
        assert len(answer["entries"]) >= self.entries, "an entry is not on the card"
        self.card = answer

    def pay(self, step):
        self.minutes += step["attention_min"]
        self.grams += step["pigment_g"]
        self.days += step["waiting_h"] / 24.0

    def rub_out(self, step):
        self.enter("--rub-out", f"2.00 g, {self.maker.rub_out_oil(2.0):.2f} g")
        self.steps["rub-out"] += 1
        self.pay(step)

    def judge(self, planned):
        """As planned, dried until the next day, and judged one by one."""
        self.day += datetime.timedelta(days=1)
        for swatch in planned:
            chalks = self.maker.chalks(swatch["pigment_g"], swatch["medium_g"])
            waiting = self.card["waiting"]
            first = f"{waiting[0]['number']} " if len(waiting) > 1 else ""
            self.enter("--saw", first + ("chalks" if chalks else "does not chalk"))
            self.steps["swatch"] += 1

    def swatches(self, step):
        planned = self.card["record"]["swatches"]
        assert len(planned) == step["swatches"], "the card plans other swatches than it advises"
        for swatch in planned:
            by_masses = math.exp(position(swatch["pigment_g"], swatch["medium_g"]))
            assert abs(by_masses / swatch["library_k"] - 1.0) < 1e-3, f"k of {swatch} is {by_masses}"
        before = len(self.card["waiting"])
        self.enter("--as-planned")
        self.entries += len(planned) - 1
        assert len(self.card["waiting"]) == before + len(planned), "a planned swatch is not waited for"
        self.judge(planned)
        self.pay(step)

    def one_swatch(self):
        """One in turn, whatever else is advised: at the place of the single swatch on the card."""
        record = self.card["record"]
        step = next(s for s in record["steps"] if s["kind"] == "swatches" and s["swatches"] == 1)
        shown = record["swatches"][0]
        library_k = step["at_k"][0] * shown["library_k"] / shown["k"]
        powder = 0.20
        medium = round(powder * DEMAND * library_k / BINDER_OF_MEDIUM / SCALE) * SCALE
        self.day += datetime.timedelta(days=1)
        sign = "chalks" if self.maker.chalks(powder, medium) else "does not chalk"
        self.enter("--swatch", f"{powder:.2f} g, {medium:.2f} g: {sign}")
        self.steps["swatch"] += 1
        self.pay(step)

    def follow(self, most_swatches):
        for _ in range(20):
            record = self.card["record"]
            if record["advice"] != "measure" or self.steps["swatch"] >= most_swatches:
                break
            step = record["steps"][record["recommended"]]
            if step["kind"] == "rub_out":
                self.rub_out(step)
            elif step["kind"] == "swatches":
                self.swatches(step)
            else:
                raise AssertionError(f"these makers cannot do '{step['kind']}'")
        return self.card["record"]["advice"]

    def strokes(self, rub_out):
        """A batch begun lean and brought up in doses; where its true ln k ends."""
        if rub_out:
            self.rub_out(next(s for s in self.card["record"]["steps"] if s["kind"] == "rub_out"))
        plan = self.commands.run("lakebound-jar", "own", "--by-strokes", "6 g", "--with", "gum-water", "--date", str(self.day))
        powder, medium = plan["pigment_g"], 0.0
        last = plan["if_all_chalk"]
        for dose in plan["doses"]:
            medium += dose["medium_g"]
            assert abs(math.exp(position(powder, medium)) / dose["library_k"] - 1.0) < 1e-6, "a dose of another k"
            taken = plan["stroke_pigment_g"] / powder
            powder, medium = powder * (1.0 - taken), medium * (1.0 - taken)
            self.steps["swatch"] += 1
            self.minutes, self.days = self.minutes + 10.0, self.days + 1.0
            self.grams += plan["stroke_pigment_g"]
            x = position(powder, medium) + self.maker.random.gauss(0.0, 0.005)
            if self.maker.random.random() >= 1.0 / (1.0 + math.exp((x - self.maker.critical - self.maker.bias) / LEAN_WIDTH)):
                last = dose["if_not"]
                break
        return plan, position(powder, medium + last["medium_g"]) - self.maker.critical

    def ladder(self, swatches):
        self.rub_out(next(s for s in self.card["record"]["steps"] if s["kind"] == "rub_out"))
        for _ in range(swatches):
            self.one_swatch()
        return self.card["record"]["advice"]

    def paint(self):
        record = self.card["record"]
        sheet = self.commands.run("lakebound-batch", "lake-watercolour-half-pans", "--medium", "gum-water", "--jar",
                                  "own", "--pigment", "6 g", "--k", f"{record['likeliest_aim_k']:.4f}", expected=(0, 1))
        powder, medium = (part["rounded_g"] for part in sheet["batch"]["weigh"][:2])
        ln_k = position(powder, medium) - self.maker.critical
        return {"said on the card": record["in_window"], "said on the sheet": sheet["batch"]["chance"]["in_window"],
                "in window": float(math.log(WINDOW[0]) < ln_k < math.log(WINDOW[1])),
                "too lean": float(ln_k <= math.log(WINDOW[0])), "minutes": self.minutes, "grams": self.grams,
                "days": self.days, "rub-outs": self.steps["rub-out"], "swatches": self.steps["swatch"]}


    def painted_by_strokes(self, rub_out):
        plan, ln_k = self.strokes(rub_out)
        return {"said on the card": plan["in_window"], "said on the sheet": plan["in_window"],
                "in window": float(math.log(WINDOW[0]) < ln_k < math.log(WINDOW[1])),
                "too lean": float(ln_k <= math.log(WINDOW[0])), "minutes": self.minutes, "grams": self.grams,
                "days": self.days, "rub-outs": self.steps["rub-out"], "swatches": self.steps["swatch"]}


PLANS = {"coach": None, "rub-out": 0, "two": 2, "four": 4, "six": 6, "strokes": None, "rub-out and strokes": None}


def visit(options, number, folder):
    maker = Maker(f"{options.seed}-{number}", options.who)
    studio = pathlib.Path(folder) / f"maker-{number}"
    studio.mkdir()
    (studio / "bench.yaml").write_text(BENCH, encoding="utf-8")
    one = Visit(maker, Commands(options.programs, options.shelf, studio), options)
    if options.plan.endswith("strokes"):
        told = one.painted_by_strokes(options.plan != "strokes")
        told["told that it is enough"] = 1.0
        shutil.rmtree(studio)
        return told
    swatches = PLANS[options.plan]
    advice = one.follow(options.most_swatches) if swatches is None else one.ladder(swatches)
    told = one.paint()
    told["told that it is enough"] = float(advice == "target_met")
    shutil.rmtree(studio)
    return told


def summary(told):
    """Mean and standard error of everything that was told."""
    lines = {}
    for key in told[0]:
        values = [t[key] for t in told]
        mean = sum(values) / len(values)
        variance = sum((v - mean) ** 2 for v in values) / max(len(values) - 1, 1)
        lines[key] = (mean, math.sqrt(variance / len(values)))
    return lines


BOUNDS = {
    "coach": (("in window", 0.75, 1.0), ("told that it is enough", 0.9, 1.0), ("minutes", 20.0, 70.0),
              ("grams", 2.0, 4.5), ("swatches", 1.0, 6.0), ("said on the card", 0.95, 0.99)),
    "strokes": (("in window", 0.75, 1.0), ("said on the card", 0.88, 0.94), ("swatches", 2.5, 7.0), ("too lean", 0.0, 0.2)),
}


def check(lines, makers, plan):
    """Bounds that no luck of these few draws breaks, and any break of the loop does."""
    faults = []
    for key, low, high in BOUNDS[plan]:
        if not low <= lines[key][0] <= high:
            faults.append(f"{key}: {lines[key][0]:.3f} of {makers} makers, expected {low} to {high}")
    if abs(lines["said on the card"][0] - lines["said on the sheet"][0]) > 0.01:
        faults.append("the card says another chance than the sheet")
    return faults


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("programs")
    parser.add_argument("shelf", type=pathlib.Path)
    parser.add_argument("--makers", type=int, default=30)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--plan", choices=PLANS, default="coach")
    parser.add_argument("--who", choices=("stated", "plain", "lean", "rich", "bias .10", "clumsy"), default="stated")
    parser.add_argument("--sure", default="95 %")
    parser.add_argument("--most-swatches", type=int, default=99)
    parser.add_argument("--seconds", type=float, default=330.0, help="stop drawing makers after so long")
    parser.add_argument("--keep-all", type=pathlib.Path, help="a line of JSON for every maker")
    parser.add_argument("--check", action="store_true")
    options = parser.parse_args()
    options.shelf = options.shelf.resolve()
    options.programs = pathlib.Path(options.programs).resolve()

    told, begun = [], time.monotonic()
    with tempfile.TemporaryDirectory() as folder:
        for number in range(options.makers):
            if time.monotonic() - begun > options.seconds:
                break
            told.append(visit(options, number, folder))
    lines = summary(told)
    print(f"{len(told)} makers ({options.who}), plan {options.plan}, --sure \"{options.sure}\", seed {options.seed}")
    for key, (mean, error) in lines.items():
        print(f"  {key:24} {mean:8.4f} +- {error:.4f}")
    if options.keep_all:
        options.keep_all.write_text("".join(json.dumps(t) + "\n" for t in told), encoding="utf-8")
    faults = check(lines, len(told), options.plan) if options.check else []
    for fault in faults:
        print(fault)
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
