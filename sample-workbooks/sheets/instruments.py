"""The Instruments sheet: strength by weighing, the corrections of alcoholometer and thermometer, a wash three ways."""
from common.texts import in_formula, texts
from sheets import instruments_boxes as boxes, instruments_checks as checks, page, instruments_wash as wash, instruments_weighing as weighing
from sheets.instruments_boxes import BESIDE, FIGURES, NAMES, SHEET, used

WIDTHS = {"A:C": 14, "D": 16, "E": 13, "F:I": 12, "J:L": 14, "M": 16, "N": 13, "O:R": 12, "S": 3, "T:U": 26, "V": 26, "W": 18,
          "X:AM": 16}
NAMED = ("point",) + weighing.FIGURES + checks.FIGURES + wash.FIGURES
AT = {name: f"${FIGURES}${BESIDE + i}" for i, name in enumerate(NAMED)}
OFFERS = tuple(f"offer_{of}_{what}" for of in checks.INSTRUMENTS for what in ("correction", "checked"))
OFFER = {name: f"${FIGURES}${BESIDE + len(NAMED) + i}" for i, name in enumerate(OFFERS)}
MESSAGES = ("boxes", "alcoholometer", "thermometer", "apart_alcoholometer", "apart_thermometer", "turned", "above_water", "apart")
MESSAGE = {name: f"${FIGURES}${BESIDE + len(NAMED) + len(OFFERS) + i}" for i, name in enumerate(MESSAGES)}


def _messages():
    say = texts("instruments")["say"]
    yield "boxes", boxes.BOXES.first_wrong()
    for of in checks.INSTRUMENTS:
        bad = f"COUNTIF({checks.column(of, checks.STATE)};-1)"
        yield of, f'IF({bad}=0;"";{in_formula(say[f"rows_{of}"], count=bad)})'
    for of in checks.INSTRUMENTS:
        error = checks.fixed(f"{of}_uncertainty")
        off = f"MAX({checks.column(of, checks.OFF)})"
        yield f"apart_{of}", f'IF(OR({error}="";{AT[f"{of}_checks"]}<2);"";IF({off}>=N({error});{in_formula(say[f"apart_{of}"])};""))'
    original, final = used("original"), used("final")
    yield "turned", f'IF(COUNT({original};{final})<2;"";IF({final}>{original};{in_formula(say["turned"])};""))'
    water, boils = used("water_boils"), used("wash_boils")
    yield "above_water", f'IF(COUNT({water};{boils})<2;"";IF({boils}>{water};{in_formula(say["above_water"])};""))'
    yield "apart", f'IF({wash.apart(AT)};{in_formula(say["wash_apart"])};"")'


def _look(sheet):
    say = texts("instruments")["say"]
    first = '""'
    for cell in reversed(MESSAGE.values()):
        first = f'IF({cell}<>"";{cell};{first})'
    count = "+".join(f'({cell}<>"")' for cell in MESSAGE.values())
    results = {**weighing.CELLS, **checks.CELLS, **wash.CELLS}.values()
    known = f"COUNT({';'.join(f'${cell[0]}${cell[1:]}' for cell in results)})"
    more = in_formula(say["more"], count=f"({count}-1)")
    sheet.put(f"A{boxes.LOOK}", style="Jarbook look", to=f"R{boxes.LOOK}",
              formula=f'IF({count}=0;IF({known}=0;{in_formula(say["start"])};{in_formula(say["nothing"])});{first}&IF({count}>1;{more};""))')
    sheet.condition(f"A{boxes.LOOK}", f"{count}>0", "Jarbook query look")
    sheet.heights |= {boxes.TITLE: 8, boxes.LOOK: 9}


def _beside(sheet):
    words = texts("instruments")["beside"]
    sheet.put(f"T{boxes.LOOK}", words["page"], style="Jarbook unit")
    sheet.put(f"T{boxes.WEIGH}", words["left"], style="Jarbook unit")
    sheet.put(f"U{boxes.WEIGH}", words["right"], style="Jarbook unit")
    formulas = {"point": 'MID(0.5&"";2;1)'} | dict(weighing.figures(AT)) | dict(checks.figures(AT)) | dict(wash.figures(AT))
    for of in checks.INSTRUMENTS:
        formulas |= dict(zip((f"offer_{of}_correction", f"offer_{of}_checked"), checks.offers(of)))
    formulas |= dict(_messages())
    for name, cell in (AT | OFFER | MESSAGE).items():
        row = cell.rpartition("$")[2]
        heading = f"say {name}" if name in MESSAGE and cell == MESSAGE[name] else name
        sheet.put(f"{NAMES}{row}", heading.replace("_", " "), style="Jarbook unit")
        sheet.put(f"{FIGURES}{row}", formula=formulas[name], style="Jarbook aside", fmt="date" if name.endswith("_checked") else "general")
    for of in checks.INSTRUMENTS:
        head = checks.HEAD[of]
        for key, (_, _, beside) in checks.TYPED[of].items():
            sheet.put(f"{beside}{head}", key.replace("_", " "), style="Jarbook unit")
        for letter, text in zip((checks.STATE, checks.SQUARE, checks.COUNTED, checks.PLACE, checks.OFF), words["rows"]):
            sheet.put(f"{letter}{head}", text, style="Jarbook unit")


def add(book, data=None):
    """Adds the sheet; `data` fills its boxes by name, and its checks: lists of tables by instrument."""
    data = dict(data or {})
    rows = {of: data.pop(f"{of}_checks", []) for of in checks.INSTRUMENTS}
    words = texts("instruments")
    sheet = page.add(book, SHEET, words, WIDTHS)
    _look(sheet)
    page.band(sheet, boxes.WEIGH, words["band"], "flask", "plummet")
    page.band(sheet, boxes.ALC, words["band"], "alcoholometer", "alcoholometer_hint")
    page.band(sheet, boxes.THERM, words["band"], "thermometer", "thermometer_hint")
    page.band(sheet, boxes.WASH, words["band"], "wash", "sample")
    boxes.BOXES.fill(sheet, data)
    boxes.lists(sheet)
    for row in range(boxes.WASH_LINE, boxes.WASH_LINE + boxes.WASH_LINES):
        sheet.heights[row] = 5.4     # or the second page would be two
    weighing.results(sheet, AT)
    for of in checks.INSTRUMENTS:
        checks.table(sheet, of, rows[of], AT)
    checks.results(sheet, AT)
    wash.results(sheet, AT)
    _beside(sheet)
    sheet.breaks.add(boxes.THERM)
    sheet.put(f"A{boxes.LAST}", words["text"]["carried"], style="Jarbook note", to=f"R{boxes.LAST}")
    sheet.heights[boxes.LAST] = 12
    sheet.print_range = f"A1:R{boxes.LAST}"
    sheet.frozen_rows = boxes.LOOK
    sheet.cursor = f"D{boxes.FLASK}"
    sheet.fold_columns("T", boxes.ANSWER)
    _name(sheet)
    return sheet


def _name(sheet):
    for name, cell in (weighing.CELLS | checks.CELLS | wash.CELLS).items():
        sheet.name_cell(f"result_{name}", cell)
    for name, cell in OFFER.items():
        sheet.name_cell(name, cell.replace("$", ""))
    for of in checks.INSTRUMENTS:
        columns = {key: first for key, (first, _, _) in checks.TYPED[of].items()} | {
            "should": checks.SHOULD, "correction": checks.CORRECTION, "error": checks.ERROR, "words": "O"}
        for key, letter in columns.items():
            sheet.name_cell(f"check_{of}_{key}", f"{letter}{checks.FIRST[of]}:{letter}{checks.FIRST[of] + boxes.CHECKS - 1}")
        sheet.name_cell(f"{of}_says", f"A{checks.RESULT[of] + 3}")
    sheet.name_cell("wash_trust", f"A{wash.ROW + len(wash.WAYS)}")
    sheet.name_cell("instruments_look", f"A{boxes.LOOK}")
