"""Is a touched file of signatures noticed, and the line named?"""

from __future__ import annotations

from pathlib import Path

import pytest

pytest.importorskip("nbgrader", reason="grading needs the teach extra")
pytest.importorskip("cryptography", reason="records need the teach extra")

from twostroke.grading import record
from twostroke.grading.place import Course
from twostroke.grading.record import people, signatures
from twostroke.grading.record.seal import KEY_FILE, Key, fingerprint
from twostroke.grading.states import GradingError

SAM = {"by": "Sam Super", "initials": "SS"}


def stranger(tmp_path: Path) -> Course:
    """Another shop, with a key of its own."""
    course = Course.at(tmp_path / "another shop")
    Key.of(course)
    return course


@pytest.fixture
def signed(tmp_path):
    shop = Course.at(tmp_path / "shop")
    record.enter(shop, "Robin Demo")
    record.enter(shop, "Cy Demo")
    for name in ("safety", "air gap", "spark testing"):
        record.sign(shop, "Robin Demo", name, **SAM)
    return shop, people.folder(shop, "Robin-Demo") / signatures.FILE


ATTACKS = [
    ("initials changed", lambda lines: [lines[0].replace('"SS"', '"XX"'), *lines[1:]], 1),
    ("competency changed", lambda lines: [lines[0].replace("safety", "isolation logic"), *lines[1:]], 1),
    ("first taken out", lambda lines: lines[1:], 1),
    ("middle taken out", lambda lines: [lines[0], lines[2]], 2),
    ("two changed places", lambda lines: [lines[1], lines[0], lines[2]], 1),
    ("one twice", lambda lines: [*lines, lines[0]], 4),
    ("no JSON", lambda lines: [*lines, "hello"], 4),
    ("blank between", lambda lines: [lines[0], "", *lines[1:]], 2),
]


@pytest.mark.parametrize(("what", "change", "line"), ATTACKS, ids=[each[0] for each in ATTACKS])
def test_is_a_touched_line_of_signatures_named(signed, what, change, line):
    shop, file = signed
    lines = file.read_text(encoding="utf-8").splitlines()
    file.write_text("\n".join(change(lines)) + "\n", encoding="utf-8")
    for ask in (
        lambda: signatures.read(shop, "Robin-Demo"),
        lambda: record.write("Robin Demo", course=shop),
        lambda: record.sign(shop, "Robin Demo", "safety", **SAM),
    ):
        with pytest.raises(GradingError, match=f"line {line} of"):
            ask()


def test_can_a_line_not_be_signed_without_the_key(signed, tmp_path):
    shop, file = signed
    other = stranger(tmp_path)
    record.enter(other, "Robin Demo")
    record.sign(other, "Robin Demo", "passing on", **SAM)
    theirs = (people.folder(other, "Robin-Demo") / signatures.FILE).read_text(encoding="utf-8")
    file.write_text(theirs, encoding="utf-8")
    with pytest.raises(GradingError, match="line 1 of"):
        signatures.read(shop, "Robin-Demo")


def test_is_one_persons_signature_of_no_use_to_another(signed):
    shop, file = signed
    target = people.folder(shop, "Cy-Demo") / signatures.FILE
    target.write_bytes(file.read_bytes())
    with pytest.raises(GradingError, match="line 1 of"):
        signatures.read(shop, "Cy-Demo")


def test_are_lines_cut_off_at_the_end_noticed_after_a_record_was_issued(signed):
    shop, file = signed
    made = record.write("Robin Demo", course=shop)
    lines = file.read_text(encoding="utf-8").splitlines()
    file.write_text("\n".join(lines[:-1]) + "\n", encoding="utf-8")
    with pytest.raises(GradingError, match=f"signature 3 .*{made.content['serial']}"):
        record.write("Robin Demo", course=shop)


def test_is_the_key_its_owners_and_a_damaged_one_never_replaced(signed):
    shop, _ = signed
    file = shop.home / KEY_FILE
    assert file.stat().st_mode & 0o077 == 0
    assert fingerprint(Key.of(shop).public) == fingerprint(Key.of(Course.at(shop.home)).public)
    file.write_text("nothing", encoding="ascii")
    with pytest.raises(GradingError, match="no key that seals"):
        Key.of(shop)
    assert file.read_text(encoding="ascii") == "nothing"
