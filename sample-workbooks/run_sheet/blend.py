"""Section 5, Blend and bottle: the jars kept, water by volume and by mass, bottles, the label."""
from . import layout as L
from .layout import at, jars
from .pad import blank_if, empty

TAKEN = f"{jars(L.TAKE)};{jars(L.STRENGTH)}"
# Beside the page: lot and water as two lists, for the blend of both
SPIRIT_ROW, WATER_ROW = L.AFTER_LINE, L.AFTER_LINE + 1


def lot(pad):
    wait = blank_if(f"{at.jars_ready}=0", f"SUM({jars(L.WEIGHT)})=0")
    lines = (
        ("bottling_strength", "Bottling strength", None, "0.0", "% vol"),
        ("wished_volume", "Volume wanted, or all", None, "0.00", "L"),
        ("whole_jars", "Only whole jars for it", None, None, "yes or no"),
        ("kept_volume", "Jars taken, together", wait + f"SPIRIT.BLENDVOLUME({TAKEN})/1000)", "0.00", "L at 20 °C"),
        ("kept_strength", "their strength", wait + f"SPIRIT.BLENDSTRENGTH({TAKEN}))", "0.00", "% vol"),
        ("product_water", "Water to add", blank_if(*empty(at.kept_volume, at.bottling_strength)) +
         f'IF({at.wished_volume}="";SPIRIT.WATERTOADD({at.kept_volume};{at.kept_strength};'
         f"{at.bottling_strength});$AD${L.JAR_END + 1}/1000))", "0.00", "L at 20 °C"),
        ("product_water_mass", "the same water, weighed", blank_if(*empty(at.product_water)) +
         f"SPIRIT.MASS({at.product_water};0))", "0.00", "kg"),
        ("product_volume", "Finished spirit", blank_if(*empty(at.kept_volume)) +
         f"SPIRIT.BLENDVOLUME($W${SPIRIT_ROW}:$W${WATER_ROW};$X${SPIRIT_ROW}:$X${WATER_ROW}))", "0.00",
         "L at 20 °C"),
        ("product_strength", "its strength", blank_if(*empty(at.kept_volume)) +
         f"SPIRIT.BLENDSTRENGTH($W${SPIRIT_ROW}:$W${WATER_ROW};$X${SPIRIT_ROW}:$X${WATER_ROW}))", "0.00",
         "% vol"))
    for i, (name, label, formula, fmt, unit) in enumerate(lines):
        row = L.AFTER_LINE + i
        pad.label(f"I{row}", f"K{row}", label)
        if formula:
            pad.result(name, formula, fmt,
                       style="Jarbook result" if name in ("product_water", "product_volume") else "Jarbook computed")
        else:
            pad.entry(name, fmt)
        pad.unit(f"M{row}", unit)
    aside = dict(style="Jarbook aside", fmt="0.000")
    pad.computed(f"W{SPIRIT_ROW}", blank_if(*empty(at.kept_volume)) + f"{at.kept_volume})", **aside)
    pad.computed(f"X{SPIRIT_ROW}", blank_if(*empty(at.kept_strength)) + f"{at.kept_strength})", **aside)
    pad.computed(f"W{WATER_ROW}", blank_if(*empty(at.product_water)) + f"{at.product_water})", **aside)
    pad.computed(f"X{WATER_ROW}", blank_if(*empty(at.product_water)) + "0)", **aside)


def bottles(pad):
    measured = empty(at.bottled_reading, at.bottled_temperature)
    lines = (
        ("bottle_size", "Bottle", None, "0", "mL"),
        ("bottles", "Bottles", blank_if(*empty(at.product_volume, at.bottle_size)) +
         f"INT({at.product_volume}*1000/{at.bottle_size}+1E-9))", "0", "full"),
        ("bottles_rest", "left over", blank_if(*empty(at.bottles)) +
         f"{at.product_volume}*1000-{at.bottles}*{at.bottle_size})", "0", "mL"),
        ("label_tolerance", "Label, tolerance ±", None, "0.00", "% vol"),
        ("bottled_reading", "Reading, a day after", None, "0.0", "% vol"),
        ("bottled_temperature", "Temperature", None, "0.0", "°C"),
        ("bottled_strength", "Strength, measured", blank_if(*measured) +
         f"SPIRIT.STRENGTH({at.bottled_reading};{at.bottled_temperature}))", "0.00", "% vol"),
        ("bottled_uncertainty", "uncertain by ± (k = 2)",
         blank_if(*measured, *empty(at.reading_tolerance, at.temperature_tolerance)) +
         f"SPIRIT.UNCERTAINTY({at.bottled_reading};{at.bottled_temperature};{at.reading_tolerance};"
         f"{at.temperature_tolerance}))", "0.00", "% vol"))
    for i, (name, label, formula, fmt, unit) in enumerate(lines):
        row = L.AFTER_LINE + i
        pad.label(f"N{row}", f"O{row}", label)
        if formula:
            pad.result(name, formula, fmt, style="Jarbook result" if name == "bottles" else "Jarbook computed")
        else:
            pad.entry(name, fmt)
        pad.unit(f"Q{row}", unit)
    off = f"ABS({at.bottled_strength}-{at.bottling_strength})"
    pad.result("label_verdict",
               blank_if(*empty(at.bottled_strength, at.bottled_uncertainty, at.bottling_strength, at.label_tolerance)) +
               f'IF({off}+{at.bottled_uncertainty}<={at.label_tolerance};"Within the label\'s tolerance.";'
               f'IF({off}-{at.bottled_uncertainty}>{at.label_tolerance};"Outside the label\'s tolerance.";'
               f'"Cannot be told with these instruments.")))', None,
               to=f"Q{L.AFTER_LINE + 8}", style="Jarbook computed text")
    cell = L.names["label_verdict"]
    pad.sheet.condition(cell, f'LEFT({cell};6)="Outsid"', "Jarbook query")
    pad.sheet.condition(cell, f'LEFT({cell};6)="Cannot"', "Jarbook query")
    pad.sheet.condition(cell, f'LEFT({cell};6)="Within"', "Jarbook good")


def fill(pad):
    pad.section(f"I{L.AFTER}", f"Q{L.AFTER}", "5  Blend and bottle")
    for first, last, text in (("I", "K", "The lot"), ("L", None, ""), ("M", None, ""),
                              ("N", "O", "Bottles and label"), ("P", None, ""), ("Q", None, "")):
        pad.heading(f"{first}{L.AFTER_HEAD}", text, f"{last}{L.AFTER_HEAD}" if last else None,
                    paragraph={"fo:text-align": "start"})
    lot(pad)
    bottles(pad)
