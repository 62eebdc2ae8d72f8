#!/usr/bin/env python3
"""A whole studio by an independent general-purpose Gibbs sampler (JAGS), beside the library, in one run.

usage: studio_sampled.py <program studio_values> [--jars N] [--swatches N] [--draws N] [--chains N] [--check]
Exit 77 (skipped, said aloud) where the sampler is not there.

The model is written again here, from docs/theory.md, section 11: the spread between jars and the odd maker are drawn like
all the rest, where the library has five and two weighted values for them. Printed: mean and sd of the critical ln k of
the first jar, the chance of the window at the library's aim, their Monte Carlo errors (from the chains), both times, and
how many times as fast the library is *at the sampler's accuracy*: the time it would need to bring its error of the chance
to a tenth of a point, by its own draws.
"""
import argparse
import json
import math
import pathlib
import shutil
import subprocess
import sys
import tempfile
import time

MODEL = """model {
  for (p in 1:P) { plant_mean[p] ~ dnorm(0, 1 / pow(0.26, 2)) }
  ln_b ~ dnorm(log(0.15), 1 / pow(0.40, 2))
  b_jar <- exp(ln_b)
  odd ~ dbern(0.10)
  hand ~ dnorm(0, 1 / pow(0.05, 2))
  bias ~ dnorm(0, 1 / pow(0.05, 2))
  widened <- 1 + odd * (pow(2.5, 2) - 1)
  for (k in 1:2) {
    step[k] ~ dnorm(0, 1 / (widened * (pow(0.08, 2) + pow(0.04, 2))))
    rich[k] ~ dnorm(log(2.4), 1 / pow(0.15, 2))
  }
  for (j in 1:J) {
    d[j] ~ dnorm(plant_mean[plant[j]], 1 / pow(b_jar, 2))
    for (k in 1:2) {
      own[j, k] ~ dnorm(0, 1 / (pow(0.06, 2) + pow(0.03, 2) + pow(0.04, 2)))
      c[j, k] <- d[j] + step[k] + own[j, k]
    }
  }
  for (i in 1:R) { y[i] ~ dnorm(d[r_jar[i]] + hand, 1 / pow(repeat_spread, 2)) }
  for (i in 1:T) {
    lean[i] ~ dbern(ilogit((c[t_jar[i], t_kind[i]] + bias - x[i]) / w[i]))
  }
  for (i in 1:H) { not_rich[i] ~ dbern(ilogit((c[h_jar[i], h_kind[i]] + bias + rich[h_kind[i]] - h_x[i]) / h_w[i])) }
  asked <- c[1, 1]
}
"""


def r_vector(values):
    return "c(" + ", ".join(f"{v:.10g}" for v in values) + ")"


def data_text(studio):
    trials, rub_outs = studio["trials"], studio["rub_outs"]
    watched = [t for t in trials if t["watched"]]
    width = lambda w, t: math.hypot(w, t["spread"] / 1.7)
    return "\n".join([
        f"P <- {max(studio['plant']) + 1}", f"J <- {len(studio['plant'])}", f"R <- {len(rub_outs)}", f"T <- {len(trials)}",
        f"H <- {len(watched)}", f"repeat_spread <- {studio['repeat_spread']:.10g}",
        "plant <- " + r_vector(p + 1 for p in studio["plant"]),
        "y <- " + r_vector(r["y"] for r in rub_outs), "r_jar <- " + r_vector(r["jar"] + 1 for r in rub_outs),
        "x <- " + r_vector(t["x"] for t in trials), "lean <- " + r_vector(int(t["lean"]) for t in trials),
        "t_jar <- " + r_vector(t["jar"] + 1 for t in trials), "t_kind <- " + r_vector(t["kind"] + 1 for t in trials),
        "w <- " + r_vector(width(0.06, t) for t in trials),
        "not_rich <- " + r_vector(1 for _ in watched), "h_x <- " + r_vector(t["x"] for t in watched),
        "h_jar <- " + r_vector(t["jar"] + 1 for t in watched), "h_kind <- " + r_vector(t["kind"] + 1 for t in watched),
        "h_w <- " + r_vector(width(0.10, t) for t in watched), ""])


def sampled(studio, chains, burn_in, draws):
    """The chains of ln c of the first jar, and the seconds they took."""
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        (folder / "model.txt").write_text(MODEL, encoding="utf-8")
        (folder / "data.txt").write_text(data_text(studio), encoding="utf-8")
        start = "".join(f'parameters in "start{i}.txt", chain({i})\n' for i in range(1, chains + 1))
        for i in range(1, chains + 1):
            (folder / f"start{i}.txt").write_text(
                f'".RNG.name" <- "base::Mersenne-Twister"\n".RNG.seed" <- {100 + i}\n', encoding="utf-8")
        (folder / "run.cmd").write_text(
            f'model in "model.txt"\ndata in "data.txt"\ncompile, nchains({chains})\n{start}initialize\nupdate {burn_in}\n'
            f"monitor asked\nupdate {draws}\ncoda asked, stem(\"out\")\nexit\n", encoding="utf-8")
        begun = time.perf_counter()
        run = subprocess.run(["jags", "run.cmd"], cwd=folder, capture_output=True, text=True, check=False)
        seconds = time.perf_counter() - begun
        if run.returncode != 0:
            raise AssertionError(run.stdout + run.stderr)
        return [[float(line.split()[1]) for line in (folder / f"outchain{i}.txt").read_text().splitlines()]
                for i in range(1, chains + 1)], seconds


def mean_and_error(values_by_chain, batches=20):
    """Of all draws, with the error by batch means, which sees how draws hang together."""
    means, every = [], []
    for values in values_by_chain:
        size = len(values) // batches
        means += [sum(values[i * size:(i + 1) * size]) / size for i in range(batches)]
        every += values
    mean = sum(every) / len(every)
    centre = sum(means) / len(means)
    variance = sum((m - centre) ** 2 for m in means) / (len(means) - 1)
    return mean, math.sqrt(variance / len(means))


def normal_cdf(x):
    return 0.5 * math.erfc(-x / math.sqrt(2.0))


def window(k):
    """Chance in % that a batch meant for this k, with .01 of its own, lands in the window of pans, given ln c."""
    low, high = math.log(1.2 / k), math.log(1.8 / k)
    return lambda c: 100.0 * (normal_cdf((high + c) / 0.01) - normal_cdf((low + c) / 0.01))


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("program")
    parser.add_argument("--jars", type=int, default=3)
    parser.add_argument("--swatches", type=int, default=12)
    parser.add_argument("--draws", type=int, default=20000)
    parser.add_argument("--chains", type=int, default=4)
    parser.add_argument("--burn-in", type=int, default=2000)
    parser.add_argument("--check", action="store_true")
    options = parser.parse_args()
    if shutil.which("jags") is None:
        print("skipped: the sampler (Debian package jags) is not installed")
        return 77
    run = subprocess.run([options.program, str(options.jars), str(options.swatches)], capture_output=True, text=True, check=True)
    studio = json.loads(run.stdout)
    chains, seconds = sampled(studio, options.chains, options.burn_in, options.draws)
    mean, mean_error = mean_and_error(chains)
    square, _ = mean_and_error([[(c - mean) ** 2 for c in chain] for chain in chains])
    chance, chance_error = mean_and_error([[window(studio["best_k"])(c) for c in chain] for chain in chains])
    there, there_error = mean_and_error([[window(1.47)(c) for c in chain] for chain in chains])
    print(f"{options.jars} jars, {len(studio['rub_outs'])} rub-outs, {options.swatches} swatches; {options.chains} chains of {options.draws}")
    print(f"  mean of ln c      library {studio['mean']:8.4f}   sampler {mean:8.4f} +- {mean_error:.4f}")
    print(f"  sd                library {studio['sd']:8.4f}   sampler {math.sqrt(square):8.4f}")
    print(f"  window at the aim library {studio['best_chance']:7.2f} %  sampler {chance:7.2f} +- {chance_error:.2f} %")
    print(f"  window at k 1.47  library {studio['chance_at_147']:7.2f} %  sampler {there:7.2f} +- {there_error:.2f} %")
    wanted = seconds * (chance_error / 0.1) ** 2
    print(f"  library {1e3 * studio['seconds']:.2f} ms; sampler {seconds:.1f} s, {wanted:.1f} s to a tenth of a point: "
          f"{wanted / studio['seconds']:.0f} times as long")
    faults = []
    if abs(studio["mean"] - mean) > 4.0 * mean_error + 0.004:
        faults.append("the means differ")
    if abs(studio["sd"] / math.sqrt(square) - 1.0) > 0.05:
        faults.append("the sds differ")
    if abs(studio["best_chance"] - chance) > 4.0 * chance_error + 0.5:
        faults.append("the chances at the aim differ")
    if abs(studio["chance_at_147"] - there) > 4.0 * there_error + 0.7:
        faults.append("the chances at k 1.47 differ")
    for fault in faults:
        print("FAILED: " + fault)
    return 1 if options.check and faults else 0


if __name__ == "__main__":
    sys.exit(main())
