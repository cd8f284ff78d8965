"""Is every change of an issued record noticed and named, and nothing else called a change?"""

from __future__ import annotations

import copy
import io
import json
import re
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import pytest

pytest.importorskip("nbgrader", reason="grading needs the teach extra")
pytest.importorskip("cryptography", reason="records need the teach extra")

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from pypdf import PdfReader, PdfWriter
from pypdf.annotations import FreeText
from pypdf.generic import RectangleObject
from twostroke.grading import record
from twostroke.grading.place import Course
from twostroke.grading.record import page, people
from twostroke.grading.record.seal import Key, canonical, check, entries, seal
from twostroke.grading.states import GradingError

_spec = spec_from_file_location("invented_shop", Path(__file__).parent / "invented_shop.py")
invented_shop = module_from_spec(_spec)
_spec.loader.exec_module(invented_shop)
SAM = {"by": "Sam Super", "initials": "SS"}
FORMS = ("pdf", "html", "data")


@pytest.fixture(scope="module")
def issued(tmp_path_factory):
    """A shop and one issued record."""
    folder = tmp_path_factory.mktemp("shop")
    shop = invented_shop.make(folder)
    record.sign(shop, "learner-01", "air gap", note="demo engine A", **SAM)
    return shop, record.write("Ann Demo", course=shop, to=folder / "out")


def stranger(tmp_path: Path) -> Course:
    """Another shop, with a key of its own and no copies."""
    course = Course.at(tmp_path / "another shop")
    Key.of(course)
    return course


def spoil(path: Path, folder: Path, data: bytes) -> Path:
    folder.mkdir(exist_ok=True)
    target = folder / path.name
    target.write_bytes(data)
    return target


@pytest.mark.parametrize("form", FORMS)
def test_is_an_untouched_record_as_issued(issued, tmp_path, form):
    shop, made = issued
    found = record.verify(getattr(made, form), course=shop)
    assert (found.whole, found.changes, found.who) == (True, (), "Ann Demo")
    assert found.serial == made.content["serial"]
    assert found.sealed_by == made.fingerprint
    elsewhere = record.verify(getattr(made, form), course=stranger(tmp_path), key=made.fingerprint)
    assert elsewhere.whole, elsewhere.changes


@pytest.mark.parametrize("form", FORMS)
def test_is_a_seal_by_an_unknown_key_no_proof(issued, tmp_path, form):
    _, made = issued
    found = record.verify(getattr(made, form), course=stranger(tmp_path))
    assert not found.whole
    assert "not this class's own" in found.changes[0]
    wrong = record.verify(getattr(made, form), key="00000000-00000000-00000000")
    assert not wrong.whole


def points_up(content):
    content["graded"]["safety"]["labs"]["lab 01"]["points"] += 1


def another_person(content):
    content["person"]["name"] = "Cy Demo"


def signature_added(content):
    content["hands on"]["safety"] = {
        "signature 9": {"by": "Sam Super", "date": "2026-03-07", "initials": "SS", "note": ""}
    }


def signature_moved(content):
    content["hands on"]["safety"] = content["hands on"].pop("air gap")
    content["hands on"]["air gap"] = {}


def evidence_gone(content):
    del content["tasks"]["lab 01"]


def open_list_cut(content):
    content["open"]["graded work"].pop()


CHANGES = [
    (points_up, "graded > safety > labs > lab 01 > points"),
    (another_person, "person > name"),
    (signature_added, "hands on > safety"),
    (signature_moved, "hands on > air gap"),
    (evidence_gone, "tasks > lab 01"),
    (open_list_cut, "open > graded work > "),
]


@pytest.mark.parametrize(("change", "named"), CHANGES, ids=lambda each: getattr(each, "__name__", ""))
@pytest.mark.parametrize("where", ["where it was issued", "elsewhere"])
def test_is_a_changed_entry_named(issued, tmp_path, change, named, where):
    shop, made = issued
    sealed = json.loads(made.data.read_text(encoding="utf-8"))
    change(sealed["content"])
    forged = spoil(made.data, tmp_path, json.dumps(sealed).encode())
    course, key = (shop, "") if where == "where it was issued" else (stranger(tmp_path), made.fingerprint)
    found = record.verify(forged, course=course, key=key)
    assert not found.whole
    assert any(each.startswith(named) for each in found.changes), found.changes


def test_is_what_stood_there_told_where_the_shop_has_its_copy(issued, tmp_path):
    shop, made = issued
    sealed = json.loads(made.data.read_text(encoding="utf-8"))
    another_person(sealed["content"])
    found = record.verify(spoil(made.data, tmp_path, json.dumps(sealed).encode()), course=shop)
    assert found.changes == ('person > name: issued as "Ann Demo", now "Cy Demo"',)


@pytest.mark.parametrize(("change", "named"), CHANGES, ids=lambda each: getattr(each, "__name__", ""))
def test_does_sealing_it_anew_not_help_a_forger(issued, tmp_path, change, named):
    """Content changed, digests worked out anew, signed with a key of the forger's own."""
    shop, made = issued
    content = json.loads(made.data.read_text(encoding="utf-8"))["content"]
    change(content)
    forged = seal(content, Key.of(stranger(tmp_path)))
    assert check(forged).changes == []
    found = record.verify(spoil(made.data, tmp_path, canonical(forged)), course=shop)
    assert not found.whole
    assert any(each.startswith(named) for each in found.changes), found.changes
    assert any("not this class's own" in each for each in found.changes)
    sheet = page.sheet(forged)
    for name, data in (("x.pdf", sheet.to_pdf()), ("x.html", sheet.to_html().encode())):
        assert not record.verify(spoil(Path(name), tmp_path, data), course=shop).whole
        assert not record.verify(spoil(Path(name), tmp_path, data), key=made.fingerprint).whole


def test_is_a_record_that_was_never_issued_here_not_as_issued(issued, tmp_path):
    shop, made = issued
    content = copy.deepcopy(made.content) | {"serial": "20260101-00000000"}
    forged = seal(content, Key.of(stranger(tmp_path)))
    assert not record.verify(spoil(made.data, tmp_path, canonical(forged)), course=shop).whole


@pytest.mark.parametrize(
    "change",
    [
        lambda sealed: sealed["seal"]["digests"].popitem(),
        lambda sealed: sealed["seal"].update(signature="00" * 64),
        lambda sealed: sealed["seal"].update(signature="no digits"),
        lambda sealed: sealed["seal"].update(method="none"),
        lambda sealed: sealed["seal"].update(key="ab"),
        lambda sealed: sealed.update(seal={}),
        lambda sealed: sealed.pop("seal"),
        lambda sealed: sealed.update(note="see also"),
        lambda sealed: sealed.update(content=[]),
    ],
)
def test_is_a_touched_seal_noticed(issued, tmp_path, change):
    shop, made = issued
    sealed = json.loads(made.data.read_text(encoding="utf-8"))
    change(sealed)
    forged = spoil(made.data, tmp_path, json.dumps(sealed).encode())
    for found in (record.verify(forged, course=shop), record.verify(forged, key=made.fingerprint)):
        assert not found.whole
        assert found.changes


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(data=st.data())
def test_is_any_single_change_found_at_its_place(data):
    content = {"person": {"name": "Ann Demo"}, "points": [1, 2.5, None], "tasks": {"a": {}, "b": {"of": 4}}}
    key = Key.of(KEYS)
    sealed = seal(content, key)
    place, value = data.draw(st.sampled_from(sorted(entries(content), key=str)))
    other = data.draw(st.one_of(st.none(), st.integers(), st.floats(allow_nan=False), st.text(max_size=20)))
    spoilt = copy.deepcopy(sealed)
    branch, *steps = [spoilt["content"]], *place.split(" > ")
    target = branch[0]
    for step in steps[:-1]:
        target = target[step] if isinstance(target, dict) else target[int(step) - 1]
    last = steps[-1] if isinstance(target, dict) else int(steps[-1]) - 1
    target[last] = other
    found = check(spoilt)
    same = canonical(other) == canonical(value)
    assert (found.changes == []) == same
    if not same:
        assert [each for each in found.changes if each.startswith(f"{place}:")] == found.changes


@pytest.fixture(scope="module", autouse=True)
def keys(tmp_path_factory):
    global KEYS
    KEYS = Course.at(tmp_path_factory.mktemp("keys"))
    Key.of(KEYS)


def test_are_names_that_stand_twice_refused(issued, tmp_path):
    """One reader takes the first, another the last."""
    shop, made = issued
    text = made.data.read_text(encoding="utf-8").replace('"person": {', '"person": {"name": "Cy Demo",', 1)
    found = record.verify(spoil(made.data, tmp_path, text.encode()), course=shop)
    assert not found.whole
    assert "cannot be read" in found.changes[0]


HELD = re.compile(r"<script.*?</script>", re.DOTALL)
WEB = [
    ("points on the page", lambda t: t.replace("01\u00a013/13", "01\u00a014/13", 1), "14/13"),
    ("another name", lambda t: t.replace("Training record: Ann Demo", "Training record: Cy Demo"), "Cy Demo"),
    ("a row hidden by style", lambda t: t.replace("<tr><td", '<tr style="display:none"><td', 1), "hidden"),
    ("a script", lambda t: t.replace("</main>", "</main><script>document.title=1</script>"), "hidden"),
    ("a line added", lambda t: t.replace("</article>", "<p>Welding: proven</p></article>"), "Welding"),
    ("the data taken out", lambda t: HELD.sub("", t), "no sealed data"),
    ("two sealed data", lambda t: t.replace("</main>", "</main>" + HELD.search(t)[0]),
     "2 sealed data"),
]  # fmt: skip


@pytest.mark.parametrize(("what", "change", "says"), WEB, ids=[each[0] for each in WEB])
def test_is_a_changed_web_page_noticed(issued, tmp_path, what, change, says):
    shop, made = issued
    text = made.html.read_text(encoding="utf-8")
    changed = change(text)
    assert changed != text
    forged = spoil(made.html, tmp_path, changed.encode())
    here = record.verify(forged, course=shop)
    assert not here.whole
    assert any(says in each for each in here.changes), here.changes
    assert not record.verify(forged, key=made.fingerprint).whole


def test_is_a_pdf_with_other_words_named_line_by_line(issued, tmp_path):
    """The sealed data left alone, the page printed anew with better points."""
    shop, made = issued
    sealed = json.loads(made.data.read_text(encoding="utf-8"))
    better = copy.deepcopy(sealed)
    better["content"]["person"]["name"] = "Cy Demo"
    sheet = page.sheet(better)
    sheet.enclosed = []
    sheet.enclose(page.ENCLOSED, canonical(sealed), "sealed")
    forged = spoil(made.pdf, tmp_path, sheet.to_pdf())
    for found in (record.verify(forged, course=shop), record.verify(forged, key=made.fingerprint)):
        assert not found.whole
        assert any("Ann Demo" in each and "Cy Demo" in each for each in found.changes), found.changes


def written_over(reader: PdfReader) -> PdfWriter:
    writer = PdfWriter(clone_from=reader)
    note = FreeText(text="safety: proven", rect=(50, 550, 200, 650), font_size="20pt")
    writer.add_annotation(page_number=0, annotation=note)
    return writer


def cropped(reader: PdfReader) -> PdfWriter:
    writer = PdfWriter(clone_from=reader)
    writer.pages[0].cropbox = RectangleObject((0, 400, 595, 842))
    return writer


def page_added(reader: PdfReader) -> PdfWriter:
    writer = PdfWriter(clone_from=reader)
    writer.add_blank_page(595, 842)
    return writer


@pytest.mark.parametrize("change", [written_over, cropped, page_added])
def test_is_a_pdf_that_was_drawn_over_cut_or_added_to_noticed(issued, tmp_path, change):
    shop, made = issued
    out = io.BytesIO()
    change(PdfReader(made.pdf)).write(out)
    forged = spoil(made.pdf, tmp_path, out.getvalue())
    here, elsewhere = record.verify(forged, course=shop), record.verify(forged, key=made.fingerprint)
    assert not here.whole
    assert any("page" in each or "drawn" in each for each in here.changes), here.changes
    assert not elsewhere.whole


def test_does_appending_bytes_count_as_a_change(issued, tmp_path):
    shop, made = issued
    for path in (made.pdf, made.html):
        forged = spoil(path, tmp_path, path.read_bytes() + b"\n<!-- -->")
        assert not record.verify(forged, course=shop).whole


def test_does_a_forged_copy_in_the_folder_not_help(issued, tmp_path):
    """Whoever can write to the records but has not the key."""
    shop, made = issued
    home = invented_shop.copy(shop, tmp_path)
    (kept,) = (people.folder(home, "learner-01") / "issued").glob("*.json")
    content = json.loads(kept.read_text(encoding="utf-8"))
    content["sealed"]["content"]["person"]["name"] = "Cy Demo"
    kept.write_text(json.dumps(content), encoding="utf-8")
    sealed = json.loads(made.data.read_text(encoding="utf-8"))
    sealed["content"]["person"]["name"] = "Cy Demo"
    forged = spoil(made.data, tmp_path, json.dumps(sealed).encode())
    assert any("person > name" in each for each in record.verify(forged, course=home).changes)
    assert record.verify(made.data, course=home).whole


@pytest.mark.parametrize(
    ("content", "says"),
    [(b"", "empty"), (b"%PDF-1.7 broken", "damaged|no sealed data"), (b"hello", "no sealed data"),
     (b"{", "cannot be read"), (b"[1]", "no sealed data"), (b"\xff\xfe\x00", "no sealed data"),
     (b'{"a":' * 5000, "cannot be read")],
)  # fmt: skip
def test_is_anything_else_no_record_and_no_traceback(issued, tmp_path, content, says):
    path = tmp_path / "something"
    path.write_bytes(content)
    try:
        found = " ".join(record.verify(path, course=issued[0]).changes)
    except GradingError as error:
        found = str(error)
    assert re.search(says, found)
