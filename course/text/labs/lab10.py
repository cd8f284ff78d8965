# %% [markdown]
# # Lab 10: Complaint and fault-isolation logic
#
# What did the owner really tell me, and which test comes next?
#
# **After this you can** sort a complaint into evidence and opinion, move a chance by counting, weigh a test in minutes, halve a chain,
# put checks in the quickest order, and do a whole job on the virtual bench.
#
# **You need:** lesson 10, a pocket calculator, about 90 minutes. **39 points.**
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

work = lab.open_lab("10", learner=learner)
work

# %% nbgrader={"grade_id": "machine_show", "locked": true}
work.show()

# %% [markdown]
# ## Task 1: What did the owner really tell you? (4 points)
#
# Read the owner's words. Which kind of complaint is it, what is evidence, and what do you ask or look at next?

# %% nbgrader={"grade_id": "complaint_show", "locked": true}
work.show("complaint")

# %% nbgrader={"grade_id": "complaint", "solution": true}
kind = ""   # the letter
facts = ""  # all letters that apply
ask = ""    # the letter
### BEGIN SOLUTION
kind = "d"
facts = "b d f"
ask = "a"
### END SOLUTION
work.answer("complaint", kind=kind, facts=facts, ask=ask)

# %% nbgrader={"grade_id": "complaint_check", "locked": true}
work.check("complaint")

# %% nbgrader={"grade_id": "complaint_compare", "locked": true}
work.compare("complaint")

# %% nbgrader={"grade_id": "complaint_mark", "grade": true, "locked": true, "points": 4}
# Task 1 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("complaint")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 2: From fuel to spark (2 points, safety)
#
# Choose what you do, and the reason. The reason counts only with a safe choice.

# %% nbgrader={"grade_id": "safe_show", "locked": true}
work.show("safe")

# %% nbgrader={"grade_id": "safe", "solution": true}
do = ""   # the letter
why = ""  # the letter
### BEGIN SOLUTION
do = "a"
why = "d"
### END SOLUTION
work.answer("safe", do=do, why=why)

# %% nbgrader={"grade_id": "safe_check", "locked": true}
work.check("safe")

# %% nbgrader={"grade_id": "safe_compare", "locked": true}
work.compare("safe")

# %% nbgrader={"grade_id": "safe_mark", "grade": true, "locked": true, "points": 2}
# Task 2 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("safe")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 3: Counting machines (5 points)
#
# Lay out 1 000 machines with this complaint and count. The share is marked on *your* count.

# %% nbgrader={"grade_id": "count_show", "locked": true}
work.show("count")

# %% nbgrader={"grade_id": "count", "solution": true}
dark = ""   # a plain number
share = ""  # in %
after = ""  # in %
### BEGIN SOLUTION
dark = "276"
share = "55 %"
after = "95 %"
### END SOLUTION
work.answer("count", dark=dark, share=share, after=after)

# %% nbgrader={"grade_id": "count_check", "locked": true}
work.check("count")

# %% nbgrader={"grade_id": "count_compare", "locked": true}
work.compare("count")

# %% nbgrader={"grade_id": "count_mark", "grade": true, "locked": true, "points": 5}
# Task 3 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("count")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 4: What is a test worth? (6 points)
#
# A test costs its own minutes and saves minutes of wrong repair. The rates are marked on *your* minutes saved.

# %% nbgrader={"grade_id": "worth_show", "locked": true}
work.show("worth")

# %% nbgrader={"grade_id": "worth", "solution": true}
without = ""     # in min
quick = ""       # in min
sure = ""        # in min
quick_rate = ""  # a plain number
sure_rate = ""   # a plain number
choice = ""      # the letter
### BEGIN SOLUTION
without = "72 min"
quick = "12 min"
sure = "20 min"
quick_rate = "5.8"
sure_rate = "2.0"
choice = "c"
### END SOLUTION
work.answer("worth", without=without, quick=quick, sure=sure, quick_rate=quick_rate, sure_rate=sure_rate,
            choice=choice)

# %% nbgrader={"grade_id": "worth_check", "locked": true}
work.check("worth")

# %% nbgrader={"grade_id": "worth_compare", "locked": true}
work.compare("worth")

# %% nbgrader={"grade_id": "worth_mark", "grade": true, "locked": true, "points": 6}
# Task 4 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("worth")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 5: Halving a chain (4 points)
#
# A fuel path of five links. Where do you probe first, and how many probes does it take on average if you split well
# each time? (For each link: how many probes until it is found? Weigh by its chance.)

# %% nbgrader={"grade_id": "chain_show", "locked": true}
work.show("chain")

# %% nbgrader={"grade_id": "chain", "solution": true}
point = ""   # the number of the option
before = ""  # in %
probes = ""  # a plain number
### BEGIN SOLUTION
point = "2"
before = "55 %"
probes = "2.2"
### END SOLUTION
work.answer("chain", point=point, before=before, probes=probes)

# %% nbgrader={"grade_id": "chain_check", "locked": true}
work.check("chain")

# %% nbgrader={"grade_id": "chain_compare", "locked": true}
work.compare("chain")

# %% nbgrader={"grade_id": "chain_mark", "grade": true, "locked": true, "points": 4}
# Task 5 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("chain")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 6: The shortest order (5 points)
#
# Put the checks in an order, then say what it takes on average. Both figures are marked on *your* order.

# %% nbgrader={"grade_id": "order_show", "locked": true}
work.show("order")

# %% nbgrader={"grade_id": "order", "solution": true}
order = ""       # all letters, for example "c a b …"
first_rate = ""  # a plain number
minutes = ""     # in min
### BEGIN SOLUTION
order = "e b d c a"
first_rate = "3.8"
minutes = "31 min"
### END SOLUTION
work.answer("order", order=order, first_rate=first_rate, minutes=minutes)

# %% nbgrader={"grade_id": "order_check", "locked": true}
work.check("order")

# %% nbgrader={"grade_id": "order_compare", "locked": true}
work.compare("order")

# %% nbgrader={"grade_id": "order_mark", "grade": true, "locked": true, "points": 5}
# Task 6 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("order")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 7: Three one-line formulas (3 points)
#
# Fill each blank with the names that are given, for example `"2 * first"`. Write no numbers of your own job: the line
# is tried on other jobs too, and on unusual readings.

# %% nbgrader={"grade_id": "formulas_show", "locked": true}
work.show("formulas")

# %% nbgrader={"grade_id": "formulas", "solution": true}
share_line = ""  # chance = has / ____
two_line = ""    # average = first + ____ * second
worth_line = ""  # gained = without - ____
### BEGIN SOLUTION
share_line = "(has + others)"
two_line = "(1 - chance)"
worth_line = "(after + test)"
### END SOLUTION
work.answer("formulas", share=share_line, two=two_line, worth=worth_line)

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
# ## Task 8: A job on the bench (6 points)
#
# Work below: one line for each step, and run the cell as often as you like; it begins with a fresh machine each time and
# prints what is seen. Full points from a score of 50 of 100 (luck taken out); at most half without a verify run after the
# last repair; a quarter when the machine comes back; nothing with a caution missed.

# %% nbgrader={"grade_id": "bench_show", "locked": true}
work.show("bench")

# %% nbgrader={"grade_id": "bench", "solution": true}
machine = work.bench("bench")
# One line for each step, for example: machine.do("look_over", confirm="all")
### BEGIN SOLUTION
machine.do("known_good_plug", prepare=True, confirm="all")
machine.do("plug_look", prepare=True, confirm="all")
machine.do("dose_start", prepare=True, confirm="all")
machine.do("clear_flood", prepare=True, confirm="all")
machine.do("verify", prepare=True, confirm="all")
machine.hand_back("flooded", "90 %")
### END SOLUTION
work.answer("bench", route=machine.route)

# %% nbgrader={"grade_id": "bench_check", "locked": true}
work.check("bench")

# %% nbgrader={"grade_id": "bench_compare", "locked": true}
work.compare("bench")

# %% nbgrader={"grade_id": "bench_mark", "grade": true, "locked": true, "points": 6}
# Task 8 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("bench")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 9: Why that test first? (4 points)
#
# Write 40 to 250 words between the quotes, in one line. Use no double quotes inside. A person marks this.

# %% nbgrader={"grade_id": "explain_show", "locked": true}
work.show("explain")

# %% nbgrader={"grade_id": "explain", "solution": true, "grade": true, "points": 4}
words = ""  # your words
### BEGIN SOLUTION
words = "I began with the tester at a wide gap because it takes two minutes and splits the job in half: about three in ten such machines have no spark, the others lack fuel, air or compression. Dark, I would have taken the stop lead off next; with a flash I went on to the plug and the fuel. Looking at the carburettor first takes ten times as long and tells a dead module from nothing. A flash at the tester does not prove the plug, so I looked at it next. At hand-back I was about nine tenths sure: the readings fit one fault and it ran in the condition of the complaint, but a fault that comes now and then could hide behind one good run."
### END SOLUTION
work.answer("explain", words=words)

# %% nbgrader={"grade_id": "explain_check", "locked": true}
work.check("explain")

# %% nbgrader={"grade_id": "explain_compare", "locked": true}
work.compare("explain")

# %% [markdown]
# ## For those who program: the least average minutes of a list of checks (no points)
#
# Nothing depends on it. Replace the line that says `None` and run the cell: your function is tried on your checks, on
# others, and on lists that it must refuse. A loop that never ends is stopped after a second. (The library's own way for
# the whole course: `isolation.Belief` and `isolation.Planner`.)

# %% nbgrader={"grade_id": "quickest_show", "locked": true}
work.try_function("quickest")

# %% nbgrader={"grade_id": "quickest", "solution": true}
def quickest(chances, minutes):
    average = None
    ### BEGIN SOLUTION
    if len(chances) != len(minutes):
        raise ValueError("a chance or its minutes are missing")
    for value in (*chances, *minutes):
        if type(value) not in (int, float):
            raise ValueError("something is missing or is no number")
    if min(chances) < 0 or min(minutes) <= 0:
        raise ValueError("a chance below nought, or minutes not above it")
    average, left = 0, sum(chances)
    for chance, time in sorted(zip(chances, minutes), key=lambda row: -row[0] / row[1]):
        average += left / 100 * time
        left -= chance
    ### END SOLUTION
    return average


work.try_function("quickest", quickest)

# %% [markdown]
# ## Before you hand it in
#
# Run the cell below: it says which answers are still open. Then save the notebook.
#
# After this lab comes [lesson 11, Intermittent and heat-dependent faults](../../lessons/11_intermittent.ipynb).

# %% nbgrader={"grade_id": "all_check", "locked": true}
work.check()
