"""Lesson 11: retrieval questions, each wrong option with the belief behind it."""

from __future__ import annotations

from twostroke.lesson.tasks import Option, Question

QUESTIONS = (
    Question(
        id="what_same",
        about="11",
        ask="“On wet mornings it is dead, by noon it goes.” In your warm shop it never failed. What now?",
        options=(
            Option(
                text="Nothing: it runs, so nothing is wrong with it.",
                say="It runs here and now. The owner uses it there and then.",
                believes="not_seen_is_not_there",
            ),
            Option(
                text="Mist lead and boot with water, in the dark, and watch.",
                right=True,
                say="Water is what is the same each time. Bring it, and see where the sparks run.",
            ),
            Option(
                text="Let it run hot, for heat brings every fault out.",
                say="Heat would dry it. This fault likes water.",
                believes="not_seen_is_not_there",
            ),
        ),
    ),
    Question(
        id="why_soak",
        about="11",
        explains="soak",
        ask="After it stopped, the module got warmer for some minutes. Why?",
        options=(
            Option(
                text="The fan stands still, and the hot cylinder goes on warming it.",
                right=True,
                say="So a joint that held in work may open after stopping. It runs, and does not restart.",
            ),
            Option(
                text="The broken joint heats it. A new module would stay cool.",
                say="Any module gets this warm, for the cylinder heats it. A sound one bears it.",
                believes="parts_first",
            ),
            Option(
                text="It did not: nobody could feel it get warmer.",
                say="Look at the bold line just after the stop. It rises while the dashed one falls.",
                believes="not_seen_is_not_there",
            ),
        ),
    ),
    Question(
        id="why_window",
        about="11",
        explains="soak",
        ask="It flashes at full voltage 30 minutes later. What does that prove?",
        options=(
            Option(
                text="The module is good.",
                say="It is cold. At 80 °C the same module was dark.",
                believes="not_seen_is_not_there",
            ),
            Option(
                text="Nothing about hot. The test must be made in those few minutes.",
                right=True,
                say="Tester in reach before you run it. Or warm the module off the machine.",
            ),
            Option(
                text="That it cured itself.",
                say="It will open again at the same heat.",
                believes="it_started_so_fixed",
            ),
        ),
    ),
    Question(
        id="why_clean",
        about="11",
        explains="clean",
        ask="It fails one start in three. Why are three clean starts no proof, and eight nearly one?",
        options=(
            Option(
                text="Three times one third is one, so three should do.",
                say="Chances of trials do not add up. Two thirds, three times over, is 0.30.",
                believes="chances_added",
            ),
            Option(
                text="A fault that is there passes three with 0.30, and eight with 0.04.",
                right=True,
                say="The chance of a clean start, times itself, as often as you start.",
            ),
            Option(
                text="Because it fails every third start, in turn.",
                say="One in three on average. It does not count for you.",
                believes="at_least_once_is_always",
            ),
            Option(
                text="One is enough: it started.",
                say="It started two times out of three before the repair.",
                believes="it_started_so_fixed",
            ),
        ),
    ),
    Question(
        id="two_at_once",
        about="11",
        ask="You reseat a connector and fit a new lead, and 12 starts are clean. What cured it?",
        options=(
            Option(
                text="The lead: a new part cures more than a push.",
                say="That is a guess. Neither was tried alone.",
                believes="parts_first",
            ),
            Option(
                text="You cannot say. One thing at a time, each tested in the bad condition.",
                right=True,
                say="Put the old lead back: if it stays clean, the connector was it.",
            ),
            Option(
                text="Both, half each.",
                say="Two changes in one run are mixed up in one figure.",
                believes="two_changes_at_once",
            ),
        ),
    ),
    Question(
        id="split_again",
        about="10",
        ask="Hot, the tester goes dark. Module, stop lead or lead? 30, 30 and 40 per cent. What first?",
        options=(
            Option(
                text="The lead: it leads the list, so it is the lead.",
                say="Six of ten times it is not.",
                believes="common_is_likely_here",
            ),
            Option(
                text="A test that halves them and takes few minutes: stop lead off, hot.",
                right=True,
                say="Chance over minutes. And it must be made while it is dark.",
            ),
            Option(
                text="The surest test: change the module and see.",
                say="Sure, and slow. Its minutes and its price count.",
                believes="sure_is_better",
            ),
            Option(
                text="One after the other, as they stand.",
                say="That takes the most minutes on average.",
                believes="one_by_one",
            ),
        ),
    ),
    Question(
        id="count_again",
        about="10",
        ask="A reading shows in 80 per cent of hot modules, and in 20 per cent of the others. Hot modules are"
        " 100 of 1 000. You read it. How likely?",
        options=(
            Option(
                text="80 per cent",
                say="So many hot modules show it. The other way round is asked.",
                believes="likelihood_as_chance",
            ),
            Option(text="31 per cent", right=True, say="80 of 80 + 180, that is 80 of 260."),
            Option(
                text="10 per cent, as before",
                say="Those that do not show it are out of the count now.",
                believes="common_is_likely_here",
            ),
        ),
    ),
    Question(
        id="wet_leak_again",
        about="08",
        ask="A crankcase of 300 mL at 0.50 bar has 0.46 bar after 4 minutes. What is the leak a minute?",
        options=(
            Option(text="About 3 mL", right=True, say="300 × 0.04 ÷ 1.013 is 11.8 mL, in four minutes."),
            Option(
                text="About 12 mL",
                say="That is what has gone in all four minutes.",
                believes="amount_as_rate",
            ),
            Option(
                text="About 34 mL",
                say="That counts what is left, 0.46 bar, and not the drop.",
                believes="level_for_change",
            ),
        ),
    ),
    Question(
        id="key_strength_again",
        about="05",
        ask="Since a knock it kicks back, hot and cold. The tester flashes as always. What fits?",
        options=(
            Option(
                text="A sheared key: strong spark, wrong moment.",
                right=True,
                say="The magnet passes as before. Only the crank stands elsewhere.",
            ),
            Option(
                text="No key: a sheared key would make the spark weak.",
                say="It changes when, not how strong.",
                believes="timing_changes_strength",
            ),
            Option(
                text="The air gap: the knock widened it, and that kills the spark.",
                say="The tester flashes. A wider gap only asks for a faster pull.",
                believes="wide_gap_always_kills",
            ),
        ),
    ),
    Question(
        id="hot_band_again",
        about="06",
        ask="Band of the primary at 20 °C: 0.80 to 1.00 Ω. Hot, at 80 °C, it reads 1.10 Ω. Out?",
        options=(
            Option(
                text="Out: 1.10 is more than 1.00.",
                say="The band is for 20 °C. Bring the reading there first.",
                believes="cold_reading_hot_band",
            ),
            Option(text="In: at 20 °C it is 0.89 Ω.", right=True, say="1.10 ÷ (1 + 0.00393 × 60)."),
            Option(
                text="In, and so the module is proven good.",
                say="A short of one turn in a hundred hides in these ohms.",
                believes="resistance_in_band_proves",
            ),
        ),
    ),
)
