"""Lesson 01: an order of work."""

from __future__ import annotations

from twostroke.lesson.tasks import Before, Ordering

ORDERINGS = (
    Ordering(
        id="convert_order",
        ask="You measured a gap in thou, and the manual is in millimetres. Put the steps in a sound order.",
        steps={
            "round": "Round to what the leaves can show",
            "turn_back": "Turn the answer back into thou and compare",
            "write": "Write the reading down with its unit",
            "guess": "Ask: must the number grow or shrink?",
            "convert": "Multiply by 0.0254",
            "enter": "Put it on the job card with its unit",
        },
        rules=(
            Before(
                first="write",
                then="convert",
                why="A bare number in the head soon loses its unit.",
                believes="bare_number_is_enough",
            ),
            Before(
                first="guess",
                then="convert",
                why="The guess is there to catch a factor used the wrong way.",
                believes="factor_turned_round",
            ),
            Before(
                first="convert",
                then="turn_back",
                why="There is nothing to turn back yet.",
                believes="factor_turned_round",
            ),
            Before(
                first="convert",
                then="round",
                why="Round the answer, not the factor.",
                believes="more_digits_more_truth",
            ),
            Before(
                first="turn_back",
                then="enter",
                why="Check before it stands on the card.",
                believes="looks_right_is_right",
            ),
            Before(
                first="round",
                then="enter",
                why="The card gets only the digits that were measured.",
                believes="more_digits_more_truth",
            ),
            Before(
                first="guess",
                then="enter",
                why="A guess made after the number is written catches nothing.",
                believes="order_does_not_matter",
            ),
        ),
        done="Unit first, guess, convert, check, round, write.",
    ),
)
