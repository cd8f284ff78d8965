"""The reference of the public names: whole, and readable without a network."""

from __future__ import annotations

import importlib
import re

import pytest
from click.testing import CliRunner
from twostroke.build import reference
from twostroke.cli import group

pytestmark = pytest.mark.slow


def test_does_the_reference_hold_every_public_name_and_fetch_nothing(tmp_path):
    done = CliRunner().invoke(group, ["build", "--reference", str(tmp_path / "pages")])
    assert done.exit_code == 0, done.output
    whole = "\n".join(page.read_text(encoding="utf-8") for page in (tmp_path / "pages").glob("*.html"))
    assert re.findall(r'(?:src|link [^>]*href)="(https?:[^"]*)"', whole) == []
    for module in (*reference.CALCULATIONS, *reference.ROOMS):
        public = getattr(importlib.import_module(f"twostroke.{module}"), "__all__", ())
        for name in public:
            assert re.search(rf'id="twostroke\.[\w.]*\b{name}"', whole), f"{module}.{name}"
