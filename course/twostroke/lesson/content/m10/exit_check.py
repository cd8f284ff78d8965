"""Lesson 10: the exit check of five."""

from __future__ import annotations

from twostroke.lesson.tasks import Option, Question

EXIT_CHECK = (
    Question(
        id="x_evidence",
        about="10",
        ask="Which sentence of an owner is evidence?",
        go_back="“What did the owner tell you?”.",
        options=(
            Option(
                text="“The spark is surely all right.”",
                say="Nobody has seen it today.",
                believes="opinion_is_evidence",
            ),
            Option(
                text="“It ran last week, and stood in the rain.”",
                right=True,
                say="Both were seen, and they say when it began.",
            ),
            Option(
                text="“It does not start, so it is the plug.”",
                say="First the complaint, then a guess.",
                believes="first_word_decides",
            ),
        ),
    ),
    Question(
        id="x_count",
        about="10",
        ask="20 machines have the fault and show the reading. 60 have it not, and show it too. Chance?",
        go_back="the figure “A thousand machines counted”.",
        options=(
            Option(text="25 %", right=True, say="20 of the 80 that show it."),
            Option(
                text="33 %", say="That is 20 to 60. Of how many in all?", believes="share_of_the_wrong_whole"
            ),
            Option(
                text="That depends on how often the part is replaced",
                say="That is in the 20 and the 60 already.",
                believes="common_is_likely_here",
            ),
        ),
    ),
    Question(
        id="x_next",
        about="10",
        ask="One test saves 12 min and takes 6. Another saves 5 and takes 1. Which?",
        go_back="“What is a test worth?”.",
        options=(
            Option(
                text="The first: it saves more and is surer.",
                say="2 minutes for each minute, against 5.",
                believes="sure_is_better",
            ),
            Option(text="The second: 5 for each minute.", right=True, say="5 ÷ 1 against 12 ÷ 6."),
            Option(
                text="The second, for the shortest is always first.",
                say="Right choice, but by luck: a minute that tells nothing is lost.",
                believes="cheapest_test_first",
            ),
        ),
    ),
    Question(
        id="x_half",
        about="10",
        ask="Four links: 60, 20, 10, 10 per cent. Where is the first probe?",
        go_back="“Halve the chain”.",
        options=(
            Option(
                text="In the middle, after the second link",
                say="80 lie before it. That is half of the links, not of the chance.",
                believes="half_of_the_links",
            ),
            Option(text="After the first link", right=True, say="60 to 40 is nearest to half."),
            Option(
                text="At the end, and then back link by link",
                say="That takes the most probes.",
                believes="one_by_one",
            ),
        ),
    ),
    Question(
        id="x_prove",
        about="10",
        ask="The stop circuit stands at 91 per cent after two readings. What now?",
        go_back="“Test by test”.",
        options=(
            Option(
                text="Order the part: a test has decided.",
                say="In nine jobs of a hundred it is something else. Measure the lead alone.",
                believes="one_test_decides",
            ),
            Option(
                text="Measure lead and switch alone, mend, then prove it.",
                right=True,
                say="A second kind of test makes the case, and a start makes it sure.",
            ),
            Option(
                text="Nothing: 91 per cent is not 100.",
                say="No reading gives 100. It is far enough to act, and then to prove.",
                believes="undecided_is_safe",
            ),
        ),
    ),
)
