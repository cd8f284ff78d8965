"""Everything derived, made again: notebooks from text masters, released labs from source.

Each part computes its files in memory; `build` writes them or, with ``check``, only compares. Derived
files are never edited by hand.

| part | from | to |
|---|---|---|
| lessons | course/text/lessons/NN_name.py | course/lessons/NN_name.ipynb |
| source | course/text/labs/labNN.py | source/labNN/labNN.ipynb |
| release | source, through nbgrader | release/labNN/labNN.ipynb |
| figures | the figures of twostroke.lesson | assets/figures/figure_NN_id.svg |
| cards | the bench cards of twostroke.lesson | assets/cards/card_NN_name.pdf and .html, cards.pdf and .html |
| guide | the imports of the package | the module graph in DEVELOPERS.md |
| sources | constants and formulas, tables of outside checks | assets/sources/sources.pdf and .html |
"""

from __future__ import annotations

from twostroke.build.parts import PARTS, BuildError, Difference, build

__all__ = ["PARTS", "BuildError", "Difference", "build"]
