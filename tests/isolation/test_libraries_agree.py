"""Posteriors against two published libraries for Bayesian networks, to 1e-12: pgmpy and pyAgrum."""

from __future__ import annotations

import numpy as np
import pytest
from twostroke.isolation import Belief

READINGS = [
    ("spark_cold", "none"),
    ("plug_look", "wet"),
    ("lead_ohm", "in_range"),
    ("spark_shake", "cuts_out"),
]
TOLERANCE = 1e-12


def _network(belief, readings):
    """Prior over the hypotheses and one likelihood table for each reading, all as the belief has them."""
    model = belief.model
    prior = model.prior[: model.fixed]
    tables = []
    for test, result in readings:
        condition = belief.table.tests[test].condition("cold")
        tables.append(
            (test, model.likelihood(test, condition)[: model.fixed], model.result_number(test, result))
        )
    complaint = belief.table.complaint
    kinds = np.array([model.complaint(kind)[: model.fixed] for kind in complaint.results]).T
    tables.append(("complaint", kinds, complaint.results.index(belief.complaint)))
    return prior, tables


@pytest.fixture(params=[False, True], ids=["36 single faults", "631 with pairs"])
def case(request, form):
    belief = Belief(form, "no_start", pairs=request.param)
    prior, tables = _network(belief, READINGS)
    for test, result in READINGS:
        belief.update(test, result)
    assert len(prior) == (631 if request.param else 36)
    return belief.vector[: belief.model.fixed], prior, tables


def test_does_pyagrum_give_the_same_posterior(case):
    gum = pytest.importorskip("pyagrum")
    posterior, prior, tables = case
    network = gum.BayesNet()
    fault = network.add(gum.LabelizedVariable("fault", "", len(prior)))
    network.cpt(fault).fillWith(prior.tolist())
    evidence = {}
    for name, rows, seen in tables:
        node = network.add(gum.LabelizedVariable(name, "", rows.shape[1]))
        network.addArc(fault, node)
        for number, row in enumerate(rows):
            network.cpt(node)[{"fault": number}] = row.tolist()
        evidence[name] = seen
    inference = gum.LazyPropagation(network)
    inference.setEvidence(evidence)
    inference.makeInference()
    assert np.abs(inference.posterior("fault").toarray() - posterior).max() < TOLERANCE


@pytest.mark.slow
def test_does_pgmpy_give_the_same_posterior(case):
    pytest.importorskip("pgmpy")
    from pgmpy.factors.discrete import TabularCPD
    from pgmpy.inference import VariableElimination
    from pgmpy.models import DiscreteBayesianNetwork

    posterior, prior, tables = case
    network = DiscreteBayesianNetwork([("fault", name) for name, _, _ in tables])
    network.add_cpds(TabularCPD("fault", len(prior), prior[:, None] / prior.sum()))
    for name, rows, _ in tables:
        values = rows.T / rows.T.sum(axis=0)
        network.add_cpds(
            TabularCPD(name, rows.shape[1], values, evidence=["fault"], evidence_card=[len(prior)])
        )
    inference = VariableElimination(network)
    found = inference.query(["fault"], evidence={name: seen for name, _, seen in tables}, show_progress=False)
    assert np.abs(found.values - posterior).max() < TOLERANCE


def test_is_noisy_max_the_two_layer_network(form):
    """Each of two faults pushes the result up on its own; the worse of the two pushes is seen.

    An explicit two-layer network in pyAgrum: two fault nodes over a few faults, one push each, their maximum;
    conditioned on one or two different faults it must give the same rows for every pair.
    """
    gum = pytest.importorskip("pyagrum")
    model = Belief(form).model
    for test in ("spark_cold", "plug_look", "dose_start"):
        rows = model.likelihood(test, "cold")
        results = rows.shape[1]
        chosen = [model.index[name] for name in ("boot_loose", "needle_leak", "rings", "plug_fouled")]
        network = gum.BayesNet()
        one, two = (network.add(gum.LabelizedVariable(name, "", len(chosen))) for name in ("one", "two"))
        pushes = []
        for fault, name in ((one, "push_one"), (two, "push_two")):
            network.cpt(fault).fillWith([1 / len(chosen)] * len(chosen))
            push = network.add(gum.LabelizedVariable(name, "", results))
            network.addArc(fault, push)
            for number, hypothesis in enumerate(chosen):
                network.cpt(push)[{network.variable(fault).name(): number}] = rows[hypothesis].tolist()
            pushes.append(push)
        seen = network.add(gum.LabelizedVariable("seen", "", results))
        for push in pushes:
            network.addArc(push, seen)
        for first in range(results):
            for second in range(results):
                row = [0.0] * results
                row[max(first, second)] = 1.0
                network.cpt(seen)[{"push_one": first, "push_two": second}] = row
        inference = gum.LazyPropagation(network)
        for a in range(len(chosen)):
            for b in range(a + 1, len(chosen)):
                inference.setEvidence({"one": a, "two": b})
                inference.makeInference()
                pair = model.pair_number(model.faults[chosen[a]], model.faults[chosen[b]])
                assert np.abs(inference.posterior("seen").toarray() - rows[pair]).max() < TOLERANCE
