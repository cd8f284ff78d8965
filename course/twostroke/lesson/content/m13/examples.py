"""Lesson 13: machines two and three with gaps, four and five alone. All machines are invented."""

from __future__ import annotations

from twostroke.lesson.tasks import Blank, Example

EXAMPLES = (
    Example(
        id="pear_faded",
        title="Machine two: the brush cutter that runs one minute at a time",
        lines=(
            "“It starts well. I mow to the pear tree and it starves. I pump the bulb, and it goes another"
            " minute.” The can stood open in a barn full of chaff.",
            "The bulb fills slowly. So fuel comes late: filter, line, or air drawn in.",
            Blank(
                id="next",
                label="Which step now?",
                answer="pressure on the fuel line, 5 min",
                options=(
                    "compression gauge, 3 min",
                    "pressure on the fuel line, 5 min",
                    "new carburettor, 8 min",
                ),
                believes={
                    "compression gauge, 3 min": "cheapest_test_first",
                    "new carburettor, 8 min": "common_is_likely_here",
                },
                say="It parts a leak from a block. The gauge could not change what you do next.",
                hint="Which step tells the three apart?",
            ),
            "The line holds: no air comes in, and none goes out.",
            Blank(
                id="fault",
                label="Left over is the",
                answer="fuel filter",
                options=("cracked fuel line", "fuel filter", "spark plug"),
                believes={
                    "cracked fuel line": "one_test_decides",
                    "spark plug": "common_is_likely_here",
                },
                say="Slow at the bulb, tight in the line, chaff in the can: three things that agree.",
                hint="It starves, and pumping helps. What sits between tank and line?",
            ),
            "A new filter goes in: 6 min, 4 in money.",
            Blank(
                id="proof",
                label="Proven by",
                answer="a run for longer than from the gate to the pear tree, and a restart",
                options=(
                    "a start on the bench",
                    "a run for longer than from the gate to the pear tree, and a restart",
                    "a bulb that fills firmly",
                ),
                believes={
                    "a start on the bench": "it_started_so_fixed",
                    "a bulb that fills firmly": "not_seen_is_not_there",
                },
                say="It always started. It died after a minute, so that minute is the proof.",
                hint="When did it fail?",
            ),
        ),
    ),
    Example(
        id="sulk_faded",
        title="Machine three: the hedge trimmer that sulks",
        lines=(
            "“It starts at once. Full throttle, and it dies off. It has been creeping up all year.” Oil is"
            " measured by eye, a drop extra. Bulb firm, air filter clean, 8.8 bar, strong spark.",
            "The screws were off. Set back to the maker's turns, nothing changed.",
            Blank(
                id="next",
                label="Which step now?",
                answer="look at the spark-arrester screen",
                options=("turn the screws further", "look at the spark-arrester screen", "new rings"),
                believes={
                    "turn the screws further": "screws_mend_anything",
                    "new rings": "common_is_likely_here",
                },
                say="It breathes in and seals. Can it breathe out? Three minutes tell.",
                hint="Fuel, air, spark and seal are in order. Which way is left?",
            ),
            Blank(
                id="owner",
                label="The screen is closed with soot and is cleaned. What belongs on the card?",
                answer="the screen, and: measure the oil, do not pour it by eye",
                options=(
                    "the screen alone",
                    "the screen, and: measure the oil, do not pour it by eye",
                    "nothing but the price",
                ),
                believes={
                    "the screen alone": "owner_need_not_know",
                    "nothing but the price": "finding_is_free",
                },
                say="Else it closes again by next year, and it is your name on the card.",
                hint="Why did it close?",
            ),
        ),
    ),
    Example(
        id="wire_alone",
        title="Machine four, after you have handed it back",
        stage="alone",
        lines=(
            Blank(
                id="fault",
                label="What was wrong?",
                answer="the module had no way back to metal",
                options=(
                    "the module was dead",
                    "the stop lead touched metal",
                    "the module had no way back to metal",
                ),
                believes={
                    "the module was dead": "module_first",
                    "the stop lead touched metal": "one_test_decides",
                },
                say="The short black wire that was left over was its ground.",
                hint="What did the owner find no place for?",
            ),
            Blank(
                id="reading",
                label="Which reading named it?",
                answer="open, from the module's core to metal",
                options=(
                    "no spark with a known-good plug",
                    "open, from the module's core to metal",
                    "stop circuit open at run",
                ),
                believes={
                    "no spark with a known-good plug": "likelihood_as_chance",
                    "stop circuit open at run": "no_continuity_is_good",
                },
                say="No spark fits many faults. This reading fits one.",
                hint="Which of the three would be different if the ground were sound?",
            ),
        ),
    ),
    Example(
        id="saw_alone",
        title="Machine five, after you have handed it back",
        stage="alone",
        lines=(
            Blank(
                id="fault",
                label="What was wrong?",
                answer="the plug's gap had worn wide",
                options=("the choke did not close", "the plug's gap had worn wide", "the module was weak"),
                believes={
                    "the choke did not close": "one_test_decides",
                    "the module was weak": "module_first",
                },
                say="Six years without a look. It asked for more voltage each winter.",
                hint="What wears so slowly that it takes a few more pulls each month?",
            ),
            Blank(
                id="doubt",
                label="A look may call the choke “sticking, as far as one can see”. What is that worth?",
                answer="little: look again, or find a reading with a number",
                options=(
                    "enough for a new spring",
                    "little: look again, or find a reading with a number",
                    "nothing, looks do not count",
                ),
                believes={
                    "enough for a new spring": "one_test_decides",
                    "nothing, looks do not count": "sure_is_better",
                },
                say="A doubtful look moves the chances a little. A gap of 1.50 mm moves them a lot.",
                hint="How often would a sound choke look like that?",
            ),
        ),
    ),
)
