# %% [markdown]
# # 01 Shop units
#
# **What is 12 thou in millimetres, 120 psi in bar, 50:1 in millilitres, and why do gauge and absolute differ?**
#
# After this you can
#
# - turn a spec sheet from one set of units into the other (lab 01, “spec sheet, inch to metric”);
# - say what a gauge leaves out, and add it (lab 01, “gauge to absolute”);
# - measure the oil for a can (lab 01, “oil for the can”);
# - spot the line on a sheet that must be asked back (lab 01, “the unit error in a colleague's sheet”).
#
# You need: Start here. About 35 minutes.
#
# **Choose Run, then Run All Cells, in the menu above.** Then scroll back up here.

# %% jupyter={"source_hidden": true}
from twostroke import lesson

page = lesson.open_lesson("01")
page

# %% [markdown]
# ## A number without its unit
#
# A note on the bench says “gap 12”. One mechanic owns leaves in thousandths of an inch and sets 0.30 mm. The next owns metric
# leaves, reads twelve hundredths, and sets 0.12 mm. The flywheel then rubs on the module.
#
# Nobody made a slip in arithmetic. The unit was missing. In this course every number carries its unit, and the course asks back
# when one is missing.

# %% [markdown]
# ## One leaf, two scales
#
# A [thou](#Words-of-this-lesson) is a thousandth of an inch. A [feeler leaf](#Words-of-this-lesson) is a thin steel strip of known
# thickness; it measures a gap. Many of them in one holder are a [feeler gauge](#Words-of-this-lesson). A [shim](#Words-of-this-lesson) is such a sheet put in to set a gap.
#
# Make your prediction before you see the scales.

# %% jupyter={"source_hidden": true}
page.predict("leaf_guess")

# %% jupyter={"source_hidden": true}
page.figure("leaf")

# %% jupyter={"source_hidden": true}
page.question("thou_is")

# %% [markdown]
# ### Worked example
#
# A maker's sheet (invented) asks for an air gap of 10 to 14 thou. Your leaves are metric.
#
# 1. **Grow or shrink?** A millimetre is larger than a thou, so the number shrinks.
# 2. 10 × 0.0254 mm = 0.254 mm, and 14 × 0.0254 mm = 0.356 mm.
# 3. **Turn back:** 0.254 ÷ 0.0254 = 10. ✓
# 4. **Round** to what leaves can show: 0.25 to 0.36 mm. The [resolution](#Words-of-this-lesson), the smallest step of the set, is
#    0.05 mm, so take the 0.30 mm leaf.

# %% jupyter={"source_hidden": true}
page.example("leaf_faded")

# %% [markdown]
# ### On your own
#
# Now the other way round, without steps.

# %% jupyter={"source_hidden": true}
page.example("leaf_alone")

# %% [markdown]
# ## What a gauge leaves out
#
# Pressure in the shop is written in [psi](#Words-of-this-lesson) or in [bar](#Words-of-this-lesson). 1 bar is 14.5 psi.
#
# You will screw a gauge into the plug hole later and pull the rope. Here we only read gauges. The box below belongs to every
# gauge that holds pressure.

# %% jupyter={"source_hidden": true}
page.caution("pressure", "moving_parts")

# %% jupyter={"source_hidden": true}
page.question("grow_or_shrink")

# %% jupyter={"source_hidden": true}
page.predict("mountain_guess")

# %% jupyter={"source_hidden": true}
page.figure("pressure")

# %% jupyter={"source_hidden": true}
page.question("why_lower")

# %% [markdown]
# ### Gauge and absolute
#
# [Gauge pressure](#Words-of-this-lesson) counts from the air around you. [Absolute pressure](#Words-of-this-lesson) counts from
# nothing at all.
#
# **absolute = gauge + air**
#
# The figure takes the air from the [standard atmosphere](#Words-of-this-lesson), an agreed average day. A barometer tells you
# better, on the day itself.
#
# **Worked example.** A gauge shows 130 psi at 400 m. 130 ÷ 14.5 = 8.97 bar. The standard air at 400 m presses with 0.966 bar. So
# 8.97 + 0.97 = 9.94 bar absolute.

# %% jupyter={"source_hidden": true}
page.example("absolute_faded")

# %% jupyter={"source_hidden": true}
page.example("absolute_alone")

# %% jupyter={"source_hidden": true}
page.example("table_alone")

# %% jupyter={"source_hidden": true}
page.question("gauge_zero")

# %% [markdown]
# ## Oil for a can
#
# A two-stroke engine takes its oil with the fuel. The [mixing ratio](#Words-of-this-lesson) says how many parts of fuel go with
# one part of oil. We measure on paper here. When you mix fuel for real, this box comes first.

# %% jupyter={"source_hidden": true}
page.caution("fuel_vapour", "skin_and_lungs")

# %% jupyter={"source_hidden": true}
page.predict("oil_guess")

# %% jupyter={"source_hidden": true}
page.figure("oil")

# %% jupyter={"source_hidden": true}
page.question("why_small")

# %% [markdown]
# ### Worked example
#
# 3 L of fuel at 25:1. One part of oil goes with 25 parts of fuel.
#
# 1. 3 L are 3 000 mL.
# 2. 3 000 mL ÷ 25 = 120 mL of oil.
# 3. In per cent of the fuel: 1 ÷ 25 = 4 per cent.
#
# Ratios count parts by volume (common practice, no source). The maker's ratio for your machine comes first.

# %% jupyter={"source_hidden": true}
page.example("oil_faded")

# %% jupyter={"source_hidden": true}
page.example("oil_alone")

# %% jupyter={"source_hidden": true}
page.question("where_to_mix")

# %% jupyter={"source_hidden": true}
page.question("smoky")

# %% [markdown]
# ## Degrees and turning force
#
# Copper changes its resistance with heat, so a reading needs its temperature, and the temperature its letter. Take 32 off the °F,
# then divide by 1.8. 68 °F is 36 ÷ 1.8 = 20 °C.
#
# The force on a screw comes in in·lb, ft·lb or N·m. One pound of force is 4.45 N, and one inch is 0.0254 m.

# %% jupyter={"source_hidden": true}
page.example("degrees_alone")

# %% jupyter={"source_hidden": true}
page.question("torque")

# %% [markdown]
# ## From memory
#
# Two more, and an order of work. Put your notes away first: what you fetch from memory stays there.

# %% jupyter={"source_hidden": true}
page.question("sheet_error")

# %% jupyter={"source_hidden": true}
page.question("handed_in")

# %% jupyter={"source_hidden": true}
page.order("convert_order")

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
# Five questions from memory. Four right, and you are ready for lab 01.

# %% jupyter={"source_hidden": true}
page.exit_check()

# %% [markdown]
# ## Go on
#
# First [lab 01](../labs/lab01/lab01.ipynb). After it comes [lesson 02, The two-stroke cycle](02_two_stroke_cycle.ipynb).
# What is done and what is open stands on the [map of the course](00_start_here.ipynb).
