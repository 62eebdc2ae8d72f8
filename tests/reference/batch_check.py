#!/usr/bin/python3
"""Works out three whole batches again, in plain Python, and compares them with the library's numbers.

usage: batch_check.py BATCH_VALUES-PROGRAM

Nothing of the library is used but its answers. The ways differ on purpose: the medium is found by
bisection on k where the library solves a linear equation; additives are found by iteration; the water
held by glycerol by stepping its activity; uncertainties by a two-sided difference of each input over
the whole calculation. Materials are those of tests/support/worked_paints.hpp, typed in again.
"""
import math
import subprocess
import sys

WATER = 0.9982071  # g/mL
# id: role, density of the solids, non-volatile fraction, density when mixed wet (None: as solids + water)
INGREDIENTS = {
    "gum-arabic": ("gum", 1.42, 0.88, None),
    "water": ("water", 1.0, 0.0, WATER),
    "glycerol": ("glycerol", 1.261, 1.0, 1.261),
    "honey": ("sugar", 1.55, 0.82, 1.42),
    "clove-oil": ("trace", 1.0, 0.0, 1.045),
    "linseed-oil": ("oil", 0.93, 1.0, 0.93),
    "beeswax": ("wax", 0.96, 1.0, 0.96),
    "egg-yolk": ("yolk", 1.0940, 0.4769, 1.04273),
}
BASE = {"gum-arabic": 100, "water": 200, "glycerol": 25, "honey": 15}
LAKE = {"oa": 68.78, "oil": 0.93, "rho": 1.88}
CHALK = {"oa": 18.0, "oil": 0.93, "rho": 2.70}


def dry_volume(name, grams):
    role, solids, stays, _ = INGREDIENTS[name]
    return 0.0 if role in ("water", "trace") else grams * stays / solids


def wet_volume(name, grams):
    _, solids, stays, mixed = INGREDIENTS[name]
    if mixed is None:
        return grams * stays / solids + grams * (1 - stays) / WATER
    return grams / mixed


def compose(batch, medium_per_pigment, pigment=1.0):
    """Everything on the slab; the additives by iteration until the masses stand still."""
    medium = medium_per_pigment * pigment
    water = batch["water"] * pigment * WATER
    total_parts = sum(batch["medium"].values())
    parts = {k: medium * v / total_parts for k, v in batch["medium"].items()}
    additives = [0.0] * len(batch["additives"])
    for _ in range(200):
        paint = pigment + medium + water + sum(additives)
        basis = {"medium": medium, "pigment": pigment, "paint": paint}
        additives = [dose * basis[of] for _, dose, of in batch["additives"]]
    return {"pigment": pigment, "medium": medium, "parts": parts, "additives": additives, "water": water,
            "paint": pigment + medium + water + sum(additives)}


def binder(batch, slab):
    v = sum(dry_volume(k, g) for k, g in slab["parts"].items())
    return v + sum(dry_volume(a[0], g) for a, g in zip(batch["additives"], slab["additives"]))


def film(batch, pigment_masses, v_b, factor=lambda key: 1.0):
    """k, PVC, CPVC, reduced PVC with every input multiplied by its factor."""
    masses = [m * factor("moisture %d" % i) * factor("weighing %d" % i) for i, m in enumerate(pigment_masses)]
    volume = wanted = 0.0
    for i, (m, p) in enumerate(zip(masses, (x[0] for x in batch["pigments"]))):
        volume += m / (p["rho"] * factor("rho %d" % i))
        wanted += m * p["oa"] / 100 / p["oil"] * factor("oa %d" % i) * factor("transfer")
    index = batch["index"] * factor("index")
    v_b = v_b * factor("solids") * factor("density")
    k = v_b * index / wanted
    pvc = volume / (volume + v_b)
    cpvc = volume / (volume + wanted / index)
    return {"k": k, "pvc": pvc, "cpvc": cpvc, "reduced_pvc": pvc / cpvc}


def held_water(batch, slab, humidity):
    """Grams of water in the cake: gum by GAB, glycerol and sugar by Norrish, stepping up to the humidity."""
    dry = {"gum": 0.0, "glycerol": 0.0, "sugar": 0.0}
    for name, grams in list(slab["parts"].items()) + [(a[0], g) for a, g in
                                                      zip(batch["additives"], slab["additives"])]:
        role, _, stays, _ = INGREDIENTS[name]
        if role in dry:
            dry[role] += grams * stays
    c, kk = 10.0, 0.82
    a = humidity
    gum = 0.0846 * c * kk * a / ((1 - kk * a) * (1 - kk * a + c * kk * a))

    def norrish(constant, molar):
        water, step = 0.0, 0.1
        while step > 1e-13:
            x_w = ((water + step) / 18.015) / ((water + step) / 18.015 + 1 / molar)
            if x_w * math.exp(constant * (1 - x_w) ** 2) < humidity:
                water += step
            else:
                step /= 10
        return water

    return dry["gum"] * gum + dry["glycerol"] * norrish(-1.16, 92.094) + dry["sugar"] * norrish(-2.25, 180.16)


def shares_of(batch, total):
    return [total * share for _, share in batch["pigments"]]


def solve(batch):
    """Medium per pigment for the aim, by bisection."""
    def reached(m):
        slab = compose(batch, m)
        f = film(batch, shares_of(batch, 1.0), binder(batch, slab))
        return f["k"] - batch["k"] if "k" in batch else batch["reduced_pvc"] - f["reduced_pvc"]
    low, high = 0.0, 100.0
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if reached(middle) < 0 else (low, middle)
    return (low + high) / 2


def carriers_beside(batch, slab):
    """Grams of water that stock solutions bring and that no working water is taken off for; spirit for a drop of
    clove oil would be more than one part in twenty of the medium, and is not offered."""
    least = 2 * 0.41 * batch["step"] / 0.05
    water, beside = slab["water"], 0.0
    for (name, _, _), g in zip(batch["additives"], slab["additives"]):
        if g >= least or INGREDIENTS[name][0] not in ("gum", "glycerol"):
            continue
        stock = next(g / s for s in (0.1, 0.05, 0.02, 0.01, 0.005) if g / s >= least)
        strength = g / stock
        if water >= stock - g:
            water -= to_step(stock, batch["step"]) * (1 - strength)
        else:
            beside += stock - g
    return beside


def volumes(batch, slab):
    v_p = sum(m / p["rho"] for m, (p, _) in zip(shares_of(batch, slab["pigment"]), batch["pigments"]))
    wet = v_p + slab["water"] / WATER + sum(wet_volume(k, g) for k, g in slab["parts"].items())
    wet += sum(wet_volume(a[0], g) for a, g in zip(batch["additives"], slab["additives"]))
    wet += carriers_beside(batch, slab) / WATER
    dry = v_p + binder(batch, slab)
    cake = dry + (held_water(batch, slab, 0.5) / WATER if batch["air"] else 0.0)
    return wet, dry, cake


def to_step(x, step):
    return math.floor(x / step + 0.5) * step


def rounded_k(batch, slab, step):
    """k of the masses to the scale's step; what is too little to weigh goes in as a stock solution."""
    least = 2 * 0.41 * step / 0.05
    masses = [to_step(m, step) for m in shares_of(batch, slab["pigment"])]
    medium, v_b = slab["medium"], 0.0
    for (name, _, _), g in zip(batch["additives"], slab["additives"]):
        role = INGREDIENTS[name][0]
        if g >= least:
            v_b += dry_volume(name, to_step(g, step))
            continue
        if role == "wax":  # 5 % in the oil of the paint, or weaker if that is too little to weigh
            strength = next(s for s in (0.05, 0.02, 0.01, 0.005) if g / s >= least)
            stock = to_step(g / strength, step)
            v_b += dry_volume(name, stock * strength) + dry_volume("linseed-oil", stock * (1 - strength))
            medium -= stock * (1 - strength)
        elif role in ("gum", "glycerol"):  # in water
            strength = next(s for s in (0.1, 0.05, 0.02, 0.01, 0.005) if g / s >= least)
            v_b += dry_volume(name, to_step(g / strength, step) * strength)
    total = sum(batch["medium"].values())
    medium = to_step(medium, step)
    v_b += sum(dry_volume(k, medium * v / total) for k, v in batch["medium"].items())
    return film(batch, masses, v_b)["k"]


def spreads(batch, slab, step):
    """Standard deviations of ln k, ln PVC and ln reduced PVC by two-sided differences."""
    pigments = shares_of(batch, slab["pigment"])
    u = 0.41 * step
    inputs = {"oa 0": math.log(1.35), "rho 0": 0.2 / LAKE["rho"], "solids": 0.04, "density": 0.04,
              "transfer": 0.10, "index": batch["index_u"] / batch["index"]}
    for i, m in enumerate(pigments):
        inputs["moisture %d" % i] = 0.03
        inputs["weighing %d" % i] = u / m
    least = 2 * u / 0.05
    lines = [("", slab["medium"], sum(dry_volume(k, g) for k, g in slab["parts"].items()))]
    for (name, _, _), g in zip(batch["additives"], slab["additives"]):
        if dry_volume(name, g) > 0:
            first = (0.05, 0.02) if INGREDIENTS[name][0] == "wax" else (0.1, 0.05)
            weighed = g if g >= least else next(g / s for s in first if g / s >= least)
            lines.append((name, weighed, dry_volume(name, g)))
    v_b = sum(v for _, _, v in lines)
    total = {"k": 0.0, "pvc": 0.0, "reduced_pvc": 0.0}

    def add(up, down):
        for key in total:
            total[key] += ((math.log(up[key]) - math.log(down[key])) / 2e-6) ** 2

    for key, sd in inputs.items():
        ends = [film(batch, pigments, v_b, lambda n, s=s: 1 + s * 1e-6 * sd if n == key else 1.0) for s in (1, -1)]
        add(*ends)
    for _, mass, volume in lines:
        add(*[film(batch, pigments, v_b + s * 1e-6 * volume * u / mass) for s in (1, -1)])
    return {key: math.sqrt(v) for key, v in total.items()}


def chances(batch, slab, k, s):
    """P(k < 1) and P(in the window): the curved inputs, the lake's oil absorption and the binder index, on a
    fine grid each; the rest of ln k is normal. One of the two is exact in every batch here but for the pans'
    and the tube's oil absorption, which is linear where there is one pigment."""
    masses = shares_of(batch, slab["pigment"])
    oils = [m * p["oa"] for m, (p, _) in zip(masses, batch["pigments"])]
    share = oils[0] / sum(oils)
    oa = math.log(1.35)
    rest = math.sqrt(s["k"] ** 2 - (share * oa) ** 2 - (batch["index_u"] / batch["index"]) ** 2)
    low, high = batch["window"]
    cdf = lambda z: 0.5 * math.erfc(-z / math.sqrt(2))
    grid = [(i - 200) / 25 for i in range(401)]
    weight = [math.exp(-z * z / 2) for z in grid]
    under = window = 0.0
    for z, w in zip(grid, weight):
        first = math.log(share * math.exp(oa * z) + 1 - share)
        for y, v in zip(grid, weight) if batch["index_u"] else [(0.0, sum(weight))]:
            e = min(1.0, max(0.1, batch["index"] + batch["index_u"] * y))
            centre = math.log(k) - first + math.log(e / batch["index"])
            under += w * v * cdf(-centre / rest)
            window += w * v * (cdf((math.log(high) - centre) / rest) - cdf((math.log(low) - centre) / rest))
    return under / sum(weight) ** 2, window / sum(weight) ** 2


def evaluate(batch):
    m = solve(batch)
    unit = compose(batch, m)
    wet, dry, cake = volumes(batch, unit)
    filled = cake if batch["pan"] else wet
    per_vessel = batch["capacity"] * batch["fill"] / filled
    pigment = batch.get("pigment")
    if pigment is None:
        pigment = (batch["vessels"] * per_vessel + 0.6) / (1 - 0.03)
    slab = compose(batch, m, pigment)
    wet, dry, cake = volumes(batch, slab)
    f = film(batch, shares_of(batch, pigment), binder(batch, slab))
    loss = 0.6 + 0.03 * pigment
    out = {"pigment_g": pigment, "medium_g": slab["medium"],
           "medium_mL": sum(wet_volume(k, g) for k, g in slab["parts"].items()),
           "working_water_g": slab["water"], "paint_g": slab["paint"] + carriers_beside(batch, slab), "wet_mL": wet, "dry_mL": dry,
           "cake_mL": cake, "loss_g": loss, "vessels": (pigment - loss) / per_vessel,
           "k_rounded": rounded_k(batch, slab, batch["step"])}
    out.update(f)
    out.update({"part.%s_g" % k: g for k, g in slab["parts"].items()})
    out.update({"additive.%s_g" % a[0]: g for a, g in zip(batch["additives"], slab["additives"])})
    if batch["pan"]:
        filled, pours = 0.0, 0
        while filled < batch["fill"] * (1 - 1e-9):  # pour by pour: a brim pour leaves r of the room it fills
            filled += (1 - filled) * cake / wet
            pours += 1
        out["brim_pours"] = pours
        out["third_pours"] = math.ceil(batch["fill"] / (cake / wet / 3))
    s = spreads(batch, slab, batch["step"])
    out["sigma"] = s["k"]
    out["underbound"], out["in_window"] = chances(batch, slab, f["k"], s)
    out["pvc_uncertainty"] = f["pvc"] * s["pvc"]
    out["reduced_pvc_uncertainty"] = f["reduced_pvc"] * s["reduced_pvc"]
    return out


BATCHES = {
    "pans": {"pigments": [(LAKE, 0.7), (CHALK, 0.3)], "medium": BASE, "index": 1.0, "index_u": 0.0, "water": 0.5,
             "additives": [("clove-oil", 0.001, "medium"), ("gum-arabic", 0.03, "pigment"),
                           ("glycerol", 0.02, "paint")],
             "reduced_pvc": 0.75, "vessels": 12, "capacity": 2.0, "fill": 0.9, "pan": True, "air": True,
             "step": 0.1, "window": (1.2, 1.8)},
    "tube": {"pigments": [(LAKE, 1.0)], "medium": {"linseed-oil": 1}, "index": 1.0, "index_u": 0.0, "water": 0.0,
             "additives": [("beeswax", 0.02, "medium")], "k": 1.35, "pigment": 10.0, "capacity": 15.0, "fill": 1.0,
             "pan": False, "air": False, "step": 0.1, "window": (1.15, 1.7)},
    "egg": {"pigments": [(LAKE, 1.0)], "medium": {"egg-yolk": 1}, "index": 0.85, "index_u": 0.07, "water": 0.0,
            "additives": [], "k": 1.1, "pigment": 10.0, "capacity": 15.0, "fill": 1.0, "pan": False, "air": False,
            "step": 0.01, "window": (0.9, 1.4)},
}
# Both sides compute in double; bisection, iteration and differences leave less than this. The chances of a
# curved doubt rest on a sum matched by its moments.
TOLERANCE = {"sigma": 1e-5, "underbound": 2e-3, "in_window": 1e-3, "pvc_uncertainty": 1e-5, "reduced_pvc_uncertainty": 1e-5,
             "cake_mL": 1e-6, "wet_mL": 1e-9}


def main():
    text = subprocess.run([sys.argv[1]], check=True, capture_output=True, text=True).stdout
    library = dict(line.split("=") for line in text.split())
    wrong, compared = [], 0
    for name, batch in BATCHES.items():
        for key, mine in evaluate(batch).items():
            theirs = float(library.pop("%s.%s" % (name, key)))
            compared += 1
            if abs(theirs - mine) > TOLERANCE.get(key, 1e-6) * max(abs(mine), 1e-9):
                wrong.append("%s.%s: library %.12g, here %.12g" % (name, key, theirs, mine))
    wrong += ["not worked out here: " + key for key in library]
    print("\n".join(wrong) if wrong else "%d numbers of %d batches agree" % (compared, len(BATCHES)))
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
