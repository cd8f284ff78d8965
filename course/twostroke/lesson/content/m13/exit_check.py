"""Lesson 13: the exit check of five."""

from __future__ import annotations

from twostroke.lesson.tasks import Option, Question

EXIT_CHECK = (
    Question(
        id="x_first",
        about="13",
        ask="A machine that never fires. Which of these comes first?",
        go_back="“Machine one, worked”.",
        options=(
            Option(
                text="A new plug: it is the part most often changed",
                say="Over all machines. Read this one.",
                believes="common_is_likely_here",
            ),
            Option(
                text="Spark with a known-good plug, 2 min",
                right=True,
                say="It parts spark from fuel, and rules the old plug in or out.",
            ),
            Option(
                text="Open the carburettor and look at each part",
                say="One by one, on a side not yet named.",
                believes="one_by_one",
            ),
        ),
    ),
    Question(
        id="x_detour",
        about="13",
        ask="What makes a test a detour?",
        go_back="“The best route”.",
        options=(
            Option(
                text="It takes more than five minutes",
                say="A long one can be worth it.",
                believes="cheapest_test_first",
            ),
            Option(
                text="It is now and then mistaken",
                say="All are. It may still tell the most for its minutes.",
                believes="sure_is_better",
            ),
            Option(
                text="Whatever it shows, you would do the same next",
                right=True,
                say="Then its minutes bought nothing.",
            ),
        ),
    ),
    Question(
        id="x_second",
        about="13",
        ask="One look calls the choke sticking. What before you buy a spring?",
        go_back="the example “Machine five, after you have handed it back”.",
        options=(
            Option(
                text="Nothing. It was seen.",
                say="“As far as one can see” is a doubtful reading.",
                believes="one_test_decides",
            ),
            Option(
                text="A second reading of another kind",
                right=True,
                say="If it names the choke too, buy the spring.",
            ),
            Option(
                text="The same look once more, that is enough",
                say="What misled you once misleads you twice.",
                believes="one_test_decides",
            ),
        ),
    ),
    Question(
        id="x_still",
        about="13",
        ask="The proven fault is mended, and it is still dead. What does that suggest?",
        go_back="“When it is still dead”.",
        options=(
            Option(
                text="The test was useless",
                say="It named a fault that was there. There may be two.",
                believes="one_test_decides",
            ),
            Option(
                text="A second fault: go on from what is still possible",
                right=True,
                say="Start from all your readings, not from nothing.",
            ),
            Option(
                text="Not worth more minutes. It is not there if I cannot see it.",
                say="It is dead, so something is there.",
                believes="not_seen_is_not_there",
            ),
        ),
    ),
    Question(
        id="x_likely",
        about="13",
        ask="Nine of ten clogged screens cost power at full throttle. This machine has lost power. How sure"
        " is the screen?",
        go_back="“When it is still dead”.",
        options=(
            Option(
                text="Nine tenths",
                say="That is how often a clogged screen shows it, not the reverse.",
                believes="likelihood_as_chance",
            ),
            Option(
                text="Not known yet: filter, rings and fuel cost power too",
                right=True,
                say="Count all that would show it, or look at the screen: 3 minutes.",
            ),
            Option(
                text="Sure enough: it is always the screen",
                say="Often is not always. This machine may be another case.",
                believes="common_is_likely_here",
            ),
        ),
    ),
)
