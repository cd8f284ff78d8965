# %% [markdown]
# # 12 Repair, verify, write up, pass on
#
# **How do I prove that it is fixed, what do I charge, and how do I teach it to the next person?**
#
# After this you can
#
# - mend in an order that needs no step twice (lab 12, task 2);
# - list what proves a repair (lab 12, task 3);
# - make an estimate and advise the owner (lab 12, tasks 4 and 5);
# - mend a job card (lab 12, task 6);
# - explain a job in five sentences (lab 12, task 8).
#
# You need: lessons 05, 10 and 11, and a pocket calculator. About 40 minutes.
#
# **Choose Run, then Run All Cells, in the menu above.** Then scroll back up here.

# %% jupyter={"source_hidden": true}
from twostroke import lesson

page = lesson.open_lesson("12")
page

# %% [markdown]
# ## A first model: it runs, so it is done
#
# You found the one bad part. You fit a new one, it starts, and the owner pays for the part.
#
# That is the simplest model of the second half of a job. It sends back machines that are not mended, and it sends shops out of
# business. We repair it in four steps: mend, prove, charge, pass on.

# %% [markdown]
# ## Mend it once
#
# A good order needs no step twice. Each step leaves what the next one stands on. The new module is not screwed on before you know
# how the old one sat.
#
# The order below is common practice, no source. The maker's manual and its [torque](#Words-of-this-lesson) come first.

# %% jupyter={"source_hidden": true}
page.caution("sudden_start", "moving_parts", "hot_surface")

# %% jupyter={"source_hidden": true}
page.order("module_order")

# %% [markdown]
# ### Torque
#
# Each screw has its torque: how hard it is turned. Too little, and the module walks onto the magnet. Too
# much, and the thread in the soft metal is gone. Mind the unit of the manual.
#
# **Worked example.** The manual says 20 in·lb, the wrench shows N·m.
#
# 1. One pound of force is 4.448 N, one inch 0.0254 m (NIST SP 811).
# 2. So 1 in·lb is 4.448 × 0.0254 = 0.113 N·m.
# 3. 20 × 0.113 = 2.3 N·m.

# %% jupyter={"source_hidden": true}
page.example("torque_faded")

# %% [markdown]
# ### Did it stay?
#
# The shim is 0.30 mm, in the middle of the band of 0.25 to 0.35 mm (invented; a usual size, common practice, no source). You press
# the module on, tighten, and draw the shim out.
#
# Two hundred people do the same with the same care. Commit, then look.

# %% jupyter={"source_hidden": true}
page.predict("moved_guess")

# %% jupyter={"source_hidden": true}
page.figure("moved")

# %% jupyter={"source_hidden": true}
page.question("why_moved")

# %% [markdown]
# ## Prove it where it failed
#
# A [verify run](#Words-of-this-lesson) is a start, a run, a stop by the switch, and a start again. It counts in the state in which
# the machine failed:
#
# - failed always: cold is enough;
# - died hot: cold, then hot for longer than it used to live;
# - cut out when moved: while lead and wires are moved.
#
# The stop switch comes first. Its lead was off, and an engine that cannot be stopped is worse than one that will not start.
#
# Run it outdoors, cover on, guard on, nothing loose near the flywheel.

# %% jupyter={"source_hidden": true}
page.caution("sudden_start", "moving_parts", "skin_and_lungs", "hot_surface")

# %% [markdown]
# ### What the card may say
#
# The [job card](00_start_here.ipynb) is a promise. So each line must stand on a reading: the fault on a test, “fixed” on a verify
# run.
#
# Here is a saw that died when hot. Its module was changed. Commit, then look.

# %% jupyter={"source_hidden": true}
page.predict("card_guess")

# %% jupyter={"source_hidden": true}
page.figure("card_check")

# %% jupyter={"source_hidden": true}
page.question("why_card")

# %% jupyter={"source_hidden": true}
page.question("card_line")

# %% [markdown]
# ## What do I charge?
#
# An [estimate](#Words-of-this-lesson) has four lines: labour, parts, [supplies](#Words-of-this-lesson), tax.
#
# **Worked example.** 20 min finding, 25 min mending, 15 min proving, parts 12. The shop is invented: 60 an hour, supplies 5 % of
# labour, tax 20 %.
#
# 1. All minutes: 20 + 25 + 15 = 60. Labour: 60 ÷ 60 × 60 = 60.00.
# 2. Supplies: 0.05 × 60 = 3.00. Parts: 12.00.
# 3. Together 75.00. Tax: 0.20 × 75 = 15.00.
# 4. Total: 90.00.

# %% jupyter={"source_hidden": true}
page.example("bill_faded")

# %% jupyter={"source_hidden": true}
page.predict("bill_guess")

# %% jupyter={"source_hidden": true}
page.figure("bill")

# %% jupyter={"source_hidden": true}
page.question("why_bill")

# %% [markdown]
# ### Is it worth it?
#
# Hold the total against what a like machine costs that has the same life left. Not against a new one.
#
# Up to a half: repair. From four fifths on: advise against it. Between them, lay out both and let the owner choose. (Common
# practice, no source. Your shop may draw the lines elsewhere.)

# %% jupyter={"source_hidden": true}
page.example("advice_alone")

# %% [markdown]
# ### What is still too simple
#
# The rule looks at money alone. Spare parts that are no longer made, a guard that is missing, or a machine that somebody loves all
# count too. And a price agreed before you look is a promise: say what it covers, and ring before it grows.

# %% [markdown]
# ## Pass it on
#
# You know a job when you can teach it. Five sentences will do:
#
# 1. What was seen.
# 2. What it could have been.
# 3. Which test parted these, and why it came first.
# 4. What was done, and how it was proven.
# 5. What can hurt you.
#
# Say one aloud now, about the saw above. Then read this one: “It sparked cold and not hot, so we tested it hot, at the moment it
# died; a cold test would have told us nothing.” It says why, not only what.

# %% [markdown]
# ## From memory
#
# Five questions that go back to lessons 05, 08, 09, 10 and 11. Put the notes away.

# %% jupyter={"source_hidden": true}
page.question("rim_again")

# %% jupyter={"source_hidden": true}
page.question("rings_again")

# %% jupyter={"source_hidden": true}
page.question("white_again")

# %% jupyter={"source_hidden": true}
page.question("second_again")

# %% jupyter={"source_hidden": true}
page.question("starts_again")

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
# Five questions from memory. Four right, and you are ready for lab 12.

# %% jupyter={"source_hidden": true}
page.exit_check()

# %% [markdown]
# ## Go on
#
# First [lab 12](../labs/lab12/lab12.ipynb). After it comes [lesson 13, Scenarios](13_scenarios.ipynb).
# What is done and what is open stands on the [map of the course](00_start_here.ipynb).
