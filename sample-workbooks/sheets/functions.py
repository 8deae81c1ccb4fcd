"""The Functions sheet: every function of the catalogue, with an example at work."""
import re
import tomllib

from common.prose import height

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


def _example(function):
    """(call, first figure of its result) of the first example that can stand in one cell, if
    possible one that shows something."""
    for example in sorted(function["example"], key=lambda one: one.get("result") == ""):
        result = example.get("result")
        while isinstance(result, list):
            result = result[0]
        call = _inline(example["call"], example.get("cells", {}))
        if call and result is not None:
            return call, result
    return None, None


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
    call, result = _example(function)
    widths = {column: width for column, width, _ in COLUMNS}
    texts = {"A": signature(function), "B": function["gives"], "C": function["summary"],
             "D": "=" + (call or "").replace(";", "; "), "G": function["source"]}
    sheet.heights[row] = max(height([(text, widths[c]) for c, text in texts.items() if c != "A"], 9),
                             height([(texts["A"], widths["A"])], 9, bold=True))
    for column, text in texts.items():
        # The example is shown as the user's own locale writes it.
        sheet.put(f"{column}{row}", None if column == "D" else text, f"FORMULA(E{row})" if column == "D" and call else None,
                  style="Jarbook text", cell={"fo:border-bottom": "0.35pt solid #b3bcc4"},
                  paragraph={"fo:text-align": "start"},
                  letters={"fo:font-size": "9pt"} | ({"fo:font-weight": "bold"} if column == "A" else {}))
    top = {"fo:wrap-option": "wrap", "style:vertical-align": "top"}
    fmt = None if isinstance(result, str) else "general"
    sheet.put(f"E{row}", formula=call, style="Jarbook computed", fmt=fmt, cell=top)
    sheet.put(f"F{row}", result, style="Jarbook aside", fmt=fmt, cell=top)
