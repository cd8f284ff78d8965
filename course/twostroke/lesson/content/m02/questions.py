"""Lesson 02: retrieval questions, each wrong option with the belief behind it."""

from __future__ import annotations

from twostroke.lesson.tasks import Option, Question

QUESTIONS = (
    Question(
        id="why_deeper",
        about="02",
        explains="depth",
        ask="At 90 degrees the piston was more than half-way down. Why?",
        options=(
            Option(
                text="The rod leans over, and that pulls the piston a little further down.",
                right=True,
                say="Half the stroke from the crank, and some more from the lean. A longer rod leans less.",
            ),
            Option(
                text="The throw is as long as the stroke.",
                say="Then the piston would be twice as far down. The stroke is two throws.",
                believes="throw_as_stroke",
            ),
            Option(
                text="It was not; the depth only depends on crank and angle.",
                say="The curve moved when you changed the rod.",
                believes="rod_left_out",
            ),
        ),
    ),
    Question(
        id="first_degrees",
        about="02",
        ask="The piston goes from 0 to 1 mm, and later from 13 to 14 mm. Is that the same angle twice?",
        options=(
            Option(
                text="No, the first millimetre takes many more degrees.",
                right=True,
                say="The first takes 19°, the later one 4°. Near the top the piston hardly moves.",
            ),
            Option(
                text="Yes, each millimetre is worth the same angle.",
                say="Only for a straight line, and the curve was not straight.",
                believes="angle_in_proportion",
            ),
            Option(
                text="It cannot be said, depth has to be measured from the bottom there.",
                say="Depth counts from top dead centre, everywhere in the stroke.",
                believes="height_from_bottom",
            ),
        ),
    ),
    Question(
        id="why_late",
        about="02",
        explains="round",
        ask="Why did the upper pressure stay flat for so long while the piston came up?",
        options=(
            Option(
                text="The exhaust was open, so the charge could leave instead of being squeezed.",
                right=True,
                say="Squeezing begins where the exhaust shuts. A higher roof shuts later and squeezes less.",
            ),
            Option(
                text="The gauge is slow at the bottom; the whole stroke squeezes.",
                say="No gauge was in the drawing. An open port holds no pressure.",
                believes="stroke_as_port_closing_stroke",
            ),
            Option(
                text="The ratio is counted from the bottom, so it rises from there, only slowly.",
                say="The curve did not rise slowly. It did not rise at all until the port shut.",
                believes="geometric_as_trapped",
            ),
        ),
    ),
    Question(
        id="one_turn",
        about="02",
        ask="How many turns of the crank does one full cycle of a two-stroke take?",
        options=(
            Option(
                text="One: it sparks each time the piston comes to the top.",
                right=True,
                say="Two strokes, up and down, are one turn. So one spark a turn.",
            ),
            Option(
                text="Two, so its ignition parts turn at half speed.",
                say="That is a four-stroke. Here the magnet sits on the crank itself.",
                believes="four_stroke_halving",
            ),
            Option(
                text="Half a turn: the way down is the whole of it.",
                say="The way up is the other stroke: it squeezes above and draws in below.",
                believes="one_side_only",
            ),
        ),
    ),
    Question(
        id="below_pumps",
        about="02",
        ask="The seal of the crankcase leaks. Which ports does the engine miss first?",
        options=(
            Option(
                text="The transfer: nothing pushes the charge through it.",
                right=True,
                say="The crankcase is the pump. It made 0.2 bar over the air. A leak takes just that away.",
            ),
            Option(
                text="The exhaust: it stays shut for twice its opening angle.",
                say="Its timing is geometry. A leak below does not move it.",
                believes="closed_part_counted",
            ),
            Option(
                text="None, the squeeze above the piston is made by the full stroke.",
                say="Without charge there is nothing to squeeze, and the full stroke does not squeeze.",
                believes="stroke_as_port_closing_stroke",
            ),
        ),
    ),
    Question(
        id="absolute_again",
        about="01",
        ask="The figure shows 4.8 bar absolute at the coast. What would a gauge show?",
        options=(
            Option(
                text="About 3.8 bar",
                right=True,
                say="A gauge counts from the air: 4.8 less 1.0.",
            ),
            Option(
                text="4.8 bar",
                say="That would be so only where there is no air.",
                believes="gauge_is_absolute",
            ),
            Option(
                text="5.8 bar",
                say="That adds the air once more. Absolute has it in already.",
                believes="factor_turned_round",
            ),
        ),
    ),
    Question(
        id="thou_again",
        about="01",
        ask="A depth gauge in thou shows 79 thou before top. The manual says 2.0 mm. Do they agree?",
        options=(
            Option(
                text="Yes, 79 × 0.0254 mm is 2.01 mm.",
                right=True,
                say="They agree as well as such a gauge can show.",
            ),
            Option(
                text="No, 79 thou is 0.79 mm.",
                say="That takes a thou for a hundredth of a millimetre.",
                believes="thou_as_hundredth_mm",
            ),
            Option(
                text="No, 79 thou is 3 110 mm.",
                say="That divides by 0.0254. A millimetre is the larger step, so the number shrinks.",
                believes="factor_turned_round",
            ),
        ),
    ),
)
