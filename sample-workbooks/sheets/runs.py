"""The Runs sheet: one row per run, drawn from the run sheets by formulas, and two charts over the runs.

How a row is added (the menu does it, see DEVELOPERS.md): insert a row above `register_end`, and
write into it the formulas of the row before with the new sheet's name in place of the old one.
"""
from odf.chart import Axis, Chart, Series

from common.texts import texts
from run_sheet import layout as L, read

SHEET = "Runs"
HEAD = 3
FIRST = HEAD + 1
CHART_ROWS = 22
FAR = 1048576    # the last row: whole columns, which grow with no inserted row

# Column, width, key of its heading, name of the run sheet's cell or None, format. From `drawn_...` on they
# lie beside the page: what the charts show.
COLUMNS = (
    ("A", 27, "run", "run_title", None), ("B", 20, "date", "run_date", "date"),
    ("C", 25, "kind", "run_kind", None), ("D", 52, "still", "run_still", None),
    ("E", 40, "material", "run_material", None), ("F", 18, "state", None, None),
    ("G", 15, "look_at", "queries", "0|-"),
    ("H", 15, "charge_volume", "charge_volume", "0.0"), ("I", 15, "charge_strength", "charge_strength", "0.0"),
    ("J", 15, "charge_alcohol", "charge_alcohol", "0.00"),
    ("K", 17, "collected", "sum_collected_alcohol", "0.00"), ("L", 16, "recovery", "sum_recovery", "0.0 %"),
    ("M", 14, "foreshots", "cut_foreshots_share", "0.0 %"), ("N", 14, "heads", "cut_heads_share", "0.0 %"),
    ("O", 14, "hearts", "cut_hearts_share", "0.0 %"), ("P", 14, "tails", "cut_tails_share", "0.0 %"),
    ("Q", 13, "stages", "fitted_stages", "0.00"), ("R", 17, "hours", None, "hours"),
    ("S", 16, "product_volume", "product_volume", "0.00"), ("T", 16, "product_strength", "product_strength", "0.0"),
    ("U", 16, "product_alcohol", "balance_product", "0.00"), ("V", 16, "feints", None, "0.00"),
    ("W", 16, "unaccounted", "balance_unaccounted", "0.00"), ("X", 16, "uncertainty", "balance_uncertainty", "0.00"),
    ("Y", 4, None, None, None),
    ("Z", 15, "drawn_recovery", None, "0.0 %"), ("AA", 15, "drawn_uncertainty", None, "0.0 %"),
    ("AB", 15, "drawn_most", None, "0.0 %"), ("AC", 15, "drawn_least", None, "0.0 %"), ("AD", 15, "drawn_whole", None, "0 %"),
    ("AE", 15, "drawn_stages", None, "0.00"), ("AF", 15, "drawn_plain", None, "0"))
LAST = "X"       # of the page
END = COLUMNS[-1][0]
SUMMED = "W"     # charges and products are not summed: what one run gives, another takes
LETTER = {key: column for column, _, key, _, _ in COLUMNS if key}
NAMED = {key: name for _, _, key, name, _ in COLUMNS if key and name}
FORMAT = {column: fmt for column, _, _, _, fmt in COLUMNS}


class There:
    """Cells of a run sheet by name: there.run_title is $'Run 1'.$B$1. Of a box, used() is what counts of it."""

    def __init__(self, sheet_name):
        self._sheet = "$'" + sheet_name.replace("'", "''") + "'."

    def __getattr__(self, name):
        letters = L.names[name].rstrip("0123456789")
        return f"{self._sheet}${letters}${L.names[name][len(letters):]}"

    def used(self, name):
        return self._sheet + read.used(name)


def _state(there, words):
    """Gone, not begun, under way or finished."""
    stop, stages, pressure = (there.used(name) for name in ("stop_strength", "stages", "pressure"))
    collected = there.sum_collected_alcohol
    forecast = f"SPIRIT.FORECASTALCOHOL({there.charge_volume};{there.charge_strength};100;{stop};{stages};{pressure})"
    waits = f'{there.charge_strength}="";{stop}="";{stages}="";{pressure}="";{collected}=""'
    drawn = f"IF(OR({waits});FALSE();{collected}>=0.95*{forecast})"
    return (f'IF(ISERROR(SHEET({there.run_title}));"{words["gone"]}";'
            f'IF(OR(ISNUMBER({there.balance_residue});ISNUMBER({there.bottled_strength}));"{words["finished"]}";'
            f'IF(N({there.jars_complete})=0;"{words["planned"]}";'
            f'IF(IFERROR({drawn};FALSE());"{words["finished"]}";"{words["running"]}"))))')


def _own(key):
    """The cell of that column in the formula's own row. Not by its address: a row's formulas are copied as
    texts from the row of another run."""
    return f"INDEX(${LETTER[key]}$1:${LETTER[key]}${FAR};ROW())"


def row_formulas(sheet_name):
    """(column, formula) of a run's row."""
    there, words = There(sheet_name), texts("runs_sheet")
    finished = f'{_own("state")}="{words["finished"]}"'
    yield LETTER["state"], _state(there, words)
    for key, name in NAMED.items():
        cell = getattr(there, name)
        seen = f'IF({cell}="";"";{cell})'
        if key == "run":
            seen = f'IF(ISERROR(SHEET({cell}));"{words["gone"]}";{seen})'
        elif key in ("recovery", "unaccounted", "uncertainty"):
            seen = f'IF({finished};{seen};"")'
        else:
            seen = f'IF(ISERROR(SHEET({cell}));"";{seen})'
        yield LETTER[key], seen
    hours, spare, feints = there.sum_hours, there.balance_spare, there.balance_feints
    yield LETTER["hours"], f'IF(ISNUMBER({hours});{hours}/24;"")'
    yield LETTER["feints"], f'IF(ISNUMBER({feints});{feints}+N({spare});"")'
    recovery, uncertainty = _own("recovery"), _own("uncertainty")
    drawn, bar = _own("drawn_recovery"), _own("drawn_uncertainty")
    yield LETTER["drawn_recovery"], f'IF({finished};{recovery};"")'
    yield LETTER["drawn_uncertainty"], (f'IF(AND(ISNUMBER({recovery});ISNUMBER({uncertainty}));'
                                        f'{uncertainty}/{_own("charge_alcohol")};0)')
    yield LETTER["drawn_most"], f'IF({bar}>0;{drawn}+{bar};"")'
    yield LETTER["drawn_least"], f'IF({bar}>0;{drawn}-{bar};"")'
    yield LETTER["drawn_whole"], "1"
    yield LETTER["drawn_stages"], f'IF({finished};{_own("stages")};"")'
    yield LETTER["drawn_plain"], "1"


def add(book, runs):
    """Adds the sheet for these run sheets, by name."""
    words = texts("runs_sheet")
    sheet = book.add_sheet(SHEET, "WidePage", tab_colour="#8d99a3")
    for column, millimetres, key, _, _ in COLUMNS:
        sheet.width(column, millimetres)
        if key:
            sheet.put(f"{column}{HEAD}", words["heading"][key], style="Jarbook heading")
    sheet.put("A1", words["title"], style="Jarbook page title", to=f"{LAST}1")
    sheet.put("A2", words["note"], style="Jarbook page text", to=f"{LAST}2")
    sheet.heights |= {1: 8, 2: 6, HEAD: 14}
    texts_in = {column for column, _, _, _, fmt in COLUMNS if fmt is None}
    for i, run in enumerate(runs):
        row = FIRST + i
        for column, formula in row_formulas(run):
            beside = column not in LETTER.values() or column > LAST or len(column) > 1
            sheet.put(f"{column}{row}", formula=formula, fmt=FORMAT[column],
                      style="Jarbook aside" if beside else
                      "Jarbook computed text" if column in texts_in else "Jarbook computed",
                      cell={"fo:wrap-option": "no-wrap", "style:shrink-to-fit": "true"} if column in texts_in else None)
        sheet.heights[row] = 5
    end = FIRST + len(runs)
    _closing(sheet, end, words)
    _charts(sheet, end, words)
    sheet.print_range = f"A1:{LAST}{end + 3 + CHART_ROWS}"
    sheet.title_rows = (HEAD, HEAD)
    sheet.frozen_rows, sheet.frozen_columns = HEAD, 1
    return sheet


def _closing(sheet, end, words):
    """The row above which new runs are inserted, and the sums."""
    sheet.heights[end] = 1.2
    for column, _, _, _, fmt in COLUMNS:
        sheet.put(f"{column}{end}", style="Jarbook section rest")
    column = SUMMED
    rows = f"{column}{FIRST}:{column}{end}"
    sheet.put(f"{column}{end + 1}", formula=f'IF(COUNT({rows})=0;"";SUM({rows}))', fmt=FORMAT[column], style="Jarbook result")
    sheet.put(f"A{end + 1}", words["all"], style="Jarbook label", to=f"V{end + 1}")
    sheet.put(f"A{end + 2}", words["finished_note"], style="Jarbook note", to=f"{LAST}{end + 2}")
    sheet.heights[end + 2] = 6
    sheet.name_cell("register", f"A{FIRST}:{END}{end}")
    sheet.name_cell("register_end", f"A{end}")
    for key, limit in (("recovery", 1), ("look_at", 0)):
        letter = LETTER[key]
        sheet.condition(f"{letter}{FIRST}:{letter}{end}",
                        f"AND(ISNUMBER(${letter}{FIRST});${letter}{FIRST}>{limit})", "Jarbook query")
    letter = LETTER["run"]
    sheet.condition(f"{letter}{FIRST}:{letter}{end}", f'${letter}{FIRST}="{words["gone"]}"', "Jarbook query")


def _charts(sheet, end, words):
    """Two panels: recovery with its uncertainty and the 100 % line, and stages. Points, because neighbouring
    runs may come from different stills."""
    def cells(key):
        return f"{LETTER[key]}{FIRST}:{LETTER[key]}{end}"

    total = sum(column[1] for column in COLUMNS[:COLUMNS.index(next(c for c in COLUMNS if c[0] == LAST)) + 1])
    line = dict(colour="#5b6670", line=0.25, dash="Dash")
    point = dict(symbol="diamond", colour="#222222", size=3)
    panels = (
        ("Recovery", "recovery", Axis(words["recovery_axis"], None, None, None, "0 %"), "B",
         [Series(cells("drawn_whole"), f"{LETTER['drawn_whole']}{HEAD}", **line),
          Series(cells("drawn_recovery"), f"{LETTER['drawn_recovery']}{HEAD}", bars=cells("drawn_uncertainty"), **point),
          # The ends of the bars, which an automatic axis would not make room for by themselves
          *(Series(cells(key), f"{LETTER[key]}{HEAD}", symbol="horizontal-bar", colour="#222222", size=2)
            for key in ("drawn_most", "drawn_least"))]),
        ("Stages", "stages", Axis(words["stages_axis"], 0.9, None, None, "0.0"), "L",
         [Series(cells("drawn_plain"), f"{LETTER['drawn_plain']}{HEAD}", **line),
          Series(cells("drawn_stages"), f"{LETTER['drawn_stages']}{HEAD}", **point)]))
    for name, key, axis, column, series in panels:
        chart = sheet.book.add_chart(Chart(
            f"{name} of the runs", "line", words[f"{key}_title"], series, Axis("", grid=False), axis,
            total / 2 - 18, CHART_ROWS * 4.5 - 2, categories=cells("run"), legend="bottom", description=words[f"{key}_title"]))
        sheet.put(f"{column}{end + 3}", drawing=chart)
