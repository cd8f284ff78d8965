"""Fault isolation: what is still possible, which test next, and how good a route was."""

from __future__ import annotations

from twostroke.isolation.belief import Belief, ContradictionError
from twostroke.isolation.bounds import Bound, lower_bound
from twostroke.isolation.chart import Chart, route_chart
from twostroke.isolation.exact import Exact
from twostroke.isolation.explain import Explanation, explain
from twostroke.isolation.planner import Advice, Planner
from twostroke.isolation.score import RouteScore, score_route
from twostroke.table import Table, load_table

__all__ = [
    "Advice",
    "Belief",
    "Bound",
    "Chart",
    "ContradictionError",
    "Exact",
    "Explanation",
    "Planner",
    "RouteScore",
    "Table",
    "explain",
    "load_table",
    "lower_bound",
    "route_chart",
    "score_route",
]
