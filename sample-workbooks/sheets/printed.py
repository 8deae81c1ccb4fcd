"""The Printed tables sheet: published values beside the computed ones, and room for one's own handbook.

The values stand in data/printed-values.csv, each with the formula that has to give it, its tolerance,
the reason for the tolerance and its source.
"""
import csv
import pathlib

from odf.workbook import Validation, between, one_of

from common.prose import height

SHEET = "Printed tables"
DATA = pathlib.Path(__file__).parent.parent / "data" / "printed-values.csv"
COLUMNS = (("A", 84, "Entry"), ("B", 25, "Printed"), ("C", 22, "Unit"), ("D", 25, "Computed"),
           ("E", 28, "Difference"), ("F", 25, "Tolerance ±"), ("G", 24, "Verdict"),
           ("H", 66, "Why this tolerance"), ("I", 76, "Source"))
TABLE = 6      # heads of the published values, repeated on each page. Nothing that may be blank is
               # computed above: without a stored result the office shows 0 there (DEVELOPERS.md).
OWN_ROWS = 12  # for the user's own handbook, below the published values

TASKS = ("true strength", "reading", "density", "volume factor", "water for 100 L")
OWN_INPUTS = {
    "task": Validation("What the table gives", "true strength: % vol at 20 °C from a reading at a temperature.\nreading: what the "
                       "instrument shows, from strength and temperature.\ndensity: kg/m³, from strength and temperature.\nvolume "
                       "factor: to 20 °C, from strength and temperature.\nwater for 100 L: L, from strength down to target.",
                       one_of(*TASKS), "One of: " + ", ".join(TASKS) + "."),
    "strength": Validation("Strength or reading", "% vol: 40, not 0.40.", between(0, 100), "From 0 to 100 % vol."),
    "second": Validation("Temperature or target", "°C; for water for 100 L the target, % vol.", between(-20, 100), "From -20 to 100."),
    "printed": Validation("Printed value", "As your table prints it, in the unit named beside it.",
                          "of:cell-content-is-decimal-number()", "A number."),
    "tolerance": Validation("Tolerance", "Half of the last printed digit, or what you think right.",
                            "of:cell-content-is-decimal-number() and cell-content()>=0", "A number, 0 or more."),
}


def _verdict(row):
    return f'IF(D{row}="";"";IF(ISERROR(E{row});"error";IF(ABS(E{row})<=F{row};"within";"outside")))'


def _own(sheet, own):
    sheet.put(f"A{own}", "Your own handbook: type its entries here", style="Jarbook section", to=f"I{own}")
    heads = ("Table", "Strength or\nreading, % vol", "Temp. °C,\nor target % vol", "Printed", "Computed", "Difference",
             "Tolerance ±", "Verdict", "Unit")
    for column, text in zip("ABCDEFGHI", heads):
        sheet.put(f"{column}{own + 1}", text, style="Jarbook heading")
    sheet.heights[own + 1] = 9
    first = own + 2
    for row in range(first, first + OWN_ROWS):
        text = dict(style="Jarbook input text")
        sheet.put(f"A{row}", validation=OWN_INPUTS["task"], **text)
        sheet.put(f"B{row}", style="Jarbook input", fmt="general", validation=OWN_INPUTS["strength"])
        sheet.put(f"C{row}", style="Jarbook input", fmt="general", validation=OWN_INPUTS["second"])
        sheet.put(f"D{row}", style="Jarbook input", fmt="general", validation=OWN_INPUTS["printed"])
        b, c = f"B{row}", f"C{row}"
        answers = (("true strength", f"SPIRIT.STRENGTH({b};{c})"), ("reading", f"SPIRIT.READING({b};{c})"),
                   ("density", f"SPIRIT.DENSITY({b};{c})"), ("volume factor", f"SPIRIT.VOLUME(1;{b};{c};20)"),
                   ("water for 100 L", f"SPIRIT.WATERTOADD(100;{b};{c})"))
        formula = "NA()"
        units = '""'
        for (task, call), unit in zip(reversed(answers), ("L", "1", "kg/m³", "% vol", "% vol at 20 °C")):
            formula = f'IF(A{row}="{task}";{call};{formula})'
            units = f'IF(A{row}="{task}";"{unit}";{units})'
        sheet.put(f"E{row}", formula=f'IF(OR(A{row}="";{b}="";{c}="");"";{formula})', style="Jarbook computed", fmt="0.0000")
        sheet.put(f"F{row}", formula=f'IF(OR(D{row}="";E{row}="");"";E{row}-D{row})', style="Jarbook computed", fmt="+0.0000")
        sheet.put(f"G{row}", style="Jarbook input", fmt="general", validation=OWN_INPUTS["tolerance"])
        sheet.put(f"H{row}", formula=f'IF(OR(F{row}="";G{row}="");"";IF(ABS(F{row})<=G{row};"within";"outside"))',
                  style="Jarbook computed text")
        sheet.put(f"I{row}", formula=f'IF(E{row}="";"";{units})', style="Jarbook computed text")
    last = first + OWN_ROWS - 1
    sheet.condition(f"H{first}:H{last}", f'$H{first}="outside"', "Jarbook query")
    return last


def _places(row):
    """Decimals that show a printed value and a difference well."""
    printed = len(row["printed"].partition(".")[2])
    tolerance = len(f"{float(row['tolerance']):.10f}".rstrip("0").partition(".")[2])
    return printed, max(printed, tolerance)


def _published(sheet):
    for column, _, text in COLUMNS:
        sheet.put(f"{column}{TABLE}", text, style="Jarbook heading", paragraph={"fo:text-align": "start"} if column in "AHI" else None)
    row = TABLE + 1
    group, verdicts = None, []
    widths = {column: width for column, width, _ in COLUMNS}
    with open(DATA, encoding="utf-8", newline="") as file:
        for entry in csv.DictReader(file):
            if entry["group"] != group:
                group = entry["group"]
                sheet.put(f"A{row}", group, style="Jarbook section", to=f"I{row}")
                row += 1
            printed, more = _places(entry)
            source = entry["source"] + ("" if entry["status"] == "confirmed" else f" ({entry['status']})")
            small = dict(style="Jarbook note", cell={"fo:border-bottom": "0.35pt solid #b3bcc4"})
            sheet.put(f"A{row}", entry["entry"], style="Jarbook label")
            sheet.put(f"B{row}", float(entry["printed"]), style="Jarbook aside", fmt="0." + "0" * printed if printed else "0",
                      letters={"fo:font-size": "9.5pt", "fo:color": "#1f2933"})
            sheet.put(f"C{row}", entry["unit"], style="Jarbook unit")
            code = "0." + "0" * more if more else "0"
            sheet.put(f"D{row}", formula=entry["formula"], style="Jarbook computed", fmt=code)
            sheet.put(f"E{row}", formula=f"D{row}-B{row}", style="Jarbook computed", fmt="+" + code + "0")
            sheet.put(f"F{row}", float(entry["tolerance"]), style="Jarbook aside", fmt=code)
            sheet.put(f"G{row}", formula=_verdict(row), style="Jarbook computed text")
            sheet.put(f"H{row}", entry["why"], **small)
            sheet.put(f"I{row}", source, **small)
            sheet.heights[row] = max(4.5, height([(entry["why"], widths["H"]), (source, widths["I"])], 8))
            verdicts.append(f"G{row}")
            row += 1
    return TABLE + 1, row - 1, len(verdicts)


def add(book):
    sheet = book.add_sheet(SHEET, "WidePage", tab_colour="#8d99a3")
    for column, width, _ in COLUMNS:
        sheet.width(column, width)
    sheet.put("A1", "Printed tables", style="Jarbook title", to="I1")
    sheet.put("A2", "Published values beside what this office computes. A difference within the tolerance is explained by the "
              "printed digits or by the stated reason. Below them is room for your own handbook.", style="Jarbook note",
              to="I2")
    sheet.heights |= {1: 8, 2: 5, 3: 2, 5: 3}
    first, last, count = _published(sheet)
    own = last + 2
    end = _own(sheet, own)
    sheet.put("H4", "Your own handbook: to its place below", style="Jarbook label", link=f"#'{SHEET}'.A{own + 2}")
    verdicts = f"$G${first}:$G${last}"
    sheet.put("A4", "All published values within their tolerance?", style="Jarbook label")
    sheet.put("B4", formula=f'IF(COUNTIF({verdicts};"within")={count};"yes, all "&COUNTIF({verdicts};"within");'
              f'"NO: "&({count}-COUNTIF({verdicts};"within"))&" of {count} not")', style="Jarbook computed text", to="D4",
              letters={"fo:font-weight": "bold"})
    sheet.name_cell("printed_verdict", "B4")
    sheet.condition("B4", 'LEFT(B4;2)="NO"', "Jarbook caution")
    sheet.condition(f"G{first}:G{last}", f'AND($G{first}<>"";$G{first}<>"within")', "Jarbook query")
    sheet.print_range = f"A1:I{end}"
    sheet.title_rows = (TABLE, TABLE)
    return sheet
