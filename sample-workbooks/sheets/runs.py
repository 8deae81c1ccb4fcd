"""The Runs sheet: one row per run, drawn from the run sheets by formulas, and two charts over the runs.

How a row is added (the menu does it, see DEVELOPERS.md): insert a row above `register_end`, and
write into it the formulas of the row before with the new sheet's name in place of the old one.
"""
from odf.chart import Axis, Chart, Series

from common.texts import in_formula, texts
from run_sheet import layout as L, read

SHEET = "Runs"
HEAD = 3
TOP = HEAD + 1   # a thin row, with the row of the closing line beside the page
FIRST = TOP + 1
CHART_ROWS = 22
STILLS = 6
FAR = 1048576    # the last row: whole columns, which grow with no inserted row
FEWEST = 3       # runs of a still, of which something is said together
CHANCE = 0.01    # that a run like the others is called unlike them

# Column, width, key of its heading, name of the run sheet's cell or None, format. Behind the page stand what the
# charts show, what tells an unlike run, and what Side by side needs of a run.
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
    ("Q", 13, "stages", "fitted_stages", "0.00"), ("R", 13, "stages_range", "stages_uncertainty", "0.00"),
    ("S", 15, "unlike", None, None), ("T", 17, "hours", None, "hours"),
    ("U", 16, "product_volume", "product_volume", "0.00"), ("V", 16, "product_strength", "product_strength", "0.0"),
    ("W", 16, "product_alcohol", "balance_product", "0.00"), ("X", 16, "feints", None, "0.00"),
    ("Y", 16, "unaccounted", "balance_unaccounted", "0.00"), ("Z", 16, "uncertainty", "balance_uncertainty", "0.00"),
    ("AA", 4, None, None, None),
    ("AB", 15, "drawn_recovery", None, "0.0 %"), ("AC", 15, "drawn_uncertainty", None, "0.0 %"),
    ("AD", 15, "drawn_most", None, "0.0 %"), ("AE", 15, "drawn_least", None, "0.0 %"), ("AF", 15, "drawn_whole", None, "0 %"),
    ("AG", 15, "drawn_stages", None, "0.00"), ("AH", 15, "drawn_plain", None, "0"), ("AI", 15, "drawn_range", None, "0.00"),
    ("AJ", 15, "drawn_high", None, "0.00"), ("AK", 15, "drawn_low", None, "0.00"), ("AL", 15, "drawn_unlike", None, "0.00"),
    ("AM", 15, "known", None, "0.0000"), ("AN", 15, "others_mean", None, "0.0000"),
    ("AO", 15, "others_spread", None, "0.0000"), ("AP", 15, "others_next", None, "0.0000"),
    ("AQ", 15, "volume_range", None, "0.00"), ("AR", 15, "strength_range", None, "0.00"), ("AS", 15, "alcohol_range", None, "0.00"),
    ("AT", 15, "volume_tolerance", None, "0.0"), ("AU", 15, "reading_scatter", None, "0.00"), ("AV", 20, "curve", "run_curve", None))
LAST = "Z"       # of the page
END = COLUMNS[-1][0]
SUMMED = "Y"     # charges and products are not summed: what one run gives, another takes
LETTER = {key: column for column, _, key, _, _ in COLUMNS if key}
NAMED = {key: name for _, _, key, name, _ in COLUMNS if key and name}
FORMAT = {column: fmt for column, _, _, _, fmt in COLUMNS}
# Formulas over other rows: as array formulas of one cell, for Calc picks no rows with IF otherwise
OTHERS = {"others_mean": 1, "others_spread": 3, "others_next": 4}   # rows of CONSENSUS
ROWS = f"${LETTER['drawn_recovery']}${TOP}"    # the row of the closing line


class There:
    """Cells of a run sheet by name: there.run_title is $'Run 1'.$B$1. Of a box, used() is what counts of it."""

    def __init__(self, sheet_name):
        self._sheet = "$'" + sheet_name.replace("'", "''") + "'."

    def __getattr__(self, name):
        def fixed(address):
            letters = address.rstrip("0123456789")
            return f"${letters}${address[len(letters):]}"

        return self._sheet + ":".join(fixed(address) for address in L.names[name].split(":"))

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


def _all(key):
    """That column's cells of all runs, with the thin rows above and below."""
    letter = LETTER[key]
    return f"${letter}${TOP}:INDEX(${letter}$1:${letter}${FAR};{ROWS})"


def _unlike(words):
    """What the other finished runs of the still say together (at least three, by CONSENSUS), and whether this run's stages are
    farther from that than happens about once in a hundred runs, by Student's t. How much a still differs from run to run
    is itself known from these few runs, and the degrees of freedom say so (Welch and Satterthwaite, GUM G.4); for
    them the spread is taken as no less than a run's own uncertainty, below which it cannot be seen."""
    known, still = _own("known"), _own("still")
    there = f'({_all("still")}={still})*ISNUMBER({_all("known")})'
    others = f"{there}*(ROW({_all('known')})<>ROW())"
    call = f'SPIRIT.CONSENSUS(IF({others};{_all("known")};"");IF({others};{_all("stages_range")}/2;""))'
    for key, line in OTHERS.items():
        yield LETTER[key], f'IF({known}="";"";IFERROR(INDEX({call};{line});""))'
    mean, spread, after = (_own(key) for key in OTHERS)
    square = f'({after}^2+({_own("stages_range")}/2)^2)'
    seen = f'MAX({spread};{_own("stages_range")}/2)^2'
    degrees = f'(SUMPRODUCT({there})-2)*({square}/{seen})^2'
    yield LETTER["unlike"], (f'IF({mean}="";"";IF(ABS({known}-{mean})>TINV({CHANCE};{degrees})*SQRT({square});'
                             f'"{words["unlike"]}";""))')


def _for_side_by_side(there):
    """What the instruments leave open of the charge (k = 2; water measured like a lot), and what cut shares need."""
    present = f'ISERROR(SHEET({there.run_title}))'
    parts, tolerance = there.charge_parts, there.used("volume_tolerance")
    first = parts.split(":")[0]
    alcohol, volume, strength = (_own(f"charge_{what}") for what in ("alcohol", "volume", "strength"))
    water = f'({tolerance}/100*2/SQRT(3)*N({there.charge_water})/{volume})^2'
    waits = f'IF({present};"";IF(OR(COUNT({parts})<5;N({alcohol})=0;{tolerance}="");"";'
    vessel = f"({first}/{alcohol})^2"
    yield LETTER["alcohol_range"], f'{waits}SQRT(SUMSQ({parts}))))'
    yield LETTER["volume_range"], f'{waits}{volume}*SQRT({vessel}+{water})))'
    yield LETTER["strength_range"], f'{waits}{strength}*SQRT(SUMSQ({parts})/{alcohol}^2-{vessel}+{water})))'
    for key in ("volume_tolerance", "reading_scatter"):
        yield LETTER[key], f'IF({present};"";{there.used(key)})'


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
        elif key == "stages_range":
            seen = f'IF(ISNUMBER({cell});2*{cell};"")'
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
    stages, bar = _own("stages"), _own("drawn_range")
    yield LETTER["drawn_stages"], f'IF({finished};{stages};"")'
    yield LETTER["drawn_plain"], "1"
    measured = f'ISNUMBER({stages});ISNUMBER({_own("stages_range")})'
    yield LETTER["drawn_range"], f'IF(AND({finished};{measured});{_own("stages_range")};0)'
    yield LETTER["drawn_high"], f'IF({bar}>0;{stages}+{bar};"")'
    yield LETTER["drawn_low"], f'IF({bar}>0;{stages}-{bar};"")'
    yield LETTER["drawn_unlike"], f'IF({_own("unlike")}="";"";{stages})'
    yield LETTER["known"], f'IF(AND({finished};{_own("still")}<>"";{measured});{stages};"")'
    yield from _unlike(words)
    yield from _for_side_by_side(there)


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
