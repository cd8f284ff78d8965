"""Mutants of calculation modules, each tried on the tests that concern its module: see test_mutants.py.

    python tests/unit/mutants.py survivors.json gap verdict

cosmic-ray makes the mutants in memory; no file of the package is touched. The tests are collected and run
once, which also tells what each of them calls. Then each mutant runs in a fork: the changed function or
constant is put into the loaded package, and the tests that call it run until one fails. What acts only
while the module is loaded (defaults of parameters, fields of classes, imports) is made but not tried.
"""

from __future__ import annotations

import ast
import contextlib
import csv
import difflib
import gc
import json
import multiprocessing
import os
import sys
import time
from inspect import CO_OPTIMIZED
from pathlib import Path
from types import CodeType, FunctionType

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "course" / "twostroke"
with open(ROOT / "tests" / "unit" / "tables" / "mutant_tests.csv", encoding="utf-8", newline="") as listed:
    TESTS = {row["module"]: row["tests"].split() for row in csv.DictReader(listed)}
SWAPS = (
    *("Add_Sub", "Sub_Add", "Mul_Div", "Div_Mul", "Pow_Mul", "FloorDiv_Mul", "Mod_Mul"),
    *("Lt_LtE", "LtE_Lt", "Gt_GtE", "GtE_Gt", "Lt_GtE", "LtE_Gt", "Gt_LtE", "GtE_Lt"),
    *("Eq_NotEq", "NotEq_Eq", "Is_IsNot", "IsNot_Is", "In_NotIn", "NotIn_In"),
    *("Delete_USub", "Delete_Not"),
)
WHOLE = (
    *("AddNot", "ReplaceTrueWithFalse", "ReplaceFalseWithTrue", "ReplaceAndWithOr", "ReplaceOrWithAnd"),
    *("ReplaceBreakWithContinue", "ReplaceContinueWithBreak", "ExceptionReplacer", "NumberReplacer"),
    "ZeroIterationForLoop",
)
HOMES = {  # the public module whose door leads to a private one
    **dict.fromkeys(("_reading", "_registry", "_number_text", "_unit_words"), "units"),
    **dict.fromkeys(("_air", "_cylinder", "_leaks", "_pumping"), "compression"),
    "_copper": "resistance",
    "_slider_crank": "geometry",
}
LEAST_SECONDS = 10.0  # of processor time, so that a busy machine kills no mutant
STOPPED = "stopped: out of time, or out of its mind"


def mutants(name):
    """Each change that behaves otherwise, as (source text, function, old line, new line)."""
    from cosmic_ray.ast import Visitor, get_ast
    from cosmic_ray.mutating import mutate_code
    from cosmic_ray.plugins import get_operator, operator_names

    class Places(Visitor):
        """Counts the places where an operator can act."""

        def __init__(self, operator):
            self.operator, self.found = operator, 0

        def visit(self, node):
            self.found += len(list(self.operator.mutation_positions(node)))
            return node

    text = (PACKAGE / f"{name}.py").read_text(encoding="utf-8")
    seen = {_behaviour(text)}
    for full in operator_names():
        short = full.split("/")[1]
        if short not in WHOLE and not (short.startswith("Replace") and short.endswith(SWAPS)):
            continue
        operator = get_operator(full)()
        places = Places(operator)
        places.walk(get_ast(text))
        for occurrence in range(places.found):
            changed = mutate_code(text, operator, occurrence)
            with contextlib.suppress(SyntaxError):
                behaviour = _behaviour(changed)
                if behaviour not in seen:
                    seen.add(behaviour)
                    yield changed, *_change(text, changed)


def _behaviour(text):
    """The code as a tree without annotations, which nobody evaluates."""
    tree = ast.parse(text)
    for node in ast.walk(tree):
        if isinstance(node, (ast.FunctionDef, ast.AsyncFunctionDef)):
            node.returns = None
        if isinstance(node, ast.arg):
            node.annotation = None
        if isinstance(node, ast.AnnAssign):
            node.annotation = ast.Constant(0)
    return ast.dump(tree)


def _change(text, changed):
    """Function, old line and new line, none of which moves when other lines come or go."""
    old, new = text.splitlines(), changed.splitlines()
    codes = [
        code for code in difflib.SequenceMatcher(None, old, new, False).get_opcodes() if code[0] != "equal"
    ]
    first, last = codes[0][1], codes[-1][2]
    removed = " ".join(line.strip() for line in old[first:last])
    added = " ".join(" ".join(line.split()) for line in new[codes[0][3] : codes[-1][4]])
    return _function_at(text, first + 1), removed, added


def _function_at(text, line):
    names = []
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, (ast.FunctionDef, ast.ClassDef)):
            start = min([node.lineno, *(one.lineno for one in node.decorator_list)])
            if start <= line <= node.end_lineno:
                names.append(node.name)
    return ".".join(names)


def _file(name):
    return str(PACKAGE / f"{name}.py")


def _codes(code):
    """Each outermost function by its qualified name, and what runs when the module is loaded."""
    functions, loading = {}, [_bare(code)]
    for one in code.co_consts:
        if isinstance(one, CodeType) and one.co_flags & CO_OPTIMIZED:
            functions.setdefault(one.co_qualname, []).append(one)
        elif isinstance(one, CodeType):  # the body of a class
            inner, body = _codes(one)
            functions.update(inner)
            loading += body
    return functions, loading


def _bare(code):
    """What a code object does, without its places in the file."""
    consts = [
        _bare(one) if isinstance(one, CodeType) and one.co_flags & CO_OPTIMIZED else repr(one)
        for one in code.co_consts
        if not isinstance(one, CodeType) or one.co_flags & CO_OPTIMIZED
    ]
    return code.co_code, consts, code.co_names, code.co_varnames, code.co_exceptiontable


def _new_codes(name, text):
    """Functions to be given new code, or None where the change acts when the module is loaded."""
    before, loading = _codes(
        compile((PACKAGE / f"{name}.py").read_text(encoding="utf-8"), _file(name), "exec")
    )
    after, loading_after = _codes(compile(text, _file(name), "exec"))
    strip = [(one[0], [c for c in one[1] if isinstance(c, str)], *one[2:]) for one in loading]
    strip_after = [(one[0], [c for c in one[1] if isinstance(c, str)], *one[2:]) for one in loading_after]
    if strip != strip_after or before.keys() != after.keys():
        return None
    changed = {}
    for key, codes in after.items():
        if [_bare(one) for one in codes] != [_bare(one) for one in before[key]]:
            if len(codes) > 1:
                return None
            changed[key] = codes[0]
    return changed


def _new_constant(name, text):
    """The assignment that changed, and those after it, where nothing else of the module changed."""
    before = ast.parse((PACKAGE / f"{name}.py").read_text(encoding="utf-8")).body
    after = ast.parse(text).body
    changed = [
        at for at, (old, new) in enumerate(zip(before, after, strict=True)) if ast.dump(old) != ast.dump(new)
    ]
    assigned = [
        one
        for one in after[changed[0] :]
        if isinstance(one, ast.Assign) and isinstance(one.targets[0], ast.Name)
    ]
    return assigned if len(changed) == 1 and assigned and assigned[0] is after[changed[0]] else None


def _put_constants(name, assigned):
    """Give the constant its new value wherever the package holds it, and those that are made of it."""
    module = sys.modules[f"twostroke.{name}"]
    ours = [one for key, one in list(sys.modules.items()) if key.startswith("twostroke.") and one]
    new = set()
    for one in assigned:
        target = one.targets[0].id
        used = {part.id for part in ast.walk(one.value) if isinstance(part, ast.Name)}
        if new and not used & new:
            continue
        new.add(target)
        value = eval(compile(ast.Expression(one.value), _file(name), "eval"), module.__dict__)
        old = module.__dict__[target]
        for holder in ours:
            if holder.__dict__.get(target, holder) is old:
                holder.__dict__[target] = value


class _Session:
    """A pytest session that runs its tests once, then once for each mutant in a fork after collection."""

    def __init__(self, names, changes, say):
        self.names, self.changes, self.say = names, changes, say
        self.took, self.calls, self.kills, self.survived, self.broken = {}, {}, {}, [], []

    def pytest_configure(self, config):
        from hypothesis import Phase, settings

        settings.register_profile(
            "mutants", derandomize=True, deadline=None, database=None, phases=[Phase.explicit, Phase.generate]
        )
        settings.load_profile("mutants")

    def pytest_collection_modifyitems(self, items):
        """Of a test made for each public name, only those of these modules."""
        everyone = {one.lstrip("_") for one in TESTS}
        mine = {HOMES.get(name, name) for name in self.names}
        items[:] = [one for one in items if (named := _named(one)) not in everyone or named in mine]

    def pytest_runtestloop(self, session):
        for item in session.items:
            begun = time.process_time()
            called = set()
            sys.setprofile(self._watch(called))
            failed = _fails(item)
            sys.setprofile(None)
            self.took[item.nodeid] = time.process_time() - begun
            self.calls[item.nodeid] = called
            if failed:
                self.broken.append(item.nodeid)
        if not self.broken:
            gc.collect()
            things = gc.get_objects()
            self.functions = [one for one in things if isinstance(one, FunctionType)]
            self.caches = [one for one in things if type(one).__name__ == "_lru_cache_wrapper"]
            del things
            gc.freeze()
            for number, (name, change) in enumerate(self.changes):
                self._mutant(session, number, name, change)
        return True

    def _watch(self, called):
        places = {_file(name): name for name in self.names}

        def watch(frame, event, _):
            if event == "call" and (name := places.get(frame.f_code.co_filename)):
                called.add((name, frame.f_code.co_qualname.split(".<")[0]))

        return watch

    def _mutant(self, session, number, name, change):
        wanted = {(name, one) for one in change} if change and isinstance(change, dict) else None
        chosen = [
            one
            for one in session.items
            if (
                any(name == called for called, _ in self.calls[one.nodeid])
                if wanted is None
                else self.calls[one.nodeid] & wanted
            )
        ]
        chosen.sort(key=lambda one: (-self.kills.get((name, one.nodeid), 0), self.took[one.nodeid]))
        limit = 4 * sum(self.took[one.nodeid] for one in chosen)
        killer = _in_fork(self._run, (chosen, name, change), limit)
        if killer is None:
            self.survived.append(number)
        else:
            self.kills[name, killer] = self.kills.get((name, killer), 0) + 1
        self.say(number, killer)

    def _run(self, chosen, name, change):
        gc.disable()
        if isinstance(change, dict):
            for one in self.functions:
                if one.__code__.co_filename == _file(name):
                    one.__code__ = change.get(one.__code__.co_qualname, one.__code__)
        else:
            _put_constants(name, change)
        for one in self.caches:
            if one.__name__ != "registry":
                one.cache_clear()
        return next((one.nodeid for one in chosen if _fails(one)), None)


def _named(item):
    return item.nodeid.partition("[")[2].partition(".")[0].rstrip("]")


def _fails(item):
    from _pytest.runner import runtestprotocol

    example = getattr(item, "dtest", None)
    names = dict(example.globs) if example else {}
    try:
        return any(report.failed for report in runtestprotocol(item, log=False, nextitem=None))
    finally:
        if example:  # a run empties them
            example.globs.update(names)


def _words(names):
    tests = dict.fromkeys(test for name in names for test in TESTS[name])
    files = [f"tests/unit/{test}.py" for test in tests] + [f"course/twostroke/{name}.py" for name in names]
    style = ["-o", "addopts=--import-mode=importlib --doctest-modules", "--rootdir", str(ROOT)]
    return ["-x", "-q", "-p", "no:cacheprovider", *style, *files]


def _in_fork(work, arguments, limit):
    """What the work gives back in a fork of this process; text that says so where it ends otherwise."""
    import resource  # there is none on Windows, nor a fork

    fork = multiprocessing.get_context("fork")
    here, there = fork.Pipe(duplex=False)

    def child():
        whole = int(max(LEAST_SECONDS, limit))
        resource.setrlimit(resource.RLIMIT_CPU, (whole, whole))
        null = os.open(os.devnull, os.O_RDWR)
        for stream in (0, 1, 2):
            os.dup2(null, stream)
        try:
            there.send(work(*arguments))
        finally:
            os._exit(0)

    process = fork.Process(target=child)
    process.start()
    there.close()
    try:
        answer = here.recv() if here.poll(40 * max(LEAST_SECONDS, limit)) else STOPPED
    except EOFError:
        answer = STOPPED
    process.kill()
    process.join()
    return answer


def survivors(names):
    """Try all mutants of some modules; list those that no test sees, and say how many there were."""
    import pytest

    os.chdir(ROOT)
    sys.path.insert(0, str(PACKAGE.parent))
    os.environ["PYTHONPATH"] = str(PACKAGE.parent)  # for tests that start a process
    lines, changes = [], []
    counts = {name: {"tried": 0, "on loading": 0, "stopped": 0} for name in names}
    for name in names:
        lines.append(None)
        changes.append((name, {}))  # the control: nothing changed
        for text, *change in mutants(name):
            new = _new_codes(name, text) or _new_constant(name, text)
            counts[name]["tried" if new else "on loading"] += 1
            if new:
                lines.append(dict(zip(("function", "old", "new"), change, strict=True)))
                changes.append((name, new))
    out = os.dup(1)

    def say(number, killer):
        name = changes[number][0]
        if lines[number] is None:
            os.write(out, f"{name}, unchanged: {killer or 'as it should be'}\n".encode())
        elif killer is None:
            os.write(out, "{}: {function}\n  - {old}\n  + {new}\n".format(name, **lines[number]).encode())
        elif killer == STOPPED:
            counts[name]["stopped"] += 1

    session = _Session(names, changes, say)
    pytest.main(_words(names), plugins=[session])
    controls = {number for number, line in enumerate(lines) if line is None}
    if session.broken or not controls <= set(session.survived):
        raise SystemExit(f"the tests of {names} fail without any mutant: {session.broken}")
    for name in names:
        left = [lines[at] for at in session.survived if changes[at][0] == name and lines[at]]
        counts[name]["survivors"] = left
    return counts


if __name__ == "__main__":
    found = survivors(sys.argv[2:])
    Path(sys.argv[1]).write_text(json.dumps(found, indent=1), encoding="utf-8")
    for name, counted in found.items():
        print(name, {**counted, "survivors": len(counted["survivors"])})
