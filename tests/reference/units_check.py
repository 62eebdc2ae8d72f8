#!/usr/bin/python3
"""Every unit of the vocabulary against GNU units, an independent program with definitions of its own.

usage: units_check.py PROGRAM    (PROGRAM prints lines: dimension, text, value)
Exit status: 0 all agree, 1 some differ, 77 GNU units is not installed.
"""
import shutil
import subprocess
import sys

# Our dimension -> the unit, in GNU units' words, in which our value is given.
CANONICAL = {
    "mass": "kg", "volume": "m^3", "length": "m", "area": "m^2", "time": "s", "velocity": "m/s",
    "density": "kg/m^3", "viscosity": "Pa s", "specific volume": "m^3/kg", "temperature": "K",
    "temperature difference": "K", "mass fraction": "1", "volume fraction": "1", "share": "1",
    "oil absorption": "1", "pigment volume concentration": "1", "relative humidity": "1", "medium per pigment": "1",
    "solution strength": "1",
}

# Our unit -> the same in GNU units' words. A metric tablespoon and teaspoon are 15 and 5 ml, which GNU
# units knows as the modern British ones; its brcup is half a British pint, its m^3 wants a caret.
THEIRS = {
    "US cup": "uscup", "metric cup": "metriccup", "imperial cup": "brcup", "US pint": "uspint",
    "imperial pint": "brpint", "US fl oz": "usfloz", "imperial fl oz": "brfloz", "US tablespoon": "ustablespoon",
    "metric tablespoon": "brtablespoon", "Australian tablespoon": "australiatablespoon",
    "metric teaspoon": "brteaspoon", "US teaspoon": "usteaspoon",
    "cm3": "cm^3", "m3": "m^3", "cm2": "cm^2", "mm2": "mm^2", "m2": "m^2", "mil": "thou",
    "in": "inch", "h": "hour", "d": "day", "min": "minute", "um": "micrometer", "ug": "microgram", "uL": "microliter",
    "µm": "micrometer", "µg": "microgram", "µL": "microliter", "um/s": "micrometer/s", "µm/s": "micrometer/s",
    "cm/h": "cm/hour", "g/cm3": "g/cm^3", "kg/m3": "kg/m^3", "cm3/g": "cm^3/g", "mPa·s": "mPa s", "Pa·s": "Pa s",
    "cP": "centipoise", "% w/w": "%", "% v/v": "%", "% RH": "%", "% w/v": "%",
    "g/100g": "g/(100 g)", "g/100 g": "g/(100 g)", "lb/100lb": "lb/(100 lb)", "lb/100 lb": "lb/(100 lb)",
}

# Both sides round a few times; one part in 10^15 is about four units in the last place.
RELATIVE = 1e-15


def their_words(dimension, text):
    number, unit = text.split(" ", 1)
    if dimension == "temperature" and unit in ("degC", "°C"):
        return f"tempC({number})"
    if dimension == "temperature" and unit in ("degF", "°F"):
        return f"tempF({number})"
    unit = {"°C": "degC", "°F": "degF"}.get(unit, unit)
    if unit.endswith("s") and unit[:-1] in THEIRS:  # "US cups"
        unit = unit[:-1]
    unit = THEIRS.get(unit, unit)
    if "/" in unit and "(" not in unit:
        above, below = unit.split("/")
        return f"{number} ({above}) / ({below})"
    return f"{number} {unit}"


def main():
    program = sys.argv[1]
    if shutil.which("units") is None:
        print("SKIPPED: GNU units is not installed, so NO unit conversion was checked against it.")
        print("Install it (Debian package: units) and run this test again.")
        return 77
    rows = [line.split("\t") for line in
            subprocess.run([program], check=True, capture_output=True, encoding="utf-8").stdout.splitlines()]
    asked = "".join(f"{their_words(dimension, text)}\n{CANONICAL[dimension]}\n" for dimension, text, _ in rows)
    answer = subprocess.run(["units", "-q", "-t", "-o", "%.17g"], input=asked, capture_output=True, encoding="utf-8")
    theirs = answer.stdout.rstrip().splitlines()  # it ends with an empty line
    if len(theirs) != len(rows) or answer.stderr:
        print(f"{len(rows)} questions, {len(theirs)} answers from GNU units\n{answer.stdout}{answer.stderr}")
        return 1
    differ = 0
    for (dimension, text, ours), their_value in zip(rows, theirs):
        a, b = float(ours), float(their_value)
        if abs(a - b) > RELATIVE * abs(b):
            differ += 1
            print(f"{dimension} '{text}': {ours} by us, {their_value} by GNU units ({their_words(dimension, text)})")
    print(f"{len(rows)} values of {len(rows) // 2} units compared with GNU units, {differ} differ")
    return 1 if differ or len(rows) < 180 else 0


sys.exit(main())
