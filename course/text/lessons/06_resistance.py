# %% [markdown]
# # 06 Resistance
#
# **Is this winding good, open, shorted, or just cold?**
#
# After this you can
#
# - make a machine safe before you measure its windings (lab 07, “before the probes touch the module”);
# - take leads and temperature out of a reading (lab 07, “leads off, and to 20 °C”);
# - judge a reading with the meter's own accuracy (lab 07, “in, out or undecided”);
# - tell an open from a short, and say what an ohmmeter cannot show (lab 07, “open, shorted to the core, partly shorted”).
#
# You need: lessons 01 and 03, and a pocket calculator with a root. About 30 minutes.
#
# **Choose Run, then Run All Cells, in the menu above.** Then scroll back up here.

# %% jupyter={"source_hidden": true}
from twostroke import lesson

page = lesson.open_lesson("06")
page

# %% [markdown]
# ## A first model: the display is the winding
#
# An [ohmmeter](#Words-of-this-lesson) sends a small current through a part. It shows how hard that was, in ohms.
#
# A module has two windings. The primary is short and thick, often about one ohm. The secondary is long and thin, some thousand
# ohms. (Usual sizes: common practice, no source. The maker's manual has yours.)
#
# First model: what the display shows is the winding. In the band it is good, outside it is bad.
#
# That model is wrong in four ways. We mend them one by one.

# %% [markdown]
# ## Before the probes touch it
#
# A magnet that passes puts high voltage on the winding and on the [probes](#Words-of-this-lesson). An ohmmeter is not made for
# that, and neither are fingers.
#
# So nothing turns while the probes are on.

# %% jupyter={"source_hidden": true}
page.caution("sudden_start", "high_voltage", "hot_surface")

# %% jupyter={"source_hidden": true}
page.order("measure_order")

# %% [markdown]
# ## The leads are in it too
#
# Hold the two probes together. The display does not show nought. It shows the [lead offset](#Words-of-this-lesson): both leads
# and their plugs, often 0.1 to 0.5 Ω (common practice, no source).
#
# On a secondary of 2 600 Ω that is nothing. On a primary of 0.9 Ω it is a third.
#
# So note the offset, and take it off. Once: held together, the probes show both leads already.

# %% [markdown]
# ## The heat is in it too
#
# Copper gains about 4 per cent for each ten degrees. To be exact, 0.00393 of its value at 20 °C for each degree (IEC 60028, from
# memory).
#
# So a winding straight off the job reads high, and the band is mostly for 20 °C. Commit to a number, then look.

# %% jupyter={"source_hidden": true}
page.predict("display_guess")

# %% jupyter={"source_hidden": true}
page.figure("warm")

# %% jupyter={"source_hidden": true}
page.question("why_more")

# %% [markdown]
# ### The sum by hand
#
# **Worked example.** Display 1.36 Ω. Probes together 0.25 Ω. Winding at 80 °C.
#
# 1. Leads off: 1.36 − 0.25 = 1.11 Ω.
# 2. Degrees above 20: 80 − 20 = 60.
# 3. Factor: 1 + 60 × 0.00393 = 1.236.
# 4. At 20 °C: 1.11 ÷ 1.236 = 0.90 Ω.
#
# Demo band 0.80 to 1.00 Ω: good. As shown, 1.36 Ω, it would have been thrown away.
#
# Below 20 °C the factor is less than one. A cold winding reads low.

# %% jupyter={"source_hidden": true}
page.example("to_20_faded")

# %% jupyter={"source_hidden": true}
page.example("warm_alone")

# %% [markdown]
# ## The meter has its own doubt
#
# A meter comes with an [accuracy figure](#Words-of-this-lesson), such as ±(0.8 % + 3 digits). That means: off by at most 0.8 % of
# the reading, and by three steps of the last digit.
#
# It is a limit. Divided by √3 it is a standard uncertainty. 1.645 of those make the [guard band](#Words-of-this-lesson) (JCGM
# 106:2012).
#
# If the reading is nearer to a limit than the guard band, the meter cannot say.

# %% jupyter={"source_hidden": true}
page.question("near_limit")

# %% jupyter={"source_hidden": true}
page.example("judge_faded")

# %% jupyter={"source_hidden": true}
page.question("far_out")

# %% [markdown]
# ## What it finds
#
# Three faults show on an ohmmeter:
#
# - [Open](#Words-of-this-lesson): the wire is broken. The display stays [over range](#Words-of-this-lesson).
# - [Short to the core](#Words-of-this-lesson): the wire touches the iron. A reading from secondary to core where there should be
#   none. (Some modules tie one end to the core on purpose. Look into the manual.)
# - A large [partial short](#Words-of-this-lesson): turns touch each other. The ohms fall below the band.

# %% jupyter={"source_hidden": true}
page.example("four_faded")

# %% [markdown]
# ## What it does not find
#
# The fourth repair of our model is the largest. Say that one turn in a hundred is bridged. The ohms fall by one per cent: no
# meter on the bench can tell that from a good winding.
#
# And the spark? Commit, then look.

# %% jupyter={"source_hidden": true}
page.predict("short_guess")

# %% jupyter={"source_hidden": true}
page.figure("short")

# %% jupyter={"source_hidden": true}
page.question("why_short")

# %% [markdown]
# ### So what is the reading worth?
#
# Out of band, well past the guard band: the winding is bad. Clean the ends, read again, and believe it.
#
# In band: no open, no dead short. More it does not say. The module is proven by its spark, on a tester set as the maker says, at
# full pull.
#
# Our model has one weak place: nobody has measured how tightly the shorted turns couple. So trust the order of the effect, not
# its digits.

# %% [markdown]
# ### One path only
#
# On the engine, the stop lead, a thin wire to the stop switch, hangs on the primary. Switch and wire are then a second path beside it. Two paths side by
# side always read less than the smaller one.
#
# So take the stop lead off the module before you measure, and put it back after. The switch does not stop the engine
# while it is off.

# %% jupyter={"source_hidden": true}
page.caution("sudden_start")

# %% jupyter={"source_hidden": true}
page.question("stop_lead_on")

# %% [markdown]
# ## From memory
#
# Three questions that go back to lessons 01, 03 and 05. Put the notes away.

# %% jupyter={"source_hidden": true}
page.question("fahrenheit_again")

# %% jupyter={"source_hidden": true}
page.question("speed_again")

# %% jupyter={"source_hidden": true}
page.question("stack_again")

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
# Five questions from memory. Four right, and you are ready for lesson 07. Lab 07 closes both.

# %% jupyter={"source_hidden": true}
page.exit_check()

# %% [markdown]
# ## Go on
#
# Next comes [lesson 07, Stop circuit, ground and lead](07_stop_circuit.ipynb).
# What is done and what is open stands on the [map of the course](00_start_here.ipynb).
