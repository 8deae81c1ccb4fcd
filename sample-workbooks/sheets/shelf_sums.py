"""What the Shelf comes to: pure alcohol by kind, through each run, from wash to bottle, and the measuring errors."""
from odf.formula import column_name, column_number

from common.texts import in_formula, texts
from sheets import page, runs, shelf_places as P
from sheets.boxes import Boxes, Number, Side
from sheets.shelf_places import ALL_RUNS, B, L, LISTS, PURE, book, lots
from sheets.shelf_rows import T, say

KIND_HEADS = (("B", "kind"), ("F", "kind_lots"), ("G", "kind_in"), ("H", "kind_blended_in"), ("I", "kind_blended_out"),
              ("J", "kind_charged"), ("K", "kind_bottled"), ("L", "kind_withdrawn"), ("M", "kind_stock"), ("N", "kind_loss"),
              ("O", "kind_closes"))
KIND_SUMS = dict(zip("GHIJKLMN", ("alcohol", "blended_in", "blended_out", "charged", "bottled", "withdrawn", "now", None)))
RUN_HEADS = (("B", "run"), ("D", "run_date"), ("G", "run_charged"), ("H", "run_charge"), ("K", "run_collected"), ("M", "run_shelved"),
             ("N", "run_rest"), ("O", "run_left"), ("Q", "book_words"))
KIND_FIRST = P.KINDS_BAND + 2
KIND_LAST = KIND_FIRST + len(T["kinds"]["list"]) - 1
KIND_ALL = KIND_LAST + 1
RUN_FIRST = P.RUNS_BAND + 2
RUN_LAST = RUN_FIRST + P.RUNS_SHOWN - 1
ACCOUNT_FIRST = P.SEASON_BAND + 2
ACCOUNTS = ("outside", "bottled", "withdrawn", "stock", "loss", "stills", "closes")
ACCOUNT_CELLS = {name: f"O{ACCOUNT_FIRST + i}" for i, name in enumerate(ACCOUNTS)}
# Beside: wrong rows of lots and book, totals that have everything, 1 if all is whole
BESIDE = {name: f"${column}${P.KINDS_BAND}" for name, column in zip(("wrong_lots", "wrong_book", "whole", "made", "loss"), "STUVW")}
RUN_BESIDE = {"twice": "S", "charge": "T", "state": "U"}


def run_cells(key, count):
    """A column of Runs with its closing row: it grows with the rows."""
    letter = runs.LETTER[key]
    return f"$Runs.${letter}${runs.FIRST}:${letter}${runs.FIRST + count}"


def _hold(formula):
    return f'IF({BESIDE["whole"]}=0;"";{formula})'


def _kinds(sheet):
    page.band(sheet, P.KINDS_BAND, T["band"], "kinds", last=P.WORDS)
    for column, key in KIND_HEADS:
        sheet.put(f"{column}{P.KINDS_BAND + 1}", T["heading"][key], style="Jarbook heading")
    sheet.heights[P.KINDS_BAND + 1] = 9
    loss = f"{lots.all(L['alcohol'])}"
    for i, kind in enumerate(T["kinds"]["list"]):
        row = KIND_FIRST + i
        sheet.put(f"B{row}", kind, style="Jarbook label")
        for column in "CDE":
            sheet.put(f"{column}{row}", style="Jarbook label")
        of_kind = f'{lots.all(L["kind"])};"{kind}"'
        sheet.put(f"F{row}", style="Jarbook computed", fmt="0|-", formula=_hold(f'COUNTIFS({of_kind};{lots.all(L["now"])};">0")'))
        for column, key in KIND_SUMS.items():
            cells = lots.all(L[key]) if key else lots.all(P.LOSS)
            sheet.put(f"{column}{row}", style="Jarbook computed", fmt="0.000|-", formula=_hold(f"SUMIFS({cells};{of_kind})"))
        _closes(sheet, row)
    row = KIND_ALL
    sheet.put(f"B{row}", T["kinds"]["all"], style="Jarbook needed label")
    for column in "CDE":
        sheet.put(f"{column}{row}", style="Jarbook label")
    for column in "FGHIJKLMN":
        sheet.put(f"{column}{row}", style="Jarbook result", fmt="0|-" if column == "F" else "0.000|-",
                  formula=_hold(f"SUM({column}{KIND_FIRST}:{column}{KIND_LAST})"))
    _closes(sheet, row)
    sheet.put(f"A{row + 1}", T["text"]["kinds"], style="Jarbook note", to=f"Q{row + 1}")
    sheet.heights[row + 1] = 6
    return loss


def _closes(sheet, row):
    sheet.put(f"O{row}", style="Jarbook computed", fmt="0.000|-",
              formula=_hold(f"ROUND($G{row}+$H{row}-$I{row}-$J{row}-$K{row}-$L{row}-$M{row}-$N{row};9)"))


def _runs(sheet, count):
    page.band(sheet, P.RUNS_BAND, T["band"], "runs", last=P.WORDS)
    for column, key in RUN_HEADS:
        sheet.put(f"{column}{P.RUNS_BAND + 1}", T["heading"][key], style="Jarbook heading")
    sheet.heights[P.RUNS_BAND + 1] = 12
    for i in range(P.RUNS_SHOWN):
        row = RUN_FIRST + i
        place = f"MAX(0;{ALL_RUNS}-{P.RUNS_SHOWN})+{i + 1}"
        there = f'IF({place}>{ALL_RUNS};"";'

        def of_run(key):
            cell = f"INDEX({run_cells(key, count)};{place})"
            return f'{there}IF(ISNUMBER({cell});{cell};""))'

        run = f"$B{row}"
        sheet.put(f"B{row}", style="Jarbook label", formula=f'{there}INDEX({run_cells("run", count)};{place})&"")')
        for column in "CEF":
            sheet.put(f"{column}{row}", style="Jarbook label")
        sheet.put(f"D{row}", style="Jarbook label", fmt="date", formula=of_run("date"))
        charged = f'SUMIFS({book.all(B["out"])};{book.all(B["what"])};3;{book.all(B["where"])};{run})'
        shelved = f'SUMIFS({lots.all(L["alcohol"])};{lots.all(L["origin"])};{run})'
        booked = (f'COUNTIFS({book.all(B["what"])};3;{book.all(B["where"])};{run})+COUNTIFS({lots.all(L["origin"])};{run})')
        shown = (("G", f'{there}{charged})'), ("H", of_run("charge_alcohol")), ("K", of_run("collected")),
                 ("M", f"{there}{shelved})"), ("N", f'{there}IF(OR($M{row}=0;$K{row}="");"";$K{row}-$M{row}))'),
                 ("O", f'{there}IF(OR($G{row}=0;$K{row}="";$H{row}="");"";$H{row}-$K{row}))'))
        for column, formula in shown:
            sheet.put(f"{column}{row}", style="Jarbook computed", fmt="0.000|-", formula=formula)
        for column in "IJLP":
            sheet.put(f"{column}{row}", style="Jarbook label")
        amounts = {"here": f"FIXED($M{row};3;1)", "run": f"FIXED($K{row};3;1)"}
        twice = f'AND(ISNUMBER($K{row});N($M{row})>1.005*N($K{row})+0.002)'
        charge = f'AND(ISNUMBER($H{row});N($G{row})>0;ABS(N($G{row})-N($H{row}))>0.005*N($H{row})+0.002)'
        sheet.put(f"{RUN_BESIDE['state']}{row}", style="Jarbook aside", fmt="0", formula=f"{there}{booked})")
        sheet.put(f"Q{row}", style="Jarbook check", formula=(
            f'IF({run}="";"";IF({twice};{say("run_twice", **amounts)};IF({charge};'
            f'{say("run_charge", here=f"FIXED($G{row};3;1)", run=f"FIXED($H{row};3;1)")};"")))'))
    sheet.condition(f"Q{RUN_FIRST}:Q{RUN_LAST}", f"LEN($Q{RUN_FIRST})>0", "Jarbook query check")
    more = f"{ALL_RUNS}-{P.RUNS_SHOWN}"
    sheet.put(f"A{RUN_LAST + 1}", style="Jarbook note", to=f"Q{RUN_LAST + 1}",
              formula=f'IF({more}>0;{say("runs_more", count=more)}&" ";"")&{in_formula(T["text"]["runs"])}')
    sheet.heights[RUN_LAST + 1] = 6


def boxes():
    side = Side(*P.SIDE)
    return Boxes({name: (side, row) for name, row in P.BOX_ROWS.items()},
                 {"reading_tolerance": Number(0, 5, "0.5", "strength", "0.00"), "reading_scatter": Number(0, 5, "0.1", "strength", "0.00"),
                  "volume_tolerance": Number(0, 20, "1", "percent", "0.0")},
                 P.SEASON_BAND + 1, max(P.BOX_ROWS.values()) + 1, T, P.POINT)


def _season(sheet, data):
    page.band(sheet, P.SEASON_BAND, T["band"], "season", "account", P.WORDS, "K")
    sheet.heights[P.SEASON_BAND + 1] = 1.2
    boxes().fill(sheet, data)
    formulas = {"outside": f'SUM({lots.all(L["alcohol"])})-{BESIDE["made"]}', "bottled": f"$K${KIND_ALL}", "withdrawn": f"$L${KIND_ALL}",
                "stock": f"$M${KIND_ALL}", "loss": f"$N${KIND_ALL}", "stills": f'$J${KIND_ALL}-{BESIDE["made"]}'}
    for name, cell in ACCOUNT_CELLS.items():
        row = int(cell[1:])
        sheet.heights[row] = 6.3
        ends = name in ("outside", "closes")
        sheet.put(f"K{row}", T["account"][name], style="Jarbook needed label" if ends else "Jarbook label")
        for column in "LMN":
            sheet.put(f"{column}{row}", style="Jarbook label")
        rest = f"ROUND($O${ACCOUNT_FIRST}-SUM($O${ACCOUNT_FIRST + 1}:$O${row - 1});9)"
        sheet.put(cell, style="Jarbook result" if ends else "Jarbook computed", fmt="0.000000000" if name == "closes" else "0.000",
                  formula=_hold(formulas.get(name, rest)), to=f"P{row}")
        sheet.put(f"Q{row}", T["text"]["stills"] if name == "stills" else None, style="Jarbook plan words")
    row = ACCOUNT_FIRST + 3
    sheet.put(f"A{row}", T["text"]["season"], style="Jarbook note", to=f"J{row + 3}")


def _beside(sheet, count):
    cells = run_cells("run", count)
    sheet.put(P.POINT.replace("$", ""), formula='MID(0.5&"";2;1)', style="Jarbook aside")
    sheet.put(P.OTHER_POINT.replace("$", ""), formula=f'IF({P.POINT}=".";",";".")', style="Jarbook aside")
    sheet.put(PURE.replace("$", ""), formula="SPIRIT.DENSITY(100;20)", style="Jarbook aside")
    sheet.put(ALL_RUNS.replace("$", ""), formula=f"ROWS({cells})-1", style="Jarbook aside", fmt="0")
    whole = f"$A${P.TITLE}:$Q${max(P.BOX_ROWS.values()) + 1}"
    sheet.put(P.NOTICED.replace("$", ""), formula=f"0*ROWS({whole})", style="Jarbook aside", fmt="0")
    formulas = {"wrong_lots": f'COUNTIF({lots.all(L["state"])};-1)', "wrong_book": f'COUNTIF({book.all(B["fits"])};0)',
                "whole": f'IF(AND({BESIDE["wrong_lots"]}+{BESIDE["wrong_book"]}=0;COUNTIF({lots.all(L["whole"])};1)>0);1;0)',
                "made": f'SUMPRODUCT(({lots.all(L["origin"])}<>"")*(COUNTIF({cells};{lots.all(L["origin"])})>0);{lots.all(L["alcohol"])})',
                "loss": f'SUM({book.all(B["loss"])})'}
    for name, formula in formulas.items():
        sheet.put(BESIDE[name].replace("$", ""), formula=formula, style="Jarbook aside", fmt="0.000")
    for name, (column, _) in LISTS.items():
        sheet.put(f"{column}{lots.head}", name, style="Jarbook unit")
    named = lots.all(L["name"])
    count_runs = f"MIN({P.RUNS_SHOWN};{ALL_RUNS})"
    place = f"(ROW()-ROW($A${lots.top}))"
    for name, (column, many) in LISTS.items():
        for i in range(many):
            row = lots.first + i
            # The latest runs first
            run = f'INDEX({cells};{ALL_RUNS}+1-{place})&""'
            formula = {"lots": f'${L["name"]}{row}&""', "runs": f'IF({place}>{count_runs};"";{run})',
                       "places": f'IF({place}<={count_runs};{run};IF({place}-{count_runs}<={P.LOTS};INDEX({named};1+{place}-{count_runs})&"";""))'}[name]
            sheet.put(f"{column}{row}", formula=formula, style="Jarbook aside")


def fill(sheet, count, data):
    _kinds(sheet)
    _runs(sheet, count)
    _season(sheet, data)
    _beside(sheet, count)
    return column_name(column_number(P.LAST_BESIDE))
