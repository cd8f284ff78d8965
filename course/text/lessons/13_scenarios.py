# %% [markdown]
# # 13 Scenarios
#
# **Five machines on the virtual bench: worked, then faded, then alone.**
#
# After this you can
#
# - turn a complaint into the first test (lab 13, the five benches);
# - choose the next test by what it tells for its minutes (lab 13, the five benches);
# - see the detour in a route (lab 13, the colleague's route);
# - do a whole job in a safe order (lab 13, the order of a job);
# - close a job with a proof (lab 13, the five benches).
#
# You need: lessons 10, 11 and 12. About 40 minutes.
#
# **Choose Run, then Run All Cells, in the menu above.** Then scroll back up here.

# %% jupyter={"source_hidden": true}
from twostroke import lesson

page = lesson.open_lesson("13")
page

# %% [markdown]
# ## A first model: change parts until it runs
#
# It always works in the end. With enough parts each machine runs.
#
# We put a price on that. Then we repair the model, machine by machine: the first one is worked for you, in the next two you fill
# gaps, and the last two are yours alone.
#
# All machines, owners, minutes and prices here are invented.

# %% [markdown]
# ## Machine one, worked
#
# **Worked example.** “I switched it off on Sunday, as always. On Monday it was dead. It stood in the rain.” The cap of the switch has
# a crack. The tank is full.
#
# 1. Known-good plug on the lead: no spark, 2 min. So not the old plug, and not the fuel first.
# 2. Rain, and a cracked cap. Stop circuit, lead off the module, 6 min: 0.9 Ω to metal with the switch at run.
# 3. New stop switch: 8 min.
# 4. Verify run: starts, stops by its switch, starts again. 3 min.
#
# 19 minutes. Two readings of different kinds named one part.

# %% jupyter={"source_hidden": true}
page.caution("spark_near_fuel", "high_voltage", "moving_parts", "sudden_start")

# %% jupyter={"source_hidden": true}
page.predict("ways_guess")

# %% jupyter={"source_hidden": true}
page.figure("ways")

# %% jupyter={"source_hidden": true}
page.question("why_ways")

# %% [markdown]
# ### The best route
#
# Nobody knows the fault beforehand. So the [best route](#Words-of-this-lesson) is not the shortest one on this machine. It is the
# one that costs least on average, over all machines with this complaint and these readings.
#
# A [detour](#Words-of-this-lesson) is a step after which you would do the same, whatever it showed. The bench marks your route by
# that, with good and bad luck taken out.

# %% [markdown]
# ## Machine two, with gaps
#
# This one runs, then dies. The steps are half done. Fill the gaps.

# %% jupyter={"source_hidden": true}
page.caution("fuel_vapour", "moving_parts")

# %% jupyter={"source_hidden": true}
page.example("pear_faded")

# %% [markdown]
# ## Machine three, with wider gaps
#
# It lost its power over a year. Fewer lines are given.

# %% jupyter={"source_hidden": true}
page.caution("hot_surface", "skin_and_lungs")

# %% jupyter={"source_hidden": true}
page.example("sulk_faded")

# %% jupyter={"source_hidden": true}
page.question("changed_nothing")

# %% [markdown]
# ### When it is still dead
#
# A proven repair, and it is still dead: now and then there are two faults. The second one hid behind the first.
#
# Do not begin again from nothing. Your readings still hold. Ask which faults fit all of them now. And count the other way round
# too: of all machines that show this, how many have that fault?

# %% [markdown]
# ## Machine four, alone
#
# The bench below works as in lesson 00: pick a place, choose a step, keep its cautions, read what is seen. Hand it back with what was
# wrong and how sure you are.
#
# Three hints wait under “Stuck?”. Each is counted, so think first. The report at the end lays your route beside the best one.
#
# On a real machine: attachment off or guarded, cap on, tester clamped away from the plug hole.

# %% jupyter={"source_hidden": true}
page.caution("moving_parts", "sudden_start", "spark_near_fuel", "high_voltage")

# %% jupyter={"source_hidden": true}
page.bench("spare_wire_cutter")

# %% jupyter={"source_hidden": true}
page.example("wire_alone")

# %% [markdown]
# ## Machine five, alone, without hints
#
# A saw that gets harder to start, winter by winter. Leave the hints alone this time. Look twice where a look is doubtful.

# %% jupyter={"source_hidden": true}
page.bench("six_winters_saw")

# %% jupyter={"source_hidden": true}
page.example("saw_alone")

# %% [markdown]
# ### What is still too simple
#
# The bench knows the chances of its faults, and you will never know them so well. Its table is a teaching estimate (common practice,
# no source). Your own shop sees other machines. Keep your job cards: after a hundred of them, you have a table of your own. The
# maker's manual comes first all the same.

# %% [markdown]
# ## From memory
#
# Five questions that go back to lessons 09, 10, 11 and 12. Put the notes away.

# %% jupyter={"source_hidden": true}
page.question("split_again")

# %% jupyter={"source_hidden": true}
page.question("count_again")

# %% jupyter={"source_hidden": true}
page.question("stale_again")

# %% jupyter={"source_hidden": true}
page.question("hot_again")

# %% jupyter={"source_hidden": true}
page.question("bill_again")

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
# Five questions from memory. Four right, and you are ready for lab 13.

# %% jupyter={"source_hidden": true}
page.exit_check()

# %% [markdown]
# ## Go on
#
# First [lab 13](../labs/lab13/lab13.ipynb). After it comes [lesson 14, Final bench](14_final_bench.ipynb).
# What is done and what is open stands on the [map of the course](00_start_here.ipynb).
