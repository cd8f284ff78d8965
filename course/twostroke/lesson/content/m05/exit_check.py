"""Lesson 05: the exit check of five."""

from __future__ import annotations

from twostroke.lesson.tasks import Option, Question

EXIT_CHECK = (
    Question(
        id="x_gap",
        about="05",
        ask="The gap is 0.5 mm instead of 0.3 mm. What will you notice?",
        go_back="“A shim in the gap”: set 0.50 mm.",
        options=(
            Option(text="It wants a somewhat faster pull", right=True, say="694 instead of 568 rpm here."),
            Option(text="No spark at all", say="The curve goes on.", believes="wide_gap_always_kills"),
            Option(text="Nothing", say="About a fifth more speed is needed.", believes="gap_does_nothing"),
        ),
    ),
    Question(
        id="x_key",
        about="05",
        ask="Step 1.0 mm on a shaft of 20 mm. How far does the flywheel stand wrong?",
        go_back="the example “A key has given way”.",
        options=(
            Option(text="5.7°", right=True, say="1.0 ÷ 10 × 57.3."),
            Option(text="2.9°", say="That divides by the diameter.", believes="diameter_as_radius"),
            Option(text="0.1°", say="That is not in degrees yet.", believes="radian_as_degree"),
        ),
    ),
    Question(
        id="x_shim",
        about="05",
        ask="When does the shim come out?",
        go_back="“Setting it, in order”.",
        options=(
            Option(
                text="After the screws are tight", right=True, say="Then turn by hand, and measure again."
            ),
            Option(
                text="As soon as the module touches it",
                say="Then the magnet snaps the module onto the rim.",
                believes="shim_out_first",
            ),
            Option(
                text="After the screws are tight, and that is the end of it",
                say="Measure again: tightening moves it.",
                believes="tight_is_done",
            ),
        ),
    ),
    Question(
        id="x_run_out",
        about="05",
        ask="Gap 0.30 mm in the middle, indicator swings 0.12 mm. Least and most?",
        go_back="“Both legs, all round”.",
        options=(
            Option(text="0.24 and 0.36 mm", right=True, say="Half of the swing to each side."),
            Option(text="0.18 and 0.42 mm", say="The whole swing to each side.", believes="run_out_whole"),
            Option(text="0.30 and 0.42 mm", say="It goes to both sides.", believes="run_out_one_way"),
        ),
    ),
    Question(
        id="x_stack",
        about="05",
        ask="Three leaves, each good to ±0.005 mm. The stack is good to, at worst,",
        go_back="the example “An invented sheet asks for 10 to 14 thou”.",
        options=(
            Option(text="±0.015 mm", right=True, say="All three may be off the same way."),
            Option(text="±0.005 mm", say="That is one leaf.", believes="errors_do_not_add"),
            Option(
                text="±0.002 mm, the more the truer",
                say="Each leaf adds its own doubt, and dirt.",
                believes="more_leaves_do_no_harm",
            ),
        ),
    ),
)
