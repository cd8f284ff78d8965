# %% [markdown]
# # Lab 08: Compression and sealing
#
# Is 100 psi good at 1 500 m? Where does the pressure go?
#
# **After this you can** say what a tight engine must show at your altitude, read a wet and dry test, turn a pressure hold into a
# leak rate, judge engines with a gauge that is not exact, and measure compression safely.
#
# **You need:** lesson 08, a pocket calculator, about 60 minutes. **31 points.**
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

work = lab.open_lab("08", learner=learner)
work

# %% nbgrader={"grade_id": "machine_show", "locked": true}
work.show()

# %% [markdown]
# ## Task 1: What is trapped, and how far it is squeezed (4 points)
#
# The head end was measured with calliper and burette. What is trapped when the exhaust port closes, and how far is it
# squeezed? The ratio is marked on *your* trapped volume.

# %% nbgrader={"grade_id": "size_show", "locked": true}
work.show("size")

# %% nbgrader={"grade_id": "size", "solution": true}
trapped = ""  # in mL
ratio = ""    # for example "7.5:1"
### BEGIN SOLUTION
trapped = "29.9 mL"
ratio = "6.4:1"
### END SOLUTION
work.answer("size", trapped=trapped, ratio=ratio)

# %% nbgrader={"grade_id": "size_check", "locked": true}
work.check("size")

# %% nbgrader={"grade_id": "size_compare", "locked": true}
work.compare("size")

# %% nbgrader={"grade_id": "size_mark", "grade": true, "locked": true, "points": 4}
# Task 1 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("size")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 2: What the gauge should show here (5 points)
#
# Read the air at your altitude and the factor of *your* trapped ratio: between two rows, take the part of the way.
# Then work out what the gauge of a tight engine should show.

# %% nbgrader={"grade_id": "expected_show", "locked": true}
work.show("expected")

# %% nbgrader={"grade_id": "expected", "solution": true}
air = ""      # in hPa
factor = ""   # a plain number
reading = ""  # in bar, gauge
### BEGIN SOLUTION
air = "710 hPa"
factor = "10.12"
reading = "6.5 bar"
### END SOLUTION
work.answer("expected", air=air, factor=factor, reading=reading)

# %% nbgrader={"grade_id": "expected_check", "locked": true}
work.check("expected")

# %% nbgrader={"grade_id": "expected_compare", "locked": true}
work.compare("expected")

# %% nbgrader={"grade_id": "expected_mark", "grade": true, "locked": true, "points": 5}
# Task 2 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("expected")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 3: Wet and dry (4 points)
#
# What is lacking, how much of it does a spoon of oil bring back, and what does that suggest?

# %% nbgrader={"grade_id": "wetdry_show", "locked": true}
work.show("wetdry")

# %% nbgrader={"grade_id": "wetdry", "solution": true}
short = ""     # in %
regained = ""  # in %
verdict = ""   # the letter
### BEGIN SOLUTION
short = "30 %"
regained = "40 %"
verdict = "a"
### END SOLUTION
work.answer("wetdry", short=short, regained=regained, verdict=verdict)

# %% nbgrader={"grade_id": "wetdry_check", "locked": true}
work.check("wetdry")

# %% nbgrader={"grade_id": "wetdry_compare", "locked": true}
work.compare("wetdry")

# %% nbgrader={"grade_id": "wetdry_mark", "grade": true, "locked": true, "points": 4}
# Task 3 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("wetdry")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 4: How fast the crankcase loses pressure (4 points)
#
# A crankcase that leaks cannot push its charge up, and it leans the mixture. How much leaks, and what do you do next?
# The leak is marked on *your* drop.

# %% nbgrader={"grade_id": "decay_show", "locked": true}
work.show("decay")

# %% nbgrader={"grade_id": "decay", "solution": true}
drop = ""  # in bar
leak = ""  # in mL/min
next = ""  # the letter
### BEGIN SOLUTION
drop = "0.10 bar"
leak = "9 mL/min"
next = "c"
### END SOLUTION
work.answer("decay", drop=drop, leak=leak, next=next)

# %% nbgrader={"grade_id": "decay_check", "locked": true}
work.check("decay")

# %% nbgrader={"grade_id": "decay_compare", "locked": true}
work.compare("decay")

# %% nbgrader={"grade_id": "decay_mark", "grade": true, "locked": true, "points": 4}
# Task 4 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("decay")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 5: Three engines (5 points)
#
# First bring the low limit up to your workshop, with *your* air of task 2; the high limit falls in the same way.
# Then judge each engine: in, out, or cannot say.

# %% nbgrader={"grade_id": "judge_show", "locked": true}
work.show("judge")

# %% nbgrader={"grade_id": "judge", "solution": true}
low = ""       # in bar, gauge
engine_a = ""  # the letter
engine_b = ""  # the letter
engine_c = ""  # the letter
### BEGIN SOLUTION
low = "5.12 bar"
engine_a = "c"
engine_b = "a"
engine_c = "d"
### END SOLUTION
work.answer("judge", low=low, engine_a=engine_a, engine_b=engine_b, engine_c=engine_c)

# %% nbgrader={"grade_id": "judge_check", "locked": true}
work.check("judge")

# %% nbgrader={"grade_id": "judge_compare", "locked": true}
work.compare("judge")

# %% nbgrader={"grade_id": "judge_mark", "grade": true, "locked": true, "points": 5}
# Task 5 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("judge")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 6: Three one-line formulas (3 points)
#
# Fill each blank with the names that are given, for example `"2 * gauge"`. Write no numbers of your own engine: the
# line is tried on other engines too, and on unusual readings.

# %% nbgrader={"grade_id": "formulas_show", "locked": true}
work.show("formulas")

# %% nbgrader={"grade_id": "formulas", "solution": true}
ratio_line = ""  # ratio = ____ / top
hill_line = ""   # limit_here = limit * ____
leak_line = ""   # leak = volume * ____ / (air * time)
### BEGIN SOLUTION
ratio_line = "swept + top"
hill_line = "here / sea"
leak_line = "(start - end)"
### END SOLUTION
work.answer("formulas", ratio=ratio_line, hill=hill_line, leak=leak_line)

# %% nbgrader={"grade_id": "formulas_check", "locked": true}
work.check("formulas")

# %% nbgrader={"grade_id": "formulas_compare", "locked": true}
work.compare("formulas")

# %% nbgrader={"grade_id": "formulas_mark", "grade": true, "locked": true, "points": 3}
# Task 6 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("formulas")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 7: A compression test, in order (4 points, safety)
#
# Write the letters in the order of work, for example `"c a b"`. Any sound order earns the points.

# %% nbgrader={"grade_id": "order_show", "locked": true}
work.show("order")

# %% nbgrader={"grade_id": "order", "solution": true}
steps = ""  # letters in the order of work
### BEGIN SOLUTION
steps = "d f h g b a l e c k i"
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
# ## Task 8: A low reading that is not the engine's (2 points)
#
# Before you blame the engine: what else makes the needle stay low?

# %% nbgrader={"grade_id": "causes_show", "locked": true}
work.show("causes")

# %% nbgrader={"grade_id": "causes", "solution": true}
causes = ""  # all letters that apply
### BEGIN SOLUTION
causes = "a d f g"
### END SOLUTION
work.answer("causes", causes=causes)

# %% nbgrader={"grade_id": "causes_check", "locked": true}
work.check("causes")

# %% nbgrader={"grade_id": "causes_compare", "locked": true}
work.compare("causes")

# %% nbgrader={"grade_id": "causes_mark", "grade": true, "locked": true, "points": 2}
# Task 8 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("causes")
### END HIDDEN TESTS

# %% [markdown]
# ## For those who program: a function that gives the leak rate (no points)
#
# Nothing depends on it. Replace the line that says `None` and run the cell: your function is tried on your machine, on
# others, and on readings that it must refuse. A loop that never ends is stopped after a second.

# %% nbgrader={"grade_id": "leak_show", "locked": true}
work.try_function("leak")

# %% nbgrader={"grade_id": "leak", "solution": true}
def leak(volume, start, end, seconds):
    rate = None
    ### BEGIN SOLUTION
    for value in (volume, start, end, seconds):
        if type(value) not in (int, float):
            raise ValueError("a reading is missing or is no number")
    if volume <= 0 or seconds <= 0 or end > start:
        raise ValueError("volume and time must be above nought, the end not above the start")
    rate = volume * (start - end) / 1.01325 / seconds * 60
    ### END SOLUTION
    return rate


work.try_function("leak", leak)

# %% [markdown]
# ## Before you hand it in
#
# Run the cell below: it says which answers are still open. Then save the notebook.
#
# After this lab comes [lesson 09, Fuel, air and exhaust](../../lessons/09_fuel_air_exhaust.ipynb).

# %% nbgrader={"grade_id": "all_check", "locked": true}
work.check()
