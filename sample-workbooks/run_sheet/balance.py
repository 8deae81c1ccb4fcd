"""After: where the pure alcohol of the charge went, and whether the instruments explain what is missing.

One alcoholometer and one thermometer measure charge, jars and residue: what they are off by is the
same everywhere and mostly cancels in the difference. The vessels differ (a tank, a cylinder, a
scale), and the scatter of single readings is independent: these add in squares.
"""
from . import layout as L, read
from .layout import at, jars, lots
from .pad import blank_if, empty
from .texts import T, say

BUDGET = L.CUT                # beside the page
RESIDUE_ROW = L.RESIDUE + 1
TOLERANCES = tuple(read.used(name) for name in ("reading_tolerance", "temperature_tolerance", "reading_scatter",
                                                "volume_tolerance"))
VOLUME, DEGREES, KNOWN, READING = (read.used(name) for name in (
    "residue_measured_volume", "residue_temperature", "residue_known", "residue_reading"))
NO_RESIDUE = [f"NOT(ISNUMBER({at.residue_measured_strength}))", *empty(VOLUME, DEGREES)]
NO_BLEND = f"COUNT({jars(L.USED)})<{at.jars_complete}"


def _table(pad):
    head = L.CUT_HEAD
    pad.lead(f"J{head}", f"L{head}", T["heading"]["account"])
    pad.heading(f"M{head}", T["heading"]["account_litres"])
    pad.heading(f"N{head}", T["heading"]["account_share"])
    cut, alcohol, used_up = jars(L.CUT_USED), jars(L.ALCOHOL), jars(L.USED)

    def unused(name):
        return f'(SUMIF({cut};"{name}";{alcohol})-SUMIF({cut};"{name}";{used_up}))/1000'

    wait, product = [f"{at.jars_ready}=0", *empty(at.charge_alcohol)], [NO_BLEND]
    lines = (
        ("balance_charged", [], at.charge_alcohol), ("balance_product", product, f"SUM({used_up})/1000"),
        ("balance_spare", product, unused("hearts")),
        ("balance_feints", product, f"(SUM({alcohol})-SUM({used_up}))/1000-{at.balance_foreshots}-{at.balance_spare}"),
        ("balance_foreshots", product, unused("foreshots")),
        ("balance_residue", NO_RESIDUE,
         f"SPIRIT.PUREALCOHOL({VOLUME};{at.residue_measured_strength};{DEGREES})"),
        ("balance_unaccounted", [], f"{at.balance_charged}-SUM({alcohol})/1000-N({at.balance_residue})"))
    for i, (name, waits, formula) in enumerate(lines):
        row = L.CUT + i
        pad.label(f"J{row}", f"L{row}", name)
        pad.result(name, blank_if(*wait, *waits) + f"ROUND({formula};12))",
                   style="Jarbook result" if name == "balance_unaccounted" else "Jarbook computed")
    row = L.CUT + 7
    pad.label(f"J{row}", f"L{row}", "balance_uncertainty")
    pad.result("balance_uncertainty", _uncertainty())
    for row in range(L.CUT, L.CUT + 8):
        cell = f"$M{row}"
        pad.computed(f"N{row}", blank_if(*empty(cell, at.charge_alcohol)) + f"{cell}/{at.charge_alcohol})", "0.0 %")
    off, limit = at.balance_unaccounted, at.balance_uncertainty
    pad.result("balance_verdict", f'IF({off}="";"";IF({at.balance_residue}="";{say("residue_open")};IF({limit}="";"";'
               f'IF(ABS({off})<={limit};{say("balance_fits")};IF({off}>0;{say("balance_missing")};{say("balance_found")})))))',
               None, to=f"N{L.CUT + 8}", style="Jarbook computed text")
    pad.sheet.heights[L.CUT + 8] = 8   # two lines
    cell = L.names["balance_verdict"]
    pad.sheet.condition(cell, f'OR({cell}={say("balance_missing")};{cell}={say("balance_found")})', "Jarbook query")


def _beside(pad):
    """The lists of the budgets. A known strength counts as a reading at 20 °C of the volume at 20 °C."""
    columns = (L.BUDGET_AMOUNT, L.BUDGET_READING, L.BUDGET_TEMPERATURE, L.BUDGET_TOLERANCE)
    heads = T["beside"]["budget_heads"]
    for column, text in zip(columns, heads):
        pad.aside_heading(f"{column}{L.LOT_HEAD}", text)
    for row in range(L.LOT, L.LOT_END + 1):
        p, q, r, s = (f"${c}{row}" for c in (L.LOT_KNOWN_USED, L.LOT_VOLUME_USED, L.LOT_READING_USED, L.LOT_TEMPERATURE_USED))
        at20, known = f"${L.LOT_AT20}{row}", f'${L.LOT_KNOWN_USED}{row}<>""'
        for column, given, typed in zip(columns, (at20, p, "20"), (q, r, s)):
            pad.aside(f"{column}{row}", blank_if(*empty(at20)) + f"IF({known};{given};{typed}))")
        pad.aside(f"{columns[3]}{row}", blank_if(*empty(at20, TOLERANCES[3])) + f"${columns[0]}{row}*{TOLERANCES[3]}/100)", "0.000")
    row, waits = RESIDUE_ROW, blank_if(*empty(at.balance_residue))
    known = f'{KNOWN}<>""'
    for column, text in zip("VWXY", heads):
        pad.aside_heading(f"{column}{row - 1}", text)
    pad.aside(f"V{row}", waits + f"IF({known};SPIRIT.VOLUME({VOLUME};{KNOWN};{DEGREES};20);{VOLUME}))")
    pad.aside(f"W{row}", waits + f"IF({known};{KNOWN};{READING}))")
    pad.aside(f"X{row}", waits + f"IF({known};20;{DEGREES}))")
    waits = blank_if(*empty(at.balance_residue, TOLERANCES[3]))
    pad.aside(f"Y{row}", waits + f"$V{row}*{TOLERANCES[3]}/100)", "0.000")


def _budgets(pad):
    first, last = BUDGET, BUDGET + 4
    tolerances = "{};{};0;{};0".format(*TOLERANCES)
    lot = ";".join(lots(c) for c in (L.BUDGET_AMOUNT, L.BUDGET_READING, L.BUDGET_TEMPERATURE, L.BUDGET_TOLERANCE))
    jar = ";".join(jars(c) for c in (L.AMOUNT_USED, L.READING_USED, L.TEMPERATURE_USED, L.TOLERANCE))
    residue = ";".join(f"${c}${RESIDUE_ROW}" for c in "VWXY")
    heads = T["beside"]["budget"]
    columns = (
        ("AB", empty(at.charge_alcohol), f"SPIRIT.PUREALCOHOLBUDGET({lot};{tolerances})"),
        ("AC", [f"{at.jars_ready}=0"], f'SPIRIT.PUREALCOHOLBUDGET({jar};{tolerances};{read.used("jar_unit")}="g")'),
        ("AD", empty(at.balance_residue), f"SPIRIT.PUREALCOHOLBUDGET({residue};{tolerances})"))
    for (column, waits, formula), heading in zip(columns, heads[1:]):
        pad.aside_heading(f"{column}{first - 1}", heading)
        for row in range(first, last + 1):
            pad.aside(f"{column}{row}", blank_if(*waits, *empty(*TOLERANCES)) + formula + ")" if row == first else None,
                      "0.0000", array=f"{column}{last}" if row == first else None)
    pad.aside_heading(f"AA{first - 1}", heads[0])
    for i, text in enumerate(T["beside"]["budget_from"]):
        pad.sheet.put(f"AA{first + i}", text, style="Jarbook unit")


def _uncertainty():
    """Own vessels and scatter in squares; the common instruments by their difference."""
    def parts(i):
        return f"N($AB${BUDGET + i})", f"N($AC${BUDGET + i})/1000", f"N($AD${BUDGET + i})"

    squares = [f"({part})^2" for i in (0, 4) for part in parts(i)]
    squares += ["({}-{}-{})^2".format(*parts(i)) for i in (1, 2, 3)]
    return blank_if(*empty(f"$AB${BUDGET}", f"$AC${BUDGET}")) + f"SQRT({'+'.join(squares)}))"


def _next(pad):
    """Where everything goes, with what the next sheet asks for: litres and strength."""
    pad.band(L.NEXT, "next")
    head = L.NEXT_HEAD
    pad.sheet.heights[head] = 8.5
    pad.lead(f"A{head}", f"C{head}", "")
    pad.heading(f"D{head}", T["heading"]["next_volume"])
    pad.heading(f"E{head}", T["heading"]["next_strength"])
    pad.lead(f"F{head}", f"N{head}", T["heading"]["next_goes"])
    lists = f"{jars(L.REST)};{jars(L.STRENGTH)};{jars(L.GOES)}"
    wait = [f"{at.jars_ready}=0", f"COUNT({jars(L.REST)})<{at.jars_complete}"]

    def rest(cut, quantity):
        return blank_if(*wait) + f'SPIRIT.CUTTOTAL({lists};"{cut}";"{quantity}")'

    residue = NO_RESIDUE
    figures = {
        "product": (blank_if(*empty(at.product_volume)) + f"{at.product_volume})",
                    blank_if(*empty(at.product_strength)) + f"{at.product_strength})"),
        "residue": (blank_if(*residue) + f"SPIRIT.VOLUME({VOLUME};{at.residue_measured_strength};{DEGREES};20))",
                    blank_if(*residue) + f"{at.residue_measured_strength})")}
    for i, what in enumerate(("product", "spare", "feints", "foreshots", "residue")):
        row = L.NEXT_LINE + i
        if what not in figures:
            cut = {"spare": "hearts", "feints": "tails", "foreshots": "foreshots"}[what]
            figures[what] = (rest(cut, "volume") + "/1000)",
                             blank_if(*empty(f"$D{row}"), f"N($D{row})<1E-9") + rest(cut, "strength")[len(blank_if(*wait)):] + ")")
        pad.label(f"A{row}", f"C{row}", f"next_{what}")
        pad.result(f"next_{what}_volume", figures[what][0])
        pad.result(f"next_{what}_strength", figures[what][1], "0.0")
        pad.unit(f"F{row}", f"N{row}", T["next"][what])


def fill(pad):
    _table(pad)
    _beside(pad)
    _budgets(pad)
    _next(pad)
