# %% [markdown]
# # 09 Fuel, air and exhaust
#
# **Wet plug, dry plug, flooded, starved, choked by its own exhaust: what does each prove?**
#
# After this you can
#
# - read a plug together with a tester (lab 09, “four plugs”);
# - clear a flooded engine safely (lab 09, “clearing a flooded engine, in order”);
# - change the ratio of an old can (lab 09, “a can mixed for another machine”);
# - say what storage takes from fuel (lab 09, “old fuel on a cold morning”);
# - tell a blocked screen from a wrong mixture (lab 09, task 4, “blocked screen or wrong mixture?”).
#
# You need: lessons 01, 04 and a calculator. About 35 minutes.
#
# **Choose Run, then Run All Cells, in the menu above.** Then scroll back up here.

# %% jupyter={"source_hidden": true}
from twostroke import lesson

page = lesson.open_lesson("09")
page

# %% [markdown]
# ## A first model: wet is too much, dry is too little
#
# It sounds right. The plug sits where the fuel must burn. Wet means too much of it, dry means too little, so turn the screw.
#
# We shall see how often that is true, and what one more minute with a tester makes of it.
#
# This lesson works with open fuel. Out of doors, can shut, nothing hot near.

# %% jupyter={"source_hidden": true}
page.caution("fuel_vapour", "skin_and_lungs", "spark_near_fuel", "high_voltage")

# %% [markdown]
# ## The plug is a witness
#
# An engine fires when three things meet: spark, fuel and air, and squeezed. A plug shows what was left over when they did not.
#
# The course has a table of faults, all chances invented. So we can count: of 1 000 machines that do not start, and whose plug
# looks like this, where was the fault? Commit, then look.

# %% jupyter={"source_hidden": true}
page.predict("plug_guess")

# %% jupyter={"source_hidden": true}
page.figure("plug")

# %% jupyter={"source_hidden": true}
page.question("why_wet")

# %% [markdown]
# ### What the faces say
#
# - **Light brown, dry:** it has burnt well.
# - **Dry and clean:** no fuel comes. The engine is [starved](#Words-of-this-lesson).
# - **Wet with fuel:** fuel comes, and does not burn. No spark, or [flooded](#Words-of-this-lesson).
# - **Black dry soot:** too [rich](#Words-of-this-lesson), or air or exhaust blocked.
# - **Black and greasy:** too much oil, or the wrong one.
# - **Chalky white, blisters:** too hot. Too [lean](#Words-of-this-lesson), or false air.
#
# (Common practice, no source. The maker's manual may show pictures.)

# %% jupyter={"source_hidden": true}
page.question("new_wet")

# %% jupyter={"source_hidden": true}
page.question("white_plug")

# %% [markdown]
# ## Pull by pull
#
# Only vapour burns. In a cold engine little of the fuel turns to vapour. So a [choke](#Words-of-this-lesson) is closed to draw
# in more, and what stays liquid lies about in the engine.
#
# Here is a sound engine that gets no spark: say, the switch was left at stop. Commit, then look.

# %% jupyter={"source_hidden": true}
page.predict("pulls_guess")

# %% jupyter={"source_hidden": true}
page.figure("pulls")

# %% jupyter={"source_hidden": true}
page.question("why_choke")

# %% jupyter={"source_hidden": true}
page.question("why_stale")

# %% [markdown]
# ### What is still too simple
#
# The figure's engine has invented figures, and its plug is wet at one sharp line. A real one depends on the day, the pull and
# the oil. Keep the order of things: cold without choke is too lean, warm with choke too rich, and every pull without fire
# leaves fuel lying.

# %% [markdown]
# ## Flooded: clear it
#
# Nothing is broken. There is only too much fuel where air should be. So let it out, let air in, and wait.
#
# With the plug out, each pull pumps fuel mist from the hole. A spark there lights it. That is why the lead comes first.
#
# Start it at least 3 m from where fuel was handled (29 CFR 1910.266, from memory).

# %% jupyter={"source_hidden": true}
page.caution("fuel_vapour", "spark_near_fuel", "moving_parts", "pressure")

# %% jupyter={"source_hidden": true}
page.order("clear_order")

# %% [markdown]
# ## Starved: from the tank on
#
# Dry plug, good spark. Now follow the fuel, cheap places first: the tank and its
# [tank vent](#Words-of-this-lesson),
# [fuel filter](#Words-of-this-lesson), [fuel line](#Words-of-this-lesson), and last the carburettor.
#
# A small dose of fuel by hand tells whether fuel is lacking at all: it fires and dies. Cap on, drops wiped, and then the pull.
#
# Never open the cap of a hot running engine. Stop, let it cool for 20 minutes, hold it upright, open slowly. (Times: common
# practice, no source.)

# %% jupyter={"source_hidden": true}
page.caution("fuel_vapour", "hot_surface", "moving_parts", "sudden_start")

# %% [markdown]
# In the carburettor a [diaphragm](#Words-of-this-lesson) moves the [inlet needle](#Words-of-this-lesson). It opens at its
# [pop-off pressure](#Words-of-this-lesson). Some have a [primer](#Words-of-this-lesson) to fill them, and
# [mixture screws](#Words-of-this-lesson). They come last, as the rest is quicker to look at.

# %% jupyter={"source_hidden": true}
page.question("starved_next")

# %% [markdown]
# ## An old can
#
# **Worked example.** 2.10 L of mixture at 20:1. The machine wants 40:1.
#
# 1. The mixture has 21 parts, so the oil is 2 100 ÷ 21 = 100 mL.
# 2. Fuel in it: 2 100 − 100 = 2 000 mL.
# 3. 100 mL of oil at 40:1 want 4 000 mL of fuel.
# 4. Pour in 4 000 − 2 000 = 2 000 mL of plain fuel.
#
# Turn it round as a check: 4 000 to 100 is 40 to 1.

# %% jupyter={"source_hidden": true}
page.example("mix_faded")

# %% [markdown]
# ## What a year takes from fuel
#
# Petrol is a mix of light and heavy parts. How eager a liquid is to turn to vapour is its
# [vapour pressure](#Words-of-this-lesson).
#
# | | light part | what is left |
# |---|---|---|
# | 0 °C | 24.5 kPa | 1.52 kPa |
# | 10 °C | 37.8 kPa | 2.75 kPa |
# | 20 °C | 56.6 kPa | 4.72 kPa |
#
# (Pentane and heptane stand for them, computed by the CoolProp library.) The light part leaves the can first, and it is what a
# cold start lives on. Many makers want mixture no older than a month or so (common practice, no source).

# %% jupyter={"source_hidden": true}
page.example("vapour_faded")

# %% [markdown]
# ## Air in, gas out
#
# A blocked air filter acts like a choke that is never opened: rich and black. A blocked
# [spark-arrester screen](#Words-of-this-lesson) keeps burnt gas in. It starts, and has no power.
#
# ### One thing at a time
#
# Change one thing, measure, put it back. Then change the next. Each change is held against the run as found.
#
# The muffler burns skin, so cool first. Run outdoors. And the screen goes back in: it keeps sparks out of dry grass.

# %% jupyter={"source_hidden": true}
page.caution("hot_surface", "moving_parts", "skin_and_lungs")

# %% jupyter={"source_hidden": true}
page.example("screen_alone")

# %% [markdown]
# ## From memory
#
# Five questions that go back to lessons 01, 02 and 08. Put the notes away.

# %% jupyter={"source_hidden": true}
page.question("spill_oil")

# %% jupyter={"source_hidden": true}
page.question("gallon_again")

# %% jupyter={"source_hidden": true}
page.question("port_again")

# %% jupyter={"source_hidden": true}
page.question("blowdown_again")

# %% jupyter={"source_hidden": true}
page.question("hill_again")

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
# Five questions from memory. Four right, and you are ready for lab 09.

# %% jupyter={"source_hidden": true}
page.exit_check()

# %% [markdown]
# ## Go on
#
# First [lab 09](../labs/lab09/lab09.ipynb). After it comes [lesson 10, Complaint and fault-isolation logic](10_isolation_logic.ipynb).
# What is done and what is open stands on the [map of the course](00_start_here.ipynb).
