"""Before: what the run will give, cut by cut, its curve and the range of it; at the still: what is still
to come, by the stages of this run as soon as three jars tell them."""
from odf.chart import Axis, Chart, Series

from . import layout as L, read
from .layout import at, fixed
from .pad import blank_if, empty
from .texts import T

CHARGE = f"{at.charge_volume};{at.charge_strength}"
STAGES, PRESSURE, REFLUX, WATTS = (read.used(name) for name in ("stages", "pressure", "reflux", "watts"))
STOP, FORESHOTS, FROM, TO = (read.used(name) for name in ("stop_strength", "foreshots_volume", "hearts_from", "hearts_to"))
STILL = f"{STAGES};{PRESSURE}"
# The first strength, or a blank where it shows an error: the rest of the forecast then waits.
FIRST = f"$P${L.FIGURE}"
NO_FORECAST = empty(at.charge_volume, STAGES, PRESSURE, FIRST)
# While the still is unknown: working pots have 1.0 to 1.4 stages (one published table, and runs).
LOW, HIGH = f"MAX(1;{STAGES}-0.15)", f"{STAGES}+0.25"


def figures(pad):
    heat = empty(at.charge_volume, read.used("start_temperature"), WATTS)
    first = L.FIGURE
    ends = f"{STOP}>={FIRST}"
    pad.aside(FIRST.replace("$", ""), f'IFERROR({at.first_strength};"")', "0.0")
    hours = (
        ("heating_hours", blank_if(*heat) + f"SPIRIT.HEATUPTIME({CHARGE};{read.used('start_temperature')};{WATTS}))"),
        ("running_hours", blank_if(*empty(FIRST, STOP, WATTS, REFLUX), ends) +
         f"SPIRIT.RUNTIME({CHARGE};{STOP};{WATTS};{STAGES};{REFLUX};{PRESSURE}))"))
    pad.line(first, "first_strength", "running", bold=True, fmt="0.0",
             formula=blank_if(*empty(at.charge_volume, STAGES, PRESSURE)) + f"SPIRIT.FORECASTSTRENGTH({CHARGE};0;{STILL}))")
    pad.line(first + 1, "first_boiling", "celsius", fmt="0.0", formula=blank_if(*empty(at.charge_volume, PRESSURE)) +
             f"SPIRIT.BOILINGPOINT({at.charge_strength};{PRESSURE}))")
    for i, ((name, formula), label) in enumerate(zip(hours, ("heating", "running")), 2):
        pad.aside(L.names[name], formula)
        pad.label(f"A{first + i}", f"C{first + i}", label)
        cell = getattr(at, name)
        pad.computed(f"D{first + i}", f'IF(ISNUMBER({cell});{cell}/24;"")', "hours")
        pad.unit(f"E{first + i}", f"E{first + i}", "hours")
    pad.line(first + 4, "energy", "energy", fmt="0.0", formula=blank_if(*empty(at.heating_hours, at.running_hours)) +
             f"({at.heating_hours}+{at.running_hours})*{WATTS}/1000)")
    rise = read.used("cooling_rise")
    pad.line(first + 5, "cooling_water", "litre", fmt="0", formula=blank_if(*empty(FIRST, STOP, REFLUX, rise), ends) +
             f"SPIRIT.COOLINGWATER({CHARGE};{STOP};{rise};20;{STAGES};{REFLUX};{PRESSURE}))")


def plan(pad):
    """What each cut will hold, by the plan."""
    pad.band(L.FORECAST, "forecast")
    head, first = L.FORECAST + 1, L.PLAN
    pad.sheet.heights[head] = 8.5
    pad.heading(f"A{head}", T["heading"]["plan_cut"], f"B{head}")
    for column, key in zip("CDEFGH", ("from", "to", "volume", "alcohol", "share", "hours")):
        pad.heading(f"{column}{head}", T["heading"][f"plan_{key}"])
    start = FIRST
    sound = [f"{STOP}>={start}", f"{TO}>={FROM}"]
    wait = blank_if(*NO_FORECAST, *empty(FORESHOTS, FROM, TO, STOP), *sound)
    for i, cut in enumerate(L.CUT_NAMES):
        row, limit = first + i, (FORESHOTS, FROM, TO, STOP)[i]
        c, d = f"$C{row}", f"$D{row}"
        pad.label(f"A{row}", f"B{row}", cut)
        pad.computed(f"C{row}", wait + f"{start if i == 0 else f'$D{row - 1}'})", "0.0")
        pad.computed(f"D{row}", wait + (f"SPIRIT.FORECASTSTRENGTH({CHARGE};{FORESHOTS};{STILL})" if i == 0
                                        else f"MAX({STOP};MIN({c};{limit}))") + ")", "0.0")
        pad.computed(f"E{row}", blank_if(*empty(d)) + (FORESHOTS if i == 0 else f"IF({d}<{c};SPIRIT.FORECASTVOLUME({CHARGE};{d};"
                     f"{STILL})-SUM($E${first}:$E{row - 1});0)") + ")")
        pad.computed(f"F{row}", blank_if(*empty(d)) + f"IF({d}<{c};SPIRIT.FORECASTALCOHOL({CHARGE};{c};{d};{STILL});0))")
        pad.computed(f"G{row}", blank_if(*empty(d)) + f"$F{row}/{at.charge_alcohol})", "0.0%")
        time = f"SPIRIT.RUNTIME({CHARGE};{{}};{WATTS};{STAGES};{REFLUX};{PRESSURE})".format
        began = f"-{time(c)}" if i else ""
        pad.computed(f"H{row}", blank_if(*empty(d, WATTS, REFLUX)) + f"IF({d}<{c};({time(d)}{began})/24;0))", "hours")
    row = first + 4
    wait = blank_if(*NO_FORECAST, *empty(STOP), sound[0])
    pad.label(f"A{row}", f"B{row}", "cuts_together")
    pad.computed(f"C{row}", wait + f"{start})", "0.0")
    pad.computed(f"D{row}", wait + f"{STOP})", "0.0")
    pad.computed(f"E{row}", wait + f"SPIRIT.FORECASTVOLUME({CHARGE};{STOP};{STILL}))", style="Jarbook result")
    pad.computed(f"F{row}", wait + f"SPIRIT.FORECASTALCOHOL({CHARGE};{start};{STOP};{STILL}))", style="Jarbook result")
    pad.computed(f"G{row}", wait + f"$F{row}/{at.charge_alcohol})", "0.0%")
    pad.computed(f"H{row}", f'IF(ISNUMBER({at.running_hours});{at.running_hours}/24;"")', "hours")
    for row in range(first, first + 5 + L.FIGURES):
        pad.sheet.heights[row] = 4.2   # with every fold open but the wash the page still is one


def still_to_come(pad):
    """From the jars of a run in progress: the still's own stages, and what the boiler has left."""
    pad.band(L.CHART, "chart")
    waits = [f"{at.jars_ready}=0", *empty(at.charge_volume, PRESSURE, FIRST)]
    volumes, strengths = L.jars(L.VOLUME), L.jars(L.STRENGTH)
    lists = f"{at.charge_volume}*1000;{at.charge_strength};{volumes};{strengths}"
    fitted = f"IF(ISNUMBER({at.fitted_stages});{at.fitted_stages};{STAGES})"
    still = f"{fitted};{PRESSURE}"
    more = f"SUM({L.jars(L.ALCOHOL)})>=N({at.charge_alcohol})*1000"  # then no residue can be worked out
    pad.line(L.COME, "fitted_stages", "", formula=blank_if(*waits, f"{at.jars_complete}<3", more) +
             f'IFERROR(SPIRIT.STAGES({lists};{PRESSURE});""))')
    # Standard uncertainty (k = 1); what one alcoholometer does to all jars, and what the charge leaves open
    pad.aside(L.names["stages_uncertainty"], blank_if(f"NOT(ISNUMBER({at.fitted_stages}))", *empty(at.held_common, at.charge_tolerance)) +
              f'IFERROR(SPIRIT.STAGESUNCERTAINTY({lists};{at.held_common};{at.charge_tolerance};{PRESSURE});""))', "0.000")
    pad.line(L.COME + 1, "residue_volume", "litre20", formula=blank_if(*waits, more) +
             f"IFERROR(SPIRIT.VOLUMEFROMMASS(SPIRIT.MASS({CHARGE})-SPIRIT.MASS(SPIRIT.BLENDVOLUME({volumes};{strengths})/1000;"
             f"SPIRIT.BLENDSTRENGTH({volumes};{strengths}));{at.residue_strength});\"\"))")
    pad.line(L.COME + 2, "residue_strength", "strength", formula=blank_if(*waits, more) + f'IFERROR(SPIRIT.RESIDUESTRENGTH({lists});""))')
    head = L.COME + 3
    pad.sheet.heights[head] = 8.5
    pad.lead(f"A{head}", f"C{head}", T["heading"]["come"])
    pad.heading(f"D{head}", T["heading"]["come_hearts"])
    pad.heading(f"E{head}", T["heading"]["come_stop"])
    # Along this run's own curve, from what has been collected on.
    so_far = f"MAX({L.jars(L.COLLECTED)})"
    now = f"SPIRIT.FORECASTSTRENGTH({CHARGE};{so_far};{still})"
    for column, end, limit in (("P", "hearts", TO), ("Q", "stop", STOP)):
        wait = blank_if(*waits, *empty(STAGES, limit), more)
        hours = f"SPIRIT.RUNTIME({CHARGE};{{0}};{WATTS};{fitted};{REFLUX};{PRESSURE})"
        pad.result(f"come_{end}_volume", wait + f"IF({now}<={limit};0;SPIRIT.FORECASTVOLUME({CHARGE};{limit};{still})-{so_far}))")
        pad.result(f"come_{end}_alcohol", wait + f"IF({now}<={limit};0;SPIRIT.FORECASTALCOHOL({CHARGE};{now};{limit};{still})))")
        name = f"come_{end}_hours"
        pad.aside(L.names[name], blank_if(*waits, *empty(STAGES, WATTS, REFLUX, limit), more) +
                  f"IF({now}<={limit};0;{hours.format(limit)}-{hours.format(now)}))")
        cell = getattr(at, name)
        pad.computed(f"{'D' if end == 'hearts' else 'E'}{L.COME + 6}", f'IF(ISNUMBER({cell});{cell}/24;"")', "hours")
    for i, (key, unit) in enumerate((("come_volume", "litre"), ("come_alcohol", "litre"), ("come_hours", "hours"))):
        pad.label(f"A{L.COME + 4 + i}", f"C{L.COME + 4 + i}", key)
        pad.unit(f"F{L.COME + 4 + i}", f"F{L.COME + 4 + i}", unit)


    row = L.COME + 7
    pad.line(row, "recovered", "percent_charge", blank_if(*empty(at.sum_recovery)) + f"{at.sum_recovery})", "0.0%")
    pad.label(f"A{row + 1}", f"C{row + 1}", "run_hours")
    pad.computed(f"D{row + 1}", f'IF(ISNUMBER({at.sum_hours});{at.sum_hours}/24;"")', "hours")
    pad.unit(f"E{row + 1}", f"F{row + 1}", "hours")
    for i in range(L.CHART_ROWS):
        pad.sheet.heights.setdefault(L.COME + i, 5.2)


def curve(pad):
    """Beside the page: the curve and its range, for the charts."""
    first, last = L.CURVE, L.CURVE_END
    columns = (*L.CURVE_COLUMNS, L.CURVE_LOW, L.CURVE_HIGH, L.CURVE_FITTED)
    for column, text in zip(columns, T["beside"]["curve_heads"]):
        pad.aside_heading(f"{column}{first - 1}", text)
    left = L.CURVE_COLUMNS[0]
    x = fixed(left, first, last)
    wait = blank_if(*NO_FORECAST, *empty(STOP), f"{STOP}>={FIRST}")
    arrays = (
        (L.CURVE_COLUMNS, wait + f"SPIRIT.FORECASTTABLE({CHARGE};{STOP};{L.CURVE_ROWS};{STILL}))"),
        ((L.CURVE_LOW,), blank_if(*empty(f"${left}${first}")) + f"SPIRIT.FORECASTSTRENGTH({CHARGE};{x};{LOW};{PRESSURE}))"),
        ((L.CURVE_HIGH,), blank_if(*empty(f"${left}${first}")) + f"SPIRIT.FORECASTSTRENGTH({CHARGE};{x};{HIGH};{PRESSURE}))"),
        ((L.CURVE_FITTED,), blank_if(f"NOT(ISNUMBER({at.fitted_stages}))", *empty(f"${left}${first}")) +
         f"SPIRIT.FORECASTSTRENGTH({CHARGE};{x};{at.fitted_stages};{PRESSURE}))"),
        *(((column,), blank_if(*empty(f"${left}${first}")) + f"{fixed(L.CURVE_LOW, first, last)}+{part}*"
           f"({fixed(L.CURVE_HIGH, first, last)}-{fixed(L.CURVE_LOW, first, last)}))")
          for column, part in zip(L.CURVE_BETWEEN, ("1/6", "1/3", "1/2", "2/3", "5/6"))))
    for over, formula in arrays:
        for row in range(first, last + 1):
            for column in over:
                corner = (row, column) == (first, over[0])
                pad.aside(f"{column}{row}", formula if corner else None, "0.00",
                          array=f"{over[-1]}{last}" if corner else None)
    for i, key in enumerate(("forecast", "range", "fitted")):
        pad.sheet.put(f"{left}{last + 1 + i}", T["chart"][key], style="Jarbook unit")


def _curves():
    first, last = L.CURVE, L.CURVE_END
    x = f"{L.CURVE_COLUMNS[0]}{first}:{L.CURVE_COLUMNS[0]}{last}"

    def along(column, label, **look):
        return Series(f"{column}{first}:{column}{last}", f"{L.CURVE_COLUMNS[0]}{last + label}", x, **look)

    # The range is shaded by broad pale lines side by side: a chart of points has no other way. What
    # comes first lies on top.
    shade = [along(column, 2, colour="#d9dee2", line=1.4, quiet=i > 0)
             for i, column in enumerate((*L.CURVE_BETWEEN, L.CURVE_LOW, L.CURVE_HIGH))]
    return ([along(L.CURVE_COLUMNS[1], 1, colour="#3d5361", line=0.5)] + shade,
            along(L.CURVE_FITTED, 3, colour="#1f2933", line=0.3, dash="Dash"))


def _axes():
    return (Axis(T["chart"]["x"], minimum=0), Axis(T["chart"]["y"], minimum=0, maximum=100, step=20))


def _chart(pad, name, title, about, series, first_column, row, rows):
    sheet = pad.sheet
    columns = range("ABCDEFGHIJKLMN".index(first_column), 14)
    height = sum(sheet.heights.get(r, sheet.default_height) for r in range(row, row + rows))
    picture = sheet.book.add_chart(Chart(
        name, "scatter", T["chart"][title], series, *_axes(), sum(sheet.widths[c] for c in columns) - 3,
        height - 2, description=T["chart"][about], legend="bottom"))
    picture.end = f"O{row + rows}"
    sheet.put(f"{first_column}{row}", drawing=picture)


def charts(pad):
    """Before: the curve and its range. At the still: the jars over both, each cut with its own mark."""
    curves, fitted = _curves()
    _chart(pad, "Forecast chart", "title_before", "about_before", curves, "I", L.PLAN - 1, 6 + L.FIGURES)
    middle = f"{L.MIDDLE}{L.JAR}:{L.MIDDLE}{L.JAR_END}"

    def marks(column, symbol, size=2.6, colour="#1f2933", quiet=False):
        return Series(f"{column}{L.JAR}:{column}{L.JAR_END}", f"{column}{L.JAR_TOP - 1}", middle, symbol,
                      colour, size=size, quiet=quiet)

    _chart(pad, "Run chart", "title_still", "about_still", [
        marks(L.FORESHOTS, "x"), marks(L.HEADS, "arrow-up", 3), marks(L.HEARTS, "square"),
        marks(L.TAILS, "arrow-down", 3), marks(L.UNCUT, "circle", 1.8, "#ffffff", quiet=True),  # hollow
        marks(L.UNCUT, "circle", 3, "#6b7680"), fitted, *_curves()[0]],
        "G", L.COME, L.CHART_ROWS)


def fill(pad):
    plan(pad)
    figures(pad)
    still_to_come(pad)
    curve(pad)
    charts(pad)
