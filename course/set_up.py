"""Set-up of the course: makes its environment, installs into it, hands on. Standard library only."""

from __future__ import annotations

import hashlib
import importlib.util
import json
import os
import shutil
import subprocess
import sys
import time
from pathlib import Path

TOP = Path(__file__).resolve().parent.parent
VENV = TOP / ".venv"
CONSTRAINTS = TOP / "course" / "constraints.txt"
TEACH_WORDS = ("release", "grade", "mark", "report", "record", "gradebook", "hub", "exam", "build")
NO_NETWORK = (
    "name resolution",
    "NewConnectionError",
    "Failed to establish a new connection",
    "ConnectTimeoutError",
    "Network is unreachable",
    "dns error",
    "error sending request",
    "ProxyError",
    "ReadTimeoutError",
    "getaddrinfo failed",
    "Connection refused",
    "nodename nor servname",
)


class SetupError(Exception):
    """Set-up cannot go on; the text says what is missing and what to do."""


def say(text: str) -> None:
    print(text, flush=True)


def check_venv_module(find=importlib.util.find_spec, debian: bool | None = None) -> None:
    """Stop when Python cannot make environments, naming the system package that is missing."""
    missing = [name for name in ("venv", "ensurepip") if find(name) is None]
    if not missing:
        return
    if debian if debian is not None else Path("/etc/debian_version").exists():
        package = f"python{sys.version_info[0]}.{sys.version_info[1]}-venv"
        advice = f"On Debian, Ubuntu and their kin: sudo apt install {package}"
    else:
        advice = "Install your system's package that brings them (often python3-venv or python3-pip)."
    raise SetupError(
        f"This Python ({sys.executable}) has no module {' and '.join(missing)}, which make the course's own "
        f"environment.\n{advice}\nThen run `python3 course` again."
    )


def python_of(venv: Path, windows: bool = os.name == "nt") -> Path:
    """The environment's own Python."""
    return venv / ("Scripts/python.exe" if windows else "bin/python")


def environment(venv: Path, base: dict[str, str], windows: bool = os.name == "nt") -> dict[str, str]:
    """Variables for what is handed on to: the environment's programs come first on PATH."""
    programs = str(python_of(venv, windows).parent)
    changed = {name: value for name, value in base.items() if name != "PYTHONHOME"}
    old = base.get("PATH", "")
    changed["PATH"] = programs + (";" if windows else ":") + old if old else programs
    changed["VIRTUAL_ENV"] = str(venv)
    return changed


def fingerprint(top: Path, venv: Path) -> str:
    """Changes when something is to be installed again: project file, constraints, place, Python."""
    mark = hashlib.sha256(str(top).encode())
    for file in (top / "pyproject.toml", top / "course" / "constraints.txt", venv / "pyvenv.cfg"):
        mark.update(file.read_bytes() if file.exists() else b"-")
    return mark.hexdigest()


def read_stamp(venv: Path) -> dict:
    """What an earlier run installed, or nothing."""
    try:
        stamp = json.loads((venv / "two-stroke-stamp.json").read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    return stamp if isinstance(stamp, dict) else {}


def set_up(extras: set[str], top: Path = TOP, venv: Path = VENV, uv: str | None = shutil.which("uv")) -> None:
    """Make the environment and install the project with extras, unless that was done before."""
    stamp = read_stamp(venv)
    python = python_of(venv)
    ready = python.exists() and stamp.get("fingerprint") == fingerprint(top, venv)
    have = set(stamp.get("extras", []))
    if ready and extras <= have:
        return
    began = time.monotonic()
    moved = bool(stamp) and (stamp.get("top") != str(top) or not python.exists())
    if moved:
        say("The folder was moved or its Python was removed: the environment is made anew.")
        shutil.rmtree(venv)
    if not python.exists():
        make_venv(venv, uv)
    wanted = sorted(extras | (set() if moved else have))
    install(top, venv, wanted, uv)
    stamp = {"fingerprint": fingerprint(top, venv), "extras": wanted, "top": str(top)}
    (venv / "two-stroke-stamp.json").write_text(json.dumps(stamp), encoding="utf-8")
    say(f"Set-up done in {time.monotonic() - began:.0f} s; {venv} takes {size_of(venv) / 1e6:.0f} MB.")


def size_of(folder: Path) -> int:
    """Bytes of all files in a folder, links not followed."""
    total = 0
    for place, _, names in os.walk(folder):
        for name in names:
            total += os.lstat(os.path.join(place, name)).st_size
    return total


def make_venv(venv: Path, uv: str | None) -> None:
    """An empty environment; a half-made one is removed."""
    if venv.exists():
        raise SetupError(
            f"{venv} is there but holds no working Python. Remove that folder, then run this again."
        )
    say(f"Making the course's own environment in {venv}")
    if uv:
        command = [uv, "venv", "--quiet", "--python", sys.executable, str(venv)]
    else:
        check_venv_module()
        command = [sys.executable, "-m", "venv", str(venv)]
    try:
        done = subprocess.run(
            command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, errors="replace"
        )
    except BaseException:
        shutil.rmtree(venv, ignore_errors=True)
        raise
    if done.returncode:
        shutil.rmtree(venv, ignore_errors=True)
        raise SetupError(f"The environment could not be made.\n{reason(done.stdout)}")


def install(top: Path, venv: Path, extras: list[str], uv: str | None) -> None:
    """The project and its extras into the environment, to the constraints, with progress."""
    project = str(top) + (f"[{','.join(extras)}]" if extras else "")
    python = str(python_of(venv))
    command = [uv, "pip", "install", "--python", python] if uv else [python, "-m", "pip", "install"]
    if not uv:
        command += ["--no-compile", "--disable-pip-version-check", "--no-input", "--progress-bar", "off"]
    constraints = top / "course" / "constraints.txt"
    if constraints.exists():
        command += ["-c", str(constraints)]
    command += ["-e", project]
    what = f" with {' and '.join(extras)}" if extras else ""
    say(f"Installing the course{what} from the package index (a minute or two the first time)")
    code, output = follow(command, venv / "two-stroke-setup.log")
    if code:
        raise SetupError(f"Installing failed.\n{reason(output)}")
    if extras:
        compile_all(venv)


def compile_all(venv: Path) -> None:
    """Byte code of all packages, on every core: graded work runs in many processes that may not write it.

    A learner's Python compiles just the files that it meets. Packages hold templates that are no Python by
    themselves; what cannot be compiled is left as it is.
    """
    subprocess.run(
        [str(python_of(venv)), "-m", "compileall", "-q", "-j", "0", str(venv)],
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )


def follow(command: list[str], log: Path) -> tuple[int, str]:
    """Run an installer, keep what it says in a log, and show how far it is."""
    began, found, lines = time.monotonic(), 0, []
    live = sys.stdout.isatty()
    process = subprocess.Popen(
        command,
        env={"PIP_RETRIES": "2", **os.environ},
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        encoding="utf-8",
        errors="replace",
    )
    assert process.stdout is not None
    with process.stdout, log.open("w", encoding="utf-8") as kept:
        for line in process.stdout:
            kept.write(line)
            lines.append(line)
            words = line.split()
            if words[:1] == ["Collecting"] or words[:2] == ["Requirement", "already"]:
                found += 1
                if live:
                    print(
                        f"\r  {time.monotonic() - began:4.0f} s  {found:3} packages found ",
                        end="",
                        flush=True,
                    )
            elif words[:2] == ["WARNING:", "Retrying"]:
                say("  the package index does not answer; trying again")
            elif words[:2] == ["Installing", "collected"]:
                start = "\n" if live else ""
                say(f"{start}  unpacking {len(words) - 3} packages: the longest part, half a minute or so")
    return process.wait(), "".join(lines)


def tail(output: str, count: int = 6) -> str:
    """The last lines that say something."""
    said = [line.rstrip() for line in output.splitlines() if line.strip()]
    return "\n".join("  " + line[:300] for line in said[-count:])


def reason(output: str) -> str:
    """What an installer's words most likely mean, and what to do; its last lines where they tell more."""
    found = known_reason(output)
    return found or (
        f"Its last lines:\n{tail(output)}\n"
        f"The whole story is in {VENV / 'two-stroke-setup.log'}; mend what it names and run this again."
    )


def known_reason(output: str) -> str:
    """The causes that schools and workshops meet, from the words that installers use for them."""
    if "No space left" in output or "Disk quota" in output:
        return (
            "The disk is full: a learner's set-up takes about 600 MB, an instructor's with tests about 2 GB."
        )
    if any(sign in output for sign in NO_NETWORK):
        return (
            "The package index cannot be reached. Set-up needs the internet once, the course not.\n"
            "Check the connection (behind a school's proxy, set HTTPS_PROXY) and run this again."
        )
    if "CERTIFICATE_VERIFY_FAILED" in output:
        return (
            "The connection is not trusted: check this machine's clock, and ask whether your school's proxy "
            "needs its own certificate."
        )
    if "No module named pip" in output:
        return f"The environment is half made: remove the folder {VENV} and run this again."
    if "ensurepip" in output:
        return f"Debian and Ubuntu: sudo apt install python{sys.version_info[0]}.{sys.version_info[1]}-venv"
    if "Permission denied" in output or "Read-only file system" in output:
        return f"This user may not write in {TOP}: clone the course into a folder of your own."
    if (
        "No matching distribution" in output
        or "Failed building wheel" in output
        or "Failed to build" in output
    ):
        return (
            f"A package has no ready file for Python {sys.version_info[0]}.{sys.version_info[1]} "
            "on this machine: try Python 3.11 or 3.12 (`python3.12 course`)."
        )
    return ""


def plan(words: list[str]) -> tuple[set[str], list[str]]:
    """Which extras a call needs, and the command to hand on to (after the environment's Python)."""
    first = words[0] if words else ""
    if first == "--version":
        return set(), ["-m", "twostroke", "--version"]
    if not first or first.startswith("-"):
        return set(), ["-m", "twostroke", "open", *words]
    if first == "test":
        given = words[1:]
        whole = not [word for word in given if word not in ("--all", "--long", "-q", "-v", "-x")]
        workers = ["-n", str(min(4, os.cpu_count() or 1)), "--dist", "loadfile", "--no-loadscope-reorder"]
        spread = workers if whole else []
        return {"teach", "test"}, ["-m", "pytest", *spread, *given]
    return ({"teach"} if first in TEACH_WORDS else set()), ["-m", "twostroke", *words]


def hand_on(command: list[str], folder: Path | None) -> int:
    """Run the environment's Python in place of this one, so that signals and exit code are its own."""
    full = [str(python_of(VENV)), *command]
    variables = environment(VENV, dict(os.environ))
    if folder:
        os.chdir(folder)
    if os.name == "nt":
        return subprocess.call(full, env=variables)
    sys.stdout.flush()
    os.execve(full[0], full, variables)


def main(words: list[str], about: str) -> int:
    """Set up what a call needs and hand it on; `about` is what --help prints."""
    try:
        if words[:1] in (["-h"], ["--help"], ["help"]):
            say(about.strip())
            return 0
        if words == ["constraints"]:
            import renew_constraints

            renew_constraints.write(CONSTRAINTS)
            return 0
        extras, command = plan(words)
        set_up(extras)
        return hand_on(command, TOP if words[:1] == ["test"] else None)
    except SetupError as stop:
        print(f"\n{stop}", file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        print("\nstopped; run it again to go on", file=sys.stderr)
        return 130
