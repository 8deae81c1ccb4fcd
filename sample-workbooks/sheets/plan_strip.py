"""Where to stop a stripping run: what a further litre of pure alcohol costs in heat, as the strength falls."""
from odf.chart import Axis, Chart, Series

from common.texts import texts
from sheets import plan_cycles as cycles
from sheets.plan_boxes import used

BAND = cycles.CHART + cycles.CHART_ROWS
HEAD, FIRST = BAND + 1, BAND + 2
STOPS = (40, 30, 25, 20, 15, 12, 10, 8, 6, 5, 4, 3, 2, 1)
LAST = FIRST + len(STOPS) - 1
COLUMNS = dict(zip(("stop", "stop_volume", "stop_strength", "stop_share", "stop_energy", "stop_average", "stop_further"), "JKLMNOP"))
FORMATS = {"stop": "0", "stop_volume": "0.00", "stop_strength": "0.0", "stop_share": "0.0 %", "stop_energy": "0.00",
           "stop_average": "0.00", "stop_further": "0.00"}
# Beside the page: litres of pure alcohol, kWh of the run alone, middle of the strengths, the stop that is set
ALCOHOL, RUNNING, MIDDLE, CHOSEN_X, CHOSEN_Y = "V", "W", "X", "T", "U"
CHART, CHART_ROWS = LAST + 3, 16
DRAWN = STOPS.index(4)      # the chart ends there: below, a further litre dwarfs all others



def _row(row, case, singles):
    """(column, format, formula) of one strength."""
    strip = f"{singles['strip_charge']};{used('wash_strength')}"
    stages, stop = case.figure("stages"), f"$J${row}"
    below = f'OR(N({singles["ready"]})=0;{singles["strips"]}=0;{stop}>=N({singles["strip_first"]}))'
    alcohol, running = f"${ALCOHOL}${row}", f"${RUNNING}${row}"
    first = row == FIRST

    def there(formula):
        return f'IF({alcohol}="";"";{formula})'

    before = [("0" if first else f"N(${column}${row - 1})") for column in (ALCOHOL, RUNNING)]
    top = singles["strip_first"] if first else f'IF(${ALCOHOL}${row - 1}="";{singles["strip_first"]};$J${row - 1})'
    yield ALCOHOL, "0.000", f'IF({below};"";SPIRIT.FORECASTALCOHOL({strip};100;{stop};{stages}))'
    yield RUNNING, "0.000", there(f"SPIRIT.RUNTIME({strip};{stop};1000;{stages})")
    yield MIDDLE, "0.0", there(f"({stop}+{top})/2")
    page = {
        "stop_volume": f"SPIRIT.FORECASTVOLUME({strip};{stop};{stages})",
        "stop_strength": f"100*{alcohol}/$K${row}",
        "stop_share": f"100*{alcohol}/({singles['strip_charge']}*{used('wash_strength')})",
        "stop_energy": f"{singles['strip_heating']}+{running}",
        "stop_average": f"$N${row}/{alcohol}",
        "stop_further": f"({running}-{before[1]})/({alcohol}-{before[0]})"}
    for key, formula in page.items():
        yield COLUMNS[key], FORMATS[key], there(formula)


def fill(sheet, singles):
    words = texts("season_plan")
    case = cycles.Case("nominal")
    sheet.heights[HEAD] = 12
    for key, column in COLUMNS.items():
        sheet.put(f"{column}{HEAD}", words["heading"][key], style="Jarbook heading")
    for i, strength in enumerate(STOPS):
        row = FIRST + i
        sheet.put(f"J{row}", strength, style="Jarbook number")
        for column, fmt, formula in _row(row, case, singles):
            page = column in COLUMNS.values()
            sheet.put(f"{column}{row}", formula=formula, fmt=fmt, style="Jarbook computed" if page else "Jarbook aside")
    # The stop that is set, for the chart: a line from bottom to top at its strength.
    ready = f'OR(N({singles["ready"]})=0;{singles["strips"]}=0)'
    column = f"${COLUMNS['stop_further']}$"
    sheet.put(f"{CHOSEN_X}{HEAD}", words["chart"]["further"], style="Jarbook unit")
    sheet.put(f"{CHOSEN_Y}{HEAD}", words["chart"]["average"], style="Jarbook unit")
    sheet.put(f"{MIDDLE}{HEAD}", words["chart"]["chosen"], style="Jarbook unit")
    for i, height in enumerate(("0", f"MAX({column}{FIRST}:{column}{FIRST + DRAWN})")):
        sheet.put(f"{CHOSEN_X}{FIRST + i}", formula=f'IF({ready};"";{used("strip_stop")})', style="Jarbook aside")
        sheet.put(f"{CHOSEN_Y}{FIRST + i}", formula=f'IF({ready};"";{height})', style="Jarbook aside")
    sheet.put(f"J{LAST + 1}", words["text"]["stop"], style="Jarbook note", to=f"R{LAST + 1}")
    sheet.heights[LAST + 1] = 18
    _chart(sheet)


def _chart(sheet):
    words = texts("season_plan")["chart"]

    def rows(column):
        return f"{column}{FIRST}:{column}{FIRST + DRAWN}"

    series = [Series(rows(COLUMNS["stop_further"]), f"{CHOSEN_X}{HEAD}", rows(MIDDLE), symbol="square", colour="#1f2933",
                     line=0.4, size=2.2),
              Series(rows(COLUMNS["stop_average"]), f"{CHOSEN_Y}{HEAD}", rows("J"), symbol="diamond", colour="#5b6670",
                     line=0.3, size=2.2, dash="Dash"),
              Series(f"{CHOSEN_Y}{FIRST}:{CHOSEN_Y}{FIRST + 1}", f"{MIDDLE}{HEAD}", f"{CHOSEN_X}{FIRST}:{CHOSEN_X}{FIRST + 1}",
                     colour="#8c1d18", line=0.3)]
    chart = sheet.book.add_chart(Chart(
        "Stripping chart", "scatter", words["stop_title"], series, Axis(words["stop_x"], minimum=0),
        Axis(words["stop_y"], minimum=0), 236, CHART_ROWS * sheet.default_height - 2, description=words["stop_about"],
        legend="bottom"))
    sheet.put(f"A{CHART}", drawing=chart)
