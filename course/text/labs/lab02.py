# %% [markdown]
# # Lab 02: The two-stroke cycle
#
# Where are the ports, the piston and the pressure at each degree of crank?
#
# **After this you can** work out displacement, geometric and trapped ratio, read the piston's depth at a
# crank angle, turn port heights into timing and an advance in millimetres into degrees, and measure through
# the plug hole safely.
#
# **You need:** lesson 02, a pocket calculator with sine and cosine (set to degrees), about 50 minutes. **21
# points.**
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

work = lab.open_lab("02", learner=learner)
work

# %% nbgrader={"grade_id": "machine_show", "locked": true}
work.show()

# %% [markdown]
# ## Task 1: Displacement (2 points)
#
# Area of the piston times stroke. Mind the decimal place between cubic millimetres and cubic centimetres.

# %% nbgrader={"grade_id": "displacement_show", "locked": true}
work.show("displacement")

# %% nbgrader={"grade_id": "displacement", "solution": true}
swept = ""  # in cm³
### BEGIN SOLUTION
swept = "43.5 cm³"
### END SOLUTION
work.answer("displacement", swept=swept)

# %% nbgrader={"grade_id": "displacement_check", "locked": true}
work.check("displacement")

# %% nbgrader={"grade_id": "displacement_compare", "locked": true}
work.compare("displacement")

# %% nbgrader={"grade_id": "displacement_mark", "grade": true, "locked": true, "points": 2}
# Task 1 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("displacement")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 2: Geometric and trapped ratio (4 points)
#
# The geometric ratio compares the volume at bottom with the volume at top. The trapped ratio begins where
# the exhaust port closes: before that, the charge can still leave. Your own displacement and your own
# trapped volume are used for marking.

# %% nbgrader={"grade_id": "ratios_show", "locked": true}
work.show("ratios")

# %% nbgrader={"grade_id": "ratios", "solution": true}
geometric = ""      # a ratio, such as "12.3:1"
trapped = ""        # in cm³
trapped_ratio = ""  # a ratio, such as "12.3:1"
### BEGIN SOLUTION
geometric, trapped, trapped_ratio = "8.4:1", "28.8 cm³", "5.9:1"
### END SOLUTION
work.answer("ratios", geometric=geometric, trapped=trapped, trapped_ratio=trapped_ratio)

# %% nbgrader={"grade_id": "ratios_check", "locked": true}
work.check("ratios")

# %% nbgrader={"grade_id": "ratios_compare", "locked": true}
work.compare("ratios")

# %% nbgrader={"grade_id": "ratios_mark", "grade": true, "locked": true, "points": 4}
# Task 2 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("ratios")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 3: Piston depth at a crank angle (2 points)
#
# The piston does not move evenly with the crank. Read the table; between two rows take the part of the way.

# %% nbgrader={"grade_id": "piston_show", "locked": true}
work.show("piston")

# %% nbgrader={"grade_id": "piston", "solution": true}
depth = ""  # in mm
### BEGIN SOLUTION
depth = "1.9 mm"
### END SOLUTION
work.answer("piston", depth=depth)

# %% nbgrader={"grade_id": "piston_check", "locked": true}
work.check("piston")

# %% nbgrader={"grade_id": "piston_compare", "locked": true}
work.compare("piston")

# %% nbgrader={"grade_id": "piston_mark", "grade": true, "locked": true, "points": 2}
# Task 3 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("piston")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 4: Port timing from heights (4 points)
#
# Read the two openings from the table, then work out how long the exhaust stays open, and how many degrees
# lie between the two openings (the blowdown).

# %% nbgrader={"grade_id": "ports_show", "locked": true}
work.show("ports")

# %% nbgrader={"grade_id": "ports", "solution": true}
exhaust = ""   # in deg
duration = ""  # in deg
transfer = ""  # in deg
blowdown = ""  # in deg
### BEGIN SOLUTION
exhaust, duration, transfer, blowdown = "101.9 deg", "156.3 deg", "116.1 deg", "14.2 deg"
### END SOLUTION
work.answer("ports", exhaust=exhaust, duration=duration, transfer=transfer, blowdown=blowdown)

# %% nbgrader={"grade_id": "ports_check", "locked": true}
work.check("ports")

# %% nbgrader={"grade_id": "ports_compare", "locked": true}
work.compare("ports")

# %% nbgrader={"grade_id": "ports_mark", "grade": true, "locked": true, "points": 4}
# Task 4 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("ports")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 5: Ignition advance from millimetres to degrees (3 points)
#
# A dial gauge in the plug hole gives the advance in millimetres. Work out s first, with all your digits,
# then the angle. The angle is marked on *your* s.

# %% nbgrader={"grade_id": "advance_show", "locked": true}
work.show("advance")

# %% nbgrader={"grade_id": "advance", "solution": true}
pin = ""    # in mm
angle = ""  # in deg
### BEGIN SOLUTION
pin, angle = "80.47 mm", "26.0 deg"
### END SOLUTION
work.answer("advance", pin=pin, angle=angle)

# %% nbgrader={"grade_id": "advance_check", "locked": true}
work.check("advance")

# %% nbgrader={"grade_id": "advance_compare", "locked": true}
work.compare("advance")

# %% nbgrader={"grade_id": "advance_mark", "grade": true, "locked": true, "points": 3}
# Task 5 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("advance")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 6: Three one-line formulas (3 points)
#
# Fill each blank with the names that are given. Write no numbers of your own engine: the line is tried on
# other engines too, and on unusual readings.

# %% nbgrader={"grade_id": "formulas_show", "locked": true}
work.show("formulas")

# %% nbgrader={"grade_id": "formulas", "solution": true}
swept_line = ""     # swept = pi / 4 * ____
trapped_line = ""   # trapped = (____) / clearance
duration_line = ""  # duration = 360 - ____
### BEGIN SOLUTION
swept_line, trapped_line, duration_line = "bore^2 * stroke", "closed + clearance", "2 * opening"
### END SOLUTION
work.answer("formulas", swept=swept_line, trapped=trapped_line, duration=duration_line)

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
# ## Task 7: Measuring through the plug hole, in order (3 points, safety)
#
# Write the letters in the order of work, for example `"c a b"`. Any sound order earns the points.

# %% nbgrader={"grade_id": "safe_measuring_show", "locked": true}
work.show("safe_measuring")

# %% nbgrader={"grade_id": "safe_measuring", "solution": true}
steps = ""  # letters in the order of work
### BEGIN SOLUTION
steps = "i j e h d f g c b a"
### END SOLUTION
work.answer("safe_measuring", steps=steps)

# %% nbgrader={"grade_id": "safe_measuring_check", "locked": true}
work.check("safe_measuring")

# %% nbgrader={"grade_id": "safe_measuring_compare", "locked": true}
work.compare("safe_measuring")

# %% nbgrader={"grade_id": "safe_measuring_mark", "grade": true, "locked": true, "points": 3}
# Task 7 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("safe_measuring")
### END HIDDEN TESTS

# %% [markdown]
# ## Before you hand it in
#
# Run the cell below: it says which answers are still open. Then save the notebook.
#
# After this lab comes [lesson 03, From magnet to spark](../../lessons/03_magnet_to_spark.ipynb).

# %% nbgrader={"grade_id": "all_check", "locked": true}
work.check()
