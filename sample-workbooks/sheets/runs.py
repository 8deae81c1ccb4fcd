"""The Run book: one row a run, drawn from the run sheets by formulas, and a chart over the runs.

How a row is added (the menu does it, see DEVELOPERS.md): insert a row above `register_end`, and
write into it the formulas of the row before with the new sheet's name in place of the old one.
"""
from odf.chart import Axis, Chart, Series

from run_sheet import layout as L

SHEET = "Run book"
TITLE, NOTE, CHART, CHART_ROWS = 1, 2, 4, 16
HEAD = CHART + CHART_ROWS + 1
FIRST = HEAD + 1

# Column, width, heading, name of the run sheet's cell, format
COLUMNS = (
    ("A", 24, "Run", "run_title", None), ("B", 21, "Date", "run_date", "date"),
    ("C", 25, "Kind", "run_kind", None), ("D", 44, "Made from", "run_material", None),
    ("E", 15, "Charge\nL", "charge_volume", "0.0"), ("F", 15, "Charge\n% vol", "charge_strength", "0.0"),
    ("G", 15, "Charged\nL pure", "charge_alcohol", "0.00"),
    ("H", 15, "Collected\nL pure", "sum_collected_alcohol", "0.00"),
    ("I", 15, "Recovery", "sum_recovery", "0.0%"), ("J", 15, "Fore-\nshots", "cut_foreshots_share", "0.0%"),
    ("K", 15, "Heads", "cut_heads_share", "0.0%"), ("L", 15, "Hearts", "cut_hearts_share", "0.0%"),
    ("M", 15, "Tails", "cut_tails_share", "0.0%"), ("N", 15, "Stages", "fitted_stages", "0.00"),
    ("O", 15, "Hours", "sum_hours", "0.0"), ("P", 15, "Product\nL", "product_volume", "0.00"),
    ("Q", 15, "Product\n% vol", "product_strength", "0.0"),
    ("R", 15, "Product\nL pure", "balance_product", "0.00"),
    ("S", 15, "Feints\nL pure", "balance_feints", "0.00"),
    ("T", 15, "Unac-\ncounted\nL pure", "balance_unaccounted", "0.00"),
    ("U", 15, "±\n(k = 2)", "balance_uncertainty", "0.00"), ("V", 15, "To look\nat", "queries", "0|-"))
SUMMED = "T"   # charges and products are not summed: what one run gives, another takes


def row_formulas(sheet_name):
    """(column, formula) of a run's row."""
    quoted = "'" + sheet_name.replace("'", "''") + "'"
    for column, _, _, name, _ in COLUMNS:
        letters = L.names[name].rstrip("0123456789")
        there = f"${quoted}.${letters}${L.names[name][len(letters):]}"
        yield column, f'IF({there}="";"";{there})'


def add(book, runs):
    """Adds the Run book for these run sheets, by name."""
    sheet = book.add_sheet(SHEET, "WidePage", tab_colour="#8d99a3")
    last_column = COLUMNS[-1][0]
    for column, width, heading, _, _ in COLUMNS:
        sheet.width(column, width)
        sheet.put(f"{column}{HEAD}", heading, style="Jarbook heading")
    sheet.heights |= {TITLE: 8, NOTE: 5, 3: 2, HEAD: 13}
    sheet.put("A1", "Run book", style="Jarbook title", to=f"{last_column}1")
    sheet.put("A2", "One row a run, drawn from the run sheets. Volumes and strengths at 20 °C. Shares of the cuts "
              "are of the pure alcohol collected. Recovery above 100 % shows an error of a reading.",
              style="Jarbook note", to=f"{last_column}2")
    formats = {column: fmt for column, _, _, _, fmt in COLUMNS}
    texts = {column for column, _, _, _, fmt in COLUMNS if fmt is None}
    for i, run in enumerate(runs):
        for column, formula in row_formulas(run):
            sheet.put(f"{column}{FIRST + i}", formula=formula, fmt=formats[column],
                      style="Jarbook computed text" if column in texts else "Jarbook computed",
                      cell={"fo:wrap-option": "no-wrap"} if column in texts else None)
    end = FIRST + len(runs)
    sheet.heights[end] = 1.2
    for column, _, _, _, fmt in COLUMNS:
        sheet.put(f"{column}{end}", style="Jarbook section")
        if column in SUMMED:
            rows = f"{column}{FIRST}:{column}{end}"
            sheet.put(f"{column}{end + 1}", formula=f'IF(COUNT({rows})=0;"";SUM({rows}))', fmt=fmt,
                      style="Jarbook result")
    sheet.put(f"A{end + 1}", "all runs", style="Jarbook label", to=f"S{end + 1}")
    sheet.name_cell("register", f"A{FIRST}:{last_column}{end}")
    sheet.name_cell("register_end", f"A{end}")
    for column in "IV":
        limit = f"AND(ISNUMBER(${column}{FIRST});${column}{FIRST}>{1 if column == 'I' else 0})"
        sheet.condition(f"{column}{FIRST}:{column}{end}", limit, "Jarbook query")
    _chart(sheet, end)
    sheet.print_range = f"A1:{last_column}{end + 1}"
    sheet.title_rows = (HEAD, HEAD)
    return sheet


def _chart(sheet, end):
    rows = f"{FIRST}:{{0}}{end}"
    series = [Series(f"I{rows.format('I')}", f"I{HEAD}", symbol="square", colour="#1f5f3f", line=0.35, size=2.8),
              Series(f"N{rows.format('N')}", f"N{HEAD}", symbol="circle", colour="#3d5361", line=0.3, dash="Dash",
                     size=2.8, secondary=True)]
    width = sum(column[1] for column in COLUMNS) - 4
    chart = sheet.book.add_chart(Chart(
        "Runs chart", "line", "Recovery of the pure alcohol charged, and stages of the still, over the runs",
        series, Axis("run", grid=False), Axis("recovery", 0.5, 1.1, 0.1, "0%"), width, CHART_ROWS * 4.5 - 1,
        categories=f"A{rows.format('A')}", second_axis=Axis("stages", 0.9, 1.5, 0.1, "0.0", grid=False),
        description="Line chart over the runs: recovery on the left axis, stages on the right axis."))
    chart.end = f"W{CHART + CHART_ROWS}"
    sheet.put(f"A{CHART}", drawing=chart)
