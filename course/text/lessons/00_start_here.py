# %% [markdown]
# # 00 Start here
#
# **How do I use this course, what can hurt me, and what does a whole job look like?**
#
# After this you can
#
# - work through a lesson, save it, and hand in a lab (checked by “Practice” below);
# - name what can hurt you before you touch a machine (exit check, 1 and 2);
# - say when a reading is in, out or undecided (exit check, 3);
# - put a whole job in a sound order (task “Order of work”);
# - take a machine from complaint to job card with a guide (checked by the bench).
#
# You need nothing but this page. About 40 minutes.
#
# **Choose Run, then Run All Cells, in the menu above.** Then scroll back up here.

# %% jupyter={"source_hidden": true}
from twostroke import lesson

page = lesson.open_lesson("00")
page

# %% [markdown]
# ## How to use this course
#
# A notebook is made of [cells](#Words-of-this-lesson): blocks of text, and short calls that show a control. You need not read or
# write any code. Behind the page runs a [kernel](#Words-of-this-lesson), which does the sums.
#
# Everything works from the keyboard. Tab goes to the next control, the arrow keys move a slider or a choice, the space bar presses
# a button. Beside each slider is a box in which you can type the number.
#
# Come back whenever you like. Your predictions and answers are kept in one file on your own machine.

# %% jupyter={"source_hidden": true}
page.map()

# %% [markdown]
# ## What can hurt you
#
# A small engine that will not start still holds fuel, makes thousands of volts when you pull the [rope](#Words-of-this-lesson), and
# turns whatever is fitted to it. Read these boxes now. Each comes again at the step where it matters.

# %% jupyter={"source_hidden": true}
page.caution("fuel_vapour", "spark_near_fuel")

# %% jupyter={"source_hidden": true}
page.caution("high_voltage", "moving_parts", "sudden_start")

# %% jupyter={"source_hidden": true}
page.caution("hot_surface", "pressure", "skin_and_lungs")

# %% [markdown]
# Now shut your eyes for a moment and go through the boxes from memory. Then answer.

# %% jupyter={"source_hidden": true}
page.question("dead_machine")

# %% jupyter={"source_hidden": true}
page.question("spill")

# %% [markdown]
# ## What a whole job looks like
#
# The owner says: “It will not start.” You ask what happened, make the machine safe, and let cheap tests say which system is guilty:
# spark, fuel, air, compression or exhaust. Inside that system you measure until one part is left. That is
# [fault isolation](#Words-of-this-lesson).
#
# Then you repair that one thing, and prove it: measured again, started cold, started hot, and the stop switch stops it. A
# [job card](#Words-of-this-lesson) tells the owner what you found, did and proved.

# %% jupyter={"source_hidden": true}
page.caution("moving_parts", "sudden_start")

# %% jupyter={"source_hidden": true}
page.order("whole_job")

# %% jupyter={"source_hidden": true}
page.question("swap_first")

# %% [markdown]
# ## What a reading proves
#
# The whole course stands on readings. A reading is held against a [band](#Words-of-this-lesson), the lowest and the highest value
# that count as good. Here is the gap between the magnet and the module (the
# block that makes the spark) on an invented machine. The usual band is 0.20 to 0.35 mm (common
# practice, no source; the maker's manual comes first).
#
# No instrument is perfect, so each reading has a [doubt](#Words-of-this-lesson), a number that says how far off it may be.
#
# Before the figure opens, commit your prediction. It is never graded. It makes you look harder.

# %% jupyter={"source_hidden": true}
page.predict("verdict_guess")

# %% jupyter={"source_hidden": true}
page.figure("band")

# %% jupyter={"source_hidden": true}
page.question("why_undecided")

# %% [markdown]
# ### Worked example
#
# A reading of 0.31 mm has a doubt of 0.03 mm. The band is 0.20 to 0.35 mm. What is the [verdict](#Words-of-this-lesson)?
#
# 1. Reach on each side: 1.645 × 0.03 mm = 0.049 mm.
# 2. From 0.31 − 0.049 = 0.261 mm to 0.31 + 0.049 = 0.359 mm.
# 3. The lower end lies inside the band, the upper end lies above 0.35 mm.
#
# The reach crosses a limit, so the verdict is **undecided**: measure with a smaller doubt. (Rule: JCGM 106, 5 per cent risk on
# each side.)

# %% jupyter={"source_hidden": true}
page.example("reach_faded")

# %% [markdown]
# ### On your own
#
# The same band, another reading. No steps are given.

# %% jupyter={"source_hidden": true}
page.example("reach_alone")

# %% jupyter={"source_hidden": true}
page.question("which_number")

# %% [markdown]
# ## A whole job, once
#
# Now do one. A trimmer that will not start lies on the [virtual bench](#Words-of-this-lesson), a machine that exists only as
# physics in this course. The guide above it says what comes next and why. The bench asks for the cautions, takes the time, and
# gives the readings.
#
# Nothing can break, and no step is forbidden. If you leave the guide's way, it tells you what that step told. About ten minutes.

# %% jupyter={"source_hidden": true}
page.caution("spark_near_fuel", "high_voltage", "moving_parts")

# %% [markdown]
# The bench uses the words of the trade. The rope turns the [flywheel](#Words-of-this-lesson). The
# [spark plug](#Words-of-this-lesson) sits in the [cylinder](#Words-of-this-lesson), under its [boot](#Words-of-this-lesson). Air comes in
# through the [air filter](#Words-of-this-lesson). The [carburettor](#Words-of-this-lesson) adds the fuel. Burnt gas goes out by the
# [muffler](#Words-of-this-lesson). What the engine drives is the [attachment](#Words-of-this-lesson).

# %% jupyter={"source_hidden": true}
page.job("first_job")

# %% [markdown]
# Each step that you took has its lesson in this course: the complaint and the order of tests in 10, the plug and its spark in 03 and
# 04, the switch in 07, the proof and the card in 12. You have now seen the whole. From here on you learn the parts.

# %% [markdown]
# ## Practice: save, restart, hand in
#
# Three things lose work: not saving, a fear of restarting, and handing in the wrong file. Do each once here, where nothing can
# break. It is not graded. The page finds out by itself whether each step worked.

# %% jupyter={"source_hidden": true}
page.practice()

# %% [markdown]
# ## Words of this lesson
#
# Each word is explained where it first comes. All words of the course stand at the end of this page.

# %% jupyter={"source_hidden": true}
page.words()

# %% [markdown]
# ## Bench card
#
# What to keep from this lesson, on one page for the wall.

# %% jupyter={"source_hidden": true}
page.card()

# %% [markdown]
# ## Exit check
#
# Five questions from memory. Four right and you are ready for lesson 01.

# %% jupyter={"source_hidden": true}
page.exit_check()

# %% [markdown]
# ## Go on
#
# Next comes [lesson 01, Shop units](01_shop_units.ipynb).
# What is done and what is open stands on the [map of the course](#How-to-use-this-course), above.

# %% [markdown]
# ## All words of the course

# %% jupyter={"source_hidden": true}
page.all_words()
