"""The Printed tables sheet: published values beside the computed ones, and room for one's own handbook.

The values stand in data/printed-values.csv, each with the formula that has to give it, its tolerance,
the reason for the tolerance and its source.
"""
import csv
import pathlib

from odf.workbook import Validation, between, one_of

from common.prose import height
from common.texts import in_formula, texts

SHEET = "Printed tables"
DATA = pathlib.Path(__file__).parent.parent / "data" / "printed-values.csv"
COLUMNS = (("A", 82, "entry"), ("B", 26, "printed"), ("C", 24, "unit"), ("D", 24, "computed"),
           ("E", 24, "difference"), ("F", 22, "tolerance"), ("G", 20, "verdict"), ("H", 112, "why"))
LAST = COLUMNS[-1][0]
TABLE = 6      # heads of the published values, repeated on each page. Nothing that may be blank is
               # computed above: without a stored result the office shows 0 there (DEVELOPERS.md).
OWN_ROWS = 12  # for the user's own handbook, below the published values
LETTERS = 9    # pt, of the notes

NUMBER = "of:cell-content-is-decimal-number()"


def published():
    with open(DATA, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def _validation(key, title, condition):
    words = texts("printed_tables")["help"]
    return Validation(title.replace("\n", " "), words[key], condition, words[f"{key}_error"])


def _own(sheet, own):
    """Room for the user's own handbook."""
    words = texts("printed_tables")
    heading, task = words["heading"], words["task"]
    sheet.put(f"A{own}", words["own_title"], style="Jarbook section", to=f"{LAST}{own}")
    heads = ("own_task", "own_first", "own_second", "printed", "tolerance", "computed", "verdict", "unit")
    for column, key in zip("ABCDEFGH", heads):
        left = column in "AH"
        sheet.put(f"{column}{own + 1}", heading[key], style="Jarbook table head" if left else "Jarbook heading")
    sheet.heights[own + 1] = 9
    inputs = {"B": _validation("first", heading["own_first"], between(0, 100)),
              "C": _validation("second", heading["own_second"], between(-20, 100)),
              "D": _validation("printed", heading["printed"], NUMBER),
              "E": _validation("tolerance", heading["tolerance"], NUMBER + " and cell-content()>=0")}
    choice = _validation("task", heading["own_task"], one_of(*task.values()))
    first = own + 2
    for row in range(first, first + OWN_ROWS):
        a, b, c, d, e, f = (f"${column}{row}" for column in "ABCDEF")
        sheet.put(f"A{row}", style="Jarbook input text", validation=choice)
        for column, validation in inputs.items():
            sheet.put(f"{column}{row}", style="Jarbook input", fmt="general", validation=validation)
        calls = {"strength": f"SPIRIT.STRENGTH({b};{c})", "reading": f"SPIRIT.READING({b};{c})",
                 "density": f"SPIRIT.DENSITY({b};{c})", "factor": f"SPIRIT.VOLUME(1;{b};{c};20)",
                 "water": f"SPIRIT.WATERTOADD(100;{b};{c})"}
        answer, unit = "NA()", '""'
        for key, call in calls.items():
            answer = f'IF({a}="{task[key]}";{call};{answer})'
            unit = f'IF({a}="{task[key]}";"{words["task_unit"][key]}";{unit})'
        sheet.put(f"F{row}", formula=f'IF(OR({a}="";{b}="";{c}="");"";{answer})', style="Jarbook computed", fmt="0.0000")
        verdict = f'IF(ISERROR({f});"{words["error"]}";IF(ABS({f}-{d})<={e};"{words["within"]}";"{words["outside"]}"))'
        sheet.put(f"G{row}", formula=f'IF(OR({a}="";{b}="";{c}="";{d}="";{e}="");"";{verdict})', style="Jarbook computed text")
        sheet.put(f"H{row}", formula=f'IF({a}="";"";{unit})', style="Jarbook computed text")
        sheet.heights[row] = 5
    last = first + OWN_ROWS - 1
    sheet.condition(f"G{first}:G{last}", f'OR($G{first}="{words["outside"]}";$G{first}="{words["error"]}")', "Jarbook query")
    return last


def places(entry):
    """Decimals that show a printed value, and a difference from it beside its tolerance."""
    printed = len(entry["printed"].partition(".")[2])
    tolerance = len(f"{float(entry['tolerance']):.10f}".rstrip("0").partition(".")[2])
    return printed, tolerance + 1


def _code(decimals):
    return "0." + "0" * decimals if decimals else "0"


def _published(sheet):
    words = texts("printed_tables")
    for column, _, key in COLUMNS:
        sheet.put(f"{column}{TABLE}", words["heading"][key],
                  style="Jarbook table head" if column in "AH" else "Jarbook heading")
    row, group, verdicts = TABLE + 1, None, 0
    widths = {column: width - 2 for column, width, _ in COLUMNS}
    for entry in published():
        if entry["group"] != group:
            group = entry["group"]
            sheet.put(f"A{row}", group, style="Jarbook section", to=f"{LAST}{row}")
            sheet.heights[row] = 5.5
            row += 1
        printed, fine = places(entry)
        source = entry["source"] + ("" if entry["status"] == "confirmed" else f" ({entry['status']})")
        reason = entry["why"][0].upper() + entry["why"][1:]
        why = words["why"].format(reason=reason, source=source)
        middle = {"style:vertical-align": "middle"}
        sheet.put(f"A{row}", entry["entry"], style="Jarbook table words", cell=middle)
        sheet.put(f"B{row}", float(entry["printed"]), style="Jarbook aside", fmt=_code(printed), letters={"fo:font-size": "9.5pt"})
        sheet.put(f"C{row}", entry["unit"], style="Jarbook table words", cell=middle)
        sheet.put(f"D{row}", formula=entry["formula"], style="Jarbook computed", fmt=_code(max(printed, min(fine, printed + 2))))
        # Rounded as it is shown, so that a difference of nothing has no sign.
        sheet.put(f"E{row}", formula=f"ROUND(D{row}-B{row};{fine})", style="Jarbook computed", fmt="+" + _code(fine))
        sheet.put(f"F{row}", float(entry["tolerance"]), style="Jarbook aside", fmt=_code(fine - 1), letters={"fo:font-size": "9.5pt"})
        verdict = f'IF(ISERROR(D{row});"{words["error"]}";IF(ABS(D{row}-B{row})<=F{row};"{words["within"]}";"{words["outside"]}"))'
        sheet.put(f"G{row}", formula=verdict, style="Jarbook computed text")
        sheet.put(f"H{row}", why, style="Jarbook table words", cell=middle)
        sheet.heights[row] = round(1.2 + max(4.2, height([(why, widths["H"]), (entry["entry"], widths["A"])], LETTERS)), 1)
        verdicts += 1
        row += 1
    return TABLE + 1, row - 1, verdicts


def add(book):
    words = texts("printed_tables")
    sheet = book.add_sheet(SHEET, "WidePage", tab_colour="#8d99a3")
    for column, width, _ in COLUMNS:
        sheet.width(column, width)
    sheet.put("A1", words["title"], style="Jarbook page title", to=f"{LAST}1")
    sheet.put("A2", words["note"], style="Jarbook page text", to=f"{LAST}2")
    sheet.heights |= {1: 8, 2: 10, 3: 2, 4: 5, 5: 3, TABLE: 6}
    first, last, count = _published(sheet)
    own = last + 2
    sheet.breaks.add(own)
    end = _own(sheet, own)
    # A link has the colour that the office gives it, dark blue in most schemes: on a ground of its own.
    sheet.put("H4", words["own_link"], style="Jarbook computed text", link=f"#'{SHEET}'.A{own + 2}")
    verdicts = f'COUNTIF($G${first}:$G${last};"{words["within"]}")'
    sheet.put("A4", words["question"], style="Jarbook page text")
    sheet.put("B4", formula=f'IF({verdicts}={count};{in_formula(words["all_within"], count=verdicts)};'
              f'{in_formula(words["not_within"], bad=f"{count}-{verdicts}", count=str(count))})',
              style="Jarbook computed text", to="D4", letters={"fo:font-weight": "bold"})
    sheet.name_cell("printed_verdict", "B4")
    sheet.condition("B4", f'LEFT(B4;2)="{words["not_within"][:2]}"', "Jarbook caution")
    sheet.condition(f"G{first}:G{last}", f'AND($G{first}<>"";$G{first}<>"{words["within"]}")', "Jarbook query")
    sheet.print_range = f"A1:{LAST}{end}"
    sheet.title_rows = (TABLE, TABLE)
    sheet.frozen_rows = TABLE
    return sheet
