"""Lesson 06: the exit check of five."""

from __future__ import annotations

from twostroke.lesson.tasks import Option, Question

EXIT_CHECK = (
    Question(
        id="x_leads",
        about="06",
        ask="Probes held together: 0.3 Ω. On the winding: 1.2 Ω. The winding has",
        go_back="“The leads are in it too”.",
        options=(
            Option(text="0.9 Ω", right=True, say="1.2 less 0.3."),
            Option(
                text="1.2 Ω",
                say="A quarter of that is leads.",
                believes="lead_resistance_ignored",
            ),
            Option(
                text="0.6 Ω",
                say="The 0.3 Ω are both leads together. They come off once.",
                believes="leads_for_each_probe",
            ),
        ),
    ),
    Question(
        id="x_hot",
        about="06",
        ask="A winding has 1.00 Ω at 20 °C. What has it at 45 °C?",
        go_back="“The heat is in it too”.",
        options=(
            Option(text="1.18 Ω", say="That counts all 45 degrees.", believes="whole_temperature"),
            Option(text="1.10 Ω", right=True, say="25 degrees more, about 4 per cent for each ten."),
            Option(text="1.00 Ω", say="Copper gains as it warms.", believes="cold_reading_hot_band"),
        ),
    ),
    Question(
        id="x_short",
        about="06",
        ask="All ohms are in band, yet the tester shows no spark. What do the ohms prove of the module?",
        go_back="the figure “What a partial short costs”.",
        options=(
            Option(
                text="That it is good: look for the fault elsewhere only",
                say="One turn in a hundred hardly moves the ohms and takes nearly half of the voltage.",
                believes="resistance_in_band_proves",
            ),
            Option(
                text="No open and no dead short; a few shorted turns may still be there",
                right=True,
                say="Now look at stop circuit, ground and gap, and then prove the module by its spark.",
            ),
            Option(
                text="That the meter is broken",
                say="The meter did what it can. It sees ohms, not volts.",
                believes="undecided_is_bad",
            ),
        ),
    ),
    Question(
        id="x_judge",
        about="06",
        ask="Band 2.30 to 2.80 kΩ, reading 2.79 kΩ, guard band 0.05 kΩ. The winding is",
        go_back="the example “Secondary 2.33 kΩ”.",
        options=(
            Option(
                text="in",
                say="It is 0.01 kΩ inside, less than the guard band.",
                believes="inside_is_always_good",
            ),
            Option(text="out", say="It lies inside, only not safely.", believes="undecided_is_bad"),
            Option(text="undecided", right=True, say="A finer meter, or a look at what else speaks for it."),
        ),
    ),
    Question(
        id="x_still",
        about="06",
        ask="The probes are on the winding. What must not happen now?",
        go_back="“Before the probes touch it” and its cautions.",
        options=(
            Option(
                text="The flywheel must not turn",
                right=True,
                say="A pass of the magnet gives hundreds of volts there, and thousands at the lead.",
            ),
            Option(
                text="Nothing special: an ohmmeter bears anything",
                say="It does not, and your fingers are on the probes.",
                believes="meter_while_turning",
            ),
            Option(
                text="The engine must not cool, so that the reading is a true one",
                say="The band is mostly for 20 °C, and hot parts burn.",
                believes="hot_is_no_matter",
            ),
        ),
    ),
)
