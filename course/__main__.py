"""`python3 course`: makes what is missing, says what it does, and hands on. Standard library only.

    python3 course                     set up, lay out the course folder, open JupyterLab at "Start here"
    python3 course test [--all|--long] install what the tests need, run them (further words go to pytest)
    python3 course grade --demo        install the instructor's extra, grade an invented class
    python3 course WORD ...            any other word of the command `twostroke`, such as check, bench, build
    python3 course constraints         (maintainers) renew this Python's lines of course/constraints.txt

Everything is installed into the folder .venv beside this one; nothing else on the machine is changed.
"""

# Written so that every Python since 2.7 can read it and say that it is too old: no annotations, no f-strings.

import os
import subprocess
import sys

OLDEST = (3, 11)
NEWER = ["python3.13", "python3.12", "python3.11", "python3.14"]
if os.name == "nt":
    NEWER = ["py -3.13", "py -3.12", "py -3.11", "py -3.14"]


def works(command):
    """Whether a command is here and starts: a name on PATH may be a mere pointer to nothing."""
    try:
        process = subprocess.Popen(
            command.split() + ["--version"],  # noqa: RUF005 - see above
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
        )
    except OSError:
        return False
    process.communicate()
    return process.returncode == 0


def refusal(version, works=works):
    """Say of a Python that is too old which newer one is already here; of any other, nothing."""
    if version[:2] >= OLDEST:
        return ""
    wanted = ".".join(str(part) for part in OLDEST)
    here = [command for command in NEWER if works(command)]
    if here:
        advice = "A newer one is here: run `" + here[0] + " course` instead."
    else:
        advice = (
            "Install Python "
            + wanted
            + " or newer (python.org, or your system's packages), then run this with it."
        )
    is_now = ".".join(str(part) for part in version[:3])
    return "This is Python " + is_now + "; the course needs " + wanted + " or newer.\n" + advice


def main(words):
    """Refuse an old Python; with any other, set up what a call needs and hand it on."""
    too_old = refusal(sys.version_info[:3])
    if too_old:
        sys.stderr.write("\n" + too_old + "\n")
        return 1
    import set_up

    return set_up.main(words, __doc__)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
