"""The Season plan sheet: what is on hand, what is wanted in bottles, and the runs that make it, feints returning.

Three pages: boxes and results; the spirit runs one by one with their chart; the account of alcohol, and where to
stop a stripping run. Beside the page stands what is counted with (plan_boxes, plan_counts, plan_cycles, plan_strip).
"""
from odf.styles import NamedStyle

from common.texts import in_formula, texts
from sheets import page, plan_boxes as boxes, plan_counts as counts, plan_cycles as cycles, plan_strip as strip
from sheets.boxes import between
from sheets.plan_boxes import LEFT, RESULTS, RIGHT, SHEET, used
from sheets.plan_counts import LOOKS, MESSAGE, SINGLE, still_cells

WIDTHS = {"A:C": 14, "D": 16, "E": 13, "F:I": 12, "J:L": 14, "M": 16, "N": 13, "O:R": 12, "S": 3, "T:U": 26, "V": 26,
          "W:X": 18}
RESULT, RESULT_LINES = RESULTS + 1, 8
ALL_LOOK = RESULT + RESULT_LINES          # all there is to look at
RANGE = ALL_LOOK + 1                      # what certain and possible mean

STYLES = [
    NamedStyle("Jarbook plan counts", "Jarbook computed", letters={"fo:font-size": "9pt"}),
    NamedStyle("Jarbook plan counts words", "Jarbook plan counts", cell={"style:shrink-to-fit": "true"},
               paragraph={"fo:text-align": "start", "fo:margin-left": "0mm"}),
    NamedStyle("Jarbook plan words", "Jarbook unit", cell={"fo:wrap-option": "wrap"}, letters={"fo:font-size": "7.5pt"}),
]

RESULT_CELLS = (
    {name: f"D{RESULT + i}" for i, name in enumerate((
        "bottles_certain", "bottles_likely", "bottles_possible", "verdict", "hearts_volume", "hearts_strength", "water",
        "spirit_volume"))}
    | {name: f"M{RESULT + i}" for i, name in enumerate((
        "strip_runs", "pool_volume", "pool_strength", "spirit_runs", "hours", "energy", "cooling", "limit"))})
ACCOUNT = strip.FIRST
ACCOUNTS = ("on_hand", "hearts", "foreshots", "heads_lost", "tails_lost", "strip_residue", "spirit_residue",
            "feints_left", "low_left", "closes")


def _result(sheet, name, formula, fmt, words, style="Jarbook result"):
    """Label, figure and words of a result, at the left or at the right."""
    cell = RESULT_CELLS[name]
    side, row = (LEFT, RIGHT)[cell[0] == "M"], cell[1:]
    sheet.put(f"{side[0]}{row}", texts("season_plan")["result"][name], style="Jarbook label")
    for column in between(side[0], side[1]):
        sheet.put(f"{column}{row}", style="Jarbook label")
    if formula:
        sheet.put(cell, formula=formula, fmt=fmt, style=style)
    sheet.put(f"{side[3] if formula else side[2]}{row}", formula=f'IFERROR({words};"")', style="Jarbook plan words", to=f"{side[5]}{row}")
    sheet.heights[int(row)] = 5.6


def _results(sheet):
    words, s, nominal = texts("season_plan")["words"], SINGLE, cycles.Case("nominal")
    units = texts("season_plan")["unit"]

    def number(cell, digits=1):
        return f"FIXED({cell};{digits};1)"

    def seen(cell):
        return f'IF({cell}="";"";{cell})'

    def spoken(cell, text):
        return f'IF({cell}="";"";{text})'

    cases = [s[f"bottles_{case}"] for case in cycles.CASES]
    likely, wanted = s["bottles_nominal"], used("bottles_wanted")
    ends = f'IF({likely}="";"";{{}}({";".join(cases)}))'
    certain, possible = ("$" + RESULT_CELLS[f"bottles_{end}"].replace("D", "D$") for end in ("certain", "possible"))
    _result(sheet, "bottles_certain", ends.format("MIN"), "0", in_formula(words["certain"]))
    _result(sheet, "bottles_likely", seen(likely), "0", in_formula(words["likely"]))
    _result(sheet, "bottles_possible", ends.format("MAX"), "0", in_formula(words["possible"]))
    strip_share = f'{nominal.figure("strip_alcohol")}/{s["strip_charge"]}'
    more_wash = in_formula(words["wanted_short_wash"], short=s["short"], volume=f'FIXED({s["more_alcohol"]}/({strip_share});0;1)')
    more_low = in_formula(words["wanted_short_low"], short=s["short"], volume=f'FIXED(100*{s["more_alcohol"]}/{nominal.figure("pool_s")};1;1)')
    plain = in_formula(words["wanted_short"], short=s["short"])
    verdict = (f'IF({certain}>={wanted};{in_formula(words["wanted_certain"], wanted=wanted)};'
               f'IF({likely}>={wanted};{in_formula(words["wanted_likely"], wanted=wanted)};'
               f'IF({possible}>={wanted};{in_formula(words["wanted_possible"], wanted=wanted, short=s["short"])};'
               f'IF({s["more_alcohol"]}="";{plain};IF({s["strips"]}>0;{more_wash};{more_low})))))')
    _result(sheet, "verdict", None, None, f'IF(OR({likely}="";{wanted}="");"";{verdict})')
    _result(sheet, "hearts_volume", seen(s["hearts_volume"]), "0.00", in_formula(units["litre20"]))
    _result(sheet, "hearts_strength", seen(s["hearts_strength"]), "0.0", in_formula(units["strength"]))
    weak = f'OR({s["hearts_strength"]}="";{used("bottling_strength")}="";N({s["hearts_strength"]})<N({used("bottling_strength")}))'
    _result(sheet, "water", f'IF({weak};"";SPIRIT.WATERTOADD({s["hearts_volume"]};{s["hearts_strength"]};{used("bottling_strength")}))',
            "0.00", spoken("$D$" + RESULT_CELLS["water"][1:], in_formula(
                words["water"], mass=number(f'SPIRIT.MASS($D${RESULT_CELLS["water"][1:]};0)', 2))))
    _result(sheet, "spirit_volume", f'IF({weak};"";100*{s["hearts"]}/{used("bottling_strength")})', "0.00", in_formula(units["litre20"]))
    each = in_formula(words["strips"], charge=number(s["strip_charge"]), volume=number(nominal.figure("strip_volume"), 2),
                      strength=number(f'100*{nominal.figure("strip_alcohol")}/{nominal.figure("strip_volume")}'))
    ready = f"N({s['ready']})=0"
    _result(sheet, "strip_runs", f'IF({ready};"";{s["strips"]})', "0",
            f'IF({ready};"";IF({s["strips"]}=0;{in_formula(words["no_strips"])};{each}))')
    _result(sheet, "pool_volume", seen(nominal.figure("pool")), "0.0", in_formula(words["pool"]))
    _result(sheet, "pool_strength", seen(nominal.figure("pool_s")), "0.0", in_formula(units["strength"]))
    _result(sheet, "spirit_runs", seen(s["spirit_runs"]), "0", spoken(
        s["rest_run"], f'IF({s["rest_run"]}=0;{in_formula(words["not_rest"])};{in_formula(words["rest"], run=s["rest_run"])})'))
    hours, energy = nominal.range("hours"), nominal.range("energy")
    stripping = f'TEXT({s["strip_hours"]}/24;"[H]:MM")'
    _result(sheet, "hours", f'IF({ready};"";({s["strip_hours"]}+SUM({hours}))/24)', "hours",
            spoken(s["strip_hours"], in_formula(words["hours"], strip=stripping)))
    row = RESULT_CELLS["energy"][1:]
    bottle = in_formula(words["energy"], each=number(f"$M${row}/{likely}", 2))
    _result(sheet, "energy", f'IF({ready};"";{s["strip_energy"]}+SUM({energy}))', "0.0",
            spoken(f"$M${row}", f'IF(N({likely})=0;{in_formula(words["energy_plain"])};{bottle})'))
    _result(sheet, "cooling", f'IF({ready};"";{s["strip_cooling"]}+SUM({nominal.range("cooling")}))', "0",
            spoken(f'$M${RESULT_CELLS["cooling"][1:]}', in_formula(words["cooling"], rise=used("cooling_rise"))))
    charge, limit = (f"INDEX({nominal.range(key)};{s['last_full']})" for key in ("alcohol", "limit"))
    _result(sheet, "limit", f'IF({s["last_full"]}="";"";{limit})', "0.00", spoken(s["last_full"], in_formula(
        words["limit"], run=s["last_full"], charge=number(charge, 2), difference=number(f"100*({charge}/{limit}-1)", 1))))


def _account(sheet):
    words, s, nominal = texts("season_plan"), SINGLE, cycles.Case("nominal")
    head = ACCOUNT - 1
    sheet.put(f"E{head}", words["heading"]["account"], style="Jarbook heading", to=f"F{head}")
    sheet.put(f"G{head}", words["heading"]["share"], style="Jarbook heading", to=f"H{head}")

    def total(key):
        return f"SUM({nominal.range(key)})"

    def cut(key, before):
        return f"({total(key)}-{total(before)})"

    last = f'MAX(1;N({s["spirit_runs"]}))'
    back = f'N(INDEX({nominal.range("back")};{last}))*N(INDEX({nominal.range("back_s")};{last}))/100'
    wash = f"N({used('wash_volume')})*N({used('wash_strength')})/100"
    formulas = {
        "on_hand": wash + "".join(f"+N({used(lot + '_volume')})*N({used(lot + '_strength')})/100" for lot in ("low", "feints")),
        "hearts": cut("alc_hearts", "alc_heads"), "foreshots": total("alc_foreshots"),
        "heads_lost": f"{cut('alc_heads', 'alc_foreshots')}*(1-{used('heads_return')}/100)",
        "tails_lost": f"{cut('alc_tails', 'alc_hearts')}*(1-{used('tails_return')}/100)",
        "strip_residue": f'IF({s["strips"]}=0;0;{wash}-{s["strips"]}*{nominal.figure("strip_alcohol")})',
        "spirit_residue": cut("alcohol", "alc_tails"), "feints_left": back,
        "low_left": f'{s["left_over"]}*{nominal.figure("pool_s")}/100'}
    for i, name in enumerate(ACCOUNTS):
        row = ACCOUNT + i
        sheet.put(f"A{row}", words["account"][name], style="Jarbook label")
        for column in "BCD":
            sheet.put(f"{column}{row}", style="Jarbook label")
        formula = formulas.get(name) or f"ROUND($E${ACCOUNT}-SUM($E${ACCOUNT + 1}:$E${row - 1});6)"
        style = "Jarbook result" if name in ("on_hand", "hearts", "closes") else "Jarbook computed"
        sheet.put(f"E{row}", formula=f'IF(N({s["ready"]})=0;"";{formula})', fmt="0.00", style=style, to=f"F{row}")
        sheet.put(f"G{row}", formula=f'IF(N({s["ready"]})=0;"";$E${row}/$E${ACCOUNT})', fmt="0.0 %", style=style, to=f"H{row}")


def _look(sheet):
    words, say = texts("season_plan"), texts("season_plan")["say"]
    first = '""'
    for cell in reversed(MESSAGE.values()):
        first = f'IF({cell}<>"";{cell};{first})'
    more = in_formula(say["more"], count=f"({LOOKS}-1)")
    none = texts("cautions")["caution"]["none"]
    sheet.put(f"A{boxes.LOOK}", style="Jarbook look", to=f"R{boxes.LOOK}", formula=(
        f'IF({LOOKS}=0;IF(N({SINGLE["ready"]})=0;{in_formula(say["start"])};{in_formula(none)});{first}&IF({LOOKS}>1;{more};""))'))
    sheet.condition(f"A{boxes.LOOK}", f"{LOOKS}>0", "Jarbook query look")
    joined = "&".join(f'IF({cell}="";"";{cell}&" ")' for cell in MESSAGE.values())
    sheet.put(f"A{ALL_LOOK}", style="Jarbook plan words", to=f"R{ALL_LOOK}", formula=f'IF({LOOKS}<2;"";{joined})')
    sheet.put(f"A{RANGE}", words["text"]["range"], style="Jarbook note", to=f"R{RANGE}")
    sheet.heights |= {boxes.TITLE: 8, boxes.LOOK: 9, ALL_LOOK: 11, RANGE: 8}


def add(book, count, data=None):
    """Adds the sheet, for a sheet Runs of so many rows; `data` fills its boxes by name."""
    words = texts("season_plan")
    sheet = page.add(book, SHEET, words, WIDTHS)
    _look(sheet)
    page.band(sheet, boxes.WANTED, words["band"], "wanted", "still")
    page.band(sheet, boxes.CUTS, words["band"], "cuts", "cuts_hint")
    boxes.fill(sheet, data or {}, SINGLE, still_cells())
    page.band(sheet, RESULTS, words["band"], "results")
    _results(sheet)
    page.band(sheet, cycles.HEAD - 1, words["band"], "cycles")
    cycles.fill(sheet, SINGLE)
    page.band(sheet, strip.BAND, words["band"], "account", "stop")
    _account(sheet)
    strip.fill(sheet, SINGLE)
    counts.fill(sheet, count)
    sheet.breaks |= {cycles.HEAD - 1, strip.BAND}
    sheet.print_range = f"A1:R{strip.CHART + strip.CHART_ROWS}"
    sheet.frozen_rows = boxes.LOOK
    sheet.cursor = f"D{boxes.LINE}"
    sheet.fold_columns("T", list(cycles.Case("high_high").columns.values())[-1])
    for name, (side, row) in boxes.PLACES.items():
        sheet.name_cell(name, f"{side[2]}{row}")
        sheet.name_cell(f"{name}_counts", f"{side[3]}{row}")
        sheet.name_cell(f"{name}_words", f"{'P' if name == 'still_name' else side[4]}{row}")
    for name, cell in RESULT_CELLS.items():
        sheet.name_cell(f"season_{name}", cell)
    for i, name in enumerate(ACCOUNTS):
        sheet.name_cell(f"account_{name}", f"E{ACCOUNT + i}")
    for key, column in cycles.PAGE.items():
        sheet.name_cell(f"cycle_{key}", f"{column}{cycles.FIRST}:{column}{cycles.LAST}")
    sheet.name_cell("where_to_stop", f"J{strip.FIRST}:P{strip.LAST}")
    sheet.name_cell("season_look_all", f"A{ALL_LOOK}")
    sheet.name_cell("season_look", f"A{boxes.LOOK}")
    return sheet
