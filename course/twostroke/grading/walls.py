"""What this machine can wall off, how a warm parent is started inside those walls, and what is missing."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import twostroke
from twostroke.grading.confine import SCRATCH
from twostroke.grading.states import GradingError

_CAPABILITIES = (
    "CAP_SYS_ADMIN",
    "CAP_SETUID",
    "CAP_SETGID",
    "CAP_CHOWN",
    "CAP_DAC_OVERRIDE",
    "CAP_FOWNER",
    "CAP_KILL",
    "CAP_SYS_PTRACE",
)


@dataclass(frozen=True)
class Walls:
    """What stands between a submission and the machine.

    Parameters
    ----------
    mode : str
        "walled" or "open".
    root : bool
        Whether the grader runs as root and drops to another user for each submission.
    missing : tuple of str
        What is not protected, in words for the instructor.
    """

    mode: str
    root: bool
    missing: tuple[str, ...] = ()

    @property
    def text(self) -> str:
        """One line for the screen."""
        if self.mode == "walled":
            who = "an unprivileged user" if self.root else "nobody inside its own namespace"
            return f"each submission runs alone, as {who}, without network, in a throw-away folder"
        return "not protected: " + "; ".join(self.missing)


_OPEN = (
    "a submission can read and change every file that you can",
    "a submission can use the network",
    "a submission can see and stop your other programs",
)


@cache
def find_walls() -> Walls:
    """Return what this machine can wall off, tried out and not guessed.

    Returns
    -------
    Walls
        "walled" where bubblewrap and the namespaces it needs work, else "open" with what is missing.
    """
    root = os.geteuid() == 0
    if shutil.which("bwrap") is None:
        return Walls("open", False, (*_OPEN, "install bubblewrap to change that"))
    command = [*bubblewrap(root), *interpreter("confine", f"try_walls({root}, '/job')")]
    try:
        done = subprocess.run(command, capture_output=True, timeout=30, check=False)
    except (OSError, subprocess.TimeoutExpired) as error:
        return Walls("open", False, (*_OPEN, f"bubblewrap could not be started ({error})"))
    if done.returncode:
        seen = done.stderr.decode("utf-8", "replace").strip().splitlines()
        said = f": {seen[-1][:200]}" if seen else ""
        return Walls("open", False, (*_OPEN, f"namespaces are switched off on this machine{said}"))
    return Walls("walled", root)


def require(trust: bool) -> Walls:
    """Return the walls; refuse to run hostile code in the open unless told that the class is trusted.

    Raises
    ------
    GradingError
        When something is not protected and `trust` is False.
    """
    walls = find_walls()
    if walls.mode == "open" and not trust:
        raise GradingError(
            f"{walls.text}. Grade on a machine with bubblewrap, or add --trust when you trust every "
            "submission"
        )
    return walls


def interpreter(module: str, call: str) -> list[str]:
    """Command that calls a function of this very package in a clean Python.

    Clean: no user folder, no variables, no compiled files written.
    """
    here = str(Path(twostroke.__file__).resolve().parents[1])
    code = (
        f"import sys; sys.path.insert(0, {here!r}); from twostroke.grading import {module}; {module}.{call}"
    )
    return [sys.executable, "-I", "-B", "-c", code]


def visible() -> list[Path]:
    """Folders that a submission may read: Python and its packages; never source, other work or a home."""
    wanted = [
        Path(sys.base_prefix),
        Path(sys.prefix),
        Path(sys.executable).resolve().parents[1],
        Path(twostroke.__file__).resolve().parent,
    ]
    kept: list[Path] = []
    for path in sorted({p for each in wanted for p in (each, each.resolve())}, key=lambda p: len(p.parts)):
        inside_usr = path.parts[:2] == ("/", "usr")
        if not inside_usr and not any(path.is_relative_to(other) for other in kept):
            kept.append(path)
    return kept


def bubblewrap(root: bool) -> list[str]:
    """Return the bubblewrap command with its walls, ready for a program to be added."""
    command = [
        "bwrap",
        "--unshare-pid",
        "--unshare-net",
        "--unshare-ipc",
        "--unshare-uts",
        "--die-with-parent",
    ]
    command += ["--new-session", "--hostname", "grading", "--clearenv"]
    if not root:
        command += ["--unshare-user", "--uid", "0", "--gid", "0", "--cap-add", "CAP_SETFCAP"]
    for name in _CAPABILITIES:
        command += ["--cap-add", name]
    command += system_folders()
    command += ["--perms", "0755", "--dir", "/job"]
    command += ["--perms", "1777", "--tmpfs", SCRATCH]
    command += python_folders()
    command += ["--proc", "/proc", "--dev", "/dev"]
    command += ["--remount-ro", "/", "--chdir", SCRATCH]
    for name, value in environment().items():
        command += ["--setenv", name, value]
    return command


def system_folders() -> list[str]:
    """Arguments of bubblewrap that show the system's programs and libraries, to be read."""
    command: list[str] = []
    command += ["--ro-bind", "/usr", "/usr"]
    for name in ("bin", "sbin", "lib", "lib32", "lib64"):
        place = Path("/") / name
        if place.is_symlink():
            command += ["--symlink", os.readlink(place), str(place)]
        elif place.is_dir():
            command += ["--ro-bind", str(place), str(place)]
    for name in ("/etc/ld.so.cache", "/etc/localtime", "/etc/fonts", "/etc/alternatives"):
        if Path(name).exists():
            command += ["--ro-bind", os.path.realpath(name), name]
    return command


def python_folders() -> list[str]:
    """Arguments of bubblewrap that show Python, its packages and this one, to be read."""
    command: list[str] = []
    made: set[Path] = set()
    for path in visible():
        for parent in reversed(path.parents):
            if parent != Path("/") and parent not in made and parent.parts[:2] != ("/", "usr"):
                command += ["--perms", "0755", "--dir", str(parent)]
                made.add(parent)
        command += ["--ro-bind", str(path), str(path)]
    return command


def environment(scratch: str = SCRATCH) -> dict[str, str]:
    """Variables of a warm parent: nothing of the instructor's own, temporary files in the folder given."""
    return {
        "PATH": f"{Path(sys.executable).parent}:/usr/bin:/bin",
        "LANG": "C.UTF-8",
        "HOME": scratch,
        "MPLBACKEND": "Agg",
        "TMPDIR": scratch,
        "MPLCONFIGDIR": f"{scratch}/matplotlib",
        "IPYTHONDIR": f"{scratch}/ipython",
        "OMP_NUM_THREADS": "1",
        "OPENBLAS_NUM_THREADS": "1",
        "MKL_NUM_THREADS": "1",
        "PYTHONHASHSEED": "0",
    }
