"""The training record: graded evidence beside hands-on signatures, what is open, and what to do next.

`write` makes one page for a person, sealed; `verify` says whether a file is as it was issued; `sign` enters
what a supervisor saw at the bench; `plan` says what to do next; the module `overview` looks at several
people. A person is removed again by `twostroke.grading.erase`.
"""

from __future__ import annotations

from twostroke.grading.record.content import content
from twostroke.grading.record.evidence import competencies, gather
from twostroke.grading.record.people import Person, enter, everybody, find
from twostroke.grading.record.plan import Plan, Step, plan
from twostroke.grading.record.signatures import Signature, competency_named, sign, withdraw
from twostroke.grading.record.verify import Verdict, verify
from twostroke.grading.record.writing import Issued, write

__all__ = [
    "Issued",
    "Person",
    "Plan",
    "Signature",
    "Step",
    "Verdict",
    "competencies",
    "competency_named",
    "content",
    "enter",
    "everybody",
    "find",
    "gather",
    "plan",
    "sign",
    "verify",
    "withdraw",
    "write",
]
