"""Lesson 01: the exit check of five."""

from __future__ import annotations

from twostroke.lesson.tasks import Option, Question

EXIT_CHECK = (
    Question(
        id="x_thou",
        about="01",
        ask="Which leaf is nearest to 0.25 mm?",
        go_back="“One leaf, two scales”: move the slider until the millimetre scale shows 0.25.",
        options=(
            Option(text="25 thou", say="25 thou is 0.635 mm.", believes="thou_as_hundredth_mm"),
            Option(text="10 thou", right=True, say="10 × 0.0254 mm = 0.254 mm."),
            Option(text="250 thou", say="250 thou is 6.35 mm.", believes="thou_as_thousandth_mm"),
        ),
    ),
    Question(
        id="x_bar",
        about="01",
        ask="A manual gives 8 bar. What does a psi gauge show?",
        go_back="the example “A gauge shows 118 psi”, second line.",
        options=(
            Option(
                text="About 116 psi",
                right=True,
                say="8 × 14.5 = 116. The psi is the smaller unit, so the number grows.",
            ),
            Option(text="About 0.55 psi", say="That divides by 14.5.", believes="factor_turned_round"),
            Option(
                text="8, because both are pressures",
                say="The pressure is the same, the number is not.",
                believes="bare_number_is_enough",
            ),
        ),
    ),
    Question(
        id="x_absolute",
        about="01",
        ask="At a pass the air presses with 0.8 bar. The gauge shows 6.0 bar. What is the absolute pressure?",
        go_back="“What the gauge shows and what the air adds”, column 3.",
        options=(
            Option(text="6.0 bar", say="That counts from the air only.", believes="gauge_is_absolute"),
            Option(text="6.8 bar", right=True, say="6.0 on the gauge and 0.8 of air."),
            Option(
                text="5.2 bar",
                say="The air was taken off instead of added.",
                believes="subtract_for_absolute",
            ),
            Option(text="7.0 bar", say="That adds the air of the coast.", believes="sea_level_everywhere"),
        ),
    ),
    Question(
        id="x_oil",
        about="01",
        ask="Oil for 2 L of fuel at 50:1?",
        go_back="“Oil for a can of fuel”: set 2 L and 50.",
        options=(
            Option(text="1 L", say="That is 50 per cent.", believes="ratio_as_percent"),
            Option(text="40 mL", right=True, say="2 000 mL ÷ 50."),
            Option(
                text="100 mL",
                say="2 L × 50 = 100 takes the ratio the wrong way round.",
                believes="factor_turned_round",
            ),
        ),
    ),
    Question(
        id="x_sheet",
        about="01",
        ask="A sheet says “gap 12”. What do you do?",
        go_back="the start of the lesson, “A number without its unit”.",
        options=(
            Option(
                text="Ask which unit was meant, and write it down",
                right=True,
                say="12 thou is 0.30 mm. Guessing can cost a flywheel.",
            ),
            Option(
                text="Take 0.12 mm",
                say="That guesses hundredths of a millimetre.",
                believes="thou_as_hundredth_mm",
            ),
            Option(
                text="Take 12 thou, everybody here uses thou",
                say="The next reader may not.",
                believes="bare_number_is_enough",
            ),
        ),
    ),
)
