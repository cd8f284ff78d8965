# %% [markdown]
# # Lab 04: The spark
#
# Where does the energy of a spark come from, and why does a plug that fires in open air fail under
# compression?
#
# **After this you can** make a machine safe before a spark test, read speed, peak and burn time from a
# trace, work out what a plug asks for in open air and under compression, hold it against what the module
# gives, choose a tester gap, and say what a flash proves.
#
# **You need:** lessons 03 and 04, a pocket calculator with a root, about 60 minutes. **25 points.**
#
# ## How it works
#
# 1. Click a grey cell and press Shift and Enter: the cell runs, and its answer appears below it.
# 2. You write only between the quotes, then run that cell. `work.check` says whether it can be read. That
#    costs nothing.
# 3. `work.compare` compares it with *your* machine. Your tries are counted and kept; they cost no points.
# 4. When you are done, save. What is handed in is this file.
#
# Every learner has another machine, so you can compare methods with your neighbour, but not numbers. The
# right number with a wrong or missing unit earns a quarter of that value's points. A later step is marked
# on your own earlier value, so one mistake costs once.

# %% [markdown]
# ## Your name or number
#
# Write it between the quotes and run the cell. It picks your machine. Small or capital letters and spaces
# do not matter.

# %% nbgrader={"grade_id": "open", "solution": true}
learner = "your name or number"
### BEGIN SOLUTION
learner = "model answer"
### END SOLUTION
from twostroke import lab

work = lab.open_lab("04", learner=learner)
work

# %% nbgrader={"grade_id": "machine_show", "locked": true}
work.show()

# %% [markdown]
# ## Task 1: Safe before a spark test, in order (3 points, safety)
#
# Write the letters in the order of work, for example `"c a b"`. Any sound order earns the points.

# %% nbgrader={"grade_id": "safe_test_show", "locked": true}
work.show("safe_test")

# %% nbgrader={"grade_id": "safe_test", "solution": true}
steps = ""  # letters in the order of work
### BEGIN SOLUTION
steps = "d b g i j l c h a e"
### END SOLUTION
work.answer("safe_test", steps=steps)

# %% nbgrader={"grade_id": "safe_test_check", "locked": true}
work.check("safe_test")

# %% nbgrader={"grade_id": "safe_test_compare", "locked": true}
work.compare("safe_test")

# %% nbgrader={"grade_id": "safe_test_mark", "grade": true, "locked": true, "points": 3}
# Task 1 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("safe_test")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 2: Read a trace (4 points)
#
# The drawing and the table hold the same readings. Find the fastest turn of the pull, the peak, and how
# long the spark burns: from the spike until the voltage leaves the flat line.

# %% nbgrader={"grade_id": "trace_show", "locked": true}
work.show("trace")

# %% nbgrader={"grade_id": "trace", "solution": true}
speed = ""  # in rpm
peak = ""   # in kV
burn = ""   # in ms
### BEGIN SOLUTION
speed, peak, burn = "760 rpm", "6.9 kV", "1.12 ms"
### END SOLUTION
work.answer("trace", speed=speed, peak=peak, burn=burn)

# %% nbgrader={"grade_id": "trace_check", "locked": true}
work.check("trace")

# %% nbgrader={"grade_id": "trace_compare", "locked": true}
work.compare("trace")

# %% nbgrader={"grade_id": "trace_mark", "grade": true, "locked": true, "points": 4}
# Task 2 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("trace")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 3: What the plug asks for, in open air and under compression (4 points)
#
# Three steps: open air first, then the density in the cylinder, then the voltage there. The last is marked
# on *your* pressure.

# %% nbgrader={"grade_id": "demand_show", "locked": true}
work.show("demand")

# %% nbgrader={"grade_id": "demand", "solution": true}
open_air = ""           # in kV
dense = ""              # in bar
under_compression = ""  # in kV
### BEGIN SOLUTION
open_air, dense, under_compression = "2.82 kV", "4.37 bar", "8.7 kV"
### END SOLUTION
work.answer("demand", open=open_air, dense=dense, kilovolts=under_compression)

# %% nbgrader={"grade_id": "demand_check", "locked": true}
work.check("demand")

# %% nbgrader={"grade_id": "demand_compare", "locked": true}
work.compare("demand")

# %% nbgrader={"grade_id": "demand_mark", "grade": true, "locked": true, "points": 4}
# Task 3 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("demand")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 4: Margin at cranking speed (4 points)
#
# Use *your* speed from the trace and *your* kilovolts under compression. A margin below zero is written
# with a minus.

# %% nbgrader={"grade_id": "margin_show", "locked": true}
work.show("margin")

# %% nbgrader={"grade_id": "margin", "solution": true}
available = ""  # in kV
margin = ""     # in kV
verdict = ""    # the letter: what you can say
### BEGIN SOLUTION
available, margin, verdict = "6.7 kV", "-2.0 kV", "c"
### END SOLUTION
work.answer("margin", available=available, kilovolts=margin, verdict=verdict)

# %% nbgrader={"grade_id": "margin_check", "locked": true}
work.check("margin")

# %% nbgrader={"grade_id": "margin_compare", "locked": true}
work.compare("margin")

# %% nbgrader={"grade_id": "margin_mark", "grade": true, "locked": true, "points": 4}
# Task 4 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("margin")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 5: A tester gap that stands for the plug (3 points)
#
# Find the gap for *your* kilovolts under compression, then judge what the tester shows.

# %% nbgrader={"grade_id": "tester_show", "locked": true}
work.show("tester")

# %% nbgrader={"grade_id": "tester", "solution": true}
tester_gap = ""  # in mm
proof = ""       # the letter: what it shows
### BEGIN SOLUTION
tester_gap, proof = "7.4 mm", "b"
### END SOLUTION
work.answer("tester", gap=tester_gap, proof=proof)

# %% nbgrader={"grade_id": "tester_check", "locked": true}
work.check("tester")

# %% nbgrader={"grade_id": "tester_compare", "locked": true}
work.compare("tester")

# %% nbgrader={"grade_id": "tester_mark", "grade": true, "locked": true, "points": 3}
# Task 5 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("tester")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 6: A flash in the lead (3 points)
#
# Several letters may apply. Write them with blanks between, for example `"a c"`.

# %% nbgrader={"grade_id": "flash_show", "locked": true}
work.show("flash")

# %% nbgrader={"grade_id": "flash", "solution": true}
proves = ""  # letters of all that apply: what it proves
### BEGIN SOLUTION
proves = "b d f"
### END SOLUTION
work.answer("flash", proves=proves)

# %% nbgrader={"grade_id": "flash_check", "locked": true}
work.check("flash")

# %% nbgrader={"grade_id": "flash_compare", "locked": true}
work.compare("flash")

# %% nbgrader={"grade_id": "flash_mark", "grade": true, "locked": true, "points": 3}
# Task 6 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("flash")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 7: The spark that the owner saw (4 points)
#
# Write 50 to 200 words between the quotes, in one line. Use no double quotes inside. A person marks this
# one with a rubric.

# %% nbgrader={"grade_id": "explain_show", "locked": true}
work.show("explain")

# %% nbgrader={"grade_id": "explain", "grade": true, "points": 4, "solution": true}
words = ""  # your answer to the owner
### BEGIN SOLUTION
words = "Your plug sparks in open air because there it needs only about three kilovolts. With the piston nearly at the top the air between the electrodes is some four times as dense, and the same gap asks for about ten kilovolts. At the speed of your pull this module gives about eleven by calculation, so it may just do or just fail: the spark you saw cannot tell us. I will set a tester to about eight millimetres, ground it well away from the tank, and pull. If it jumps at every turn, the ignition gives what the plug needs and I look at fuel and air; if not, I go on with plug, lead, stop circuit, air gap and module."
### END SOLUTION
work.answer("explain", words=words)

# %% nbgrader={"grade_id": "explain_check", "locked": true}
work.check("explain")

# %% nbgrader={"grade_id": "explain_compare", "locked": true}
work.compare("explain")

# %% [markdown]
# ## Before you hand it in
#
# Run the cell below: it says which answers are still open. Then save the notebook.
#
# After this lab comes [lesson 05, Air gap, key and timing](../../lessons/05_air_gap_key_timing.ipynb).

# %% nbgrader={"grade_id": "all_check", "locked": true}
work.check()
