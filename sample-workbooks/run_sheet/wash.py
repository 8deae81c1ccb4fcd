"""Before, a fold below the charge: the strength of a wash, which no alcoholometer reads, by any of three ways. Lots of
the kind wash without a strength of their own take it."""
from . import layout as L, read
from .layout import at
from .pad import blank_if, empty
from .read import used
from .texts import T, quoted, say

# % vol by which two ways may differ without a word: gravities are right to 0.3, a boiling point to 0.5 degC (so far do
# published equilibrium data differ) or some 0.8, a sample to what the alcoholometer allows (Instruments works it out)
MAY_DIFFER, BOILING_MAY_DIFFER = 0.5, 1.0
WAYS = ("sample", "gravities", "boiling")   # the most certain first


def _by(way):
    return getattr(at, f"wash_by_{way}")


def turned():
    """The final gravity is above the original one."""
    return f'AND(ISNUMBER({used("wash_original")});ISNUMBER({used("wash_final")});N({used("wash_final")})>N({used("wash_original")}))'


def above_water():
    """The wash seems to boil hotter than water."""
    water, wash = used("wash_water_boils"), used("wash_boils")
    return f"AND(ISNUMBER({water});ISNUMBER({wash});N({wash})>N({water}))"


def _formulas():
    original, final = used("wash_original"), used("wash_final")
    warm, late = used("wash_original_temperature"), used("wash_final_temperature")
    sample, made_up, reading, degrees = (used(f"wash_{x}") for x in ("sample", "made_up", "reading", "temperature"))
    water, boils, pressure = used("wash_water_boils"), used("wash_boils"), used("pressure")
    yield "gravities", (blank_if(*empty(original, final, warm, late), turned()) +
                        f"SPIRIT.WASHSTRENGTH({original};{final};{warm};{late}))")
    yield "sample", (blank_if(*empty(sample, made_up, reading, degrees)) +
                     f"SPIRIT.SAMPLESTRENGTH({sample};{made_up};{reading};{degrees}))")
    # The difference to water boiling in the same vessel on the same day: pressure and thermometer fall out of it.
    yield "boiling", (blank_if(*empty(water, boils, pressure), above_water()) +
                      f"SPIRIT.BOILERSTRENGTH(SPIRIT.BOILINGPOINT(0;{pressure})-({water}-{boils});{pressure}))")


def differ():
    """Two ways that say different things, in words; the most certain ones first."""
    pairs = (("sample", "gravities"), ("sample", "boiling"), ("gravities", "boiling"))
    first = '""'
    for one, other in reversed(pairs):
        a, b = _by(one), _by(other)
        limit = BOILING_MAY_DIFFER if "boiling" in (one, other) else MAY_DIFFER
        said = say("wash_differ", one=quoted(T["way"][one]), strength_one=f"FIXED({a};1;1)", other=quoted(T["way"][other]),
                   strength_other=f"FIXED({b};1;1)")
        first = f'IF(IFERROR(ABS({a}-{b})>{limit};FALSE());{said};{first})'
    return first


def fill(pad):
    pad.band(L.WASH, "wash", "wash_hint")
    first = L.WASH_LINE
    lines = (("wash_original", "", "0.000"), ("wash_original_temperature", "celsius", "0.0"),
             ("wash_final", "", "0.000"), ("wash_final_temperature", "celsius", "0.0"),
             ("wash_sample", "sample", "general"), ("wash_made_up", "made_up", "general"), ("wash_reading", "strength", "0.0"),
             ("wash_temperature", "celsius", "0.0"), ("wash_water_boils", "celsius", "0.0"), ("wash_boils", "celsius", "0.0"))
    for name, unit, fmt in lines:
        pad.line(read.row_of(name), name, unit, fmt=fmt)
    for way, formula in _formulas():
        name = f"wash_by_{way}"
        pad.line(read.row_of(name), name, "strength", formula=formula)
    best = '""'
    for way in reversed(WAYS):
        best = f'IF({_by(way)}<>"";{_by(way)};{best})'
    pad.line(read.row_of("wash_strength"), "wash_strength", "strength", formula=f'IFERROR({best};"")', bold=True)
    which = '""'
    for way in reversed(WAYS):
        which = f'IF(ISNUMBER({_by(way)});{say("wash_way", way=quoted(T["way"][way]))};{which})'
    pad.result("wash_way", which, None, to=f"N{first + 4}", style="Jarbook computed text", letters={"fo:font-size": "8pt"})
    for row in range(first, first + L.WASH_LINES):
        pad.sheet.heights[row] = 4.3
    pad.sheet.fold_rows(first, first + L.WASH_LINES - 1, not any(name in pad.data for name, *_ in lines))
