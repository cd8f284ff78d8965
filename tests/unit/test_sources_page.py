"""The page of sources: complete, and each formula held against something outside."""

from __future__ import annotations

import ast
import csv
from html import unescape

import pytest
from twostroke import resources, sources
from twostroke.build import sources_page

TOP = resources.clone()
TABLE = TOP / "tests" / "unit" / "tables" / "outside_checks.csv"


def rows():
    with open(TABLE, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def test_has_every_formula_an_outside_check():
    sources_page.register()
    held = sources_page.checks(TOP)
    formulas = {call for call in sources.formulas() if call.split(".")[0] != "test_sources_page"}
    named = {call for call in formulas if not call.startswith(("sources.", "demo."))}
    assert len(named) >= 45
    assert {call for call in named if not held.get(call)} == set()


def test_does_every_row_name_a_formula_that_exists():
    sources_page.register()
    assert {row["call"] for row in rows()} <= set(sources.formulas())


@pytest.mark.parametrize("row", rows(), ids=lambda row: row["call"])
def test_does_the_named_test_exist_and_assert(row):
    path, _, name = row["test"].partition("::")
    tree = ast.parse((TOP / path).read_text(encoding="utf-8"))
    (found,) = [n for n in tree.body if isinstance(n, ast.FunctionDef) and n.name == name]
    asserts = any(isinstance(node, ast.Assert) for node in ast.walk(found))
    assert asserts or "assert_" in ast.dump(found)
    assert len(row["against"]) > 5


def test_does_the_page_list_constants_formulas_and_what_to_verify():
    page = unescape(sources_page.sheet(TOP).to_html())
    assert "nothing yet" not in page
    for constant in sources.constants().values():
        assert constant.name in page or "(example)" in constant.name, constant.name
    for entry in sources.sources().values():
        assert entry.title in page
    to_verify = page[page.index("To be verified") : page.index("All sources")]
    assert "IEC 60028" in to_verify
    assert "JCGM 106" not in to_verify
