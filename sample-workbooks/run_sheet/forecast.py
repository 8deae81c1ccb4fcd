"""Section 2, Forecast: what will come over, what is still to come, the curve and its chart."""
from odf.chart import Axis, Chart, Series

from . import layout as L
from .layout import at
from .pad import blank_if, empty

CHARGE = f"{at.charge_volume};{at.charge_strength}"
PRESSURE = f'IF({at.pressure}="";1013.25;{at.pressure})'
REFLUX = f'IF({at.reflux}="";0;{at.reflux})'
STILL = f"{at.stages};{PRESSURE}"
NO_FORECAST = empty(at.charge_volume, at.stages)


def inputs(pad):
    pad.section(f"A{L.FORECAST}", f"G{L.FORECAST}", "2  Forecast: the plan")
    lines = (("stop_strength", "Stop the run at", "0.0", "% vol running"),
             ("foreshots_volume", "Foreshots, thrown away", "0.00", "L"),
             ("hearts_from", "Hearts from", "0.0", "% vol running"),
             ("hearts_to", "Hearts to", "0.0", "% vol running"))
    for i, (name, label, fmt, unit) in enumerate(lines):
        row = L.PLAN + i
        pad.label(f"A{row}", f"D{row}", label)
        pad.entry(name, fmt)
        pad.unit(f"F{row}", unit, f"G{row}")
    heat = empty(at.charge_volume, at.start_temperature, at.watts)
    figures = (
        ("first_strength", "First drops", blank_if(*NO_FORECAST) +
         f"SPIRIT.FORECASTSTRENGTH({CHARGE};0;{STILL}))", "0.0", "% vol"),
        ("first_boiling", "Boiler begins to boil at", blank_if(*empty(at.charge_volume)) +
         f"SPIRIT.BOILINGPOINT({at.charge_strength};{PRESSURE}))", "0.0", "°C"),
        ("heating_hours", "Heating to the boil (liquid only)", blank_if(*heat) +
         f"SPIRIT.HEATUPTIME({CHARGE};{at.start_temperature};{at.watts}))", "0.0", "hours"),
        ("running_hours", "First drip to the stop", blank_if(*NO_FORECAST, *empty(at.stop_strength, at.watts)) +
         f"SPIRIT.RUNTIME({CHARGE};{at.stop_strength};{at.watts};{at.stages};{REFLUX};{PRESSURE}))",
         "0.0", "hours"))
    for i, (name, label, formula, fmt, unit) in enumerate(figures):
        row = L.PLAN + 4 + i
        pad.label(f"A{row}", f"D{row}", label)
        pad.result(name, formula, fmt)
        pad.unit(f"F{row}", unit, f"G{row}")


def cuts(pad):
    """What each cut will hold, by the plan."""
    pad.section(f"H{L.FORECAST}", f"M{L.FORECAST}", "The cuts to expect")
    for column, text in zip("HIJKLM", ("Cut", "from %", "to %", "L", "L pure", "share")):
        pad.heading(f"{column}{L.PLAN}", text)
    limits = (at.foreshots_volume, at.hearts_from, at.hearts_to, at.stop_strength)
    first = L.PLAN + 1
    for i, cut in enumerate(L.CUT_NAMES):
        row = first + i
        wait = blank_if(*NO_FORECAST, *empty(*limits))
        start = at.first_strength if i == 0 else f"$J${row - 1}"
        pad.label(f"H{row}", f"H{row}", cut)
        pad.computed(f"I{row}", wait + f"{start})", "0.0")
        end = (f"SPIRIT.FORECASTSTRENGTH({CHARGE};{at.foreshots_volume};{STILL})" if i == 0
               else f"MIN($I${row};{limits[i]})")
        pad.computed(f"J{row}", wait + f"{end})", "0.0")
        litres = (at.foreshots_volume if i == 0 else
                  f"IF($J${row}<$I${row};SPIRIT.FORECASTVOLUME({CHARGE};$J${row};{STILL})"
                  f"-SUM($K${first}:$K${row - 1});0)")
        pad.computed(f"K{row}", wait + f"{litres})")
        pad.computed(f"L{row}", wait + f"IF($J${row}<$I${row};SPIRIT.FORECASTALCOHOL({CHARGE};$I${row};"
                     f"$J${row};{STILL});0))")
        pad.computed(f"M{row}", wait + f"$L${row}/{at.charge_alcohol})", "0.0%")
    row = first + 4
    wait = blank_if(*NO_FORECAST, *empty(at.stop_strength))
    pad.label(f"H{row}", f"H{row}", "together")
    pad.computed(f"I{row}", wait + f"{at.first_strength})", "0.0")
    pad.computed(f"J{row}", wait + f"{at.stop_strength})", "0.0")
    pad.computed(f"K{row}", wait + f"SPIRIT.FORECASTVOLUME({CHARGE};{at.stop_strength};{STILL}))",
                 style="Jarbook result")
    pad.computed(f"L{row}", wait + f"SPIRIT.FORECASTALCOHOL({CHARGE};{at.first_strength};"
                 f"{at.stop_strength};{STILL}))", style="Jarbook result")
    pad.computed(f"M{row}", wait + f"$L${row}/{at.charge_alcohol})", "0.0%")
    pad.note(f"H{row + 1}", f"M{row + 2}", "A forecast, not a promise: published data differ among "
             "themselves by 1 % vol, and a working pot by more.")


def still_to_come(pad):
    """From the jars of a run in progress: the still's own stages, and what the boiler has left."""
    pad.section(f"N{L.FORECAST}", f"T{L.FORECAST}", "From this run's jars")
    waits = [f"{at.jars_ready}=0", *empty(at.charge_volume)]
    volumes, strengths = L.jars(L.VOLUME), L.jars(L.STRENGTH)
    lists = f"{at.charge_volume}*1000;{at.charge_strength};{volumes};{strengths}"
    fitted = f"IF(ISNUMBER({at.fitted_stages});{at.fitted_stages};{at.stages})"
    still = f"{fitted};{PRESSURE}"
    lines = (
        ("fitted_stages", "Stages of this still (three jars or more)",
         blank_if(*waits, f"{at.jars_complete}<3") + f"SPIRIT.STAGES({lists};{PRESSURE}))", ""),
        ("residue_volume", "Left in the boiler, by balance",
         blank_if(*waits) + f"SPIRIT.VOLUMEFROMMASS(SPIRIT.MASS({CHARGE})-SPIRIT.MASS("
         f"SPIRIT.BLENDVOLUME({volumes};{strengths})/1000;SPIRIT.BLENDSTRENGTH({volumes};{strengths}));"
         f"{at.residue_strength}))", "L at 20 °C"),
        ("residue_strength", "Its strength", blank_if(*waits) + f"SPIRIT.RESIDUESTRENGTH({lists}))",
         "% vol"))
    for i, (name, label, formula, unit) in enumerate(lines):
        row = L.PLAN + i
        pad.label(f"N{row}", f"Q{row}", label)
        pad.result(name, formula)
        pad.unit(f"S{row}", unit, f"T{row}")
    head = L.PLAN + 3
    pad.heading(f"N{head}", "Still to come", f"Q{head}", paragraph={"fo:text-align": "start"})
    pad.heading(f"R{head}", "to the end of the hearts")
    pad.heading(f"S{head}", "to the stop")
    pad.heading(f"T{head}", "")
    # Along this run's own curve, from what has been collected on.
    now = f"SPIRIT.FORECASTSTRENGTH({CHARGE};MAX({L.jars(L.COLLECTED)});{still})"
    for column, limit in (("R", at.hearts_to), ("S", at.stop_strength)):
        wait = blank_if(*waits, *empty(at.stages, limit))
        hours = f"SPIRIT.RUNTIME({CHARGE};{{0}};{at.watts};{fitted};{REFLUX};{PRESSURE})"
        row = head + 1
        pad.computed(f"{column}{row}", wait + f"IF({now}<={limit};0;"
                     f"SPIRIT.FORECASTVOLUME({CHARGE};{limit};{still})-MAX({L.jars(L.COLLECTED)})))")
        pad.computed(f"{column}{row + 1}", wait + f"IF({now}<={limit};0;"
                     f"SPIRIT.FORECASTALCOHOL({CHARGE};{now};{limit};{still})))")
        pad.computed(f"{column}{row + 2}", blank_if(*waits, *empty(at.stages, at.watts, limit)) +
                     f"IF({now}<={limit};0;{hours.format(limit)}-{hours.format(now)}))", "0.0")
    for i, (label, unit) in enumerate((("Distillate", "L"), ("Pure alcohol", "L"), ("Time", "hours"))):
        pad.label(f"N{head + 1 + i}", f"Q{head + 1 + i}", label)
        pad.unit(f"T{head + 1 + i}", unit)
    pad.note(f"N{head + 4}", f"T{head + 4}", "Before the stages of this run can be fitted, the still's are taken.")


def curve(pad):
    head, first, last = L.CURVE_HEAD, L.CURVE, L.CURVE_END
    pad.sheet.heights[head] = 10.5
    for column, text in zip("BCDEFGH", ("L\ncollected", "% vol\nrunning", "% vol of\nall of it",
                                        "L pure\nalcohol", "boiler\n% vol", "boiler\n°C",
                                        "by this\nrun's\nstages")):
        pad.heading(f"{column}{head}", text)
    pad.heading(f"A{head}", "Curve")
    for row in range(first, last + 1):
        pad.sheet.put(f"A{row}", row - first + 1, style="Jarbook unit")
    formula = (blank_if(*NO_FORECAST, *empty(at.stop_strength)) +
               f"SPIRIT.FORECASTTABLE({CHARGE};{at.stop_strength};{L.CURVE_ROWS};{STILL}))")
    for row in range(first, last + 1):
        for column, fmt in zip("BCDEFG", ("0.00", "0.0", "0.0", "0.00", "0.0", "0.0")):
            corner = (row, column) == (first, "B")
            pad.computed(f"{column}{row}", formula if corner else None, fmt,
                         array=f"G{last}" if corner else None)
        pad.computed(f"H{row}", f'IF(OR(NOT(ISNUMBER({at.fitted_stages}));B{row}="");"";'
                     f"SPIRIT.FORECASTSTRENGTH({CHARGE};B{row};{at.fitted_stages};{PRESSURE}))", "0.0")


def chart(pad):
    """Strength against litres: the jars beside the forecast, each cut with its own mark."""
    sheet, head, first, last = pad.sheet, L.CURVE_HEAD, L.CURVE, L.CURVE_END
    x = f"B{first}:B{last}"
    middle = f"{L.MIDDLE}{L.JAR}:{L.MIDDLE}{L.JAR_END}"

    def jar_series(column, symbol, colour, size=2.6):
        return Series(f"{column}{L.JAR}:{column}{L.JAR_END}", f"{column}{L.JAR_HEAD}", middle, symbol,
                      colour, size=size)

    series = [Series(f"C{first}:C{last}", f"V{first}", x, colour="#3d5361", line=0.4),
              Series(f"H{first}:H{last}", f"V{first + 1}", x, colour="#3d5361", line=0.3, dash="Dash"),
              jar_series(L.UNCUT, "circle", "#9aa5ad"), jar_series(L.FORESHOTS, "x", "#8c1d18"),
              jar_series(L.HEADS, "arrow-up", "#b07d12", 3), jar_series(L.HEARTS, "square", "#1f5f3f"),
              jar_series(L.TAILS, "arrow-down", "#4b3f72", 3)]
    picture = sheet.book.add_chart(Chart(
        "Run chart", "scatter", "Strength running, the jars as measured beside the forecast", series,
        Axis("litres collected, at 20 °C", minimum=0), Axis("% vol at 20 °C", minimum=0, maximum=100, step=20),
        sum(sheet.widths[c] for c in range(8, 20)) - 2, 10.5 + L.CURVE_ROWS * 4.5 - 1.5,
        description="Scatter chart: strength of each jar against litres collected, with the forecast curves."))
    picture.end = f"U{last + 1}"
    sheet.put(f"I{head}", drawing=picture)
    for row, text in ((first, "forecast"), (first + 1, "by this run's stages")):
        sheet.put(f"V{row}", text, style="Jarbook unit")  # the curves' names, beside the page


def fill(pad):
    inputs(pad)
    cuts(pad)
    still_to_come(pad)
    curve(pad)
    chart(pad)
