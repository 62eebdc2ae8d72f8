"""Opens the pages of the commands in a real browser: how many sides they print on, whether anything overflows
a phone, and what a screen reader is told.

    browser.py BIN FORMULATIONS [KEEP]

BIN holds the commands, FORMULATIONS is the shipped shelf; with KEEP the pages and their PDF files stay there to
be looked at. Exit status 77, and a line that says so, where there is no browser. The browser is Chromium, spoken
to over a pipe in its DevTools protocol.
"""
import base64
import fcntl
import json
import os
import re
import shutil
import subprocess
import sys
import tempfile

PAPER = {"A4": (8.27, 11.69), "Letter": (8.5, 11.0)}  # inches
failures = []


def check(holds, what):
    if not holds:
        failures.append(what)
        print("FAILED: " + what)


class Browser:
    def __init__(self, program, profile):
        to_browser, self.out = os.pipe()
        self.inp, from_browser = os.pipe()

        def wire():  # the browser reads descriptor 3 and writes descriptor 4
            reads, writes = fcntl.fcntl(to_browser, fcntl.F_DUPFD, 20), fcntl.fcntl(from_browser, fcntl.F_DUPFD, 20)
            os.dup2(reads, 3)
            os.dup2(writes, 4)

        self.process = subprocess.Popen(
            [program, "--headless", "--no-sandbox", "--disable-gpu", "--remote-debugging-pipe", "--no-first-run",
             "--disable-extensions", "--user-data-dir=" + profile],
            preexec_fn=wire, pass_fds=(3, 4), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        os.close(to_browser)
        os.close(from_browser)
        self.buffer, self.number, self.events = b"", 0, []
        target = self.ask("Target.createTarget", url="about:blank")["targetId"]
        self.session = None
        self.session = self.ask("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
        self.ask("Page.enable")

    def receive(self):
        while b"\0" not in self.buffer:
            more = os.read(self.inp, 1 << 16)
            if not more:
                raise RuntimeError("the browser has gone")
            self.buffer += more
        message, self.buffer = self.buffer.split(b"\0", 1)
        return json.loads(message)

    def ask(self, method, **parameters):
        self.number += 1
        message = {"id": self.number, "method": method, "params": parameters}
        if getattr(self, "session", None):
            message["sessionId"] = self.session
        os.write(self.out, json.dumps(message).encode() + b"\0")
        while True:
            answer = self.receive()
            if answer.get("id") == self.number:
                if "error" in answer:
                    raise RuntimeError(method + ": " + answer["error"]["message"])
                return answer["result"]
            self.events.append(answer.get("method"))

    def open(self, path):
        self.events.clear()
        self.ask("Page.navigate", url="file://" + path)
        while "Page.loadEventFired" not in self.events:
            self.events.append(self.receive().get("method"))

    def value(self, expression):
        return self.ask("Runtime.evaluate", expression=expression, returnByValue=True)["result"]["value"]

    def width_needed(self, width):
        self.ask("Emulation.setDeviceMetricsOverride", width=width, height=800, deviceScaleFactor=1, mobile=True)
        return self.value("document.documentElement.scrollWidth")

    def pdf(self, paper):
        wide, high = PAPER[paper]
        answer = self.ask("Page.printToPDF", paperWidth=wide, paperHeight=high, printBackground=True,
                          preferCSSPageSize=False)
        return base64.b64decode(answer["data"])

    def tree(self):
        return [node for node in self.ask("Accessibility.getFullAXTree")["nodes"] if not node.get("ignored")]

    def close(self):
        self.process.terminate()
        self.process.wait()


def sides(pdf):
    return len(re.findall(rb"/Type\s*/Page\b(?!s)", pdf))


def text_of(node, key):
    return node.get(key, {}).get("value", "")


def check_page(browser, name, path, most_sides, pictures_wanted):
    browser.open(path)
    for width in (360, 768):
        needed = browser.width_needed(width)
        check(needed <= width, f"{name}: {needed} px wide where the screen has {width}")
    browser.ask("Emulation.clearDeviceMetricsOverride")
    for paper in PAPER:
        pdf = browser.pdf(paper)
        with open(path.replace(".html", f".{paper}.pdf"), "wb") as file:
            file.write(pdf)
        count = sides(pdf)
        check(1 <= count <= most_sides, f"{name}: {count} sides of {paper}, at most {most_sides} expected")
    tree = browser.tree()
    roles = [text_of(node, "role") for node in tree]
    tables = browser.value("document.querySelectorAll('table').length")
    check(roles.count("table") == tables, f"{name}: {tables} tables, {roles.count('table')} told to a screen reader")
    check(sum(role == "heading" and any(p["name"] == "level" and p["value"]["value"] == 1 for p in node["properties"])
              for role, node in zip(roles, tree)) >= 1, f"{name}: no title told")
    pictures = [node for node, role in zip(tree, roles) if role in ("image", "img", "graphics-document")]
    check(len(pictures) >= pictures_wanted, f"{name}: {len(pictures)} pictures told, {pictures_wanted} expected")
    for picture in pictures:
        check(text_of(picture, "name") != "", f"{name}: a picture without a name")
        check(len(text_of(picture, "description")) > 20,
              f"{name}: the picture '{text_of(picture, 'name')}' has no description")
    check(browser.value("document.scripts.length") == 0, f"{name}: has scripts")
    check(browser.value("performance.getEntriesByType('resource').length") == 0, f"{name}: fetches something")


def commands(shelf, own):
    """(name, command, most sides on paper, least pictures)"""
    # What a maker prints first: a jar just begun, no bench described, so that more is said of the scale.
    for recipe in ("lake-watercolour-half-pans", "lake-watercolour-tube", "lake-gouache", "lake-oil-tube", "lake-egg-tempera"):
        yield "first-" + recipe, ["lakebound-batch", recipe, "--jar", own, "--pigment", "6 g"], 2, 3
    weld = ["--jar", "studios/reedmere/jars/weld.yaml", "--bench", "studios/reedmere/bench.yaml"]
    for recipe in sorted(os.listdir(os.path.join(shelf, "recipes"))):
        base = recipe.removesuffix(".yaml")
        jar = weld if base.startswith("lake") else weld[2:]
        yield "sheet-" + base, ["lakebound-batch", base, *jar, "--pigment", "6 g"], 2, 3
    yield "explained", ["lakebound-batch", "lake-oil-tube", *weld, "--pigment", "6 g", "--explain"], 5, 3
    yield "short", ["lakebound-batch", "lake-watercolour-half-pans", *weld, "--fill", "30 half-pan"], 3, 3
    yield "pvc", ["lakebound-pvc", "--pigment", "ultramarine: 10 g", "--binder", "linseed: 4 g"], 2, 3
    yield "pvc-blend", ["lakebound-pvc", "--pigment", "alumina-lake: 5 g", "--pigment", "chalk: 5 g", "--binder",
                        "gum-glycerol-honey: 30 g", "--packing", "--rescue"], 2, 3
    tests = "studios/reedmere/sieve-tests/"
    yield "sieve", ["lakebound-sieve", tests + "weld-15-min.yaml", "--family", "watercolour-pan"], 2, 1
    yield "grind", ["lakebound-grind", tests + "weld-5-min.yaml", tests + "weld-15-min.yaml", "--family",
                    "watercolour-pan"], 2, 2
    yield "mull", ["lakebound-grind", "--mull", "60 um, 38 um, 27 um every 10 min"], 1, 0
    yield "settle", ["lakebound-settle", "--depth", "100 mm", "--cut", "45 um", "--density", "1.88 g/cm3", "--sieve",
                     tests + "weld-15-min.yaml"], 2, 2
    yield "bath", ["lakebound-bath", "--plant", "100 g dry root", "--alum", "potash-alum, 50 g", "--alkali", "soda-ash"], 2, 2
    yield "bath-as-it-goes", ["lakebound-bath", "studios/reedmere/baths/madder.yaml"], 1, 1
    second_year = "studios/reedmere-second-year/"
    card = ["lakebound-jar", second_year + "jars/weld-spring.yaml", "--bench", second_year + "bench.yaml", "--date", "2026-10-01"]
    yield "jar", card, 2, 0
    yield "strokes", [*card, "--by-strokes", "6 g"], 2, 0
    yield "swatch-test", ["lakebound-jar", "--swatch-test"], 1, 1
    yield "decant", ["lakebound-settle", "--zone", "100 mm, 62 mm, 48 mm every 2 h"], 1, 1
    blend = ["lakebound-pvc", "--pigment", "alumina-lake: 7 g", "--pigment", "chalk: 3 g", "--binder",
             "gum-glycerol-honey: 36.5 g"]
    sizes = ["--median-size", "alumina-lake: 3 um", "--median-size", "chalk: 15 um"]
    for over in ("medium", "extender", "size-ratio"):
        yield "sweep-" + over, [*blend, *(sizes if over == "size-ratio" else []), "--sweep", over], 1, 1
    yield "reading", ["lakebound-pvc", "--reading", "studios/reedmere/readings/weld-rub-outs.yaml"], 1, 1
    yield "layers", ["lakebound-pvc", "--layer", "ultramarine-oil", "--layer", "ultramarine-oil"], 1, 0


def main():
    programs, shelf = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2])
    browser_program = next((p for p in map(shutil.which, ("chromium", "chromium-browser")) if p), None)
    if browser_program is None:
        print("SKIPPED: no Chromium here, so no page was opened in a browser (Debian: chromium)")
        return 77
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as folder:
        keep = os.path.abspath(sys.argv[3]) if len(sys.argv) > 3 else folder
        os.makedirs(keep, exist_ok=True)
        own = os.path.join(folder, "first.yaml")
        with open(own, "w", encoding="utf-8") as file:
            file.write("kind: jar\nname: First\npigment: alumina-lake\nnet_mass: 24 +- 0.05 g\nsince: 2026-05-01\n")
        browser = Browser(browser_program, os.path.join(folder, "profile"))
        count = 0
        try:
            for name, command, most_sides, pictures in commands(shelf, own):
                path = os.path.join(keep, name + ".html")
                made = subprocess.run([os.path.join(programs, command[0]), *command[1:], "--shelf", ".", "--page", path,
                                       "--force"], capture_output=True, text=True, cwd=shelf)
                check(made.returncode in (0, 1) and os.path.exists(path), f"{name}: {made.stderr}")
                if os.path.exists(path):
                    check_page(browser, name, path, most_sides, pictures)
                count += 1
        finally:
            browser.close()
    print(f"{count} pages opened, {len(failures)} checks failed")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
