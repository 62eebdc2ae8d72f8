"""Types at real shells and looks at what TAB makes of it; then reads the manual pages with warnings on.

usage: completions_check.py SHARE BIN

SHARE: where the build, or an installation, has its manual pages and completions. A shell that is not installed is passed
over, and that is said.
"""
import os
import pathlib
import pty
import re
import select
import shutil
import subprocess
import sys
import tempfile
import time

share, bin_folder = (pathlib.Path(a).resolve() for a in sys.argv[1:3])
home = tempfile.mkdtemp()
# (typed, what must be made of it): names of recipe, jar, medium, vessel and family, options, a studio by its name.
TYPED = [
    ("lakebound-batch lake-oil-tu", "lake-oil-tube"),
    ("lakebound-batch --whole", "--whole-jar"),
    ("lakebound-batch --shelf reedmere --jar mad", "madder"),
    ("lakebound-batch --medium gum-wat", "gum-water"),
    ("lakebound-batch --vessel half-", "half-pan"),
    ("lakebound-batch --show gum-wat", "gum-water"),
    ("lakebound-jar --as egg-t", "egg-tempera"),
    ("lakebound-pvc --res", "--rescue"),
    ("lakebound-sieve --family watercolour-p", "watercolour-pan"),
    ("lakebound-settle --temp", "--temperature"),
    ("lakebound-grind --handl", "--handling"),
]
environment = {"PATH": f"{bin_folder}:/usr/bin:/bin", "HOME": home, "TERM": "dumb", "LC_ALL": "C.UTF-8"}
faults = []


def screen(shell, first, typed):
    """What a terminal shows after `typed` and TAB in an interactive shell."""
    pid, fd = pty.fork()
    if pid == 0:
        os.chdir(home)
        os.execve(shell[0], shell, environment)
    seen = b""

    def shown():
        return re.sub(r"\x1b\[[0-9;?]*[a-zA-Z]|\r", "", seen.decode(errors="replace")).replace("\x07", "")

    def read_until(mark, seconds):
        nonlocal seen
        end = time.time() + seconds
        while time.time() < end:
            if select.select([fd], [], [], 0.1)[0]:
                try:
                    seen += os.read(fd, 65536)
                except OSError:
                    return
            if mark and mark in shown():
                return

    os.write(fd, first.encode() + b"\necho rea''dy\n")
    read_until("ready", 20)
    read_until(None, 0.3)
    seen = b""
    os.write(fd, typed[0].encode() + b"\t")
    read_until(typed[1], 20)
    os.write(fd, b"\x03\x04")
    os.close(fd)
    os.kill(pid, 9)
    os.waitpid(pid, 0)
    return shown()


def interactive(name, arguments, first):
    shell = shutil.which(name, path="/usr/bin:/bin")
    if not shell:
        print(f"skipped: {name} is not installed")
        return
    for typed in TYPED:
        shown = screen([shell, *arguments], first(typed[0].split()[0]), typed)
        if typed[1] not in shown:
            faults.append(f"{name}: '{typed[0]}' and TAB gives {shown!r}, not {typed[1]}")
    print(f"{name}: {len(TYPED)} lines completed")


bash_folder = share / "bash-completion/completions"
interactive("bash", ["--norc", "--noprofile", "-i"], lambda command: f"source {bash_folder}/{command}")
zsh_folder = next(f for f in (share / "zsh").iterdir())
interactive("zsh", ["-f", "-i"],
            lambda command: f"fpath=({zsh_folder} $fpath); autoload -U compinit; compinit -u -D; PS1='> '")
if fish := shutil.which("fish", path="/usr/bin:/bin"):
    for typed, wanted in TYPED:
        command = typed.split()[0]
        script = f"source {share}/fish/vendor_completions.d/{command}.fish; complete -C '{typed}'"
        shown = subprocess.run([fish, "--no-config", "-c", script], capture_output=True, text=True, env=environment, cwd=home)
        if wanted not in [line.split("\t")[0] for line in shown.stdout.splitlines()]:
            faults.append(f"fish: '{typed}' gives {shown.stdout!r} {shown.stderr!r}, not {wanted}")
    print(f"fish: {len(TYPED)} lines completed")
else:
    print("skipped: fish is not installed")

commands = sorted(f.name for f in bin_folder.glob("lakebound-*"))
for command in commands:
    pages = list((share / "man/man1").glob(f"{command}.1*"))
    if not pages:
        faults.append(f"{command} has no manual page")
        continue
    read = subprocess.run(["man", "--warnings", "-E", "UTF-8", "-l", "-Tutf8", str(pages[0])], capture_output=True, text=True,
                          env={**environment, "MANWIDTH": "80"}) if shutil.which("man") else None
    if read is None:
        print("skipped: man is not installed")
        break
    text = re.sub(r".\x08|\x1b\[[0-9;]*m", "", read.stdout)
    if read.returncode or read.stderr.strip():
        faults.append(f"man {command} warns: {read.stderr}")
    for heading in ("NAME", "SYNOPSIS", "OPTIONS", "EXAMPLES", "FILES", "ENVIRONMENT", "EXIT STATUS", "SEE ALSO"):
        if f"\n{heading}\n" not in text:
            faults.append(f"man {command} has no {heading}")
    told = subprocess.run([bin_folder / command, "--help"], capture_output=True, text=True).stdout
    for option in re.findall(r"^  (--[a-z-]+)", told, re.M):
        if option not in text.replace("\u2010", "-").replace("\u2212", "-"):
            faults.append(f"man {command} does not tell of {option}")
shutil.rmtree(home)
if faults:
    sys.exit("\n".join(faults))
