"""Where everything stands on a run sheet: three pages below each other in the order of the day, and
beside them (from column P on) what is counted with. The addresses are a contract: Runs, the menu and
the tests read these cells, and each is also a name of the sheet (`names` below).

Inputs are read by place, see read.py: the blocks of lots and jars lie between two thin protected rows
(`*_TOP`, `*_FOOT`), so that no reference to them can be moved as a whole.
"""

# --- rows ------------------------------------------------------------------------------------------
# In view on every page, and repeated on every printed one
TITLE, LOOK, HEAD = 1, 2, 3

# Before
BEFORE = 4
ESSENTIAL = 5                          # two rows of boxes
LOT_HEAD, LOT_TOP, LOT, LOTS = 7, 8, 9, 6
LOT_END, LOT_FOOT = LOT + LOTS - 1, LOT + LOTS
LOTS_ROW, WATER_ROW, CHARGE_ROW = LOT_FOOT + 1, LOT_FOOT + 2, LOT_FOOT + 3
WASH, WASH_LINE, WASH_LINES = CHARGE_ROW + 1, CHARGE_ROW + 2, 5   # the band of a fold
FORECAST = WASH_LINE + WASH_LINES      # band; column heads in the next row
PLAN = FORECAST + 2                    # the four cuts, and all of it; then how far off hearts and all may be
FIGURE, FIGURES = PLAN + 7, 6
MORE = FIGURE + FIGURES                # the band of the fold
MORE_HEAD, MORE_LINE, MORE_LINES = MORE + 1, MORE + 2, 11
MORE_END = MORE_LINE + MORE_LINES - 1
BOTANICAL, BOTANICALS = MORE_LINE, 6

# At the still
STILL = MORE_END + 2
CAUTION, DRIP = STILL + 1, STILL + 2
JAR_HEAD = DRIP + 1                    # once more, for the printed page
JAR_TOP = JAR_HEAD + 1
JAR, JAR_COUNT = JAR_TOP + 1, 30
JAR_END, JAR_FOOT = JAR + JAR_COUNT - 1, JAR + JAR_COUNT
JAR_AGAIN = JAR_FOOT + 1               # the headings, for the last page of the jars
CHART = JAR_AGAIN + 1                  # band of what the jars tell; chart beside it
COME, CHART_ROWS = CHART + 1, 15

# After
AFTER = CHART + CHART_ROWS + 2
CUT_HEAD, CUT = AFTER + 1, AFTER + 2   # the four cuts, and all of it
RESIDUE = CUT + 5                      # heading, then three lines
HELD = RESIDUE + 5                     # band; advice, answers, two rows of boxes in a fold
BLEND = HELD + 5                       # band
BLEND_LINE, BLEND_LINES = BLEND + 1, 4
TAKE = BLEND_LINE + BLEND_LINES        # jar by jar
WISH = TAKE + 1                        # what is missing for the volume wanted
BOTTLE = WISH + 1                      # band of the fold
BOTTLE_LINE, BOTTLE_LINES = BOTTLE + 1, 6
NEXT = BOTTLE_LINE + BOTTLE_LINES      # band: where everything goes
NEXT_HEAD, NEXT_LINE, NEXT_LINES = NEXT + 1, NEXT + 2, 5
ALL_LOOK = NEXT_LINE + NEXT_LINES      # band, then the whole of To look at
LAST = ALL_LOOK + 1
LAST_COLUMN = "N"

# --- columns ---------------------------------------------------------------------------------------
# Of the jars: what is typed (B to H, so that whole rows sort together), what follows from it
NUMBER, CLOCK, AMOUNT, READING, TEMPERATURE, NOTE, KEEP, CUT_CHOSEN = "ABCDEFGH"
SUGGESTED, STRENGTH, VOLUME, COLLECTED, EXPECTED, CHECK = "IJKLMN"
# Beside the page
SINCE, AMOUNT_USED, READING_USED, TEMPERATURE_USED, CUT_USED, WEIGHT, STATE, BAD = "PQRSTUVW"
(MIDDLE, UNCUT, FORESHOTS, HEADS, HEARTS, TAILS, TAKEN, USED, TOLERANCE, ALCOHOL, ALCOHOL_SUM,
 BOILER, DIFFERENCE, REST, GOES) = ("X", "Y", "Z", "AA", "AB", "AC", "AD", "AE", "AF", "AG", "AH", "AI", "AJ", "AK", "AL")
FIRST_BESIDE, LAST_BESIDE = "P", "BY"

# Of the lots
KNOWN, LOT_VOLUME, LOT_READING, LOT_TEMPERATURE, LOT_NAME, LOT_KIND = "B", "C", "D", "E", "F", "H"
LOT_STRENGTH, LOT_AT20, LOT_ALCOHOL, LOT_CHECK = "J", "K", "L", "N"
(LOT_KNOWN_USED, LOT_VOLUME_USED, LOT_READING_USED, LOT_TEMPERATURE_USED, LOT_STATE, LOT_BAD,
 BUDGET_AMOUNT, BUDGET_READING, BUDGET_TEMPERATURE, BUDGET_TOLERANCE) = "PQRSTUVWXY"

# Of lots and jars: what stands in the box that cannot be used, what would be right, which words to say
RAW, RIGHT, REASON = "AN", "AO", "AP"

# Single boxes stand in these columns, their labels in those; beside the page, in the same row, the value that counts (blank
# if there is none or it cannot be used), then, in three columns each, the label if what stands in the box cannot be used,
# what that is, and the least and the most that the box takes
BOXES = {"D": ("A", "P"), "H": ("F", "R"), "M": ("J", "T")}
# (blocks of three columns; at the right of them, of the first that cannot be used: where, label, typed, least, most)
BOX_FACTS = {"D": ("BI", "BL", "BO", "BR"), "H": ("BJ", "BM", "BP", "BS"), "M": ("BK", "BN", "BQ", "BT")}
FIRST_BAD = ("BU", "BV", "BW", "BX", "BY")

# In the rows of the corrections: the day of the check
CHECKED_DAY = "V"

# The curve of the forecast: litres, strength, mean strength, alcohol, boiler strength and temperature;
# the same with the fewest and the most stages that are likely, with the stages of this run
CURVE, CURVE_ROWS = 5, 25
CURVE_END = CURVE + CURVE_ROWS - 1
CURVE_COLUMNS, CURVE_LOW, CURVE_HIGH, CURVE_FITTED = ("Z", "AA", "AB", "AC", "AD", "AE"), "AF", "AG", "AH"
CURVE_BETWEEN = ("AI", "AJ", "AK", "AL", "AM")
# From the third jar on: the same, narrowed by the jars
CURVE_FIT_LOW, CURVE_FIT_HIGH = "BG", "BH"

# The run in short (label, figure, unit), and the cautions one by one
SHORT, SHORT_LINES = 5, 11
SHORT_COLUMNS = ("AQ", "AR", "AS")
MESSAGE, MESSAGES = 20, 13
MESSAGE_COLUMN = "AQ"
# What rows say of themselves, one sentence below the other
WORDS, WORDS_COLUMN = 5, "AT"

# run_curve: digits of a share, digits of a strength, one of the cut
CURVE_DIGITS = 7
CURVE_PIECE = 2 * CURVE_DIGITS + 1

CUT_NAMES = ("foreshots", "heads", "hearts", "tails")


def _column(column, first, words):
    return {word: f"{column}{first + i}" for i, word in enumerate(words) if word}


def rows(column, first, last):
    return f"{column}{first}:{column}{last}"


names = (
    # What the run is, and the two rows of boxes that a first run needs
    # Where the buttons lead: the cell comes to the middle of the window, so it stands below the page's head
    {"page_before": f"A{LOT_FOOT + 1}", "page_still": f"A{JAR + 4}", "page_after": f"A{AFTER + 11}"}
    | {"run_title": f"B{TITLE}", "run_date": f"H{TITLE}", "look": f"A{LOOK}", "come_short": f"J{LOOK}",
     "run_kind": f"D{ESSENTIAL}", "wished_charge": f"D{ESSENTIAL + 1}",
     "alcoholometer_correction": f"H{ESSENTIAL}", "thermometer_correction": f"H{ESSENTIAL + 1}",
     "alcoholometer_checked": f"I{ESSENTIAL}", "thermometer_checked": f"I{ESSENTIAL + 1}",
     "boiler_volume": f"M{ESSENTIAL}", "watts": f"M{ESSENTIAL + 1}"}
    # Plan and still, instruments and record, in the fold
    | _column("D", MORE_LINE, ("stop_strength", "foreshots_volume", "hearts_from", "hearts_to", "stages",
                               "reflux", "pressure", "start_temperature", "stages_range", "known_stages",
                               "known_range"))
    | {"known_still": f"L{MORE_LINE + 8}"}
    | _column("M", MORE_LINE, ("reading_tolerance", "reading_scatter", "temperature_tolerance",
                               "volume_tolerance"))
    | _column("L", MORE_LINE + 4, ("run_still", "run_material", "run_lot", "run_remarks"))
    | {"cooling_rise": f"H{MORE_LINE + 7}"}
    # The charge
    | {"lots_volume": f"{LOT_AT20}{LOTS_ROW}", "lots_strength": f"{LOT_STRENGTH}{LOTS_ROW}",
       "lots_alcohol": f"{LOT_ALCOHOL}{LOTS_ROW}", "charge_water": f"{LOT_AT20}{WATER_ROW}",
       "charge_water_mass": f"{LOT_ALCOHOL}{WATER_ROW}", "charge_volume": f"{LOT_AT20}{CHARGE_ROW}",
       "charge_strength": f"{LOT_STRENGTH}{CHARGE_ROW}", "charge_alcohol": f"{LOT_ALCOHOL}{CHARGE_ROW}"}
    | {name: rows(column, LOT, LOT_END) for name, column in (
        ("lot_known", KNOWN), ("lot_volume", LOT_VOLUME), ("lot_reading", LOT_READING),
        ("lot_temperature", LOT_TEMPERATURE), ("lot_name", LOT_NAME), ("lot_kind", LOT_KIND),
        ("lot_strength", LOT_STRENGTH), ("lot_at20", LOT_AT20), ("lot_check", LOT_CHECK))}
    | {"lots_top": f"A{LOT_TOP}", "lots_foot": f"A{LOT_FOOT}"}
    # A wash: by its gravities, by a distilled sample, by where it boils; the strength that counts
    | _column("D", WASH_LINE, ("wash_original", "wash_original_temperature", "wash_final", "wash_final_temperature",
                               "wash_by_gravities"))
    | _column("H", WASH_LINE, ("wash_sample", "wash_made_up", "wash_reading", "wash_temperature", "wash_by_sample"))
    | _column("M", WASH_LINE, ("wash_water_boils", "wash_boils", "wash_by_boiling", "wash_strength"))
    | {"wash_way": f"J{WASH_LINE + 4}"}
    # The forecast
    | _column("D", FIGURE, ("first_strength", "first_boiling", None, None, "energy", "cooling_water"))
    | {"heating_hours": f"P{FIGURE + 2}", "running_hours": f"P{FIGURE + 3}"}
    # Beside it: what its range comes from, and the range
    | {"stages_low": f"P{FORECAST}", "stages_high": f"Q{FORECAST}", "charge_high": f"R{FORECAST}",
       "forecast_shift": f"S{FORECAST}", "hours_per_litre": f"T{FORECAST}", "charge_more": f"U{FORECAST}", "forecast_basis": f"F{FORECAST}"}
    | {f"{what}_{figure}_range": f"{column}{PLAN + 5 + i}" for i, what in enumerate(("hearts", "run"))
       for figure, column in (("volume", "E"), ("alcohol", "F"), ("hours", "H"))}
    | {"first_strength_range": f"C{PLAN + 6}"}
    # At the still
    | {"first_drip": f"D{DRIP}", "jar_unit": f"H{DRIP}", "heat_on": f"M{DRIP}"}
    | {name: rows(column, JAR, JAR_END) for name, column in (
        ("jar_clock", CLOCK), ("jar_amount", AMOUNT), ("jar_reading", READING),
        ("jar_temperature", TEMPERATURE), ("jar_notes", NOTE), ("jar_keep", KEEP), ("jar_cut", CUT_CHOSEN),
        ("jar_suggested", SUGGESTED), ("jar_strength", STRENGTH), ("jar_volume", VOLUME),
        ("jar_collected", COLLECTED), ("jar_expected", EXPECTED), ("jar_check", CHECK),
        ("jar_take", TAKEN), ("jar_alcohol", ALCOHOL), ("jar_alcohol_sum", ALCOHOL_SUM),
        ("jar_boiler", BOILER), ("jar_difference", DIFFERENCE))}
    | {"jars_top": f"A{JAR_TOP}", "jars_foot": f"A{JAR_FOOT}"}
    | _column("D", COME, ("fitted_stages", "residue_volume", "residue_strength"))
    | {"stages_uncertainty": f"Q{COME}"}
    | _column("D", COME + 4, ("come_hearts_volume", "come_hearts_range", "come_hearts_alcohol"))
    | _column("E", COME + 4, ("come_stop_volume", "come_stop_range", "come_stop_alcohol"))
    | _column("D", COME + 9, ("recovered", None, "heat_heating", "heat_running"))
    | {"come_stages": f"R{COME}", "come_stages_range": f"S{COME}", "come_stages_wide": f"T{COME}", "come_watts": f"U{COME}"}
    | {"come_hearts_hours": f"P{COME + 7}", "come_stop_hours": f"Q{COME + 7}"}
    # Beside the page: how many jars are whole, how many lack something, 1 if all below can be done
    | {"jars_complete": f"P{STILL}", "jars_incomplete": f"Q{STILL}",
       "jars_ready": f"R{STILL}", "cuts_chosen": f"S{STILL}", "jars_odd": f"T{STILL}",
       "jar_median": f"U{STILL}", "plan_text": f"V{STILL}", "point": f"W{STILL}",
       "month_first": f"X{STILL}", "temperature_median": f"Y{STILL}", "run_curve": f"Z{STILL}",
       # The number of the row above the first one of each block that is read by place (see read.py)
       "above_before": f"AA{STILL}", "above_still": f"AB{STILL}", "above_after": f"AC{STILL}",
       "above_lots": f"AD{STILL}", "above_jars": f"AE{STILL}",
       "lots_incomplete": f"P{LOTS_ROW}", "lots_ready": f"Q{LOTS_ROW}", "lots_odd": f"R{LOTS_ROW}"}
    # Cuts, as chosen and as suggested
    | {f"cut_{cut}_volume": f"C{CUT + i}" for i, cut in enumerate(CUT_NAMES)}
    | {f"cut_{cut}_share": f"F{CUT + i}" for i, cut in enumerate(CUT_NAMES)}
    | _column("D", RESIDUE + 1, ("residue_measured_volume", "residue_reading", "residue_temperature"))
    | {"residue_known": f"H{RESIDUE + 1}", "residue_measured_strength": f"H{RESIDUE + 2}"}
    # The account of alcohol, L
    | _column("M", CUT, ("balance_charged", "balance_product", "balance_spare", "balance_feints",
                         "balance_foreshots", "balance_residue", "balance_unaccounted",
                         "balance_uncertainty"))
    | {"balance_verdict": f"J{CUT + 8}", "charge_parts": f"AB{CUT}:AB{CUT + 4}"}
    # The readings held against each other
    | {"held_advice": f"A{HELD + 1}", "held_chance": f"D{HELD + 2}", "held_box": f"H{HELD + 2}",
       "held_recovery": f"M{HELD + 2}", "held_recovery_uncertainty": f"N{HELD + 2}",
       "held_common": f"P{HELD}", "held_residue": f"Q{HELD}", "held_ready": f"R{HELD}", "charge_tolerance": f"S{HELD}"}
    | _column("D", HELD + 3, ("held_charge_volume", "held_charge_strength"))
    | _column("H", HELD + 3, ("held_residue_volume", "held_residue_strength"))
    # Blend and bottle
    | _column("D", BLEND_LINE, ("bottling_strength", "wished_volume", "whole_jars"))
    | _column("H", BLEND_LINE, ("kept_volume", "kept_strength", "product_water", "product_water_mass"))
    | _column("M", BLEND_LINE, ("product_volume", "product_strength"))
    | {"take_list": f"D{TAKE}", "wish_check": f"A{WISH}"}
    | _column("D", BOTTLE_LINE, ("bottle_size", "label_tolerance", "bottled_reading", "bottled_temperature",
                                   "duty_rate", "duty_unit"))
    | _column("H", BOTTLE_LINE, ("bottles", "bottles_rest", "bottled_strength", "bottled_uncertainty", "bottle_mass",
                                 "bottle_filled"))
    | _column("M", BOTTLE_LINE, ("aim_reading", "label_chance", None, None, "duty_base", "duty"))
    | {"label_verdict": f"J{BOTTLE_LINE + 2}"}
    # Where everything goes
    | {f"next_{what}_{figure}": f"{column}{NEXT_LINE + i}"
       for i, what in enumerate(("product", "spare", "feints", "foreshots", "residue"))
       for column, figure in (("D", "volume"), ("E", "strength"))}
    | {"look_all": f"A{LAST}"}
    # The run in short: label, figure, unit
    | {"run_summary": f"{SHORT_COLUMNS[0]}{SHORT}:{SHORT_COLUMNS[2]}{SHORT + SHORT_LINES - 1}"}
    | _column(SHORT_COLUMNS[1], SHORT, (
        "sum_charge_volume", "sum_charge_strength", "sum_charge_alcohol", "sum_collected_alcohol",
        "sum_recovery", "sum_hearts_share", "sum_stages", "sum_hours", "sum_product_volume",
        "sum_product_strength", "sum_unaccounted"))
    # What there is to look at, the most dangerous first; how many
    | _column(MESSAGE_COLUMN, MESSAGE, ("charge_check", "foreshots_check", "boxes_check", "lots_check",
                                        "jars_check", "odd_check", "recovery_check", "held_check",
                                        "balance_check", "blend_check", "label_check", "cuts_check", "queries"))
)


class _At:
    """The cells by name, fixed: at.charge_volume is "$K$18"."""

    def __getattr__(self, name):
        letters = names[name].rstrip("0123456789")
        return f"${letters}${names[name][len(letters):]}"


at = _At()


def fixed(column, first, last):
    return f"${column}${first}:${column}${last}"


def jars(column):
    """A column of the jars with the thin rows above and below: nothing but blanks there."""
    return fixed(column, JAR_TOP, JAR_FOOT)


def lots(column):
    return fixed(column, LOT_TOP, LOT_FOOT)


# What is typed of lots (known strength, volume, reading, temperature) and of jars (clock to cut)
LOTS_BLOCK = f"${KNOWN}${LOT_TOP}:${LOT_TEMPERATURE}${LOT_FOOT}"
JARS_BLOCK = f"${CLOCK}${JAR_TOP}:${CUT_CHOSEN}${JAR_FOOT}"
