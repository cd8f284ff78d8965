"""Is a person gone from a hub's folder too: room, collected work, and the hub's own database?"""

from __future__ import annotations

import contextlib
import sqlite3

import pytest

pytest.importorskip("nbgrader", reason="grading needs the teach extra")
pytest.importorskip("cryptography", reason="records need the teach extra")
pytest.importorskip("jupyterhub", reason="a hub needs the school extra")

from jupyterhub import orm
from twostroke.grading.erase import erase
from twostroke.grading.files import write_text
from twostroke.grading.place import Course

WHO = ("learner-01", "learner-02")


@pytest.fixture
def hub(tmp_path):
    """A class and its hub's folder with two learners who have worked there."""
    course = Course.at(tmp_path / "class")
    lines = [f'[[learner]]\nid = "{who}"\n' for who in WHO]
    write_text(course.home / "class.toml", "".join(lines))
    folder = tmp_path / "hub of the class"
    for who in WHO:
        write_text(folder / "rooms" / who / "work" / "notes.txt", f"I am {who}\n")
        write_text(folder / "collected" / "lab01" / who / "lab01.ipynb", '{"cells": []}')
    write_text(folder / "hub" / "hub.log", "".join(f"server of {who} started\n" for who in WHO))
    session = orm.new_session_factory(f"sqlite:///{folder / 'hub' / 'jupyterhub.sqlite'}")()
    group = orm.Group(name="the class")
    session.add_all(
        [group, orm.Role(name="token", scopes=["inherit"]), orm.OAuthClient(identifier="jupyterhub")]
    )
    for who in WHO:
        user = orm.User(name=who)
        session.add(user)
        session.commit()
        session.add(orm.Spawner(name="", user=user, state={"pid": 1}))
        user.new_api_token(note=f"token of {who}")
        group.users.append(user)
    session.commit()
    session.close()
    return course, folder


def rows(path):
    with contextlib.closing(sqlite3.connect(path)) as book:
        names = [name for (name,) in book.execute("SELECT name FROM sqlite_master WHERE type = 'table'")]
        return {name: sorted(book.execute(f'SELECT * FROM "{name}"').fetchall(), key=repr) for name in names}


def test_is_a_person_gone_from_a_hub_and_the_other_as_before(hub):
    course, folder = hub
    base = folder / "hub" / "jupyterhub.sqlite"
    before = rows(base)
    found = erase("learner-01", course=course, also=[folder], dry_run=False)
    assert found.left == ()
    after = rows(base)
    assert [row[1] for row in after["users"]] == ["learner-02"]
    for table in ("users", "spawners", "api_tokens", "user_group_map"):
        assert len(before[table]) == 2
        assert len(after[table]) == 1
        assert set(after[table]) < set(before[table])
    for table in set(before) - {"users", "spawners", "api_tokens", "user_group_map"}:
        mine = [row for row in before[table] if row not in after[table]]
        assert not [row for row in after[table] if row not in before[table]], table
        assert len(mine) in (0, 1), table
    assert b"learner-01" not in base.read_bytes()
    assert [path.name for path in (folder / "rooms").iterdir()] == ["learner-02"]
    assert [path.name for path in (folder / "collected" / "lab01").iterdir()] == ["learner-02"]
    assert (folder / "hub" / "hub.log").read_text(encoding="utf-8") == "server of learner-02 started\n"
