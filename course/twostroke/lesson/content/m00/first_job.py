"""Lesson 00: the first job at the bench, from complaint to job card."""

from __future__ import annotations

from typing import Any

import yaml

from twostroke.lesson.guide import CARD, CLOSE, GuidedJob, Stage
from twostroke.table import scenario_paths


def _scenario() -> dict[str, Any]:
    """A machine of the course that is the same for everyone, under a name of its own."""
    text = scenario_paths()["plug_fouled_trimmer"].read_text(encoding="utf-8")
    return {
        **yaml.safe_load(text),
        "id": "first_job",
        "title": "Your first job: the hedge trimmer that was choked too long",
        "seed": {"policy": "fixed", "number": 3},
    }


STAGES = (
    Stage(
        id="ask",
        title="Ask the owner",
        say=(
            "The complaint stands at the top. Turn it into evidence first: it costs one minute and no"
            " tool. Ask what was last done to the machine."
        ),
        steps=("ask_last_work",),
        place="owner",
        told=(
            "Nobody has worked on it. So it is not a part that was left off or fitted wrongly. And the owner"
            " pulled many times with the choke in: remember that."
        ),
    ),
    Stage(
        id="switch",
        title="Try the stop switch",
        say=(
            "A switch left at stop kills the spark on a machine that is in order. It takes a minute to look."
            " No cover comes off."
        ),
        steps=("switch_check",),
        place="stop switch and stop lead",
        told="It clicks both ways. A cheap test that finds nothing is not wasted: one cause less.",
    ),
    Stage(
        id="look",
        title="Look at the plug",
        say=(
            "The plug has been inside and shows what it met there: fuel, soot, or nothing. Read each caution"
            " on the card and tick it only when you would have seen to it on the machine."
        ),
        steps=("plug_look",),
        place="spark plug",
        told=(
            "Black with oil or soot. Such a coat leads the spark away to ground. It points to the plug, but"
            " one test alone proves nothing: the module could be weak as well."
        ),
    ),
    Stage(
        id="spark",
        title="Is there a spark with a good plug?",
        say=(
            "Clamp a plug that is known to be good to bare metal, away from the plug hole, and watch it while"
            " the rope is pulled. If it fires, magnet, module, lead and stop circuit are in order."
        ),
        steps=("known_good_plug",),
        place="high-tension lead and boot",
        told=(
            "It snaps blue at each turn. So the ignition makes a spark, and it was the old plug that did not"
            " pass it on. Two tests of different kinds now say the same."
        ),
    ),
    Stage(
        id="repair",
        title="Repair: your choice",
        say=(
            "You know enough. Which one repair fits both readings? Find the place and the repair yourself. If"
            " you pick another one, the guide tells you what it cost."
        ),
        steps=("swap_plug",),
        told="One part, and the right one. But changed is not proven.",
    ),
    Stage(
        id="prove",
        title="Prove the repair",
        say=(
            "The complaint was that it does not start. So let it start from cold, take the throttle, and stop"
            " when the switch says so. That is the verify run. You find it at the whole machine."
        ),
        steps=("verify",),
        place="whole machine and rope",
        told="It starts, runs and stops. Now, and not before, you may say that it is repaired.",
    ),
    Stage(
        id="back",
        title="Hand it back",
        say=(
            "Go to “Hand the machine back”, further down. Say what was wrong and how sure you are. 100 per"
            " cent means that you would never be mistaken. After two tests and a verify run, 90 to 95 is"
            " honest."
        ),
        steps=(CLOSE,),
        told=(
            "The report shows your route beside the best one, and after each step what was still possible."
            " The best route leaves out what tells little; yours was made for learning."
        ),
    ),
    Stage(
        id="card",
        title="Write the job card",
        say=(
            "At the foot of the report, press “Job card”. It is made from your readings: complaint, tests,"
            " repair, proof, minutes, parts."
        ),
        steps=(CARD,),
        told="",
    ),
)

JOB = GuidedJob(
    id="first_job", title="A whole job, from complaint to job card", scenario=_scenario, stages=STAGES
)
