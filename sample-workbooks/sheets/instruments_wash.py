"""Instruments: the strength of a wash three ways side by side, how far each can be off, and which to trust."""
from common.texts import in_formula, texts
from sheets import instruments_boxes as boxes
from sheets.instruments_boxes import used
from sheets.instruments_checks import fixed as correction
from sheets.instruments_weighing import FORMULA, change

METHOD = "0.15"       # % vol, standard uncertainty of Balling's form for washes of sugar, grain or fruit: +- 0.3 (k = 2)
EQUILIBRIUM = "0.25"  # degC, standard: at 6 % vol two published sets lie 0.2 above and 0.5 below the boiling points computed
WAYS = ("sample", "gravities", "boiling")
FIGURES = tuple(f"{way}_{what}" for way, parts in (
    ("gravities", ("ready", "original", "final")),
    ("sample", ("ready", "volumes", "reading", "temperature", "formula")),
    ("boiling", ("ready", "point", "slope"))) for what in parts) + ("best", "sample_gravities", "sample_boiling", "gravities_boiling", "reading_error")
ROW = boxes.WAYS + 1
CELLS = {f"{way}_{name}": f"{column}{ROW + i}" for i, way in enumerate(WAYS) for name, column in (("strength", "D"), ("uncertainty", "E"))}
PAIRS = (("sample", "gravities"), ("sample", "boiling"), ("gravities", "boiling"))


def fixed(name):
    cell = CELLS[name]
    return f"${cell[0]}${cell[1:]}"


def _gravities(shifts):
    original, final, early, late = (used(name) for name in ("original", "final", "original_temperature", "final_temperature"))
    return f"SPIRIT.WASHSTRENGTH({original}{shifts.get('original', '')};{final}{shifts.get('final', '')};{early};{late})"


def _sample(shifts):
    reading = f"{used('sample_reading')}+N({correction('alcoholometer_correction')}){shifts.get('reading', '')}"
    return (f"SPIRIT.SAMPLESTRENGTH({used('sample')};{used('made_up')};{reading};{used('reading_temperature')}{shifts.get('degrees', '')};"
            f"{used('sample_temperature')})")


def _boiling(shifts):
    """By the difference to water boiling on the same day: the thermometer's own error falls out, and nearly all of the
    air pressure; what is left of that is the pressure's box."""
    pressure = used("boiling_pressure")
    return (f"SPIRIT.BOILERSTRENGTH(SPIRIT.BOILINGPOINT(0;{pressure})-({used('water_boils')}-{used('wash_boils')})"
            f"{shifts.get('point', '')};{pressure})")


def figures(at):
    """(name, formula) of what stands beside the page."""
    def ready(*names, more="TRUE()"):
        return f'IF(AND(COUNT({";".join(used(name) for name in names)})={len(names)};{more});1;0)'

    def waits(way, formula, *cells):
        blank = "".join(f';{cell}=""' for cell in cells)
        return f'IF(OR(N({at[f"{way}_ready"]})=0{blank});"";IFERROR({formula};""))'

    yield "gravities_ready", ready("original", "final", "original_temperature", "final_temperature",
                                   more=f"N({used('original')})>=N({used('final')})")
    gravity = used("gravity_error")
    for name in ("original", "final"):
        yield f"gravities_{name}", waits("gravities", f"IF({gravity}=0;0;{change(_gravities, name, f'({gravity}/SQRT(3))')})", gravity)
    yield "sample_ready", ready("sample", "sample_temperature", "made_up", "sample_reading", "reading_temperature")
    strength, share, degree = fixed("sample_strength"), used("sample_error"), used("degree_error")
    # Two volumes measured, and what may be lost on the way
    yield "sample_volumes", waits("sample", f"{strength}*{share}/100*SQRT(2/3)", share)
    # A corrected reading is off by what the correction may be off by, and by how finely the scale is read
    fine, error = used("alcoholometer_read_to"), used("alcoholometer_error")
    known = correction("alcoholometer_uncertainty")
    yield "reading_error", (f'IF(ISNUMBER({known});IF({fine}="";"";SQRT(({known}/2)^2+{fine}^2/3));'
                            f'IF({error}="";"";{error}/SQRT(3)))')
    yield "sample_reading", waits("sample", f"IF({at['reading_error']}=0;0;{change(_sample, 'reading', at['reading_error'])})", at["reading_error"])
    yield "sample_temperature", waits("sample", f"IF({degree}=0;0;{change(_sample, 'degrees', f'({degree}/SQRT(3))')})", degree)
    true = f"SPIRIT.STRENGTH({used('sample_reading')}+N({correction('alcoholometer_correction')});{used('reading_temperature')})"
    away = f"SPIRIT.STRENGTHFROMDENSITY(SPIRIT.DENSITY({true})-{FORMULA}/2)"
    yield "sample_formula", waits("sample", f"({away}-{true})*{strength}/{true}")
    yield "boiling_ready", ready("water_boils", "wash_boils", "boiling_pressure", more=f"N({used('water_boils')})>=N({used('wash_boils')})")
    read = used("boiling_error")
    yield "boiling_point", waits("boiling", f"SQRT(2*{read}^2/3+{EQUILIBRIUM}^2)", read)
    yield "boiling_slope", waits("boiling", change(_boiling, "point", at["boiling_point"]), at["boiling_point"])
    first = '""'
    least = f"MIN({';'.join(fixed(f'{way}_uncertainty') for way in WAYS)})"
    for i in reversed(range(len(WAYS))):
        first = f'IF({fixed(f"{WAYS[i]}_uncertainty")}={least};{i + 1};{first})'
    yield "best", f'IF({least}=0;"";{first})'
    for one, other in PAIRS:
        a, b = (fixed(f"{way}_strength") for way in (one, other))
        ua, ub = (fixed(f"{way}_uncertainty") for way in (one, other))
        yield f"{one}_{other}", f'IF(COUNT({a};{b};{ua};{ub})<4;"";IF(ABS({a}-{b})>SQRT({ua}^2+{ub}^2);1;0))'


def results(sheet, at):
    words = texts("instruments")
    head = boxes.WAYS
    sheet.put(f"A{head}", words["heading"]["way"], style="Jarbook lead", to=f"C{head}")
    sheet.put(f"D{head}", words["heading"]["way_strength"], style="Jarbook heading")
    sheet.put(f"E{head}", words["heading"]["way_error"], style="Jarbook heading")
    sheet.put(f"F{head}", words["heading"]["way_words"], style="Jarbook lead", to=f"R{head}")
    sheet.heights[head] = 8.5
    formulas = {"sample": (_sample({}), ("volumes", "reading", "temperature", "formula"), ""),
                "gravities": (_gravities({}), ("original", "final"), f";{METHOD}"),
                "boiling": (_boiling({}), ("slope",), "")}
    for i, way in enumerate(WAYS):
        row, (formula, parts, more) = ROW + i, formulas[way]
        ready = at[f"{way}_ready"]
        cells = [at[f"{way}_{part}"] for part in parts]
        sheet.put(f"A{row}", words["way"][way], style="Jarbook label", to=f"C{row}")
        sheet.put(f"D{row}", formula=f'IF(N({ready})=0;"";{formula})', fmt="0.00", style="Jarbook result")
        sheet.put(f"E{row}", formula=f'IF(COUNT({";".join(cells)})<{len(cells)};"";2*SQRT(SUMSQ({";".join(cells)}{more})))', fmt="0.00",
                  style="Jarbook result")
        sheet.put(f"F{row}", formula=in_formula(words["way_words"][way]), style="Jarbook plan words", to=f"R{row}")
        sheet.heights[row] = 5.6
    row = ROW + len(WAYS)
    sheet.put(f"A{row}", formula=_trust(at), style="Jarbook look", to=f"R{row}")
    sheet.condition(f"A{row}", apart(at), "Jarbook query look")
    sheet.heights[row] = 10


def apart(at):
    """Some pair is further apart than its uncertainties."""
    return f"SUM({';'.join(at[f'{one}_{other}'] for one, other in PAIRS)})>0"


def _trust(at):
    """Which way to trust, in words."""
    words, say = texts("instruments"), texts("instruments")["trust"]
    count = f"COUNT({';'.join(fixed(f'{way}_uncertainty') for way in WAYS)})"
    best = at["best"]

    def chosen(texts_):
        return f"CHOOSE({best};{';'.join(texts_)})"

    names = chosen([f'"{words["way"][way]}"' for way in WAYS])
    figure = chosen([fixed(f"{way}_strength") for way in WAYS])
    error = chosen([fixed(f"{way}_uncertainty") for way in WAYS])
    places = dict(way=names, strength=f"FIXED({figure};1;1)", error=f"FIXED({error};1;1)")
    said = f'IF({count}=1;{in_formula(say["alone"], **places)};{in_formula(say["agree"], **places)})'
    for one, other in reversed(PAIRS):
        key = f"{one}_{other}"
        two = dict(one=f'"{words["way"][one]}"', other=f'"{words["way"][other]}"',
                   apart=f"FIXED(ABS({fixed(f'{one}_strength')}-{fixed(f'{other}_strength')});1;1)",
                   allowed=f"FIXED(SQRT({fixed(f'{one}_uncertainty')}^2+{fixed(f'{other}_uncertainty')}^2);1;1)")
        said = f'IF(N({at[key]})=1;{in_formula(say[key], **two)};{said})'
    return f'IFERROR(IF({count}=0;"";{said});"")'
