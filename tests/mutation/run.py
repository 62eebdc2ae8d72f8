#!/usr/bin/env python3
"""How many small mistakes in lib and include the tests of each room would see.

  tests/mutation/run.py --work DIR --rooms paint report --sample 100

Every place where one operator or one constant can be changed becomes a mutant behind a switch (mutate.py,
mutants.hpp) in a copy of the sources; the copy is built once. A seeded sample of each room's mutants is then turned on
one at a time, and those of that room's own test cases that meet it are run, the quick ones first: what they do not
notice has survived and is listed. A mutant that no case reaches counts as a survivor without being run; one that makes
them run three times as long as killed. Cases longer than --slowest seconds are left out and named. After new tests,
--again takes the survivors of an earlier --json, and no others.
Some survivors are no holes, for they change no output: a first guess of a search that ends at the same place, memory
set aside, what the compiler alone evaluates, a limit met by a single double. Those that were read and found so stand
in equivalent.txt with the reason; they are counted apart.

Needs CMake, Ninja and what the tests need; writes nothing outside of the folder --work.
"""
import argparse
import concurrent.futures
import dataclasses
import fnmatch
import json
import os
import pathlib
import random
import re
import resource
import shlex
import subprocess
import sys
import time

sys.dont_write_bytecode = True
from mutate import Source, mutate  # noqa: E402

HERE = pathlib.Path(__file__).resolve().parent
ROOT = HERE.parents[1]
ROOMS = ["quantity", "estimate", "material", "particle", "bath", "paint", "record", "page", "shelf", "report"]


def sources():
    """The files to mutate, by path; the room is the folder under lib/ or include/lakebound/."""
    found = {}
    for top in ("lib", "include/lakebound"):
        for path in sorted((ROOT / top).glob("*/*.?pp")):
            name = path.relative_to(ROOT).as_posix()
            found[name] = Source(name, path.parent.name, path.read_text(encoding="utf-8"))
    return found


def write_if_changed(path, text):
    if not path.exists() or path.read_text(encoding="utf-8") != text:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")


def lay_out(work):
    """The tree to build: lib and include as copies, everything else as it is."""
    work.mkdir(parents=True, exist_ok=True)
    for name in ("CMakeLists.txt", "README.md", "apps", "tests", "formulations", "docs"):
        if not (work / name).exists():
            (work / name).symlink_to(ROOT / name)
    for top in ("lib", "include"):
        for path in (ROOT / top).rglob("*"):
            if path.is_file() and not re.search(r"(lib|include/lakebound)/[^/]+/[^/]+\.[ch]pp$", path.as_posix()):
                write_if_changed(work / path.relative_to(ROOT), path.read_text(encoding="utf-8"))


def write_mutants(work, files):
    """Writes the copies; the mutants by number. Each file has its own numbers, whatever is off in another, with room
    for some more: a change of one file is no reason to build the others anew."""
    mutants, first = {}, 0
    for name, source in files.items():
        text, of_file, _ = mutate(source, first)
        first = (mutate(dataclasses.replace(source, off=set()), first)[2] + 63) // 32 * 32
        write_if_changed(work / name, text)
        mutants.update({m.id: m for m in of_file})
    return mutants


def constants_of(name, words, files, line=None):
    """Where constants of these names are declared, in the file that uses them or else in a header: an array wants its
    size while compiling."""
    for each in [name, *(other for other in files if other.endswith(".hpp"))]:
        found = {(each, at) for at, text in enumerate(files[each].text.split("\n"))
                 if "constexpr" in text and words & set(re.findall(r"(\w+)(?:\[\w*\])?\s*(?:=|\{)", text))}
        if found and (name, line) not in found:
            return found
    return set()


def faulty_lines(output, files):
    """Of each error the first line of our sources that it names, in its own words or in those around it."""
    at, faults, waiting = None, set(), False
    for line in output.splitlines():
        place = re.search(r"((?:lib|include/lakebound)/[^\s:]+\.[ch]pp):(\d+)", line)
        if place and place.group(1) in files:
            at = (place.group(1), int(place.group(2)) - 1)
            if waiting:
                faults.add(at)
                waiting = False
        if place and place.group(1) in files and "not initialized with a constant expression" in line:
            faults.add(at)
        if place and place.group(1) in files and "was not declared" in line and "constexpr" in line:
            faults.add(at)  # a note behind the error names the constant itself
        if " error: " in line:
            if place or at:
                faults.add(at)
                named = re.search(r"the value of .(?:.*::)?(\w+).(?: is)? not usable", line)
                if named:
                    faults |= constants_of(at[0], {named.group(1)}, files)
                elif re.search("size of array|constant.expression|non-constant", line):
                    words = set(re.findall(r"[a-z_]\w*", files[at[0]].text.split("\n")[at[1]]))
                    faults |= constants_of(at[0], words, files, at[1])
            else:
                waiting = True
        elif re.match(r"\[\d+/\d+\]|FAILED", line):
            at, waiting = None, False
    return faults


def keep_off(work, files):
    """By their words, for the next time the file has changed."""
    (work / "off.json").write_text(json.dumps(
        {name: sorted({text for line, text in enumerate(s.text.split("\n")) if line in s.off})
         for name, s in files.items() if s.off}))


def build(work, files, rooms, command, log):
    """Builds the tests of the rooms; what the compiler refuses is left as it was."""
    for attempt in range(12):
        mutants = write_mutants(work, files)
        run = subprocess.run([*command, *[f"{room}_test" for room in rooms]], cwd=work, text=True, capture_output=True)
        (log / f"build-{attempt}.log").write_text(run.stdout + run.stderr, encoding="utf-8")
        if run.returncode == 0:
            return mutants
        faults = faulty_lines(run.stdout + run.stderr, files)
        if not faults:
            sys.exit(f"the mutants do not build; see {log}/build-{attempt}.log")
        for name in sorted({name for name, _ in faults}):
            lines = {line for each, line in faults if each == name}
            if lines <= files[name].off:  # the fault lies elsewhere in the file
                lines = set(range(files[name].text.count("\n") + 1))
                print(f"{name} left as it was", flush=True)
            files[name].off |= lines
        print(f"{len(faults)} faults of the compiler taken out", flush=True)
        keep_off(work, files)
    sys.exit("the mutants do not build in twelve attempts")


def run_tests(program, words, mutant, seconds, met=None):
    """Whether the tests pass, how long they took. A mutant may ask for memory without end: it gets 4 GB."""
    environment = {**os.environ, "LAKEBOUND_MUTANT": str(mutant)}
    if met:
        environment["LAKEBOUND_MUTANTS_MET"] = str(met)
    start = time.monotonic()
    try:
        run = subprocess.run([program, "--abort", *words], env=environment, stdout=subprocess.DEVNULL,
                             stderr=subprocess.DEVNULL, timeout=seconds, cwd=program.parent,
                             preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_AS, (4 << 30, 4 << 30)))
        return run.returncode == 0, time.monotonic() - start
    except subprocess.TimeoutExpired:
        return False, seconds


def read_met(path):
    """The mutants that exist in a program, each with whether it was met."""
    pairs = (line.split() for line in path.read_text().splitlines())
    return {int(i): met == "1" for i, met in pairs}


@dataclasses.dataclass
class Case:
    name: str
    seconds: float
    met: set


def profile(program, arguments, work):
    """Each test case by itself: how long it takes and which mutants it meets; the slowest first left out."""
    listed = subprocess.run([program, "--list-test-names-only", *arguments.cases], text=True,
                            capture_output=True, cwd=program.parent).stdout
    cases, left_out, met_file = [], [], work / "case.met"
    for name in filter(None, (line.strip() for line in listed.splitlines())):
        met_file.unlink(missing_ok=True)
        passed, seconds = run_tests(program, [literal(name)], 0, arguments.slowest, met_file)
        if passed:
            cases.append(Case(name, seconds, {i for i, met in read_met(met_file).items() if met}))
        else:
            left_out.append(("longer than the limit: " if seconds >= arguments.slowest else "FAILS AS IT IS: ") + name)
    return sorted(cases, key=lambda case: case.seconds), left_out


def literal(name):
    """The name of a test case as Catch takes it word by word."""
    return re.sub(r'([\\,\[\]"~*])', r"\\\1", name)


def survives(program, mutant, cases):
    """Whether no case that meets the mutant fails: the quick ones at once, then ever more of the slow ones."""
    waiting = [case for case in cases if mutant in case.met]
    seconds, most = 0.0, 0.2
    while waiting:
        batch, seconds = [], 0.0
        while waiting and (not batch or seconds + waiting[0].seconds <= most):
            seconds += waiting[0].seconds
            batch.append(waiting.pop(0))
        if not run_tests(program, [",".join(literal(case.name) for case in batch)], mutant, 3.0 * seconds + 3.0)[0]:
            return False
        most *= 5.0
    return True


def key(mutant):
    """What a mutant is known by when others in its file have come or gone."""
    each = mutant if isinstance(mutant, dict) else vars(mutant)
    return each["file"], each["text"], each["column"], each["change"]


@dataclasses.dataclass
class Equivalent:
    files: str
    change: str
    text: re.Pattern
    column: int | None
    reason: str
    used: bool = False

    def holds(self, m):
        return (fnmatch.fnmatch(m.file, self.files) and fnmatch.fnmatch(m.change, self.change) and
                (self.column is None or self.column == m.column) and bool(self.text.search(m.text)))


def equivalents():
    """The mutants that were read and change no output: `files | change | words of the line | reason`; the change may
    name the column, for a line with two constants alike."""
    found = []
    for number, line in enumerate((HERE / "equivalent.txt").read_text(encoding="utf-8").splitlines(), 1):
        if not line.strip() or line.startswith("#"):
            continue
        parts = [part.strip() for part in line.split(" | ")]
        if len(parts) != 4:
            sys.exit(f"equivalent.txt:{number}: not files | change | words of the line | reason")
        change, _, column = parts[1].partition(" at ")
        text = parts[2][1:-1] if re.fullmatch("/.*/", parts[2]) else re.escape(parts[2])
        found.append(Equivalent(parts[0], change, re.compile(text), int(column) if column else None, parts[3]))
    return found


def measure(room, work, known, mutants, arguments, before):
    program = work / "build-dev" / "bin" / f"{room}_test"
    cases, left_out = profile(program, arguments, work)
    of_room = sorted(i for i in known if mutants[i].room == room)
    if before is not None:
        again = {key(m) for m in before.get(room, {}).get("survivors", [])}
        sample = [i for i in of_room if key(mutants[i]) in again]
    else:
        draw = random.Random(f"{arguments.seed} {room}")
        sample = of_room if len(of_room) <= arguments.sample else sorted(draw.sample(of_room, arguments.sample))
    reached = set().union(*(case.met for case in cases))
    start = time.monotonic()
    with concurrent.futures.ThreadPoolExecutor(arguments.jobs) as pool:
        alive = list(pool.map(lambda i: i not in reached or survives(program, i, cases), sample))
    survivors = {i: "not noticed" if i in reached else "not reached" for i, lives in zip(sample, alive) if lives}
    known_equivalent = equivalents()
    same = {i for i in survivors if any(e.holds(mutants[i]) for e in known_equivalent)}
    survivors = {i: why for i, why in survivors.items() if i not in same}
    telling = len(sample) - len(same)
    killed = telling - len(survivors)
    share = 100.0 * killed / telling if telling else 100.0
    print(f"\n{room}: {killed} of {telling} killed ({share:.1f} %), {len(same)} more change no output; "
          f"of {len(of_room)} in all, in {time.monotonic() - start:.0f} s", flush=True)
    for name in left_out:
        print(f"  left out, {name}")
    for i in sorted(survivors):
        m = mutants[i]
        print(f"  {m.file}:{m.line}:{m.column}: {m.change}, {survivors[i]} [{i}]\n      {m.text}", flush=True)
    return {"mutants": len(of_room), "sample": len(sample), "equivalent": len(same), "killed": killed,
            "survivors": [{**vars(mutants[i]), "why": why} for i, why in sorted(survivors.items())]}


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--work", type=pathlib.Path, required=True, help="folder for the copy and its build")
    parser.add_argument("--rooms", nargs="+", default=ROOMS, choices=ROOMS)
    parser.add_argument("--sample", type=int, default=100, help="mutants of each room, 100 if not given")
    parser.add_argument("--seed", default="1")
    parser.add_argument("--cases", nargs="+", default=[], help="of the tests, as Catch takes them: '~*to the six draws*'")
    parser.add_argument("--jobs", type=int, default=2)
    parser.add_argument("--slowest", type=float, default=10.0, help="seconds that a case may take, 10 if not given")
    parser.add_argument("--again", type=pathlib.Path, help="only the survivors of this result of an earlier run")
    parser.add_argument("--build", default="", help="command that takes the words of ninja; else ninja in build-dev")
    parser.add_argument("--json", type=pathlib.Path, help="write the result there too")
    arguments = parser.parse_args()

    work = arguments.work.resolve()
    build_dir = work / "build-dev"
    lay_out(work)
    files = sources()
    off = work / "off.json"
    if off.exists():
        for name, lines in json.loads(off.read_text()).items():
            if name in files:
                files[name].off = {i for i, line in enumerate(files[name].text.split("\n")) if line in lines}
    write_mutants(work, files)
    if not (build_dir / "build.ninja").exists():
        subprocess.run(["cmake", "-S", work, "-B", build_dir, "-G", "Ninja", "-DCMAKE_BUILD_TYPE=Release",
                        f"-DCMAKE_CXX_FLAGS=-I{ROOT}/tests/mutation -w -D_GLIBCXX_ASSERTIONS", "-DCMAKE_CXX_FLAGS_RELEASE=-O1"],
                       check=True, stdout=subprocess.DEVNULL)
    command = shlex.split(arguments.build) or ["ninja", "-C", str(build_dir), f"-j{arguments.jobs}"]
    command += ["-k", "0"]
    mutants = build(work, files, arguments.rooms, command, work)
    known = set()  # a program holds only what it is linked with; others may be of an older numbering
    for room in arguments.rooms:
        met = work / "known.met"
        run_tests(build_dir / "bin" / f"{room}_test", ["--list-test-names-only"], 0, 60, met)
        known |= {i for i in read_met(met) if i in mutants}
    before = json.loads(arguments.again.read_text(encoding="utf-8")) if arguments.again else None
    result = {}
    for room in arguments.rooms:
        result[room] = measure(room, work, known, mutants, arguments, before)
        if arguments.json:
            arguments.json.write_text(json.dumps(result, indent=1), encoding="utf-8")
    sample, same, killed = (sum(r[key] for r in result.values()) for key in ("sample", "equivalent", "killed"))
    print(f"\nall: {killed} of {sample - same} killed ({100.0 * killed / max(1, sample - same):.1f} %), "
          f"{same} more change no output")


if __name__ == "__main__":
    main()
