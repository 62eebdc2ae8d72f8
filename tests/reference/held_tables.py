"""Prints a table made for the C++ tests, or holds the one that is kept to it: FILE.py, FILE.py --check KEPT."""
import re
import sys

import numpy as np


def print_or_check(lines, rtol, atol):
    """Rows of figures begin with four blanks and a brace; other versions of NumPy and SciPy may differ in the last digits."""
    made = list(lines)
    if sys.argv[1:2] != ["--check"]:
        print("\n".join(made))
        return
    with open(sys.argv[2], encoding="utf-8") as file:
        held = file.read().splitlines()
    if len(held) != len(made):
        sys.exit(f"{sys.argv[2]}: {len(held)} lines, {len(made)} wanted")
    for number, (mine, theirs) in enumerate(zip(made, held), 1):
        figures = [np.array([float(x) for x in re.findall(r"-?[0-9.]+(?:e[-+]?[0-9]+)?", text)] if text.startswith("    {") else [])
                   for text in (mine, theirs)]
        if figures[0].size != figures[1].size or not np.allclose(*figures, rtol=rtol, atol=atol):
            sys.exit(f"{sys.argv[2]}:{number} is not what NumPy and SciPy say")
    print(f"{len(made)} lines as {sys.argv[2]} has them")
