"""Lesson 12: retrieval questions, each wrong option with the belief behind it."""

from __future__ import annotations

from twostroke.lesson.tasks import Option, Question

QUESTIONS = (
    Question(
        id="why_moved",
        about="12",
        explains="moved",
        ask="The shim was in the middle of the band. Why do jobs end outside all the same?",
        options=(
            Option(
                text="The module moves as the screws pull down, and only a reading after that shows it.",
                right=True,
                say="One more minute with the leaf, and nearly all of them end inside.",
            ),
            Option(
                text="They were hasty. Once set, a gap stays set.",
                say="All 200 were set with the same care. The screws moved the module.",
                believes="tight_is_done",
            ),
            Option(
                text="The shim was too thin. Take the widest that still fits the band.",
                say="Try 0.35 mm in the figure: far more end outside, on the wide side.",
                believes="wide_never_rubs",
            ),
            Option(
                text="The second leg moved. It is the first one that counts.",
                say="Both gaps lie in the path of the flux. Both are measured.",
                believes="one_leg_enough",
            ),
        ),
    ),
    Question(
        id="why_card",
        about="12",
        explains="card_check",
        ask="Started cold, and still “fixed” did not hold. Why?",
        options=(
            Option(
                text="It had always started cold. The card must show it hot, where it failed.",
                right=True,
                say="A run in which it never failed proves nothing about the repair.",
            ),
            Option(
                text="It starts, so it is fixed. The check is only strict about paper.",
                say="It also started before the repair, as long as it was cold.",
                believes="it_started_so_fixed",
            ),
            Option(
                text="The owner had said that it is the module. That should stand among the readings.",
                say="What the owner is sure of is not a reading. What he saw is one.",
                believes="opinion_is_evidence",
            ),
            Option(
                text="The complaint was “bad starter”. So only the starting must be proven.",
                say="The first word is seldom the whole. It died hot, after ten minutes.",
                believes="first_word_decides",
            ),
        ),
    ),
    Question(
        id="why_bill",
        about="12",
        explains="bill",
        ask="The mending took 20 minutes. Why does the labour charge 80?",
        options=(
            Option(
                text="Finding and proving are work too. Without them the part is a guess.",
                right=True,
                say="In the figure they are three quarters of the labour. A clever test lowers the bill.",
            ),
            Option(
                text="It should charge 20. Finding and proving come with the trade.",
                say="Then the shop pays for each careful job, and soon stops to be careful.",
                believes="finding_is_free",
            ),
            Option(
                text="Minutes were taken for hundredths: 80 minutes should be 0.80 of an hour.",
                say="80 minutes are 1 hour and 20 minutes, or 1.33 hours.",
                believes="clock_as_decimal",
            ),
        ),
    ),
    Question(
        id="card_line",
        about="12",
        ask="Which line helps the person who opens this machine next year?",
        options=(
            Option(
                text="“Gap 0.30, checked.”",
                say="Thirty hundredths of what, at which leg, before or after tightening?",
                believes="bare_number_is_enough",
            ),
            Option(
                text="“Gap 0.30 mm at both legs, leaf, after tightening.”",
                right=True,
                say="What, how much, with what, and when. It can be read again.",
            ),
            Option(
                text="“Gap as usual, all in order.”",
                say="Usual for whom? It looks right, and says nothing that can be checked.",
                believes="looks_right_is_right",
            ),
            Option(
                text="None. The owner pays, and need not know more.",
                say="It is the owner's machine. What failed and how it was proven is theirs to know.",
                believes="owner_need_not_know",
            ),
        ),
    ),
    Question(
        id="rim_again",
        about="05",
        ask="At the middle place of the turn the gap reads 0.30 mm. A dial on the rim swings 0.08 mm. Least"
        " and largest gap?",
        options=(
            Option(
                text="0.22 and 0.38 mm",
                say="0.08 mm is from the lowest to the highest place. From the middle it is half of that.",
                believes="run_out_whole",
            ),
            Option(text="0.26 and 0.34 mm", right=True, say="0.04 mm to either side of the middle."),
            Option(
                text="0.30 mm all round",
                say="Then the dial would not swing.",
                believes="one_place_is_all",
            ),
            Option(
                text="0.30 and 0.38 mm",
                say="Where the rim stands out, the gap is less. Half a turn later it is more.",
                believes="run_out_one_way",
            ),
        ),
    ),
    Question(
        id="rings_again",
        about="08",
        ask="New rings are in. Before: 5.1 bar. Now: 7.6 bar, steady, the manual asks for 6.5. Proven?",
        options=(
            Option(
                text="Only with more than 10 bar. The higher, the better.",
                say="Too high would point to carbon, oil or another gasket.",
                believes="more_compression_is_better",
            ),
            Option(
                text="Sealing yes: well above the limit, dry. It must still run as in the complaint.",
                right=True,
                say="The gauge proves the seal, the verify run proves the machine.",
            ),
            Option(
                text="Put oil in and read once more. With oil it is sure.",
                say="Oil seals for a few turns. A reading with oil proves nothing about the rings.",
                believes="oil_repairs",
            ),
            Option(
                text="No. Oil had lifted it too, and that means the rings are still bad.",
                say="Any oil lifts a reading a little. Now it is high without any.",
                believes="any_rise_means_rings",
            ),
        ),
    ),
    Question(
        id="white_again",
        about="09",
        ask="Mended, it starts, but it races at idle, and the plug comes out chalky white. What now?",
        options=(
            Option(
                text="Turn the mixture screw until it sounds right.",
                say="A setting does not change by itself. You would hide a leak of air.",
                believes="screws_mend_anything",
            ),
            Option(
                text="White is clean. Hand it back.",
                say="Chalky white has been too hot: too little fuel, or air from a leak.",
                believes="white_is_clean",
            ),
            Option(
                text="Look for false air at the joints that you had open, then run it again.",
                right=True,
                say="What was touched last is looked at first. A pressure test tells.",
            ),
        ),
    ),
    Question(
        id="second_again",
        about="10",
        ask="Repair A cures 7 machines of 10 and comes first. How often is repair B needed after it?",
        options=(
            Option(
                text="In 7 of 10",
                say="In those it is cured already.",
                believes="chance_turned_round",
            ),
            Option(text="In 3 of 10", right=True, say="Only where the first one did not cure."),
            Option(
                text="Never: the first one is the likelier one.",
                say="Likelier is not certain. Three owners of ten would be back.",
                believes="common_is_likely_here",
            ),
        ),
    ),
    Question(
        id="starts_again",
        about="11",
        ask="Unrepaired it would fail 1 start in 5. After the repair it starts 5 times. What is the chance of"
        " that by luck?",
        options=(
            Option(
                text="None: five times one in five is certain to show it.",
                say="Chances of tries do not add up. Multiply what is left: 0.8 five times.",
                believes="chances_added",
            ),
            Option(
                text="About 1 in 3",
                right=True,
                say="0.8 × 0.8 × 0.8 × 0.8 × 0.8 = 0.33. Five clean starts prove little here.",
            ),
            Option(
                text="4 in 5, the same as for one start",
                say="That is one start. All five clean is rarer than one.",
                believes="at_least_once_is_always",
            ),
        ),
    ),
)
