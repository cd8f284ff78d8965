# %% [markdown]
# # 03 From magnet to spark
#
# **Where does the energy of a spark come from, and what speed does it need?**
#
# After this you can
#
# - say how a passing magnet becomes a spark, step by step (lab 04, “the spark that the owner saw”);
# - read cranking speed, peak and burn time from a trace (lab 04, “read a trace”);
# - say what a module gives at the speed of a pull (lab 04, “margin at cranking speed”);
# - make it safe before a spark test (lab 04, “safe before a spark test”).
#
# You need: lesson 02. About 35 minutes.
#
# **Choose Run, then Run All Cells, in the menu above.** Then scroll back up here.

# %% jupyter={"source_hidden": true}
from twostroke import lesson

page = lesson.open_lesson("03")
page

# %% jupyter={"source_hidden": true}
page.caution("high_voltage", "spark_near_fuel")

# %% [markdown]
# ## Where the energy comes from
#
# There is no battery. There is a flywheel with a magnet in its rim, and a [module](#Words-of-this-lesson) beside it.
#
# So the energy can only come from what turns the flywheel: your arm. At rest the module holds nothing.
#
# First model, too simple: the magnet passes, so there is a spark. Then any speed would do. It does not. We repair the model in
# three steps: [flux](#Words-of-this-lesson), current, opening.

# %% [markdown]
# ## Step one: flux
#
# The module has an iron [core](#Words-of-this-lesson) with two [legs](#Words-of-this-lesson). The magnet sends [flux](#Words-of-this-lesson) through it. Think of
# flux as how much magnetism flows through the iron. It is counted in µWb (millionths of a weber).
#
# Round one leg lie two [windings](#Words-of-this-lesson): the [primary](#Words-of-this-lesson) with few turns of thick wire, the
# [secondary](#Words-of-this-lesson) with thousands of turns of thin wire.
#
# The magnet comes, stands opposite, and leaves. Make your prediction first.

# %% jupyter={"source_hidden": true}
page.predict("where_guess")

# %% jupyter={"source_hidden": true}
page.figure("magnet")

# %% jupyter={"source_hidden": true}
page.question("why_flank")

# %% [markdown]
# ## Step two: current
#
# The electronics close the primary. The induced volts drive a current through it. It takes time to grow, like a flywheel that takes
# time to speed up. In the figure at 800 [rpm](#Words-of-this-lesson) it reaches 4.1 A.
#
# The lowest curve ends with a cliff. There the module opens the primary, about 11 degrees before aligned. That it opens at the
# peak of the current, or at a set current, is common practice, no source.
#
# Lower the [cranking speed](#Words-of-this-lesson) to 300 rpm. The current now ends at 1.4 A.

# %% [markdown]
# ### A coil holds energy
#
# A coil that carries current holds energy: half of its [inductance](#Words-of-this-lesson) L, times the current I squared.
#
# **energy = ½ × L × I²**
#
# With L in mH and I in A, the energy comes in mJ. Twice the current is four times the energy. So the first half of the speed
# buys little, and the second half much.

# %% jupyter={"source_hidden": true}
page.question("gap_a_little")

# %% [markdown]
# ## Step three: opening
#
# When the module opens, the current has nowhere to go. Its energy moves into the secondary, and the voltage there shoots up within
# hundredths of a millisecond.
#
# If the gap at the plug breaks down before the top is reached, the voltage falls and the spark burns on what is left. If not, the
# voltage swings to and fro and dies away.
#
# A [recorder](#Words-of-this-lesson) on the lead shows this as a [trace](#Words-of-this-lesson). Do not build one yourself: the lead
# carries thousands of volts.

# %% jupyter={"source_hidden": true}
page.caution("high_voltage")

# %% jupyter={"source_hidden": true}
page.predict("half_speed_guess")

# %% jupyter={"source_hidden": true}
page.figure("trace")

# %% jupyter={"source_hidden": true}
page.question("why_speed")

# %% [markdown]
# ### Reading a trace
#
# Three readings, each with its trap:
#
# - the [peak](#Words-of-this-lesson): the top of the spike. Not the flat line;
# - the [burn time](#Words-of-this-lesson): from the spike to where the flat line ends. Not the waves;
# - the speed: from one spark to the next is one turn.
#
# **Worked example.** Sparks at 20.0 ms, 120.0 ms and 200.0 ms. The turns took 100.0 and 80.0 ms. The shorter is the faster one:
# 60 000 ÷ 80.0 = 750 rpm.

# %% jupyter={"source_hidden": true}
page.example("speed_faded")

# %% jupyter={"source_hidden": true}
page.example("trace_faded")

# %% jupyter={"source_hidden": true}
page.example("energy_alone")

# %% [markdown]
# ## What speed it needs
#
# Put the steps together. The demo module (invented) gives at the plug, if the plug does not fire:
#
# | speed | volts | energy |
# |---|---|---|
# | 200 rpm | 2.3 kV | 0.2 mJ |
# | 400 rpm | 6.8 kV | 2.0 mJ |
# | 600 rpm | 10.5 kV | 4.8 mJ |
# | 800 rpm | 13.7 kV | 8.1 mJ |
#
# A usual pull makes some 600 to 1 000 rpm (common practice, no source). It has to be a full, brisk one.

# %% jupyter={"source_hidden": true}
page.example("enough_alone")

# %% [markdown]
# ### At the bench
#
# When you pull the rope to look for a spark, the machine may start, and the attachment turns. The boxes below come first. Your
# maker's manual may ask for more.

# %% jupyter={"source_hidden": true}
page.caution("moving_parts", "spark_near_fuel", "high_voltage")

# %% jupyter={"source_hidden": true}
page.question("half_turn")

# %% jupyter={"source_hidden": true}
page.question("what_counts")

# %% jupyter={"source_hidden": true}
page.question("shock")

# %% [markdown]
# ### What is still too simple
#
# The model's flux is good to a few per cent in how it changes. Its kilovolts are those of an invented coil. For a real machine only
# the order and the trend hold: faster is more.
#
# And it leaves out what the plug asks for. A plug in open air is content with 3 kV. Under compression it is not. That is
# lesson 04.

# %% [markdown]
# ## From memory
#
# Two questions that go back to lesson 02. Put the notes away.

# %% jupyter={"source_hidden": true}
page.question("one_spark_a_turn")

# %% jupyter={"source_hidden": true}
page.question("spark_before_top")

# %% [markdown]
# ## Words of this lesson

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
# Five questions from memory. Lab 04 comes after the next lesson.

# %% jupyter={"source_hidden": true}
page.exit_check()

# %% [markdown]
# ## Go on
#
# Next comes [lesson 04, The spark gap](04_spark_gap.ipynb).
# What is done and what is open stands on the [map of the course](00_start_here.ipynb).
