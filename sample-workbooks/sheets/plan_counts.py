"""What the season plan counts with beside its page, figure by figure: the still as Runs knows it, the stripping runs,
the sums over the spirit runs, the bottles of every case, and what there is to look at.
"""
from common.texts import in_formula, texts
from sheets import plan_boxes as boxes, plan_cycles as cycles, runs
from sheets.plan_boxes import BESIDE, FIGURES, NAMES, RESULTS, used, wrong

STILLS = 6
SINGLES = ("point", "still", "latest", "second", "third", "known_runs", "known_stages", "known_least", "known_most",
           "known_low", "known_high", "usual_charge", "strips", "strip_charge", "pool_simple", "first_strength",
           "whole", "strip_first", "strip_least", "ready", "strip_heating", "strip_energy", "strip_hours", "strip_cooling",
           "spirit_runs", "last_full", "rest_run", "share_back", "share_hearts", "hearts", "hearts_volume",
           "hearts_strength", "bottle_alcohol",
           *(f"bottles_{case}" for case in cycles.CASES), "short", "more_alcohol", "left_over")
MESSAGES = ("boxes", "half_wash", "half_low", "half_feints", "order", "stages", "strip_stop", "too_little", "no_hearts",
            "weak", "rows", "strip_charge", "spirit_charge", "low_left")
SINGLE = {name: f"${FIGURES}${BESIDE + i}" for i, name in enumerate(SINGLES)}
MESSAGE = {name: f"${FIGURES}${BESIDE + len(SINGLES) + 2 + i}" for i, name in enumerate(MESSAGES)}
LOOKS = f"${FIGURES}${BESIDE + len(SINGLES) + 1}"     # how many
STILL_LIST = ("X", BESIDE + 1)


def _still(count):
    """The still's stages from the finished runs that Runs has of it, from the three latest days on. Whole ranges
    with the closing row in them: they grow with the rows."""
    def cells(key):
        column = runs.LETTER[key]
        return f"$Runs.${column}${runs.FIRST}:${column}${runs.FIRST + count}"

    name, least = SINGLE["still"], SINGLE["third"]
    of_it = f'{cells("still")};{name};{cells("state")};"{texts("runs_sheet")["finished"]}"'
    fits = f'{of_it};{cells("stages")};">=1"'

    def guarded(formula):
        return f'IF({name}="";"";IFERROR({formula};""))'

    def latest(before):
        return f'MAXIFS({cells("date")};{fits}' + (f';{cells("date")};"<"&{before})' if before else ")")

    from_then = f'{fits};{cells("date")};">="&{least}'
    yield "latest", guarded(latest(None))
    yield "second", guarded(f'IF(N({SINGLE["latest"]})=0;0;{latest(SINGLE["latest"])})')
    yield "third", guarded(f'IF(N({SINGLE["second"]})=0;MAX(0;N({SINGLE["latest"]}));IF({latest(SINGLE["second"])}=0;{SINGLE["second"]};'
                           f'{latest(SINGLE["second"])}))')
    yield "known_runs", guarded(f'IF(N({SINGLE["latest"]})=0;0;COUNTIFS({from_then}))')
    some, two = f'IF(N({SINGLE["known_runs"]})=0;"";{{}})', f'IF(N({SINGLE["known_runs"]})<2;"";{{}})'
    yield "known_stages", some.format(f'IFERROR(AVERAGEIFS({cells("stages")};{from_then});"")')
    yield "known_least", some.format(f'IFERROR(MINIFS({cells("stages")};{from_then});"")')
    yield "known_most", some.format(f'IFERROR(MAXIFS({cells("stages")};{from_then});"")')
    # The range only holds for the still's own stages, and a typed one must lie in it.
    for end, figure, pick in (("known_low", "known_least", "MIN"), ("known_high", "known_most", "MAX")):
        yield end, two.format(f'{pick}({SINGLE[figure]};{used("stages")})')


def _singles(count):
    """(name, formula) of what stands beside the page once."""
    s, nominal = SINGLE, cycles.Case("nominal")
    c = {key: nominal.range(key) for key in nominal.columns}
    wash = f"{used('wash_volume')};{used('wash_strength')}"
    yield "point", 'MID(0.5&"";2;1)'
    yield "still", f'INDEX($M${boxes.WANTED}:$M${RESULTS};{boxes.LINE}-{boxes.ABOVE})&""'
    yield from _still(count)
    yield "usual_charge", f'IF(OR({used("boiler_volume")}="";{used("fill")}="");"";{used("boiler_volume")}*{used("fill")}/100)'
    yield "strips", f'IF(N({s["usual_charge"]})=0;"";IF(N({used("wash_volume")})=0;0;ROUNDUP({used("wash_volume")}/{s["usual_charge"]}-1E-9;0)))'
    yield "strip_charge", f'IF(N({s["strips"]})=0;"";{used("wash_volume")}/{s["strips"]})'
    # First strength of the low wines alone: of what hearts from and to are, where they are left blank
    yield "pool_simple", _pool()
    yield "first_strength", (f'IF(OR({s["pool_simple"]}="";{used("stages")}="");"";IFERROR(SPIRIT.FORECASTSTRENGTH(1;'
                             f'{s["pool_simple"]};0;{used("stages")});""))')
    pairs = [(used(f"{lot}_volume"), used(f"{lot}_strength")) for lot in ("wash", "low", "feints")]
    halves = "+".join(f'(({v}="")<>({p}=""))' for v, p in pairs)
    filled = "+".join(f'({v}<>"")*({p}<>"")' for v, p in pairs)
    bad = "+".join(f'({wrong(name)}<>"")' for name in boxes.PLACES if name not in ("still_name", "bottles_wanted"))
    yield "whole", f'IF(AND({halves}=0;{filled}>0;{bad}=0;{used("boiler_volume")}<>"";{used("watts")}<>"";{s["usual_charge"]}<>"");1;0)'
    strips = f'OR({s["whole"]}=0;N({s["strips"]})=0)'
    yield "strip_first", f'IF({strips};"";SPIRIT.FORECASTSTRENGTH(1;{used("wash_strength")};0;{used("stages")}))'
    # As a plain pot begins, with the wash as weak as it may be: no case of the range begins lower
    yield "strip_least", f'IF({strips};"";SPIRIT.FORECASTSTRENGTH(1;{used("wash_strength")}-{used("strength_error")};0;1))'
    good = "+".join(f'({MESSAGE[name]}<>"")' for name in ("order", "stages", "strip_stop"))
    yield "ready", f'IF({s["whole"]}=0;0;IF({good}=0;1;0))'
    stripping = f"{s['strip_charge']};{used('wash_strength')}"
    waits = f'OR(N({s["ready"]})=0;N({s["strips"]})=0)'
    stages = nominal.figure("stages")
    yield "strip_heating", f'IF({waits};"";{cycles.heating(stripping)})'
    yield "strip_energy", (f'IF(N({s["ready"]})=0;"";IF({s["strips"]}=0;0;{s["strips"]}*({s["strip_heating"]}+SPIRIT.RUNTIME('
                           f'{stripping};{used("strip_stop")};1000;{stages}))))')
    yield "strip_hours", f'IF({s["strip_energy"]}="";"";1000*{s["strip_energy"]}/{used("watts")})'
    water = cycles.cooling(stripping, used("strip_stop"), stages)
    yield "strip_cooling", f'IF(N({s["ready"]})=0;"";IF({s["strips"]}=0;0;{s["strips"]}*{water}))'
    yield "spirit_runs", f'IF(N({s["ready"]})=0;"";COUNT({c["low"]}))'
    none = f'N({s["spirit_runs"]})=0'
    # The last run that had low wines enough: not the one that took the rest, unless it is the only one
    yield "last_full", f'IF({none};"";IF({s["left_over"]}>0;{s["spirit_runs"]};MAX(1;{s["spirit_runs"]}-1)))'
    yield "rest_run", f'IF({none};"";IFERROR(MATCH(1;{c["rest"]};0);0))'

    def at_last(key):
        return f"INDEX({c[key]};{s['last_full']})"

    yield "share_back", f'IF({none};"";{at_last("back")}*{at_last("back_s")}/100/{at_last("alcohol")})'
    yield "share_hearts", f'IF({none};"";({at_last("alc_hearts")}-{at_last("alc_heads")})/{at_last("alcohol")})'
    yield "hearts", f'IF({none};"";SUM({c["alc_hearts"]})-SUM({c["alc_heads"]}))'
    some = f'IF(OR({none};COUNT({c["hearts"]})=0);"";'
    yield "hearts_volume", some + f'SPIRIT.BLENDVOLUME({c["hearts"]};{c["hearts_s"]}))'
    yield "hearts_strength", some + f'SPIRIT.BLENDSTRENGTH({c["hearts"]};{c["hearts_s"]}))'
    yield "bottle_alcohol", f'IF(OR({used("bottle_size")}="";{used("bottling_strength")}="");"";{used("bottle_size")}/1000*{used("bottling_strength")}/100)'
    for name in cycles.CASES:
        case = cycles.Case(name)
        hearts, strengths = case.range("hearts"), case.range("hearts_s")
        yield f"bottles_{name}", (
            f'IF(OR(N({s["ready"]})=0;{s["bottle_alcohol"]}="");"";IF(COUNT({hearts})=0;0;IF(SPIRIT.BLENDSTRENGTH({hearts};{strengths})'
            f'<{used("bottling_strength")};0;INT((SUM({case.range("alc_hearts")})-SUM({case.range("alc_heads")}))'
            f'/{s["bottle_alcohol"]}+1E-9))))')
    likely = s["bottles_nominal"]
    yield "short", f'IF(OR({likely}="";{used("bottles_wanted")}="");"";MAX(0;{used("bottles_wanted")}-{likely}))'
    yield "more_alcohol", (f'IF(OR(N({s["short"]})=0;N({s["share_hearts"]})=0);"";{s["short"]}*{s["bottle_alcohol"]}'
                           f'*(1-{s["share_back"]})/{s["share_hearts"]})')
    yield "left_over", (f'IF(N({s["ready"]})=0;"";IF({s["spirit_runs"]}=0;{nominal.figure("pool")};{nominal.figure("pool")}-SUM({c["low"]})))')


def _pool():
    """Strength of all there is to redistil, from volumes and pure alcohol alone (no contraction: it only sets a
    usual value, and must not wait for what depends on it)."""
    s, alcohol, volume = SINGLE, [], []
    strip = f"{s['strip_charge']};{used('wash_strength')}"
    waits = f'OR(N({s["strips"]})=0;{used("wash_strength")}="";{used("strip_stop")}="";{used("stages")}="")'
    alcohol.append(f"IF({waits};0;{s['strips']}*IFERROR(SPIRIT.FORECASTALCOHOL({strip};100;{used('strip_stop')};{used('stages')});0))")
    volume.append(f"IF({waits};0;{s['strips']}*IFERROR(SPIRIT.FORECASTVOLUME({strip};{used('strip_stop')};{used('stages')});0))")
    for lot in ("low", "feints"):
        v, p = used(f"{lot}_volume"), used(f"{lot}_strength")
        alcohol.append(f"N({v})*N({p})/100")
        volume.append(f'IF({p}="";0;N({v}))')
    return f'IFERROR(100*({"+".join(alcohol)})/({"+".join(volume)});"")'


def _messages():
    say, s, nominal = texts("season_plan")["say"], SINGLE, cycles.Case("nominal")

    def when(condition, text):
        return f'IF({condition};{text};"")'

    def number(cell, digits=1):
        return f"FIXED({cell};{digits};1)"

    yield "boxes", boxes.first_wrong()
    for lot in ("wash", "low", "feints"):
        v, p = used(f"{lot}_volume"), used(f"{lot}_strength")
        unwronged = f'{wrong(f"{lot}_volume")}="";{wrong(f"{lot}_strength")}=""'
        yield f"half_{lot}", when(f'AND(({v}="")<>({p}="");{unwronged})', in_formula(say[f"half_{lot}"]))
    start, end, stop = used("hearts_from"), used("hearts_to"), used("spirit_stop")
    yield "order", when(f"AND(COUNT({start};{end};{stop})=3;NOT(AND({start}>{end};{end}>{stop})))",
                        in_formula(say["order"], **{"from": f"ROUND({start};2)"}, to=f"ROUND({end};2)", stop=f"ROUND({stop};2)"))
    low, stages, high = used("stages_low"), used("stages"), used("stages_high")
    yield "stages", when(f"AND(COUNT({low};{stages};{high})=3;OR({low}>{stages};{stages}>{high}))",
                         in_formula(say["stages"], low=low, stages=number(stages, 2), high=high))
    yield "strip_stop", when(f'IF({s["strip_least"]}="";FALSE();{used("strip_stop")}>={s["strip_least"]})',
                             in_formula(say["strip_stop"], first=number(s["strip_least"]), stop=used("strip_stop")))
    none = f'AND(N({s["ready"]})=1;N({s["spirit_runs"]})=0)'
    yield "too_little", when(none, in_formula(say["too_little"], volume=number(s["left_over"]), charge=number(s["usual_charge"])))
    full = f'N({s["spirit_runs"]})={cycles.ROWS}'
    # More than a third of a usual charge still there
    rest = f'IF({s["left_over"]}="";FALSE();{s["left_over"]}>1E-6*{s["usual_charge"]})'
    yield "rows", when(f"AND({full};{rest})", in_formula(say["rows"], count=str(cycles.ROWS), volume=number(s["left_over"])))
    first = nominal.cell("end_foreshots", cycles.FIRST)
    yield "no_hearts", when(f'IF({first}="";FALSE();{first}<={end})', in_formula(say["no_hearts"], first=number(first), to=f"ROUND({end};2)"))
    strength = s["hearts_strength"]
    yield "weak", when(f'IF(OR({strength}="";{used("bottling_strength")}="");FALSE();{strength}<{used("bottling_strength")})',
                       in_formula(say["weak"], strength=number(strength), wanted=used("bottling_strength")))
    caution = (f'SPIRIT.CHARGECHECK({s["strip_charge"]};{used("wash_strength")};{used("boiler_volume")};40;{used("strip_stop")})')
    waits = f'OR(N({s["ready"]})=0;N({s["strips"]})=0)'
    yield "strip_charge", f'IF({waits};"";IF({caution}="";"";{in_formula(say["strip_charge"], caution=_lines(caution))}))'
    last = f'INDEX({nominal.range("caution")};N({s["spirit_runs"]}))'
    run = f'INDEX({nominal.range("caution_run")};N({s["spirit_runs"]}))'
    yield "spirit_charge", (f'IF(N({s["spirit_runs"]})=0;"";IF({last}="";"";'
                            f'{in_formula(say["spirit_charge"], run=run, caution=_lines(last))}))')
    yield "low_left", when(f'AND(N({s["spirit_runs"]})>0;NOT({full});{rest})', in_formula(say["low_left"], volume=number(s["left_over"])))


def _lines(text):
    """Cautions on one line."""
    return f'SUBSTITUTE({text};CHAR(10);" ")'


def fill(sheet, count):
    """All of it, for a sheet Runs of so many rows."""
    words = texts("season_plan")
    sheet.put(f"T{boxes.LOOK}", words["beside"]["page"], style="Jarbook unit")
    sheet.put(f"T{boxes.WANTED}", words["beside"]["boxes_left"], style="Jarbook unit")
    sheet.put(f"U{boxes.WANTED}", words["beside"]["boxes_right"], style="Jarbook unit")
    formulas = dict(_singles(count))
    for name, cell in SINGLE.items():
        row = cell.rpartition("$")[2]
        sheet.put(f"{NAMES}{row}", name.replace("_", " "), style="Jarbook unit")
        sheet.put(f"{FIGURES}{row}", formula=formulas[name], style="Jarbook aside")
    row = LOOKS.rpartition("$")[2]
    sheet.put(f"{NAMES}{row}", words["beside"]["messages"], style="Jarbook unit")
    sheet.put(f"{FIGURES}{row}", style="Jarbook aside", formula="+".join(f'({cell}<>"")' for cell in MESSAGE.values()))
    for name, formula in _messages():
        row = MESSAGE[name].rpartition("$")[2]
        sheet.put(f"{NAMES}{row}", name.replace("_", " "), style="Jarbook unit")
        sheet.put(f"{FIGURES}{row}", formula=formula, style="Jarbook aside")
    # The stills in Runs, each once, to choose from
    column, first = STILL_LIST
    sheet.put(f"{column}{first - 1}", words["beside"]["stills"], style="Jarbook unit")
    letter = runs.LETTER["still"]
    there = f"$Runs.${letter}${runs.FIRST}:${letter}${runs.FIRST + count}"
    for row in range(first, first + STILLS):
        above = f"${column}${first - 1}:${column}${row - 1}"
        sheet.put(f"{column}{row}", style="Jarbook aside", array=f"{column}{row}",
                  formula=f'IFERROR(INDEX({there};MATCH(1;({there}<>"")*(COUNTIF({above};{there})=0);0));"")')


def still_cells():
    column, first = STILL_LIST
    return f"${column}${first}:${column}${first + STILLS - 1}"
