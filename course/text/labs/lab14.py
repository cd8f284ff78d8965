# %% [markdown]
# # Lab 14: Final bench
#
# Can you isolate, prove and repair the fault of an unseen machine, alone?
#
# **After this you can** show that you keep hands and shop whole, find and prove one fault that nobody has told
# you, account for the job, and explain it.
#
# **You need:** labs 01 to 13, a ticket from your instructor, about 90 minutes in as many sittings as you like.
# **25 points.**
#
# This is the examination. There are no hints and no comparison: only the form of an answer is checked. The
# machine is not in this notebook: it stands on your instructor's computer, and your ticket lets you work on it.
# It is passed with every caution kept, the repair verified in the state of the complaint, and a score of at
# least 70 of 100, luck taken out.
#
# Nobody to give you a ticket? In the course's own folder `twostroke exam tickets` and `twostroke exam serve` make
# an examination for yourself; `twostroke grade 14` marks it.

# %% [markdown]
# ## Your name or number
#
# Write your name as it stands in your ticket, and run the cell. `attempt` stays 1 unless your ticket says 2 or
# more.

# %% nbgrader={"grade_id": "open", "solution": true}
learner = "your name or number"
attempt = 1
### BEGIN SOLUTION
learner = "model answer"
### END SOLUTION
from twostroke import lab

work = lab.open_lab("14", learner=learner, attempt=attempt)
work

# %% nbgrader={"grade_id": "machine_show", "locked": true}
work.show()

# %% [markdown]
# ## Task 1: Before you go on (2 points, safety)
#
# Choose what you do, and the reason. The reason counts only with a safe choice.

# %% nbgrader={"grade_id": "safe_show", "locked": true}
work.show("safe")

# %% nbgrader={"grade_id": "safe", "solution": true}
do = ""  # the letter: what you do
why = ""  # the letter: why
### BEGIN SOLUTION
do = "a"
why = "c"
### END SOLUTION
work.answer("safe", do=do, why=why)

# %% nbgrader={"grade_id": "safe_check", "locked": true}
work.check("safe")

# %% nbgrader={"grade_id": "safe_mark", "grade": true, "locked": true, "points": 2}
# Task 1 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("safe")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 2: An unseen machine (14 points)
#
# Copy your ticket between the quotes of the first line. Then work as in lab 13, one line for each step, and run
# the cell again after each: lines that were done are answered from the log and cost nothing. What is done stays
# done, so leave its line as it was. When you hand the machine back, copy the receipt between its quotes.

# %% nbgrader={"grade_id": "bench_show", "locked": true}
work.show("bench")

# %% nbgrader={"grade_id": "bench", "solution": true}
ticket = ""  # the line that your instructor gave you
machine = work.bench("bench", ticket)
# One line for each step, for example: machine.do("look_over", confirm=["moving_parts"])

receipt = ""  # as it is printed when you hand the machine back
### BEGIN SOLUTION
receipt = ""
### END SOLUTION
work.answer("bench", receipt=receipt)

# %% nbgrader={"grade_id": "bench_check", "locked": true}
work.check("bench")

# %% nbgrader={"grade_id": "bench_mark", "grade": true, "locked": true, "points": 14}
# Task 2 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("bench")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 3: Your job card (5 points)
#
# The minutes and the parts are those of *your* job, as the machine printed them. The money is marked on *your*
# minutes.

# %% nbgrader={"grade_id": "card_show", "locked": true}
work.show("card")

# %% nbgrader={"grade_id": "card", "solution": true}
minutes = ""  # in min
cost = ""  # a plain number
holds = ""  # letters of all that apply: all that belongs on this job card
### BEGIN SOLUTION
minutes = "86 min"
cost = "144.00"
holds = "a b c d f g"
### END SOLUTION
work.answer("card", minutes=minutes, cost=cost, holds=holds)

# %% nbgrader={"grade_id": "card_check", "locked": true}
work.check("card")

# %% nbgrader={"grade_id": "card_mark", "grade": true, "locked": true, "points": 5}
# Task 3 is marked here. Leave this cell as it is.
### BEGIN HIDDEN TESTS
work.mark("card")
### END HIDDEN TESTS

# %% [markdown]
# ## Task 4: What was wrong, and how you know (4 points)
#
# Write 60 to 250 words between the quotes, in one line. Use no double quotes inside. A person marks this.

# %% nbgrader={"grade_id": "explain_show", "locked": true}
work.show("explain")

# %% nbgrader={"grade_id": "explain", "grade": true, "points": 4, "solution": true}
words = ""  # your words
### BEGIN SOLUTION
words = "It would not start, cold or warm. With the tester at 8 mm there was no flash, and with the stop lead off at the module it flashed every time: so the module is good and something led its spark away. The switch measured closed in both places; a closed switch joins the primary to ground, and without its sudden opening there is no high voltage. I fitted a new switch, pulled the stop lead on again and made the run of the complaint: three cold starts, stopped by the new switch, started again at once. I am about nine tenths sure; moisture may have been the cause, so please keep it dry and tell me if the switch ever feels loose."
### END SOLUTION
work.answer("explain", words=words)

# %% nbgrader={"grade_id": "explain_check", "locked": true}
work.check("explain")

# %% [markdown]
# ## Before you hand it in
#
# Run the cell below: it says which answers are still open. Then save the notebook.
#
# After this lab comes [lesson 15, Your own machine](../../lessons/15_own_machine.ipynb).

# %% nbgrader={"grade_id": "all_check", "locked": true}
work.check()
