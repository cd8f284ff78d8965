"""Lesson 02: the exit check of five."""

from __future__ import annotations

from twostroke.lesson.tasks import Option, Question

EXIT_CHECK = (
    Question(
        id="x_swept",
        about="02",
        ask="Bore 40 mm, stroke 32 mm. Displacement?",
        go_back="the example “Displacement of demo engine B”.",
        options=(
            Option(text="About 161 cm³", say="Four times too much.", believes="diameter_as_radius"),
            Option(text="About 40 cm³", right=True, say="0.785 × 4² × 3.2 = 40.2 cm³."),
            Option(text="About 51 cm³", say="That is a square piston.", believes="square_piston"),
            Option(text="About 20 cm³", say="That takes half the stroke.", believes="throw_as_stroke"),
        ),
    ),
    Question(
        id="x_squeeze",
        about="02",
        ask="Which part of the stroke squeezes the charge?",
        go_back="“Once round the crank”: watch where the upper curve leaves the floor.",
        options=(
            Option(
                text="From where the exhaust shuts, up to the top",
                right=True,
                say="Before that, the charge can still leave.",
            ),
            Option(
                text="The whole stroke, from the bottom up",
                say="The exhaust is open at the bottom.",
                believes="stroke_as_port_closing_stroke",
            ),
            Option(
                text="From the crank's middle up to the pin's height at the top",
                say="Depth grows as the pin comes nearer to the crank; no port is there.",
                believes="depth_added",
            ),
        ),
    ),
    Question(
        id="x_open",
        about="02",
        ask="The exhaust opens 104° after top. For how long is it open?",
        go_back="the example “Port timing of demo engine B”.",
        options=(
            Option(text="208°", say="For these it is shut.", believes="closed_part_counted"),
            Option(text="152°", right=True, say="360° less twice 104°."),
            Option(text="76°", say="That is one side only.", believes="one_side_only"),
        ),
    ),
    Question(
        id="x_blowdown",
        about="02",
        ask="Exhaust opens at 104°, transfer at 117°. Blowdown?",
        go_back="“Once round the crank”, the ring of port timing.",
        options=(
            Option(text="13°", right=True, say="From one opening to the other, on the way down."),
            Option(text="26°", say="That counts it on both sides.", believes="blowdown_both_ways"),
            Option(text="76°", say="That runs on to the bottom.", believes="blowdown_both_ways"),
        ),
    ),
    Question(
        id="x_depth",
        about="02",
        ask="You measure the exhaust roof with a depth gauge through the plug hole. Where is zero?",
        go_back="“Heights into angles”, the second rule.",
        options=(
            Option(text="The piston at the top", right=True, say="Set zero there, then go down to the roof."),
            Option(
                text="The piston at the bottom; it comes to the same",
                say="It does not: the stroke less the depth is another figure.",
                believes="height_from_bottom",
            ),
            Option(
                text="The crank's middle; depth is then added",
                say="The pin gets nearer to the crank as it goes down.",
                believes="depth_added",
            ),
        ),
    ),
)
