"""Tiers of the tests: the quick tier by default, everything with ``--all``, soak work with ``--long``."""

from __future__ import annotations

import os
import socket
from itertools import count

os.environ.setdefault("OMP_NUM_THREADS", "1")
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
os.environ.setdefault("MPLBACKEND", "Agg")

import pytest
from hypothesis import settings

# The same examples in every run, so that a red test is red for everybody; the long tier draws new ones.
settings.register_profile("same_examples", derandomize=True, deadline=None)
settings.load_profile("same_examples")


_FIRST_PORT = 20_000


@pytest.fixture(scope="session")
def free_port():
    """Finds ports that stay free until they are used.

    They lie below those that Linux gives to outgoing connections (32768 and up), and each process of the
    tests begins at another place, so that nobody takes one in the meantime.
    """
    ports = count(_FIRST_PORT + os.getpid() % 1000 * 12)

    def find() -> int:
        for port in ports:
            with socket.socket() as probe:
                try:
                    probe.bind(("127.0.0.1", port))
                except OSError:
                    continue
            return port

    return find


def pytest_addoption(parser):
    group = parser.getgroup("twostroke")
    group.addoption("--all", action="store_true", help="run the slow tier too; a skip counts as a failure")
    group.addoption("--long", action="store_true", help="run soak and growth tests too")


def pytest_configure(config):
    if config.getoption("--long"):
        settings.load_profile("default")


@pytest.hookimpl(trylast=True)
def pytest_collection_modifyitems(config, items):
    left_out = []
    if not config.getoption("--all"):
        left_out.append("slow")
    if not config.getoption("--long"):
        left_out.append("long")
    kept, dropped = [], []
    for item in items:
        (dropped if any(item.get_closest_marker(name) for name in left_out) else kept).append(item)
    if dropped:
        config.hook.pytest_deselected(items=dropped)
        items[:] = kept
    long_files = {
        item.path for item in items if item.get_closest_marker("slow") or item.get_closest_marker("browser")
    }
    # Workers take whole files from the front: the long ones first, so that none is left alone at the end.
    items.sort(key=lambda item: item.path not in long_files)


@pytest.hookimpl(hookwrapper=True)
def pytest_runtest_makereport(item, call):
    outcome = yield
    report = outcome.get_result()
    if "benchmark" in getattr(item, "fixturenames", ()) and item.config.getoption("benchmark_skip", False):
        return
    if report.skipped and item.config.getoption("--all") and not hasattr(report, "wasxfail"):
        reason = report.longrepr[2] if isinstance(report.longrepr, tuple) else report.longrepr
        report.outcome = "failed"
        report.longrepr = f"{item.nodeid}: skipped, and with --all a skip is a failure: {reason}"


@pytest.hookimpl(hookwrapper=True)
def pytest_make_collect_report(collector):
    outcome = yield
    report = outcome.get_result()
    if report.skipped and collector.config.getoption("--all"):
        report.outcome = "failed"
        report.longrepr = (
            f"{collector.nodeid}: skipped, and with --all a skip is a failure: {report.longrepr}"
        )
