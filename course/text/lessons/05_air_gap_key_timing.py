# %% [markdown]
# # 05 Air gap, key and timing
#
# **What does 0.1 mm more between magnet and module do, how do I set it with a shim, and what does a sheared key change?**
#
# After this you can
#
# - say what a wide gap does to starting (lab 05, “starting speed”);
# - choose a shim stack, read both legs and the run-out (lab 05, “shim stack” and “both legs”);
# - turn a step at the key into degrees (lab 05, “a sheared key”);
# - set a gap safely and in order (lab 05, “setting the gap”).
#
# You need: lessons 03 and 04. About 35 minutes.
#
# **Choose Run, then Run All Cells, in the menu above.** Then scroll back up here.

# %% jupyter={"source_hidden": true}
from twostroke import lesson

page = lesson.open_lesson("05")
page

# %% [markdown]
# ## The gap that everybody blames
#
# The [air gap](#Words-of-this-lesson) is the space between the flywheel's magnet and the legs of the module.
# Both lie under the [starter cover](#Words-of-this-lesson).
#
# Two plain models go round in the shop. One: the gap must be right to the hundredth, or it is dead. The other: it does not matter as
# long as nothing rubs.
#
# Both are too simple. We measure.

# %% [markdown]
# ## What a tenth of a millimetre does
#
# The flux goes round: magnet, gap, leg, core, leg, gap, magnet. Each piece resists. The gap is one piece of many.
#
# A wider gap lets less flux through. Less flux, less current, so it takes more speed. Predict how much.

# %% jupyter={"source_hidden": true}
page.predict("wide_guess")

# %% jupyter={"source_hidden": true}
page.figure("shim")

# %% jupyter={"source_hidden": true}
page.question("why_mild")

# %% [markdown]
# ### In numbers
#
# The demo module (invented), with a plug that asks for 10 kV:
#
# | gap | sparks from |
# |---|---|
# | 0.20 mm | 488 rpm |
# | 0.30 mm | 568 rpm |
# | 0.50 mm | 694 rpm |
# | 1.00 mm | 929 rpm |
#
# So 0.1 mm more costs some 60 to 80 rpm. A usual pull of 800 rpm hides that. A weak arm, a weak magnet or a hot winding does not.
#
# The usual band is 0.20 to 0.35 mm (common practice, no source). The maker's manual comes first.

# %% jupyter={"source_hidden": true}
page.question("whose_band")

# %% jupyter={"source_hidden": true}
page.question("widest_safest")

# %% [markdown]
# ## A stack of shims
#
# A [shim](#Words-of-this-lesson) sets the gap. If none has the right size, [stack](#Words-of-this-lesson) two leaves.
#
# **Worked example.** The sheet (invented) says 0.20 to 0.30 mm. You have 0.10 and 0.15 mm leaves, each good to ±0.005 mm.
#
# 1. 0.10 + 0.15 = 0.25 mm, the middle of the band.
# 2. At worst both are off the same way: ±0.010 mm. Still inside.
# 3. In thou: 0.25 ÷ 0.0254 = 9.8 thou.

# %% jupyter={"source_hidden": true}
page.example("shims_faded")

# %% [markdown]
# ### On your own
#
# Back to the table of gaps and speeds, without steps.

# %% jupyter={"source_hidden": true}
page.example("speed_alone")

# %% [markdown]
# ## Both legs, all round
#
# The module can stand [askew](#Words-of-this-lesson): near at one leg, wide at the other. And the flywheel can
# [run out](#Words-of-this-lesson): its rim is not quite round, or not quite central.
#
# A [dial indicator](#Words-of-this-lesson) on the rim shows run-out. Turn the flywheel by hand, one whole turn, slowly. First the boot comes
# off the plug.

# %% jupyter={"source_hidden": true}
page.caution("sudden_start", "moving_parts", "hot_surface")

# %% jupyter={"source_hidden": true}
page.example("legs_faded")

# %% [markdown]
# ## Setting it, in order
#
# The magnet pulls. Loosen the module, and it jumps to the rim. The shim keeps them apart while you tighten.
#
# Only then does the shim come out. And then you measure again, because a tightened screw drags the module along.

# %% jupyter={"source_hidden": true}
page.caution("sudden_start", "moving_parts")

# %% jupyter={"source_hidden": true}
page.question("at_rest")

# %% jupyter={"source_hidden": true}
page.order("set_order")

# %% jupyter={"source_hidden": true}
page.question("after_tight")

# %% [markdown]
# ## The key
#
# What places the magnet on the crank? A small piece of soft metal in two slots, the [key](#Words-of-this-lesson). When the blade hits a
# stone, the key can [shear](#Words-of-this-lesson). The flywheel then slips a little on the shaft.
#
# The magnet passes the module as before. But where is the piston at that moment?

# %% jupyter={"source_hidden": true}
page.predict("key_guess")

# %% jupyter={"source_hidden": true}
page.figure("key")

# %% jupyter={"source_hidden": true}
page.question("why_strong")

# %% [markdown]
# ### From a step to degrees
#
# The step is an arc on the shaft. Arc over radius, times 57.3, is the angle in degrees.
#
# [Timing](#Words-of-this-lesson) is when the spark comes, in degrees before top. Behind means late: nearer to the top. Ahead means
# early: the piston is thrown back, and the rope kicks.
#
# A puller takes the flywheel off. Use the maker's, and tighten the nut as hard as the maker says.

# %% jupyter={"source_hidden": true}
page.caution("sudden_start", "moving_parts", "high_voltage")

# %% jupyter={"source_hidden": true}
page.example("key_faded")

# %% jupyter={"source_hidden": true}
page.question("which_way")

# %% jupyter={"source_hidden": true}
page.question("strong_but_dead")

# %% jupyter={"source_hidden": true}
page.example("depth_alone")

# %% [markdown]
# ### What is still too simple
#
# The trend with the gap is good to some 3 per cent against a finite-element solver. The speeds themselves are those of an invented
# module. On a real machine only trust the direction: wider asks for faster.
#
# Some modules change the timing with speed. There the key still shifts all of it.

# %% [markdown]
# ## From memory
#
# Three questions that go back: lessons 04, 03 and 02. Put the notes away. The first is about what you do when you test for spark.

# %% jupyter={"source_hidden": true}
page.caution("spark_near_fuel", "high_voltage")

# %% jupyter={"source_hidden": true}
page.question("tester_again")

# %% jupyter={"source_hidden": true}
page.question("speed_again")

# %% jupyter={"source_hidden": true}
page.question("depth_again")

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
# Five questions from memory. Four right, and you are ready for lab 05.

# %% jupyter={"source_hidden": true}
page.exit_check()

# %% [markdown]
# ## Go on
#
# First [lab 05](../labs/lab05/lab05.ipynb). After it comes [lesson 06, Resistance](06_resistance.ipynb).
# What is done and what is open stands on the [map of the course](00_start_here.ipynb).
