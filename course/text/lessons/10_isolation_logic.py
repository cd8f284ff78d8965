# %% [markdown]
# # 10 Complaint and fault-isolation logic
#
# **What did the owner really tell me, and which test comes next?**
#
# After this you can
#
# - turn a complaint into evidence (lab 10, “what did the owner really tell you?”);
# - move a chance by counting (lab 10, “counting machines”);
# - weigh a test in minutes (lab 10, “what is a test worth?”);
# - halve a chain (lab 10, “halving a chain”) and order checks (lab 10, “the shortest order”);
# - do a whole job (lab 10, “a job on the bench”).
#
# You need: lessons 07 and 09, and a calculator. About 40 minutes.
#
# **Choose Run, then Run All Cells, in the menu above.** Then scroll back up here.

# %% jupyter={"source_hidden": true}
from twostroke import lesson

page = lesson.open_lesson("10")
page

# %% [markdown]
# ## A first model: try the usual part
#
# Every shop has its usual part. It was the module last time, and the time before. So order one.
#
# Sometimes it is true. We shall count how often, and see what two minutes with a tester make of it.

# %% [markdown]
# ## Quick, but safe
#
# The quickest order of tests may put a spark right after a fuel sample. No order is worth a fire. Between fuel and spark stands
# a step of its own: shut, wipe, wait, clamp.

# %% jupyter={"source_hidden": true}
page.caution("fuel_vapour", "spark_near_fuel", "high_voltage", "moving_parts")

# %% jupyter={"source_hidden": true}
page.question("from_fuel_to_spark")

# %% [markdown]
# ## What did the owner tell you?
#
# Owners tell what they saw, what they did, and what they think. Only the first two are [evidence](#Words-of-this-lesson). A
# good rule: keep the sentences that a camera would have caught.
#
# Then ask what is still open. Cold or hot? Always, or now and then? All at once, or bit by bit? What was done last, and how
# did it stand?

# %% jupyter={"source_hidden": true}
page.question("evidence")

# %% jupyter={"source_hidden": true}
page.question("first_word")

# %% [markdown]
# ## Count machines
#
# **Worked example.** 1 000 machines with this complaint, invented: fuel 500, plug 250, stop circuit 140, module 110. The tester
# stays dark in 4, 16, 85 and 90 per cent of them.
#
# 1. Dark ones: 20, 40, 119 and 99. Together 278.
# 2. Your tester is dark, so yours is one of the 278. The rest are out.
# 3. Module: 99 of 278, or 36 per cent. Stop circuit: 119, or 43.
#
# How often a part fails is only the start. What counts is how many are still in the count.

# %% jupyter={"source_hidden": true}
page.example("count_faded")

# %% [markdown]
# ### When the fault is rare
#
# A reading that others show as well is a [false alarm](#Words-of-this-lesson) for them. How much does that matter? Commit to a
# number, then look.

# %% jupyter={"source_hidden": true}
page.predict("count_guess")

# %% jupyter={"source_hidden": true}
page.figure("count")

# %% jupyter={"source_hidden": true}
page.question("why_count")

# %% [markdown]
# ## Test by test
#
# Now with all faults of the course's table at once. Each bar is a chance; together they are your
# [belief](#Words-of-this-lesson). Each reading moves all of them: those that would show it grow, the others shrink.
#
# Which test next? Way 1 asks which one leaves the least to pay on average, repairs included. Way 2 takes the shortest test
# that tells anything at all. The bench of lab 10 asks the same of you. Commit, then look.

# %% jupyter={"source_hidden": true}
page.predict("bars_guess")

# %% jupyter={"source_hidden": true}
page.figure("bars")

# %% jupyter={"source_hidden": true}
page.question("why_bars")

# %% jupyter={"source_hidden": true}
page.question("why_way")

# %% [markdown]
# ### What is still too simple
#
# The chances in the table are estimates (common practice, no source). Real ones differ from shop to shop, and from make to
# make. Two faults can sit in one machine. The bars say where to look next. They do not say what to sell.

# %% [markdown]
# ## What is a test worth?
#
# A test costs minutes and saves minutes: the repair that you do not make in vain. Take the average without it, take the average
# with it. The difference, for each minute that the test takes, is its worth. Below one it is cheaper to repair at once.

# %% jupyter={"source_hidden": true}
page.example("worth_faded")

# %% [markdown]
# ## Halve the chain
#
# Fuel goes from tank to cylinder, link by link. A probe in the middle clears all of one side at once. That is called a
# [half-split](#Words-of-this-lesson).
#
# But the middle is where half of the *chance* lies, not half of the links. Add up from one end, and stop nearest to 50 per cent.

# %% jupyter={"source_hidden": true}
page.question("eight_links")

# %% jupyter={"source_hidden": true}
page.example("chain_alone")

# %% [markdown]
# ## The shortest order
#
# Say each check finds its own fault for sure, and they cannot be halved. Then put chance over minutes: what does one minute of
# it settle? The largest figure goes first. (Known of old; from memory.)

# %% jupyter={"source_hidden": true}
page.example("order_alone")

# %% [markdown]
# ## From memory
#
# Five questions that go back to lessons 04, 05, 07 and 09. Put the notes away. The maker's manual is the only book that may
# lie on the bench.

# %% jupyter={"source_hidden": true}
page.question("wet_again")

# %% jupyter={"source_hidden": true}
page.question("key_again")

# %% jupyter={"source_hidden": true}
page.question("tester_again")

# %% jupyter={"source_hidden": true}
page.question("voltage_again")

# %% jupyter={"source_hidden": true}
page.question("leak_again")

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
# Five questions from memory. Four right, and you are ready for lab 10.

# %% jupyter={"source_hidden": true}
page.exit_check()

# %% [markdown]
# ## Go on
#
# First [lab 10](../labs/lab10/lab10.ipynb). After it comes [lesson 11, Intermittent and heat-dependent faults](11_intermittent.ipynb).
# What is done and what is open stands on the [map of the course](00_start_here.ipynb).
