# %% [markdown]
# # Lab 09: Fuel, air and exhaust
#
# Wet plug, dry plug, flooded, starved, choked by its own exhaust: what does each prove?
#
# **After this you can** clear a flooded engine safely, bring an old can to another ratio, say what storage takes from fuel, tell a
# blocked screen from a wrong mixture, read plugs, and test a starved engine from the tank on.
#
# **You need:** lesson 09, a pocket calculator, about 60 minutes. **30 points.**
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

work = lab.open_lab("09", learner=learner)
work

# %% nbgrader={"grade_id": "machine_show", "locked": true}
work.show()

# %% [markdown]
# ## Task 1: Clearing a flooded engine, in order (4 points, safety)
#
# Write the letters in the order of work, for example `"c a b"`. Any sound order earns the points.

# %% nbgrader={"grade_id": "clear_show", "locked": true}
work.show("clear")

# %% nbgrader={"grade_id": "clear", "solution": true}
steps = ""  # letters in the order of work
### BEGIN SOLUTION
steps = "k f b d c h j g i a"
### END SOLUTION
work.answer("clear", steps=steps)

# %% nbgrader={"grade_id": "clear_check", "locked": true}
work.check("clear")

# %% nbgrader={"grade_id": "clear_compare", "locked": true}
work.compare("clear")

# %% nbgrader={"grade_id": "clear_mark", "grade": true, "locked": true, "points": 4}
# Task 1 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("clear")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 2: A can mixed for another machine (4 points)
#
# A can that was mixed for another machine. First the oil that is in it, then the plain fuel that brings it to what
# your machine wants. The fuel is marked on *your* oil.

# %% nbgrader={"grade_id": "mix_show", "locked": true}
work.show("mix")

# %% nbgrader={"grade_id": "mix", "solution": true}
oil = ""  # in mL
add = ""  # in L
### BEGIN SOLUTION
oil = "85.0 mL"
add = "1.27 L"
### END SOLUTION
work.answer("mix", oil=oil, add=add)

# %% nbgrader={"grade_id": "mix_check", "locked": true}
work.check("mix")

# %% nbgrader={"grade_id": "mix_compare", "locked": true}
work.compare("mix")

# %% nbgrader={"grade_id": "mix_mark", "grade": true, "locked": true, "points": 4}
# Task 2 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("mix")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 3: Old fuel on a cold morning (5 points)
#
# Turn the temperature into °C, read both columns at *your* temperature, and say how many times more vapour the light
# part gives. Then decide.

# %% nbgrader={"grade_id": "age_show", "locked": true}
work.show("age")

# %% nbgrader={"grade_id": "age", "solution": true}
temperature = ""  # in °C
fresh = ""        # in kPa
stale = ""        # in kPa
times = ""        # a plain number
decide = ""       # the letter
### BEGIN SOLUTION
temperature = "26 °C"
fresh = "72.1 kPa"
stale = "6.59 kPa"
times = "10.9"
decide = "a"
### END SOLUTION
work.answer("age", temperature=temperature, fresh=fresh, stale=stale, times=times, decide=decide)

# %% nbgrader={"grade_id": "age_check", "locked": true}
work.check("age")

# %% nbgrader={"grade_id": "age_compare", "locked": true}
work.compare("age")

# %% nbgrader={"grade_id": "age_mark", "grade": true, "locked": true, "points": 5}
# Task 3 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("age")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 4: Blocked screen or wrong mixture? (4 points)
#
# Down on power at full throttle. Two things were tried, one at a time. What did each gain, and what does it suggest?

# %% nbgrader={"grade_id": "screen_show", "locked": true}
work.show("screen")

# %% nbgrader={"grade_id": "screen", "solution": true}
screen = ""   # in %
leaner = ""   # in %, with a minus sign for a loss
verdict = ""  # the letter
### BEGIN SOLUTION
screen = "30 %"
leaner = "5 %"
verdict = "c"
### END SOLUTION
work.answer("screen", screen=screen, leaner=leaner, verdict=verdict)

# %% nbgrader={"grade_id": "screen_check", "locked": true}
work.check("screen")

# %% nbgrader={"grade_id": "screen_compare", "locked": true}
work.compare("screen")

# %% nbgrader={"grade_id": "screen_mark", "grade": true, "locked": true, "points": 4}
# Task 4 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("screen")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 5: Four plugs (4 points)
#
# A plug alone proves little. Read it together with the tester.

# %% nbgrader={"grade_id": "plugs_show", "locked": true}
work.show("plugs")

# %% nbgrader={"grade_id": "plugs", "solution": true}
plug_1 = ""  # the letter
plug_2 = ""  # the letter
plug_3 = ""  # the letter
plug_4 = ""  # the letter
### BEGIN SOLUTION
plug_1 = "f"
plug_2 = "c"
plug_3 = "a"
plug_4 = "b"
### END SOLUTION
work.answer("plugs", plug_1=plug_1, plug_2=plug_2, plug_3=plug_3, plug_4=plug_4)

# %% nbgrader={"grade_id": "plugs_check", "locked": true}
work.check("plugs")

# %% nbgrader={"grade_id": "plugs_compare", "locked": true}
work.compare("plugs")

# %% nbgrader={"grade_id": "plugs_mark", "grade": true, "locked": true, "points": 4}
# Task 5 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("plugs")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 6: Starved, flooded or no spark? (2 points)
#
# Two machines, three readings each.

# %% nbgrader={"grade_id": "state_show", "locked": true}
work.show("state")

# %% nbgrader={"grade_id": "state", "solution": true}
machine_1 = ""  # the letter
machine_2 = ""  # the letter
### BEGIN SOLUTION
machine_1 = "b"
machine_2 = "c"
### END SOLUTION
work.answer("state", machine_1=machine_1, machine_2=machine_2)

# %% nbgrader={"grade_id": "state_check", "locked": true}
work.check("state")

# %% nbgrader={"grade_id": "state_compare", "locked": true}
work.compare("state")

# %% nbgrader={"grade_id": "state_mark", "grade": true, "locked": true, "points": 2}
# Task 6 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("state")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 7: Tests of a starved engine, in order (4 points)
#
# Write the letters in the order of the tests, for example `"c a b"`. Any sound order earns the points.

# %% nbgrader={"grade_id": "order_show", "locked": true}
work.show("order")

# %% nbgrader={"grade_id": "order", "solution": true}
steps = ""  # letters in the order of the tests
### BEGIN SOLUTION
steps = "i d a c b f h e"
### END SOLUTION
work.answer("order", steps=steps)

# %% nbgrader={"grade_id": "order_check", "locked": true}
work.check("order")

# %% nbgrader={"grade_id": "order_compare", "locked": true}
work.compare("order")

# %% nbgrader={"grade_id": "order_mark", "grade": true, "locked": true, "points": 4}
# Task 7 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("order")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 8: Three one-line formulas (3 points)
#
# Fill each blank with the names that are given, for example `"2 * mix"`. Write no numbers of your own can: the line
# is tried on other cans and engines too, and on unusual readings.

# %% nbgrader={"grade_id": "formulas_show", "locked": true}
work.show("formulas")

# %% nbgrader={"grade_id": "formulas", "solution": true}
oil_line = ""   # oil = mix / ____
add_line = ""   # add = ____
gain_line = ""  # gain = ____
### BEGIN SOLUTION
oil_line = "(ratio + 1)"
add_line = "oil * ratio - fuel"
gain_line = "(after - before) / before"
### END SOLUTION
work.answer("formulas", oil=oil_line, add=add_line, gain=gain_line)

# %% nbgrader={"grade_id": "formulas_check", "locked": true}
work.check("formulas")

# %% nbgrader={"grade_id": "formulas_compare", "locked": true}
work.compare("formulas")

# %% nbgrader={"grade_id": "formulas_mark", "grade": true, "locked": true, "points": 3}
# Task 8 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("formulas")
### END HIDDEN TESTS

# %% [markdown]
# ## Before you hand it in
#
# Run the cell below: it says which answers are still open. Then save the notebook.
#
# After this lab comes [lesson 10, Complaint and fault-isolation logic](../../lessons/10_isolation_logic.ipynb).

# %% nbgrader={"grade_id": "all_check", "locked": true}
work.check()
