# %% [markdown]
# # Lab 07: Windings and wiring
#
# Is this winding good, open, shorted, or just cold, and how do I find a fault that hides behind a good
# module?
#
# **After this you can** make a machine safe before its windings are measured, take leads and temperature
# out of a reading, judge it with the meter's own accuracy, find an open, a short to the core and a partial
# short, and find a fault that hides in stop circuit or ground.
#
# **You need:** lessons 06 and 07, a pocket calculator with a root, about 60 minutes. **24 points.**
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

work = lab.open_lab("07", learner=learner)
work

# %% nbgrader={"grade_id": "machine_show", "locked": true}
work.show()

# %% [markdown]
# ## Task 1: Before the probes touch the module (2 points, safety)
#
# Choose what you do first, and the reason. The reason counts only with a safe choice.

# %% nbgrader={"grade_id": "safe_show", "locked": true}
work.show("safe")

# %% nbgrader={"grade_id": "safe", "solution": true}
do = ""   # the letter: what you do first
why = ""  # the letter: why
### BEGIN SOLUTION
do, why = "b", "b"
### END SOLUTION
work.answer("safe", do=do, why=why)

# %% nbgrader={"grade_id": "safe_check", "locked": true}
work.check("safe")

# %% nbgrader={"grade_id": "safe_compare", "locked": true}
work.compare("safe")

# %% nbgrader={"grade_id": "safe_mark", "grade": true, "locked": true, "points": 2}
# Task 1 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("safe")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 2: Leads off, and to 20 °C (3 points)
#
# First the leads, then the temperature. The second is marked on *your* first.

# %% nbgrader={"grade_id": "correct_show", "locked": true}
work.show("correct")

# %% nbgrader={"grade_id": "correct", "solution": true}
winding = ""  # in ohm
at_20 = ""    # in ohm
### BEGIN SOLUTION
winding, at_20 = "1.69 ohm", "1.43 ohm"
### END SOLUTION
work.answer("correct", winding=winding, at_20=at_20)

# %% nbgrader={"grade_id": "correct_check", "locked": true}
work.check("correct")

# %% nbgrader={"grade_id": "correct_compare", "locked": true}
work.compare("correct")

# %% nbgrader={"grade_id": "correct_mark", "grade": true, "locked": true, "points": 3}
# Task 2 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("correct")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 3: In, out or undecided (5 points)
#
# Work out the uncertainty and the guard band for module A. Then judge all three; B and C need the same sum
# with their own readings.

# %% nbgrader={"grade_id": "judge_show", "locked": true}
work.show("judge")

# %% nbgrader={"grade_id": "judge", "solution": true}
uncertainty = ""  # in ohm
guard = ""        # in ohm
module_a = ""     # the letter: module A
module_b = ""     # the letter: module B
module_c = ""     # the letter: module C
### BEGIN SOLUTION
uncertainty, guard, module_a, module_b, module_c = "24.4 ohm", "40.1 ohm", "c", "b", "a"
### END SOLUTION
work.answer("judge", uncertainty=uncertainty, guard=guard, module_a=module_a, module_b=module_b,
            module_c=module_c)

# %% nbgrader={"grade_id": "judge_check", "locked": true}
work.check("judge")

# %% nbgrader={"grade_id": "judge_compare", "locked": true}
work.compare("judge")

# %% nbgrader={"grade_id": "judge_mark", "grade": true, "locked": true, "points": 5}
# Task 3 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("judge")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 4: Open, shorted to the core, partly shorted, or nothing to see (5 points)
#
# Each module has at most one fault. One of them shows nothing: that proves less than it seems, as a few
# shorted turns cost much of the spark and hardly an ohm.

# %% nbgrader={"grade_id": "find_show", "locked": true}
work.show("find")

# %% nbgrader={"grade_id": "find", "solution": true}
module_1 = ""  # the letter: module 1
module_2 = ""  # the letter: module 2
module_3 = ""  # the letter: module 3
module_4 = ""  # the letter: module 4
missing = ""   # in ohm
### BEGIN SOLUTION
module_1, module_2, module_3, module_4, missing = "d", "b", "c", "a", "500 ohm"
### END SOLUTION
work.answer("find", module_1=module_1, module_2=module_2, module_3=module_3, module_4=module_4,
            missing=missing)

# %% nbgrader={"grade_id": "find_check", "locked": true}
work.check("find")

# %% nbgrader={"grade_id": "find_compare", "locked": true}
work.compare("find")

# %% nbgrader={"grade_id": "find_mark", "grade": true, "locked": true, "points": 5}
# Task 4 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("find")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 5: Stop lead on: two paths side by side (3 points)
#
# With the stop lead on you never measure the winding alone.

# %% nbgrader={"grade_id": "paths_show", "locked": true}
work.show("paths")

# %% nbgrader={"grade_id": "paths", "solution": true}
both = ""  # in ohm
row = ""   # the number: first row, from the top, that no longer sparks
### BEGIN SOLUTION
both, row = "1.01 ohm", "4"
### END SOLUTION
work.answer("paths", both=both, row=row)

# %% nbgrader={"grade_id": "paths_check", "locked": true}
work.check("paths")

# %% nbgrader={"grade_id": "paths_compare", "locked": true}
work.compare("paths")

# %% nbgrader={"grade_id": "paths_mark", "grade": true, "locked": true, "points": 3}
# Task 5 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("paths")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 6: Stop lead off: where the fault lies (3 points)
#
# Four findings, one fault. What you do next is marked on *your* place of the fault.

# %% nbgrader={"grade_id": "stop_show", "locked": true}
work.show("stop")

# %% nbgrader={"grade_id": "stop", "solution": true}
where = ""  # the letter: where the fault lies
next = ""   # the letter: what you do next
### BEGIN SOLUTION
where, next = "b", "d"
### END SOLUTION
work.answer("stop", where=where, next=next)

# %% nbgrader={"grade_id": "stop_check", "locked": true}
work.check("stop")

# %% nbgrader={"grade_id": "stop_compare", "locked": true}
work.compare("stop")

# %% nbgrader={"grade_id": "stop_mark", "grade": true, "locked": true, "points": 3}
# Task 6 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("stop")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 7: Three one-line formulas (3 points)
#
# Fill each blank with the names that are given. Write no readings of your own: the line is tried on other
# modules too, and on unusual readings.

# %% nbgrader={"grade_id": "formulas_show", "locked": true}
work.show("formulas")

# %% nbgrader={"grade_id": "formulas", "solution": true}
at_20_line = ""        # at_20 = winding / ____
both_line = ""         # both = ____
uncertainty_line = ""  # uncertainty = (____) / sqrt(3)
### BEGIN SOLUTION
at_20_line = "(1 + 0.00393 * (celsius - 20))"
both_line = "first * second / (first + second)"
uncertainty_line = "percent / 100 * reading + digits * step"
### END SOLUTION
work.answer("formulas", at_20=at_20_line, both=both_line, uncertainty=uncertainty_line)

# %% nbgrader={"grade_id": "formulas_check", "locked": true}
work.check("formulas")

# %% nbgrader={"grade_id": "formulas_compare", "locked": true}
work.compare("formulas")

# %% nbgrader={"grade_id": "formulas_mark", "grade": true, "locked": true, "points": 3}
# Task 7 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("formulas")
### END HIDDEN TESTS

# %% [markdown]
# ## For those who program: a function that brings a reading to 20 °C (no points)
#
# Nothing depends on it. Replace the line that says `None` and run the cell: your function is tried on your
# machine, on others, and on readings that it must refuse. A loop that never ends is stopped after a second.

# %% nbgrader={"grade_id": "to_20_show", "locked": true}
work.try_function("to_20")

# %% nbgrader={"grade_id": "to_20", "solution": true}
def to_20(shown, leads, celsius):
    ohms = None
    ### BEGIN SOLUTION
    for value in (shown, leads, celsius):
        if type(value) not in (int, float):
            raise ValueError("a reading is missing or is no number")
    if leads < 0 or shown < leads:
        raise ValueError("leads cannot read more than winding and leads together")
    ohms = (shown - leads) / (1 + 0.00393 * (celsius - 20))
    ### END SOLUTION
    return ohms


work.try_function("to_20", to_20)

# %% [markdown]
# ## Before you hand it in
#
# Run the cell below: it says which answers are still open. Then save the notebook.
#
# After this lab comes [lesson 08, Compression and sealing](../../lessons/08_compression.ipynb).

# %% nbgrader={"grade_id": "all_check", "locked": true}
work.check()
