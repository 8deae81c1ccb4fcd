"""After: the jars used, water by volume and by mass."""
from . import layout as L, read
from .layout import at, jars
from .pad import blank_if, empty
from .texts import T, say

TAKEN = f"{jars(L.TAKEN)};{jars(L.STRENGTH)}"
WISH, STRENGTH, WHOLE = (read.used(name) for name in ("wished_volume", "bottling_strength", "whole_jars"))
WIDTH = read.PLAN_WIDTH
# Beside the page: lot and water as two lists, for the blend of both
SPIRIT_ROW, WATER_ROW = L.BLEND_LINE, L.BLEND_LINE + 1
LOTS = f"$W${SPIRIT_ROW}:$W${WATER_ROW};$X${SPIRIT_ROW}:$X${WATER_ROW}"
# A jar whose use is not clear makes the blend wait.
UNCLEAR = f"COUNT({jars(L.WEIGHT)})<{at.jars_complete}"
ALCOHOL_USED = f'SUMIF({jars(L.WEIGHT)};">0";{jars(L.ALCOHOL)})'


def plan(pad):
    """All of the plan in one cell, as a text: rows may be inserted between the jars."""
    made = (f'SPIRIT.BLENDPLAN({jars(L.VOLUME)};{jars(L.STRENGTH)};{WISH}*1000;{STRENGTH};{jars(L.WEIGHT)};'
            f'{WHOLE}="yes")')
    pad.aside(L.names["plan_text"], blank_if(f"{at.jars_ready}=0", UNCLEAR, *empty(WISH, STRENGTH, WHOLE)) +
              f'IFERROR(TEXTJOIN("";FALSE();LEFT({made}&REPT(" ";{WIDTH});{WIDTH}));""))', None,
              array=L.names["plan_text"])


def lot(pad):
    pad.band(L.BLEND, "blend")
    wait = blank_if(f"{at.jars_ready}=0", UNCLEAR, f"SUM({jars(L.WEIGHT)})=0", f"COUNT({jars(L.TAKEN)})<{at.jars_complete}")
    for i, (name, unit, fmt) in enumerate((("bottling_strength", "strength", "0.0"), ("wished_volume", "litre", "0.00"),
                                           ("whole_jars", "yes_no", None))):
        pad.line(L.BLEND_LINE + i, name, unit, fmt=fmt, text=fmt is None)
    row = L.BLEND_LINE
    pad.line(row, "kept_volume", "litre20", wait + f"SPIRIT.BLENDVOLUME({TAKEN})/1000)")
    pad.line(row + 1, "kept_strength", "strength", wait + f"SPIRIT.BLENDSTRENGTH({TAKEN}))")
    water = read.planned(f"ROWS({jars(L.VOLUME)})")
    pad.line(row + 2, "product_water", "litre20", blank_if(*empty(at.kept_volume, STRENGTH)) +
             f'IF({WISH}="";IF({STRENGTH}>{at.kept_strength};"";SPIRIT.WATERTOADD({at.kept_volume};{at.kept_strength};'
             f'{STRENGTH}));{water}/1000))', bold=True)
    pad.line(row + 3, "product_water_mass", "kilogram", blank_if(*empty(at.product_water)) + f"SPIRIT.MASS({at.product_water};0))")
    waits = blank_if(*empty(at.kept_volume), *read.usable("bottling_strength", "wished_volume"),
                     f'AND({STRENGTH}<>"";{at.product_water}="")')
    pad.line(row, "product_volume", "litre20", waits + f"SPIRIT.BLENDVOLUME({LOTS}))", bold=True)
    pad.line(row + 1, "product_strength", "strength", waits + f"SPIRIT.BLENDSTRENGTH({LOTS}))")
    for column, cells in (("W", (at.kept_volume, at.product_water)), ("X", (at.kept_strength, None))):
        for line, cell in zip((SPIRIT_ROW, WATER_ROW), cells):
            pad.aside(f"{column}{line}", blank_if(*empty(cell or at.product_water)) + f"{cell or 0})", "0.000")


def jar_by_jar(pad):
    row = L.TAKE
    pad.sheet.heights |= {row: 12, L.WISH: 5}   # as many jars as sixty
    pad.label(f"A{row}", f"C{row}", "take")
    taken = jars(L.TAKEN)
    one = say("jar_take", jar=f"{jars('A')}", amount=f'TEXT({taken};"0")')
    pad.result("take_list", f'IF(NOT(ISNUMBER({at.kept_volume}));"";TEXTJOIN(",  ";TRUE();IF(IFERROR(1*{taken};0)>0;{one};"")))', None, to=f"N{row}", style="Jarbook computed text", array=L.names["take_list"])
    shown = 'TEXT({};"0.00")'.format
    best = f"{ALCOHOL_USED}/10/{STRENGTH}"   # L at the strength wanted: mL of pure alcohol over % vol
    text = (f'IF(OR({at.jars_ready}=0;{ALCOHOL_USED}=0);"";IF({UNCLEAR};{say("use_waits")};'
            f'IF({STRENGTH}="";IF({WISH}="";"";{say("wish_strength_needed")});'
            f'IF({WISH}="";IF({at.kept_strength}="";"";IF({STRENGTH}>{at.kept_strength};{say("wish_weaker", wish=STRENGTH)};""));'
            f'IF({at.plan_text}<>"";"";IF({best}<{WISH};'
            f'{say("wish_volume", volume=shown(best), strength=STRENGTH, wish=WISH)};IF({WHOLE}="yes";'
            f'{say("wish_whole", wish=WISH, most=shown(f"1.05*{WISH}"), strength=STRENGTH)};'
            f'{say("wish_weaker", wish=STRENGTH)}))))))')
    pad.result("wish_check", text, None, to=f"N{L.WISH}", style="Jarbook look")
    pad.sheet.condition(L.names["wish_check"], f'LEN({L.names["wish_check"]})>0', "Jarbook query look")


def fill(pad):
    plan(pad)
    lot(pad)
    jar_by_jar(pad)
