"""Puts the examples into docs/use-the-library.md, and says whether they stand there as they are.

usage: paste_examples.py TOP [--write]

A line "<!-- example: NAME -->" is followed by a cpp block: docs/examples/NAME.cpp without its head and includes of no
interest, and by a text block: what its head says that it prints (which its own test holds).
"""
import pathlib
import re
import sys

top = pathlib.Path(sys.argv[1])
page = top / "docs/use-the-library.md"
told = page.read_text(encoding="utf-8")


def pasted(name):
    source = (top / f"docs/examples/{name}.cpp").read_text(encoding="utf-8")
    head, code = re.match(r"((?://[^\n]*\n)+)(.*)", source, re.S).groups()
    printed = re.search(r"// Prints:\n((?://[^\n]*\n)+)", head).group(1)
    printed = re.sub(r"^//(   )?", "", printed, flags=re.M)
    return f"<!-- example: {name} -->\n```cpp\n{code.strip()}\n```\n\n```text\n{printed.rstrip()}\n```\n"


text = re.sub(r"@([a-z_]+)\n", lambda m: pasted(m.group(1)), told)
text = re.sub(r"<!-- example: (\w+) -->\n```cpp\n.*?\n```\n\n```text\n.*?\n```\n", lambda m: pasted(m.group(1)), text, flags=re.S)
if "--write" in sys.argv:
    page.write_text(text, encoding="utf-8")
elif text != told:
    sys.exit("docs/use-the-library.md does not show the examples as they are: run this with --write")
elif text.count("<!-- example: ") == 0:
    sys.exit("docs/use-the-library.md shows no example")
