"""Tables for the isolation tests: the course's own, the form of version 0.1, and small ones."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml
from twostroke.table import load_table

FREE = {
    "version": 0.1,
    "money_per_minute": 1.0,
    "verify_minutes": 0,
    "comeback_cost": 90,
    "escalate_cost": 60,
    "cool_to_hot_minutes": 0,
    "hot_to_cool_minutes": 0,
    "repeat_corr": 0.8,
    "double_fault_fraction": 0.0,
}


@pytest.fixture(scope="session")
def own():
    return load_table()


@pytest.fixture(scope="session")
def form_path():
    return Path(__file__).parent / "tables" / "form_0_1.yaml"


@pytest.fixture(scope="session")
def form(form_path):
    return load_table(form_path)


@pytest.fixture
def make(tmp_path):
    """A small table out of its parts: `meta` overrides, `faults` as name to rate or row, tests, repairs."""

    def build(faults, tests, repairs, *, name="small.yaml", access=None, complaint=None, common=None, **meta):
        rows = {
            fault: row if isinstance(row, dict) else {"sys": "any", "rate": row, "name": fault}
            for fault, row in faults.items()
        }
        content = {
            "meta": FREE | meta,
            "faults": rows,
            "tests": tests,
            "repairs": repairs,
            "access": access or {},
        }
        if complaint is not None:
            content["complaint"] = complaint
        if common is not None:
            content["common_cause_pairs"] = common
        path = tmp_path / name
        path.write_text(yaml.safe_dump(content, sort_keys=False), encoding="utf-8")
        return load_table(path)

    return build


def _three(active=None):
    second = {"sys": "any", "rate": 300, "name": "second"}
    if active is not None:
        second["active"] = dict.fromkeys(("cold", "hot", "shake"), active)
    faults = {"first": 500, "second": second, "third": 200}
    tests = {
        "one": {
            "minutes": 2, "results": ["no", "yes"], "base": [0.8, 0.2], "hits": {"first": [0.1, 0.9]},
            "sees_inactive": True,
        },
        "two": {
            "minutes": 3, "results": ["no", "yes"], "base": [0.9, 0.1], "hits": {"third": [0.2, 0.8]},
            "sees_inactive": True,
        },
    }  # fmt: skip
    repairs = {
        "fix_first": {"minutes": 10, "fixes": {"first": 1.0}},
        "fix_second": {"minutes": 20, "fixes": {"second": 1.0}},
        "fix_third": {"minutes": 30, "fixes": {"third": 1.0}},
    }
    return faults, tests, repairs


@pytest.fixture
def three(make):
    """Three faults, two imperfect tests, three certain repairs; handing on costs 60."""
    return make(*_three())


@pytest.fixture
def three_hidden(make):
    """The same, but the second fault passes the verify run unseen with chance 0.4; a comeback costs 90."""
    return make(*_three(active=0.6))
