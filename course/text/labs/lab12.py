# %% [markdown]
# # Lab 12: Repair, verify, write up, pass on
#
# How do I prove that it is fixed, what do I charge, and how do I teach it to the next person?
#
# **After this you can** change a module in a sound order, prove it in the condition of the complaint, work out an estimate, advise the
# owner, mend a job card, and explain the job to the next person.
#
# **You need:** lesson 12, a pocket calculator, about 75 minutes. **29 points.**
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

work = lab.open_lab("12", learner=learner)
work

# %% nbgrader={"grade_id": "machine_show", "locked": true}
work.show()

# %% [markdown]
# ## Task 1: Hands and first start (2 points, safety)
#
# Two choices, each before something can hurt you.

# %% nbgrader={"grade_id": "safe_show", "locked": true}
work.show("safe")

# %% nbgrader={"grade_id": "safe", "solution": true}
do = ""     # the letter
after = ""  # the letter
### BEGIN SOLUTION
do = "c"
after = "a"
### END SOLUTION
work.answer("safe", do=do, after=after)

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
# ## Task 2: A module changed, in order (4 points)
#
# Write the letters in the order of work, for example `"c a b"`. Any sound order earns the points.

# %% nbgrader={"grade_id": "order_show", "locked": true}
work.show("order")

# %% nbgrader={"grade_id": "order", "solution": true}
steps = ""  # letters in the order of work
### BEGIN SOLUTION
steps = "g j a b k l f e c h d"
### END SOLUTION
work.answer("order", steps=steps)

# %% nbgrader={"grade_id": "order_check", "locked": true}
work.check("order")

# %% nbgrader={"grade_id": "order_compare", "locked": true}
work.compare("order")

# %% nbgrader={"grade_id": "order_mark", "grade": true, "locked": true, "points": 4}
# Task 2 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("order")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 3: The list that proves it (3 points)
#
# A repair is proven in the state in which the machine failed, and no minute longer than that takes.

# %% nbgrader={"grade_id": "verify_show", "locked": true}
work.show("verify")

# %% nbgrader={"grade_id": "verify", "solution": true}
proofs = ""  # all letters that apply
### BEGIN SOLUTION
proofs = "b f g h"
### END SOLUTION
work.answer("verify", proofs=proofs)

# %% nbgrader={"grade_id": "verify_check", "locked": true}
work.check("verify")

# %% nbgrader={"grade_id": "verify_compare", "locked": true}
work.compare("verify")

# %% nbgrader={"grade_id": "verify_mark", "grade": true, "locked": true, "points": 3}
# Task 3 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("verify")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 4: The estimate (5 points)
#
# Charge what was done. Net amount and total are marked on *your* earlier figures.

# %% nbgrader={"grade_id": "estimate_show", "locked": true}
work.show("estimate")

# %% nbgrader={"grade_id": "estimate", "solution": true}
labour = ""  # a plain number
net = ""     # a plain number
total = ""   # a plain number
### BEGIN SOLUTION
labour = "81.67"
net = "141.67"
total = "148.75"
### END SOLUTION
work.answer("estimate", labour=labour, net=net, total=total)

# %% nbgrader={"grade_id": "estimate_check", "locked": true}
work.check("estimate")

# %% nbgrader={"grade_id": "estimate_compare", "locked": true}
work.compare("estimate")

# %% nbgrader={"grade_id": "estimate_mark", "grade": true, "locked": true, "points": 5}
# Task 4 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("estimate")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 5: Repair or replace? (3 points)
#
# Your total against the price of a like machine. The share is marked on *your* total.

# %% nbgrader={"grade_id": "advice_show", "locked": true}
work.show("advice")

# %% nbgrader={"grade_id": "advice", "solution": true}
share = ""   # in %
advice = ""  # the letter
### BEGIN SOLUTION
share = "25 %"
advice = "d"
### END SOLUTION
work.answer("advice", share=share, advice=advice)

# %% nbgrader={"grade_id": "advice_check", "locked": true}
work.check("advice")

# %% nbgrader={"grade_id": "advice_compare", "locked": true}
work.compare("advice")

# %% nbgrader={"grade_id": "advice_mark", "grade": true, "locked": true, "points": 3}
# Task 5 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("advice")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 6: A job card that is not right (5 points)
#
# Read the card as the next person will have to: complete, and each line in agreement with the others.

# %% nbgrader={"grade_id": "card_show", "locked": true}
work.show("card")

# %% nbgrader={"grade_id": "card", "solution": true}
lines = ""    # all numbers that apply
minutes = ""  # in min
### BEGIN SOLUTION
lines = "2 4 5"
minutes = "163 min"
### END SOLUTION
work.answer("card", lines=lines, minutes=minutes)

# %% nbgrader={"grade_id": "card_check", "locked": true}
work.check("card")

# %% nbgrader={"grade_id": "card_compare", "locked": true}
work.compare("card")

# %% nbgrader={"grade_id": "card_mark", "grade": true, "locked": true, "points": 5}
# Task 6 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("card")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 7: Three one-line formulas (3 points)
#
# Fill each blank with the names that are given, for example `"2 * labour"`. Write no numbers of your own job: the
# line is tried on other jobs too, and on unusual readings.

# %% nbgrader={"grade_id": "formulas_show", "locked": true}
work.show("formulas")

# %% nbgrader={"grade_id": "formulas", "solution": true}
labour_line = ""  # labour = rate * ____
total_line = ""   # total = ____
gap_line = ""     # gap = ____
### BEGIN SOLUTION
labour_line = "minutes / 60"
total_line = "(labour + parts) * (1 + tax)"
gap_line = "(left + right) / 2"
### END SOLUTION
work.answer("formulas", labour=labour_line, total=total_line, gap=gap_line)

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
# ## Task 8: Five sentences for the next person (4 points)
#
# Write five sentences, 50 to 220 words, between the quotes, in one line. Use no double quotes inside. A person marks
# this.

# %% nbgrader={"grade_id": "explain_show", "locked": true}
work.show("explain")

# %% nbgrader={"grade_id": "explain", "solution": true, "grade": true, "points": 4}
words = ""  # your five sentences
### BEGIN SOLUTION
words = "When the module grows hot a joint inside it opens, so the voltage is lost and the engine stops as if switched off, and when it cools the joint closes again. We proved it with the tester at 8 mm, well away from the fuel: it flashed cold and stayed dark at the moment the engine had died, with the stop lead off as well. The new module is pressed on a shim because the magnet would pull it to the flywheel, and we measure again after tightening because the screws move it as they pull down. It is proven when it has run hot for longer than it used to live, restarts at once and stops by its switch. Before your hand goes to the flywheel the boot is off the plug and tied away, for a machine that did not start may start the moment it is mended."
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
# After this lab comes [lesson 13, Scenarios](../../lessons/13_scenarios.ipynb).

# %% nbgrader={"grade_id": "all_check", "locked": true}
work.check()
