"""Before: what the run will give, cut by cut, its curve and the range of it; at the still: what is still
to come, by the stages of this run as soon as three jars tell them."""
from odf.chart import Axis, Chart, Series

from . import layout as L, read
from .layout import at, fixed
from .pad import blank_if, empty
from .texts import T, say

CHARGE = f"{at.charge_volume};{at.charge_strength}"
STAGES, PRESSURE, REFLUX, WATTS = (read.used(name) for name in ("stages", "pressure", "reflux", "watts"))
STOP, FORESHOTS, FROM, TO = (read.used(name) for name in ("stop_strength", "foreshots_volume", "hearts_from", "hearts_to"))
STILL = f"{STAGES};{PRESSURE}"
# The first strength, or a blank where it shows an error: the rest of the forecast then waits.
FIRST = f"$P${L.FIGURE}"
NO_FORECAST = empty(at.charge_volume, STAGES, PRESSURE, FIRST)
# While the still is unknown: working pots have 1.0 to 1.4 stages (one published table, and runs).
UNKNOWN = ("0.15", "0.25")
MODEL = 1       # % vol by which published equilibria differ: of the strength running
LOW, HIGH, SHIFT = at.stages_low, at.stages_high, at.forecast_shift
STRONGER = f"{at.charge_more};{at.charge_high}"


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


def basis(pad):
    """Beside the band: what the range of the forecast comes from; gives it in words for the band. Half-widths that hold about 19
    times in 20: of rectangular tolerances 2 / root 3, of the others two standard uncertainties."""
    waits = empty(STAGES, PRESSURE)
    width = read.used("stages_range")
    for name, sign, by in (("stages_low", "-", UNKNOWN[0]), ("stages_high", "+", UNKNOWN[1])):
        pad.aside(L.names[name], blank_if(*waits) + f'MEDIAN(1;10;{STAGES}{sign}IF({width}="";{by};{width})))', "0.000")
    # Volume and strength of the charge, both off so far that its alcohol is off as by the two in squares.
    volume, strength = f"{read.used('held_charge_volume')}/100", f"{at.charge_tolerance}/{at.charge_strength}"
    part = f"2/SQRT(3)*SQRT(({volume})^2+({strength})^2)/({volume}+{strength})"
    wait = blank_if(*empty(at.charge_strength, at.charge_tolerance, read.used("held_charge_volume")))
    pad.aside(L.names["charge_more"], wait + f"{at.charge_volume}*(1+{part}*{volume}))", "0.000")
    pad.aside(L.names["charge_high"], wait + f"MIN(97;{at.charge_strength}+{part}*{at.charge_tolerance}))", "0.00")
    # The model, and the instrument by which a strength is told; at the end of a run no more than half of what runs
    pad.aside(L.names["forecast_shift"], blank_if(*empty(at.held_common, read.used("reading_scatter"))) +
              f"SQRT({MODEL}+4/3*({at.held_common}^2+{read.used('reading_scatter')}^2)))")
    pad.aside(L.names["hours_per_litre"], blank_if(*empty(at.running_hours, SHIFT)) +
              f"(SPIRIT.RUNTIME({CHARGE};{_lower(STOP)};{WATTS};{STAGES};{REFLUX};{PRESSURE})-{at.running_hours})/"
              f"(SPIRIT.FORECASTVOLUME({CHARGE};{_lower(STOP)};{STILL})-SPIRIT.FORECASTVOLUME({CHARGE};{STOP};{STILL})))", "0.000")
    fixed_text = "FIXED({};{};1)".format
    known = read.stages_known()
    typed = f'NOT(IFERROR({read.typed("stages")}="";TRUE()))'
    source = (f"IF({typed};IF({known};{say('stages_typed_known', known=fixed_text(read.used('known_stages'), 2))};{say('stages_typed')});"
              f"IF({known};{say('stages_known')};{say('stages_usual')}))")
    words = say("forecast_basis", stages=fixed_text(STAGES, 2), low=fixed_text(LOW, 2), high=fixed_text(HIGH, 2), source=source,
                charge=fixed_text(f"(2*{at.charge_tolerance}/SQRT(3))", 1), volume=fixed_text(f"(2*{read.used('held_charge_volume')}/SQRT(3))", 1))
    return blank_if(*NO_FORECAST, *empty(at.charge_high, LOW)) + words + ")"


def _lower(limit):
    """A strength that is told too high by the shift; near the end of a stripping run no model is off by as much."""
    return f"MAX({limit}/2;{limit}-{SHIFT})"


def off_by(value, figure, limits=1, low=LOW, high=HIGH, stages=STAGES, plus=""):
    """How far a figure may be off: by the stages, the charge, and the strengths at which it ends, in squares. `figure`
    gives it for a charge, stages, and as many limits; what is never shown of it is none of it."""
    plain = limits if isinstance(limits, tuple) else (limits,)
    shifted = tuple(_lower(limit) for limit in plain)
    least, most, charge, model = (figure(*case) for case in (
        (CHARGE, low, plain), (CHARGE, high, plain), (STRONGER, stages, plain), (CHARGE, stages, shifted)))
    return (f"SQRT(MAX(ABS({least}-{value});ABS({most}-{value}))^2+({charge}-{value})^2+({model}{plus}-{value})^2)")


def _litres(charge, stages, limits):
    """Between two strengths, or up to one."""
    litres = [f"IFERROR(SPIRIT.FORECASTVOLUME({charge};{limit};{stages};{PRESSURE});0)" for limit in limits]
    return f"({litres[-1]}-{litres[0]})" if len(litres) > 1 else litres[0]


def _alcohol(charge, stages, limits):
    start = limits[0] if len(limits) > 1 else "100"
    return f"IFERROR(SPIRIT.FORECASTALCOHOL({charge};{start};{limits[-1]};{stages};{PRESSURE});0)"


def ranges(pad):
    """How far hearts and all of it may be off."""
    hearts, together = L.PLAN + 2, L.PLAN + 4
    for row, key, at_row, limits in ((L.PLAN + 5, "hearts_range", hearts, (f"$C{hearts}", f"$D{hearts}")),
                                     (L.PLAN + 6, "run_range", together, (STOP,))):
        volume, alcohol = f"$E{at_row}", f"$F{at_row}"
        wait = blank_if(*empty(volume, alcohol, SHIFT, at.charge_high, LOW), f"N({volume})=0")
        pad.label(f"A{row}", f"B{row}", key)
        pad.computed(f"E{row}", wait + off_by(volume, _litres, limits) + ")", "±0.00")
        pad.computed(f"F{row}", wait + off_by(alcohol, _alcohol, limits, plus=f"+{SHIFT}/100*{volume}") + ")", "±0.00")
        hours = f"$H{at_row}/{volume}" if at_row == hearts else f"{at.hours_per_litre}/24"
        pad.computed(f"H{row}", blank_if(*empty(f"$E{row}", f"$H{at_row}", at.hours_per_litre)) + f"$E{row}*{hours})", "hours")
        for column in "CDG" if at_row == hearts else "DG":
            pad.sheet.put(f"{column}{row}", style="Jarbook label")

    def first(charge, stages, _):
        return f"SPIRIT.FORECASTSTRENGTH({charge};0;{stages};{PRESSURE})"

    pad.result("first_strength_range", blank_if(*empty(FIRST, SHIFT, at.charge_high, LOW)) +
               f"SQRT(MAX(ABS({first(CHARGE, LOW, 0)}-{FIRST});ABS({first(CHARGE, HIGH, 0)}-{FIRST}))^2+"
               f"({first(STRONGER, STAGES, 0)}-{FIRST})^2+{SHIFT}^2))", "±0.0")


def plan(pad):
    """What each cut will hold, by the plan."""
    pad.band(L.FORECAST, "forecast", formula=basis(pad))
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
        pad.computed(f"G{row}", blank_if(*empty(d)) + f"$F{row}/{at.charge_alcohol})", "0.0 %", cell={"style:shrink-to-fit": "true"})
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
    pad.computed(f"G{row}", wait + f"$F{row}/{at.charge_alcohol})", "0.0 %", cell={"style:shrink-to-fit": "true"})
    pad.computed(f"H{row}", f'IF(ISNUMBER({at.running_hours});{at.running_hours}/24;"")', "hours")
    ranges(pad)
    for row in range(first, first + 7 + L.FIGURES):
        pad.sheet.heights[row] = 4.2   # with every fold open but the wash the page still is one


def still_to_come(pad):
    """From the jars of a run in progress: the still's own stages, and what the boiler has left."""
    pad.band(L.CHART, "chart")
    waits = [f"{at.jars_ready}=0", *empty(at.charge_volume, PRESSURE, FIRST)]
    volumes, strengths = L.jars(L.VOLUME), L.jars(L.STRENGTH)
    lists = f"{at.charge_volume}*1000;{at.charge_strength};{volumes};{strengths}"
    fitted = at.come_stages
    still = f"{fitted};{PRESSURE}"
    more = f"SUM({L.jars(L.ALCOHOL)})>=N({at.charge_alcohol})*1000"  # then no residue can be worked out
    pad.line(L.COME, "fitted_stages", "", formula=blank_if(*waits, f"{at.jars_complete}<3", more) +
             f'IFERROR(SPIRIT.STAGES({lists};{PRESSURE});""))')
    # Standard uncertainty (k = 1); what one alcoholometer does to all jars, and what the charge leaves open
    pad.aside(L.names["stages_uncertainty"], blank_if(f"NOT(ISNUMBER({at.fitted_stages}))", *empty(at.held_common, at.charge_tolerance)) +
              f'IFERROR(SPIRIT.STAGESUNCERTAINTY({lists};{at.held_common};{at.charge_tolerance};{PRESSURE});""))', "0.000")
    _what_the_jars_add(pad, blank_if(*waits, *empty(STAGES, LOW, HIGH), more))
    pad.line(L.COME + 1, "residue_volume", "litre20", formula=blank_if(*waits, more) +
             f"IFERROR(SPIRIT.VOLUMEFROMMASS(SPIRIT.MASS({CHARGE})-SPIRIT.MASS(SPIRIT.BLENDVOLUME({volumes};{strengths})/1000;"
             f"SPIRIT.BLENDSTRENGTH({volumes};{strengths}));{at.residue_strength});\"\"))")
    pad.line(L.COME + 2, "residue_strength", "strength", formula=blank_if(*waits, more) + f'IFERROR(SPIRIT.RESIDUESTRENGTH({lists});""))')
    head = L.COME + 3
    pad.sheet.heights[head] = 8.5
    pad.lead(f"A{head}", f"C{head}", T["heading"]["come"])
    pad.heading(f"D{head}", T["heading"]["come_hearts"])
    pad.heading(f"E{head}", T["heading"]["come_stop"])
    # From the third jar on the clocks say what heat really reaches the boiler.
    pad.aside(L.names["come_watts"], f"IF(AND({at.jars_complete}>=3;ISNUMBER({at.heat_running}));{at.heat_running};{WATTS})", "0")
    # Along this run's own curve, from what has been collected on.
    so_far = f"MAX({L.jars(L.COLLECTED)})"
    now = f"SPIRIT.FORECASTSTRENGTH({CHARGE};{so_far};{still})"
    for column, end, limit in (("P", "hearts", TO), ("Q", "stop", STOP)):
        wait = blank_if(*waits, *empty(STAGES, limit), more)
        hours = f"SPIRIT.RUNTIME({CHARGE};{{0}};{at.come_watts};{fitted};{REFLUX};{PRESSURE})"
        pad.result(f"come_{end}_volume", wait + f"IF({now}<={limit};0;SPIRIT.FORECASTVOLUME({CHARGE};{limit};{still})-{so_far}))")
        pad.result(f"come_{end}_alcohol", wait + f"IF({now}<={limit};0;SPIRIT.FORECASTALCOHOL({CHARGE};{now};{limit};{still})))")
        cell, range_ = getattr(at, f"come_{end}_volume"), at.come_stages_wide
        pad.result(f"come_{end}_range", blank_if(*empty(cell, SHIFT, at.charge_high, range_), f"N({cell})=0") +
                   off_by(f"({cell}+{so_far})", _litres, (limit,), f"MAX(1;{fitted}-{range_})", f"MIN(10;{fitted}+{range_})", fitted) + ")",
                   "±0.00")
        name = f"come_{end}_hours"
        pad.aside(L.names[name], blank_if(*waits, *empty(STAGES, at.come_watts, REFLUX, limit), more) +
                  f"IF({now}<={limit};0;{hours.format(limit)}-{hours.format(now)}))")
        cell = getattr(at, name)
        column = "D" if end == "hearts" else "E"
        pad.computed(f"{column}{L.COME + 7}", f'IF(ISNUMBER({cell});{cell}/24;"")', "hours")
        litres = f"${column}${L.COME + 4}"
        wide = f"${column}${L.COME + 5}"
        by_litre = (cell, litres) if end == "hearts" else (f"{at.hours_per_litre}*{WATTS}", at.come_watts)
        pad.computed(f"{column}{L.COME + 8}", blank_if(*empty(wide, cell, *(() if end == "hearts" else (at.hours_per_litre, WATTS)))) +
                     f"{wide}*{by_litre[0]}/{by_litre[1]}/24)", "hours")
    for i, (key, unit) in enumerate((("come_volume", "litre"), ("come_range", "litre"), ("come_alcohol", "litre"),
                                     ("come_hours", "hours"), ("come_range", "hours"))):
        pad.label(f"A{L.COME + 4 + i}", f"C{L.COME + 4 + i}", key)
        pad.unit(f"F{L.COME + 4 + i}", f"F{L.COME + 4 + i}", unit)


    row = L.COME + 9
    pad.line(row, "recovered", "percent_charge", blank_if(*empty(at.sum_recovery)) + f"{at.sum_recovery})", "0.0 %")
    pad.label(f"A{row + 1}", f"C{row + 1}", "run_hours")
    pad.computed(f"D{row + 1}", f'IF(ISNUMBER({at.sum_hours});{at.sum_hours}/24;"")', "hours")
    pad.unit(f"E{row + 1}", f"F{row + 1}", "hours")
    for i in range(L.CHART_ROWS):
        pad.sheet.heights.setdefault(L.COME + i, 5.2)


def _what_the_jars_add(pad, wait):
    """Stages for what is still to come: what was known before and what the jars say, each by its own uncertainty; the
    jars alone where the two do not agree (a run unlike the others)."""
    fitted, doubt = at.fitted_stages, at.stages_uncertainty
    before = f"(({HIGH}-{LOW})/4)"
    both = f"ISNUMBER({fitted})*ISNUMBER({doubt})"
    apart = f"ABS(N({fitted})-{STAGES})>2*SQRT(N({doubt})^2+{before}^2)"
    weights = f"({fitted}/{doubt}^2+{STAGES}/{before}^2)/(1/{doubt}^2+1/{before}^2)"
    pad.aside(L.names["come_stages"], wait + f"IF({both};IF({apart};{fitted};{weights});{STAGES}))", "0.000")
    pad.aside(L.names["come_stages_range"], wait + f"2*IF({both};IF({apart};{doubt};1/SQRT(1/{doubt}^2+1/{before}^2));{before}))", "0.000")
    # For litres also the stages by which the model's 1 % vol can be mistaken for others: its first strength tells.
    steeper = f"(SPIRIT.FORECASTSTRENGTH({CHARGE};0;{at.come_stages}+0.1;{PRESSURE})-SPIRIT.FORECASTSTRENGTH({CHARGE};0;{at.come_stages};{PRESSURE}))"
    pad.aside(L.names["come_stages_wide"], blank_if(*empty(at.come_stages, at.come_stages_range)) +
              f"SQRT({at.come_stages_range}^2+({MODEL}*0.1/{steeper})^2))", "0.000")


def _along(charge, x, stages):
    """Strengths running, for a column of litres."""
    return f"SPIRIT.FORECASTSTRENGTHCOLUMN({charge};{x};{stages};{PRESSURE})"


def _band(columns, x, running, stages, low, high, waits):
    """Between what a jar's reading lies about 19 times in 20: stages, charge, and model with instrument, in squares."""
    wait = blank_if(*waits, *empty(x.partition(":")[0], SHIFT, at.charge_high))
    rest = f"({_along(STRONGER, x, stages)}-{running})^2+{SHIFT}^2"
    # More stages are stronger at first and weaker near the end, where the alcohol is gone sooner.
    ends = (_along(CHARGE, x, low), _along(CHARGE, x, high))
    for column, sign, farther in zip(columns, "-+", "<>"):
        yield (column,), wait + f"{running}{sign}SQRT((IF({ends[0]}{farther}{ends[1]};{ends[0]};{ends[1]})-{running})^2+{rest}))"


def curve(pad):
    """Beside the page: the curve and its range, for the charts."""
    first, last = L.CURVE, L.CURVE_END
    columns = (*L.CURVE_COLUMNS, L.CURVE_LOW, L.CURVE_HIGH, L.CURVE_FITTED)
    for column, text in zip((L.CURVE_FIT_LOW, L.CURVE_FIT_HIGH), T["beside"]["curve_fit_heads"]):
        pad.aside_heading(f"{column}{first - 1}", text)
    for column, text in zip(columns, T["beside"]["curve_heads"]):
        pad.aside_heading(f"{column}{first - 1}", text)
    left = L.CURVE_COLUMNS[0]
    x = fixed(left, first, last)
    running = fixed(L.CURVE_COLUMNS[1], first, last)
    wait = blank_if(*NO_FORECAST, *empty(STOP), f"{STOP}>={FIRST}")
    arrays = (
        (L.CURVE_COLUMNS, wait + f"SPIRIT.FORECASTTABLE({CHARGE};{STOP};{L.CURVE_ROWS};{STILL}))"),
        *_band((L.CURVE_LOW, L.CURVE_HIGH), x, running, STAGES, LOW, HIGH, empty(LOW, HIGH)),
        *_band((L.CURVE_FIT_LOW, L.CURVE_FIT_HIGH), x, _along(CHARGE, x, at.come_stages), at.come_stages,
               f"MAX(1;{at.come_stages}-{at.come_stages_range})", f"MIN(10;{at.come_stages}+{at.come_stages_range})",
               [f"NOT(ISNUMBER({at.fitted_stages}))", *empty(at.come_stages)]),
        ((L.CURVE_FITTED,), blank_if(f"NOT(ISNUMBER({at.fitted_stages}))", *empty(f"${left}${first}")) +
         f"SPIRIT.FORECASTSTRENGTH({CHARGE};{x};{at.fitted_stages};{PRESSURE}))"),
        *(((column,), blank_if(*empty(f"${L.CURVE_LOW}${first}")) + f"{fixed(L.CURVE_LOW, first, last)}+{part}*"
           f"({fixed(L.CURVE_HIGH, first, last)}-{fixed(L.CURVE_LOW, first, last)}))")
          for column, part in zip(L.CURVE_BETWEEN, ("1/6", "1/3", "1/2", "2/3", "5/6"))))
    for over, formula in arrays:
        for row in range(first, last + 1):
            for column in over:
                corner = (row, column) == (first, over[0])
                pad.aside(f"{column}{row}", formula if corner else None, "0.00",
                          array=f"{over[-1]}{last}" if corner else None)
    for i, key in enumerate(("forecast", "range", "fitted", "fitted_range")):
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
            [along(L.CURVE_FITTED, 3, colour="#1f2933", line=0.3, dash="Dash")] +
            [along(column, 4, colour="#1f2933", line=0.12, quiet=i > 0)
             for i, column in enumerate((L.CURVE_FIT_LOW, L.CURVE_FIT_HIGH))])


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
    _chart(pad, "Forecast chart", "title_before", "about_before", curves, "I", L.PLAN - 1, 8 + L.FIGURES)
    middle = f"{L.MIDDLE}{L.JAR}:{L.MIDDLE}{L.JAR_END}"

    def marks(column, symbol, size=2.6, colour="#1f2933", quiet=False):
        return Series(f"{column}{L.JAR}:{column}{L.JAR_END}", f"{column}{L.JAR_HEAD}", middle, symbol,
                      colour, size=size, quiet=quiet)

    _chart(pad, "Run chart", "title_still", "about_still", [
        marks(L.FORESHOTS, "x"), marks(L.HEADS, "arrow-up", 3), marks(L.HEARTS, "square"),
        marks(L.TAILS, "arrow-down", 3), marks(L.UNCUT, "circle", 1.8, "#ffffff", quiet=True),  # hollow
        marks(L.UNCUT, "circle", 3, "#6b7680"), *fitted, *curves],
        "G", L.COME, L.CHART_ROWS)


def fill(pad):
    plan(pad)
    figures(pad)
    still_to_come(pad)
    curve(pad)
    charts(pad)
