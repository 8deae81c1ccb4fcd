"""Section 6, Balance: where the pure alcohol of the charge went."""
from . import layout as L
from .layout import at, jars
from .pad import blank_if, empty


def fill(pad):
    pad.section(f"R{L.AFTER}", f"T{L.AFTER}", "6  Balance")
    for column, text in (("R", "Pure alcohol, at 20 °C"), ("S", "L"), ("T", "of the charge")):
        pad.heading(f"{column}{L.AFTER_HEAD}", text,
                    paragraph={"fo:text-align": "start"} if column == "R" else None)
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
        cell = f"$S${row}"
        pad.computed(f"T{row}", blank_if(*empty(cell, at.charge_alcohol)) + f"{cell}/{at.charge_alcohol})", "0.0%")
    row = L.AFTER_LINE + 6
    pad.sheet.put(f"R{row}", formula=blank_if(*wait) + f'IF({at.balance_residue}="";"The residue was not '
                  f'measured: what it holds is unaccounted for.";""))', style="Jarbook note", to=f"T{row + 1}")
