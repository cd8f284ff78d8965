"""Lesson 15: the exit check of five."""

from __future__ import annotations

from twostroke.lesson.tasks import Option, Question

EXIT_CHECK = (
    Question(
        id="x_band",
        about="15",
        ask="You measure 0.9 Ω on your own module. Good?",
        go_back="“Manual first”.",
        options=(
            Option(
                text="Yes: 0.9 Ω is what the course shows.",
                say="For an invented machine. Yours has a band of its own.",
                believes="course_beats_manual",
            ),
            Option(
                text="Not before I know the maker's band, and took the leads off.",
                right=True,
                say="Band, leads, temperature. And in band is no proof of a spark.",
            ),
            Option(
                text="Yes, any low number will do.",
                say="Low may also be a winding with turns shorted.",
                believes="resistance_in_band_proves",
            ),
        ),
    ),
    Question(
        id="x_unit",
        about="15",
        ask="You type “96” for the gauge. What happens?",
        go_back="“On your bench”.",
        options=(
            Option(
                text="The bench takes psi, as everybody does.",
                say="96 bar would be as near. A number needs its unit.",
                believes="bare_number_is_enough",
            ),
            Option(
                text="It asks for the unit: 96 psi or 6.6 bar.",
                right=True,
                say="As it stands on the instrument, with its unit.",
            ),
            Option(
                text="I write bar behind it, the number stays.",
                say="Then it is fourteen times as much.",
                believes="label_swapped",
            ),
        ),
    ),
    Question(
        id="x_next",
        about="15",
        ask="What makes a step the next one?",
        go_back="the figure “Own readings, and what to test next”.",
        options=(
            Option(
                text="It goes for the likeliest fault.",
                say="A cheap test may part it from the second one first.",
                believes="common_is_likely_here",
            ),
            Option(
                text="It has the least cost on average, from here to a proven machine.",
                right=True,
                say="Minutes, parts and the price of being mistaken are all in it.",
            ),
            Option(
                text="It takes the fewest minutes.",
                say="What it tells counts as well.",
                believes="cheapest_test_first",
            ),
        ),
    ),
    Question(
        id="x_danger",
        about="15",
        ask="Your own machine, your own yard. Which cautions may be left out?",
        go_back="“Real hands”.",
        options=(
            Option(
                text="Those for the blade: it does not start.",
                say="The rope turns it, and it may start the moment it is mended.",
                believes="no_start_no_danger",
            ),
            Option(text="None", right=True, say="The virtual bench forgives. This one does not."),
            Option(
                text="Those for fuel, out of doors.",
                say="Vapour gathers low down, outdoors as well.",
                believes="vapour_is_gone",
            ),
        ),
    ),
    Question(
        id="x_go_on",
        about="15",
        ask="Fifty job cards lie in your drawer. What do they tell that no table can?",
        go_back="“Go on learning”.",
        options=(
            Option(
                text="Which part is bad on the next machine, so test no more.",
                say="They tell where to begin. The next machine has readings of its own.",
                believes="common_is_likely_here",
            ),
            Option(
                text="How often you were right at 80 %, and which tests earned their minutes.",
                right=True,
                say="On the machines that come to you. That is a table of your own.",
            ),
            Option(
                text="That all which started were fixed.",
                say="Only those that did not come back were. Note those that did.",
                believes="it_started_so_fixed",
            ),
        ),
    ),
)
