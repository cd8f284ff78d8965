# %% [markdown]
# # 15 Your own machine
#
# **The same tools on real readings: what to test next, and a job card out.**
#
# After this you can
#
# - turn real readings into the next test (the task “On your bench” below);
# - hold a reading against your own manual, on your own hill (exit check, question 1);
# - put a real job in a safe order (the task “Order of work”);
# - go on learning when the course is over (exit check, question 5).
#
# You need: lesson 13. A real machine with its manual, or your readings from one. About 40 minutes.
#
# **Choose Run, then Run All Cells, in the menu above.** Then scroll back up here.

# %% jupyter={"source_hidden": true}
from twostroke import lesson

page = lesson.open_lesson("15")
page

# %% [markdown]
# ## A first model: the course knows my machine
#
# You have worked on invented machines for fifteen lessons. So now you type your readings in, and the course says what is wrong.
#
# It cannot. It has never seen your machine. It can count what your readings leave possible, and say which test is worth its
# minutes. You bring the hands, the manual and the judgement.

# %% [markdown]
# ## Real hands
#
# The virtual bench forgives. This one does not: real fuel, a real blade, and real high tension.
#
# Work outdoors. Let it cool. Attachment off or guarded. Boot off the plug and tied away, until a test needs it. The maker's manual,
# local rules and [licensed practice](#Words-of-this-lesson) come before anything said here.

# %% jupyter={"source_hidden": true}
page.caution("fuel_vapour", "spark_near_fuel", "high_voltage")

# %% jupyter={"source_hidden": true}
page.caution("moving_parts", "sudden_start", "hot_surface", "pressure")

# %% jupyter={"source_hidden": true}
page.order("own_order")

# %% [markdown]
# ## Manual first
#
# Write the bands down before you measure: plug gap, air gap, windings, compression, mixture screws. Without them, a number can be
# read and not judged.
#
# No manual at hand? Then leave the band empty. The course does not fill it with a usual figure, and you should not either.
#
# **Worked example.** The manual says 0.3 to 0.5 mm. Your leaf that just drags says 35 thou.
#
# 1. 35 × 0.0254 = 0.89 mm.
# 2. The band ends at 0.5 mm. The doubt of the leaves is 0.01 mm.
# 3. Far outside: wide.

# %% jupyter={"source_hidden": true}
page.question("manual_first")

# %% jupyter={"source_hidden": true}
page.example("own_gap_faded")

# %% jupyter={"source_hidden": true}
page.example("own_hill_alone")

# %% [markdown]
# ## What next?
#
# Each reading moves the chances, and with them the next step. The likeliest fault need not come next.
#
# The figure has seven complaints and three readings. Each slider steps through what could be seen; 0 is not read yet. Commit, then
# look.

# %% jupyter={"source_hidden": true}
page.predict("next_guess")

# %% jupyter={"source_hidden": true}
page.figure("next_test")

# %% jupyter={"source_hidden": true}
page.question("why_next")

# %% [markdown]
# ## On your bench
#
# Now yours. Open “Your own machine” below: your name, what it is, what the owner says, what it has, and its bands.
#
# Then pick a place and a step, do it on the real machine, and type in what you saw, with its unit: 12 thou, 96 psi, 2.6 kΩ. The panel
# shows what is still possible. At the end it writes a job card. All is kept on your own machine, and nothing is sent.
#
# No machine today? Take this one: does not start; no spark with a known-good plug; plug wet; stop circuit 0.9 Ω at run.

# %% jupyter={"source_hidden": true}
page.own_bench()

# %% [markdown]
# ### What is still too simple
#
# The table behind it is a [teaching estimate](#Words-of-this-lesson) (common practice, no source). It knows some forty faults, and pairs of them. Yours may be
# another. When the readings do not go together, read again. When nothing fits, say so, and hand it on with what you know.

# %% [markdown]
# ## Go on learning
#
# What is not recalled fades. Do each exit check again from memory: after a week, after a month, then once a year. The map shows
# where you stand, and what to go back to.
#
# Keep each job card. Note what you thought before the first test, and what it was. After fifty cards, count: how often were you right
# when you said 80 %? Which test earned its minutes?
#
# And teach one person one lesson. Nothing shows the holes so well.

# %% jupyter={"source_hidden": true}
page.map()

# %% [markdown]
# ## From memory
#
# Four questions that go back to lessons 08, 11, 13 and 14. Put the notes away.

# %% jupyter={"source_hidden": true}
page.question("percent_again")

# %% jupyter={"source_hidden": true}
page.question("warm_again")

# %% jupyter={"source_hidden": true}
page.question("both_again")

# %% jupyter={"source_hidden": true}
page.question("hand_on_again")

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
# Five questions from memory, the last of the course. Then close this page, and go out to the machine.

# %% jupyter={"source_hidden": true}
page.exit_check()

# %% [markdown]
# ## Go on
#
# That was the last lesson. The virtual bench and all lessons stay open to you.
# What is done and what is open stands on the [map of the course](00_start_here.ipynb).
