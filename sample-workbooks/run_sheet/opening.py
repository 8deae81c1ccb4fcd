"""What stays in view (name, To look at, headings of the jars), and the boxes that a first run needs."""
from odf.sheet import Button

from . import layout as L, read
from .pad import blank_if, empty
from .texts import CAUTIONS, T, quoted, say
from .layout import at

HEADINGS = {L.NUMBER: "jar", L.CLOCK: "clock", L.READING: "reading", L.TEMPERATURE: "temperature",
            L.NOTE: "notes", L.KEEP: "use", L.CUT_CHOSEN: "cut", L.SUGGESTED: "suggested",
            L.STRENGTH: "strength", L.VOLUME: "volume", L.COLLECTED: "collected", L.EXPECTED: "expected",
            L.CHECK: "check"}


def in_view(pad):
    """The rows that are frozen; name and To look at repeat on each printed page."""
    sheet = pad.sheet
    sheet.heights |= {L.TITLE: 7.5, L.LOOK: 9, L.HEAD: 8.5}
    line = dict(style="Jarbook title line")
    big = dict(text=True, cell={"fo:border-bottom": "1.5pt solid #7d8993"}, letters={"fo:font-size": "11pt"})
    sheet.put("A1", T["title"]["run"], letters={"fo:font-size": "9pt"}, **line)
    pad.entry("run_title", to="E1", **big)
    sheet.put("F1", **line)
    sheet.put("G1", T["title"]["date"], letters={"fo:font-size": "9pt"}, paragraph={"fo:text-align": "end"}, **line)
    pad.entry("run_date", "date", **(big | {"letters": {"fo:font-size": "9.5pt"}}))
    for column in "IJKLMN":
        sheet.put(f"{column}1", **line)
    # One click, on a protected sheet too; the names go along when jars are inserted or the sheet is copied.
    x = sum(sheet.widths[c] for c in range(8)) + 2
    for i, page in enumerate(("before", "still", "after")):
        sheet.buttons.append(Button(T["title"][page], f".uno:GoToCell?ToPoint:string=page_{page}",
                                    x + 38 * i, 0.7, 36, 6))
    pad.result("look", _look(), None, to=f"I{L.LOOK}", style="Jarbook look")
    pad.result("come_short", _come(), None, to=f"N{L.LOOK}", style="Jarbook look", letters={"fo:font-weight": "normal"})
    sheet.condition(L.names["look"], f"{at.queries}>0", "Jarbook query look")
    jar_headings(pad, L.HEAD)
    sheet.frozen_rows = L.HEAD


def _amount():
    return f'{quoted(T["heading"]["amount"])}&CHAR(10)&IF({read.used("jar_unit")}="";"?";{read.used("jar_unit")})'


def jar_headings(pad, row):
    """Of the jars: in view on the screen, and on their printed page."""
    for column, key in HEADINGS.items():
        pad.heading(f"{column}{row}", T["heading"][key])
    pad.heading(f"{L.AMOUNT}{row}", None, formula=_amount())


def jar_headings_below(pad, row):
    """The same small, for the last printed page of the jars."""
    small = dict(style="Jarbook unit", cell={"style:vertical-align": "top", "fo:wrap-option": "wrap", "fo:padding-left": "0mm"},
                 paragraph={"fo:text-align": "center"}, letters={"fo:font-size": "7.5pt"})
    for column, key in HEADINGS.items():
        pad.sheet.put(f"{column}{row}", T["heading"][key], **small)
    pad.sheet.put(f"{L.AMOUNT}{row}", formula=_amount(), **small)
    pad.sheet.heights[row] = 7


def _look():
    """The first of the cautions, and how many more there are."""
    first = '""'
    for row in reversed(range(L.MESSAGE, L.MESSAGE + L.MESSAGES - 1)):
        first = f'IF(${L.MESSAGE_COLUMN}${row}<>"";${L.MESSAGE_COLUMN}${row};{first})'
    shown = "+".join(f'(${L.MESSAGE_COLUMN}${row}<>"")' for row in range(L.MESSAGE, L.MESSAGE + L.MESSAGES - 1))
    return (f'IF({at.queries}=0;IF({at.charge_volume}="";{say("start")};{quoted(CAUTIONS["caution"]["none"])});'
            f'{first}&IF({shown}>1;{say("more_to_see", count=f"({shown}-1)")};""))')


def _come():
    """What is still to come, where the clock is typed; nothing once the stop is reached or the residue is measured."""
    def hours(cell):
        return f'TEXT({cell}/24;"[H]:MM")'

    stop, hearts = at.come_stop_volume, at.come_hearts_volume
    litres = 'TEXT({};"0.00")'.format
    short = say("come_short_stop", stop=litres(stop), stop_time=f'IF({at.come_stop_hours}="";"?";{hours(at.come_stop_hours)})')
    full = say("come_short", hearts=litres(hearts), stop=litres(stop),
               hearts_time=f'IF({at.come_hearts_hours}="";"?";{hours(at.come_hearts_hours)})',
               stop_time=f'IF({at.come_stop_hours}="";"?";{hours(at.come_stop_hours)})')
    over = f'OR(N({stop})<0.005;{read.used("residue_measured_volume")}<>"")'  # 0.005 L shows as 0.00
    return f'IF({over};"";IF(N({hearts})<0.005;{short};{full}))'


def essentials(pad):
    pad.band(L.BEFORE, "before", "before_hint")
    row = L.ESSENTIAL
    pad.sheet.heights |= {row: 5.5, row + 1: 5.5}
    pad.line(row, "run_kind", None, to=f"E{row}", text=True, needed=True, fmt=None)
    pad.line(row + 1, "wished_charge", "dilute", fmt="0.0", needed=True)
    # What the instruments are known to be off by, with the day of the check.
    for line, (name, fmt) in enumerate((("alcoholometer", "0.00"), ("thermometer", "0.0"))):
        pad.line(row + line, f"{name}_correction", None, fmt=fmt)
        pad.entry(f"{name}_checked", "date")
        day = read.box(f"{name}_checked")
        pad.aside(f"{L.CHECKED_DAY}{row + line}", f'IFERROR(IF(ISNUMBER({day});{day};"");"")', "date")
    pad.line(row, "boiler_volume", "litre", fmt="0.0", needed=True)
    pad.line(row + 1, "watts", "watt", fmt="0", needed=True)


def more(pad):
    """The fold: plan of the cuts and still at the left, instruments and record at the right."""
    pad.band(L.MORE, "more", "more_hint")
    head = L.MORE_HEAD
    pad.sheet.heights[head] = 10.5
    pad.lead(f"A{head}", f"E{head}", T["heading"]["plan"])
    pad.lead(f"J{head}", f"N{head}", T["heading"]["instruments"])
    for i, (name, unit, fmt) in enumerate((
            ("stop_strength", "strength", "0.0"), ("foreshots_volume", "litre", "0.00"),
            ("hearts_from", "strength", "0.0"), ("hearts_to", "strength", "0.0"), ("stages", "", "0.00"),
            ("reflux", "litre", "0.00"), ("pressure", "hpa", "0.0"), ("start_temperature", "celsius", "0.0"),
            ("stages_range", "", "0.00"), ("known_stages", "", "0.000"), ("known_range", "", "0.000"))):
        pad.line(L.MORE_LINE + i, name, unit, fmt=fmt)
    for i, (name, unit, fmt) in enumerate((
            ("reading_tolerance", "strength", "0.00"), ("reading_scatter", "strength", "0.00"),
            ("temperature_tolerance", "celsius", "0.0"), ("volume_tolerance", "percent", "0.0"))):
        pad.line(L.MORE_LINE + i, name, unit, fmt=fmt)
    pad.line(L.MORE_LINE + 7, "cooling_rise", "celsius", fmt="0")
    for i, name in enumerate(("run_still", "run_material", "run_lot", "run_remarks", "known_still")):
        row = L.MORE_LINE + 4 + i
        pad.label(f"J{row}", f"K{row}", name)
        pad.entry(name, to=f"N{row}", text=True)
    pad.sheet.heights |= {row: 4.1 for row in range(L.MORE_LINE, L.MORE_END + 1)} | {L.STILL - 1: 0.8}
    pad.sheet.fold_rows(head, L.MORE_END, not pad.data.get("botanicals"))


def in_short(pad):
    """The run in short, beside the page: what Runs and the scripts read."""
    label, figure, unit = L.SHORT_COLUMNS
    sums = _sums()
    pad.sheet.put(f"{label}{L.SHORT - 1}", T["beside"]["short"], style="Jarbook heading")
    for i, (name, (text, unit_text)) in enumerate(T["short"].items()):
        row = L.SHORT + i
        formula, fmt = sums[name]
        pad.sheet.put(f"{label}{row}", text, style="Jarbook label")
        if formula.startswith("$"):
            formula = f'IF({formula}="";"";{formula})'
        pad.result(name, formula, fmt, style="Jarbook aside")
        pad.sheet.put(f"{unit}{row}", unit_text, style="Jarbook unit")


def _sums():
    wait = blank_if(f"{at.jars_ready}=0")
    since = L.jars(L.SINCE)
    return {
        "sum_charge_volume": (at.charge_volume, "0.00"), "sum_charge_strength": (at.charge_strength, "0.00"),
        "sum_charge_alcohol": (at.charge_alcohol, "0.00"),
        "sum_collected_alcohol": (wait + f"SUM({L.jars(L.ALCOHOL)})/1000)", "0.00"),
        "sum_recovery": (blank_if(f"{at.jars_ready}=0", *empty(at.charge_volume)) +
                         f"SPIRIT.RECOVERY({at.charge_volume}*1000;{at.charge_strength};{L.jars(L.VOLUME)};"
                         f"{L.jars(L.STRENGTH)}))", "0.0 %"),
        "sum_hearts_share": (at.cut_hearts_share, "0.0 %"), "sum_stages": (at.fitted_stages, "0.00"),
        "sum_hours": (blank_if(*empty(read.used("first_drip")), f"COUNT({since})=0",
                               f"COUNTIF({L.jars(L.BAD)};1)>0") + f"MAX({since})/60)", "0.00"),
        "sum_product_volume": (at.product_volume, "0.00"), "sum_product_strength": (at.product_strength, "0.00"),
        "sum_unaccounted": (at.balance_unaccounted, "0.00")}


def fill(pad):
    in_view(pad)
    essentials(pad)
    more(pad)
    in_short(pad)
    read.judge(pad.sheet)
