"""The writer of mutants, held against a small program: with no mutant on it answers as before, and each mutant that
the compiler can make sense of changes its answer.

  mutate_test.py COMPILER
"""
import os
import pathlib
import subprocess
import sys
import tempfile

from mutate import Source, blanked, mutate

HERE = pathlib.Path(__file__).resolve().parent

PROGRAM = """
#include <cstdio>
#include <string>

namespace {
constexpr double slack = 1e-9; // a - b, 3 < 4
enum class Kind { one = 1, two = 2 };
template <class T> concept Wide = sizeof(T) == 4 ||
                                  sizeof(T) == 8;
static_assert(Wide<int>);
template <int n> struct Fixed { static constexpr int value = n; };
static_assert(Fixed<3>::value + 1 == 4);

bool within(double x, double low, double high) { return x >= low && x <= high; }
bool either(bool a, bool b) { return a || b; }
bool always() { return true; }
const char* word(Kind kind) {
    switch (kind) {
    case Kind::one:
        return "a + b";
    case Kind::two:
        break;
    }
    return "other";
}
} // namespace

int main() {
    double total = 10.0;
    total += 2.5;
    for (int i = 0; i < 3; ++i) total -= 0.5;
    const std::string text = std::string("sum") + word(Kind::one);
    std::printf("%g %g %d %d %d %d %d %d %s\\n", total * 3.0 / 7.0, total - slack * 1e9, within(2.0, 2.0, 4.0),
                within(4.0, 2.0, 4.0), within(5.0, 2.0, 4.0), either(true, false), always(), 7 == 7, text.c_str());
}
"""


def main():
    compiler = sys.argv[1]
    assert "3 < 4" not in blanked(PROGRAM) and "a + b" not in blanked(PROGRAM)
    assert len(blanked(PROGRAM)) == len(PROGRAM)

    text, mutants, last = mutate(Source("main.cpp", "apps", PROGRAM), 40)
    assert [m.id for m in mutants and sorted(mutants, key=lambda m: m.id)] == list(range(41, last + 1))
    lines = PROGRAM.split("\n")
    for m in mutants:  # each names its own place
        assert lines[m.line - 1].strip() == m.text
        assert m.change == "return negated" or lines[m.line - 1][m.column - 1:].startswith(m.change.split()[0]), m
    assert not any("static_assert" in m.text or "enum" in m.text for m in mutants)

    # A line that is off holds none, and the numbers of what comes before it stay.
    off = next(i for i, line in enumerate(lines) if "total += 2.5" in line)
    fewer = mutate(Source("main.cpp", "apps", PROGRAM, {off}), 40)[1]
    assert {m.line for m in mutants} - {m.line for m in fewer} == {off + 1}

    with tempfile.TemporaryDirectory() as folder:
        folder = pathlib.Path(folder)
        (folder / "main.cpp").write_text(text, encoding="utf-8")
        subprocess.run([compiler, "-std=c++20", f"-I{HERE}", "-o", folder / "program", folder / "main.cpp"], check=True)

        def answer(mutant):
            met = folder / "met"
            out = subprocess.run([folder / "program"], capture_output=True, text=True, timeout=20, check=True,
                                 env={**os.environ, "LAKEBOUND_MUTANT": str(mutant), "LAKEBOUND_MUTANTS_MET": str(met)})
            return out.stdout, {int(i) for i, _ in (line.split() for line in met.read_text().splitlines())}

        usual, known = answer(0)
        assert usual == "4.71429 10 1 1 0 1 1 1 suma + b\n", usual
        unlike = {m.id for m in mutants if m.id in known and answer(m.id)[0] != usual}
        same = [m for m in mutants if m.id in known and m.id not in unlike]
        # Six limits and values of `within` lie too far from each other to show.
        assert len(same) == 6 and all(m.change.endswith(" scaled") and "within(" in m.text for m in same), same
        # A sum of texts has no difference: it is written, and never announced.
        unknown = [m for m in mutants if m.id not in known]
        assert [m.change for m in unknown] == ["+ to -"], unknown
        print(f"{len(unlike)} mutants, each seen")


if __name__ == "__main__":
    main()
