"""Lesson 13: retrieval questions, each wrong option with the belief behind it."""

from __future__ import annotations

from twostroke.lesson.tasks import Option, Question

QUESTIONS = (
    Question(
        id="why_ways",
        about="13",
        explains="ways",
        ask="Both ways end with a running pump. Why is one so much dearer?",
        options=(
            Option(
                text="Two parts were fitted that no reading had named, and each needed a run to show it.",
                right=True,
                say="The bars hardly moved meanwhile: fitting a part on a guess tells little.",
            ),
            Option(
                text="Bad luck. The plug is what is changed most often, so it had to come first.",
                say="Most often over all machines. On this one nobody had read anything yet.",
                believes="common_is_likely_here",
            ),
            Option(
                text="Testing is not charged, so it looks cheap.",
                say="It is charged. The two tests are the first 8 minutes of the 19.",
                believes="finding_is_free",
            ),
            Option(
                text="It was the order. One part after the other, and sooner or later you are there.",
                say="Later, here. A test in the middle rules out half of the rest at once.",
                believes="one_by_one",
            ),
        ),
    ),
    Question(
        id="changed_nothing",
        about="13",
        ask="Your repair changed nothing. What now?",
        options=(
            Option(
                text="Put the old part back, note it as a reading, and look at what is still possible.",
                right=True,
                say="That it changed nothing is evidence too.",
            ),
            Option(
                text="Leave the new one in. It can do no harm, and the owner pays anyway.",
                say="The owner pays for a cure. A part that changed nothing goes back in the drawer.",
                believes="parts_first",
            ),
            Option(
                text="Fit it once more. The test that named it is never wrong.",
                say="Each test misleads now and then. Take one of another kind.",
                believes="one_test_decides",
            ),
        ),
    ),
    Question(
        id="split_again",
        about="10",
        ask="A chain of five links. The first fails in 50 of 100 jobs, the other four share the rest. Where"
        " do you probe first?",
        options=(
            Option(
                text="In the middle, after the third link",
                say="That is half of the links. Half of the chance lies on either side of the first one.",
                believes="half_of_the_links",
            ),
            Option(
                text="Right behind the first link",
                right=True,
                say="50 on one side, 50 on the other. That splits best.",
            ),
            Option(
                text="At the end, there a probe is surest",
                say="It tells what you know: the chain is dead. A sure answer that parts nothing is worth"
                " nothing.",
                believes="sure_is_better",
            ),
            Option(
                text="Wherever a probe takes the fewest minutes",
                say="Minutes count, but so does what it tells.",
                believes="cheapest_test_first",
            ),
        ),
    ),
    Question(
        id="count_again",
        about="10",
        ask="1 000 dead machines. 40 have a bad module, and 36 of these show no spark. 240 of the others show"
        " none either. No spark: what is the chance of the module?",
        options=(
            Option(
                text="36 of 40, or 90 %",
                say="So often a bad module shows no spark. You were asked the other way round.",
                believes="likelihood_as_chance",
            ),
            Option(text="36 of 276, or 13 %", right=True, say="Of all that show it, 36 have the fault."),
            Option(
                text="Nearly certain: no spark, new module. It is always that.",
                say="240 of 276 have something else: switch, ground, plug, gap.",
                believes="common_is_likely_here",
            ),
        ),
    ),
    Question(
        id="stale_again",
        about="09",
        ask="Fuel from last autumn burns when a drop of it is lit outdoors, far from the can. Is it fit for a"
        " cold start?",
        options=(
            Option(
                text="Yes, fuel that burns is fuel.",
                say="The light part has gone first. What is left gives too little vapour when cold.",
                believes="stale_still_burns",
            ),
            Option(
                text="Not proven: it is the light part that starts a cold engine. Try a fresh dose.",
                right=True,
                say="Runs on fresh, dead on old: then the fuel is named.",
            ),
            Option(
                text="No trial is needed. If I did not see water in it, it is good.",
                say="What the eye does not show may still be there. Smell, age and a fresh dose tell.",
                believes="not_seen_is_not_there",
            ),
        ),
    ),
    Question(
        id="hot_again",
        about="11",
        ask="It dies in the owner's hands after ten minutes. On your bench it runs for five. What to write?",
        options=(
            Option(
                text="No fault found. What I do not see is not there.",
                say="You stopped before it had time to come.",
                believes="not_seen_is_not_there",
            ),
            Option(
                text="Not yet provoked: run it longer than ten minutes, and read at the moment it dies.",
                right=True,
                say="The fault has a state. Bring the machine there.",
            ),
            Option(
                text="Module, since modules fail hot.",
                say="So does a blocked vent. Both die after minutes; a reading at that moment parts them.",
                believes="common_is_likely_here",
            ),
        ),
    ),
    Question(
        id="bill_again",
        about="12",
        ask="Finding 25 min, mending 35 min, proving 20 min, 60 an hour. Which labour goes on the card?",
        options=(
            Option(text="80", right=True, say="80 minutes ÷ 60 × 60. All three are work."),
            Option(text="72", say="1:20 h was read as 1.20 h.", believes="clock_as_decimal"),
            Option(text="35", say="That is the mending alone.", believes="finding_is_free"),
        ),
    ),
)
