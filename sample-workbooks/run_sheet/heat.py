"""At the still: the heat that really reached the boiler, from the clock of its heating up and from the jars'. Next
time it is the better figure for Heat into the boiler than the heater's rating."""
from . import layout as L, read
from .forecast import CHARGE, FIRST, PRESSURE, REFLUX, STAGES
from .layout import at
from .pad import blank_if, empty

LEAST = 10      # min: a shorter time tells nothing


def fill(pad):
    on, drip, start = (read.used(name) for name in ("heat_on", "first_drip", "start_temperature"))
    minutes = f"MOD(ROUND(1440*({drip}-{on});0);1440)"
    pad.line(read.row_of("heat_heating"), "heat_heating", "watt_next", fmt="0",
             formula=blank_if(*empty(on, drip, start, at.charge_volume)) + f'IF({minutes}<{LEAST};"";'
             f"60000*SPIRIT.HEATUPTIME({CHARGE};{start};1000)/{minutes}))")
    # Along this run's own curve, to what has been collected when the last jar was changed.
    stages = f"IF(ISNUMBER({at.fitted_stages});{at.fitted_stages};{STAGES})"
    so_far, passed = f"MAX({L.jars(L.COLLECTED)})", f"MAX({L.jars(L.SINCE)})"
    now = f"SPIRIT.FORECASTSTRENGTH({CHARGE};{so_far};{stages};{PRESSURE})"
    last = f"COUNTIFS({L.jars(L.COLLECTED)};{so_far};{L.jars(L.SINCE)};{passed})=0"
    pad.line(read.row_of("heat_running"), "heat_running", "watt_next", fmt="0",
             formula=blank_if(f"{at.jars_ready}=0", *empty(drip, at.charge_volume, FIRST, STAGES, PRESSURE, REFLUX),
                              f"COUNTIF({L.jars(L.BAD)};1)>0", last, f"{passed}<{LEAST}", f"N({at.sum_recovery})>=1") +
             f'IFERROR(60000*SPIRIT.RUNTIME({CHARGE};{now};1000;{stages};{REFLUX};{PRESSURE})/{passed};""))')
