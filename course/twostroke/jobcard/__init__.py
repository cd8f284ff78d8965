"""The job card: what a job came to, on one page, checked before it is printed.

Examples
--------
>>> from twostroke.bench import OwnMachine
>>> own = OwnMachine("no_start", "Anna")
>>> _ = own.do("known_good_plug", reading="none", confirm="all")
>>> _ = own.do("stop_lead_off", reading="spark_returns", confirm="all")
>>> _ = own.do("replace_switch", confirm="all")
>>> _ = own.do("verify", reading="runs", confirm="all")
>>> _ = own.hand_back("stop_switch", "90 %")
>>> card = job_card(own, machine="33 cc water pump, my own", value=250.0)
>>> card.state, card.estimate.total > 0, card.advice.verdict
('fixed', True, 'repair')
"""

from __future__ import annotations

from twostroke.jobcard.card import JobCard, job_card
from twostroke.jobcard.consistency import JobCardError, check, problems, read_card
from twostroke.jobcard.page import sheet
from twostroke.jobcard.shop import Shop, load_shop

__all__ = [
    "JobCard",
    "JobCardError",
    "Shop",
    "check",
    "job_card",
    "load_shop",
    "problems",
    "read_card",
    "sheet",
]
