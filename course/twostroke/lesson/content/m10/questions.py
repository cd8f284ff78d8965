"""Lesson 10: retrieval questions, each wrong option with the belief behind it."""

from __future__ import annotations

from twostroke.lesson.tasks import Option, Question

QUESTIONS = (
    Question(
        id="from_fuel_to_spark",
        about="10",
        ask="The quickest order says: fuel sample, then spark. The sample glass stands there. What now?",
        options=(
            Option(
                text="Pull: the engine is dead anyway.",
                say="The spark is what you are testing. It may well come.",
                believes="no_start_no_danger",
            ),
            Option(
                text="Glass and can shut and away, wiped, five minutes, tester clamped.",
                right=True,
                say="No order of tests is worth a fire.",
            ),
            Option(
                text="Pull, with the switch at stop, so that nothing can light.",
                say="The switch is not proven. It may be the fault.",
                believes="switch_is_enough",
            ),
        ),
    ),
    Question(
        id="evidence",
        about="10",
        ask="“It is surely the carburettor. It stops after ten minutes, and after my coffee it goes again.”"
        " What of this is evidence?",
        options=(
            Option(
                text="That it is the carburettor: the owner knows the machine.",
                say="That was concluded. Nobody saw it.",
                believes="opinion_is_evidence",
            ),
            Option(
                text="That it stops warm and goes again cool.",
                right=True,
                say="A camera would have caught that. It speaks for heat, or for a shut vent.",
            ),
            Option(
                text="All of it.",
                say="What the owner is sure of is not yet seen.",
                believes="opinion_is_evidence",
            ),
        ),
    ),
    Question(
        id="first_word",
        about="10",
        ask="“It does not start. That is, when I have had it running and stop to fill up.” Which complaint?",
        options=(
            Option(
                text="It does not start: that came first.",
                say="Cold it does start. The first word was not the whole of it.",
                believes="first_word_decides",
            ),
            Option(
                text="It dies and does not start when hot.",
                right=True,
                say="Hot or cold splits the faults before any tool is out.",
            ),
            Option(
                text="It needs a module, for that is what usually fails.",
                say="A part is not a complaint.",
                believes="common_is_likely_here",
            ),
        ),
    ),
    Question(
        id="why_count",
        about="10",
        explains="count",
        ask="90 per cent of such faults show the reading. Why is the fault only about 32 per cent sure?",
        options=(
            Option(
                text="Then the test is bad: a good one decides alone.",
                say="It misses one in ten, no more. It is the others that are so many.",
                believes="one_test_decides",
            ),
            Option(
                text="There are many others, and a tenth of many is more than most of few.",
                right=True,
                say="45 that have it, 95 that have not. 45 of 140.",
            ),
            Option(
                text="It is 90 per cent sure. The picture must be wrong.",
                say="Count the dotted and the hatched part: 45 and 95.",
                believes="likelihood_as_chance",
            ),
            Option(
                text="Because 45 of 1 000 is 4.5 per cent, and that is rounded.",
                say="The 860 that do not show it are out. 45 of 140 is what counts.",
                believes="share_of_the_wrong_whole",
            ),
        ),
    ),
    Question(
        id="why_bars",
        about="10",
        explains="bars",
        ask="A good plug stayed dark. The module is at 38 per cent, the stop switch at 24. Buy a module?",
        options=(
            Option(
                text="Yes: it leads, and it is the part most often replaced.",
                say="In six jobs of ten it would be bought in vain.",
                believes="common_is_likely_here",
            ),
            Option(
                text="Yes: no spark, bad module.",
                say="Switch, lead and boot stop a good module as well.",
                believes="module_first",
            ),
            Option(
                text="Not yet: one reading more splits it.",
                right=True,
                say="Six minutes at the stop circuit move the switch to about 90, or clear it.",
            ),
            Option(
                text="Yes: the test has pointed at it.",
                say="It pointed at all of the ignition.",
                believes="one_test_decides",
            ),
        ),
    ),
    Question(
        id="why_way",
        about="10",
        explains="bars",
        ask="Machine 3: way 2 made 7 tests in 9 minutes and stands at 21 per cent. Way 1 made 5 in 23 minutes"
        " and stands at 90. Why?",
        options=(
            Option(
                text="The cheap tests told little about what was still possible.",
                right=True,
                say="What counts is what a test tells for each minute, and what it lets you leave out.",
            ),
            Option(
                text="Way 2 was unlucky. The cheapest test first is always best.",
                say="Go through the machines: on none of them is it ahead by much.",
                believes="cheapest_test_first",
            ),
            Option(
                text="Way 1 used only tests that are never wrong.",
                say="It began with a good plug on the lead, two minutes and not always right.",
                believes="sure_is_better",
            ),
        ),
    ),
    Question(
        id="eight_links",
        about="10",
        ask="Eight links, equally likely. How many probes until you know which?",
        options=(
            Option(
                text="Seven: one after the other.",
                say="At worst, and more than four on average.",
                believes="one_by_one",
            ),
            Option(text="Three: 8, 4, 2, 1.", right=True, say="Each probe halves what is left."),
            Option(
                text="Four: the middle is half of eight.",
                say="After the first probe four links are left, not four probes.",
                believes="half_of_the_links",
            ),
        ),
    ),
    Question(
        id="wet_again",
        about="09",
        ask="The plug comes out wet. What is the sound next step?",
        options=(
            Option(
                text="Lean the mixture: too much fuel.",
                say="Without spark any fuel stays there.",
                believes="wet_plug_means_too_much_fuel",
            ),
            Option(
                text="The tester: dark means ignition, a jump means flooded or the plug.",
                right=True,
                say="Two minutes split the machine in two.",
            ),
            Option(
                text="New carburettor, new plug, and try.",
                say="Two parts and nothing learnt.",
                believes="parts_first",
            ),
        ),
    ),
    Question(
        id="key_again",
        about="05",
        ask="It kicked back. Now it spits and will not run, spark good, compression good. What fits?",
        options=(
            Option(
                text="The key has given way: the spark comes at another angle.",
                right=True,
                say="Hub behind the crank means late, ahead of it means early. Look before you pull again.",
            ),
            Option(
                text="Not the key. It only carries the load.",
                say="The taper and the nut carry it. The key sets when the spark comes.",
                believes="key_only_holds",
            ),
            Option(
                text="The key, and a hub that lags behind the crank makes the spark early.",
                say="The magnet then comes later, and so does the spark.",
                believes="timing_way_round",
            ),
            Option(
                text="Nothing in the ignition: the gap may be anything as long as nothing rubs.",
                say="A wide gap asks for a faster pull. But here the spark is good.",
                believes="gap_does_nothing",
            ),
        ),
    ),
    Question(
        id="tester_again",
        about="04",
        ask="How wide do you set the tester, so that its jump speaks for the plug under compression?",
        options=(
            Option(
                text="To the gap of the plug.",
                say="In open air that asks for a third of it or less.",
                believes="plug_gap_on_tester",
            ),
            Option(
                text="So wide that it asks for as much as the plug does there.",
                right=True,
                say="Then a jump and a dark gap both tell something.",
            ),
            Option(
                text="It does not matter: if it jumps, it jumps.",
                say="A small gap is jumped by a weak module too.",
                believes="any_jump_proves",
            ),
            Option(
                text="It cannot be done: air always asks for less.",
                say="Wide enough it asks for as much, or more.",
                believes="tester_always_low",
            ),
        ),
    ),
    Question(
        id="voltage_again",
        about="04",
        ask="Twice the pressure in the gap. What does the plug ask for?",
        options=(
            Option(
                text="Twice the voltage.",
                say="One part grows with the pressure, the other with its root.",
                believes="pressure_in_proportion",
            ),
            Option(
                text="More, but less than twice.",
                right=True,
                say="One part grows with the pressure, the other only with its root.",
            ),
            Option(
                text="The same: it is length times a fixed figure.",
                say="Density counts as much as length, and the root has its part.",
                believes="one_term_enough",
            ),
        ),
    ),
    Question(
        id="leak_again",
        about="07",
        ask="Stop lead to metal: 40 Ω with the switch at run. Can that be the fault?",
        options=(
            Option(
                text="No, it is no dead short.",
                say="Some tens of ohms drain the kick of the primary.",
                believes="leak_must_be_short",
            ),
            Option(
                text="Yes: at run it should show no reading.",
                right=True,
                say="Damp or a chafe of tens of ohms takes much of the spark.",
            ),
            Option(
                text="No: no spark means a bad module.",
                say="Behind many a bad module sits a lead like this.",
                believes="module_first",
            ),
        ),
    ),
)
