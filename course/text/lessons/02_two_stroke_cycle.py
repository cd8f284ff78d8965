# %% [markdown]
# # 02 The two-stroke cycle
#
# **Where are the ports, the piston and the pressure at each degree of crank?**
#
# After this you can
#
# - work out displacement, geometric and trapped ratio (lab 02, “displacement” and “geometric and trapped ratio”);
# - say how deep the piston is at an angle, and at which angle for a depth (lab 02, “piston depth” and “advance”);
# - turn port heights into timing (lab 02, “port timing”);
# - measure through the plug hole in a safe order (lab 02, “measuring through the plug hole”).
#
# You need: lesson 01, and a pocket calculator with a cosine. About 35 minutes.
#
# **Choose Run, then Run All Cells, in the menu above.** Then scroll back up here.

# %% jupyter={"source_hidden": true}
from twostroke import lesson

page = lesson.open_lesson("02")
page

# %% [markdown]
# ## A pump with holes in its wall
#
# Begin with the simplest model: a [piston](#Words-of-this-lesson) in a plain tube. Up, it squeezes. Down, it draws.
#
# A [two-stroke](#Words-of-this-lesson) is not far from that. It has no valves. Holes in the cylinder wall, the
# [ports](#Words-of-this-lesson), let gas in and out. The piston itself opens and shuts them as it slides past.
#
# So all that you need to know is where the piston is. We repair the plain tube one piece at a time: first its size, then the
# piston's place, then the holes.

# %% [markdown]
# ## How much it sweeps
#
# [Displacement](#Words-of-this-lesson) is the volume between top and bottom. The [bore](#Words-of-this-lesson) is the width of the
# cylinder. The [stroke](#Words-of-this-lesson) is how far the piston goes.
#
# **Worked example.** Demo engine A (invented): bore 34 mm, stroke 28 mm.
#
# 1. In centimetres: 3.4 cm and 2.8 cm.
# 2. Area of the piston: π ÷ 4 is 0.785. 0.785 × 3.4 × 3.4 = 9.08 cm².
# 3. Times the stroke: 9.08 × 2.8 = 25.4 cm³.
#
# The bore is a diameter. Some learn the circle as π × radius². Then halve the bore first.

# %% jupyter={"source_hidden": true}
page.example("swept_faded")

# %% [markdown]
# ## How deep at which angle
#
# The [rod](#Words-of-this-lesson) joins the piston to the [crank](#Words-of-this-lesson). A [degree wheel](#Words-of-this-lesson) on the
# crank counts angles. At [top dead centre](#Words-of-this-lesson), “top” for short, it shows 0.
# Half a turn later, at [bottom dead centre](#Words-of-this-lesson), it shows 180.
#
# The plain guess is: a quarter of a turn, half the stroke. Commit your prediction, then look.

# %% jupyter={"source_hidden": true}
page.predict("half_way_guess")

# %% jupyter={"source_hidden": true}
page.figure("depth")

# %% jupyter={"source_hidden": true}
page.question("why_deeper")

# %% jupyter={"source_hidden": true}
page.question("first_degrees")

# %% [markdown]
# ### What the curve is good for
#
# Makers give the spark as millimetres before top, or as degrees. Only the curve, or its formula, turns one into the other.
#
# Draw the triangle: the [throw](#Words-of-this-lesson) of the crank (half the stroke), the rod, and the line s from the crank to the
# pin. At the top, s is throw plus rod. Further down it is shorter, by the depth.
#
# The rule for any triangle (law of cosines) gives the angle.

# %% jupyter={"source_hidden": true}
page.example("advance_alone")

# %% jupyter={"source_hidden": true}
page.example("depth_alone")

# %% [markdown]
# ## Now the holes
#
# Three kinds of ports:
#
# - the [exhaust port](#Words-of-this-lesson), highest, lets burnt gas out;
# - the [transfer ports](#Words-of-this-lesson), a little lower, bring fresh [charge](#Words-of-this-lesson) up from below;
# - the [intake](#Words-of-this-lesson) lets fresh charge into the crankcase. Here the lower edge of the piston opens it. Some engines
#   have a flap (a [reed valve](#Words-of-this-lesson)) or a disc for that instead.
#
# The [crankcase](#Words-of-this-lesson) below is a pump too. The piston's way down squeezes it.

# %% jupyter={"source_hidden": true}
page.predict("squeeze_guess")

# %% jupyter={"source_hidden": true}
page.figure("round")

# %% jupyter={"source_hidden": true}
page.question("why_late")

# %% [markdown]
# ### Follow one charge
#
# Set the slider to these places and find each in the figure:
#
# 1. **294°**, piston rising: the crankcase has been drawn thin, to 0.84 bar. One degree on, the intake opens, and air rushes in.
# 2. **116°**, piston falling: the crankcase is squeezed to 1.22 bar.
# 3. **117°**: the transfer opens, and the charge goes up.
# 4. **258°**, rising: the exhaust shuts. From here the charge is trapped.
# 5. **333°**: 27 degrees before top, near 6 bar absolute. About here the spark comes.
#
# In a fired engine burnt gas would push down after that. Our engine is only turned.

# %% jupyter={"source_hidden": true}
page.question("below_pumps")

# %% jupyter={"source_hidden": true}
page.question("one_turn")

# %% [markdown]
# ### What is still too simple
#
# The model lets an open port level the pressure at once. A real port takes time, and the pipe swings. It has no leak; lesson 08
# brings that in. It squeezes with the exponent 1.25 (common practice, no source).
#
# The angles are not a model. They are geometry, and hold for every engine whose sizes you measured. The maker's manual gives them
# for yours.

# %% [markdown]
# ## Two ratios
#
# The [clearance volume](#Words-of-this-lesson) is what is left above the piston at the top.
#
# The [geometric ratio](#Words-of-this-lesson) takes the whole stroke: swept plus clearance, over clearance. It looks good on a sheet.
#
# The [trapped ratio](#Words-of-this-lesson) takes only what is shut in. That is what squeezes, and what a gauge feels.

# %% jupyter={"source_hidden": true}
page.example("ratio_faded")

# %% [markdown]
# ## Heights into angles
#
# Port heights can be measured through the plug hole with a [depth gauge](#Words-of-this-lesson). Two rules:
#
# 1. The crank is turned by hand, slowly, with the boot tied away.
# 2. Zero is the top. Every depth counts from there, down to the roof of the port.
#
# The port opens on the way down and shuts at the same angle on the way up. In between it is open.

# %% jupyter={"source_hidden": true}
page.caution("sudden_start", "moving_parts", "fuel_vapour")

# %% jupyter={"source_hidden": true}
page.example("ports_faded")

# %% jupyter={"source_hidden": true}
page.order("measure_order")

# %% [markdown]
# ## From memory
#
# Two questions that go back to lesson 01. Put the notes away.

# %% jupyter={"source_hidden": true}
page.question("absolute_again")

# %% jupyter={"source_hidden": true}
page.question("thou_again")

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
# Five questions from memory. Four right, and you are ready for lab 02.

# %% jupyter={"source_hidden": true}
page.exit_check()

# %% [markdown]
# ## Go on
#
# First [lab 02](../labs/lab02/lab02.ipynb). After it comes [lesson 03, From magnet to spark](03_magnet_to_spark.ipynb).
# What is done and what is open stands on the [map of the course](00_start_here.ipynb).
