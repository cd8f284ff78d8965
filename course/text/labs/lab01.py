# %% [markdown]
# # Lab 01: Shop units
#
# What is 12 thou in millimetres, 120 psi in bar, 50:1 in millilitres, and why do gauge and absolute differ?
#
# **After this you can** convert a spec sheet both ways, measure the oil for a can, turn a gauge reading into
# absolute pressure, find a unit error in someone's sheet, and handle fuel safely.
#
# **You need:** lesson 01, a pocket calculator, about 40 minutes. **24 points.**
#
# ## How it works
#
# 1. Click a grey cell and press Shift and Enter: the cell runs, and its answer appears below it.
# 2. You write only between the quotes, for example `"0.25 mm"`: a number and its unit. Then run that cell.
# 3. `work.check` says whether it can be read. That costs nothing.
# 4. `work.compare` compares it with *your* machine. Your tries are counted and kept; they cost no points.
# 5. When you are done, save. What is handed in is this file.
#
# Every learner has another machine, so you can compare methods with your neighbour, but not numbers. The right
# number with a wrong or missing unit earns a quarter of that value's points. A later step is marked on your own
# earlier value, so one mistake costs once.

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

work = lab.open_lab("01", learner=learner)
work

# %% nbgrader={"grade_id": "machine_show", "locked": true}
work.show()

# %% [markdown]
# ## Task 1: Spec sheet, inch to metric (4 points)
#
# The maker writes in inch units. Write the same in metric ones. Gauge pressure stays gauge pressure.

# %% nbgrader={"grade_id": "metric_show", "locked": true}
work.show("metric")

# %% nbgrader={"grade_id": "metric", "solution": true}
air_gap = ""      # in mm
compression = ""  # in bar
torque = ""       # in N·m
storage = ""      # in °C
### BEGIN SOLUTION
air_gap, compression, torque, storage = "0.305 mm", "10.1 bar", "2.8 N·m", "27 °C"
### END SOLUTION
work.answer("metric", air_gap=air_gap, compression=compression, torque=torque, storage=storage)

# %% nbgrader={"grade_id": "metric_check", "locked": true}
work.check("metric")

# %% nbgrader={"grade_id": "metric_compare", "locked": true}
work.compare("metric")

# %% nbgrader={"grade_id": "metric_mark", "grade": true, "locked": true, "points": 4}
# Task 1 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("metric")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 2: Spec sheet, metric to inch (3 points)
#
# Now the other way round. Ask before each line: must the number grow or shrink?

# %% nbgrader={"grade_id": "inch_show", "locked": true}
work.show("inch")

# %% nbgrader={"grade_id": "inch", "solution": true}
plug_gap = ""   # in thou
crankcase = ""  # in psi
tank = ""       # in US fl oz
### BEGIN SOLUTION
plug_gap, crankcase, tank = "27.2 thou", "9.4 psi", "23.0 US fl oz"
### END SOLUTION
work.answer("inch", plug_gap=plug_gap, crankcase=crankcase, tank=tank)

# %% nbgrader={"grade_id": "inch_check", "locked": true}
work.check("inch")

# %% nbgrader={"grade_id": "inch_compare", "locked": true}
work.compare("inch")

# %% nbgrader={"grade_id": "inch_mark", "grade": true, "locked": true, "points": 3}
# Task 2 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("inch")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 3: Oil for the can (3 points)
#
# The can holds plain fuel, measured in US gallons. How much oil belongs in it?
# First write the fuel in litres, then the oil. The oil is marked on *your* litres.

# %% nbgrader={"grade_id": "oil_show", "locked": true}
work.show("oil")

# %% nbgrader={"grade_id": "oil", "solution": true}
fuel = ""  # in L
oil = ""   # in mL
### BEGIN SOLUTION
fuel, oil = "6.06 L", "189.3 mL"
### END SOLUTION
work.answer("oil", fuel=fuel, oil=oil)

# %% nbgrader={"grade_id": "oil_check", "locked": true}
work.check("oil")

# %% nbgrader={"grade_id": "oil_compare", "locked": true}
work.compare("oil")

# %% nbgrader={"grade_id": "oil_mark", "grade": true, "locked": true, "points": 3}
# Task 3 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("oil")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 4: Gauge to absolute in your workshop (3 points)
#
# Read the pressure of the air at your altitude from the table: between two rows, take the part of the way.
# Then turn the gauge reading into absolute pressure. That step is marked on *your* pressure of the air.

# %% nbgrader={"grade_id": "absolute_show", "locked": true}
work.show("absolute")

# %% nbgrader={"grade_id": "absolute", "solution": true}
air = ""       # in hPa
absolute = ""  # in bar
### BEGIN SOLUTION
air, absolute = "810 hPa", "9.21 bar"
### END SOLUTION
work.answer("absolute", air=air, absolute=absolute)

# %% nbgrader={"grade_id": "absolute_check", "locked": true}
work.check("absolute")

# %% nbgrader={"grade_id": "absolute_compare", "locked": true}
work.compare("absolute")

# %% nbgrader={"grade_id": "absolute_mark", "grade": true, "locked": true, "points": 3}
# Task 4 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("absolute")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 5: The unit error in a colleague's sheet (3 points)
#
# A colleague converted the maker's sheet. One line is wrong. Which one, what happened there, and what should it
# read?

# %% nbgrader={"grade_id": "sheet_show", "locked": true}
work.show("sheet")

# %% nbgrader={"grade_id": "sheet", "solution": true}
line = ""   # the number of the line
why = ""    # the letter of what happened
value = ""  # what the line should read, with its unit
### BEGIN SOLUTION
line, why, value = "5", "c", "6.188 US fl oz"
### END SOLUTION
work.answer("sheet", line=line, why=why, value=value)

# %% nbgrader={"grade_id": "sheet_check", "locked": true}
work.check("sheet")

# %% nbgrader={"grade_id": "sheet_compare", "locked": true}
work.compare("sheet")

# %% nbgrader={"grade_id": "sheet_mark", "grade": true, "locked": true, "points": 3}
# Task 5 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("sheet")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 6: Three one-line formulas (3 points)
#
# Fill each blank with the names that are given, for example `"2 * gauge"`. Write no numbers of your own machine: the
# line is tried on other engines too, and on unusual readings.

# %% nbgrader={"grade_id": "formulas_show", "locked": true}
work.show("formulas")

# %% nbgrader={"grade_id": "formulas", "solution": true}
oil_line = ""       # oil = fuel / ____
absolute_line = ""  # absolute = ____
thou_line = ""      # thou = ____
### BEGIN SOLUTION
oil_line, absolute_line, thou_line = "ratio", "gauge + air", "mm / 0.0254"
### END SOLUTION
work.answer("formulas", oil=oil_line, absolute=absolute_line, thou=thou_line)

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
# ## Task 7: Where you fill it, and why (2 points, safety)
#
# Choose what you do, and the reason. The reason counts only with a safe choice.

# %% nbgrader={"grade_id": "vapour_show", "locked": true}
work.show("vapour")

# %% nbgrader={"grade_id": "vapour", "solution": true}
place = ""   # the letter of what you do
reason = ""  # the letter of the reason
### BEGIN SOLUTION
place, reason = "a", "c"
### END SOLUTION
work.answer("vapour", place=place, reason=reason)

# %% nbgrader={"grade_id": "vapour_check", "locked": true}
work.check("vapour")

# %% nbgrader={"grade_id": "vapour_compare", "locked": true}
work.compare("vapour")

# %% nbgrader={"grade_id": "vapour_mark", "grade": true, "locked": true, "points": 2}
# Task 7 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("vapour")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 8: Mixing and filling, in order (3 points, safety)
#
# Write the letters in the order of work, for example `"c a b"`. Any sound order earns the points.

# %% nbgrader={"grade_id": "mixing_show", "locked": true}
work.show("mixing")

# %% nbgrader={"grade_id": "mixing", "solution": true}
steps = ""  # letters in the order of work
### BEGIN SOLUTION
steps = "k e j h c a d f g i"
### END SOLUTION
work.answer("mixing", steps=steps)

# %% nbgrader={"grade_id": "mixing_check", "locked": true}
work.check("mixing")

# %% nbgrader={"grade_id": "mixing_compare", "locked": true}
work.compare("mixing")

# %% nbgrader={"grade_id": "mixing_mark", "grade": true, "locked": true, "points": 3}
# Task 8 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("mixing")
### END HIDDEN TESTS

# %% [markdown]
# ## Before you hand it in
#
# Run the cell below: it says which answers are still open. Then save the notebook.
#
# After this lab comes [lesson 02, The two-stroke cycle](../../lessons/02_two_stroke_cycle.ipynb).

# %% nbgrader={"grade_id": "all_check", "locked": true}
work.check()
