"""Before: the lots, water to the strength wanted, the charge; botanicals in the fold."""
from . import layout as L, read
from .entries import LOT_KINDS  # noqa: F401  (the list that lot_kind offers)
from .layout import at, fixed
from .pad import blank_if, empty
from .texts import T

INPUTS = ((L.KNOWN, "lot_known", "known", "0.00"), (L.LOT_VOLUME, "lot_volume", "volume", "0.00"),
          (L.LOT_READING, "lot_reading", "reading", "0.0"), (L.LOT_TEMPERATURE, "lot_temperature", "temperature", "0.0"),
          (L.LOT_NAME, "lot_name", "lot", None), (L.LOT_KIND, "lot_kind", "kind", None))


def headings(pad):
    row = L.LOT_HEAD
    pad.sheet.heights |= {row: 8.5, L.LOT_TOP: 0.7, L.LOT_FOOT: 0.7}
    for column, key in (("A", "lot"), (L.KNOWN, "lot_known"), (L.LOT_VOLUME, "lot_volume"),
                        (L.LOT_READING, "reading"), (L.LOT_TEMPERATURE, "temperature"), (L.LOT_NAME, "lot_name"),
                        (L.LOT_KIND, "lot_kind"), (L.LOT_STRENGTH, "lot_strength"), (L.LOT_AT20, "lot_at20"),
                        (L.LOT_ALCOHOL, "lot_alcohol"), (L.LOT_CHECK, "check")):
        pad.heading(f"{column}{row}", T["heading"][key], f"G{row}" if column == L.LOT_NAME else None)
    for column in ("I", "M"):
        pad.heading(f"{column}{row}", "")
    for row in (L.LOT_TOP, L.LOT_FOOT):
        for column in "ABCDEFGH":
            pad.sheet.put(f"{column}{row}")


def _what_counts(pad, row):
    known, volume, reading, degrees = (read.lot(c, row) for c in (
        L.KNOWN, L.LOT_VOLUME, L.LOT_READING, L.LOT_TEMPERATURE))
    boiler = read.used("boiler_volume")
    too_much = f'AND({read.is_date(volume)};{volume}>N({boiler}))'
    p, q, r, s = (f"${c}{row}" for c in (L.LOT_KNOWN_USED, L.LOT_VOLUME_USED, L.LOT_READING_USED, L.LOT_TEMPERATURE_USED))
    # A wash without a strength of its own has that of the fold; a reading of a wash says nothing.
    wash = f'{read.lot(L.LOT_KIND, row)}="wash"'
    scale, degree = read.reading_correction(), read.temperature_correction()
    folded = f'IFERROR(IF({wash};{at.wash_strength};"");"")'
    pad.aside(p[1:], read.number(known, 0, 100, more=f"AND({known}>0;{known}<1)", default=folded))
    pad.aside(q[1:], read.number(volume, "0.000001", 100000, more=too_much), "general")
    unread = f'IFERROR(AND({wash};{p}="");FALSE())'
    pad.aside(r[1:], read.number(reading, 0, 100, more=f"OR(AND({reading}>0;{reading}<1);{unread})", correction=scale))
    pad.aside(s[1:], read.number(degrees, -20, 40, zero=False, correction=degree))
    pad.aside(f"{L.LOT_STATE}{row}", f"IF(COUNTA(INDEX({L.LOTS_BLOCK};$A{row}+1;0))=0;0;"
              f"IF(ISNUMBER(${L.LOT_AT20}{row});1;-1))", "0")
    bad = f"${L.LOT_BAD}{row}"
    counted = (p, q, read.unless_waiting(r, scale), read.unless_waiting(s, degree))
    pad.aside(bad[1:], read.bad_box(tuple(
        (i, cell, f'{kept}=""') for i, (cell, kept) in enumerate(zip((known, volume, reading, degrees), counted), 1))), "0")
    raw, right, code = f"${L.RAW}{row}", f"${L.RIGHT}{row}", read.code
    typed = f"INDEX({L.LOTS_BLOCK};$A{row}+1;{bad})"
    pad.aside(raw[1:], f'IF({bad}=0;"";IFERROR({typed};""))', "general")
    pad.aside(right[1:], f'IF({bad}=0;"";IFERROR(IF(ISTEXT({raw});{read.swapped(raw)};IF({read.is_date(raw)};'
              f'{read.day_as_number(raw)};IF({bad}=4;0.001;ROUND(100*{raw};6))));""))', None)
    share = f"IF(AND({raw}>0;{raw}<1);{code('share')};{{}})".format
    slip = (f"IF(ISERROR({typed});{code('an_error')};IF(ISTEXT({raw});IF({read.is_number_text(right)};{code('text_for_number')};"
            f"{code('text')});IF({read.is_date(raw)};{code('date')};CHOOSE({bad};{share(code('known_range'))};{code('volume_range')};"
            f"IF({unread};{code('reading_wash')};{share(code('reading_range'))});IF({raw}=0;{code('temperature_zero')};{code('temperature_range')})))))")
    missing = (f'IF({q}="";{code("volume_missing")};IF(OR({scale}="";{degree}="");{code("correction_wrong")};IF({s}="";{code("temperature_missing")};'
               f'IF(${L.LOT_STRENGTH}{row}="";IF({unread};{code("wash_missing")};{code("strength_missing")});{code("see_why")}))))')
    pad.aside(f"{L.REASON}{row}", f"IF({bad}>0;{slip};IF(${L.LOT_STATE}{row}=-1;{missing};0))", "0")


def lots(pad):
    data = pad.data.get("lots", [])
    for i in range(L.LOTS):
        row, lot = L.LOT + i, data[i] if i < len(data) else {}
        pad.sheet.heights[row] = 5.5 if i == 0 else 4.5
        pad.computed(f"A{row}", f"ROW()-{at.above_lots}", "0", style="Jarbook number")
        for column, kind, key, fmt in INPUTS:
            pad.entry_at(f"{column}{row}", kind, lot.get(key), fmt, text=fmt is None,
                         to=f"G{row}" if column == L.LOT_NAME else None,
                         needed=i == 0 and column in (L.KNOWN, L.LOT_VOLUME, L.LOT_READING, L.LOT_TEMPERATURE))
        for column in ("I", "M"):
            pad.sheet.put(f"{column}{row}", style="Jarbook label")
        _what_counts(pad, row)
        p, q, r, s = (f"${c}{row}" for c in (L.LOT_KNOWN_USED, L.LOT_VOLUME_USED, L.LOT_READING_USED, L.LOT_TEMPERATURE_USED))
        true, at20 = f"${L.LOT_STRENGTH}{row}", f"${L.LOT_AT20}{row}"
        unclear = f"MEDIAN(${L.LOT_BAD}{row};1;3)=${L.LOT_BAD}{row}"
        pad.computed(f"{L.LOT_STRENGTH}{row}", f'IF({unclear};"";IF({p}<>"";{p};' +
                     blank_if(*empty(r, s)) + f"SPIRIT.STRENGTH({r};{s}))))")
        pad.computed(at20[1:], f'IF(AND(ISNUMBER({true});ISNUMBER({q});ISNUMBER({s}));'
                     f'SPIRIT.VOLUME({q};{true};{s};20);"")')
        pad.computed(f"{L.LOT_ALCOHOL}{row}", blank_if(*empty(at20)) + f"SPIRIT.PUREALCOHOL({at20};{true}))")
        pad.computed(f"{L.LOT_CHECK}{row}", read.spoken(row), None, style="Jarbook check")
    pad.sheet.fold_rows(L.LOT + 1, L.LOT_END, len(data) < 2)
    state = L.lots(L.LOT_STATE)
    pad.aside(L.names["lots_incomplete"], f"COUNTIF({state};-1)", "0")
    pad.aside(L.names["lots_ready"], f"IF(AND(COUNTIF({state};1)>0;{at.lots_incomplete}=0);1;0)", "0")
    pad.aside(L.names["lots_odd"], f'SUMPRODUCT(({L.lots(L.LOT_CHECK)}<>"")*1)', "0")
    pad.sheet.condition(f"{L.LOT_CHECK}{L.LOT}:{L.LOT_CHECK}{L.LOT_END}", f"LEN(${L.LOT_CHECK}{L.LOT})>0", "Jarbook query check")
    for i, (column, *_) in enumerate(INPUTS[:4], 1):
        pad.sheet.condition(f"{column}{L.LOT}:{column}{L.LOT_END}", f"${L.LOT_BAD}{L.LOT}={i}", "Jarbook query input")


def charge(pad):
    row, water, total = L.LOTS_ROW, L.WATER_ROW, L.CHARGE_ROW
    lists = f"{L.lots(L.LOT_AT20)};{L.lots(L.LOT_STRENGTH)}"
    wait = blank_if(f"{at.lots_ready}=0")
    wish = read.used("wished_charge")
    for line, key in ((row, "lots_together"), (water, "water"), (total, "charge")):
        pad.label(f"A{line}", f"I{line}", key, line == total)
    pad.result("lots_strength", wait + f"SPIRIT.BLENDSTRENGTH({lists}))")
    pad.result("lots_volume", wait + f"SPIRIT.BLENDVOLUME({lists}))")
    pad.result("lots_alcohol", wait + f"SPIRIT.PUREALCOHOL({lists}))")
    pad.computed(f"J{water}", blank_if(*empty(at.charge_water)) + "0)")
    pad.result("charge_water", blank_if(f"{at.lots_ready}=0", *empty(wish)) + f'IF({wish}>{at.lots_strength};"";'
               f"SPIRIT.WATERTOADD({at.lots_volume};{at.lots_strength};{wish})))", style="Jarbook result")
    pad.result("charge_water_mass", blank_if(*empty(at.charge_water)) + f"SPIRIT.MASS({at.charge_water};0))")
    pad.unit(f"M{row}", f"N{row}", T["band"]["lots_hint"])
    pad.unit(f"M{water}", f"N{water}", "kg water")
    pad.unit(f"M{total}", f"N{total}", "")
    both = (f"$K${row}:$K${water}", f"$J${row}:$J${water}")
    wait = blank_if(f"{at.lots_ready}=0", *read.usable("wished_charge"))
    for name, function in (("charge_strength", "BLENDSTRENGTH"), ("charge_volume", "BLENDVOLUME"),
                           ("charge_alcohol", "PUREALCOHOL")):
        pad.result(name, wait + f"SPIRIT.{function}({both[0]};{both[1]}))", style="Jarbook result")


def botanicals(pad):
    head, last = L.MORE_HEAD, L.BOTANICAL + L.BOTANICALS
    for column, key in (("F", "botanical"), ("G", "botanical_rate"), ("H", "botanical_mass"), ("I", "botanical_where")):
        pad.heading(f"{column}{head}", T["heading"][key])
    data = pad.data.get("botanicals", [])
    for i in range(L.BOTANICALS):
        row, item = L.BOTANICAL + i, data[i] if i < len(data) else {}
        pad.entry_at(f"F{row}", "botanical", item.get("botanical"), text=True)
        pad.entry_at(f"G{row}", "botanical_rate", item.get("rate"), "0.0")
        rate = read.in_row("G", row)
        pad.computed(f"H{row}", f'IF(AND(ISNUMBER({rate});ISNUMBER({at.charge_volume}));{rate}*{at.charge_volume};"")', "0")
        pad.entry_at(f"I{row}", "botanical_where", item.get("where"), text=True)
    together = fixed("H", L.BOTANICAL, last - 1)
    pad.label(f"F{last}", f"G{last}", "botanicals_together")
    pad.computed(f"H{last}", f'IF(COUNT({together})=0;"";SUM({together}))', "0")


def fill(pad):
    headings(pad)
    lots(pad)
    charge(pad)
    botanicals(pad)
