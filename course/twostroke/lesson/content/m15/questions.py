"""Lesson 15: retrieval questions, each wrong option with the belief behind it."""

from __future__ import annotations

from twostroke.lesson.tasks import Option, Question

QUESTIONS = (
    Question(
        id="why_next",
        about="15",
        explains="next_test",
        ask="No spark, and a wet plug. The module leads with 44 in 100. Why is the stop circuit read first?",
        options=(
            Option(
                text="The module is the likeliest, so it should be changed first.",
                say="In 56 of 100 it is something else, and the module is the dearest part.",
                believes="module_first",
            ),
            Option(
                text="It parts the two that lead, for six minutes instead of the price of a module.",
                right=True,
                say="Likeliest is not next. The next step is the one that costs least on average.",
            ),
            Option(
                text="A wet plug means too much fuel, so neither matters.",
                say="Fuel that is not lit stays on the plug too.",
                believes="wet_plug_means_too_much_fuel",
            ),
            Option(
                text="The cheapest test always comes first.",
                say="A look at the plug was cheaper, and told little. What it parts counts as well.",
                believes="cheapest_test_first",
            ),
        ),
    ),
    Question(
        id="manual_first",
        about="15",
        ask="The course shows a gap of 0.30 mm as usual. Your manual says 0.20 mm. What do you set?",
        options=(
            Option(
                text="0.30 mm: the course was worked out with care.",
                say="On an invented machine. Only the maker knows yours.",
                believes="course_beats_manual",
            ),
            Option(text="0.20 mm", right=True, say="The manual comes first, always."),
            Option(
                text="0.25 mm, half-way between",
                say="The middle of two answers is a third one that nobody gave.",
                believes="looks_right_is_right",
            ),
            Option(
                text="The widest that still sparks, so that nothing rubs",
                say="Wider asks for a faster pull. The maker's figure weighs both.",
                believes="wide_never_rubs",
            ),
        ),
    ),
    Question(
        id="percent_again",
        about="08",
        ask="A friend's leak-down tester gave 12 % last year. Yours gives 20 % today. Is the engine worn?",
        options=(
            Option(
                text="Yes: 8 per cent more.",
                say="Each tester has its own restrictor, and so its own per cent.",
                believes="leak_down_percent_compares",
            ),
            Option(
                text="Not shown. Compare with your own tester on a sound engine, and listen where it hisses.",
                right=True,
                say="The place of the hiss is worth more than the figure.",
            ),
            Option(
                text="No: more is better, as with the compression gauge.",
                say="Leak-down counts what is lost. And a gauge can read too high as well.",
                believes="more_compression_is_better",
            ),
        ),
    ),
    Question(
        id="warm_again",
        about="11",
        ask="A winding reads 1.00 Ω at 20 °C. What does it read at 40 °C, in a warm shop?",
        options=(
            Option(
                text="2.00 Ω: twice the degrees",
                say="It rises from its figure at 20 °C, by about 4 per cent for each 10 degrees.",
                believes="in_proportion_from_zero",
            ),
            Option(text="About 1.08 Ω", right=True, say="1 + 20 × 0.00393 = 1.079."),
            Option(
                text="1.00 Ω: a winding is a winding",
                say="Copper gains with heat. Hold warm readings against a warm band, or bring both to 20 °C.",
                believes="cold_reading_hot_band",
            ),
        ),
    ),
    Question(
        id="both_again",
        about="13",
        ask="You type in: no spark with a known-good plug. Then: a spark on the tester. The two do not go"
        " together. What do you do?",
        options=(
            Option(
                text="Believe the last one, it is the newest.",
                say="New is not the same as true.",
                believes="one_test_decides",
            ),
            Option(
                text="Make both again, as they are meant: clip on bare metal, a full pull, the gap set.",
                right=True,
                say="One was misread, or the fault comes and goes. Both would be worth knowing.",
            ),
            Option(
                text="Strike both out and change the plug.",
                say="Then nothing is known, and a part is bought.",
                believes="parts_first",
            ),
        ),
    ),
    Question(
        id="hand_on_again",
        about="14",
        ask="After an hour three faults are left. The next test needs an instrument that you do not have.",
        options=(
            Option(
                text="Fit the likeliest part, one after the other.",
                say="Three guesses. Add up what they cost.",
                believes="one_by_one",
            ),
            Option(
                text="Hand it on with your readings, and say what is left.",
                right=True,
                say="The next one begins where you stopped. That is worth the hour.",
            ),
            Option(
                text="Say nothing, since nothing is certain.",
                say="Three left of more than forty is a great deal.",
                believes="undecided_is_safe",
            ),
        ),
    ),
)
