"""The season plan's spirit runs, one row each, and the same once more beside the page for every end of the range.

A block is one case: stages, and how far the strengths on hand are off. In a row the feints of the row above go
into the boiler first, then low wines as far as there is room (or as far as the limit of the charge's strength
allows once water is added); the run is Rayleigh's, cut at the strengths that the boxes say. What a cut holds is
what is left when all collected before it is taken from all collected by its end, by balance of mass.
"""
from odf.chart import Axis, Chart, Series
from odf.formula import column_name, column_number

from common.texts import in_formula, texts
from sheets.plan_boxes import RESULTS, used

ROWS = 20
HEAD = RESULTS + 12                  # column heads; the band is the row above
FIRST, LAST = HEAD + 1, HEAD + ROWS
SUM = LAST + 1
CHART, CHART_ROWS = SUM + 2, 13
CASE = RESULTS                       # rows of a case's own figures, above its block
BLOCK = "Z"                          # where the first block begins, beside the page
# Columns of a block. Volumes and strengths that a blend is made of stand beside each other.
KEYS = ("left", "low", "feints", "low_s", "feints_s", "alcohol", "blend_s", "charge_s", "charge",
        "end_foreshots", "end_heads", "end_hearts", "end_tails", "by_heads", "by_hearts", "by_tails",
        "alc_foreshots", "alc_heads", "alc_hearts", "alc_tails", "heads", "tails", "heads_s", "tails_s",
        "hearts", "hearts_s", "back", "back_s")
MORE = ("first_s", "hours", "energy", "cooling", "limit", "rest", "caution", "caution_run")  # of the nominal case
# Stages, strengths: which box, which sign
CASES = {"nominal": ("stages", 0), "low_low": ("stages_low", -1), "low_high": ("stages_low", 1),
         "high_low": ("stages_high", -1), "high_high": ("stages_high", 1)}
_WIDTH = {case: len(KEYS) + (len(MORE) if case == "nominal" else 0) + 1 for case in CASES}


class Case:
    """A block's cells: case.cell("left", row), case.range("hearts"), and its own figures by name."""

    FIGURES = ("stages", "shift", "strip_volume", "strip_alcohol", "pool", "pool_s")
    LOTS = ("strips", "low", "feints")

    def __init__(self, name):
        self.name = name
        before = list(CASES)[:list(CASES).index(name)]
        start = column_number(BLOCK) + sum(_WIDTH[other] for other in before)
        keys = KEYS + (MORE if name == "nominal" else ())
        self.columns = {key: column_name(start + i) for i, key in enumerate(keys)}

    def cell(self, key, row):
        return f"${self.columns[key]}${row}"

    def range(self, key):
        return f"${self.columns[key]}${FIRST}:${self.columns[key]}${LAST}"

    def figure(self, name):
        return f"${self.columns['low']}${CASE + 1 + self.FIGURES.index(name)}"

    def lots(self, key):
        """Volumes ("low") or strengths ("feints") of what there is to redistil."""
        column, first = self.columns[key], CASE + 1 + len(self.FIGURES)
        return f"${column}${first}:${column}${first + len(self.LOTS) - 1}"


def _unless_blank(cell, formula):
    return f'IF({cell}="";"";{formula})'


def _figures(sheet, case, singles):
    """What the case's runs are made of."""
    words = texts("season_plan")
    box, sign = CASES[case.name]
    left = case.columns["left"]
    sheet.put(f"{left}{CASE}", words["beside"][case.name], style="Jarbook unit")
    wash = f"{used('wash_strength')}+{case.figure('shift')}"
    strip = f"{singles['strip_charge']};{wash}"
    ready, strips = singles["ready"], singles["strips"]
    formulas = {
        "stages": used(box), "shift": f"{sign}*{used('strength_error')}",
        "strip_volume": f"IF({strips}=0;\"\";SPIRIT.FORECASTVOLUME({strip};{used('strip_stop')};{case.figure('stages')}))",
        "strip_alcohol": f"IF({strips}=0;\"\";SPIRIT.FORECASTALCOHOL({strip};100;{used('strip_stop')};{case.figure('stages')}))",
        "pool": f"SPIRIT.BLENDVOLUME({case.lots('low')};{case.lots('feints')})",
        "pool_s": f"SPIRIT.BLENDSTRENGTH({case.lots('low')};{case.lots('feints')})"}
    for i, (name, formula) in enumerate(formulas.items()):
        row = CASE + 1 + i
        sheet.put(f"{left}{row}", name.replace("_", " "), style="Jarbook unit")
        sheet.put(case.figure(name).replace("$", ""), style="Jarbook aside", fmt="0.000",
                  formula=f'IF(N({ready})=0;"";{formula})')
    for i, lot in enumerate(Case.LOTS):
        row = CASE + 1 + len(formulas) + i
        if lot == "strips":
            volume = f"{strips}*{case.figure('strip_volume')}"
            strength = f"100*{case.figure('strip_alcohol')}/{case.figure('strip_volume')}"
            there = f"{strips}=0"
        else:
            volume, strength = used(f"{lot}_volume"), f"{used(lot + '_strength')}+{case.figure('shift')}"
            there = f'{volume}=""'
        sheet.put(f"{left}{row}", lot, style="Jarbook unit")
        for key, formula in (("low", volume), ("feints", strength)):
            sheet.put(f"{case.columns[key]}{row}", style="Jarbook aside", fmt="0.000",
                      formula=f'IF(OR(N({ready})=0;{there});"";{formula})')


def _run(case, row, singles):
    """(key, formula) of one run."""
    def c(key, at=row):
        return case.cell(key, at)

    stages, usual, limit = case.figure("stages"), singles["usual_charge"], used("charge_limit")
    spirit = f"{c('charge')};{c('charge_s')}"
    foreshots = f"({used('foreshots')}/1000)"
    first = row == FIRST
    yield "left", case.figure("pool") if first else f'IF({c("low", row - 1)}="";"";{c("left", row - 1)}-{c("low", row - 1)})'
    yield "feints", _unless_blank(c("left"), "0" if first else c("back", row - 1))
    yield "low_s", _unless_blank(c("left"), case.figure("pool_s"))
    yield "feints_s", _unless_blank(c("left"), "0" if first else c("back_s", row - 1))
    fresh, old = f"{c('low_s')}/100", f"{c('feints')}*{c('feints_s')}/100"
    room = f"MAX(0;MIN({c('left')};{usual}-{c('feints')};({limit}*{usual}/100-{old})/({fresh})))"
    fills = f"MAX({room}+{c('feints')};({room}*{fresh}+{old})*100/{limit})"
    yield "low", _unless_blank(c("left"), f'IF(AND({c("left")}>0;{room}>0;{fills}>={usual}/3);{room};"")')

    def run(key, formula):
        return key, _unless_blank(c("low"), formula)

    pair = f"{c('low')}:{c('feints')};{c('low_s')}:{c('feints_s')}"
    yield run("alcohol", f"{c('low')}*{fresh}+{old}")
    yield run("blend_s", f"IF({c('feints')}=0;{c('low_s')};SPIRIT.BLENDSTRENGTH({pair}))")
    yield run("charge_s", f"MIN({c('blend_s')};{limit})")
    yield run("charge", f"100*{c('alcohol')}/{c('charge_s')}")
    yield run("end_foreshots", f"SPIRIT.FORECASTSTRENGTH({spirit};{foreshots};{stages})")
    before = "end_foreshots"
    volume, alcohol = foreshots, "alc_foreshots"
    yield run(alcohol, f"IF({foreshots}=0;0;SPIRIT.FORECASTALCOHOL({spirit};100;{c(before)};{stages}))")
    for cut, end in (("heads", "hearts_from"), ("hearts", "hearts_to"), ("tails", "spirit_stop")):
        now = f"end_{cut}"
        yield run(now, f"MIN({c(before)};{used(end)})")
        yield run(f"by_{cut}", f"IF({c(now)}<{c(before)};SPIRIT.FORECASTVOLUME({spirit};{c(now)};{stages});{volume})")
        yield run(f"alc_{cut}", f"IF({c(now)}<{c(before)};SPIRIT.FORECASTALCOHOL({spirit};100;{c(now)};{stages});{c(alcohol)})")
        before_mean = f"100*{c(alcohol)}/{volume}"
        mean = f"100*{c(f'alc_{cut}')}/{c(f'by_{cut}')}"
        nothing = f"{c(f'by_{cut}')}<={volume}"
        yield run(f"{cut}_s", f'IF({nothing};{"0" if cut != "hearts" else chr(34) * 2};IF({volume}=0;{mean};'
                  f"SPIRIT.RESIDUESTRENGTH({c(f'by_{cut}')};{mean};{volume};{before_mean})))")
        held = f"100*({c(f'alc_{cut}')}-{c(alcohol)})/{c(f'{cut}_s')}"
        if cut == "hearts":
            yield run(cut, f'IF({nothing};"";{held})')
        else:
            yield run(cut, f"IF({nothing};0;{held}*{used(f'{cut}_return')}/100)")
        before, volume, alcohol = now, c(f"by_{cut}"), f"alc_{cut}"
    back = f"{c('heads')}:{c('tails')};{c('heads_s')}:{c('tails_s')}"
    nothing = f"{c('heads')}+{c('tails')}=0"
    yield run("back", f"IF({nothing};0;SPIRIT.BLENDVOLUME({back}))")
    yield run("back_s", f"IF({nothing};0;SPIRIT.BLENDSTRENGTH({back}))")


def _nominal(case, row, singles):
    """(key, formula) of what only the case as entered has."""
    def c(key, at=row):
        return case.cell(key, at)

    def run(key, formula):
        return key, _unless_blank(c("low"), formula)

    spirit = f"{c('charge')};{c('charge_s')}"
    yield run("first_s", f"SPIRIT.FORECASTSTRENGTH({spirit};0;{case.figure('stages')})")
    runs = f"{c('by_tails')}>0"
    yield run("energy", heating(spirit) + f"+IF({runs};SPIRIT.RUNTIME({spirit};{c('end_tails')};1000;{case.figure('stages')});0)")
    yield run("hours", f'IF({used("watts")}="";"";1000*{c("energy")}/{used("watts")})')
    yield run("cooling", f"IF({runs};{cooling(spirit, c('end_tails'), case.figure('stages'))};0)")
    fresh = f"{c('low')}*{c('low_s')}/100"
    yield run("limit", f"{fresh}/(1-{c('back')}*{c('back_s')}/100/{c('alcohol')})")
    at_rest = (f"ABS({c('back')}*{c('back_s')}-{c('feints')}*{c('feints_s')})<=0.01*{c('back')}*{c('back_s')}"
               if row > FIRST else f"{c('back')}=0")
    yield run("rest", f"IF({at_rest};1;0)")
    # Where it ends is judged as a plain pot would leave it, which may begin below such a stop
    check = f"SPIRIT.CHARGECHECK({spirit};{used('boiler_volume')};{used('charge_limit')}"
    caution = f"IFERROR({check};{c('end_tails')});{check}))"
    before = f'{c("caution", row - 1)}' if row > FIRST else '""'
    yield run("caution", caution if row == FIRST else f'IF({before}<>"";{before};{caution})')
    run_before = c("caution_run", row - 1) if row > FIRST else '""'
    yield run("caution_run", f'IF({c("caution")}="";"";IF(N({run_before})>0;{run_before};{row - FIRST + 1}))')


def heating(charge):
    """kWh that bring a charge to the boil."""
    metal = f";{used('metal')};\"copper\""
    return f"SPIRIT.HEATUPTIME({charge};{used('start_temperature')};1000{metal})"


def cooling(charge, stop, stages):
    """L of cooling water, with the distillate at 20 °C."""
    return f"SPIRIT.COOLINGWATER({charge};{stop};{used('cooling_rise')};20;{stages})"


# Page columns: heading, format, formula of the row's cell; alc. is litres of pure alcohol
def _page(case, row, singles):
    def c(key):
        return case.cell(key, row)

    def run(formula):
        return _unless_blank(c("low"), formula)

    alcohol = {cut: f"{c(f'alc_{cut}')}-{c(f'alc_{before}')}"
               for before, cut in (("foreshots", "heads"), ("heads", "hearts"), ("hearts", "tails"))}
    water = (f"IF({c('blend_s')}>{c('charge_s')};SPIRIT.WATERTOADD(100*{c('alcohol')}/{c('blend_s')};{c('blend_s')};"
             f"{c('charge_s')});0)")
    return (("run", "0", run(str(row - FIRST + 1))),
            ("strips", "0.0", run(f"{singles['strips']}*{c('low')}/{case.figure('pool')}")),
            ("low_wines", "0.0", run(c("low"))), ("feints_in", "0.0", run(c("feints"))),
            ("feints_strength", "0.0", run(f'IF({c("feints")}=0;"";{c("feints_s")})')), ("water", "0.0", run(water)),
            ("charge", "0.0", run(c("charge"))), ("charge_strength", "0.0", run(c("charge_s"))),
            ("first_strength", "0.0", run(c("first_s"))), ("heads", "0.00", run(alcohol["heads"])),
            ("hearts_volume", "0.00", run(f'IF({c("hearts")}="";0;{c("hearts")})')), ("hearts_strength", "0.0", run(c("hearts_s"))),
            ("hearts", "0.00", run(alcohol["hearts"])), ("tails", "0.00", run(alcohol["tails"])),
            ("feints_out", "0.00", run(f"{c('back')}*{c('back_s')}/100")), ("hours", "hours", run(f'IF({c("hours")}="";"";{c("hours")}/24)')),
            ("energy", "0.0", run(c("energy"))), ("cooling", "0", run(c("cooling"))))


SUMMED = {"strips", "low_wines", "water", "heads", "hearts_volume", "hearts", "tails", "hours", "energy", "cooling"}
PAGE = {key: column_name(i) for i, (key, _, _) in enumerate(_page(Case("nominal"), FIRST, {"strips": ""}))}


def fill(sheet, singles):
    words = texts("season_plan")
    for name in CASES:
        case = Case(name)
        _figures(sheet, case, singles)
        for key, column in case.columns.items():
            sheet.put(f"{column}{HEAD}", key.replace("_", " "), style="Jarbook unit")
        for row in range(FIRST, LAST + 1):
            entries = list(_run(case, row, singles)) + (list(_nominal(case, row, singles)) if name == "nominal" else [])
            for key, formula in entries:
                sheet.put(f"{case.columns[key]}{row}", formula=formula, style="Jarbook aside", fmt="0.000")
    nominal = Case("nominal")
    sheet.heights[HEAD] = 12
    for row in range(FIRST, LAST + 1):
        for key, fmt, formula in _page(nominal, row, singles):
            sheet.put(f"{PAGE[key]}{row}", formula=formula, fmt=fmt,
                      style="Jarbook result" if key in ("run", "hearts") else "Jarbook computed")
    for key, fmt, _ in _page(nominal, FIRST, singles):
        column = PAGE[key]
        sheet.put(f"{column}{HEAD}", words["heading"][key], style="Jarbook heading")
        cells = f"{column}{FIRST}:{column}{LAST}"
        if key in SUMMED:
            sheet.put(f"{column}{SUM}", fmt=fmt, style="Jarbook result", formula=f'IF(COUNT({cells})=0;"";SUM({cells}))')
        else:
            sheet.put(f"{column}{SUM}", words["heading"]["all"] if key == "run" else None, style="Jarbook label")
    sheet.put(f"A{SUM + 1}", words["text"]["cycles"], style="Jarbook note", to=f"R{SUM + 1}")
    sheet.heights[SUM + 1] = 11
    _chart(sheet, nominal)


def _chart(sheet, case):
    words = texts("season_plan")["chart"]
    def series(key, cells, **look):
        label = f"{case.columns[key]}{CASE}"
        sheet.put(label, words[{"alcohol": "charge", "limit": "limit", "hearts_s": "hearts", "back_s": "feints"}[key]],
                  style="Jarbook unit")
        return Series(cells, label, **look)

    column = PAGE
    rows = lambda letter: f"{letter}{FIRST}:{letter}{LAST}"  # noqa: E731
    series = [series("hearts_s", rows(column["hearts"]), colour="#b9c3ca", column=True),
              series("alcohol", rows(case.columns["alcohol"]), symbol="square", colour="#1f2933", line=0.4, size=2.2),
              series("limit", rows(case.columns["limit"]), colour="#5b6670", line=0.3, dash="Dash"),
              series("back_s", rows(column["feints_out"]), symbol="diamond", colour="#5b6670", line=0.3, size=2.4)]
    height = CHART_ROWS * sheet.default_height
    chart = sheet.book.add_chart(Chart(
        "Season chart", "line", words["cycles_title"], series, Axis("", grid=False),
        Axis(words["cycles_y"], minimum=0), 236, height - 2, categories=rows("A"), description=words["cycles_about"],
        legend="bottom"))
    sheet.put(f"A{CHART}", drawing=chart)
