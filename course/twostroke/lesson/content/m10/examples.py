"""Lesson 10: worked with gaps, then alone. All counts, chances and minutes are invented."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from twostroke import units
from twostroke.lesson.tasks import Blank, Example, Slip

if TYPE_CHECKING:
    from pint import Quantity

_MACHINES = (600, 200, 120, 80)  # fuel, plug, stop circuit, module
_DARK = (0.03, 0.15, 0.85, 0.95)
_BACK = (0.05, 0.10, 0.80, 0.05)
_STOP = 2

_FIRST, _SECOND, _CHANCE = 40.0, 60.0, 0.6  # minutes of two repairs, chance of the first
_TEST = 10.0

_CHAIN = (10, 15, 40, 20, 15)

_CHECKS = {"air filter": (10.0, 2.0), "stop lead": (40.0, 4.0), "flywheel key": (50.0, 25.0)}  # %, minutes


def _per_cent(value: float) -> Quantity:
    return units.read(f"{value:.10g} %")


def _minutes(value: float) -> Quantity:
    return units.read(f"{value:.10g} min")


def _shown(counts: Sequence[float], shares: Sequence[float]) -> list[float]:
    return [count * share for count, share in zip(counts, shares, strict=True)]


def _share(counts: Sequence[float]) -> float:
    """Share of the stop circuit, per cent."""
    return 100 * counts[_STOP] / sum(counts)


def _dark() -> list[float]:
    return _shown(_MACHINES, _DARK)


def _without() -> float:
    return _FIRST + (1 - _CHANCE) * _SECOND


def _known() -> float:
    return _CHANCE * _FIRST + (1 - _CHANCE) * _SECOND


def _saved() -> float:
    return _without() - _known()


def _average(order: Sequence[str]) -> float:
    """Minutes until found, checks in this order."""
    left, total = 100.0, 0.0
    for name in order:
        chance, minutes = _CHECKS[name]
        total += left / 100 * minutes
        left -= chance
    return total


def _best() -> list[str]:
    return sorted(_CHECKS, key=lambda name: -_CHECKS[name][0] / _CHECKS[name][1])


EXAMPLES = (
    Example(
        id="count_faded",
        title=(
            "1 000 machines: fuel 600, plug 200, stop circuit 120, module 80. The tester stays dark in 3, 15,"
            " 85 and 95 per cent of them. Yours is dark"
        ),
        lines=(
            "Dark: fuel 18, plug 30, module 76.",
            Blank(
                id="stop",
                label="Dark with a bad stop circuit, 120 × 0.85 =",
                answer=lambda: _dark()[_STOP],
                within=0.01,
                say="102 machines.",
                hint="85 of every hundred of these 120.",
                slips=(
                    Slip(
                        gives=lambda: float(_MACHINES[_STOP]),
                        believes="one_test_decides",
                        say="That is the whole group. 18 of them still flash.",
                    ),
                    Slip(
                        gives=lambda: 85.0,
                        believes="likelihood_as_chance",
                        say="That is 85 of each hundred. There are 120.",
                    ),
                ),
            ),
            "In all: 18 + 30 + 102 + 76 = 226.",
            Blank(
                id="share",
                label="Chance of the stop circuit now",
                unit="%",
                answer=lambda: _per_cent(_share(_dark())),
                within=0.02,
                say="102 ÷ 226 is 45 per cent.",
                hint="Of all that stay dark, how many are stop circuits?",
                slips=(
                    Slip(
                        gives=lambda: _per_cent(85),
                        believes="likelihood_as_chance",
                        say="So many stop circuits stay dark. The other way round is asked.",
                    ),
                    Slip(
                        gives=lambda: _per_cent(12),
                        believes="common_is_likely_here",
                        say="That is the share before anything was read.",
                    ),
                    Slip(
                        gives=lambda: _per_cent(10.2),
                        believes="share_of_the_wrong_whole",
                        say="That divides by all 1 000. The machines that flash are out.",
                    ),
                ),
            ),
            "Stop lead off: the spark comes back. Of the dark ones that happens in 5, 10, 80 and 5 per cent:"
            " 1, 3, 82 and 4 machines.",
            Blank(
                id="after",
                label="Chance of the stop circuit after both readings",
                unit="%",
                answer=lambda: _per_cent(_share(_shown(_dark(), _BACK))),
                within=0.015,
                say="82 of 90: 91 per cent.",
                hint="Only the 90 that show both readings are left.",
                slips=(
                    Slip(
                        gives=lambda: _per_cent(80),
                        believes="likelihood_as_chance",
                        say="So many stop circuits show it. The other way round is asked.",
                    ),
                    Slip(
                        gives=lambda: _per_cent(_share(_shown(_MACHINES, _BACK))),
                        believes="one_test_decides",
                        say="The first reading was forgotten: all 1 000 were counted again.",
                    ),
                ),
            ),
        ),
    ),
    Example(
        id="worth_faded",
        title=(
            "Two suspects. First: 60 per cent, repair 40 min. Second: 40 per cent, repair 60 min. A sure test"
            " takes 10 min"
        ),
        lines=(
            "Without a test you repair the first, and then the second when that was not it.",
            Blank(
                id="without",
                label="Average without a test, 40 + 0.4 × 60 =",
                unit="min",
                answer=lambda: _minutes(_without()),
                within=0.005,
                say="64 min.",
                hint="The first always, the second in four jobs of ten.",
                slips=(
                    Slip(
                        gives=lambda: _minutes(_FIRST + _SECOND),
                        believes="parts_first",
                        say="Both, always. In six jobs of ten the first one cures.",
                    ),
                    Slip(
                        gives=lambda: _minutes(_FIRST),
                        believes="common_is_likely_here",
                        say="That takes the first suspect for certain.",
                    ),
                    Slip(
                        gives=lambda: _minutes(_FIRST + _CHANCE * _SECOND),
                        believes="chance_turned_round",
                        say="The second is needed when the first does not cure: 0.4.",
                    ),
                ),
            ),
            "When you know which: 0.6 × 40 + 0.4 × 60 = 48 min.",
            Blank(
                id="saved",
                label="The sure test saves how many minutes of repair?",
                unit="min",
                answer=lambda: _minutes(_saved()),
                within=0.01,
                say="64 − 48 = 16 min.",
                hint="Without, less with. Its own minutes come in the next line.",
                slips=(
                    Slip(
                        gives=lambda: _minutes(_known()),
                        believes="total_as_change",
                        say="That is what is left, not what is saved.",
                    ),
                ),
            ),
            Blank(
                id="rate",
                label="Minutes saved for each of its 10 minutes",
                answer=lambda: _saved() / _TEST,
                within=0.01,
                say="1.6. Above one: it pays.",
                hint="16 minutes for 10.",
                slips=(
                    Slip(
                        gives=lambda: _TEST / _saved(),
                        believes="factor_turned_round",
                        say="That is minutes spent for each minute saved.",
                    ),
                ),
            ),
            Blank(
                id="choice",
                label="A quick test of 3 min saves 5.6 min on average, for it is wrong one time in five. You",
                answer="take the quick one",
                options=("take the quick one", "take the sure one", "repair without a test"),
                believes={
                    "take the sure one": "sure_is_better",
                    "repair without a test": "parts_first",
                },
                say="5.6 ÷ 3 is 1.9 for each minute; the sure one gives 1.6.",
                hint="Minutes saved for each minute spent: 16 ÷ 10 against 5.6 ÷ 3.",
            ),
        ),
    ),
    Example(
        id="chain_alone",
        title=(
            "The fuel's way: tank 10, filter 15, line 40, needle 20, passages 15 per cent. A probe between"
            " two links says whether fuel still comes there"
        ),
        stage="alone",
        lines=(
            Blank(
                id="where",
                label="First probe",
                answer="after the line",
                options=("after the tank", "after the filter", "after the line", "after the needle"),
                believes={
                    "after the tank": "one_by_one",
                    "after the filter": "half_of_the_links",
                    "after the needle": "one_by_one",
                },
                say="65 per cent before it, 35 after. After the filter it is 25 to 75.",
                hint="Add up from the tank on. Where do you come nearest to half?",
            ),
            Blank(
                id="before",
                label="Chance that the fault lies before that probe",
                unit="%",
                answer=lambda: _per_cent(sum(_CHAIN[:3])),
                within=0.01,
                say="10 + 15 + 40 = 65 per cent.",
                hint="Add the chances of tank, filter and line.",
                slips=(
                    Slip(
                        gives=lambda: _per_cent(60),
                        believes="half_of_the_links",
                        say="Three of five links. Add their chances, not the links.",
                    ),
                    Slip(
                        gives=lambda: _per_cent(_CHAIN[2]),
                        believes="share_of_the_wrong_whole",
                        say="That is the line alone.",
                    ),
                    Slip(
                        gives=lambda: _per_cent(100 - sum(_CHAIN[:3])),
                        believes="share_of_the_wrong_whole",
                        say="That is the chance behind it.",
                    ),
                ),
            ),
            Blank(
                id="probes",
                label="Fuel comes there. How many more probes until you know the link?",
                answer=lambda: 1.0,
                within=0.01,
                say="One, after the needle: then only one link is left, either way.",
                hint="Needle and passages are left. How often must you split two?",
                slips=(
                    Slip(
                        gives=lambda: 2.0,
                        believes="one_by_one",
                        say="When the needle is cleared, only the passages are left.",
                    ),
                ),
            ),
        ),
    ),
    Example(
        id="order_alone",
        title=(
            "Three checks, each sure and each a cure: air filter 10 per cent, 2 min; stop lead 40 per cent,"
            " 4 min; flywheel key 50 per cent, 25 min"
        ),
        stage="alone",
        lines=(
            Blank(
                id="first",
                label="Which first?",
                answer="stop lead",
                options=("air filter", "stop lead", "flywheel key"),
                believes={"air filter": "cheapest_test_first", "flywheel key": "common_is_likely_here"},
                say="40 ÷ 4 = 10 per cent a minute. Filter 5, key 2.",
                hint="How much chance does one minute of it settle?",
            ),
            Blank(
                id="minutes",
                label="Average minutes in the best order",
                unit="min",
                answer=lambda: _minutes(_average(_best())),
                within=0.01,
                say="4 always, 2 in 60 of 100, 25 in 50 of 100: 4 + 1.2 + 12.5 = 17.7 min.",
                hint="Each check's minutes times the chance that it is still needed.",
                slips=(
                    Slip(
                        gives=lambda: _minutes(sum(minutes for _, minutes in _CHECKS.values())),
                        believes="one_by_one",
                        say="That does all three every time.",
                    ),
                    Slip(
                        gives=lambda: _minutes(sum(c * m for c, m in _CHECKS.values()) / 100),
                        believes="share_of_the_wrong_whole",
                        say="That leaves out the checks made in vain before it.",
                    ),
                    Slip(
                        gives=lambda: _minutes(_average(["flywheel key", "stop lead", "air filter"])),
                        believes="common_is_likely_here",
                        say="That begins with the likeliest, and spends 25 minutes each time.",
                    ),
                    Slip(
                        gives=lambda: _minutes(_average(["air filter", "stop lead", "flywheel key"])),
                        believes="cheapest_test_first",
                        say="That begins with the shortest. It settles little.",
                    ),
                ),
            ),
        ),
    ),
)
