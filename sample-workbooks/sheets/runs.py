"""The Runs sheet: one row per run, drawn from the run sheets by formulas, and two charts over the runs.

How a row is added (the menu does it, see DEVELOPERS.md): insert a row above `register_end`, and
write into it the formulas of the row before with the new sheet's name in place of the old one.
"""
from odf.chart import Axis, Chart, Series

from common.texts import in_formula, texts
from sheets.runs_columns import (CHART_ROWS, COLUMNS, END, FEWEST, FIRST, FORMAT, HEAD, LAST, LETTER, OTHERS, ROWS, SHEET,
                                 STILLS, SUMMED, TOP)
from sheets.runs_rows import row_formulas


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
    sheet.heights |= {1: 8, 2: 6, HEAD: 14, TOP: 0.7}
    for column, *_ in COLUMNS:
        if column != LETTER["drawn_recovery"]:
            sheet.put(f"{column}{TOP}")
    sheet.put(ROWS.replace("$", ""), formula=f"ROW($A${FIRST + len(runs)})", style="Jarbook aside", fmt="0")
    arrays = {LETTER[key] for key in OTHERS}
    texts_in = {column for column, _, _, _, fmt in COLUMNS if fmt is None}
    for i, run in enumerate(runs):
        row = FIRST + i
        for column, formula in row_formulas(run):
            beside = column not in LETTER.values() or column > LAST or len(column) > 1
            sheet.put(f"{column}{row}", formula=formula, fmt=FORMAT[column],
                      array=f"{column}{row}" if column in arrays else None,
                      style="Jarbook aside" if beside else
                      "Jarbook computed text" if column in texts_in else "Jarbook computed",
                      cell={"fo:wrap-option": "no-wrap", "style:shrink-to-fit": "true"} if column in texts_in else None)
        sheet.heights[row] = 5
    end = FIRST + len(runs)
    _closing(sheet, end, words)
    below = _stills(sheet, end, words)
    _charts(sheet, end, below, words)
    sheet.print_range = f"A1:{LAST}{below + CHART_ROWS}"
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
    before = chr(ord(SUMMED) - 1)
    sheet.put(f"A{end + 1}", words["all"], style="Jarbook label", to=f"{before}{end + 1}")
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
    first, last = LETTER["stages"], LETTER["unlike"]
    sheet.condition(f"{first}{FIRST}:{last}{end}", f'${last}{FIRST}<>""', "Jarbook query")
    # Runs that are not finished are set apart.
    state, last = LETTER["state"], LETTER["collected"]
    sheet.condition(f"A{FIRST}:{last}{end}", f'AND(${state}{FIRST}<>"";${state}{FIRST}<>"{words["finished"]}")', "Jarbook apart")


def _stills(sheet, end, words):
    """The stills, what their finished runs say of each together; gives the row below. Their rows are the name `stills`: name,
    runs, mean, its standard uncertainty, spread, standard uncertainty of a next run."""
    def cells(key):
        return f"${LETTER[key]}${TOP}:${LETTER[key]}${end}"

    head, first = end + 3, end + 4
    last = first + STILLS - 1
    for column, key in zip("DEFGHIJ", ("still", "runs", "mean", "mean_uncertainty", "spread", "next", "words")):
        sheet.put(f"{column}{head}", words["stills"][key], style="Jarbook lead" if key == "words" else "Jarbook heading",
                  to=f"{LAST}{head}" if key == "words" else None)
    sheet.put(f"A{head}", words["stills"]["title"], style="Jarbook lead", to=f"C{head}")
    sheet.heights[head] = 14
    for row in range(first, last + 1):
        name, above = f"$D{row}", f"$D${head}:$D{row - 1}"
        there = cells("still")
        sheet.put(f"D{row}", style="Jarbook computed text", array=f"D{row}",
                  formula=f'IFERROR(INDEX({there};MATCH(1;({there}<>"")*(COUNTIF({above};{there})=0);0));"")',
                  cell={"fo:wrap-option": "no-wrap", "style:shrink-to-fit": "true"})
        counted = f'({there}={name})*ISNUMBER({cells("known")})'
        sheet.put(f"E{row}", formula=f'IF({name}="";"";SUMPRODUCT({counted}))', fmt="0", style="Jarbook computed")
        call = f'SPIRIT.CONSENSUS(IF({counted};{cells("known")};"");IF({counted};{cells("stages_range")}/2;""))'
        for i, column in enumerate("FGHI"):
            sheet.put(f"{column}{row}", formula=f'IF(N($E{row})<{FEWEST};"";IFERROR(TRANSPOSE({call});""))' if i == 0 else None,
                      array=f"I{row}" if i == 0 else None, fmt="0.000", style="Jarbook computed")
        unlike = f'TEXTJOIN(", ";1;IF(({there}={name})*({cells("unlike")}<>"");{cells("run")};""))'
        low, high = f"FIXED(MAX(1;$F{row}-2*$I{row});2)", f"FIXED($F{row}+2*$I{row};2)"
        sheet.put(f"J{row}", style="Jarbook unit", array=f"J{row}", to=f"{LAST}{row}", formula=(
            f'IF({name}="";"";IF($F{row}="";{in_formula(words["stills"]["few"])};{in_formula(words["stills"]["next_run"], low=low, high=high)}'
            f'&IF(SUMPRODUCT(({there}={name})*({cells("unlike")}<>""))=0;"";{in_formula(words["stills"]["unlike_runs"], runs=unlike)})))'))
        sheet.put(f"A{row}", style="Jarbook label", to=f"C{row}")
        sheet.heights[row] = 5
    note = last + 1
    sheet.put(f"A{note}", style="Jarbook note", to=f"I{note}", array=f"A{note}", formula=(
        f'{in_formula(words["stills"]["rule"])}&IF(SUMPRODUCT(({there}<>"")*(COUNTIF($D${first}:$D${last};{there})=0))=0;"";'
        f'{in_formula(words["stills"]["more"], count=str(STILLS))})'))
    sheet.heights[note] = 12
    sheet.name_cell("stills", f"D{first}:I{last}")
    return note + 1


def _charts(sheet, end, below, words):
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
          *(Series(cells(key), f"{LETTER[key]}{HEAD}", symbol="horizontal-bar", colour="#222222", size=2, quiet=key == "drawn_least")
            for key in ("drawn_most", "drawn_least"))]),
        ("Stages", "stages", Axis(words["stages_axis"], 0.9, None, None, "0.0"), "L",
         [Series(cells("drawn_plain"), f"{LETTER['drawn_plain']}{HEAD}", **line),
          Series(cells("drawn_stages"), f"{LETTER['drawn_stages']}{HEAD}", bars=cells("drawn_range"), **point),
          Series(cells("drawn_unlike"), f"{LETTER['drawn_unlike']}{HEAD}", symbol="square", colour="#8c1d18", size=4.5),
          *(Series(cells(key), f"{LETTER[key]}{HEAD}", symbol="horizontal-bar", colour="#222222", size=2, quiet=key == "drawn_low")
            for key in ("drawn_high", "drawn_low"))]))
    for name, key, axis, column, series in panels:
        chart = sheet.book.add_chart(Chart(
            f"{name} of the runs", "line", words[f"{key}_title"], series, Axis("", grid=False), axis,
            total / 2 - 18, CHART_ROWS * 4.5 - 2, categories=cells("run"), legend="bottom", description=words[f"{key}_title"]))
        sheet.put(f"{column}{below}", drawing=chart)
