"""Replays every `console` block of the README and docs and compares what is printed.

usage: replay.py TOP BIN [--write]

A line that begins with `$ ` is a command; the lines under it are what it prints, standard error
included. A line of three dots stands for any number of lines. The commands of one block run in one
shell, in a fresh folder in which `formulations` is a copy of the shipped shelf, with BIN first on the
path. All blocks of a document that holds the remark `<!-- its blocks are one sitting -->` run in one shell
and one folder, from the first to the last: what one block writes the next one finds.
A block that does not replay is shown with the difference, and the exit status is 1. With --write it
is written anew, each line of three dots kept where its neighbours went: read the difference afterwards.
"""
import difflib
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

MARK = "\x1e end of command \x1e"
SITTING = "<!-- its blocks are one sitting -->"


def blocks(path):
    lines, inside, start, found = [], False, 0, []
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
        if not inside and line.strip() == "```console":
            inside, start, lines = True, number, []
        elif inside and line.strip() == "```":
            inside = False
            found.append((start, lines))
        elif inside:
            lines.append(line)
    if inside:
        raise SystemExit(f"{path}:{start}: console block never ends")
    return found


def commands(lines):
    result = []
    for line in lines:
        if line.startswith("$ "):
            result.append([line[2:], []])
        elif result and result[-1][0].endswith("\\"):
            result[-1][0] += "\n" + line
        elif result:
            result[-1][1].append(line)
    return result


def matches(expected, actual):
    if not expected:
        return not actual
    if expected[0] == "...":
        return any(matches(expected[1:], actual[i:]) for i in range(len(actual) + 1))
    return bool(actual) and expected[0] == actual[0] and matches(expected[1:], actual[1:])


def strip(lines):
    lines = [line.rstrip() for line in lines]
    while lines and not lines[-1]:
        lines.pop()
    while lines and not lines[0]:
        lines.pop(0)
    return lines


def renewed(expected, actual):
    """The documented lines with what is printed today: every run between dots becomes the part of
    `actual` that it came from, as far as the lines that still agree tell."""
    literal = [line for line in expected if line != "..."]
    where = {}
    for a, b, size in difflib.SequenceMatcher(None, literal, actual, autojunk=False).get_matching_blocks():
        where.update((a + i, b + i) for i in range(size))
    result, done, at = [], 0, 0
    runs = [[]]
    for line in expected:
        if line == "...":
            runs.append([])
        else:
            runs[-1].append(at)
            at += 1
    for number, run in enumerate(runs):
        if number:
            result.append("...")
        if not run:
            continue
        known = [i for i in run if i in where]
        if not known:
            raise SystemExit("nothing of this run is printed any more; write it by hand:\n  " + literal[run[0]])
        start = 0 if number == 0 else where[known[0]] - (known[0] - run[0])
        end = len(actual) if number == len(runs) - 1 else where[known[-1]] + 1 + (run[-1] - known[-1])
        start = max(start, done)
        result += actual[start:end]
        done = end
    return result


def rewrite(path, start, steps, printed):
    lines = path.read_text(encoding="utf-8").splitlines()
    end = next(i for i in range(start, len(lines)) if lines[i].strip() == "```")
    body = []
    for (command, expected), actual in zip(steps, printed):
        expected, actual = strip(expected), strip(actual.splitlines())
        body += ("$ " + command).split("\n")
        body += expected if matches(expected, actual) else renewed(expected, actual)
        body.append("")
    lines[start:end] = body[:-1]
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")


def sittings(path):
    """The blocks of a document in the groups that are run together, each as its line and its commands."""
    found = [(start, commands(lines)) for start, lines in blocks(path)]
    if SITTING in path.read_text(encoding="utf-8").splitlines():
        return [found] if found else []
    return [[block] for block in found]


def printed_by(steps, shelf, environment):
    """What each of the commands prints, run one after the other in a folder that is thrown away."""
    script = "".join(f"{command}\n(exit $?); status=$?; printf '%s\\n' '{MARK}'; (exit $status)\n"
                     for command, _ in steps)
    with tempfile.TemporaryDirectory() as scratch:
        shutil.copytree(shelf, pathlib.Path(scratch) / "formulations")
        run = subprocess.run(["sh", "-c", script], cwd=scratch, env=environment, text=True, timeout=120,
                             stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
    return run.stdout.split(MARK + "\n")


def main():
    sys.setrecursionlimit(10000)
    top, write = pathlib.Path(sys.argv[1]).resolve(), "--write" in sys.argv[3:]
    bin_folder = str(pathlib.Path(sys.argv[2]).resolve())
    failed = passed = 0
    environment = {k: v for k, v in os.environ.items() if not k.startswith(("LAKEBOUND", "XDG"))}
    environment.update(PATH=bin_folder + os.pathsep + environment["PATH"], NO_COLOR="1", LC_ALL="C.UTF-8")
    for path in [top / "README.md", *sorted((top / "docs").glob("*.md"))]:
        stale = []
        for sitting in sittings(path):
            parts = printed_by([step for _, steps in sitting for step in steps], top / "formulations", environment)
            for start, steps in sitting:
                here, parts = parts[:len(steps)], parts[len(steps):]
                if not steps:
                    print(f"{path.name}:{start}: a console block without a command")
                    failed += 1
                    continue
                before = failed
                for (command, expected), actual in zip(steps, here):
                    expected, actual = strip(expected), strip(actual.splitlines())
                    if matches(expected, actual):
                        passed += 1
                        continue
                    failed += 1
                    print(f"{path.name}:{start}: $ {command}")
                    print("\n".join(difflib.unified_diff(expected, actual, "documented", "printed", lineterm="")))
                if failed > before:
                    stale.append((start, steps, here))
        if write: # from the last block to the first, so that the places of those still to come stay true
            for start, steps, here in reversed(stale):
                rewrite(path, start, steps, here)
    print(f"{passed} commands replayed as documented, {failed} not")
    return 1 if failed or not passed else 0


if __name__ == "__main__":
    sys.exit(main())
