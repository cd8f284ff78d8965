"""The virtual engine on the bench: actions in, readings out, with a clock, cautions and consequences.

:class:`Bench` is one machine and one job; :class:`OwnMachine` answers the same calls with readings typed in.
"""

from __future__ import annotations

from twostroke.bench.asking import SESSION_ACTIONS
from twostroke.bench.keeping import RouteError, from_json, replay, to_json
from twostroke.bench.models import MODELS, Model
from twostroke.bench.outcome import Outcome
from twostroke.bench.own import OwnMachine
from twostroke.bench.reading import Reading, Shown, Step
from twostroke.bench.sampling import sample_results
from twostroke.bench.session import Bench
from twostroke.bench.verify_list import Item, verify_list
from twostroke.bench.work_order import Breach, WorkOrder, breaches, order_of, orders, shuffled

__all__ = [
    "MODELS",
    "SESSION_ACTIONS",
    "Bench",
    "Breach",
    "Item",
    "Model",
    "Outcome",
    "OwnMachine",
    "Reading",
    "RouteError",
    "Shown",
    "Step",
    "WorkOrder",
    "breaches",
    "from_json",
    "order_of",
    "orders",
    "replay",
    "sample_results",
    "shuffled",
    "to_json",
    "verify_list",
]
