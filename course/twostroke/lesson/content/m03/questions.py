"""Lesson 03: retrieval questions, each wrong option with the belief behind it."""

from __future__ import annotations

from twostroke.lesson.tasks import Option, Question

QUESTIONS = (
    Question(
        id="why_flank",
        about="03",
        explains="magnet",
        ask="Right under the module the flux was largest, and the induced voltage nought. Why?",
        options=(
            Option(
                text="Only a change of flux induces a voltage, and there it stands still for a moment.",
                right=True,
                say="On the way in the flux climbs. That slope, times speed and turns, is the voltage.",
            ),
            Option(
                text="The module had already given away its stored charge.",
                say="It stores none between turns. Stop the flywheel, and there is nothing to give.",
                believes="module_stores_charge",
            ),
            Option(
                text="The magnet had switched off, since no current was drawn.",
                say="A magnet pulls without any circuit. The flux curve was at its top.",
                believes="magnet_needs_circuit",
            ),
        ),
    ),
    Question(
        id="why_speed",
        about="03",
        explains="trace",
        ask="At 300 rpm there was no flat line with the same gap. Why?",
        options=(
            Option(
                text="Slow flux drives little current, so too little voltage came at the opening.",
                right=True,
                say="4.6 kV for a gap that asks for 8. Below about 460 rpm it never fires.",
            ),
            Option(
                text="The spark burned later, in the waves.",
                say="Waves are the rest of the energy swinging to and fro. Nothing burns in them.",
                believes="ringing_counted",
            ),
            Option(
                text="It had 0.4 kV, as a burning spark has.",
                say="To keep burning takes 0.4 kV. To begin takes all that the gap asks for.",
                believes="burn_as_peak",
            ),
        ),
    ),
    Question(
        id="half_turn",
        about="03",
        ask="You turn the flywheel half a turn by hand, plug on a tester. No spark. What does it prove?",
        options=(
            Option(
                text="Nothing yet: the hand was far below the speed that the module needs.",
                right=True,
                say="A hand turns at some 60 rpm. Test with a full, brisk pull.",
            ),
            Option(
                text="The module is dead.",
                say="A sound one stays dark at this speed. Look at the figure at 100 rpm.",
                believes="half_turn_is_full_pull",
            ),
            Option(
                text="The module is weak; a good one sparks at any speed.",
                say="What counts is the speed of a pull, not the best nor the slowest that can be done.",
                believes="best_case_counts",
            ),
        ),
    ),
    Question(
        id="what_counts",
        about="03",
        ask="A test bench shows 17 kV at 1 200 rpm. The owner's pull makes 450 rpm. What do you trust?",
        options=(
            Option(
                text="Only a figure at 450 rpm: that is when it has to fire.",
                right=True,
                say="The demo module gives 17 kV at 1 200 rpm and under 8 kV at 450.",
            ),
            Option(
                text="17 kV: the module can do it.",
                say="It can, when it is already running. First it has to start.",
                believes="best_case_counts",
            ),
            Option(
                text="The mean of both.",
                say="No turn of the pull runs at the mean. The spark comes at one speed.",
                believes="mean_of_pull",
            ),
        ),
    ),
    Question(
        id="gap_a_little",
        about="03",
        ask="The gap to the magnet grows from 0.3 to 0.6 mm. Do you need twice the speed?",
        options=(
            Option(
                text="No, some more, but far from twice.",
                right=True,
                say="Much of the magnet's strength is spent inside the magnet itself. Lesson 05 measures it.",
            ),
            Option(
                text="Yes, twice the gap, twice the speed.",
                say="The air gap is only a part of the flux's way round.",
                believes="gap_in_proportion",
            ),
            Option(
                text="It no longer works at all.",
                say="A wider gap asks for a faster pull. It seldom stops the spark.",
                believes="wide_gap_always_kills",
            ),
        ),
    ),
    Question(
        id="shock",
        about="03",
        ask="A helper wants to hold the lead to feel whether it sparks. What do you say?",
        options=(
            Option(
                text="No: use a tester, clipped to bare metal.",
                right=True,
                say="The arm jerks into what is hot or sharp, and a weak heart may not stand it.",
            ),
            Option(
                text="Fine, it only tickles.",
                say="It makes muscles jerk, and makers warn of it in every manual.",
                believes="shock_is_harmless",
            ),
            Option(
                text="Fine, once the engine has stood for an hour.",
                say="It holds no charge at rest, true. But it will hurt at the next pull, not now.",
                believes="module_stores_charge",
            ),
        ),
    ),
    Question(
        id="one_spark_a_turn",
        about="02",
        ask="Why may you take one spark for one turn in a two-stroke?",
        options=(
            Option(
                text="The magnet sits on the crank and passes once each turn.",
                right=True,
                say="One turn is the whole cycle. So the time between sparks is the time of a turn.",
            ),
            Option(
                text="You may not: it sparks every second turn.",
                say="That would be so if the magnet turned at half speed.",
                believes="four_stroke_halving",
            ),
            Option(
                text="Because the exhaust opens once a turn.",
                say="True of the exhaust, but the port has no say in the spark.",
                believes="one_side_only",
            ),
        ),
    ),
    Question(
        id="spark_before_top",
        about="02",
        ask="The spark comes 27° before top. Is the piston still far from the top?",
        options=(
            Option(
                text="No, only about 2 mm: near the top it hardly moves.",
                right=True,
                say="1.9 mm in demo engine A. The pressure is already near 6 bar absolute.",
            ),
            Option(
                text="Yes, 27 parts of 180 of the stroke, over 4 mm.",
                say="Depth does not go in proportion to the angle.",
                believes="angle_in_proportion",
            ),
            Option(
                text="Yes, the squeeze has only just begun.",
                say="It began where the exhaust shut, long before, near 100° before top.",
                believes="geometric_as_trapped",
            ),
        ),
    ),
)
