"""The Functions sheet: every function of the catalogue, with an example at work."""
import tomllib

from .prose import height

SHEET = "Functions"
HEAD = 3
COLUMNS = (("A", 74, "Function"), ("B", 42, "Gives"), ("C", 82, "What it does"), ("D", 63, "Example"),
           ("E", 24, "gives here"), ("F", 24, "expected"), ("G", 62, "Source"))


def _groups(folder):
    for path in sorted(folder.glob("[0-9]*.toml")):
        data = tomllib.loads(path.read_text(encoding="utf-8"))
        yield data["group"], data.get("function", [])


def signature(function):
    names = [f"[{a['name']}]" if a.get("optional") else a["name"] for a in function.get("argument", [])]
    return f"SPIRIT.{function['method'].upper()}({'; '.join(names)})"


def _example(function):
    """The first example with one result that needs no cells of its own."""
    for example in function["example"]:
        result = example.get("result")
        if "cells" not in example and isinstance(result, (int, float, str)):
            return example
    return None


def add(book, catalogue):
    sheet = book.add_sheet(SHEET, "WidePage", tab_colour="#8d99a3")
    for column, width, heading in COLUMNS:
        sheet.width(column, width)
        sheet.put(f"{column}{HEAD}", heading, style="Jarbook heading", paragraph={"fo:text-align": "start"})
    sheet.put("A1", "Functions", style="Jarbook title", to="G1")
    sheet.put("A2", "Arguments in [ ] may be left out. Their units, ranges and what each refuses: menu Jarbook, Function "
              "reference, or the Function Wizard, category Add-in.", style="Jarbook note", to="G2")
    sheet.heights |= {1: 8, 2: 5}
    row = HEAD + 1
    for group, functions in _groups(catalogue):
        if not functions:
            continue
        sheet.put(f"A{row}", group, style="Jarbook section", to=f"G{row}")
        row += 1
        for function in functions:
            _row(sheet, row, function)
            row += 1
    sheet.print_range = f"A1:G{row - 1}"
    sheet.title_rows = (HEAD, HEAD)
    sheet.frozen_rows = HEAD
    return sheet


def _row(sheet, row, function):
    example = _example(function)
    texts = {"A": signature(function), "B": function["gives"], "C": function["summary"],
             "D": "=" + example["call"] if example else "see the reference page", "G": function["source"]}
    widths = {column: width for column, width, _ in COLUMNS}
    sheet.heights[row] = max(5.0, height([(text, widths[c] - (12 if c == "A" else 3)) for c, text in texts.items()], 9))
    for column, text in texts.items():
        sheet.put(f"{column}{row}", text, style="Jarbook text", cell={"fo:border-bottom": "0.35pt solid #b3bcc4"},
                  paragraph={"fo:text-align": "start"},
                  letters={"fo:font-size": "9pt"} | ({"fo:font-weight": "bold"} if column == "A" else {}))
    shown = "computed" if example else "label"
    sheet.put(f"E{row}", formula=example["call"] if example else None, style=f"Jarbook {shown}",
              fmt=None if example and isinstance(example["result"], str) else "general",
              cell={"fo:wrap-option": "wrap", "style:vertical-align": "top"})
    sheet.put(f"F{row}", example["result"] if example else None, style="Jarbook aside" if example else "Jarbook label",
              fmt=None if example and isinstance(example["result"], str) else "general",
              cell={"fo:wrap-option": "wrap", "style:vertical-align": "top"})
