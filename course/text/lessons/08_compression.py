# %% [markdown]
# # 08 Compression and sealing
#
# **Is 100 psi good at 1 500 m? Where does the pressure go?**
#
# After this you can
#
# - say what a tight engine must show at your altitude (lab 08, “what the gauge should show here”);
# - read a wet and dry test (lab 08, “wet and dry”);
# - turn a pressure hold into a leak rate (lab 08, “how fast the crankcase loses pressure”);
# - judge an engine with a gauge that is not exact (lab 08, “three engines”);
# - measure in a safe order (lab 08, “a compression test, in order”).
#
# You need: lessons 01 and 02, and a pocket calculator. About 35 minutes.
#
# **Choose Run, then Run All Cells, in the menu above.** Then scroll back up here.

# %% jupyter={"source_hidden": true}
from twostroke import lesson

page = lesson.open_lesson("08")
page

# %% [markdown]
# ## A first model: high is good
#
# A [compression gauge](#Words-of-this-lesson) screws in where the plug was. You pull, and it keeps the highest pressure.
#
# The simplest model: a high reading is a good engine, a low one a bad one. Somebody said that 100 psi is the line.
#
# We shall repair this model until it can answer: good here, on this hill, with this gauge?

# %% [markdown]
# ## Safe, and with air in
#
# With the plug out, fuel mist leaves the hole at each turn, and the lead can spark. The attachment turns with the rope.
#
# Three settings decide what you read: [throttle](#Words-of-this-lesson) fully open, choke (the flap before the air) fully open, [decompression valve](#Words-of-this-lesson) shut.
# Else the cylinder draws thin air or lets it out again.

# %% jupyter={"source_hidden": true}
page.caution("pressure", "spark_near_fuel", "moving_parts", "sudden_start")

# %% jupyter={"source_hidden": true}
page.order("test_order")

# %% [markdown]
# ## What is squeezed
#
# From lesson 02: nothing is trapped until the exhaust port shuts. From there to the top, it is squeezed into the clearance.
#
# **Worked example.** Demo engine A: trapped 20.4 mL, clearance 3.18 mL (invented).
#
# 1. Trapped ratio: 20.4 ÷ 3.18 = 6.4.
# 2. Squeezing warms, so the pressure grows more than that: 6.4 to the power 1.25 is 10.2 (common practice, no source).
# 3. At sea level: 1.013 × 10.2 = 10.3 bar absolute.
# 4. On the gauge: 10.3 − 1.0 = 9.3 bar, or 135 psi, at the very most.

# %% jupyter={"source_hidden": true}
page.example("trapped_faded")

# %% [markdown]
# ## Pull by pull, and up the hill
#
# The gauge has a [check valve](#Words-of-this-lesson). What a pull pumps in stays in.
#
# But the hose must fill first. And on a hill, each pull begins with thinner air. Commit to a number, then look.

# %% jupyter={"source_hidden": true}
page.predict("hill_guess")

# %% jupyter={"source_hidden": true}
page.figure("pumped")

# %% jupyter={"source_hidden": true}
page.question("why_climbs")

# %% [markdown]
# ### Up the hill
#
# Every pressure in the cylinder is made of the air that went in. So the whole reading falls in step with the air:
#
# limit here = limit at sea level × air here ÷ air at sea level
#
# At 1 500 m the air has 0.83 of sea level (ISO 2533). A limit of 115 psi becomes 96 psi. To compare with a sheet, go the other way:
# your 100 psi would be 120 psi at the coast.
#
# The weather moves it too, by two or three per cent. A barometer in the shop knows.

# %% jupyter={"source_hidden": true}
page.question("hundred_psi")

# %% jupyter={"source_hidden": true}
page.example("expected_faded")

# %% [markdown]
# ### Near a limit
#
# A gauge is not exact either. Take its standard uncertainty times 1.645 (JCGM 106:2012). Nearer to a limit than that, the
# word is undecided.
#
# The band itself comes from the maker's manual. “100 psi” for all engines is hearsay.

# %% jupyter={"source_hidden": true}
page.example("hill_alone")

# %% jupyter={"source_hidden": true}
page.question("too_high")

# %% [markdown]
# ## Where does it go?
#
# Say the reading is low, the test was sound, and the hill is counted. Then the pressure leaks out. Past the [rings](#Words-of-this-lesson), the head
# [gasket](#Words-of-this-lesson), the [plug seat](#Words-of-this-lesson) or the valve?
#
# ### A spoon of oil
#
# In the [wet test](#Words-of-this-lesson) a small spoon of oil goes into the cylinder. Oil seals between ring and bore for a few
# turns. It does not seal a gasket.

# %% jupyter={"source_hidden": true}
page.caution("pressure", "spark_near_fuel", "moving_parts")

# %% jupyter={"source_hidden": true}
page.predict("oil_guess")

# %% jupyter={"source_hidden": true}
page.figure("wet")

# %% jupyter={"source_hidden": true}
page.question("why_oil")

# %% [markdown]
# ### Weigh what came back
#
# So ask how much of the loss came back:
#
# - most of it: rings, piston or bore;
# - hardly any: plug seat, gasket, valve;
# - in between: leave it open and test on.
#
# (What counts as most is common practice, no source.) In the figure, set the leak to 0.05 mm², none past the rings. The loss is
# small, and the room of the oil alone brings back half of it. There the test cannot tell.

# %% jupyter={"source_hidden": true}
page.example("wet_faded")

# %% [markdown]
# ### Feed it from outside
#
# In a [leak-down test](#Words-of-this-lesson) air is fed in, with the piston at the top. Then you listen: at the exhaust, at the
# intake, at the plug.
#
# The air can turn the crank with force. Hold it as the maker says.
#
# The per cent on the tester depends on its own [restrictor](#Words-of-this-lesson). Where it hisses is worth more than the figure.

# %% jupyter={"source_hidden": true}
page.caution("pressure", "moving_parts")

# %% jupyter={"source_hidden": true}
page.question("two_testers")

# %% [markdown]
# ## The crankcase must hold too
#
# Below the piston sits the pump. If a [crank seal](#Words-of-this-lesson) leaks, it draws false air, and the mixture goes thin.
#
# For a [pressure hold](#Words-of-this-lesson), close all openings, pump up to 0.5 bar at most (common practice, no source), and
# time the fall. Soap water shows the place. Look at the tester's own joints first.
#
# leak = volume × drop ÷ (1.013 bar × minutes)

# %% jupyter={"source_hidden": true}
page.caution("pressure")

# %% jupyter={"source_hidden": true}
page.example("hold_alone")

# %% [markdown]
# ### What is still too simple
#
# Our leak is a plain hole. A real ring leaks more when the pull is slow and cold. The speed of your pull, and how the oil lies,
# change from day to day. So repeat a reading before you open an engine.

# %% [markdown]
# ## From memory
#
# Three questions that go back to lessons 01, 04 and 07. Put the notes away.

# %% jupyter={"source_hidden": true}
page.question("zero_again")

# %% jupyter={"source_hidden": true}
page.question("density_again")

# %% jupyter={"source_hidden": true}
page.question("switch_again")

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
# Five questions from memory. Four right, and you are ready for lab 08.

# %% jupyter={"source_hidden": true}
page.exit_check()

# %% [markdown]
# ## Go on
#
# First [lab 08](../labs/lab08/lab08.ipynb). After it comes [lesson 09, Fuel, air and exhaust](09_fuel_air_exhaust.ipynb).
# What is done and what is open stands on the [map of the course](00_start_here.ipynb).
