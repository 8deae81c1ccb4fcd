"""The Functions sheet: every function of the catalogue, with an example at work."""
import math
import re
import tomllib

from common.prose import height
from common.texts import texts

SHEET = "Functions"
HEAD = 3
COLUMNS = (("A", 64, "signature"), ("B", 36, "gives"), ("C", 72, "summary"), ("D", 64, "example"),
           ("E", 22, "result"), ("F", 22, "expected"), ("G", 50, "source"))
LETTERS, PADDING = 9, 4.0   # pt; mm that the style keeps on both sides beyond the usual


def _groups(folder):
    for path in sorted(folder.glob("[0-9]*.toml")):
        data = tomllib.loads(path.read_text(encoding="utf-8"))
        yield data["group"], data.get("function", [])


def signature(function):
    """The name, and below it the arguments."""
    names = [f"[{a['name']}]" if a.get("optional") else a["name"] for a in function.get("argument", [])]
    return f"SPIRIT.{function['method'].upper()}" + ("\n" if names else "") + f"({'; '.join(names)})"


def _inline(call, cells):
    """The call with its ranges written as inline arrays, or None if a blank is among the values."""
    def array(match):
        values = cells[match[1]][:int(match[2])]
        if "" in values:
            raise ValueError
        return "{" + "|".join(f'"{v}"' if isinstance(v, str) else repr(v) for v in values) + "}"

    try:
        return re.sub(r"\b([A-Z])1:\1([0-9]+)\b", array, call)
    except ValueError:
        return None


def example(function):
    """(call, a figure of its result, tolerance) of the first example that can stand in one cell,
    if possible one that shows something."""
    for one in sorted(function["example"], key=lambda one: one.get("result") == ""):
        result = one.get("result")
        call = _inline(one["call"], one.get("cells", {}))
        if call and isinstance(result, list) and isinstance(result[0], list) and result[0][0] == 0:
            # A table that begins with nothing: its last figure
            call = f"INDEX({call};{len(result)};{len(result[-1])})"
            result = result[-1][-1]
        while isinstance(result, list):
            result = result[0]
        if call and result is not None:
            return call, result, one.get("tolerance", 0)
    return None, None, 0


def decimals(number, tolerance):
    """How many the expected figure is written with, as far as its tolerance lets them be compared."""
    written = len(f"{number:.10f}".rstrip("0").partition(".")[2])
    return min(written, math.floor(-math.log10(tolerance) + 1e-9)) if tolerance else written


def add(book, catalogue):
    words = texts("functions_sheet")
    sheet = book.add_sheet(SHEET, "WidePage", tab_colour="#8d99a3")
    for column, width, key in COLUMNS:
        sheet.width(column, width)
        sheet.put(f"{column}{HEAD}", words["heading"][key], style="Jarbook table head")
    sheet.put("A1", words["title"], style="Jarbook page title", to="G1")
    sheet.put("A2", words["note"], style="Jarbook page text", to="G2")
    sheet.heights |= {1: 8, 2: 10, HEAD: 7}
    row = HEAD + 1
    for group, functions in _groups(catalogue):
        if not functions:
            continue
        sheet.put(f"A{row}", group, style="Jarbook section", to=f"G{row}")
        sheet.heights[row] = 5.5
        row += 1
        for function in functions:
            _row(sheet, row, function)
            row += 1
    sheet.print_range = f"A1:G{row - 1}"
    sheet.title_rows = (HEAD, HEAD)
    sheet.frozen_rows = HEAD
    return sheet


def _row(sheet, row, function):
    call, result, tolerance = example(function)
    room = {column: width - PADDING for column, width, _ in COLUMNS}
    seen = {"A": signature(function), "B": function["gives"], "C": function["summary"],
            "D": "=" + (call or "").replace(";", "; "), "E": str(result), "F": str(result), "G": function["source"]}
    sheet.heights[row] = round(1.2 + max(height([(text, room[c])], LETTERS, bold=c == "A") for c, text in seen.items()), 1)
    for column in "ABCDG":
        # The example is shown as the user's own locale writes it.
        live = column == "D" and call
        sheet.put(f"{column}{row}", None if column == "D" else seen[column], f"FORMULA(E{row})" if live else None,
                  style="Jarbook table words", letters={"fo:font-weight": "bold"} if column == "A" else {})
    top = {"fo:wrap-option": "wrap", "style:vertical-align": "top", "fo:padding-top": "0.6mm"}
    places = None if isinstance(result, str) or result is None else decimals(result, tolerance)
    fmt = None if places is None else "0." + "0" * places if places else "0"
    side = {"fo:text-align": "start"} if isinstance(result, str) else None
    letters = {"fo:font-size": "9pt"}
    sheet.put(f"E{row}", formula=call, style="Jarbook computed", fmt=fmt, cell=top, paragraph=side, letters=letters)
    sheet.put(f"F{row}", result, style="Jarbook aside", fmt=fmt, cell=top, paragraph=side, letters=letters)
