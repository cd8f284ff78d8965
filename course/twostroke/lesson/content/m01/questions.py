"""Lesson 01: retrieval questions, each wrong option with the belief behind it."""

from __future__ import annotations

from twostroke.lesson.tasks import Option, Question

QUESTIONS = (
    Question(
        id="thou_is",
        about="01",
        explains="leaf",
        ask="Why did the 12 thou leaf land near 0.30 mm and not at 0.12 mm?",
        options=(
            Option(
                text="A thou is a thousandth of an inch, about two and a half hundredths of a millimetre.",
                right=True,
                say="0.0254 mm for each thou, so 12 of them are 0.305 mm.",
            ),
            Option(
                text="The stamp counts hundredths of a millimetre and the leaf was worn.",
                say="Wear makes a leaf thinner, never two and a half times thicker.",
                believes="thou_as_hundredth_mm",
            ),
            Option(
                text="The stamp counts thousandths of a millimetre.",
                say="12 thousandths of a millimetre would be 0.012 mm, much thinner than paper.",
                believes="thou_as_thousandth_mm",
            ),
        ),
    ),
    Question(
        id="grow_or_shrink",
        about="01",
        ask="You turn psi into bar. 1 bar is 14.5 psi. What happens to the number?",
        options=(
            Option(
                text="It shrinks: divide by 14.5.",
                right=True,
                say="A bar is the larger unit, so fewer of them are needed. 145 psi is 10 bar.",
            ),
            Option(
                text="It grows: multiply by 14.5.",
                say="100 psi would become 1 450 bar, more than any small engine could hold.",
                believes="factor_turned_round",
            ),
            Option(
                text="It shrinks, and from then on it counts from nothing.",
                say="It does shrink. Where the counting starts has nothing to do with the unit.",
                believes="unit_changes_reference",
            ),
            Option(
                text="It stays: both are pressures.",
                say="The pressure stays, the number does not. A number without its unit says nothing.",
                believes="bare_number_is_enough",
            ),
        ),
    ),
    Question(
        id="torque",
        about="01",
        ask=(
            "An invented sheet gives 40 in·lb for the screws of a module. What do you set on a wrench in N·m?"
        ),
        options=(
            Option(
                text="4.5 N·m",
                right=True,
                say="40 × 4.45 N × 0.0254 m. Inch-pounds: force in pounds on an arm in inches.",
            ),
            Option(
                text="54 N·m",
                say="That takes the pounds on an arm of one foot, twelve times too much.",
                believes="inch_pound_as_foot_pound",
            ),
            Option(
                text="1.0 N·m",
                say="That turns the inches into metres and leaves the pounds as newtons.",
                believes="pound_as_newton",
            ),
        ),
    ),
    Question(
        id="why_lower",
        about="01",
        explains="pressure",
        ask="The gauge stayed at 120 psi while you went up. Why did column 3 get shorter?",
        options=(
            Option(
                text="The air under the gauge reading got thinner, and the gauge counts from the air.",
                right=True,
                say="Absolute is gauge plus air. The gauge part stayed, the air part fell.",
            ),
            Option(
                text="The gauge was wrong on the mountain.",
                say="The gauge did its work: it showed how far the cylinder is above the air around it.",
                believes="gauge_is_absolute",
            ),
            Option(
                text="The air pressure has to be taken off the gauge reading.",
                say="Then less air would make the column taller. It got shorter.",
                believes="subtract_for_absolute",
            ),
        ),
    ),
    Question(
        id="gauge_zero",
        about="01",
        ask="A gauge lies on the bench with its hose open, and shows 0. What is in the hose?",
        options=(
            Option(
                text="Air, at the pressure of the room.",
                right=True,
                say="Zero means the same as outside, about 1 bar absolute at sea level.",
            ),
            Option(
                text="Nothing: a vacuum.",
                say="The hose is open, so the air of the room is in it.",
                believes="zero_gauge_is_vacuum",
            ),
            Option(
                text="Air, at zero absolute pressure.",
                say="Zero absolute means that nothing is there. The gauge does not count from there.",
                believes="gauge_is_absolute",
            ),
        ),
    ),
    Question(
        id="why_small",
        about="01",
        explains="oil",
        ask="Why is the oil such a small splash at 50:1?",
        options=(
            Option(
                text="There are 50 parts of fuel for each part of oil.",
                right=True,
                say="One part in 50 is 2 per cent of the fuel.",
            ),
            Option(
                text="50:1 means 50 per cent, but oil is thick and fills less.",
                say="The jug measures volume, and thick or thin does not change it.",
                believes="ratio_as_percent",
            ),
            Option(
                text="50 is the oil and 1 is the fuel.",
                say="Then the jug would hold fifty cans of oil.",
                believes="ratio_turned_round",
            ),
        ),
    ),
    Question(
        id="smoky",
        about="01",
        ask=(
            "An owner mixes 25:1 in a machine whose manual asks for 50:1, to be on the safe side. What do you"
            " say?"
        ),
        options=(
            Option(
                text="That is twice the oil, and it can foul the plug and clog the screen.",
                right=True,
                say="40 mL instead of 20 mL in each litre. The manual's ratio is the safe side.",
            ),
            Option(
                text="That is half the oil, so the piston runs short of it.",
                say="The smaller first number means fewer parts of fuel for each part of oil.",
                believes="ratio_turned_round",
            ),
            Option(
                text="More oil only helps.",
                say="Oil that does not burn ends up on the plug and in the muffler.",
                believes="more_oil_is_safer",
            ),
        ),
    ),
    Question(
        id="where_to_mix",
        about="01",
        ask="Where and how do you mix the can?",
        options=(
            Option(
                text="Outdoors, the can on the ground, nothing that burns or sparks near",
                right=True,
                say=(
                    "The vapour runs low and thins out in moving air. The boxes above and the maker come"
                    " first."
                ),
            ),
            Option(
                text="In the cellar workshop, with the window under the ceiling open",
                say="The vapour stays on the floor, below the window.",
                believes="vapour_rises",
            ),
            Option(
                text="On the bench beside the heater, if nothing is spilled",
                say="An open can gives off vapour without a drop spilled.",
                believes="only_liquid_burns",
            ),
            Option(
                text="On the bench, after the oil is in",
                say="A splash of oil leaves nearly all of the vapour.",
                believes="oil_calms_fuel",
            ),
        ),
    ),
    Question(
        id="sheet_error",
        about="01",
        ask="Four lines from an invented job sheet. Which one must be asked back before you work with it?",
        options=(
            Option(
                text="Workshop at 68",
                right=True,
                say="68 of what? As °F it is 20 °C. As °C nobody could work there.",
            ),
            Option(
                text="Air gap 0.30 mm (12 thou)",
                say="12 thou is 0.305 mm. Both units stand there and agree within the rounding.",
                believes="more_digits_more_truth",
            ),
            Option(
                text="Secondary winding 2.6 kΩ",
                say="The k says thousand: 2 600 Ω. Number and unit are both there.",
                believes="prefix_dropped",
            ),
            Option(
                text="Can 1 US gal (3.8 L)",
                say="It says US, and 3.8 L fits. An imperial gallon would be 4.5 L.",
                believes="gallon_is_gallon",
            ),
        ),
    ),
    Question(
        id="handed_in",
        about="00",
        ask="You finished lab 01 on the screen and closed the lid. What did your instructor get?",
        options=(
            Option(
                text="Nothing, until I save and give them the file.",
                right=True,
                say="Save, pack or download, hand over that one file.",
            ),
            Option(
                text="Everything that I typed.",
                say="Nothing leaves your machine by itself in this course.",
                believes="saved_is_handed_in",
            ),
            Option(
                text="Nothing, and a restart would have wiped it anyway.",
                say="What was saved stays in the file. A restart only empties the kernel.",
                believes="restart_loses_work",
            ),
        ),
    ),
)
