"""The Guide sheet: cautions first, then how to get through a run with the workbook alone."""
from odf.xml import Lead

from common.prose import height
from common.texts import in_formula, texts

SHEET = "Guide"
WIDTH = 184
# Beside the page: what shows whether the extension computes here, and its version.
WORKS, VERSION = "C", "D"


class _Page:
    """One column of text, from top to bottom."""

    def __init__(self, sheet):
        self.sheet, self.row = sheet, 1

    def put(self, text, style="Jarbook page text", more=1.2, size=9.5, **options):
        self.sheet.put(f"A{self.row}", text, style=style, **options)
        self.sheet.heights[self.row] = round(max(5.0, height([(text, WIDTH - 4)], size) + more), 1)
        self.row += 1

    def gap(self, size=2.5):
        self.sheet.heights[self.row] = size
        self.row += 1

    def section(self, head):
        self.gap()
        self.put(head, "Jarbook section")
        self.gap(1)


def _cautions(page):
    words = texts("cautions")
    page.put(texts("guide")["cautions"], "Jarbook box first", 1.5, 11)
    keys = list(words["lead"])
    for key in keys:
        page.put(Lead(words["lead"][key], words["caution"][key]),
                 "Jarbook box last" if key == keys[-1] else "Jarbook box", 1.4)
        if key == "vapour":
            page.put(Lead(words["spill"]["lead"], words["spill"]["text"]), "Jarbook box", 1.4)


def _check(page):
    """Says truly whether the figures are computed here: with the extension, without it, from values stored
    in an .xlsx, and in a copy with plain values.

    Without the extension a file's formulas keep the last text they gave, and an .xlsx keeps all it stored,
    until somebody recalculates: only what contains RAND() or NOW() is computed on loading. A copy with plain
    values holds 40 where the workbook holds a formula, and SUBTOTAL, which passes over cells that contain
    SUBTOTAL, sees the one and not the other."""
    sheet, words = page.sheet, texts("guide")["check"]
    page.section(words["head"])
    row = page.row
    works, version = f"${WORKS}${row}", f"${VERSION}${row}"
    sheet.put(f"{WORKS}{row}", formula=f"SPIRIT.STRENGTH(40;20)+0*RAND()*SUBTOTAL(9;B{row})", style="Jarbook aside", fmt="0.00")
    sheet.put(f"{VERSION}{row}", formula="SPIRIT.VERSION()", style="Jarbook aside")
    sheet.name_cell("extension_works", f"{WORKS}{row}")
    sheet.name_cell("extension_version", f"{VERSION}{row}")
    sheet.name_cell("extension_check", f"A{row}")
    longest = max((words[key] for key in ("here", "absent", "frozen")), key=len)
    formula = (f"IF(ISERROR({works}+0*NOW());{in_formula(words['absent'])};"
               f"IF(SUBTOTAL(9;{works}:{version})=0;{in_formula(words['here'], version=version)};"
               f"{in_formula(words['frozen'], version=version)}))")
    page.put(None, "Jarbook computed text", formula=formula)
    sheet.heights[row] = round(height([(longest, WIDTH - 4)]) + 1.2, 1)


def _part(page, part):
    page.section(part["head"])
    for item in part["text"]:
        page.put(Lead(item["lead"], item["text"]))


def add(book, example):
    words = texts("guide")
    sheet = book.add_sheet(SHEET, "TallPage", tab_colour="#3d5361")
    sheet.width("A", WIDTH)
    sheet.width("B", 4)
    sheet.width(f"{WORKS}:{VERSION}", 14)
    page = _Page(sheet)
    page.put(words["title"], "Jarbook page title", 3, 14)
    page.gap()
    _cautions(page)
    _check(page)
    for part in ([words["example"]] if example else []) + words["part"]:
        _part(page, part)
    sheet.print_range = f"A1:A{page.row - 1}"
    return sheet
