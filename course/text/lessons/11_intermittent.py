# %% [markdown]
# # 11 Intermittent and heat-dependent faults
#
# **How do I catch a fault that is not there when I look?**
#
# After this you can
#
# - plan a test in which the fault shows (lab 11, “make it fail”);
# - warm and test a module safely (lab 11, “a heat test, in order”);
# - read a log of flashes (lab 11, “a log of flashes”);
# - compare hot and cold readings (lab 11, “hot and cold readings”);
# - say how many clean starts are enough (lab 11, “how many clean starts?” and “what is left of the doubt?”).
#
# You need: lessons 06 and 10, and a calculator. About 35 minutes.
#
# **Choose Run, then Run All Cells, in the menu above.** Then scroll back up here.

# %% jupyter={"source_hidden": true}
from twostroke import lesson

page = lesson.open_lesson("11")
page

# %% [markdown]
# ## A first model: it runs, so nothing is wrong
#
# The owner says that it dies. You pull, and it runs. “No fault found”, and out it goes. Next week it is back.
#
# Such a fault is called [intermittent](#Words-of-this-lesson). It has a condition, and you have not met it yet.

# %% [markdown]
# ## What is the same each time?
#
# Ask for the last three times. Then bring about what was the same. That is called to [provoke](#Words-of-this-lesson) the fault.
#
# - **Hot:** run it, and test in the minutes after it died.
# - **Shaken:** move lead, boot and stop lead while it is pulled.
# - **Damp:** mist lead and boot, in the dark.
# - **Some can start it, some cannot:** a slow pull, then a fast one.
#
# While it fails, watch the one reading that tells two suspects apart.

# %% jupyter={"source_hidden": true}
page.caution("moving_parts", "high_voltage", "spark_near_fuel", "hot_surface")

# %% jupyter={"source_hidden": true}
page.question("what_same")

# %% [markdown]
# ## Hot, and then not
#
# Say a joint inside the module opens when it gets hot. While the engine runs, its fan cools the module. When it stops, the fan
# stops too, and the cylinder's heat creeps in. That is [heat soak](#Words-of-this-lesson).
#
# Have the tester ready before you begin: hot parts are near. Commit, then look.

# %% jupyter={"source_hidden": true}
page.caution("hot_surface", "moving_parts", "skin_and_lungs")

# %% jupyter={"source_hidden": true}
page.predict("soak_guess")

# %% jupyter={"source_hidden": true}
page.figure("soak")

# %% jupyter={"source_hidden": true}
page.question("why_soak")

# %% jupyter={"source_hidden": true}
page.question("why_window")

# %% [markdown]
# ### What is still too simple
#
# Our joint opens at one sharp heat. A real one is in doubt over a range, and some days it holds. The minutes are invented too:
# a large engine in the sun stays hot for longer. But a sound module also loses some voltage with heat. Compare it with
# itself, cold.

# %% [markdown]
# ## Bring the heat to it
#
# Minutes on a hot engine are few, and fuel is near. So the heat can be brought to the module, off the machine.
#
# Warm air, never a flame. Tank drained and carried away. Not hotter than the maker's manual allows.

# %% jupyter={"source_hidden": true}
page.caution("fuel_vapour", "hot_surface", "high_voltage", "sudden_start")

# %% jupyter={"source_hidden": true}
page.order("heat_order")

# %% [markdown]
# ## Keep a log
#
# One pull proves little, so count. **Worked example.** 20 pulls at each heat; dark: 0 at 20 °C, 2 at 40, 5 at 60, 11 at 80,
# 16 at 100 °C.
#
# 1. Hottest row: 16 ÷ 20 = 80 per cent stay dark.
# 2. Half of 20 is 10. That lies between 60 °C (5) and 80 °C (11).
# 3. Part of the way: (10 − 5) ÷ (11 − 5) = 0.83.
# 4. 60 + 0.83 × 20 = 77 °C.

# %% jupyter={"source_hidden": true}
page.example("log_faded")

# %% [markdown]
# ### Hot against cold
#
# Copper alone gains about 4 per cent for each ten degrees (IEC 60028, from memory). So a hot reading is first brought to 20 °C.
#
# What is still too much then speaks for a joint that opens. Too little speaks for turns that touch. Both are suspects only:
# ohms do not make a spark.

# %% jupyter={"source_hidden": true}
page.example("copper_faded")

# %% [markdown]
# ## How many clean starts?
#
# It was mended, and it starts. It did that before, too, some of the time. How often must it start before “gone” is an honest
# word? Commit, then look.

# %% jupyter={"source_hidden": true}
page.predict("clean_guess")

# %% jupyter={"source_hidden": true}
page.figure("clean")

# %% jupyter={"source_hidden": true}
page.question("why_clean")

# %% [markdown]
# ### What is left of the doubt
#
# How sure were you before? A joint that you saw open and soldered leaves little doubt. A plug-in connector that you pushed home
# leaves much. The [clean starts](#Words-of-this-lesson) move that doubt, as readings did in lesson 10: count machines.

# %% jupyter={"source_hidden": true}
page.example("doubt_faded")

# %% jupyter={"source_hidden": true}
page.example("clean_alone")

# %% [markdown]
# ## What proves it?
#
# Three things. It failed in this condition before. One thing was changed. Now it does not fail in the same condition, often
# enough.
#
# Less than 5 in 100 that it hides is often taken for enough (common practice, no source). Each
# [clean start](#Words-of-this-lesson) counts only in the bad condition. Twenty cold ones say nothing about hot.

# %% jupyter={"source_hidden": true}
page.caution("hot_surface", "moving_parts")

# %% jupyter={"source_hidden": true}
page.question("two_at_once")

# %% [markdown]
# ## From memory
#
# Five questions that go back to lessons 05, 06, 08 and 10. Put the notes away.

# %% jupyter={"source_hidden": true}
page.question("split_again")

# %% jupyter={"source_hidden": true}
page.question("count_again")

# %% jupyter={"source_hidden": true}
page.question("wet_leak_again")

# %% jupyter={"source_hidden": true}
page.question("key_strength_again")

# %% jupyter={"source_hidden": true}
page.question("hot_band_again")

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
# Five questions from memory. Four right, and you are ready for lab 11.

# %% jupyter={"source_hidden": true}
page.exit_check()

# %% [markdown]
# ## Go on
#
# First [lab 11](../labs/lab11/lab11.ipynb). After it comes [lesson 12, Repair, verify, write up, pass on](12_repair_verify.ipynb).
# What is done and what is open stands on the [map of the course](00_start_here.ipynb).
