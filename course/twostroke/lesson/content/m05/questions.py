"""Lesson 05: retrieval questions, each wrong option with the belief behind it."""

from __future__ import annotations

from twostroke.lesson.tasks import Option, Question

QUESTIONS = (
    Question(
        id="why_mild",
        about="05",
        explains="shim",
        ask="Twice the gap asked for only a third more speed. Why?",
        options=(
            Option(
                text="Most of the flux's way that resists lies in the magnet itself.",
                right=True,
                say="The air gap is only a part of the whole way round.",
            ),
            Option(
                text="It should have been twice; the figure flatters the module.",
                say="Only the gap doubled. Magnet and iron stayed.",
                believes="gap_in_proportion",
            ),
            Option(
                text="Because the gap does not matter as long as nothing rubs.",
                say="The curve climbed all the way. Near 0.7 mm it passed the usual pull.",
                believes="gap_does_nothing",
            ),
            Option(
                text="Because a wide gap kills the spark anyway.",
                say="At 0.60 mm it still sparks, at a somewhat faster pull.",
                believes="wide_gap_always_kills",
            ),
        ),
    ),
    Question(
        id="why_strong",
        about="05",
        explains="key",
        ask="The key moved the spark by several degrees. Why did the kilovolts stay?",
        options=(
            Option(
                text="The magnet still passes the module at the same speed and gap.",
                right=True,
                say="Only the crank stands elsewhere when it does.",
            ),
            Option(
                text="They did not: a sheared key makes a weak spark.",
                say="The figure showed the same kilovolts on both sides.",
                believes="timing_changes_strength",
            ),
            Option(
                text="The key has nothing to do with the timing.",
                say="It places the magnet on the crank. The spark moved with it.",
                believes="key_only_holds",
            ),
        ),
    ),
    Question(
        id="which_way",
        about="05",
        ask="The flywheel stands a little behind its place on the crank. The spark comes",
        options=(
            Option(text="late", right=True, say="The magnet arrives later, so nearer to the top."),
            Option(
                text="early",
                say="Behind means later. Mark both and turn by hand to see it.",
                believes="timing_way_round",
            ),
            Option(
                text="in time, for ignition parts turn at half the angle",
                say="The flywheel sits on the crank itself.",
                believes="four_stroke_halving",
            ),
        ),
    ),
    Question(
        id="strong_but_dead",
        about="05",
        ask="Bright spark at the tester, good fuel, and it kicks back at the rope. What do you look at?",
        options=(
            Option(
                text="The key and the timing.",
                right=True,
                say="A spark at a bad moment kicks. The tester cannot see when it comes.",
            ),
            Option(
                text="The module: a kick is a weak spark.",
                say="The tester just showed a strong one.",
                believes="timing_changes_strength",
            ),
            Option(
                text="Not the key; it only carries the load.",
                say="It also holds the magnet in its place.",
                believes="key_only_holds",
            ),
        ),
    ),
    Question(
        id="widest_safest",
        about="05",
        ask="“I set it wide, so nothing can rub.” What do you answer?",
        options=(
            Option(
                text="Stay in the maker's band: too wide asks for a faster pull.",
                right=True,
                say="It may spark in your hands and not in the owner's. Hot, it gets worse.",
            ),
            Option(
                text="Fine, wide is the safe side.",
                say="Nothing rubs, and it starts badly. The band has two ends.",
                believes="wide_never_rubs",
            ),
            Option(
                text="Pointless, it will never spark again.",
                say="It will, at a faster pull, unless it is very wide.",
                believes="wide_gap_always_kills",
            ),
        ),
    ),
    Question(
        id="whose_band",
        about="05",
        ask="The card here says 0.20 to 0.35 mm. The manual of the machine says 0.40 mm. What do you set?",
        options=(
            Option(
                text="0.40 mm, as its maker says.",
                right=True,
                say="The usual band is common practice without a source. The maker knows this module.",
            ),
            Option(
                text="0.30 mm, the middle of the card.",
                say="The card is for when there is no manual.",
                believes="course_beats_manual",
            ),
            Option(
                text="0.3527 mm, the mean of all, to be exact.",
                say="No leaf shows four digits, and the mean of two machines is neither.",
                believes="more_digits_more_truth",
            ),
        ),
    ),
    Question(
        id="after_tight",
        about="05",
        ask="The shim dragged nicely before you tightened the screws. Are you done?",
        options=(
            Option(
                text="No: measure both legs again, at more than one place of the turn.",
                right=True,
                say="Screws pull the module along. The leaf tells, not the hope.",
            ),
            Option(
                text="Yes, once set, it stays.",
                say="Put the shim in again. It often drags elsewhere.",
                believes="tight_is_done",
            ),
            Option(
                text="Measure one leg again, that is enough.",
                say="The other one may stand askew.",
                believes="one_leg_enough",
            ),
            Option(
                text="Measure again, but in one place of the flywheel.",
                say="A flywheel that runs out has another gap half a turn on.",
                believes="one_place_is_all",
            ),
        ),
    ),
    Question(
        id="at_rest",
        about="05",
        ask="You set a gap with the boot tied away. What can the magnet and the module still do?",
        options=(
            Option(
                text="The magnet pulls tools and module; with the flywheel at rest there is no spark.",
                right=True,
                say="Keep steel chips away, and fingers out from between.",
            ),
            Option(
                text="Nothing: without the lead the magnet does not work.",
                say="A magnet pulls without any circuit. It snaps the module onto the rim.",
                believes="magnet_needs_circuit",
            ),
            Option(
                text="The module can still give the charge that it holds.",
                say="It holds none at rest. A spark comes only while the flywheel turns.",
                believes="module_stores_charge",
            ),
        ),
    ),
    Question(
        id="tester_again",
        about="04",
        ask="After setting the gap you test for spark. Which tester gap?",
        options=(
            Option(
                text="The one that stands for the plug under compression.",
                right=True,
                say="Some 8 mm between points for a plug of 0.6 mm, or what your tester's maker says.",
            ),
            Option(
                text="The plug's own gap.",
                say="In open air this asks for a third.",
                believes="plug_gap_on_tester",
            ),
            Option(
                text="Any: if it jumps, the gap is right.",
                say="A small gap jumps with a badly set module too.",
                believes="any_jump_proves",
            ),
        ),
    ),
    Question(
        id="depth_again",
        about="02",
        ask="The mark is at 2 mm before top. You take 12° from 2 parts of 30. What went amiss?",
        options=(
            Option(
                text="Depth and angle do not go in proportion; it is about 26°.",
                right=True,
                say="Near the top many degrees make few millimetres.",
            ),
            Option(
                text="Nothing, 12° it is.",
                say="Half the angle is not half the depth.",
                believes="angle_in_proportion",
            ),
            Option(
                text="The stroke is 15 mm, so it is 24°.",
                say="15 mm is the throw, and the proportion would still be amiss.",
                believes="throw_as_stroke",
            ),
        ),
    ),
    Question(
        id="speed_again",
        about="03",
        ask="Wide gap, weak arm. What does the machine need to spark?",
        options=(
            Option(
                text="More speed: a full, brisk pull.",
                right=True,
                say="Speed makes up for flux, up to a point.",
            ),
            Option(
                text="Patience: half a turn at a time will do.",
                say="Below its lowest speed it never sparks, however often.",
                believes="half_turn_is_full_pull",
            ),
            Option(
                text="Nothing: at full throttle it gives plenty.",
                say="It has to start first.",
                believes="best_case_counts",
            ),
        ),
    ),
)
