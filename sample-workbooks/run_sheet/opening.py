"""Top of the run sheet: title, caution, what the run is, the still, what to look at, the run in short."""
from . import layout as L
from .layout import at, jars
from .pad import blank_if, empty

LICENCE = ("Distil only where you are licensed to: local law and licensed practice come first. "
           "Vapour burns and explodes: ventilate, no flame, never leave the still, never close its "
           "outlet; charge at or below 40 % vol; let it cool twenty minutes at least before opening.")


def title(pad):
    """The first row repeats on the second page. It holds inputs, not formulas: see Sheet.put."""
    sheet = pad.sheet
    sheet.put("A1", "Run sheet", style="Jarbook title", to="C1")
    big = dict(text=True, cell={"fo:border-bottom": "1.5pt solid #3d5361"}, letters={"fo:font-size": "11pt"})
    pad.entry("run_title", to="G1", **big)
    for label, name, last, fmt in (("H1", "run_date", "J1", "date"), ("K1", "run_kind", "N1", None),
                                   ("O1", "run_still", "T1", None)):
        sheet.put(label, {"run_date": "Date", "run_kind": "Kind", "run_still": "Still"}[name],
                  style="Jarbook title line", paragraph={"fo:text-align": "end"},
                  cell={"fo:padding-right": "1.5mm"})
        pad.entry(name, fmt, last, **big)
    sheet.put("A2", LICENCE, style="Jarbook note", to="T2",
              letters={"fo:font-size": "9pt", "fo:font-weight": "bold"})
    sheet.heights |= {1: 8, 2: 8.5, 3: 1.5}
    sheet.title_rows = (1, 1)


def the_run(pad):
    pad.section(f"A{L.HEAD}", f"G{L.HEAD}", "The run")
    lines = (("run_material", "Made from", None), ("run_lot", "Record number", None),
             ("jar_unit", "Jars measured in", None), ("first_drip", "First drip, clock", "time"),
             ("run_remarks", "Remarks", None))
    last_line = L.LINE + L.LINES - 1
    for i, (name, label, fmt) in enumerate(lines):
        row = L.LINE + i
        if name != "run_remarks":
            pad.label(f"A{row}", f"C{row}", label)
            pad.entry(name, fmt, f"G{row}", text=True)
            continue
        pad.sheet.put(f"A{row}", label, style="Jarbook label", to=f"C{last_line}",
                      cell={"style:vertical-align": "top"})
        pad.entry(name, fmt, f"G{last_line}", text=True,
                  cell={"fo:wrap-option": "wrap", "style:vertical-align": "top",
                        "style:shrink-to-fit": "false"})


def still(pad):
    pad.section(f"H{L.HEAD}", f"M{L.HEAD}", "Still and instruments")
    lines = (("boiler_volume", "Boiler holds", "0.0", "L"),
             ("watts", "Heat that reaches the boiler", "0", "W"),
             ("stages", "Stages (1.15 until known)", "0.00", ""),
             ("reflux", "Reflux, per litre collected", "0.00", "L"),
             ("pressure", "Air pressure at the still", "0.0", "hPa"),
             ("start_temperature", "Charge is heated from", "0.0", "°C"),
             ("reading_tolerance", "Alcoholometer is right to ±", "0.00", "% vol"),
             ("reading_scatter", "single readings scatter by ±", "0.00", "% vol"),
             ("temperature_tolerance", "Thermometer is right to ±", "0.0", "°C"),
             ("volume_tolerance", "Amounts are right to ±", "0.0", "per cent"))
    for i, (name, label, fmt, unit) in enumerate(lines):
        row = L.LINE + i
        pad.label(f"H{row}", f"K{row}", label)
        pad.entry(name, fmt)
        pad.unit(f"M{row}", unit)
    pad.note(f"H{L.LINE + 10}", f"M{L.LINE + 10}", "Light boxes are filled in, grey cells are computed.")


def to_look_at(pad):
    pad.section(f"N{L.HEAD}", f"Q{L.HEAD}", "To look at")
    sheet = pad.sheet
    box = dict(style="Jarbook computed text", paragraph={"fo:text-align": "start"},
               cell={"style:vertical-align": "top"})
    pad.result("charge_check", blank_if(*empty(at.charge_volume, at.boiler_volume)) +
               f"SPIRIT.CHARGECHECK({at.charge_volume};{at.charge_strength};{at.boiler_volume}))",
               None, to=f"Q{L.LINE + 4}", **box)
    queries = at.queries
    pad.result("jars_check",
               f'IF({at.lots_incomplete}>0;"A lot of the charge lacks its volume, temperature or '
               f'strength: the charge waits for it. ";"")&IF({at.jars_incomplete}>0;"Jars with something missing: "&{at.jars_incomplete}&'
               f'". What follows from the jars waits for them. ";"")'
               f'&IF({queries}>{at.jars_incomplete};"Jars to look at again, see their row: "&'
               f'({queries}-{at.jars_incomplete})&".";"")',
               None, to=f"Q{L.LINE + 8}", **box)
    pad.result("cuts_check",
               f'IF(OR({at.jars_complete}=0;{at.run_kind}="stripping run";'
               f'{at.jars_complete}={at.cuts_chosen});"";"Jars without a cut: "&'
               f'({at.jars_complete}-{at.cuts_chosen})&". The table of cuts waits for them.")',
               None, to=f"Q{L.LINE + 10}", **box)
    for name in ("charge_check", "jars_check", "cuts_check"):
        cell = L.names[name]
        sheet.condition(cell, f'LEN({cell})>0', "Jarbook small caution")


def in_short(pad):
    pad.section(f"R{L.HEAD}", f"T{L.HEAD}", "The run in short")
    waits = [f"{at.jars_ready}=0"]
    clock = jars(L.CLOCK)
    lines = (
        ("sum_charge_volume", "Charge", at.charge_volume, "0.00", "L at 20 °C"),
        ("sum_charge_strength", "Charge, strength", at.charge_strength, "0.00", "% vol"),
        ("sum_charge_alcohol", "Pure alcohol charged", at.charge_alcohol, "0.00", "L"),
        ("sum_collected_alcohol", "Pure alcohol collected",
         blank_if(*waits) + f"SUM({jars(L.ALCOHOL)})/1000)", "0.00", "L"),
        ("sum_recovery", "Recovery",
         blank_if(*waits, *empty(at.charge_volume)) +
         f"SPIRIT.RECOVERY({at.charge_volume}*1000;{at.charge_strength};{jars(L.VOLUME)};{jars(L.STRENGTH)}))",
         "0.0%", "of the charge"),
        ("sum_hearts_share", "Hearts", at.cut_hearts_share, "0.0%", "of the collected"),
        ("sum_stages", "Stages, from the jars", at.fitted_stages, "0.00", "1 is a plain pot"),
        ("sum_hours", "First drip to last jar",
         blank_if(*empty(at.first_drip), f"COUNTA({clock})=0", f"COUNT({clock})<COUNTA({clock})") +
         f"MAX({jars(L.SINCE)})/60)", "0.0", "hours"),
        ("sum_product_volume", "Product", at.product_volume, "0.00", "L at 20 °C"),
        ("sum_product_strength", "Product, strength", at.product_strength, "0.00", "% vol"),
        ("sum_unaccounted", "Unaccounted for", at.balance_unaccounted, "0.00", "L pure alcohol"))
    for i, (name, label, formula, fmt, unit) in enumerate(lines):
        row = L.LINE + i
        pad.label(f"R{row}", f"R{row}", label)
        if formula.startswith("$"):
            formula = f'IF({formula}="";"";{formula})'
        pad.result(name, formula, fmt, style="Jarbook result")
        pad.unit(f"T{row}", unit)


def fill(pad):
    title(pad)
    the_run(pad)
    still(pad)
    to_look_at(pad)
    in_short(pad)
