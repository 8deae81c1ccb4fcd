"""Where everything stands on a run sheet. The addresses are a contract: the Run book, the menu and
the tests read these cells, and each is also a name of the sheet (`names` below)."""

# Rows
TITLE, CAUTION = 1, 2
HEAD = 4                      # section heads of the opening block
LINE, LINES = HEAD + 1, 11    # its lines
CHARGE = LINE + LINES + 1     # section head; column heads in the next row, then the lots
LOT, LOTS = CHARGE + 2, 6
LOT_END = LOT + LOTS - 1
LOTS_ROW, WATER_ROW, CHARGE_ROW = LOT_END + 1, LOT_END + 2, LOT_END + 3
FORECAST = CHARGE_ROW + 2
PLAN, PLAN_LINES = FORECAST + 1, 8   # the forecast's inputs and figures
CURVE_HEAD = PLAN + PLAN_LINES
CURVE, CURVE_ROWS = CURVE_HEAD + 1, 11
CURVE_END = CURVE + CURVE_ROWS - 1
JARS = CURVE_END + 1          # section head, first row of the second page
JAR_HEAD = JARS + 1
JAR, JAR_COUNT = JARS + 2, 30
JAR_END = JAR + JAR_COUNT - 1
AFTER = JAR_END + 2           # section heads of cuts, blend and balance
AFTER_HEAD = AFTER + 1
AFTER_LINE, AFTER_LINES = AFTER + 2, 9
LAST = AFTER_LINE + AFTER_LINES - 1
LAST_COLUMN = "T"

# Columns of the jar table
(NUMBER, CLOCK, AMOUNT, READING, TEMPERATURE, STRENGTH, VOLUME, ALCOHOL, COLLECTED, ALCOHOL_SUM,
 BOILER, EXPECTED, DIFFERENCE, SUGGESTED, CUT, KEEP, TAKE, CHECK, NOTE) = "ABCDEFGHIJKLMNOPQRS"
# Beside the printed page: what the chart and the blend need
STATE, MIDDLE, UNCUT, FORESHOTS, HEADS, HEARTS, TAILS, WEIGHT, PLANNED, USED, NAMED, TOLERANCE, SINCE = (
    "V", "W", "X", "Y", "Z", "AA", "AB", "AC", "AD", "AE", "AF",
    "AG", "AH")

CUT_NAMES = ("foreshots", "heads", "hearts", "tails")


def _column(column, first, words):
    return {word: f"{column}{first + i}" for i, word in enumerate(words) if word}


names = (
    # What the run is
    {"run_title": "D1", "run_date": "I1", "run_kind": "L1", "run_still": "P1"}
    | _column("D", LINE, ("run_material", "run_lot", "jar_unit", "first_drip", "run_remarks"))
    # The still and the instruments
    | _column("L", LINE, ("boiler_volume", "watts", "stages", "reflux", "pressure",
                          "start_temperature", "reading_tolerance", "reading_scatter",
                          "temperature_tolerance", "volume_tolerance"))
    # What there is to look at
    | {"charge_check": f"N{LINE}", "jars_check": f"N{LINE + 5}", "cuts_check": f"N{LINE + 9}"}
    # The run in short: label, value, unit
    | {"run_summary": f"R{LINE}:T{LINE + LINES - 1}"}
    | _column("S", LINE, ("sum_charge_volume", "sum_charge_strength", "sum_charge_alcohol",
                          "sum_collected_alcohol", "sum_recovery", "sum_hearts_share", "sum_stages",
                          "sum_hours", "sum_product_volume", "sum_product_strength",
                          "sum_unaccounted"))
    # The charge
    | {"wished_charge": f"I{WATER_ROW}", "lots_volume": f"K{LOTS_ROW}",
       "lots_strength": f"J{LOTS_ROW}", "lots_alcohol": f"L{LOTS_ROW}",
       "charge_water": f"K{WATER_ROW}", "charge_water_mass": f"L{WATER_ROW}",
       "charge_volume": f"K{CHARGE_ROW}", "charge_strength": f"J{CHARGE_ROW}",
       "charge_alcohol": f"L{CHARGE_ROW}"}
    # Beside the page: how many jars are whole, how many lack something, 1 if all below can be done
    | {"jars_complete": f"V{JARS}", "jars_incomplete": f"W{JARS}", "jars_ready": f"X{JARS}",
       "cuts_chosen": f"Y{JARS}", "queries": f"Z{JARS}",
       "lots_incomplete": f"V{LOTS_ROW}"}
    # The forecast
    | _column("E", PLAN, ("stop_strength", "foreshots_volume", "hearts_from", "hearts_to",
                          "first_strength", "first_boiling", "heating_hours", "running_hours"))
    | _column("R", PLAN, ("fitted_stages", "residue_volume", "residue_strength"))
    # Cuts, as chosen: volume, strength, pure alcohol, share (columns C to F)
    | {f"cut_{cut}_share": f"F{AFTER_LINE + i}" for i, cut in enumerate(CUT_NAMES)}
    | {f"cut_{cut}_volume": f"C{AFTER_LINE + i}" for i, cut in enumerate(CUT_NAMES)}
    | {"residue_measured_volume": f"D{AFTER_LINE + 6}", "residue_reading": f"D{AFTER_LINE + 7}",
       "residue_temperature": f"D{AFTER_LINE + 8}", "residue_known": f"H{AFTER_LINE + 7}",
       "residue_measured_strength": f"H{AFTER_LINE + 8}"}
    # Blend and bottle
    | _column("L", AFTER_LINE, ("bottling_strength", "wished_volume", "whole_jars", "kept_volume",
                                "kept_strength", "product_water", "product_water_mass",
                                "product_volume", "product_strength"))
    | _column("P", AFTER_LINE, ("bottle_size", "bottles", "bottles_rest", "label_tolerance",
                                "bottled_reading", "bottled_temperature", "bottled_strength",
                                "bottled_uncertainty"))
    | {"label_verdict": f"N{AFTER_LINE + 8}"}
    # Balance, L of pure alcohol
    | _column("S", AFTER_LINE, ("balance_charged", "balance_product", "balance_feints",
                                "balance_foreshots", "balance_residue", "balance_unaccounted",
                                "balance_uncertainty"))
    | {"balance_verdict": f"R{AFTER_LINE + 7}"}
)


class _At:
    """The cells by name: at.charge_volume is "$K$27"."""

    def __getattr__(self, name):
        letters = names[name].rstrip("0123456789")
        return f"${letters}${names[name][len(letters):]}"


at = _At()


def jars(column, last=JAR_END):
    """The jar rows of a column, fixed: $F$54:$F$83 for "F"."""
    return f"${column}${JAR}:${column}${last}"
