"""The bench on screen: in a notebook, as a page of its own, and in a terminal, over one and the same job.

* `job` holds the session with hints and file, `store` the files, `follow` the belief beside it;
* `drawing`, `displays` and `timeline` draw, `views` writes the regions of the screen from `templates/`;
* `panel` is the widget, `serve` the page, `terminal` the plain form;
* `Job.session` is the bench session from which a job card is made.

Examples
--------
>>> panel = open_bench("plug_fouled_trimmer", "Anna", folder=False)
>>> panel.screen
'job'
"""

from __future__ import annotations

from twostroke.lesson.bench_panel.job import BenchJob, Job, OwnJob, open_kept
from twostroke.lesson.bench_panel.own_shop import OwnShop
from twostroke.lesson.bench_panel.panel import BenchPanel, open_bench, open_own

__all__ = ["BenchJob", "BenchPanel", "Job", "OwnJob", "OwnShop", "open_bench", "open_kept", "open_own"]
