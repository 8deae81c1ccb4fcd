"""Instruments: the dated checks of the alcoholometer and of the thermometer, and the correction that counts.

It is the mean of the checks that count: glass does not age, and a mean is steadier than the latest one; checks of an instrument
that was replaced or repaired are left out by a word. Of the thermometer it is taken at the temperature where it is used, along a
straight line if the checks lie on both sides. Its +- is that of the checks as if all were off the same way (flask, scale and
thermometer are the same each time), or how far the furthest check is from it, whichever is greater.
"""
from odf.workbook import Validation, one_of

from common.texts import in_formula, texts
from sheets import instruments_boxes as boxes
from sheets.instruments_boxes import LEFT, number, used, word
from sheets.instruments_weighing import label

INSTRUMENTS = ("alcoholometer", "thermometer")
HEAD = {"alcoholometer": boxes.ALC_HEAD, "thermometer": boxes.THERM_HEAD}
FIRST = {"alcoholometer": boxes.ALC_ROW, "thermometer": boxes.THERM_ROW}
RESULT = {"alcoholometer": boxes.ALC_RESULT, "thermometer": boxes.THERM_RESULT}
# Typed: key: column, last column of the box, what counts beside the page
TYPED = {
    "alcoholometer": {"date": ("B", "C", "X"), "against": ("D", "E", "Y"), "true": ("F", "G", "Z"), "true_error": ("H", "H", "AA"),
                      "reading": ("I", "I", "AB"), "degrees": ("J", "J", "AC"), "counts": ("N", "N", "AD")},
    "thermometer": {"date": ("B", "C", "X"), "against": ("D", "E", "Y"), "pressure": ("F", "G", "Z"), "true": ("H", "I", "AA"),
                    "shows": ("J", "J", "AB"), "counts": ("N", "N", "AD")}}
SHOULD, CORRECTION, ERROR = "K", "L", "M"
# Beside the page: 1 if the row counts; the squared standard uncertainty, the correction, where it was found, how far it is off
STATE, SQUARE, COUNTED, PLACE, OFF = "AE", "AF", "AG", "AH", "AI"
AGAINST = {"alcoholometer": ("weighing", "water", "another"), "thermometer": ("ice", "boiling water", "another")}
ICE, BOILING = "0.05", "0.1"     # degC, half-widths: melting ice, boiling water (2 hPa are 0.06)
MOST = 5                         # an instrument that is off by more, or a figure, is not to be corrected
SPAN, NEAR = 20, 25              # degC: checks so far apart make a line; a single one holds so far from where it was found
FIGURES = tuple(f"{of}_{what}" for of in INSTRUMENTS for what in ("checks", "low", "high", "line", "known"))
CELLS = {f"{of}_{name}": f"D{RESULT[of] + i}" for of in INSTRUMENTS for i, name in enumerate(("correction", "uncertainty", "latest"))}


def fixed(name):
    return f"$D${CELLS[name][1:]}"


def column(of, letter):
    """A column of the checks with its head and its closing row."""
    return f"${letter}${HEAD[of]}:${letter}${FIRST[of] + boxes.CHECKS}"


def _place(of, row):
    return f"{row - HEAD[of] + 1}+0*{boxes.BOXES.above()}"


def _row_boxes(sheet, of, row, data):
    words = texts("instruments")
    lists = {"against": AGAINST[of], "counts": boxes.YES_NO}
    formats = {"date": "date", "true": "0.00" if of == "alcoholometer" else "0.0", "true_error": "0.00"}
    kept = {"date": lambda c: number(c, 36526, 73050), "against": lambda c: word(c, AGAINST[of]),
            "counts": lambda c: word(c, boxes.YES_NO, '"yes"')}
    ranges = {"pressure": (600, 1100, "1013.25"), "shows": (-10, 110, '""'), "reading": (0, 100, '""'), "degrees": (0.1, 40, '""'),
              "true_error": (0, 5, f'IF(${TYPED[of]["against"][2]}${row}="water";0;"")'),
              "true": (0, 100, f'IF(${TYPED[of]["against"][2]}${row}="water";0;"")') if of == "alcoholometer" else (-10, 110, '""')}
    bad = []
    for key, (first, last, beside) in TYPED[of].items():
        title = words["help"][f"{of}_{key}"]
        text = key in lists
        validation = Validation(*title, one_of(*lists[key]), stop=False) if text else boxes.date_box(title) if key == "date" else Validation(*title)
        sheet.put(f"{first}{row}", data.get(key), style="Jarbook input text" if text else "Jarbook input", fmt=formats.get(key, None if text else "0.0"),
                  to=f"{last}{row}" if last != first else None, validation=validation)
        cell = f"INDEX({column(of, first)};{_place(of, row)})"
        formula = kept[key](cell) if key in kept else number(cell, *map(str, ranges[key][:2]), ranges[key][2])
        if of == "alcoholometer" and key in ("true", "reading"):
            # 0.4 is 40 % typed with its sign, but for water, which reads little
            formula = f'IF(IFERROR(AND({cell}>0;{cell}<1;${TYPED[of]["against"][2]}${row}<>"water");FALSE());"";{formula})'
        sheet.put(f"{beside}{row}", formula=formula, style="Jarbook aside", fmt="general")
        bad.append((first, cell, f"${beside}${row}", words["heading_plain"].get(key) or key))
    return bad


def _row_result(of, row, line):
    """(column, format, formula) of what follows from a row of boxes; `line` is the cell that is 1 if the checks make one."""
    c = {key: f"${beside}${row}" for key, (_, _, beside) in TYPED[of].items()}
    read_to, degree = used(f"{of}_read_to"), used("degree_error")
    if of == "alcoholometer":
        needed = (c["true"], c["true_error"], c["reading"], c["degrees"], read_to, degree)
        should = f"SPIRIT.READING({c['true']};{c['degrees']})"
        # What a degree changes, to the warm side: below 20 degC water reads below the scale
        slope = f"(SPIRIT.READING({c['true']};{c['degrees']}+0.1)-{should})/0.1"
        square = f"({c['true_error']}/2)^2+({read_to}^2+({degree}*{slope})^2)/3"
        seen = c["reading"]
        yield SHOULD, "0.00", f'IF(COUNT({c["true"]};{c["degrees"]})<2;"";IF(AND({c["true"]}=0;{c["degrees"]}<20);"";{should}))'
        place = c["reading"]
    else:
        boils = f"SPIRIT.BOILINGPOINT(0;{c['pressure']})"
        reference = f'IF({c["against"]}="ice";{ICE};IF({c["against"]}="boiling water";{BOILING};{used("reference_error")}))'
        yield SHOULD, "0.00", (f'IF({c["against"]}="ice";0;IF({c["against"]}="boiling water";IF({c["pressure"]}="";"";{boils});'
                               f'IF({c["against"]}="another";{c["true"]};"")))')
        needed = (f"${SHOULD}${row}", c["shows"], read_to, used("reference_error"))
        square = f"({read_to}^2+({reference})^2)/3"
        seen, place = c["shows"], f"${SHOULD}${row}"
    shown = f"${SHOULD}${row}"
    yield CORRECTION, "+0.00", f'IF(COUNT({shown};{seen})<2;"";ROUND({shown}-{seen};9))'
    yield SQUARE, "0.0000", f'IF(COUNT({";".join(needed)})<{len(needed)};"";IFERROR({square};""))'
    yield ERROR, "0.00", f'IF(${SQUARE}${row}="";"";2*SQRT(${SQUARE}${row}))'
    whole = f'COUNT({c["date"]};${CORRECTION}${row};${SQUARE}${row})=3;ABS(N(${CORRECTION}${row}))<={MOST}'
    # A row that is partly filled, or holds what cannot be used, is -1
    typed = f"COUNTA(INDEX($B${HEAD[of]}:$J${FIRST[of] + boxes.CHECKS};{_place(of, row)};0))"
    left_out = f'{c["counts"]}="no"'
    yield STATE, "0", f'IF({typed}=0;0;IF({left_out};2;IF(AND({whole};{c["against"]}<>"";{c["counts"]}="yes");1;-1)))'
    for letter, value in ((COUNTED, f"${CORRECTION}${row}"), (PLACE, place)):
        yield letter, "0.00", f'IF(${STATE}${row}=1;{value};"")'
    middle = fixed(f"{of}_correction")
    if of == "thermometer":
        middle = f"IF({line}=1;FORECAST(${PLACE}${row};{column(of, COUNTED)};{column(of, PLACE)});{middle})"
    yield OFF, "0.00", f'IF(OR(${STATE}${row}<>1;{fixed(f"{of}_correction")}="");"";IFERROR(ABS(${COUNTED}${row}-{middle});""))'


def _words(of, row, bad):
    """What is wrong with a row, or missing in it."""
    say = texts("instruments")["say"]
    c = {key: f"${beside}${row}" for key, (_, _, beside) in TYPED[of].items()}
    first = '""'
    for _, cell, kept, name in reversed(bad):
        said = in_formula(say["row_box"], typed=cell, name=f'"{name}"')
        first = f'IF(IFERROR(AND({kept}="";{cell}<>"");TRUE());IFERROR({said};{in_formula(say["an_error"])});{first})'
    missing = f'IF({c["date"]}="";{in_formula(say["date_missing"])};IF({c["against"]}="";{in_formula(say["against_missing"])};{in_formula(say["row_missing"])}))'
    cold = ""
    if of == "alcoholometer":
        cold = f'IF(AND(COUNT({c["true"]};{c["degrees"]})=2;N({c["true"]})=0;N({c["degrees"]})<20);{in_formula(say["cold_water"])};'
    much = f'IF(ABS(N(${CORRECTION}${row}))>{MOST};{in_formula(say["too_far"], most=str(MOST))};'
    waiting = f'IF(${STATE}${row}=-1;{cold}{much}{missing}){")" if cold else ""};"")'
    out = in_formula(say["left_out"])
    return f'IF({first}<>"";{first};IF(${STATE}${row}=2;{out};{waiting}))'


def table(sheet, of, data, at):
    words = texts("instruments")
    head, foot = HEAD[of], FIRST[of] + boxes.CHECKS
    sheet.heights |= {head: 9, foot: 0.8}
    for letter in (chr(code) for code in range(ord("A"), ord("R") + 1)):
        sheet.put(f"{letter}{foot}")
    spans = {first: last for first, last, _ in TYPED[of].values() if last != first} | {"O": "R"}
    heads = {first: key for key, (first, _, _) in TYPED[of].items()} | {"A": "number", SHOULD: "should", CORRECTION: "correction", ERROR: "error", "O": "words"}
    for first, key in heads.items():
        sheet.put(f"{first}{head}", words["heading"].get(f"{of}_{key}") or words["heading"][key], style="Jarbook heading",
                  to=f"{spans[first]}{head}" if first in spans else None)
    for i in range(boxes.CHECKS):
        row = FIRST[of] + i
        sheet.heights[row] = 6
        sheet.put(f"A{row}", i + 1, style="Jarbook number")
        bad = _row_boxes(sheet, of, row, data[i] if i < len(data) else {})
        for letter, fmt, formula in _row_result(of, row, at[f"{of}_line"]):
            sheet.put(f"{letter}{row}", formula=formula, fmt=fmt,
                      style="Jarbook computed" if letter in (SHOULD, CORRECTION, ERROR) else "Jarbook aside")
        sheet.put(f"O{row}", formula=_words(of, row, bad), style="Jarbook plan words", to=f"R{row}")
        sheet.condition(f"O{row}", f"${STATE}${row}=-1", "Jarbook query check")
        for first, cell, kept, _ in bad:
            sheet.condition(f"{first}{row}", f'IFERROR(AND({kept}="";{cell}<>"");TRUE())', "Jarbook query input")


def figures(at):
    """(name, formula) of what stands beside the page."""
    for of in INSTRUMENTS:
        yield f"{of}_checks", f"COUNT({column(of, COUNTED)})"
        yield f"{of}_low", f"MIN({column(of, PLACE)})"
        yield f"{of}_high", f"MAX({column(of, PLACE)})"
        place, low, high = used("thermometer_used_at"), at[f"{of}_low"], at[f"{of}_high"]
        if of == "alcoholometer":
            yield f"{of}_line", "0"
            yield f"{of}_known", f"IF({at[f'{of}_checks']}>0;1;0)"
            continue
        yield f"{of}_line", f'IF(OR({at[f"{of}_checks"]}<2;{place}="");0;IF(AND({high}-{low}>={SPAN};{low}<={place};{place}<={high});1;0))'
        near = f"COUNTIFS({column(of, PLACE)};\">=\"&({place}-{NEAR});{column(of, PLACE)};\"<=\"&({place}+{NEAR}))"
        yield f"{of}_known", f'IF({place}="";0;IF({at[f"{of}_line"]}=1;1;IF({near}>0;1;0)))'


def results(sheet, at):
    words = texts("instruments")
    for of in INSTRUMENTS:
        counted, places = column(of, COUNTED), column(of, PLACE)
        known = f'N({at[f"{of}_known"]})=0'
        mean = f"AVERAGE({counted})"
        if of == "thermometer":
            place = used("thermometer_used_at")
            near = f'AVERAGEIFS({counted};{places};">="&({place}-{NEAR});{places};"<="&({place}+{NEAR}))'
            mean = f'IF({at[f"{of}_line"]}=1;FORECAST({place};{counted};{places});{near})'
        own = f"2*SQRT(SUMIFS({column(of, SQUARE)};{column(of, STATE)};1)/{at[f'{of}_checks']})"
        formulas = {"correction": (f'IF({known};"";{mean})', "+0.00"),
                    "uncertainty": (f'IF({known};"";MAX({own};{column(of, OFF)}))', "0.00"),
                    "latest": (f'IF({known};"";MAXIFS({column(of, TYPED[of]["date"][2])};{column(of, STATE)};1))', "date")}
        for i, (name, (formula, fmt)) in enumerate(formulas.items()):
            row = RESULT[of] + i
            label(sheet, LEFT, row, words["result"][f"{of}_{name}"] if name == "correction" else words["result"][name])
            sheet.put(f"D{row}", formula=formula, fmt=fmt, style="Jarbook result", to=f"E{row}" if name == "latest" else None)
            first = "F" if name == "latest" else "E"
            sheet.put(f"{first}{row}", formula=in_formula(words["unit"][f"{of}_{name}"]), style="Jarbook plan words", to=f"I{row}")
        row = RESULT[of] + 3
        # `latest` reaches to E
        correction, error, off = fixed(f"{of}_correction"), fixed(f"{of}_uncertainty"), f"MAX({column(of, OFF)})"
        checks = at[f"{of}_checks"]
        how = words["words"]
        shown = f'IF({checks}=1;{in_formula(how["one"])};{in_formula(how["mean"], count=checks)})'
        if of == "thermometer":
            shown = f'IF({at[f"{of}_line"]}=1;{in_formula(how["line"], count=checks, place=used("thermometer_used_at"))};{shown})'
        apart = f'AND({checks}>1;{off}>{own})'
        said = (f'IF({known};IF({checks}=0;"";{in_formula(how["far_from"], place=used("thermometer_used_at"))});'
                f'IF({apart};{in_formula(how[f"apart_{of}"], off=f"FIXED({off};2;1)")};'
                f'IF(ABS({correction})<{error};{in_formula(how["not_shown"])};{shown})))')
        sheet.put(f"A{row}", formula=said, style="Jarbook plan words", to=f"I{row}")
        sheet.heights[row] = 7.5


def offers(of):
    """What new runs are offered: the correction, and the day of the latest check; blank unless chosen."""
    chosen = f'OR({used(f"{of}_carry")}<>"yes";NOT(ISNUMBER({fixed(f"{of}_correction")})))'
    return (f'IF({chosen};"";ROUND({fixed(f"{of}_correction")};{2 if of == "alcoholometer" else 1}))',
            f'IF({chosen};"";{fixed(f"{of}_latest")})')
