"""Every link in the README and docs leads somewhere, and from one page of docs to another that is installed with it.

usage: links_check.py TOP
"""
import pathlib
import re
import sys

top = pathlib.Path(sys.argv[1]).resolve()
docs = top / "docs"
faults, count = [], 0


def anchors(page):
    text = re.sub(r"```.*?```", "", page.read_text(encoding="utf-8"), flags=re.S)
    heads = re.findall(r"^#+ +(.*)$", text, re.M)
    return {re.sub(r"[^\w\- ]", "", h.lower()).strip().replace(" ", "-") for h in heads}


for page in [top / "README.md", *sorted(docs.glob("*.md"))]:
    text = re.sub(r"```.*?```", "", page.read_text(encoding="utf-8"), flags=re.S)
    for link in re.findall(r"\]\(([^)\s]+)\)", text) + re.findall(r'src="([^"]+)"', text):
        if re.match(r"https?:", link):
            continue
        count += 1
        path, _, anchor = link.partition("#")
        target = (page.parent / path).resolve() if path else page
        if not target.exists():
            faults.append(f"{page.name}: {link} is not there")
        elif page.parent == docs and docs not in target.parents and target != docs:
            faults.append(f"{page.name}: {link} leads out of docs, which alone is installed")
        elif anchor and target.suffix == ".md" and anchor not in anchors(target):
            faults.append(f"{page.name}: {link} names no heading there")
index = (docs / "README.md").read_text(encoding="utf-8")
for page in sorted(docs.glob("*.md")):
    if page.name != "README.md" and f"]({page.name})" not in index:
        faults.append(f"docs/README.md does not lead to {page.name}")
assert count > 50
if faults:
    sys.exit("\n".join(faults))
