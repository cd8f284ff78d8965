"""Lesson 06: retrieval questions, each wrong option with the belief behind it."""

from __future__ import annotations

from twostroke.lesson.tasks import Option, Question

QUESTIONS = (
    Question(
        id="why_more",
        about="06",
        explains="warm",
        ask="The winding has 0.90 Ω, the display showed 1.36 Ω. Why?",
        options=(
            Option(
                text="The heat damaged the winding.",
                say="Lower the slider: at 20 °C it is back at its old figure. Nothing was harmed.",
                believes="cold_reading_hot_band",
            ),
            Option(
                text="Warm copper has more, and the leads are in series with it.",
                right=True,
                say="0.21 Ω came from 60 degrees, 0.25 Ω from the leads.",
            ),
            Option(
                text="80 degrees are four times 20, so it reads that much more.",
                say="Then it would read 3.6 Ω. Copper gains 4 per cent for each ten degrees above 20.",
                believes="whole_temperature",
            ),
        ),
    ),
    Question(
        id="near_limit",
        about="00",
        ask="Set 0.82 Ω, 20 °C and no leads in the figure. It lies in the band. Why undecided?",
        options=(
            Option(
                text="It is not: inside is inside.",
                say="The blue bar reaches past 0.80 Ω. The true value may lie there.",
                believes="inside_is_always_good",
            ),
            Option(
                text="The meter may be off by more than the 0.02 Ω that are left.",
                right=True,
                say="The guard band is wider than the way to the limit. A finer meter could decide.",
            ),
            Option(
                text="It is out. A careful shop has no third word.",
                say="Then good windings are thrown away. The third word is the honest one here.",
                believes="undecided_is_bad",
            ),
        ),
    ),
    Question(
        id="far_out",
        about="06",
        ask="Band 2.30 to 2.80 kΩ. The display shows 3.90 kΩ on a cold winding. What do you write?",
        options=(
            Option(
                text="Undecided: every meter has its doubt.",
                say="The doubt is about 0.05 kΩ. 1.1 kΩ past the limit is far more than that.",
                believes="undecided_is_safe",
            ),
            Option(
                text="In: 3.90 Ω is a usual winding.",
                say="It is 3 900 Ω. The small k is a thousand.",
                believes="prefix_dropped",
            ),
            Option(
                text="Out: far past the limit. Clean the ends and read once more.",
                right=True,
                say="A poor joint adds ohms too, so the second reading is worth its minute.",
            ),
        ),
    ),
    Question(
        id="why_short",
        about="06",
        explains="short",
        ask="Why did the voltage fall so far while the ohms hardly moved?",
        options=(
            Option(
                text="The shorted turns are a closed loop on the same core; its current fights the change.",
                right=True,
                say="A meter's small steady current does not wake that loop. The sudden change does.",
            ),
            Option(
                text="It did not: a module with ohms in band is good.",
                say="Look at the bold curve. In band by ohms, and half of the voltage gone.",
                believes="resistance_in_band_proves",
            ),
            Option(
                text="Shorted turns are a second path, so their ohms add up and block the current.",
                say="A second path lowers the ohms, and here by only one per cent.",
                believes="parallel_as_series",
            ),
        ),
    ),
    Question(
        id="stop_lead_on",
        about="06",
        ask="The primary has 0.9 Ω. The stop lead is still on, and it is chafed: 3 Ω to ground. You read",
        options=(
            Option(
                text="3.9 Ω",
                say="That would be one after the other. Here the current has two ways at once.",
                believes="parallel_as_series",
            ),
            Option(
                text="about 0.7 Ω",
                right=True,
                say="1 ÷ (1 ÷ 0.9 + 1 ÷ 3) = 0.69 Ω, less than either path.",
            ),
            Option(
                text="0.9 Ω, and so all is well",
                say="The second path is there too. A reading near the band would not clear it either.",
                believes="resistance_in_band_proves",
            ),
        ),
    ),
    Question(
        id="fahrenheit_again",
        about="01",
        ask="The band is for 68 °F, your thermometer shows 20 °C. Must you correct the reading?",
        options=(
            Option(
                text="Yes: 68 is 48 degrees more than 20.",
                say="Two scales. 68 on one stands beside 20 on the other.",
                believes="fahrenheit_as_celsius",
            ),
            Option(
                text="Yes: 68 ÷ 1.8 is 38, so 18 degrees.",
                say="Take the 32 off before you divide.",
                believes="offset_forgotten",
            ),
            Option(text="No: 68 °F is 20 °C.", right=True, say="(68 − 32) ÷ 1.8 = 20."),
            Option(
                text="Yes: write 68 °C on the sheet first.",
                say="A new letter does not change how warm the winding is.",
                believes="label_swapped",
            ),
        ),
    ),
    Question(
        id="stack_again",
        about="05",
        ask="Leads, meter and thermometer each add some doubt. So do leaves in a stack. Three leaves or one?",
        options=(
            Option(
                text="One, if there is one of that size: each more adds its own error.",
                right=True,
                say="The same with readings: the fewer parts in the sum, the smaller the doubt.",
            ),
            Option(
                text="Three: their errors cancel.",
                say="At worst all lean the same way.",
                believes="errors_do_not_add",
            ),
            Option(
                text="The number of leaves does not matter.",
                say="Each brings an oil film and a bend of its own.",
                believes="more_leaves_do_no_harm",
            ),
        ),
    ),
    Question(
        id="speed_again",
        about="03",
        ask="All windings are in band. The tester stayed dark on a slow half turn. What does that prove?",
        options=(
            Option(
                text="Little: below its lowest speed even a sound module gives nothing.",
                right=True,
                say="Pull fully, then judge. Speed makes the voltage.",
            ),
            Option(
                text="The module is dead: a half turn is as good as a pull.",
                say="The magnet must pass fast enough. Half a turn is slow.",
                believes="half_turn_is_full_pull",
            ),
            Option(
                text="The module is good: the ohms are in band.",
                say="Ohms do not prove a spark.",
                believes="resistance_in_band_proves",
            ),
        ),
    ),
)
