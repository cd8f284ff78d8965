# %% [markdown]
# # 07 Stop circuit, ground and lead
#
# **How do I find a fault that hides behind a good module?**
#
# After this you can
#
# - work out what a meter sees with the stop lead on (lab 07, “stop lead on: two paths side by side”);
# - say where a fault lies from four findings (lab 07, task 6, “where the fault lies”);
# - say what a leak to ground costs (lab 07, “two paths side by side”);
# - make the machine safe first (lab 07, “before the probes touch the module”).
#
# You need: lesson 06. About 30 minutes.
#
# **Choose Run, then Run All Cells, in the menu above.** Then scroll back up here.

# %% jupyter={"source_hidden": true}
from twostroke import lesson

page = lesson.open_lesson("07")
page

# %% [markdown]
# ## A first model: no spark, bad module
#
# It is a common model, and a dear one. A module costs more than the rest of the job. And behind many a “bad” one sits a wire of
# a few coins.
#
# We mend the model by looking at what else hangs on the module: the [stop lead](#Words-of-this-lesson), the
# [stop switch](#Words-of-this-lesson), the [ground](#Words-of-this-lesson), and the
# [high-tension lead](#Words-of-this-lesson).

# %% jupyter={"source_hidden": true}
page.caution("sudden_start", "high_voltage", "moving_parts", "spark_near_fuel")

# %% [markdown]
# ## How a switch stops an engine
#
# It does not cut anything off. It leads the primary to ground. Then the current has an easy way past the module, and no spark
# is made.
#
# So at run it must be open, and at stop closed. A wire that touches metal is closed all the time: the engine thinks that you
# want it to stop.
#
# (A usual circuit: common practice, no source. The maker's manual shows yours.)

# %% [markdown]
# ### Before the meter goes on
#
# The flywheel rests. The boot is off the plug and tied away. Nobody pulls while the probes are on: the magnet's pass gives
# hundreds of volts.
#
# Five points can be touched: **1** [stop terminal](#Words-of-this-lesson), **2** the end of the stop lead beside it, **3** switch, **4** engine metal,
# **5** the module's core. Commit, then look.

# %% jupyter={"source_hidden": true}
page.caution("sudden_start", "high_voltage")

# %% jupyter={"source_hidden": true}
page.predict("stop_guess")

# %% jupyter={"source_hidden": true}
page.figure("circuit")

# %% jupyter={"source_hidden": true}
page.question("why_low")

# %% jupyter={"source_hidden": true}
page.question("both_open")

# %% [markdown]
# ### Two ways at once
#
# **Worked example.** Primary 0.9 Ω, and a [chafed](#Words-of-this-lesson) lead with 2.0 Ω to metal. Stop lead on.
#
# 1. One over each: 1 ÷ 0.9 = 1.11, and 1 ÷ 2.0 = 0.50.
# 2. Add up: 1.61.
# 3. One over that: 0.62 Ω.
#
# Less than either path. That is how you know that the sum is right.

# %% jupyter={"source_hidden": true}
page.example("paths_faded")

# %% [markdown]
# ## Half a leak is enough
#
# The chafe need not be a dead short. Damp in a switch, or carbon on a burnt lead, has tens or hundreds of ohms. Does the spark
# mind? Commit, then look.

# %% jupyter={"source_hidden": true}
page.predict("leak_guess")

# %% jupyter={"source_hidden": true}
page.figure("leak")

# %% jupyter={"source_hidden": true}
page.question("why_leak")

# %% [markdown]
# ### What is still too simple
#
# The model takes the leak as a plain resistor. A damp one changes as it dries, and a chafe comes and goes as the engine shakes.
# Trust the order of the effect, not its digits. And move the lead while you read.

# %% [markdown]
# ## Split it first
#
# One step parts the system in two: take the stop lead off the module, then test for spark again.
#
# - Spark is back: stop lead or switch.
# - Still none: ground, gap, magnets, high-tension lead, plug. The module comes last.
#
# With the lead off, the switch does not stop the engine. Know another way: choke it (shut the flap before its air), or shut the fuel.

# %% jupyter={"source_hidden": true}
page.caution("sudden_start", "high_voltage", "moving_parts", "spark_near_fuel")

# %% jupyter={"source_hidden": true}
page.order("isolate_order")

# %% jupyter={"source_hidden": true}
page.question("lead_off_spark")

# %% jupyter={"source_hidden": true}
page.example("findings_faded")

# %% [markdown]
# ## The way back
#
# What goes out to the plug must come back. It runs through the engine's metal to the seat of the module. Paint, rust or a loose
# screw there, and the spark is gone, or comes and goes.
#
# Core to metal should read near nought. If not: clean, tighten, measure again.

# %% jupyter={"source_hidden": true}
page.example("case_alone")

# %% [markdown]
# ## The way out
#
# The high-tension lead carries thousands of volts. A crack leads them to the nearest metal. In the dark you may see it, a blue
# thread beside the lead.
#
# A resistor of some kilohms in lead or boot is often wanted, and costs hardly any voltage. The manual says how many.

# %% jupyter={"source_hidden": true}
page.caution("high_voltage")

# %% [markdown]
# ## From memory
#
# Four questions that go back to lessons 04, 05 and 06. Put the notes away.

# %% jupyter={"source_hidden": true}
page.question("inline_again")

# %% jupyter={"source_hidden": true}
page.question("legs_again")

# %% jupyter={"source_hidden": true}
page.question("warm_again")

# %% jupyter={"source_hidden": true}
page.question("guard_again")

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
# Five questions from memory. Four right, and you are ready for lab 07.

# %% jupyter={"source_hidden": true}
page.exit_check()

# %% [markdown]
# ## Go on
#
# First [lab 07](../labs/lab07/lab07.ipynb). After it comes [lesson 08, Compression and sealing](08_compression.ipynb).
# What is done and what is open stands on the [map of the course](00_start_here.ipynb).
