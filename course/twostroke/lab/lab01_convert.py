"""Lab 01: one spec sheet from inch units to metric ones, one the other way."""

from __future__ import annotations

from collections.abc import Callable

from twostroke.lab.conversion import convert
from twostroke.lab.draw import Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.number import Number
from twostroke.lab.page import Page, Table
from twostroke.lab.slips import Slip, slip
from twostroke.lab.task import Task
from twostroke.lab.tolerance import tolerance

SEA_LEVEL = 1013.25
"""Standard pressure at sea level in hPa (ISO 2533)."""


def _metric_page(v: Variant) -> Page:
    rows = (
        ("air gap, magnet to module", f"{v['gap_thou']} thou"),
        ("cranking compression (gauge)", f"{v['compression_psi']} psi"),
        ("cover screw torque", f"{v['torque_lbf_in']} lbf·in"),
        ("storage temperature, at most", f"{v['storage_degF']} °F"),
    )
    return Page("", (Table(f"Spec sheet of the {v['machine']}", ("what", "sheet says"), rows),))


def _inch_page(v: Variant) -> Page:
    rows = (
        ("plug gap", f"{v['plug_gap_hundredths_mm'] / 100:.2f} mm"),
        ("crankcase test pressure (gauge)", f"{v['crankcase_hundredths_bar'] / 100:.2f} bar"),
        ("fuel tank", f"{v['tank_mL']} mL"),
    )
    return Page("", (Table(f"Second sheet of the {v['machine']}", ("what", "sheet says"), rows),))


def _turned(name: str, number: Callable[[Variant], float], from_unit: str, to_unit: str) -> Slip:
    """Return the slip of the factor used the wrong way round."""
    return slip(
        "factor_turned_round",
        lambda v, own: number(v) / convert(1, from_unit, to_unit),
        f"{name}: the number moved the wrong way.",
        "The factor was used upside down.",
        f"Is one {from_unit} larger or smaller than one {to_unit}, so must the number grow or shrink?",
    )


_THOU_MM = convert(1, "thou", "mm")
_PSI_BAR = convert(1, "psi", "bar")
HINT = Feedback(
    "The value fits neither the sheet nor a usual slip.",
    "A factor or a decimal place may be off.",
    "Turn your answer back into the unit of the sheet: does it give the sheet's figure?",
)

METRIC = Task(
    id="metric",
    title="Spec sheet, inch to metric",
    outcome="convert a spec sheet from inch units to metric ones",
    kind="value",
    points=4,
    competency="units and measuring",
    show=_metric_page,
    items=(
        Number(
            "air_gap", "air gap", "mm",
            lambda v, own: convert(v["gap_thou"], "thou", "mm"),
            tolerance(0.01, reason="half a step of 0.01 mm"), 0, 2000,
            (
                slip("thou_as_hundredth_mm", lambda v, own: v["gap_thou"] * 0.01,
                     "The digits of the thou stand there as hundredths of a millimetre.",
                     "A thou was taken for a hundredth of a millimetre.",
                     "What part of an inch is a thou, and how many millimetres has an inch?"),
                slip("thou_as_thousandth_mm", lambda v, own: v["gap_thou"] * 0.001,
                     "A gap thinner than foil.", "A thou was taken for a thousandth of a millimetre.",
                     "A thousandth of what is a thou?"),
                _turned("Air gap", lambda v: v["gap_thou"], "thou", "mm"),
            ),
            HINT, 3, "thou",
        ),
        Number(
            "compression", "compression (gauge)", "bar",
            lambda v, own: convert(v["compression_psi"], "psi", "bar"),
            tolerance(0.1, reason="half a step of 0.1 bar"), 0, 5000,
            (
                slip("unit_changes_reference", lambda v,
                     own: v["compression_psi"] * _PSI_BAR + SEA_LEVEL / 1000,
                     "About one bar too much.", "The air was added, but both figures are gauge pressures.",
                     "Does changing the unit change where the gauge starts counting?"),
                slip("psi_as_tenth_bar", lambda v, own: v["compression_psi"] / 10,
                     "The psi figure with its decimal point moved.", "Ten psi were taken for one bar.",
                     "How many psi make one bar? It is more than ten."),
                _turned("Compression", lambda v: v["compression_psi"], "psi", "bar"),
            ),
            HINT, 1, "psi", reference="gauge",
        ),
        Number(
            "torque", "cover screw torque", "N·m",
            lambda v, own: convert(v["torque_lbf_in"], "lbf·in", "N·m"),
            tolerance(0.1, reason="half a step of 0.1 N·m"), 0, 2000,
            (
                slip("inch_pound_as_foot_pound", lambda v, own: convert(v["torque_lbf_in"], "lbf·ft", "N·m"),
                     "A torque twelve times too large: it would strip the thread.",
                     "Inch-pounds were taken for foot-pounds.",
                     "Which arm, an inch or a foot, stands in the unit?"),
                slip("pound_as_newton", lambda v, own: v["torque_lbf_in"] * 0.0254,
                     "Only the arm was converted.", "The pound of force was taken for a newton.",
                     "How many newtons is the force of one pound? Convert both parts of the unit."),
                _turned("Torque", lambda v: v["torque_lbf_in"], "lbf·in", "N·m"),
            ),
            HINT, 1, "lbf·in",
        ),
        Number(
            "storage", "storage temperature", "°C",
            lambda v, own: convert(v["storage_degF"], "°F", "°C"),
            tolerance(1, reason="half a step of 1 °C"), -100, 400,
            (
                slip("fahrenheit_as_celsius", lambda v, own: float(v["storage_degF"]),
                     "The sheet's number with another unit behind it.", "Fahrenheit was read as Celsius.",
                     "Where does water freeze on each scale?"),
                slip("offset_forgotten", lambda v, own: v["storage_degF"] / 1.8,
                     "A warmer figure than the sheet means.", "The step was scaled, the zero was not moved.",
                     "Take off the freezing point of the Fahrenheit scale before scaling."),
                slip("offset_after_scaling", lambda v, own: v["storage_degF"] / 1.8 - 32,
                     "A colder figure than the sheet means.", "The zero was moved after scaling.",
                     "The zero is moved in Fahrenheit degrees: in which step are they still that?",
                     misconception="offset_forgotten"),
            ),
            HINT, 0, "°F",
        ),
    ),
)  # fmt: skip

INCH = Task(
    id="inch",
    title="Spec sheet, metric to inch",
    outcome="convert a spec sheet from metric units to inch ones",
    kind="value",
    points=3,
    competency="units and measuring",
    show=_inch_page,
    items=(
        Number(
            "plug_gap", "plug gap", "thou",
            lambda v, own: convert(v["plug_gap_hundredths_mm"] / 100, "mm", "thou"),
            tolerance(1, reason="half a step of 1 thou"), 0, 2000,
            (
                slip("thou_as_hundredth_mm", lambda v, own: float(v["plug_gap_hundredths_mm"]),
                     "The digits of the millimetres stand there as thou.",
                     "A hundredth of a millimetre was taken for a thou.",
                     "How many hundredths of a millimetre is a thou?"),
                slip("thou_as_thousandth_mm", lambda v, own: v["plug_gap_hundredths_mm"] * 10.0,
                     "A gap as wide as a finger.", "A thousandth of a millimetre was taken for a thou.",
                     "A thousandth of what is a thou?"),
                slip("factor_turned_round", lambda v, own: v["plug_gap_hundredths_mm"] / 100 * 25.4,
                     "The number of millimetres times 25.4.", "The factor was used upside down.",
                     "An inch is 25.4 mm: must you multiply or divide to get inches?"),
            ),
            HINT, 1, "mm",
        ),
        Number(
            "crankcase", "crankcase test pressure (gauge)", "psi",
            lambda v, own: convert(v["crankcase_hundredths_bar"] / 100, "bar", "psi"),
            tolerance(0.1, reason="half a step of 0.1 psi"), 0, 500,
            (
                slip("unit_changes_reference",
                     lambda v, own: convert(v["crankcase_hundredths_bar"] / 100 + SEA_LEVEL / 1000, "bar",
                     "psi"),
                     "Almost 15 psi too much.", "The air was added, but both figures are gauge pressures.",
                     "Does changing the unit change where the gauge starts counting?"),
                slip("psi_as_tenth_bar", lambda v, own: v["crankcase_hundredths_bar"] / 10,
                     "The bar figure with its decimal point moved.", "One bar was taken for ten psi.",
                     "How many psi make one bar? It is more than ten."),
                _turned("Test pressure", lambda v: v["crankcase_hundredths_bar"] / 100, "bar", "psi"),
            ),
            HINT, 1, "bar", reference="gauge",
        ),
        Number(
            "tank", "fuel tank", "US fl oz",
            lambda v, own: convert(v["tank_mL"], "mL", "US fl oz"),
            tolerance(0.1, reason="half a step of 0.1 US fl oz"), 0, 50000,
            (
                slip("gallon_is_gallon", lambda v, own: convert(v["tank_mL"], "mL", "imp fl oz"),
                     "Four per cent too many ounces.", "The imperial ounce was taken; the US one is asked.",
                     "Which of the two ounces is the larger?"),
                slip("prefix_dropped", lambda v, own: convert(v["tank_mL"] * 10, "mL", "US fl oz"),
                     "Ten times too many ounces.",
                     "A decimal place has slipped, or millilitres were read as centilitres.",
                     "A drinking glass holds about 8 US fl oz: how many glasses is your tank?"),
                _turned("Tank", lambda v: v["tank_mL"], "mL", "US fl oz"),
            ),
            HINT, 1, "mL",
        ),
    ),
)  # fmt: skip
