"""Section 6, Balance: where the pure alcohol of the charge went, and whether the instruments explain
what is missing.

One alcoholometer and one thermometer measure charge, jars and residue: what they are off by is the
same everywhere and mostly cancels in the difference. The vessels differ (a tank, a cylinder, a
scale), and the scatter of single readings is independent: these add in squares.
"""
from . import layout as L
from .layout import at, jars
from .pad import blank_if, empty

RESIDUE_ROW = L.AFTER_LINE + 5   # beside the page: the residue as amount, reading, temperature, tolerance
ASIDE = dict(style="Jarbook aside")


def _table(pad):
    wait = [f"{at.jars_ready}=0", *empty(at.charge_alcohol)]
    cut, alcohol, used = jars(L.CUT), jars(L.ALCOHOL), jars(L.USED)
    volume, strength, degrees = at.residue_measured_volume, at.residue_measured_strength, at.residue_temperature
    lines = (
        ("balance_charged", "charged", f"{at.charge_alcohol})"),
        ("balance_product", "product", f"SUM({used})/1000)"),
        ("balance_feints", "feints: all other jars",
         f"(SUM({alcohol})-SUM({used}))/1000-{at.balance_foreshots})"),
        ("balance_foreshots", "foreshots",
         f'(SUMIF({cut};"foreshots";{alcohol})-SUMIF({cut};"foreshots";{used}))/1000)'),
        ("balance_residue", "residue, as measured",
         f'IF(OR({volume}="";{strength}="";{degrees}="");"";SPIRIT.PUREALCOHOL({volume};{strength};{degrees})))'),
        ("balance_unaccounted", "unaccounted for",
         f"{at.balance_charged}-{at.balance_product}-{at.balance_feints}-{at.balance_foreshots}"
         f"-N({at.balance_residue}))"))
    for i, (name, label, formula) in enumerate(lines):
        row = L.AFTER_LINE + i
        pad.label(f"R{row}", f"R{row}", label)
        pad.result(name, blank_if(*wait) + formula, "0.000",
                   style="Jarbook result" if name == "balance_unaccounted" else "Jarbook computed")
    row = L.AFTER_LINE + 6
    pad.label(f"R{row}", f"R{row}", "uncertain by ± (k = 2)")
    pad.result("balance_uncertainty", _uncertainty(), "0.000")
    for row in range(L.AFTER_LINE, L.AFTER_LINE + 7):
        cell = f"$S${row}"
        pad.computed(f"T{row}", blank_if(*empty(cell, at.charge_alcohol)) + f"{cell}/{at.charge_alcohol})", "0.0%")
    off, limit = at.balance_unaccounted, at.balance_uncertainty
    pad.result("balance_verdict", f'IF({off}="";"";IF({at.balance_residue}="";"The residue was not measured: '
               f'what it holds is unaccounted for.";IF({limit}="";"";IF(ABS({off})<={limit};"Explained by the '
               f'measuring uncertainty.";IF({off}>0;"More is missing than the instruments explain.";"More was '
               f'found than was charged: look for a wrong reading.")))))', None, to=f"T{L.AFTER_LINE + 8}",
               style="Jarbook computed text")
    cell = L.names["balance_verdict"]
    pad.sheet.condition(cell, f'LEFT({cell};4)="More"', "Jarbook query")
    pad.sheet.condition(cell, f'LEFT({cell};9)="Explained"', "Jarbook good")


def _beside(pad):
    """The lists of the budgets. A known strength counts as a reading at 20 °C of the volume at 20 °C."""
    for row in range(L.LOT, L.LOT_END + 1):
        known = f'$I{row}<>""'
        for column, given, read in (("W", f"$K{row}", f"$F{row}"), ("X", f"$I{row}", f"$G{row}"),
                                    ("Y", "20", f"$H{row}")):
            pad.computed(f"{column}{row}", blank_if(*empty(f"$K{row}")) + f"IF({known};{given};{read}))", "0.00", **ASIDE)
        pad.computed(f"Z{row}", blank_if(*empty(f"$W{row}")) + f"$W{row}*{at.volume_tolerance}/100)", "0.000", **ASIDE)
    for column, text in zip("WXYZ", ("amount", "reading", "°C", "± amount")):
        pad.heading(f"{column}{L.LOT - 1}", text)
        pad.heading(f"{column}{RESIDUE_ROW - 1}", text)
    row, waits = RESIDUE_ROW, blank_if(*empty(at.balance_residue))
    volume, degrees = at.residue_measured_volume, at.residue_temperature
    known = f'{at.residue_known}<>""'
    pad.computed(f"W{row}", waits + f"IF({known};SPIRIT.VOLUME({volume};{at.residue_known};{degrees};20);{volume}))",
                 "0.00", **ASIDE)
    pad.computed(f"X{row}", waits + f"IF({known};{at.residue_known};{at.residue_reading}))", "0.00", **ASIDE)
    pad.computed(f"Y{row}", waits + f"IF({known};20;{degrees}))", "0.00", **ASIDE)
    pad.computed(f"Z{row}", waits + f"$W{row}*{at.volume_tolerance}/100)", "0.000", **ASIDE)


def _budgets(pad):
    first, last = L.AFTER_LINE, L.AFTER_LINE + 4
    tolerances = f"{at.reading_tolerance};{at.temperature_tolerance};0;{at.reading_scatter};0"
    no_tolerance = empty(at.reading_tolerance, at.temperature_tolerance, at.volume_tolerance, at.reading_scatter)
    lots = ";".join(f"${c}${L.LOT}:${c}${L.LOT_END}" for c in "WXYZ")
    jar = ";".join(jars(c) for c in (L.AMOUNT, L.READING, L.TEMPERATURE, L.TOLERANCE))
    residue = ";".join(f"${c}${RESIDUE_ROW}" for c in "WXYZ")
    columns = (
        ("AB", "charge, L", empty(at.charge_alcohol), f"SPIRIT.PUREALCOHOLBUDGET({lots};{tolerances})"),
        ("AC", "jars, mL", [f"{at.jars_ready}=0"],
         f'SPIRIT.PUREALCOHOLBUDGET({jar};{tolerances};{at.jar_unit}="g")'),
        ("AD", "residue, L", empty(at.balance_residue), f"SPIRIT.PUREALCOHOLBUDGET({residue};{tolerances})"))
    for column, heading, waits, formula in columns:
        pad.heading(f"{column}{first - 1}", heading)
        for row in range(first, last + 1):
            pad.computed(f"{column}{row}", blank_if(*waits, *no_tolerance) + formula + ")" if row == first else None,
                         "0.0000", array=f"{column}{last}" if row == first else None, **ASIDE)
    pad.heading(f"AA{first - 1}", "from the")
    for i, text in enumerate(("vessel", "alcoholom.", "thermom.", "formula", "scatter")):
        pad.sheet.put(f"AA{first + i}", text, style="Jarbook unit")


def _uncertainty():
    """Own vessels and scatter in squares; the common instruments by their difference."""
    first = L.AFTER_LINE

    def parts(i):
        return f"N($AB${first + i})", f"N($AC${first + i})/1000", f"N($AD${first + i})"

    squares = [f"({part})^2" for i in (0, 4) for part in parts(i)]
    squares += ["({}-{}-{})^2".format(*parts(i)) for i in (1, 2, 3)]
    return blank_if(*empty(f"$AB${first}", f"$AC${first}")) + f"SQRT({'+'.join(squares)}))"


def fill(pad):
    pad.section(f"R{L.AFTER}", f"T{L.AFTER}", "6  Balance")
    for column, text in (("R", "Pure alcohol, at 20 °C"), ("S", "L"), ("T", "of the charge")):
        pad.heading(f"{column}{L.AFTER_HEAD}", text,
                    paragraph={"fo:text-align": "start"} if column == "R" else None)
    _table(pad)
    _beside(pad)
    _budgets(pad)
