"""Lesson 14: the exit check of five."""

from __future__ import annotations

from twostroke.lesson.tasks import Option, Question

EXIT_CHECK = (
    Question(
        id="x_caution",
        about="14",
        ask="In the examination a step is done and its caution was not named. What follows?",
        go_back="“What is marked”.",
        options=(
            Option(
                text="The bench reminds you, and you go on.",
                say="It does not remind you here. Nobody does at a real machine either.",
                believes="no_start_no_danger",
            ),
            Option(text="Not passed, whatever comes after.", right=True, say="A hand does not grow back."),
            Option(
                text="Nothing, if the switch stood at stop.",
                say="The switch is a part like any other, and may be the broken one.",
                believes="switch_is_enough",
            ),
        ),
    ),
    Question(
        id="x_proof",
        about="14",
        ask="Cured, but handed back without a verify run. The score?",
        go_back="the figure “What a route earns”.",
        options=(
            Option(
                text="As if proven: the machine is cured.",
                say="You did not know that when you gave it away.",
                believes="it_started_so_fixed",
            ),
            Option(text="60 at most, so not passed", right=True, say="Three minutes were missing."),
            Option(
                text="It does not matter: the owner will find out.",
                say="A machine that comes back costs both of you more than the run.",
                believes="owner_need_not_know",
            ),
        ),
    ),
    Question(
        id="x_doubt",
        about="14",
        ask="Two faults are left with like chances. A part for one costs 40, a test of 3 minutes parts them.",
        go_back="the figure “What a route earns”.",
        options=(
            Option(
                text="The part: it must be done anyway in half of the cases.",
                say="And in the other half it is a part on a guess.",
                believes="parts_first",
            ),
            Option(text="The test", right=True, say="Three minutes against a coin's throw for 40."),
            Option(
                text="Hand it back, undecided.",
                say="One more reading decides. That is what the minutes are for.",
                believes="undecided_is_safe",
            ),
        ),
    ),
    Question(
        id="x_again",
        about="14",
        ask="The notebook stops in the middle of the examination. What is lost?",
        go_back="“How it is done”.",
        options=(
            Option(
                text="All of it: begin with another machine.",
                say="The steps are on the log, not in the notebook's memory.",
                believes="restart_loses_work",
            ),
            Option(
                text="Nothing that was done: run the cell again from its first line.",
                right=True,
                say="Each step counts once. The machine waits as you left it.",
            ),
            Option(
                text="Nothing, and it is handed in already.",
                say="Hand it in when the machine is back and the card is written.",
                believes="saved_is_handed_in",
            ),
        ),
    ),
    Question(
        id="x_ohms",
        about="14",
        ask="Ohms of the module are in band. Which line may stand on the card?",
        go_back="“The rehearsal”.",
        options=(
            Option(
                text="“Module good.”",
                say="A short of a few turns stays in band and costs half of the voltage.",
                believes="resistance_in_band_proves",
            ),
            Option(
                text="“Primary 0.9 Ω at 20 °C, in band.”",
                right=True,
                say="What was read, and in which state. A spark test says the rest.",
            ),
            Option(
                text="“0.9.”",
                say="Of what, at what temperature?",
                believes="bare_number_is_enough",
            ),
        ),
    ),
)
