"""A person watches: on a terminal, work of more than a second shows a bar, ends, and leaves no bar behind.

Usage: watched.py SETDOWN PARTS      Needs: nothing but Python's standard library
"""

import os
import pathlib
import pty
import re
import select
import shutil
import sys
import tempfile
import time

LIMIT = 300.0

program, parts = os.path.abspath(sys.argv[1]), pathlib.Path(sys.argv[2]).resolve()
folder = pathlib.Path(tempfile.mkdtemp())
for part in parts.glob("*.toml"):
    shutil.copy(part, folder)
landing = folder / "landing-observatory.toml"
landing.write_text("draws = 200000\n" + re.sub(r"(?m)^draws.*\n", "", landing.read_text()))

child, terminal = pty.fork()
if child == 0:
    os.chdir(folder)
    os.execv(program, [program, "make", landing.name])
shown, begun = b"", time.monotonic()
while time.monotonic() - begun < LIMIT:
    if not select.select([terminal], [], [], 0.5)[0]:
        continue
    try:
        more = os.read(terminal, 65536)
    except OSError:  # the program has ended
        break
    if not more:
        break
    shown += more
else:
    os.kill(child, 9)
_, status = os.waitpid(child, 0)
shutil.rmtree(folder)

seconds = time.monotonic() - begun
shares = [int(n) for n in re.findall(rb"(\d+) %", shown)]
last = shown.decode(errors="replace").splitlines()[-1] if shown else ""
checks = {
    f"ended by itself, after {seconds:.1f} s": os.WIFEXITED(status) and os.WEXITSTATUS(status) == 0,
    f"a bar was shown, {len(shares)} times": len(shares) > 1 and shares == sorted(shares),
    f"the last line is the answer: {last!r}": last.strip() == "set aside  none" and "%" not in last,
}
failed = [what for what, held in checks.items() if not held]
for what in failed:
    print(f"not so: {what}")
print(f"{len(checks) - len(failed)} passed, {len(failed)} failed")
sys.exit(bool(failed))
