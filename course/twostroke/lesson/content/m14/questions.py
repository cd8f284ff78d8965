"""Lesson 14: retrieval questions, each wrong option with the belief behind it."""

from __future__ import annotations

from twostroke.lesson.tasks import Option, Question

QUESTIONS = (
    Question(
        id="why_earns",
        about="14",
        explains="earns",
        ask="Four needless looks hardly lowered the score, one module on a guess did. Why?",
        options=(
            Option(
                text="The module is what usually fails, so it should have counted as a good guess.",
                say="Before the stop circuit was read, it had about an even chance, and it costs the most.",
                believes="common_is_likely_here",
            ),
            Option(
                text="A look costs a minute or three. The part costs its price, its fitting, and what is left"
                " to do after it.",
                right=True,
                say="So when in doubt: one more cheap reading before a dear part.",
            ),
            Option(
                text="Looks are not counted. Only parts are.",
                say="They are counted: four of them took about seven points.",
                believes="finding_is_free",
            ),
        ),
    ),
    Question(
        id="how_sure",
        about="14",
        ask="Your readings leave two faults, one four times as likely as the other. How sure do you say you"
        " are of the likelier?",
        options=(
            Option(
                text="100 %: it is the likeliest, so it is that one.",
                say="In two of ten such jobs you would be mistaken, and your word would be worth less.",
                believes="one_test_decides",
            ),
            Option(text="80 %", right=True, say="Four parts of five. Or test once more, and be surer."),
            Option(
                text="Nothing can be said. That is always the safe answer.",
                say="Four to one says a lot. To say nothing leaves the owner alone with it.",
                believes="undecided_is_safe",
            ),
        ),
    ),
    Question(
        id="cautions_again",
        about="14",
        ask="Next step: spark test with a tester. Which cautions do you name before it?",
        options=(
            Option(
                text="None: it does not start, that is why it is here.",
                say="The rope turns the blade, the lead carries thousands of volts, and it may start.",
                believes="no_start_no_danger",
            ),
            Option(
                text="Switch at stop: that covers them all.",
                say="With the switch at stop a good machine gives no spark to test, and a bad switch covers"
                " nothing.",
                believes="switch_is_enough",
            ),
            Option(
                text="Spark beside fuel, and high tension: tester clamped away from the hole, dry hands.",
                right=True,
                say="And the attachment guarded, before anybody pulls.",
            ),
            Option(
                text="I smell no fuel, so high tension alone.",
                say="Noses tire in minutes. Cap on, cloth over the hole, tester away from it.",
                believes="vapour_is_gone",
            ),
        ),
    ),
    Question(
        id="spark_again",
        about="04",
        ask="The plug sparks in open air. Which side do you search now?",
        options=(
            Option(
                text="Fuel: the ignition is proven.",
                say="Under compression the same gap asks for about three times the voltage.",
                believes="open_air_spark_proves",
            ),
            Option(
                text="Not decided: a tester set to stand for the plug under compression comes first.",
                right=True,
                say="If it jumps that gap at the speed of a pull, go to the fuel.",
            ),
            Option(
                text="Fuel, if the in-line flash tester flashes as well.",
                say="The lamp shows current in the lead, not a spark in the cylinder.",
                believes="inline_flash_proves",
            ),
        ),
    ),
    Question(
        id="squeeze_again",
        about="08",
        ask="Trapped ratio 6: squeezed to a sixth. What does the gauge show at most, at sea level?",
        options=(
            Option(
                text="5 bar: six times the air, less one",
                say="Squeezing warms the air as well, so the pressure grows more than sixfold.",
                believes="ratio_is_pressure",
            ),
            Option(
                text="About 8.5 bar",
                right=True,
                say="6 to the power 1.25 is 9.4, times 1.013, less 1.013 (common practice, no source).",
            ),
            Option(
                text="About 9.5 bar",
                say="That is absolute. The gauge begins at the air around it.",
                believes="gauge_is_absolute",
            ),
        ),
    ),
    Question(
        id="detour_again",
        about="13",
        ask="You could weigh one more look. What do you ask yourself?",
        options=(
            Option(
                text="Is it cheap? Then it never hurts.",
                say="A cheap look that changes nothing still costs its minute.",
                believes="cheapest_test_first",
            ),
            Option(
                text="Would I do something else next, depending on what it shows?",
                right=True,
                say="If not, it is a detour.",
            ),
            Option(
                text="Is it always right? Else I leave it out.",
                say="No test is. What counts is what it tells for its minutes.",
                believes="sure_is_better",
            ),
        ),
    ),
    Question(
        id="proof_again",
        about="12",
        ask="“It died while I moved the lead about.” New lead, and it starts at once. Hand it back?",
        options=(
            Option(
                text="Yes. It starts, so it is fixed.",
                say="It also started before, until the lead was moved.",
                believes="it_started_so_fixed",
            ),
            Option(
                text="Yes, five starts are enough for any fault.",
                say="Five starts at rest never bring it into the state in which it failed.",
                believes="not_seen_is_not_there",
            ),
            Option(
                text="Not before it has run while lead and wires are moved, and stopped by its switch.",
                right=True,
                say="The state of the complaint decides.",
            ),
        ),
    ),
)
