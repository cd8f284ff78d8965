"""Lesson 08: retrieval questions, each wrong option with the belief behind it."""

from __future__ import annotations

from twostroke import compression
from twostroke.lesson.tasks import Option, Question

SMALL, LARGE = (f"{compression.leak_down('100 psi', ratio):.0f} %" for ratio in (1.0, 2.0))

QUESTIONS = (
    Question(
        id="why_climbs",
        about="08",
        explains="pumped",
        ask="Why did the needle climb for many pulls, although the engine is tight?",
        options=(
            Option(
                text="Each pull adds only a little charge to the room in the hose.",
                right=True,
                say="So a long hose on a small engine needs more pulls. Pull until the needle is steady.",
            ),
            Option(
                text="The engine warmed up. The first half turn would have been enough.",
                say="Nothing warmed up. One pull gives about a quarter of the final reading here.",
                believes="half_turn_is_full_pull",
            ),
            Option(
                text="The gauge began in a vacuum.",
                say="At zero on the gauge the hose is full of air.",
                believes="zero_gauge_is_vacuum",
            ),
        ),
    ),
    Question(
        id="hundred_psi",
        about="08",
        ask="At 1 500 m your gauge is steady at 100 psi. The manual: at least 115 psi at sea level. Good?",
        options=(
            Option(
                text="No: 100 is less than 115.",
                say="The manual's figure is for thicker air. Up here the limit is 115 × 0.83, or 96 psi.",
                believes="sea_level_everywhere",
            ),
            Option(
                text="Yes by number: it would be 120 psi at the coast. Now look at the gauge's doubt.",
                right=True,
                say="100 ÷ 0.83 is 120. If the gauge is good to 2 psi, that clears the limit of 96.",
            ),
            Option(
                text="Turn psi into bar first. That takes care of the air.",
                say="The unit is only the size of the step. It stays a gauge reading on a hill.",
                believes="unit_changes_reference",
            ),
            Option(
                text="No: only 2 psi are lost to the hill, the same as the air has lost.",
                say="The whole reading falls in step, by 17 in each hundred.",
                believes="difference_for_ratio",
            ),
        ),
    ),
    Question(
        id="too_high",
        about="08",
        ask="A maker's band ends at 130 psi at your altitude. A worn-looking engine shows 150. What is it?",
        options=(
            Option(
                text="A very good engine: more is better.",
                say="It cannot squeeze more than its room allows. Something has taken room away.",
                believes="more_compression_is_better",
            ),
            Option(
                text="Out of band: carbon, oil or a wrong gasket takes up room, or the gauge is off.",
                right=True,
                say="Look at the crown, and try the gauge on an engine that you know.",
            ),
            Option(
                text="Gauge and absolute mixed up: 150 less 14.5 is in band.",
                say="A gauge shows gauge pressure. Nothing is to be taken off.",
                believes="gauge_is_absolute",
            ),
        ),
    ),
    Question(
        id="why_oil",
        about="08",
        explains="wet",
        ask="At nought per cent past the rings the oil still lifted the reading. Why?",
        options=(
            Option(
                text="So the rings were worn after all.",
                say="You had set that none goes past them. A small rise proves nothing.",
                believes="any_rise_means_rings",
            ),
            Option(
                text="Oil takes up room, so the charge is squeezed a little further.",
                right=True,
                say="That is why the share that comes back counts, not that something comes back.",
            ),
            Option(
                text="The oil had mended the gasket.",
                say="Oil holds for a few turns between ring and bore. It mends nothing.",
                believes="oil_repairs",
            ),
        ),
    ),
    Question(
        id="two_testers",
        about="08",
        ask=f"One leak: {SMALL} on one leak-down tester, {LARGE} on one with half the restrictor. Why?",
        options=(
            Option(
                text="Both can be true. Compare only with the same tester.",
                right=True,
                say="The figure says how the leak compares with the tester's own restrictor.",
            ),
            Option(
                text="One tester is broken: a leak has one figure.",
                say="Both were computed from one leak. Per cent of what? Of that tester's pressure.",
                believes="leak_down_percent_compares",
            ),
            Option(
                text="The mean of both is the leak.",
                say="A share of two different wholes has no mean.",
                believes="share_of_the_wrong_whole",
            ),
        ),
    ),
    Question(
        id="zero_again",
        about="01",
        ask="The gauge lies on the bench at 1 500 m, hose open. It shows 0. How much is that absolute?",
        options=(
            Option(text="About 0.85 bar", right=True, say="The air around it, no more and no less."),
            Option(text="0 bar", say="Then the hose would be empty.", believes="zero_gauge_is_vacuum"),
            Option(
                text="About −0.85 bar",
                say="Less than nothing cannot be. The air is added.",
                believes="subtract_for_absolute",
            ),
        ),
    ),
    Question(
        id="density_again",
        about="04",
        ask="Two charges at 6 bar absolute, one at 20 °C, one at 200 °C. Which needs more voltage?",
        options=(
            Option(
                text="The cold one: it is 1.6 times as dense.",
                right=True,
                say="473 ÷ 293 = 1.6, counted from absolute zero.",
            ),
            Option(
                text="Both the same: pressure alone counts.",
                say="What counts is how much air lies in the gap.",
                believes="temperature_left_out",
            ),
            Option(
                text="The cold one: it is ten times as dense.",
                say="200 ÷ 20 counts from where water freezes. Add 273 to both first.",
                believes="celsius_as_kelvin",
            ),
        ),
    ),
    Question(
        id="switch_again",
        about="07",
        ask="The plug is out for the test, the switch at stop. May the lead lie beside the plug hole?",
        options=(
            Option(
                text="Yes, the switch has cut the spark off.",
                say="A broken stop lead leaves the spark alive. You have not proven it yet.",
                believes="switch_is_enough",
            ),
            Option(
                text="No: clamp it to bare metal well away from the hole.",
                right=True,
                say="Fuel mist leaves the hole at each turn, whatever the switch says.",
            ),
            Option(
                text="Yes, if no fuel can be smelt.",
                say="Noses tire, and the mist comes with the first turn.",
                believes="vapour_is_gone",
            ),
        ),
    ),
)
