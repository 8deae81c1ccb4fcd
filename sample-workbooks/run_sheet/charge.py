"""Section 1, Charge: lots, water to the wished strength, the botanical bill."""
from . import layout as L
from .layout import at
from .pad import blank_if, empty


def lots(pad):
    pad.section(f"A{L.CHARGE}", f"M{L.CHARGE}", "1  Charge")
    head = L.CHARGE + 1
    pad.sheet.heights[head] = 8.5
    for first, last, text in (("A", "C", "Lot"), ("D", "E", "What it is"), ("F", None, "Volume\nL"),
                              ("G", None, "Reading\n% vol"), ("H", None, "Temp.\n°C"),
                              ("I", None, "or known\n% vol"), ("J", None, "Strength\n% vol"),
                              ("K", None, "L at\n20 °C"), ("L", "M", "Pure alcohol\nL")):
        pad.heading(f"{first}{head}", text, f"{last}{head}" if last else None)
    data = pad.data.get("lots", [])
    for i in range(L.LOTS):
        row = L.LOT + i
        lot = data[i] if i < len(data) else {}
        pad.entry_at(f"A{row}", "lot", lot.get("lot"), to=f"C{row}", text=True)
        pad.entry_at(f"D{row}", "lot_kind", lot.get("kind"), to=f"E{row}", text=True)
        pad.entry_at(f"F{row}", "lot_volume", lot.get("volume"), "0.00")
        pad.entry_at(f"G{row}", "lot_reading", lot.get("reading"), "0.0")
        pad.entry_at(f"H{row}", "lot_temperature", lot.get("temperature"), "0.0")
        pad.entry_at(f"I{row}", "lot_known", lot.get("known"), "0.00")
        volume, reading, degrees, known, true, at20 = (f"{c}{row}" for c in "FGHIJK")
        pad.computed(f"J{row}", f'IF({known}<>"";SPIRIT.CONVERT({known};"%vol";"%vol");'
                     f'IF(OR({reading}="";{degrees}="");"";SPIRIT.STRENGTH({reading};{degrees})))')
        pad.computed(f"K{row}", blank_if(*empty(volume, true, degrees)) +
                     f"SPIRIT.VOLUME({volume};{true};{degrees};20))")
        pad.computed(f"L{row}", blank_if(*empty(at20)) + f"SPIRIT.PUREALCOHOL({at20};{true}))",
                     to=f"M{row}")


def charge(pad):
    row, water, total = L.LOTS_ROW, L.WATER_ROW, L.CHARGE_ROW
    volumes, strengths = f"$K${L.LOT}:$K${L.LOT_END}", f"$J${L.LOT}:$J${L.LOT_END}"
    # The totals wait while a lot lacks something: no lot is left out in silence.
    f, g, h, i = (f"${c}${L.LOT}:${c}${L.LOT_END}" for c in "FGHI")
    pad.result("lots_incomplete", f'SUMPRODUCT(({f}&{g}&{h}&{i}<>"")*1)-'
               f'SUMPRODUCT(({f}<>"")*({h}<>"")*(({g}<>"")+({i}<>"")>0))', "0", style="Jarbook aside")
    none = f"OR(COUNTA({f})=0;{at.lots_incomplete}>0)"
    pad.label(f"A{row}", f"I{row}", "Lots together")
    pad.result("lots_strength", blank_if(none) + f"SPIRIT.BLENDSTRENGTH({volumes};{strengths}))")
    pad.result("lots_volume", blank_if(none) + f"SPIRIT.BLENDVOLUME({volumes};{strengths}))")
    pad.result("lots_alcohol", blank_if(none) + f"SPIRIT.PUREALCOHOL({volumes};{strengths}))",
               to=f"M{row}")
    pad.label(f"A{water}", f"H{water}", "Water that brings the charge to (% vol at 20 °C; empty: none)")
    pad.entry("wished_charge", "0.0")
    pad.computed(f"J{water}", blank_if(*empty(at.charge_water)) + "0)", "0.00")
    pad.result("charge_water", blank_if(none, *empty(at.wished_charge)) +
               f"SPIRIT.WATERTOADD({at.lots_volume};{at.lots_strength};{at.wished_charge}))")
    pad.result("charge_water_mass", blank_if(*empty(at.charge_water)) +
               f"SPIRIT.MASS({at.charge_water};0))")
    pad.unit(f"M{water}", "kg of it")
    pad.label(f"A{total}", f"I{total}", "Charge in the boiler")
    both = (f"$K${row}:$K${water}", f"$J${row}:$J${water}")
    for name, function in (("charge_strength", "BLENDSTRENGTH"), ("charge_volume", "BLENDVOLUME"),
                           ("charge_alcohol", "PUREALCOHOL")):
        pad.result(name, blank_if(none) + f"SPIRIT.{function}({both[0]};{both[1]}))",
                   style="Jarbook result", to=f"M{total}" if name == "charge_alcohol" else None)


def botanicals(pad):
    pad.section(f"N{L.CHARGE}", f"T{L.CHARGE}", "Botanical bill, if any")
    head = L.CHARGE + 1
    for first, last, text in (("N", "Q", "Botanical"), ("R", None, "g for each litre\nof the charge"),
                              ("S", None, "g for\nthis charge"), ("T", None, "Where")):
        pad.heading(f"{first}{head}", text, f"{last}{head}" if last else None)
    data = pad.data.get("botanicals", [])
    for i in range(L.LOTS):
        row = L.LOT + i
        item = data[i] if i < len(data) else {}
        pad.entry_at(f"N{row}", "botanical", item.get("botanical"), to=f"Q{row}", text=True)
        pad.entry_at(f"R{row}", "botanical_rate", item.get("rate"), "0.00")
        pad.computed(f"S{row}", blank_if(*empty(f"$R{row}", at.charge_volume)) +
                     f"R{row}*{at.charge_volume})", "0")
        pad.entry_at(f"T{row}", "botanical_where", item.get("where"), text=True)
    row = L.LOTS_ROW
    pad.label(f"N{row}", f"R{row}", "Together")
    pad.computed(f"S{row}", f'IF(COUNT($S${L.LOT}:$S${L.LOT_END})=0;"";SUM($S${L.LOT}:$S${L.LOT_END}))', "0")
    pad.unit(f"T{row}", "g")
    pad.note(f"N{row + 1}", f"T{row + 2}", "Water and spirit do not add up: 1 L and 1 L give less "
             "than 2 L. The sheet counts with masses. Mix well, then read the charge once more.")


def fill(pad):
    lots(pad)
    charge(pad)
    botanicals(pad)
    pad.sheet.heights[L.CHARGE - 1] = pad.sheet.heights[L.FORECAST - 1] = 1.5
