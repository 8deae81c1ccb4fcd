"""The boxes of the sheet Instruments: where they stand and what they accept (sheets/boxes.py does the rest), and how
the boxes of a row of checks are read: by their place, too; what counts of them stands beside the page.
"""
from odf.workbook import Validation, a_date

from common.texts import texts
from sheets.boxes import Boxes, Choice, Number, Side

SHEET = "Instruments"
TITLE, LOOK, WEIGH = 1, 2, 3
FLASK, FLASK_LINES = 4, 7
WEIGHED, WEIGHED_LINES = FLASK + FLASK_LINES, 4       # what the weighing gives
ALC = WEIGHED + WEIGHED_LINES                         # band
CHECKS = 8
ALC_HEAD, ALC_ROW = ALC + 1, ALC + 2
ALC_FOOT = ALC_ROW + CHECKS
ALC_RESULT, RESULT_LINES = ALC_FOOT + 1, 4
THERM = ALC_RESULT + RESULT_LINES
THERM_HEAD, THERM_ROW = THERM + 1, THERM + 2
THERM_FOOT = THERM_ROW + CHECKS
THERM_RESULT = THERM_FOOT + 1
WASH = THERM_RESULT + RESULT_LINES
WASH_LINE, WASH_LINES = WASH + 1, 9
WAYS = WASH_LINE + WASH_LINES                         # heading; the three ways, what to trust
LAST = WAYS + 5
LEFT, RIGHT = Side("A", "C", "D", "E", "F", "I", "T"), Side("J", "L", "M", "N", "O", "R", "U")
NAMES, FIGURES = "V", "W"        # beside the page: what else is counted with, by name
BESIDE = 4


def _places(side, first, names):
    return {name: (side, first + i) for i, name in enumerate(names)}


PLACES = (
    _places(LEFT, FLASK, ("flask_empty", "flask_water", "flask_spirit", "flask_water_temperature", "flask_spirit_temperature",
                          "flask_material", "flask_fill"))
    | _places(RIGHT, FLASK, ("plummet_water", "plummet_spirit", "plummet_water_temperature", "plummet_spirit_temperature",
                             "plummet_material", "scale_step", "degree_error"))
    | _places(RIGHT, ALC_RESULT, ("alcoholometer_read_to", "alcoholometer_carry"))
    | _places(RIGHT, THERM_RESULT, ("thermometer_read_to", "reference_error", "thermometer_used_at", "thermometer_carry"))
    | _places(LEFT, WASH_LINE, ("original", "original_temperature", "final", "final_temperature", "gravity_error",
                                "water_boils", "wash_boils", "boiling_pressure", "boiling_error"))
    | _places(RIGHT, WASH_LINE, ("sample", "sample_temperature", "made_up", "sample_reading", "reading_temperature",
                                 "sample_error", "alcoholometer_error")))

# Lists beside the page, to choose from: their first row and their words
MATERIALS = {"borosilicate glass": 10e-6, "soda-lime glass": 25e-6, "stainless steel": 50e-6}   # cubic expansion per degC
YES_NO = ("yes", "no")
LIST, EXPANSION, ANSWER = "AK", "AL", "AM"
MATERIAL_CELLS = f"${LIST}${BESIDE}:${LIST}${BESIDE + len(MATERIALS) - 1}"
EXPANSION_CELLS = MATERIAL_CELLS.replace(LIST, EXPANSION)
_MATERIAL = Choice(MATERIAL_CELLS, "list", "borosilicate glass")
_CARRY = Choice(f"${ANSWER}${BESIDE}:${ANSWER}${BESIDE + 1}", "yes_no", "no")


def _warm(usual="20"):
    return Number(0.1, 40, usual, "celsius")


def _amount(unit, low=0.001):
    return Number(low, 30000, None, unit, "general")


KINDS = (
    {name: _amount("gram", 0.000001) for name in ("flask_empty", "flask_water", "flask_spirit", "plummet_water", "plummet_spirit")}
    | {f"{way}_{what}_temperature": _warm() for way in ("flask", "plummet") for what in ("water", "spirit")}
    | {"flask_material": _MATERIAL, "plummet_material": _MATERIAL, "alcoholometer_carry": _CARRY, "thermometer_carry": _CARRY,
       "flask_fill": Number(0, 10, "0.05", "fill", "0.000"), "scale_step": Number(0.000001, 100, None, "step", "general"),
       "degree_error": Number(0, 5, "0.3", "celsius"),
       "alcoholometer_read_to": Number(0, 2, "0.1", "strength", "0.00"),
       "thermometer_read_to": Number(0, 2, "0.1", "celsius", "0.00"), "reference_error": Number(0, 2, "0.1", "reference", "0.00"),
       "thermometer_used_at": Number(0.1, 100, "20", "used_at"),
       "original": Number(1, 1.15, None, None, "0.000"), "original_temperature": _warm(),
       "final": Number(0.98, 1.15, None, None, "0.000"), "final_temperature": _warm(),
       "gravity_error": Number(0, 0.01, "0.001", None, "0.0000"),
       "water_boils": Number(60, 110, None, "celsius"), "wash_boils": Number(60, 110, None, "celsius"),
       "boiling_pressure": Number(600, 1100, "1013.25", "hpa"), "boiling_error": Number(0, 2, "0.1", "celsius", "0.00"),
       "sample": _amount("millilitre"), "sample_temperature": _warm(), "made_up": _amount("millilitre20"),
       "sample_reading": Number(0, 100, None, "scale", share=True), "reading_temperature": _warm(None),
       "sample_error": Number(0, 10, "1", "percent"), "alcoholometer_error": Number(0, 5, "0.5", "unchecked", "0.00")})
POINT = f"${FIGURES}${BESIDE}"   # how this Calc writes decimals
BOXES = Boxes(PLACES, KINDS, TITLE, LAST, texts("instruments"), POINT)
used, wrong = BOXES.used, BOXES.wrong


def number(cell, low, high, blank='""'):
    """The number in a cell if it lies there, else a blank. MEDIAN takes no notice of a text or a blank that it is
    referred to: then the middle comes, which is neither."""
    return f'IFERROR(IF({cell}="";{blank};IF(MEDIAN({cell};{low};{high})<>{cell};"";{cell}));"")'


def word(cell, words, blank='""'):
    listed = "{" + "|".join(f'"{w}"' for w in words) + "}"
    return f'IFERROR(IF({cell}="";{blank};INDEX({listed};MATCH(TRIM({cell});{listed};0)));"")'


def lists(sheet):
    """The lists to choose from, beside the page."""
    for i, (material, expansion) in enumerate(MATERIALS.items()):
        sheet.put(f"{LIST}{BESIDE + i}", material, style="Jarbook unit")
        sheet.put(f"{EXPANSION}{BESIDE + i}", expansion, style="Jarbook aside", fmt="general")
    for i, answer in enumerate(YES_NO):
        sheet.put(f"{ANSWER}{BESIDE + i}", answer, style="Jarbook unit")


def date_box(title):
    return Validation(*title, a_date(), stop=False)
