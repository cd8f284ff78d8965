"""`python3 course constraints`: the newest versions that install together, one Python at a time.

Each Python renews its own part of the file and keeps what others found; where several agree it is one line.
"""

from __future__ import annotations

import re
import subprocess
import sys
import tempfile
from pathlib import Path

from set_up import TOP, SetupError, follow, make_venv, python_of, reason, say

LINE = re.compile(r'(?P<pin>\S+==\S+) ; python_version in "(?P<pythons>[\d. ]+)"')
THIS = f"{sys.version_info[0]}.{sys.version_info[1]}"


def write(constraints: Path) -> None:
    """Install everything into a fresh environment without constraints, and note what came."""
    with tempfile.TemporaryDirectory(prefix="twostroke-constraints-") as folder:
        venv = Path(folder) / "venv"
        make_venv(venv, None)
        python = str(python_of(venv))
        say("Installing with all extras, no constraints (some minutes)")
        code, output = follow([python, "-m", "pip", "install", f"{TOP}[teach,test]"], Path(folder) / "log")
        if code:
            raise SetupError(f"Installing failed.\n{reason(output)}")
        frozen = subprocess.run(
            [python, "-m", "pip", "freeze"], stdout=subprocess.PIPE, text=True, check=True
        ).stdout
    old = constraints.read_text(encoding="utf-8") if constraints.exists() else ""
    constraints.write_text(renewed(old, frozen, THIS), encoding="utf-8")
    say(f"The versions for Python {THIS} are written to {constraints}")


def renewed(old: str, frozen: str, python: str) -> str:
    """The text of the file with one Python's versions put anew; a version kept nowhere any more goes."""
    kept: dict[str, set[str]] = {}
    for line in old.splitlines():
        if found := LINE.fullmatch(line.strip()):
            kept[found["pin"]] = set(found["pythons"].split()) - {python}
    for line in frozen.splitlines():
        if "==" in line and "+" not in line and not line.startswith("#"):
            kept.setdefault(line.strip(), set()).add(python)
    pins = {pin: sorted(pythons, key=_number) for pin, pythons in kept.items() if pythons}
    bound = sorted({each for pythons in pins.values() for each in pythons}, key=_number)
    head = [
        "# Versions that were tried together, for a set-up that can be repeated. Derived: written by",
        "#     python3 course constraints",
        f"# run once by each Python. They bind Python {', '.join(bound)}; others follow pyproject.toml.",
    ]
    lines = [f'{pin} ; python_version in "{" ".join(pins[pin])}"' for pin in sorted(pins, key=str.lower)]
    return "\n".join(head + lines) + "\n"


def _number(python: str) -> tuple[int, ...]:
    return tuple(int(part) for part in python.split("."))
