"""Writes the mutants into a copy of the sources: each place of lib/ and include/ where one operator or one
constant can be changed gets a switch (mutants.hpp), so that one build holds them all.

It reads C++ as the house writes it: a binary operator has a space on both sides, `T&&` and `a<b>` have none.
"""
import re
from dataclasses import dataclass, field

COMPARISONS = {"<": ("Less", ">", ">", "<="), ">": ("Greater", "<", "<", ">="), "<=": ("LessEqual", ">=", ">=", "<"),
               ">=": ("GreaterEqual", "<=", "<=", ">"), "==": ("Equal", "==", "!=", None), "!=": ("Unequal", "!=", "==", None)}
ARITHMETIC = {"+": ("Sum", "-"), "-": ("Difference", "+"), "*": ("Product", "/"), "/": ("Quotient", "*")}
NAME = "lakebound_mutants::"


@dataclass
class Mutant:
    id: int
    room: str
    file: str
    line: int
    column: int
    change: str
    text: str


@dataclass
class Source:
    """A file with its places; `off` are lines (0-based) of which the compiler could make no sense."""
    path: str
    room: str
    text: str
    off: set = field(default_factory=set)


def blanked(text):
    """The text with comments, preprocessor lines and what is between the quotes of a literal as spaces, of the same
    length."""
    pattern = re.compile(r'//[^\n]*|/\*.*?\*/|R"(\w*)\(.*?\)\1"|"(?:\\.|[^"\\\n])*"|(?<![0-9A-Za-z])\'(?:\\.|[^\'\\\n])+\''
                         r'|^[ \t]*#(?:[^\n\\]|\\\n|\\.)*', re.S | re.M)

    def blank(m):
        spaces = re.sub(r"[^\n]", " ", m.group(0))
        quote = m.group(0)[-1]
        return quote + spaces[1:-1] + quote if m.group(0)[0] in "\"'R" else spaces

    return pattern.sub(blank, text)


def in_constant_function(code, at):
    """Whether the place lies in the body of a constexpr function: no variable of the program may be declared there."""
    depth, end = 0, at
    while True:
        end -= 1
        if end < 0:
            return False
        if code[end] == "}":
            depth += 1
        elif code[end] == "{":
            depth -= 1
            if depth < 0:
                head = re.split(r"[;{}]", code[max(0, end - 400):end])[-1]
                if re.search(r"\b(constexpr|consteval)\b", head):
                    return True
                depth = 0


def statement_end(code, start):
    """Where the statement that begins at start ends: its semicolon at the same depth."""
    depth = 0
    for at in range(start, len(code)):
        if code[at] in "([{":
            depth += 1
        elif code[at] in ")]}":
            depth -= 1
            if depth < 0:
                return at
        elif code[at] == ";" and depth == 0:
            return at
    return len(code)


def constants(code, text):
    """Spans of declarations of constants, with the span of the words that make them so."""
    for m in re.finditer(r"\b(?:(inline|static)\s+)?constexpr\b(?=\s+[^(={;]*[={])", code):
        if re.match(r"\s*(?:if|const)\b|[^={;]*\)", code[m.end():]):
            continue
        end = statement_end(code, m.end())
        head = code[m.end():end]
        if "operator" in head.split("=")[0] or re.search(r"=\s*\[", head) or in_constant_function(code, m.start()):
            continue
        words = {"inline": "inline const", "static": "static inline const"}.get(m.group(1) or "", "static const")
        yield m.start(), m.end(), end, words


def boolean_chains(code):
    """Chains of one kind, (start, end, [positions of its operators]): `a && b && c` or `a || b`."""
    seen = set()
    for m in re.finditer(r"(?<=\s)(&&|\|\|)(?=\s)", code):
        if m.start() in seen:
            continue
        op, ends = m.group(1), []
        stops = {"&&": ("||",), "||": ()}[op]
        operators = [m.start()]
        for step in (-1, 1):
            at, depth = m.start() + (2 if step > 0 else -1), 0
            opening, closing = ("([{", ")]}") if step > 0 else (")]}", "([{")
            while 0 <= at < len(code):
                c, two = code[at], code[at:at + 2] if step > 0 else code[at - 1:at + 1]
                if c in opening:
                    depth += 1
                elif c in closing:
                    if depth == 0:
                        break
                    depth -= 1
                elif depth == 0:
                    if c in ";,?" or (c == ":" and two != "::"):
                        break
                    if c == ":" and two == "::":
                        at += step
                    elif two in ("&&", "||") and code[at + (2 if step > 0 else -2)].isspace():
                        if two in stops:
                            break
                        if op == "||" and two == "&&":
                            pass
                        elif two == op:
                            operators.append(at if step > 0 else at - 1)
                        at += step
                    elif c == "=" and code[at - 1] not in "=!<>" and code[at + 1] != "=":
                        break
                at += step
            ends.append(at)
        start, end = ends[0] + 1, ends[1]
        if stops and code[start:start + 2] in stops:
            start += 2
        lead = re.match(r"(\s*(?:return\b|case\b|co_return\b|else\b)?\s*)", code[start:end])
        start += lead.end()
        end -= len(code[start:end]) - len(code[start:end].rstrip())
        seen.update(operators)
        yield start, end, sorted(operators), op


class Writer:
    def __init__(self, source, next_id):
        self.source, self.next_id, self.mutants = source, next_id, []
        self.code = blanked(source.text)
        self.line_of = [0]
        for c in source.text:
            self.line_of.append(self.line_of[-1] + (c == "\n"))
        self.edits = []  # (start, end, text) that do not overlap
        # static_assert, concepts and requires are evaluated while compiling, enumerators and cases too.
        self.closed = [(m.start(), statement_end(self.code, m.start()))
                       for m in re.finditer(r"\bstatic_assert\b|\bconcept\b|\bcase\b[^:]*:|\benum\b|\btemplate\s*<|\brequires\b|\bLAKEBOUND_\w+\(", self.code)
                       if not m.group(0).startswith(("template", "requires", "case"))]
        self.closed += [(m.start(), m.end()) for m in re.finditer(r"\bcase\b[^:]*:(?!:)|\btemplate\s*<[^\n]*|\brequires\b[^\n{]*|\boperator\s*\S+\s*\(", self.code)]

    def usable(self, at):
        return self.line_of[at] not in self.source.off and not any(a <= at < b for a, b in self.closed)

    def new(self, at, change):
        line = self.line_of[at]
        column = at - self.source.text.rfind("\n", 0, at)
        self.next_id += 1
        text = self.source.text.split("\n")[line].strip()
        self.mutants.append(Mutant(self.next_id, self.source.room, self.source.path, line + 1, column, change, text))
        return self.next_id

    def write(self):
        code, text = self.code, self.source.text
        fixed = []  # spans of constants that become variables
        for start, word_end, end, words in constants(code, text):
            if self.usable(start):
                self.edits.append((start, word_end, words))
                fixed.append((word_end, end))
            else:
                self.closed.append((start, end))
        late = lambda at: any(a <= at < b for a, b in fixed)
        for m in re.finditer(r"(?<=\s)(<=|>=|==|!=|<|>)(?=\s)", code):
            if self.usable(m.start()) and not code[:m.start()].rstrip().endswith("operator"):
                name, second, turned, limit = COMPARISONS[m.group(1)]
                a = self.new(m.start(), f"{m.group(1)} to {turned}")
                b = self.new(m.start(), f"{m.group(1)} to {limit}") if limit else 0
                self.edits.append((m.start(), m.end(), f"{m.group(1)} {NAME}{name}<{a}, {b}>{{}} {second}"))
        for m in re.finditer(r"(?<=\s)([-+*/])(?=\s)", code):
            before = code[:m.start()].rstrip()
            if self.usable(m.start()) and before and (before[-1].isalnum() or before[-1] in "_)]}") and not before.endswith("return"):
                name, other = ARITHMETIC[m.group(1)]
                a = self.new(m.start(), f"{m.group(1)} to {other}")
                self.edits.append((m.start(), m.end(), f"{m.group(1)} {NAME}{name}<{a}>{{}} {m.group(1)}"))
        for m in re.finditer(r"(?<![\w.'])(?<![pP][-+])(?:\d[\d']*\.?\d*(?:[eE][-+]?\d+)?|\.\d+(?:[eE][-+]?\d+)?)(?![\w.'])", code):
            # Not a bound or an argument of a template, and not the index of a tuple.
            if self.usable(m.start()) and not re.search(r"[\w>]<[^<>()]*$|\bget<$", code[max(0, m.start() - 60):m.start()]):
                a = self.new(m.start(), f"{m.group(0)} scaled")
                where = NAME + ("at_run_time::" if late(m.start()) else "")
                self.edits.append((m.start(), m.end(), f"{where}number<{a}>({m.group(0)})"))
        for m in re.finditer(r"\breturn\s+(true|false)(?=\s*;)", code):
            if self.usable(m.start()):
                a = self.new(m.start(1), "return negated")
                self.edits.append((m.start(1), m.end(1), f"{NAME}truth<{a}>({m.group(1)})"))
        for m in re.finditer(r"(?<=\s)[-+]=\s+", code):
            end = statement_end(code, m.end())
            if self.usable(m.start()) and code[end:end + 1] in (";", ")") and "{" not in code[m.end():m.end() + 1]:
                a = self.new(m.start(), "+= to -=" if "+" in m.group(0) else "-= to +=")
                self.edits.append((m.end(), m.end(), f"{NAME}addend<{a}>("))
                self.edits.append((end, end, ")"))
        chains = [c for c in boolean_chains(code) if self.usable(c[2][0]) and
                  self.source.off.isdisjoint(range(self.line_of[c[0]], self.line_of[c[1]] + 1))]
        return self.render(0, len(text), chains)

    def render(self, start, end, chains):
        """The text from start to end with its edits; a chain is written once for each of its mutants."""
        inner = [c for c in chains if start <= c[0] and c[1] <= end]
        inner = [c for c in inner if not any(d is not c and d[0] <= c[0] and c[1] <= d[1] and (d[0], d[1]) != (c[0], c[1]) for d in inner)]
        out, at = [], start
        for c in sorted(inner):
            if c[0] < at:
                continue
            out.append(self.plain(at, c[0]))
            out.append(self.chain(c, [d for d in chains if d is not c]))
            at = c[1]
        out.append(self.plain(at, end))
        return "".join(out)

    def plain(self, start, end):
        out, at = [], start
        for a, b, new in sorted(e for e in self.edits if start <= e[0] and e[1] <= end and (e[0] < end or e[0] == e[1])):
            if (a == b == start and start != 0 and new == ")"):
                pass
            out.append(self.source.text[at:a])
            out.append(new)
            at = b
        out.append(self.source.text[at:end])
        return "".join(out)

    def chain(self, chain, chains):
        start, end, operators, op = chain
        other = {"&&": "||", "||": "&&"}[op]
        pieces, at = [], start
        for o in operators:
            pieces.append(self.render(at, o, chains))
            at = o + 2
        pieces.append(self.render(at, end, chains))
        whole = lambda flipped: "".join(p if i == 0 else (other if i - 1 == flipped else op) + p for i, p in enumerate(pieces))
        out = ""
        for i, o in enumerate(operators):
            a = self.new(o, f"{op} to {other}")
            out += f"{NAME}lit<{a}>() ? bool({whole(i)}) : "
        return f"({out}bool({whole(None)}))"


def mutate(source, next_id):
    """(text with switches, its mutants, the last id)."""
    writer = Writer(source, next_id)
    text = writer.write()
    include = f'#include <mutants.hpp>\n#line {{}} "{source.path}"\n'
    once = re.search(r"^#pragma once\n", text, re.M)
    if once:
        line = text.count("\n", 0, once.end()) + 1
        text = text[:once.end()] + include.format(line) + text[once.end():]
    else:
        text = include.format(1) + text
    return text, writer.mutants, writer.next_id
