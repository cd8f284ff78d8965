# %% [markdown]
# # Lab 05: Air gap, key and timing
#
# What does 0.1 mm more between magnet and module do, how do I set it with a shim, and what does a sheared
# key change?
#
# **After this you can** turn a key offset into degrees and say what it changes, choose a shim stack for a
# band, judge both legs and the run-out of a flywheel, tell what a wide gap does to starting, and set a gap
# safely and in order.
#
# **You need:** lessons 03 and 05, a pocket calculator, about 50 minutes. **25 points.**
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

work = lab.open_lab("05", learner=learner)
work

# %% nbgrader={"grade_id": "machine_show", "locked": true}
work.show()

# %% [markdown]
# ## Task 1: A sheared key (4 points)
#
# The flywheel's key has given way. How far has the flywheel turned on the shaft, and what becomes of the
# timing? The timing is marked on *your* angle.

# %% nbgrader={"grade_id": "key_show", "locked": true}
work.show("key")

# %% nbgrader={"grade_id": "key", "solution": true}
angle = ""   # in deg
timing = ""  # in deg
effect = ""  # the letter: what the owner notices
### BEGIN SOLUTION
angle, timing, effect = "9.4 deg", "18.6 deg", "a"
### END SOLUTION
work.answer("key", angle=angle, timing=timing, effect=effect)

# %% nbgrader={"grade_id": "key_check", "locked": true}
work.check("key")

# %% nbgrader={"grade_id": "key_compare", "locked": true}
work.compare("key")

# %% nbgrader={"grade_id": "key_mark", "grade": true, "locked": true, "points": 4}
# Task 1 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("key")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 2: A shim stack for the band (4 points)
#
# Choose from the set. The other two answers are marked on *your* leaves.

# %% nbgrader={"grade_id": "shims_show", "locked": true}
work.show("shims")

# %% nbgrader={"grade_id": "shims", "solution": true}
leaves = ""  # leaves with a plus between them, such as "0.10 mm + 0.15 mm"
thou = ""    # in thou
worst = ""   # in mm
### BEGIN SOLUTION
leaves, thou, worst = "0.12 mm + 0.15 mm", "10.6 thou", "0.012 mm"
### END SOLUTION
work.answer("shims", leaves=leaves, thou=thou, worst=worst)

# %% nbgrader={"grade_id": "shims_check", "locked": true}
work.check("shims")

# %% nbgrader={"grade_id": "shims_compare", "locked": true}
work.compare("shims")

# %% nbgrader={"grade_id": "shims_mark", "grade": true, "locked": true, "points": 4}
# Task 2 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("shims")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 3: Both legs, and a flywheel that runs out (5 points)
#
# Work out the mean of both legs, how askew the module stands, and the least and the largest gap in one turn
# of the flywheel. Then judge it all round. Later answers are marked on *your* earlier ones.

# %% nbgrader={"grade_id": "legs_show", "locked": true}
work.show("legs")

# %% nbgrader={"grade_id": "legs", "solution": true}
mean = ""       # in mm
askew = ""      # in mm
least = ""      # in mm
most = ""       # in mm
all_round = ""  # the letter: gap all round, both legs taken together
### BEGIN SOLUTION
mean, askew, least, most, all_round = "0.250 mm", "0.10 mm", "0.200 mm", "0.300 mm", "c"
### END SOLUTION
work.answer("legs", mean=mean, askew=askew, least=least, most=most, all_round=all_round)

# %% nbgrader={"grade_id": "legs_check", "locked": true}
work.check("legs")

# %% nbgrader={"grade_id": "legs_compare", "locked": true}
work.compare("legs")

# %% nbgrader={"grade_id": "legs_mark", "grade": true, "locked": true, "points": 5}
# Task 3 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("legs")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 4: A wide gap and the starting speed (4 points)
#
# Between two rows of the table, take the part of the way. The rise and the verdict are marked on *your*
# speed.

# %% nbgrader={"grade_id": "speed_show", "locked": true}
work.show("speed")

# %% nbgrader={"grade_id": "speed", "solution": true}
wide = ""     # in rpm
rise = ""     # in rpm
verdict = ""  # the letter: does it spark when you pull
### BEGIN SOLUTION
wide, rise, verdict = "702 rpm", "152 rpm", "c"
### END SOLUTION
work.answer("speed", wide=wide, rise=rise, verdict=verdict)

# %% nbgrader={"grade_id": "speed_check", "locked": true}
work.check("speed")

# %% nbgrader={"grade_id": "speed_compare", "locked": true}
work.compare("speed")

# %% nbgrader={"grade_id": "speed_mark", "grade": true, "locked": true, "points": 4}
# Task 4 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("speed")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 5: Three one-line formulas (3 points)
#
# Fill each blank with the names that are given. Write no numbers of your own machine: the line is tried on
# other machines too, and on unusual readings.

# %% nbgrader={"grade_id": "formulas_show", "locked": true}
work.show("formulas")

# %% nbgrader={"grade_id": "formulas", "solution": true}
key_line = ""    # angle = 180 / pi * ____
mean_line = ""   # mean = ____
least_line = ""  # least = mean - ____
### BEGIN SOLUTION
key_line, mean_line, least_line = "2 * offset / diameter", "(first + second) / 2", "run_out / 2"
### END SOLUTION
work.answer("formulas", key=key_line, mean=mean_line, least=least_line)

# %% nbgrader={"grade_id": "formulas_check", "locked": true}
work.check("formulas")

# %% nbgrader={"grade_id": "formulas_compare", "locked": true}
work.compare("formulas")

# %% nbgrader={"grade_id": "formulas_mark", "grade": true, "locked": true, "points": 3}
# Task 5 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("formulas")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 6: Before you turn the flywheel (2 points, safety)
#
# Choose what you do first, and the reason. The reason counts only with a safe choice.

# %% nbgrader={"grade_id": "safe_show", "locked": true}
work.show("safe")

# %% nbgrader={"grade_id": "safe", "solution": true}
do = ""   # the letter: what you do first
why = ""  # the letter: why
### BEGIN SOLUTION
do, why = "d", "d"
### END SOLUTION
work.answer("safe", do=do, why=why)

# %% nbgrader={"grade_id": "safe_check", "locked": true}
work.check("safe")

# %% nbgrader={"grade_id": "safe_compare", "locked": true}
work.compare("safe")

# %% nbgrader={"grade_id": "safe_mark", "grade": true, "locked": true, "points": 2}
# Task 6 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("safe")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 7: Setting the gap with a shim, in order (3 points)
#
# Write the letters in the order of work, for example `"c a b"`. Any sound order earns the points.

# %% nbgrader={"grade_id": "setting_show", "locked": true}
work.show("setting")

# %% nbgrader={"grade_id": "setting", "solution": true}
steps = ""  # letters in the order of work
### BEGIN SOLUTION
steps = "k c d e f g h a j i"
### END SOLUTION
work.answer("setting", steps=steps)

# %% nbgrader={"grade_id": "setting_check", "locked": true}
work.check("setting")

# %% nbgrader={"grade_id": "setting_compare", "locked": true}
work.compare("setting")

# %% nbgrader={"grade_id": "setting_mark", "grade": true, "locked": true, "points": 3}
# Task 7 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("setting")
### END HIDDEN TESTS

# %% [markdown]
# ## Before you hand it in
#
# Run the cell below: it says which answers are still open. Then save the notebook.
#
# After this lab comes [lesson 06, Resistance](../../lessons/06_resistance.ipynb).

# %% nbgrader={"grade_id": "all_check", "locked": true}
work.check()
