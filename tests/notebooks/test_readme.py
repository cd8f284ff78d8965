"""The README says what is here, and its commands are those that exist."""

from __future__ import annotations

import re

import pytest
from twostroke import cli, resources
from twostroke.lesson import tables

TOP = resources.clone()
TEXT = (TOP / "README.md").read_text(encoding="utf-8")
ROWS = dict(re.findall(r"^\| (\d\d) \|.*\| ([^|]+) \|$", TEXT, flags=re.M))


@pytest.mark.parametrize("number", [f"{number:02d}" for number in range(16)])
def test_does_the_row_of_a_lesson_say_what_is_here(number):
    here = ["lesson"] if any((TOP / "course/lessons").glob(f"{number}_*.ipynb")) else []
    here += [f"lab {number}"] if (TOP / "release" / f"lab{number}").is_dir() else []
    assert ROWS[number] == ", ".join(here)
    assert tables.module(number).question in TEXT


def test_does_it_name_every_command_and_no_other():
    listed = TEXT[TEXT.index("## The commands") : TEXT.index("## The lessons and labs")]
    first = [row.split("|")[1] for row in listed.splitlines() if row.startswith("| `")]
    named = set(re.findall(r"`(?:twostroke )?(\w+)`", " ".join(first)))
    assert named == set(cli.group.list_commands(None))


@pytest.mark.parametrize("target", re.findall(r"\]\(([^)#:]+)\)", TEXT))
def test_does_every_link_lead_somewhere(target):
    assert (TOP / target).exists()
