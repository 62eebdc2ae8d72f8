"""The sample page, with odd names in it, read by Python's own HTML parser: every element closes, in order,
every id is one of its kind and every reference has its id. Usage: well_formed.py write_page_sample"""
import subprocess
import sys
from html.parser import HTMLParser

VOID = {"meta", "input", "br"}


class Reader(HTMLParser):
    def __init__(self):
        super().__init__()
        self.open, self.ids, self.wanted, self.faults, self.tables, self.count = [], set(), [], [], 0, {}

    def handle_starttag(self, tag, attributes):
        self.count[tag] = self.count.get(tag, 0) + 1
        values = dict(attributes)
        if len(values) != len(attributes):
            self.faults.append(f"an attribute twice in <{tag}>")
        if "id" in values:
            if values["id"] in self.ids:
                self.faults.append(f"id {values['id']} twice")
            self.ids.add(values["id"])
        self.wanted += [values[k] for k in ("aria-labelledby", "aria-describedby") if k in values]
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag, attributes):
        self.handle_starttag(tag, attributes)
        self.open.pop()

    def handle_endtag(self, tag):
        if not self.open or self.open.pop() != tag:
            self.faults.append(f"</{tag}> closes something else")


def read(text):
    reader = Reader()
    reader.feed(text)
    reader.close()
    reader.faults += [f"<{tag}> stays open" for tag in reader.open]
    reader.faults += [f"no id {name}" for name in reader.wanted if name not in reader.ids]
    return reader


assert read("<p><b>x</p>").faults, "the reader sees no fault"
names = ["", "</td></table><script>x</script>", "a\"' onclick=\"x", "<!-- ", "&lt; &#60; &", "]]>", "\x1b[1m\t\n<h2>"]
plain = None
for name in names:
    page = subprocess.run([sys.argv[1], name], capture_output=True, check=True).stdout.decode("utf-8")
    reader = read(page)
    plain = plain or reader.count
    if reader.faults:
        sys.exit(f"{name!r}: {reader.faults}")
    if reader.count != plain:
        sys.exit(f"{name!r} changes the elements: {reader.count} is not {plain}")
print(f"{len(names)} pages read, {sum(plain.values())} elements each")
