"""Drawings and the figures of the lessons: what they show is what the library computes."""

from __future__ import annotations

import itertools
import math
import re
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from matplotlib.font_manager import FontProperties
from matplotlib.textpath import TextPath
from twostroke import compression, units
from twostroke.lesson import content
from twostroke.lesson.drawing import Canvas, DrawingError, Frame, dial, nice_steps
from twostroke.lesson.drawing.canvas import BLUE, BRASS, GUIDE, INK, PAPER, RUST, STEEL
from twostroke.lesson.figures import shop_units, start_here

FIGURES = [(number, figure) for number in content.numbers() for figure in content.load(number).figures]
each_figure = pytest.mark.parametrize(("number", "figure"), FIGURES, ids=[f"{n}-{f.id}" for n, f in FIGURES])


def corners(figure):
    """Every parameter at its low end, at its high end, and at its start."""
    for end in ("low", "start", "high"):
        yield {parameter.name: getattr(parameter, end) for parameter in figure.parameters}


@each_figure
def test_is_the_svg_sound_and_finite_at_every_end_of_the_sliders(number, figure):
    for values in corners(figure):
        root = ElementTree.fromstring(figure.picture(values).svg)
        text = ElementTree.tostring(root, encoding="unicode")
        assert not re.search(r"\b(nan|inf)\b", text)
        for rect in root.iter("{http://www.w3.org/2000/svg}rect"):
            assert float(rect.get("width")) >= 0
            assert float(rect.get("height")) >= 0


@each_figure
def test_does_every_label_stay_on_the_paper(number, figure):
    """Measured in DejaVu Sans, the widest of the fonts that the drawings ask for."""
    for values in corners(figure):
        root = ElementTree.fromstring(figure.picture(values).svg)
        width, height = (float(part) for part in root.get("viewBox").split()[2:])
        for label in root.iter("{http://www.w3.org/2000/svg}text"):
            if label.get("transform"):
                continue
            size = float(label.get("font-size"))
            weight = "bold" if label.get("font-weight") else "normal"
            font = FontProperties(family="DejaVu Sans", weight=weight)
            long = TextPath((0, 0), label.text, size=size, prop=font).get_extents().x1
            left = float(label.get("x")) - {"middle": long / 2, "end": long}.get(label.get("text-anchor"), 0)
            assert left >= 0, (label.text, values)
            assert left + long <= width, (label.text, values)
            assert size <= float(label.get("y")) + 4, (label.text, values)
            assert float(label.get("y")) <= height, (label.text, values)


@each_figure
def test_are_labels_large_enough_for_a_tablet(number, figure):
    """A canvas is shown about 600 px wide on a tablet; 11 px is the least that is read at arm's length."""
    root = ElementTree.fromstring(figure.still().svg)
    width = float(root.get("viewBox").split()[2])
    sizes = [float(label.get("font-size")) for label in root.iter("{http://www.w3.org/2000/svg}text")]
    assert min(sizes) * 600 / width >= 10.5
    assert width <= 720


@each_figure
def test_do_the_words_change_with_each_slider(number, figure):
    start = {parameter.name: parameter.start for parameter in figure.parameters}
    for parameter in figure.parameters:
        other = parameter.low if parameter.low != parameter.start else parameter.high
        moved = figure.picture({**start, parameter.name: other})
        assert moved.words != figure.still().words, parameter.name
        assert moved.svg != figure.still().svg, parameter.name


def _luminance(colour: str) -> float:
    parts = [int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


@pytest.mark.parametrize("ink", [INK, BLUE, RUST, GUIDE])
@pytest.mark.parametrize("ground", [PAPER, STEEL, BRASS])
def test_is_the_contrast_enough(ink, ground):
    """WCAG 2.2, 1.4.3 and 1.4.11: 4.5 for text on paper; lines on filled metal have their outline too."""
    high, low = sorted((_luminance(ink), _luminance(ground)), reverse=True)
    assert (high + 0.05) / (low + 0.05) >= (4.5 if ground == PAPER and ink != GUIDE else 2.8)


@pytest.mark.parametrize(
    ("thou", "mm", "source"),
    [
        (10, 0.254, "NIST SP 811 B.8, 1 in = 25.4 mm exactly"),
        (12, 0.3048, "same"),
        (40, 1.016, "same"),
        (0, 0, "nothing is nothing"),
    ],
)
def test_does_the_leaf_show_the_right_millimetres(thou, mm, source):
    picture = shop_units.leaf(f"{thou} thou")
    assert picture.shown["thickness"].to("mm").magnitude == pytest.approx(mm, abs=1e-12), source
    assert f"{mm:.3f} mm" in picture.words


def test_is_the_leaf_drawn_to_scale():
    """Twice the thickness is twice as wide on the paper."""

    def width(thou):
        root = ElementTree.fromstring(shop_units.leaf(f"{thou} thou").svg)
        leaf = [one for one in root.iter("{http://www.w3.org/2000/svg}rect") if one.get("stroke") == BLUE]
        return float(leaf[0].get("width"))

    assert width(20) == pytest.approx(2 * width(10), abs=0.02)


@pytest.mark.parametrize(
    ("height", "bar", "source"),
    [
        ("0 m", 1.01325, "U.S. Standard Atmosphere 1976, table I"),
        ("1000 m", 0.89876, "same"),
        ("2000 m", 0.79501, "same"),
        ("4000 m", 0.61660, "same"),
    ],
)
def test_is_the_air_that_of_the_standard_atmosphere(height, bar, source):
    shown = shop_units.gauge_and_absolute(height, "0 psi").shown
    assert shown["air"].to("bar").magnitude == pytest.approx(bar, rel=2e-4), source
    assert shown["absolute"] == shown["air"]


@settings(max_examples=30, deadline=None)
@given(height=st.floats(0, 4000), gauge=st.floats(0, 200))
def test_is_absolute_always_gauge_plus_air(height, gauge):
    shown = shop_units.gauge_and_absolute(f"{height:.6f} m", f"{gauge:.6f} psi").shown
    air = compression.standard_atmosphere(f"{height:.6f} m").pressure
    total = (shown["gauge"].to("pascal") + air.to("pascal")).magnitude
    assert shown["absolute"].to("pascal").magnitude == pytest.approx(total, rel=1e-9)


@pytest.mark.parametrize(("can", "ratio", "ml"), [("5 L", 50, 100), ("1 L", 25, 40), ("10 L", 20, 500)])
def test_is_the_oil_fuel_over_ratio(can, ratio, ml):
    shown = shop_units.oil_for_can(can, ratio).shown
    assert shown["oil"].to("mL").magnitude == pytest.approx(ml)
    assert shown["percent"] == pytest.approx(100 / ratio)


def test_are_there_as_many_squares_as_parts():
    root = ElementTree.fromstring(shop_units.oil_for_can("5 L", 50).svg)
    squares = [one for one in root.iter("{http://www.w3.org/2000/svg}rect") if one.get("width") == "18"]
    assert len(squares) == 51


@pytest.mark.parametrize(
    ("reading", "doubt", "verdict", "why"),
    [
        ("0.28 mm", "0.01 mm", "in", "0.264 to 0.296 lies inside 0.20 to 0.35"),
        ("0.34 mm", "0.01 mm", "undecided", "0.356 lies above 0.35"),
        ("0.34 mm", "0 mm", "in", "without doubt the number itself decides"),
        ("0.40 mm", "0.01 mm", "out", "0.384 lies above 0.35"),
        ("0.18 mm", "0.01 mm", "out", "0.196 lies below 0.20"),
    ],
)
def test_is_the_verdict_that_of_the_guard_band(reading, doubt, verdict, why):
    """Reach 1.645 standard uncertainties: JCGM 106."""
    picture = start_here.reading_in_band(reading, doubt)
    assert str(picture.shown["verdict"]) == verdict, why
    assert f"Verdict {verdict}" in picture.words


@pytest.mark.parametrize(
    "draw",
    [
        lambda: shop_units.leaf("41 thou"),
        lambda: shop_units.gauge_and_absolute("5000 m", "10 psi"),
        lambda: shop_units.gauge_and_absolute("0 m", "500 psi"),
        lambda: shop_units.oil_for_can("50 L", 50),
        lambda: shop_units.oil_for_can("5 L", 10),
        lambda: start_here.reading_in_band("0.9 mm", "0.01 mm"),
    ],
)
def test_is_a_value_off_the_scale_refused_with_the_range(draw):
    with pytest.raises(DrawingError, match=r"\d"):
        draw()


def test_is_the_guess_marked_where_it_lies():
    with_guess = shop_units.leaf("12 thou", units.read("0.5 mm")).svg
    assert "your prediction" in with_guess
    assert "your prediction" not in shop_units.leaf("12 thou", units.read("5 mm")).svg, "off the scale"


@settings(max_examples=40, deadline=None)
@given(low=st.floats(-1e4, 1e4), span=st.floats(1e-3, 1e4), about=st.integers(1, 10))
def test_are_ticks_inside_the_axis_and_evenly_spaced(low, span, about):
    ticks = nice_steps(low, low + span, about)
    assert all(low - 1e-6 * span <= value <= low + span * (1 + 1e-6) + 1e-9 for value in ticks)
    steps = [b - a for a, b in itertools.pairwise(ticks)]
    assert all(math.isclose(step, steps[0], rel_tol=1e-5) for step in steps)
    assert len(ticks) <= 3 * about + 2


@pytest.mark.parametrize(
    ("make", "said"),
    [
        (lambda: Canvas(10, 10, "", "words"), "without title or words"),
        (lambda: Canvas(10, 10, "t", "w").line(0, 0, float("nan"), 1), "finite"),
        (lambda: nice_steps(1, 1), "upper end"),
    ],
)
def test_is_a_drawing_that_says_nothing_refused(make, said):
    with pytest.raises(DrawingError, match=said):
        make()


def test_does_text_from_outside_stay_text():
    canvas = Canvas(100, 100, "a <b>", 'say "x" & y')
    canvas.label(1, 20, "<script>alert(1)</script>", colour='"><x>')
    root = ElementTree.fromstring(canvas.svg())
    assert all(not one.tag.endswith("script") for one in root.iter())


def test_is_a_place_on_the_frame_linear_and_upright():
    frame = Frame(10, 20, 100, 50, (0, 4), (0, 2))
    assert (frame.x(0), frame.x(4), frame.y(0), frame.y(2)) == (10, 110, 70, 20)


@pytest.mark.parametrize("value", [-50, 0, 120, 200, 900])
def test_does_the_needle_stop_at_the_ends_of_the_scale(value):
    canvas = Canvas(200, 200, "Gauge", "A gauge.")
    dial(canvas, 100, 100, 90, value, (0, 200), [0, 100, 200], unit="psi")
    needle = list(ElementTree.fromstring(canvas.svg()).iter("{http://www.w3.org/2000/svg}polygon"))
    tip_x, tip_y = (float(part) for part in needle[0].get("points").split()[0].split(","))
    assert math.hypot(tip_x - 100, tip_y - 100) == pytest.approx(72, abs=0.1)
    angle = math.degrees(math.atan2(100 - tip_y, tip_x - 100)) % 360
    assert not 236 < angle < 304, "never in the open part below"
