"""Does a sheet print what was written on it, whatever was written?"""

from __future__ import annotations

import base64
import io
import json
import re
from html.parser import HTMLParser

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from pypdf import PdfReader
from twostroke.sheet import Book, Sheet, SheetError, digest_of, literal
from twostroke.sheet import printer as printing

SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 200 40"><rect width="198" height="38" fill="none" '
    'stroke="black"/><text x="10" y="25" font-family="sans-serif">shim</text></svg>'
)
PNG = base64.b64decode(
    "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNkYPhfDwAChwGA60e6kgAAAABJRU5ErkJggg=="
)


def words_of_pdf(data: bytes) -> str:
    """Text of all pages, without line ends, joints of long words and zero-width spaces."""
    pages = PdfReader(io.BytesIO(data)).pages
    return re.sub(r"[\s\u200b\u00ad]+", "", "".join(page.extract_text() for page in pages))


class Words(HTMLParser):
    """Collects text and tags of a page."""

    def __init__(self) -> None:
        super().__init__()
        self.words: list[str] = []
        self.tags: list[tuple[str, dict[str, str | None]]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))

    def handle_data(self, data: str) -> None:
        self.words.append(data)


def read_page(html: str) -> Words:
    reader = Words()
    reader.feed(html)
    return reader


def full_sheet() -> Sheet:
    sheet = Sheet("Air gap", "bench card", "invented demo engine A")
    sheet.heading("Readings")
    sheet.text("Turn the **magnet** to the *legs*.\n\n1. loosen\n2. shim\n\n`p_abs = p_gauge + p_air`")
    sheet.table(["what", "value"], [["gap", "0.30 mm"], ["winding", "7.5 kΩ"]], align="lr", widths=[2, 1])
    sheet.box("Trap", ["A **new** plug proves nothing."])
    sheet.caution("Fuel away before a spark test.")
    sheet.figure(SVG, "a shim between leg and magnet", caption="shim in place", width=0.5)
    sheet.figure(PNG, "one dot", width=0.1)
    sheet.lines(["Name", "Date", "Initials"])
    return sheet


WRITTEN = [
    "Air gap",
    "bench card",
    "invented demo engine A",
    "Readings",
    "magnet",
    "loosen",
    "p_abs = p_gauge + p_air",
    "0.30 mm",
    "7.5 kΩ",
    "Trap",
    "A new plug proves nothing.",
    "Caution",
    "Fuel away before a spark test.",
    "shim in place",
    "Name",
    "Date",
    "Initials",
]


def test_do_paper_and_page_say_the_same() -> None:
    paper = words_of_pdf(full_sheet().to_pdf())
    page = re.sub(r"\s+", "", "".join(read_page(full_sheet().to_html()).words))
    for written in WRITTEN:
        bare = written.replace(" ", "")
        assert bare in paper, written
        assert bare in page, written


def test_is_the_order_of_blocks_kept_on_paper() -> None:
    paper = words_of_pdf(full_sheet().to_pdf())
    places = [paper.index(word) for word in ("Readings", "loosen", "0.30mm", "Trap", "Fuelaway", "Initials")]
    assert places == sorted(places)


def test_does_the_same_sheet_give_the_same_bytes() -> None:
    assert full_sheet().to_pdf() == full_sheet().to_pdf()


def test_does_a_pdf_name_the_sheet_it_was_printed_from() -> None:
    one, same, other = full_sheet(), full_sheet(), full_sheet()
    other.text("one word more")
    assert digest_of(one.to_pdf()) == digest_of(same.to_pdf()) is not None
    assert digest_of(one.to_pdf()) != digest_of(other.to_pdf())
    drawn = full_sheet()
    drawn.figure(SVG.replace("shim", "leaf"), "a shim between leg and magnet")
    redrawn = full_sheet()
    redrawn.figure(SVG, "a shim between leg and magnet")
    assert digest_of(drawn.to_pdf()) != digest_of(redrawn.to_pdf())
    assert digest_of(b"%PDF-1.7 somebody else's") is None


def test_can_a_screen_reader_read_the_pdf() -> None:
    catalogue = PdfReader(io.BytesIO(full_sheet().to_pdf())).trailer["/Root"]
    assert catalogue["/MarkInfo"]["/Marked"]
    assert str(catalogue["/Lang"]).lower().startswith("en")
    assert "/StructTreeRoot" in catalogue


def test_does_the_page_need_anything_from_outside() -> None:
    reader = read_page(full_sheet().to_html())
    for tag, attributes in reader.tags:
        assert tag not in ("script", "link", "iframe")
        assert (attributes.get("src") or "data:").startswith("data:")
    assert "@import" not in full_sheet().to_html()
    pictures = [attributes for tag, attributes in reader.tags if tag == "img"]
    assert [picture["alt"] for picture in pictures] == ["a shim between leg and magnet", "one dot"]


NASTY = [
    "#let x = 1; #x",
    '#read("/etc/passwd")',
    "$ integral $",
    "@ref <label>",
    "\\u{41}",
    '"); #panic()',
    "= not a heading",
    "/ term: no",
    "// gone?",
    "<script>alert(1)</script>",
    "{{ 7*7 }}",
    "{% raw %}",
    "&lt;b&gt;",
    "*star* _low_ `tick`",
    "[text](javascript:alert(1))",
    "~",
    "--- ... --",
    "'quoted' \"so\"",
]


@pytest.mark.parametrize("typed", NASTY)
def test_is_what_a_user_typed_printed_as_typed(typed: str) -> None:
    sheet = Sheet(typed, typed, typed)
    sheet.heading(typed)
    sheet.table([typed], [[typed]])
    sheet.text(literal(typed))
    sheet.box(typed, [literal(typed)])
    sheet.caution(literal(typed))
    sheet.lines([typed])
    bare = re.sub(r"\s+", "", typed)
    assert words_of_pdf(sheet.to_pdf()).count(bare) >= 9
    page = read_page(sheet.to_html())
    assert re.sub(r"\s+", "", "".join(page.words)).count(bare) >= 9
    assert not [tag for tag, _ in page.tags if tag in ("script", "b")]


@settings(max_examples=40, deadline=None)
@given(st.text(max_size=60))
def test_can_any_text_be_printed(typed: str) -> None:
    sheet = Sheet(typed, typed, typed)
    sheet.table([typed, typed], [[typed, typed]])
    sheet.text(typed)
    sheet.box(typed, [typed])
    sheet.caution(literal(typed))
    assert sheet.pages() >= 1
    assert sheet.to_pdf().startswith(b"%PDF-")
    assert not [tag for tag, _ in read_page(sheet.to_html()).tags if tag == "script"]


@settings(max_examples=60, deadline=None)
@given(st.text(alphabet=st.characters(min_codepoint=33, max_codepoint=0x24F), min_size=1, max_size=40))
def test_does_literal_keep_every_letter(typed: str) -> None:
    assume(literal_without_marks(typed))
    sheet = Sheet("t")
    sheet.text(literal(typed))
    runs = sheet.blocks[0].content["nodes"][0]["spans"]
    shown = "".join(run["text"] for run in runs)
    assert shown.strip() == literal_without_marks(typed)
    assert not any(run["bold"] or run["italic"] or run["code"] or run["href"] for run in runs)


def literal_without_marks(typed: str) -> str:
    return re.sub(r"[\x7f-\x9f]", "", typed).strip()


def test_is_a_link_only_a_link_to_the_web() -> None:
    sheet = Sheet("t")
    sheet.text("[a](https://example.org) [b](file:///etc/passwd) [c](javascript:alert(1))")
    addresses = [attributes["href"] for tag, attributes in read_page(sheet.to_html()).tags if tag == "a"]
    assert addresses == ["https://example.org"]


def test_does_a_name_in_another_script_still_print() -> None:
    sheet = Sheet("Training record")
    sheet.table(["learner"], [["Łukasz Żółć"], ["Дарья"], ["山田"]])
    assert "ŁukaszŻółć" in words_of_pdf(sheet.to_pdf())


def test_does_a_word_of_absurd_length_stay_on_the_paper() -> None:
    sheet = Sheet("t")
    sheet.table(["learner", "score"], [["x" * 400, "3 of 5"]], align="lr")
    right_edge = 595.0
    furthest = 0.0

    def see(text, _cm, place, _font, _size):
        nonlocal furthest
        if text.strip():
            furthest = max(furthest, float(place[4]))

    PdfReader(io.BytesIO(sheet.to_pdf())).pages[0].extract_text(visitor_text=see)
    assert 0 < furthest < right_edge
    assert "3of5" in words_of_pdf(sheet.to_pdf())


def test_are_pages_counted() -> None:
    long = Sheet("long")
    for number in range(120):
        long.text(f"line {number}")
    assert long.pages() == len(PdfReader(io.BytesIO(long.to_pdf())).pages) == len(long.to_png(20)) > 1
    broken = Sheet("two")
    broken.text("one")
    broken.page_break()
    broken.text("two")
    assert broken.pages() == 2
    assert Book("both", [broken, Sheet("three")]).pages() == 3


def test_does_a_tall_figure_fit_its_page() -> None:
    sheet = Sheet("tall")
    sheet.figure(SVG.replace("0 0 200 40", "0 0 20 400"), "a tall picture")
    assert sheet.pages() == 1


def test_is_compact_denser_than_normal() -> None:
    def rows(compact: bool) -> int:
        sheet = Sheet("t", compact=compact)
        sheet.table(["a"], [[str(number)] for number in range(150)])
        return sheet.pages()

    assert rows(True) < rows(False)


@pytest.mark.parametrize(
    ("wrong", "says"),
    [
        (lambda: Sheet("t", paper="foolscap"), "foolscap"),
        (lambda: Sheet("t").table(["a", "b"], [["1"]]), "row 1 has 1 cells"),
        (lambda: Sheet("t").table([], []), "at least one header"),
        (lambda: Sheet("t").table(["a"], [["1"]], align="x"), "alignment"),
        (lambda: Sheet("t").table(["a"], [["1"]], widths=[1, 2]), "widths"),
        (lambda: Sheet("t").figure(b"GIF89a", "a picture"), "neither SVG nor PNG"),
        (lambda: Sheet("t").figure(SVG, "  "), "what the picture shows"),
        (lambda: Sheet("t").figure(SVG, "x", width=3), "width"),
        (lambda: Book("b", []), "at least one sheet"),
        (lambda: Book("b", [Sheet("t"), Sheet("u", paper="a5")]), "mixed paper"),
    ],
)
def test_does_a_wrong_call_say_what_to_do(wrong, says: str) -> None:
    with pytest.raises(SheetError, match=re.escape(says)):
        wrong()


def test_is_a_broken_picture_named() -> None:
    sheet = Sheet("t")
    sheet.figure("<svg xmlns='http://www.w3.org/2000/svg'><rect", "broken")
    with pytest.raises(SheetError, match=r"figure0\.svg"):
        sheet.to_pdf()


def test_are_files_written_where_asked(tmp_path) -> None:
    sheet = full_sheet()
    assert sheet.pdf(tmp_path / "a b" / "card.pdf").read_bytes() == sheet.to_pdf()
    assert sheet.html(tmp_path / "card.html").read_text(encoding="utf-8") == sheet.to_html()


def test_does_print_leave_the_machine_fonts_alone() -> None:
    families = {font.family for font in printing._fonts(False).fonts()}
    assert "DejaVu Sans" in families
    assert all("mpl-data" in (font.path or "") for font in printing._fonts(False).fonts())


def test_does_a_file_travel_inside_the_document_without_being_printed() -> None:
    data = '{"who": "</script><script>alert(1)</script> & Zoë"}'.encode()
    sheet = Sheet("Record")
    sheet.text("One line.")
    bare, bare_mark = sheet.to_pdf(), digest_of(sheet.to_pdf())
    sheet.enclose("record.json", data, "the record, for programs")
    pdf = sheet.to_pdf()
    assert pdf == sheet.to_pdf()
    assert digest_of(pdf) != bare_mark
    assert PdfReader(io.BytesIO(pdf)).attachments["record.json"] == [data]
    assert PdfReader(io.BytesIO(bare)).attachments == {}
    assert words_of_pdf(pdf) == words_of_pdf(bare)
    page = sheet.to_html()
    assert page.count("<script") == 1, "nothing in the file ends its element or begins another"
    (held,) = re.findall(r'<script type="application/json" id="record.json"[^>]*>(.*?)</script>', page)
    assert json.loads(held) == json.loads(data)


@pytest.mark.parametrize(
    ("name", "data", "says"),
    [
        ("../record.json", b"{}", "plain name"),
        ("sheet.typ", b"{}", "plain name"),
        ("record.json", b"{", "no JSON"),
    ],
)
def test_is_a_file_that_cannot_be_enclosed_refused(name, data, says) -> None:
    with pytest.raises(SheetError, match=says):
        Sheet("Record").enclose(name, data, "x")
