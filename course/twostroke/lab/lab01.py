"""Lab 01, shop units: spec sheets, oil for a can, gauge to absolute, formulas, fuel handled safely."""

from __future__ import annotations

from typing import Any

from twostroke.lab import lab01_convert, lab01_formulas, lab01_safety, lab01_sheet
from twostroke.lab.conversion import convert
from twostroke.lab.draw import Draw, Variant
from twostroke.lab.feedback import Feedback
from twostroke.lab.lab01_convert import HINT, SEA_LEVEL
from twostroke.lab.number import Number
from twostroke.lab.page import Page, Table, Text
from twostroke.lab.slips import slip
from twostroke.lab.task import Lab, Task
from twostroke.lab.tolerance import tolerance

MACHINES = ("hedge trimmer", "line trimmer", "leaf blower", "brush cutter", "pole pruner", "water pump")
RATIOS = (25, 32, 40, 50)
AIR = {0: 1013, 500: 955, 1000: 899, 1500: 846, 2000: 795, 2500: 747, 3000: 701}
"""Pressure of the standard atmosphere in whole hPa by altitude in metres (ISO 2533:1975)."""


def draw(d: Draw) -> dict[str, Any]:
    """Draw one learner's machine and numbers; whole numbers in the unit that the name says."""
    given: dict[str, Any] = {
        "machine": f"{d.integer('cc', 21, 45)} cm³ {d.pick('machine', MACHINES)}, "
        f"demo engine {d.pick('letter', 'ABCDEFGH')}",
        "gap_thou": d.integer("gap", 8, 16),
        "compression_psi": d.integer("compression", 90, 170),
        "torque_lbf_in": d.integer("torque", 25, 60),
        "storage_degF": d.integer("storage", 45, 100),
        "plug_gap_hundredths_mm": d.integer("plug gap", 50, 80),
        "crankcase_hundredths_bar": d.integer("crankcase", 40, 80, 5),
        "tank_mL": d.integer("tank", 300, 900, 10),
        "can_tenths_US_gal": d.integer("can", 10, 30),
        "ratio": d.pick("ratio", RATIOS),
        "altitude_m": d.integer("row", 1000, 2000, 500) + d.integer("above row", 50, 450, 50),
        "gauge_tenths_bar": d.integer("gauge", 60, 110),
    }
    return given | lab01_sheet.draw(d)


def between_rows(variant: Variant) -> tuple[int, int, float]:
    """Return the pressures of the two table rows around the altitude, and how far up between them it lies."""
    low = variant["altitude_m"] // 500 * 500
    return AIR[low], AIR[low + 500], (variant["altitude_m"] - low) / 500


def show_lab(v: Variant) -> Page:
    """The machine of this learner."""
    return Page(
        f"Your machine: {v['machine']}",
        (
            Text("Invented for this lab. On a real machine the maker's manual comes first."),
            Text("Each task shows what it needs. Write between the quotes, check the form, compare."),
        ),
    )


def _oil_page(v: Variant) -> Page:
    rows = (
        ("fuel in the can", f"{v['can_tenths_US_gal'] / 10:.1f} US gal"),
        ("fuel to oil", f"{v['ratio']}:1"),
    )
    return Page("", (Table("Mixture", ("what", "given"), rows),))


def _absolute_page(v: Variant) -> Page:
    rows = [(f"{row} m", f"{pressure} hPa") for row, pressure in AIR.items()]
    return Page(
        "",
        (
            Text(
                f"Your workshop lies at {v['altitude_m']} m. "
                f"The gauge shows {v['gauge_tenths_bar'] / 10:.1f} bar."
            ),
            Table(
                "Pressure of the standard atmosphere (ISO 2533)", ("altitude", "pressure of the air"), rows
            ),
        ),
    )


def _fuel(v: Variant) -> float:
    return convert(v["can_tenths_US_gal"] / 10, "US gal", "mL")


OIL = Task(
    id="oil",
    title="Oil for the can",
    outcome="measure the oil for a can of fuel at a given ratio",
    kind="value",
    points=3,
    competency="fuel, air and exhaust",
    show=_oil_page,
    items=(
        Number(
            "fuel", "fuel in the can", "L", lambda v, own: _fuel(v) / 1000,
            tolerance(0.1, reason="half a step of 0.1 L"), 0.1, 200,
            (
                slip("gallon_is_gallon", lambda v, own: convert(v["can_tenths_US_gal"] / 10, "imp gal", "L"),
                     "A fifth too much fuel.", "The imperial gallon was taken; the can is in US gallons.",
                     "Which gallon is printed on the can?"),
                slip("gallon_as_litre", lambda v, own: v["can_tenths_US_gal"] / 10,
                     "The can's number with another unit behind it.", "Gallons were written down as litres.",
                     "Is a gallon more or less than a litre?", misconception="label_swapped"),
                slip("gallon_as_four_litres", lambda v, own: v["can_tenths_US_gal"] / 10 * 4,
                     "Some five per cent too much fuel.", "A US gallon was rounded up to four litres.",
                     "How many millilitres has a US gallon? Use all the digits that matter.", share=0.5,
                     misconception="gallon_is_gallon"),
            ),
            HINT, 2, "US gal", any_unit=True, share=1,
        ),
        Number(
            "oil", "oil to measure", "mL", lambda v, own: own["oil.fuel"] * 1000 / v["ratio"],
            tolerance(1, reason="half a step of a 1 mL measure"), 0, 1_000_000,
            (
                slip("ratio_as_percent", lambda v, own: own["oil.fuel"] * 10 * v["ratio"],
                     "Enough oil to drown the engine.", "The first number of the ratio was read as per cent.",
                     "A ratio says parts of fuel to one part of oil. How many parts of fuel?"),
                slip("ratio_of_mix", lambda v, own: own["oil.fuel"] * 1000 / (v["ratio"] + 1),
                     "A little less oil than the ratio asks.", "The fuel was taken for the finished mixture.",
                     "Are the parts counted against the fuel alone, or against fuel and oil together?",
                     share=0.5),
                slip("ratio_turned_round", lambda v, own: own["oil.fuel"] * 1000 * v["ratio"],
                     "More oil than fuel.", "The ratio was turned round: multiplied where it divides.",
                     "Which of the two liquids has the many parts?"),
                slip("prefix_dropped", lambda v, own: own["oil.fuel"] / v["ratio"],
                     "A few drops of oil for a whole can.", "Litres were written down as millilitres.",
                     "In which unit was the fuel when you divided?"),
            ),
            Feedback("The oil fits neither your fuel nor a usual slip.", "The division may have gone astray.",
                     "Multiply your oil by the ratio: does it give your fuel back?"),
            1, any_unit=True, share=2,
        ),
    ),
)  # fmt: skip


def _air(v: Variant, own: Any) -> float:
    low, high, part = between_rows(v)
    return low + (high - low) * part


def _gauge(v: Variant) -> float:
    return float(v["gauge_tenths_bar"]) / 10


ABSOLUTE = Task(
    id="absolute",
    title="Gauge to absolute in your workshop",
    outcome="turn a gauge reading into absolute pressure at your altitude",
    kind="table",
    points=3,
    competency="compression and sealing",
    show=_absolute_page,
    items=(
        Number(
            "air", "pressure of the air, from the table", "hPa", _air,
            tolerance(1, (1, 0.5), reason="half a step of 1 hPa, and the rounding of the table"), 300, 1100,
            (
                slip("sea_level_everywhere", lambda v, own: SEA_LEVEL,
                     "The pressure at sea level.", "The altitude of the workshop was left out.",
                     "Which two rows of the table does your altitude lie between?"),
                slip("row_below", lambda v, own: float(between_rows(v)[0]),
                     "The figure of the row below your altitude.", "A row was taken as it stands.",
                     "How far is it from that row to your altitude? Take that part of the way.",
                     misconception="nearest_row_is_enough", share=0.5),
                slip("row_above", lambda v, own: float(between_rows(v)[1]),
                     "The figure of the row above your altitude.", "A row was taken as it stands.",
                     "How far is it from the row below to your altitude? Take that part of the way.",
                     misconception="nearest_row_is_enough", share=0.5),
            ),
            Feedback("The figure does not lie where your altitude does.",
                "The part between the two rows may be off.",
                     "Is your figure between those of the row below and the row above?"),
            0, any_unit=True, share=1,
        ),
        Number(
            "absolute", "absolute pressure", "bar", lambda v, own: _gauge(v) + own["absolute.air"] / 1000,
            tolerance(0.1, reason="half a step of the gauge's 0.1 bar"), 0, 2000,
            (
                slip("gauge_is_absolute", lambda v, own: _gauge(v),
                     "The gauge reading again.", "Gauge pressure was taken for absolute.",
                     "What does this gauge show when it is open to the air, and is nothing pressing then?"),
                slip("subtract_for_absolute", lambda v, own: _gauge(v) - own["absolute.air"] / 1000,
                     "Less than the gauge shows.", "The air was taken off instead of added.",
                     "Which is counted from nothing at all, and so is the larger?"),
                slip("sea_level_everywhere", lambda v, own: _gauge(v) + SEA_LEVEL / 1000,
                     "The air of sea level was added.", "The altitude was left out of this step.",
                     "Which pressure of the air did you read from the table?"),
                slip("prefix_dropped", lambda v, own: _gauge(v) + own["absolute.air"] / 100,
                     "Several bar too much.", "Hectopascals were turned into bar a decimal place wrong.",
                     "About how many bar is the air around you?"),
            ),
            Feedback("It does not follow from your gauge and your air.",
                "The two may not have been in one unit.",
                     "Write both in bar, one below the other, before you put them together."),
            2, any_unit=True, reference="absolute", share=2,
        ),
    ),
)  # fmt: skip

LAB = Lab(
    id="01",
    title="Shop units",
    question="What is 12 thou in millimetres, 120 psi in bar, 50:1 in millilitres, "
    "and why do gauge and absolute differ?",
    minutes=40,
    aim="Read any spec sheet, mix fuel rightly and safely, and never mistake gauge for absolute pressure.",
    usual_errors="Thou as hundredths of a millimetre; ten psi to the bar; 50:1 as 50 %; sea-level air.",
    tasks=(
        lab01_convert.METRIC,
        lab01_convert.INCH,
        OIL,
        ABSOLUTE,
        lab01_sheet.TASK,
        lab01_formulas.TASK,
        *lab01_safety.TASKS,
    ),
    draw=draw,
    show=show_lab,
    rubric="All of it is marked by the checker; nothing is left to a person. Half or quarter points stand "
    "in the "
    "slips (share) and are told to the learner.",
    renewal="Another attempt number draws another machine. Ranges stand in draw(); a new line of the sheet "
    "is one "
    "more Line in lab01_sheet.py; a new formula one more Formula in lab01_formulas.py.",
)
