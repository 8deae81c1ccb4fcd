"""The sheet Side by side: two to four runs chosen by name, their curves over each other, their figures, and what each differs
from the first by, beside what the instruments leave open of that difference.
"""
from odf.chart import Axis, Chart, Series
from odf.formula import stored
from odf.styles import NamedStyle
from odf.workbook import Validation

from common.texts import texts
from run_sheet import layout as L
from sheets import runs, side_points as points
from sheets.side_points import BOX, BOX_COLUMNS, BOX_HEAD, SLOTS, WORDS, Slot

SHEET = "Side by side"
LAST_COLUMN = "K"
WIDTHS = {"A": 40, "B": 20, "C:K": 19.9, "L": 3, "M:AZ": 18}
CHART, CHART_ROWS = WORDS + 1, 20
FIGURES = CHART + CHART_ROWS + 1         # band; heads below
FIGURE = FIGURES + 2

# Quantity; format; what Runs has of its uncertainty (a column, a figure, or nothing: a cut's share); whether only a
# finished run has it whole
CLOCK = "1/1440"    # first drip and last jar each read to the minute (half a minute, rectangular): 0.8 min at k = 2, made a whole one
ROWS = (("charge_volume", "0.0", "volume_range", False), ("charge_strength", "0.0", "strength_range", False),
        ("charge_alcohol", "0.00", "alcohol_range", False), ("stages", "0.00", "stages_range", False),
        ("hours", "hours", CLOCK, True),
        *((cut, "0.0 %", None, True) for cut in ("foreshots", "heads", "hearts", "tails")),
        ("recovery", "0.0 %", "drawn_uncertainty", True))
DIFFERENCES = FIGURE + len(ROWS)         # band; two rows of heads below
DIFFERENCE = DIFFERENCES + 3
NOTE = DIFFERENCE + len(ROWS)

STYLES = [NamedStyle("Jarbook side words", "Jarbook computed", cell={"fo:wrap-option": "wrap"},
                     paragraph={"fo:text-align": "start", "fo:margin-left": "0mm"}, letters={"fo:font-size": "8pt"}),
          NamedStyle("Jarbook side yes", cell={"fo:background-color": "#eceff1"},
                     letters={"fo:font-weight": "bold", "fo:color": "#1f2933"})]

LOOKS = (("square", "#1f2933", None), ("circle", "#a2452c", "Dash"), ("arrow-up", "#2f6f8f", None), ("diamond", "#7a6a1f", "Dash"))


def _band(sheet, row, text):
    sheet.put(f"A{row}", text, style="Jarbook section")
    for column in "BCDEFGHIJK":
        sheet.put(f"{column}{row}", style="Jarbook section rest")
    sheet.heights[row] = 5.2


def _next(column, steps=1):
    return chr(ord(column) + steps)


def _boxes(sheet, slots, chosen, words):
    _band(sheet, BOX_HEAD - 1, words["band"]["choose"])
    everything = slots[0].all_of("run")
    for slot, column, ordinal in zip(slots, BOX_COLUMNS, words["ordinals"]):
        right = _next(column)
        sheet.put(f"{column}{BOX_HEAD}", ordinal, style="Jarbook heading", to=f"{right}{BOX_HEAD}")
        value = chosen[slot.number] if slot.number < len(chosen) else None
        sheet.put(f"{column}{BOX}", value, style="Jarbook input needed text" if slot.number < 2 else "Jarbook input text",
                  to=f"{right}{BOX}", validation=Validation(
                      words["help"]["title"], words["help"]["text"], f"of:cell-content-is-in-list({stored(everything)})",
                      words["help"]["error"]))
        sheet.put(f"{column}{WORDS}", formula=points.words_of(slot), style="Jarbook check", to=f"{right}{WORDS}")
        sheet.condition(f"{column}{WORDS}", f'{slot.single("state")}>{points.CHOSEN}', "Jarbook query check")
        sheet.name_cell(f"compare_{slot.number + 1}", f"{column}{BOX}")
        sheet.name_cell(f"compare_{slot.number + 1}_words", f"{column}{WORDS}")
    sheet.put(f"A{BOX}", words["label"]["choose"], style="Jarbook needed label", to=f"B{BOX}")
    for row in (BOX_HEAD, WORDS):
        sheet.put(f"A{row}", to=f"B{row}")
    sheet.heights |= {BOX_HEAD: 4.5, BOX: 6.5, WORDS: 8.5}


def _measured(slot, range_):
    """The uncertainty's formula, for where a run is chosen."""
    if range_ == CLOCK:
        return CLOCK
    found = slot.of_run(range_)
    return f'IF(N({found})=0;"";{found})'


def _figures(sheet, slots, words):
    _band(sheet, FIGURES, words["band"]["figures"])
    head = FIGURES + 1
    sheet.put(f"A{head}", words["heading"]["quantity"], style="Jarbook lead")
    sheet.put(f"B{head}", words["heading"]["unit"], style="Jarbook lead")
    for slot, column in zip(slots, BOX_COLUMNS):
        sheet.put(f"{column}{head}", formula=f'IF({slot.free};"";{slot.of_run("run")})', style="Jarbook heading", to=f"{_next(column)}{head}",
                  cell={"fo:wrap-option": "no-wrap", "style:shrink-to-fit": "true"})
    sheet.heights[head] = 5.5
    for i, (key, fmt, range_, _) in enumerate(ROWS):
        row = FIGURE + i
        _labels(sheet, row, key, words)
        for slot, column in zip(slots, BOX_COLUMNS):
            value = f"${column}{row}"
            sheet.put(f"{column}{row}", formula=f'IF({slot.free};"";{slot.of_run(key)})', fmt=fmt, style="Jarbook result")
            open_ = points.share_range(slot, key) if range_ is None else _measured(slot, range_)
            sheet.put(f"{_next(column)}{row}", formula=f'IF(ISNUMBER({value});IFERROR({open_};"");"")',
                      fmt=_of_range(key, fmt), style="Jarbook computed")
    sheet.name_cell("figures", f"C{FIGURE}:J{FIGURE + len(ROWS) - 1}")



def _of_range(key, fmt):
    return "0.00 %" if key in L.CUT_NAMES else fmt


def _labels(sheet, row, key, words):
    sheet.put(f"A{row}", words["label"][key], style="Jarbook label")
    sheet.put(f"B{row}", words["unit"][key], style="Jarbook unit")
    sheet.heights[row] = 4.8


def _differences(sheet, slots, words):
    _band(sheet, DIFFERENCES, words["band"]["differences"])
    names, head = DIFFERENCES + 1, DIFFERENCES + 2
    sheet.put(f"A{names}", to=f"B{names}")
    sheet.put(f"A{head}", words["heading"]["quantity"], style="Jarbook lead")
    sheet.put(f"B{head}", words["heading"]["unit"], style="Jarbook lead")
    first, finished = slots[0], texts("runs_sheet")["finished"]
    for slot, column in zip(slots[1:], ("C", "F", "I")):
        differs, right = _next(column), _next(column, 2)
        both = f"OR({first.free};{slot.free})"
        sheet.put(f"{column}{names}", style="Jarbook heading", to=f"{right}{names}",
                  cell={"fo:wrap-option": "no-wrap", "style:shrink-to-fit": "true"},
                  formula=f'IF({both};"";{slot.of_run("run")}&" – "&{first.of_run("run")})')
        for letter, key in ((column, "difference"), (differs, "range"), (right, "verdict")):
            sheet.put(f"{letter}{head}", words["heading"][key], style="Jarbook heading")
        box = BOX_COLUMNS[slot.number]
        for i, (key, fmt, _, whole) in enumerate(ROWS):
            row = DIFFERENCE + i
            one, other = f"$C${FIGURE + i}", f"${box}${FIGURE + i}"
            one_range, other_range = f"$D${FIGURE + i}", f"${_next(box)}${FIGURE + i}"
            waits = f"NOT(AND(ISNUMBER({one});ISNUMBER({other})))"
            if whole:
                waits = f'IF({both};TRUE();OR({waits};{first.of_run("state")}<>"{finished}";{slot.of_run("state")}<>"{finished}"))'
            value, open_ = f"${column}{row}", f"${differs}{row}"
            signed = fmt if fmt == "hours" else "+" + fmt
            sheet.put(f"{column}{row}", formula=f'IF({waits};"";{other}-{one})', fmt=signed, style="Jarbook result")
            sheet.put(f"{differs}{row}", fmt=_of_range(key, fmt), style="Jarbook computed", formula=(
                f'IF(AND(ISNUMBER({value});ISNUMBER({one_range});ISNUMBER({other_range}));SQRT({one_range}^2+{other_range}^2);"")'))
            say, jar = words["verdict"], ""
            if key in L.CUT_NAMES:  # cuts fall between jars
                jars = f"MIN({first.single('jars')};{slot.single('jars')})"
                jar = f'IF(ABS({value})*{jars}<1;"{say["jar"]}";'
            sheet.put(f"{right}{row}", style="Jarbook side words", formula=(
                f'IF(ISNUMBER({value});IF(ISNUMBER({open_});IF(ABS({value})<={open_};"{say["no"]}";{jar}'
                f'IF({value}>0;"{say["more"]}";"{say["less"]}"){")" if jar else ""});"{say["unknown"]}");"")'))
        sheet.condition(f"{right}{DIFFERENCE}:{right}{DIFFERENCE + len(ROWS) - 1}", f'LEFT(${right}{DIFFERENCE};3)="yes"', "Jarbook side yes")
    for i, (key, *_) in enumerate(ROWS):
        _labels(sheet, DIFFERENCE + i, key, words)
    sheet.heights |= {names: 4.8, head: 8.5}
    sheet.name_cell("differences", f"C{DIFFERENCE}:K{DIFFERENCE + len(ROWS) - 1}")
    sheet.put(f"A{NOTE}", words["note"], style="Jarbook note", to=f"{LAST_COLUMN}{NOTE}")
    sheet.heights[NOTE] = 18


def _chart(sheet, slots, words):
    curves, marks = [], []
    for slot, (symbol, colour, dash) in zip(slots, LOOKS):
        def cells(name, slot=slot):
            return slot.points(name).replace("$", "")

        label = slot.single("label").replace("$", "")
        curves.append(Series(cells("strength"), label, cells("middle"), symbol, colour, 0.35, dash, 2))
        marks.append(Series(cells("mark"), label, cells("mark_at"), colour=colour, stroke=4, quiet=True))
    width = sum(sheet.widths[i] for i in range(11)) - 3
    sheet.put(f"A{CHART}", drawing=sheet.book.add_chart(Chart(
        "Runs over each other", "scatter", words["chart"]["title"], curves + marks,
        Axis(words["chart"]["x"], 0, None, 0.1, "0 %"), Axis(words["chart"]["y"]),
        width, CHART_ROWS * sheet.default_height - 2, description=words["chart"]["about"], legend="bottom")))


def add(book, count, chosen=()):
    """Adds the sheet, for a sheet Runs of so many runs, with these runs chosen by name."""
    words = texts("side_by_side")
    sheet = book.add_sheet(SHEET, "TallPage", tab_colour="#8d99a3")
    for columns, millimetres in WIDTHS.items():
        sheet.width(columns, millimetres)
    slots = [Slot(i, count) for i in range(SLOTS)]
    sheet.put("A1", words["title"], style="Jarbook page title", to=f"{LAST_COLUMN}1")
    sheet.put("A2", words["lead"], style="Jarbook page text", to=f"{LAST_COLUMN}2")
    sheet.heights |= {1: 8, 2: 9}
    _boxes(sheet, slots, chosen, words)
    points.fill(sheet, slots)
    _chart(sheet, slots, words)
    _figures(sheet, slots, words)
    _differences(sheet, slots, words)
    last = slots[-1].column(len(points.POINTS) - 1)
    sheet.fold_columns(points.FIRST_COLUMN, last)
    sheet.print_range = f"A1:{LAST_COLUMN}{NOTE}"
    sheet.frozen_rows, sheet.cursor = WORDS, f"{BOX_COLUMNS[0]}{BOX}"
    return sheet
