# %% [markdown]
# # Lab 13: Scenarios
#
# Five machines on the virtual bench: which fault, proven how, and what did it cost?
#
# **After this you can** do a whole job in an order that is safe and proves its end, see in a route what told
# nothing, and isolate, repair and prove one fault for each of five kinds of complaint.
#
# **You need:** lesson 13, a pocket calculator, about two hours; the five jobs can be done on five days. **40
# points.**
#
# You write only between the quotes, and lines for the bench, then run the cell. `work.check` costs nothing;
# `work.compare` tells at once how a job was; your tries are counted and cost no points. Every learner has other
# machines. This is the practice for lab 14, where there are no hints, where the bench does not ask for
# cautions, and where a step cannot be taken back.

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

work = lab.open_lab("13", learner=learner)
work

# %% nbgrader={"grade_id": "machine_show", "locked": true}
work.show()

# %% [markdown]
# ## Task 1: A whole job, in order (4 points, safety)
#
# Ten steps, of which one has no place in the job. Any order counts in which each step finds what it needs.

# %% nbgrader={"grade_id": "whole_show", "locked": true}
work.show("whole")

# %% nbgrader={"grade_id": "whole", "solution": true}
steps = ""  # letters in the order of work
### BEGIN SOLUTION
steps = "j b d h c i f g e"
### END SOLUTION
work.answer("whole", steps=steps)

# %% nbgrader={"grade_id": "whole_check", "locked": true}
work.check("whole")

# %% nbgrader={"grade_id": "whole_compare", "locked": true}
work.compare("whole")

# %% nbgrader={"grade_id": "whole_mark", "grade": true, "locked": true, "points": 4}
# Task 1 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("whole")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 2: A colleague's route (6 points)
#
# Somebody else's job, line by line. Two lines were in vain. The cost is marked on *your* minutes.

# %% nbgrader={"grade_id": "read_show", "locked": true}
work.show("read")

# %% nbgrader={"grade_id": "read", "solution": true}
repeat = ""  # the number of the line
guess = ""   # the number of the line
minutes = ""  # in min
cost = ""  # a plain number
spared = ""  # a plain number
### BEGIN SOLUTION
repeat = "5"
guess = "4"
minutes = "86 min"
cost = "101.20"
spared = "58.30"
### END SOLUTION
work.answer("read", repeat=repeat, guess=guess, minutes=minutes, cost=cost, spared=spared)

# %% nbgrader={"grade_id": "read_check", "locked": true}
work.check("read")

# %% nbgrader={"grade_id": "read_compare", "locked": true}
work.compare("read")

# %% nbgrader={"grade_id": "read_mark", "grade": true, "locked": true, "points": 6}
# Task 2 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("read")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 3: The hedge trimmer that will not start (6 points)
#
# Work below: one line for each step, and run the cell as often as you like; it begins with a fresh machine each
# time and prints what is seen. `machine.hint()` gives the next of three hints for the step to come. Full points
# from a score of 50 of 100 (luck taken out); at most half without a verify run after the last repair; a quarter
# when the machine comes back; nothing with a caution missed.

# %% nbgrader={"grade_id": "trimmer_show", "locked": true}
work.show("trimmer")

# %% nbgrader={"grade_id": "trimmer", "solution": true}
machine = work.bench("trimmer")
# One line for each step, for example: machine.do("look_over", confirm="all")
### BEGIN SOLUTION
machine.do("known_good_plug", prepare=True, confirm="all")
machine.do("plug_look", prepare=True, confirm="all")
machine.do("prime_look", prepare=True, confirm="all")
machine.do("ask_fuel_age", prepare=True, confirm="all")
machine.do("dose_start", prepare=True, confirm="all")
machine.do("fuel_sample", prepare=True, confirm="all")
machine.do("spark_inline_cold", prepare=True, confirm="all")
machine.do("compression_wet", prepare=True, confirm="all")
machine.do("pull_feel", prepare=True, confirm="all")
machine.do("spark_shake", prepare=True, confirm="all")
machine.do("screen_look", prepare=True, confirm="all")
machine.do("clean_screen", prepare=True, confirm="all")
machine.do("verify", prepare=True, confirm="all")
machine.hand_back("screen", "90 %")
### END SOLUTION
work.answer("trimmer", route=machine.route)

# %% nbgrader={"grade_id": "trimmer_check", "locked": true}
work.check("trimmer")

# %% nbgrader={"grade_id": "trimmer_compare", "locked": true}
work.compare("trimmer")

# %% nbgrader={"grade_id": "trimmer_mark", "grade": true, "locked": true, "points": 6}
# Task 3 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("trimmer")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 4: The earth auger that starts badly when cold (6 points)
#
# Another machine, the same rules. Which tests belong to a machine that is bad only when it is cold?

# %% nbgrader={"grade_id": "auger_show", "locked": true}
work.show("auger")

# %% nbgrader={"grade_id": "auger", "solution": true}
machine = work.bench("auger")
# One line for each step, for example: machine.do("look_over", confirm="all")
### BEGIN SOLUTION
machine.do("plug_look", prepare=True, confirm="all")
machine.do("known_good_plug", prepare=True, confirm="all")
machine.do("air_gap", prepare=True, confirm="all")
machine.do("magnet_pull", prepare=True, confirm="all")
machine.do("prime_look", prepare=True, confirm="all")
machine.do("replace_module", prepare=True, confirm="all")
machine.do("verify", prepare=True, confirm="all")
machine.hand_back("module_shorted", "90 %")
### END SOLUTION
work.answer("auger", route=machine.route)

# %% nbgrader={"grade_id": "auger_check", "locked": true}
work.check("auger")

# %% nbgrader={"grade_id": "auger_compare", "locked": true}
work.compare("auger")

# %% nbgrader={"grade_id": "auger_mark", "grade": true, "locked": true, "points": 6}
# Task 4 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("auger")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 5: The brush cutter that cuts out when its wires move (6 points)
#
# The fault shows when wires are moved. In which state do you test, and in which do you prove?

# %% nbgrader={"grade_id": "cutter_show", "locked": true}
work.show("cutter")

# %% nbgrader={"grade_id": "cutter", "solution": true}
machine = work.bench("cutter")
# One line for each step, for example: machine.do("look_over", confirm="all")
### BEGIN SOLUTION
machine.do("spark_slow_fast", prepare=True, confirm="all")
machine.do("spark_shake", prepare=True, confirm="all")
machine.do("plug_look", prepare=True, confirm="all")
machine.do("spark_plug_cold", prepare=True, confirm="all")
machine.do("swap_plug", prepare=True, confirm="all")
machine.do("verify", prepare=True, confirm="all")
machine.hand_back("plug_fouled", "90 %")
### END SOLUTION
work.answer("cutter", route=machine.route)

# %% nbgrader={"grade_id": "cutter_check", "locked": true}
work.check("cutter")

# %% nbgrader={"grade_id": "cutter_compare", "locked": true}
work.compare("cutter")

# %% nbgrader={"grade_id": "cutter_mark", "grade": true, "locked": true, "points": 6}
# Task 5 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("cutter")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 6: The water pump that runs and then dies (6 points)
#
# It runs first. What is different after some minutes, and how long must the proof run?

# %% nbgrader={"grade_id": "pump_show", "locked": true}
work.show("pump")

# %% nbgrader={"grade_id": "pump", "solution": true}
machine = work.bench("pump")
# One line for each step, for example: machine.do("look_over", confirm="all")
### BEGIN SOLUTION
machine.do("fuel_filter_flow", prepare=True, confirm="all")
machine.do("tank_look", prepare=True, confirm="all")
machine.do("fill_tank", prepare=True, confirm="all")
machine.do("verify", prepare=True, confirm="all")
machine.hand_back("fuel_off", "90 %")
### END SOLUTION
work.answer("pump", route=machine.route)

# %% nbgrader={"grade_id": "pump_check", "locked": true}
work.check("pump")

# %% nbgrader={"grade_id": "pump_compare", "locked": true}
work.compare("pump")

# %% nbgrader={"grade_id": "pump_mark", "grade": true, "locked": true, "points": 6}
# Task 6 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("pump")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 7: The cut-off saw that has no strength (6 points)
#
# It starts, so there is a spark. What takes the strength away, and what is the cheapest reading that says so?

# %% nbgrader={"grade_id": "saw_show", "locked": true}
work.show("saw")

# %% nbgrader={"grade_id": "saw", "solution": true}
machine = work.bench("saw")
# One line for each step, for example: machine.do("look_over", confirm="all")
### BEGIN SOLUTION
machine.do("plug_look", prepare=True, confirm="all")
machine.do("air_filter_look", prepare=True, confirm="all")
machine.do("ask_fuel_age", prepare=True, confirm="all")
machine.do("line_pressure", prepare=True, confirm="all")
machine.do("screw_count", prepare=True, confirm="all")
machine.do("swap_plug", prepare=True, confirm="all")
machine.do("verify", prepare=True, confirm="all")
machine.hand_back("plug_cracked", "90 %")
### END SOLUTION
work.answer("saw", route=machine.route)

# %% nbgrader={"grade_id": "saw_check", "locked": true}
work.check("saw")

# %% nbgrader={"grade_id": "saw_compare", "locked": true}
work.compare("saw")

# %% nbgrader={"grade_id": "saw_mark", "grade": true, "locked": true, "points": 6}
# Task 7 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("saw")
### END HIDDEN TESTS

# %% [markdown]
# ## Before you hand it in
#
# Run the cell below: it says which answers are still open. Then save the notebook.
#
# After this lab comes [lesson 14, Final bench](../../lessons/14_final_bench.ipynb).

# %% nbgrader={"grade_id": "all_check", "locked": true}
work.check()
