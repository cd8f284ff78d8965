"""Lesson 14: an order of work."""

from __future__ import annotations

from twostroke.lesson.tasks import Before, Ordering

ORDERINGS = (
    Ordering(
        id="exam_order",
        ask="You have ninety minutes for the examination. Put the steps in order.",
        steps={
            "bench": "Split, narrow, and name the fault with two readings",
            "card": "Write the card from the readings, minutes and parts",
            "safe": "Name what can hurt: fuel, spark, heat, moving parts",
            "back": "Hand it back: fault, and how sure",
            "mend": "Mend that one thing",
            "words": "Read the owner's words twice, note when it fails",
            "prove": "Verify run in that state, stop by its switch",
        },
        rules=(
            Before(
                first="words",
                then="bench",
                why="They say in which state to test.",
                believes="first_word_decides",
            ),
            Before(
                first="safe",
                then="bench",
                why="The first test makes a spark and turns the blade.",
                believes="no_start_no_danger",
            ),
            Before(
                first="bench",
                then="mend",
                why="A part that no reading named is a guess.",
                believes="parts_first",
            ),
            Before(
                first="mend",
                then="prove",
                why="A run before the repair proves nothing about it.",
                believes="it_started_so_fixed",
            ),
            Before(
                first="prove",
                then="back",
                why="Handed back unproven, it earns half at most.",
                believes="it_started_so_fixed",
            ),
            Before(
                first="back",
                then="card",
                why="The card takes its minutes and parts from the closed job.",
                believes="order_does_not_matter",
            ),
        ),
        done="Words, hands, readings, repair, proof, hand-back, card.",
    ),
)
