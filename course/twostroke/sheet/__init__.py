"""One way to print: a sheet is written once and comes out as PDF, as a web page and as pictures.

Bench cards, reports, job cards and training records all use it, so that they look alike and fail alike.

Examples
--------
>>> card = Sheet("Air gap", subtitle="bench card", note="invented demo engine A")
>>> card.text("Turn the **magnet** to the legs and pull the shim out with a *light* drag.")
>>> card.table(["what", "reading"], [["air gap", "0.30 mm"]], align="lr")
>>> card.pages()
1
>>> card.to_pdf()[:5]
b'%PDF-'
"""

from __future__ import annotations

from twostroke.sheet.blocks import SheetError
from twostroke.sheet.markup import literal
from twostroke.sheet.page import Book, Sheet
from twostroke.sheet.printer import digest_of

__all__ = ["Book", "Sheet", "SheetError", "digest_of", "literal"]
