"""After, in a fold: bottles, label and duty.

The chance that the true strength is within the label's tolerance is JCGM 106:2012, clause 7, with a normal
distribution about what was measured; its standard uncertainty is half of the expanded one.
"""
from . import layout as L, read
from .layout import at
from .pad import blank_if, empty
from .texts import T, say

LABEL, SIZE, TOLERANCE, READING, DEGREES, RATE, UNIT = (read.used(name) for name in (
    "bottling_strength", "bottle_size", "label_tolerance", "bottled_reading", "bottled_temperature", "duty_rate", "duty_unit"))
OFF, DOUBT = f"ABS({at.bottled_strength}-{LABEL})", at.bottled_uncertainty
# 27 CFR 30.11 and 30.1: a proof gallon is a US gallon of 231 cubic inches at 60 degrees Fahrenheit, 100 proof
GALLON, SIXTY_FAHRENHEIT = "3.785411784", "(140/9)"


def _boxes(pad, row):
    for i, (name, unit, fmt) in enumerate((
            ("bottle_size", "millilitre", "0"), ("label_tolerance", "strength", "0.00"), ("bottled_reading", "strength", "0.0"),
            ("bottled_temperature", "celsius", "0.0"), ("duty_rate", "money_typed", "0.00"), ("duty_unit", None, None))):
        pad.line(row + i, name, unit, fmt=fmt, text=fmt is None, to=None if unit else f"E{row + i}")


def _bottles(pad, row):
    pad.line(row, "bottles", "full", blank_if(*empty(at.product_volume, SIZE)) +
             f"INT({at.product_volume}*1000/{SIZE}+1E-9))", "0", bold=True)
    pad.line(row + 1, "bottles_rest", "millilitre", blank_if(*empty(at.bottles)) +
             f"ROUND({at.product_volume}*1000-{at.bottles}*{SIZE};6))", "0")
    # The nominal volume of a bottle is that at 20 degC; on a scale and in a cylinder it is another figure.
    pad.line(row + 4, "bottle_mass", "gram", blank_if(*empty(SIZE, LABEL)) + f"SPIRIT.MASS({SIZE};{LABEL}))", "0.0")
    pad.line(row + 5, "bottle_filled", "millilitre", blank_if(*empty(SIZE, LABEL, DEGREES)) +
             f"SPIRIT.VOLUME({SIZE};{LABEL};20;{DEGREES}))", "0.0")


def _strength(pad, row):
    mine, warm = read.used("reading_tolerance"), read.used("temperature_tolerance")
    measured = empty(READING, DEGREES)
    unsure = f"SPIRIT.UNCERTAINTY({READING};{DEGREES};{{}};{warm})".format
    pad.line(row + 2, "bottled_strength", "strength", blank_if(*measured) + f"SPIRIT.STRENGTH({READING};{DEGREES}))")
    pad.line(row + 3, "bottled_uncertainty", "strength", blank_if(*measured, *empty(mine, warm)) + unsure(mine) + ")")
    pad.line(row, "aim_reading", "strength", blank_if(*empty(LABEL, DEGREES)) + f"SPIRIT.READING({LABEL};{DEGREES}))", "0.0")
    known = blank_if(*empty(at.bottled_strength, DOUBT, LABEL, TOLERANCE))
    ends = (f"NORMDIST({LABEL}{sign}{TOLERANCE};{at.bottled_strength};{DOUBT}/2;1)" for sign in "+-")
    pad.line(row + 1, "label_chance", "label_chance", known + "-".join(ends) + ")", "0.0 %")
    # The part of the alcoholometer grows with its tolerance, the others stay: squares add.
    room, least = f"({TOLERANCE}-{OFF})^2", f"{unsure('0.001')}^2"
    needed = f"{mine}*SQRT(({room}-{least})/({DOUBT}^2-{least}))"
    cannot = (f"IF(OR({OFF}>={TOLERANCE};{room}<={least});{say('label_never')};"
              f"{say('label_cannot', needed=f'''TEXT(ROUNDDOWN({needed};2);{chr(34)}0.00{chr(34)})''')})")
    pad.result("label_verdict", known + f"IF({OFF}+{DOUBT}<={TOLERANCE};{say('label_within')};"
               f"IF({OFF}-{DOUBT}>{TOLERANCE};{say('label_outside')};{cannot})))",
               None, to=f"N{row + 3}", style="Jarbook computed text")
    cell = L.names["label_verdict"]
    pad.sheet.condition(cell, f'AND({cell}<>"";{cell}<>{say("label_within")})', "Jarbook query")


def _duty(pad, row):
    alcohol = f"{at.product_volume}*{at.product_strength}/100"
    gallons = (f'SPIRIT.VOLUME({at.product_volume};{at.product_strength};20;{SIXTY_FAHRENHEIT})/{GALLON}'
               f'*SPIRIT.CONVERT({at.product_strength};"%vol";"proof")/100')
    litre, hectolitre, gallon = (f'"{word}"' for word in T["choice"]["duty_units"])
    pad.line(row + 4, "duty_base", None, blank_if(*empty(at.product_volume, at.product_strength, UNIT)) +
             f"IF({UNIT}={gallon};{gallons};IF({UNIT}={hectolitre};{alcohol}/100;{alcohol})))", "0.0000")
    pad.computed(f"N{row + 4}", f"{UNIT}&\"\"", None, style="Jarbook unit")
    pad.line(row + 5, "duty", "money_typed", blank_if(*empty(at.duty_base, RATE)) + f"{RATE}*{at.duty_base})", bold=True)


def fill(pad):
    row = L.BOTTLE_LINE
    pad.band(L.BOTTLE, "bottle", "bottle_hint")
    _boxes(pad, row)
    _bottles(pad, row)
    _strength(pad, row)
    _duty(pad, row)
    pad.sheet.fold_rows(row, row + L.BOTTLE_LINES - 1, not pad.data.get("bottle_size"))
