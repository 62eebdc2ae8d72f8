"""Makes docs/compile-errors.md of the pairs in this folder, and says whether it is as it should be.

usage: write_page.py TOP COMPILER INCLUDE... [--write]

Each pair is a source that compiles as it stands and must not with LAKEBOUND_BAD. Its page shows the mistake, what the
compiler says of it, and the cure. Messages are those of g++ 12: with another compiler all but them is compared.
"""
import pathlib
import re
import subprocess
import sys

HEAD = """# When it does not compile

The types of Lakebound keep a mass from a volume, and a share by mass from a share by volume. The compiler says so at
length; the first line with `error:` that names your file is the one to read, or for an assignment the one that says
`required from here`. Here are the classic mistakes, what
g++ 12 says of each (what stands in `<...>` is left out), and the cure. clang++ words it as `no viable conversion`, `no
matching function` or `invalid operands`. This page is made of sources that the tests compile
(`tests/compile_fail`).

`Mass`, `Volume` and their like are `quantity<unit<...>>` in messages, `MassFraction` and its like `Ratio<...>`:
the name that tells them apart is the one inside.
"""


def collapse(text):
    """Template arguments below the first level left out."""
    result, depth = "", 0
    for at, letter in enumerate(text):
        if letter == "<" and re.match(r"\w", text[at - 1]):
            depth += 1
            result += "<...>" if depth == 2 else "<" if depth == 1 else ""
        elif letter == ">" and depth:
            depth -= 1
            result += ">" if depth == 0 else ""
        elif depth < 2:
            result += letter
    return result


def message_of(source, compiler, includes):
    text = source.read_text()
    bad = text[: text.index("// BAD")].count("\n") + 1
    command = [compiler, "-std=c++20", "-fsyntax-only", "-w", "-DLAKEBOUND_BAD", *[f"-I{i}" for i in includes], source]
    said = subprocess.run(command, capture_output=True, text=True, env={"LC_ALL": "C", "PATH": "/usr/bin:/bin"}).stderr
    here = f"{source.name}:{bad}:" in said
    line = next((m for m in re.findall(r"error: (.*)", said)), "")
    own = re.search(rf"{re.escape(source.name)}:{bad}:\d+: error: (.*)", said)
    if own:
        line = own.group(1)
    assert here and line, f"{source}: nothing is said of line {bad}"
    line = line.replace("lakebound::ratio_tag::", "").replace("lakebound::", "").replace("boost::units::", "")
    line = re.sub(r"\{aka .*?\}(?=\W|$)", "", line)
    line = re.sub(r"(\d\.\d+?)(?:0{6,}\d*|9{6,}\d*)e([+-]\d+)", lambda m: f"{float(m.group(0)):g}", line)
    return re.sub(" +(?=[ )])", "", collapse(line)).rstrip()


def sentence(source):
    lines = []
    for line in source.read_text().splitlines():
        if not line.startswith("// ") or line.startswith("// expect:"):
            break
        lines.append(line[3:])
    return " ".join(lines)


def code(source):
    bad, good = re.search(r"#ifdef LAKEBOUND_BAD\n(.*?)#else\n(.*?)#endif", source.read_text(), re.S).groups()
    strip = lambda text: "\n".join(line.strip().replace(" // BAD", "") for line in text.strip().splitlines())
    return strip(bad), strip(good)


def section(source, message):
    said = sentence(source)
    title = source.stem.replace("_", " ")
    title = re.sub(r"\bc?pvc\b", lambda m: m.group(0).upper(), title)
    title = re.sub(r"\b[Pp]h\b", "pH", title)
    title = title if title.startswith(("k ", "pH ")) else title[0].upper() + title[1:]
    bad, good = code(source)
    return (f"\n## {title}\n\n{said}\n\n```cpp\n{bad}\n```\n\n> error: {message}\n\nWrite instead:\n\n```cpp\n{good}\n```\n")


def main():
    write = "--write" in sys.argv
    top, compiler, *includes = [a for a in sys.argv[1:] if a != "--write"]
    page = pathlib.Path(top) / "docs/compile-errors.md"
    version = subprocess.run([compiler, "--version"], capture_output=True, text=True).stdout
    speaks = re.search(r"\(Debian.*\) 12\.|g\+\+.* 12\.", version) is not None and "clang" not in version
    text = HEAD
    for source in sorted((pathlib.Path(top) / "tests/compile_fail").glob("*.cpp")):
        text += section(source, message_of(source, compiler, includes))
    if write:
        page.write_text(text)
        return
    told = page.read_text()
    if not speaks:
        print("messages are those of g++ 12: not compared with", version.splitlines()[0])
        text, told = (re.sub(r"> error: .*", "", t) for t in (text, told))
    if text != told:
        sys.exit("docs/compile-errors.md is not as these sources make it: run this with --write and read the difference")


main()
