# %% [markdown]
# # Lab 11: Intermittent and heat-dependent faults
#
# How do I catch a fault that is not there when I look?
#
# **After this you can** make a fault show itself safely, read from a log how often and from which heat on, say how many clean starts
# it takes before it may be called gone, and tell warm copper from a winding that fails with heat.
#
# **You need:** lesson 11, a pocket calculator, about 60 minutes. **27 points.**
#
# You write only between the quotes, then run the cell. `work.check` costs nothing; `work.compare` compares with *your*
# machine, and your tries are counted but cost no points. Every learner has other numbers. A later step is marked on
# your own earlier value, so one mistake costs once. The right number with a wrong or missing unit earns a quarter.

# %% [markdown]
# ## Your name or number
#
# Write it between the quotes and run the cell. It picks your machine. Small or capital letters and spaces do not
# matter.

# %% nbgrader={"grade_id": "open", "solution": true}
learner = "your name or number"
### BEGIN SOLUTION
learner = "model answer"
### END SOLUTION
from twostroke import lab

work = lab.open_lab("11", learner=learner)
work

# %% nbgrader={"grade_id": "machine_show", "locked": true}
work.show()

# %% [markdown]
# ## Task 1: Make it fail (3 points)
#
# Read the owner's words. How do you make it fail, what do you watch while it does, and what will prove the repair?

# %% nbgrader={"grade_id": "provoke_show", "locked": true}
work.show("provoke")

# %% nbgrader={"grade_id": "provoke", "solution": true}
condition = ""  # the letter
watch = ""      # the letter
proof = ""      # the letter
### BEGIN SOLUTION
condition = "c"
watch = "a"
proof = "a"
### END SOLUTION
work.answer("provoke", condition=condition, watch=watch, proof=proof)

# %% nbgrader={"grade_id": "provoke_check", "locked": true}
work.check("provoke")

# %% nbgrader={"grade_id": "provoke_compare", "locked": true}
work.compare("provoke")

# %% nbgrader={"grade_id": "provoke_mark", "grade": true, "locked": true, "points": 3}
# Task 1 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("provoke")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 2: A heat test, in order (4 points, safety)
#
# Write the letters in the order of work, for example `"c a b"`. Any sound order earns the points.

# %% nbgrader={"grade_id": "plan_show", "locked": true}
work.show("plan")

# %% nbgrader={"grade_id": "plan", "solution": true}
steps = ""  # letters in the order of work
### BEGIN SOLUTION
steps = "a b f d h e g c j"
### END SOLUTION
work.answer("plan", steps=steps)

# %% nbgrader={"grade_id": "plan_check", "locked": true}
work.check("plan")

# %% nbgrader={"grade_id": "plan_compare", "locked": true}
work.compare("plan")

# %% nbgrader={"grade_id": "plan_mark", "grade": true, "locked": true, "points": 4}
# Task 2 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("plan")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 3: A log of flashes (4 points)
#
# The module was warmed off the machine and tested at five temperatures.

# %% nbgrader={"grade_id": "log_show", "locked": true}
work.show("log")

# %% nbgrader={"grade_id": "log", "solution": true}
hot = ""   # in %
half = ""  # in °C
### BEGIN SOLUTION
hot = "69 %"
half = "91 °C"
### END SOLUTION
work.answer("log", hot=hot, half=half)

# %% nbgrader={"grade_id": "log_check", "locked": true}
work.check("log")

# %% nbgrader={"grade_id": "log_compare", "locked": true}
work.compare("log")

# %% nbgrader={"grade_id": "log_mark", "grade": true, "locked": true, "points": 4}
# Task 3 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("log")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 4: How many clean starts? (5 points)
#
# First how often a start fails in the bad condition, then what that means for the customer and for you. Both are
# marked on *your* chance.

# %% nbgrader={"grade_id": "clean_show", "locked": true}
work.show("clean")

# %% nbgrader={"grade_id": "clean", "solution": true}
chance = ""  # in %
within = ""  # in %
needed = ""  # a plain number
### BEGIN SOLUTION
chance = "11 %"
within = "31 %"
needed = "14"
### END SOLUTION
work.answer("clean", chance=chance, within=within, needed=needed)

# %% nbgrader={"grade_id": "clean_check", "locked": true}
work.check("clean")

# %% nbgrader={"grade_id": "clean_compare", "locked": true}
work.compare("clean")

# %% nbgrader={"grade_id": "clean_mark", "grade": true, "locked": true, "points": 5}
# Task 4 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("clean")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 5: What is left of the doubt? (3 points)
#
# You did something, and then it started cleanly a few times. What is left of the doubt? (Lay out 100 such machines.)

# %% nbgrader={"grade_id": "still_show", "locked": true}
work.show("still")

# %% nbgrader={"grade_id": "still", "solution": true}
still = ""  # in %
### BEGIN SOLUTION
still = "59 %"
### END SOLUTION
work.answer("still", still=still)

# %% nbgrader={"grade_id": "still_check", "locked": true}
work.check("still")

# %% nbgrader={"grade_id": "still_compare", "locked": true}
work.compare("still")

# %% nbgrader={"grade_id": "still_mark", "grade": true, "locked": true, "points": 3}
# Task 5 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("still")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 6: Hot and cold readings (5 points)
#
# The same winding, read cold and hot. Is it only warm, or does something open or touch?

# %% nbgrader={"grade_id": "copper_show", "locked": true}
work.show("copper")

# %% nbgrader={"grade_id": "copper", "solution": true}
expected = ""  # in kohm
at_20 = ""     # in kohm
verdict = ""   # the letter
### BEGIN SOLUTION
expected = "4.23 kohm"
at_20 = "3.94 kohm"
verdict = "b"
### END SOLUTION
work.answer("copper", expected=expected, at_20=at_20, verdict=verdict)

# %% nbgrader={"grade_id": "copper_check", "locked": true}
work.check("copper")

# %% nbgrader={"grade_id": "copper_compare", "locked": true}
work.compare("copper")

# %% nbgrader={"grade_id": "copper_mark", "grade": true, "locked": true, "points": 5}
# Task 6 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("copper")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 7: Three one-line formulas (3 points)
#
# Fill each blank with the names that are given, for example `"2 * fails"`. Write no numbers of your own machine: the
# line is tried on other machines too, and on unusual readings.

# %% nbgrader={"grade_id": "formulas_show", "locked": true}
work.show("formulas")

# %% nbgrader={"grade_id": "formulas", "solution": true}
once_line = ""   # once = 1 - ____
hot_line = ""    # hot = cold_at_20 * ____
still_line = ""  # still = doubt * clean / ____
### BEGIN SOLUTION
once_line = "(1 - fails) ^ starts"
hot_line = "(1 + 0.00393 * (t - 20))"
still_line = "(doubt * clean + 1 - doubt)"
### END SOLUTION
work.answer("formulas", once=once_line, hot=hot_line, still=still_line)

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
# ## Before you hand it in
#
# Run the cell below: it says which answers are still open. Then save the notebook.
#
# After this lab comes [lesson 12, Repair, verify, write up, pass on](../../lessons/12_repair_verify.ipynb).

# %% nbgrader={"grade_id": "all_check", "locked": true}
work.check()
