"""The sheet Liqueur and fruit: a liqueur by weight, spirit on fruit, and how far a spirit can be reduced before it
clouds.

All on one page: boxes at the left, what follows from them at the right, cautions and the fruit table beside it.
"""
import csv
import pathlib

from common.texts import in_formula, texts
from sheets import page
from sheets.boxes import Boxes, Choice, Number, Side, between

SHEET = "Liqueur and fruit"
FRUIT = pathlib.Path(__file__).parent.parent / "data" / "fruit.csv"
WIDTHS = {"A:C": 14, "D": 20, "E": 13, "F:I": 12, "J:L": 14, "M": 16, "N:R": 12.5, "S": 3, "T": 26, "U:V": 20, "W:Y": 24}
TITLE, LOOK, TOP = 1, 2, 3
LIQUEUR, FRUITS, CLOUD = 4, 12, 21               # first row of each part, below its band
FOOT = CLOUD + 6
LEFT = Side("A", "C", "D", "E", "F", "I", "T")
POINT, LOOKS = "$V$4", "$V$5"                    # beside the page: the decimal sign, how many cautions
MESSAGES = {name: f"$V${6 + i}" for i, name in enumerate((
    "boxes", "too_strong", "half_liqueur", "half_fruit", "solids", "half_cloud"))}
LIST, LIST_TOP = ("W", "X", "Y"), 4              # the fruit table
BLENDS = 21                                      # lists of what is blended, two rows each

PLACES = {name: (LEFT, first + i) for first, names in (
    (LIQUEUR, ("liqueur_volume", "liqueur_strength", "liqueur_sugar", "liqueur_spirit")),
    (FRUITS, ("fruit", "fruit_mass", "fruit_spirit", "fruit_strength", "fruit_added", "fruit_dry", "fruit_sugar")),
    (CLOUD, ("cloud_sample", "cloud_strength", "cloud_water", "cloud_step", "cloud_margin")))
    for i, name in enumerate(names)}
RESULTS = {name: f"M{first + i}" for first, names in (
    (LIQUEUR, ("spirit_mass", "sugar_mass", "water_mass", "whole_mass", "doubt", "shown")),
    (FRUITS, ("rest_strength", "rest_low", "rest_high", "rest_sugar", "rest_shown", "rest_alcohol")),
    (CLOUD, ("clear", "cloudy", "lowest", "water")))
    for i, name in enumerate(names)}
# Dissolved sugar: L per kg, and what it is known to (core/blending/liqueur.hpp says whence)
SUGAR, SUGAR_DOUBT = "0.62", "0.015"
WATER_SPREAD = 4   # g in 100 g, of published water contents (university extension tables)
SOLIDS = 6         # g per L: above it a strength is measured on a distilled sample (27 CFR 30.31(c))


def fruits():
    with open(FRUIT, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def _list(column):
    return f"${column}${LIST_TOP}:${column}${LIST_TOP + len(fruits()) - 1}"


def _boxes():
    names, dry, sugar = (_list(column) for column in LIST)
    chosen = f"$E${FRUITS}"

    def of_fruit(column):
        return f'INDEX({column};MATCH({chosen};{names};0))'

    kinds = {
        "liqueur_volume": Number(0.001, 10000, None, "litre20", "0.000", needed=True),
        "liqueur_strength": Number(1, 96, None, "strength", share=True, needed=True),
        "liqueur_sugar": Number(0, 500, "0", "sugar", "0", share=True),
        "liqueur_spirit": Number(1, 97, None, "strength", share=True, needed=True),
        "fruit": Choice(names, "listed"),
        "fruit_mass": Number(0.001, 10000, None, "kilogram", "0.000", needed=True),
        "fruit_spirit": Number(0.001, 10000, None, "litre20", "0.000", needed=True),
        "fruit_strength": Number(1, 97, None, "strength", share=True, needed=True),
        "fruit_added": Number(0, 30000, "0", "gram", "0"),
        "fruit_dry": Number(1, 95, of_fruit(dry), "share"),
        "fruit_sugar": Number(0, 80, of_fruit(sugar), "share"),
        "cloud_sample": Number(1, 10000, "20", "millilitre"),
        "cloud_strength": Number(1, 97, None, "strength", share=True, needed=True),
        "cloud_water": Number(0.001, 10000, None, "millilitre", "0.00", needed=True),
        "cloud_step": Number(0.001, 1000, "0.05", "drop", "0.00"),
        "cloud_margin": Number(0, 20, "2", "margin")}
    return Boxes(PLACES, kinds, TOP, FOOT, texts("liqueur_sheet"), POINT)


BOXES = _boxes()
used = BOXES.used


def _blank_while(*cells):
    tests = ";".join(f'{cell}=""' for cell in cells)
    return f'IF(OR({tests});"";{{}})'


def _cell(name):
    return f"$M${RESULTS[name][1:]}"


def _number(cell, digits):
    return f"FIXED({cell};{digits};1)"


def _result(sheet, name, formula, fmt, words):
    row = RESULTS[name][1:]
    sheet.put(f"J{row}", texts("liqueur_sheet")["result"][name], style="Jarbook label")
    for column in between("J", "L"):
        sheet.put(f"{column}{row}", style="Jarbook label")
    sheet.put(RESULTS[name], formula=formula, fmt=fmt, style="Jarbook result")
    sheet.put(f"N{row}", formula=f'IFERROR(IF({_cell(name)}="";"";{words});"")', style="Jarbook plan words", to=f"R{row}")
    sheet.heights[int(row)] = 6.3
    sheet.name_cell(name, RESULTS[name])


def _shown(density, strength, words):
    """What an alcoholometer shows in a liquid of that density at 20 °C, as a result and its words."""
    reading = f"SPIRIT.STRENGTHFROMDENSITY({density};20)"
    return (f'IFERROR({reading};"–")', f'IF(ISNUMBER({{0}});{in_formula(words["shown"], reading=_number("{0}", 1), off=_number(strength + "-{0}", 1))};'
            f'{in_formula(words["off_scale"])})')


def _liqueur(sheet):
    words = texts("liqueur_sheet")["words"]
    volume, strength, sugar, spirit = (used(name) for name in PLACES if name.startswith("liqueur_"))
    possible = f'IF({MESSAGES["too_strong"]}<>"";"";{{}})'.format
    wait = _blank_while(volume, strength, sugar, spirit).format
    recipe = f"SPIRIT.LIQUEUR({volume};{strength};{sugar};{spirit})"
    litres = "SPIRIT.VOLUMEFROMMASS({};{})".format
    spirit_mass, sugar_mass, water_mass, whole = (_cell(name) for name in ("spirit_mass", "sugar_mass", "water_mass", "whole_mass"))
    for i, (name, said) in enumerate((
            ("spirit_mass", in_formula(words["spirit"], litres=_number(litres(spirit_mass, spirit), 3))),
            ("sugar_mass", in_formula(words["kilogram"])),
            ("water_mass", in_formula(words["water"], litres=_number(litres(water_mass, "0"), 3))))):
        _result(sheet, name, wait(possible(f"INDEX({recipe};{i + 1})")), "0.000", said)
    _result(sheet, "whole_mass", f'IF(COUNT({spirit_mass};{sugar_mass};{water_mass})<3;"";{spirit_mass}+{sugar_mass}+{water_mass})',
            "0.000", in_formula(words["whole"], each=_number(f"{whole}/{volume}", 3)))
    _result(sheet, "doubt", f'IF({whole}="";"";{strength}*{sugar}/1000*{SUGAR_DOUBT})', "0.00", in_formula(words["doubt"]))
    # In vacuo: what is weighed, with the air that the balance did not see
    parts = "+".join(f"SPIRIT.DENSITY({s};20)*{litres(m, s)}" for m, s in ((spirit_mass, spirit), (water_mass, "0")))
    shown, said = _shown(f"({parts}+1000*{sugar_mass})/{volume}", strength, words)
    _result(sheet, "shown", f'IF({whole}="";"";{shown})', "0.0", said.replace("{0}", _cell("shown")))


def _fruit(sheet):
    words = texts("liqueur_sheet")["words"]
    mass, spirit, strength, added, dry, sugar = (
        used(f"fruit_{name}") for name in ("mass", "spirit", "strength", "added", "dry", "sugar"))
    cells = _blank_while(mass, spirit, strength, added, dry, sugar)

    def wait(formula):
        return cells.format(f'IF({MESSAGES["solids"]}<>"";"";{formula})')

    # A blend takes lists: spirit and the fruit's water stand below each other beside the page.
    every = f"({mass}*{sugar}*10+{added})"
    litres, alcohol = {}, f"{spirit}*{strength}/100"
    for i, (name, more, grams) in enumerate((("rest_strength", "", every), ("rest_low", f"+{WATER_SPREAD}", every),
                                             ("rest_high", f"-{WATER_SPREAD}", added))):
        first, second = BLENDS + 2 * i, BLENDS + 2 * i + 1
        water = f"SPIRIT.VOLUMEFROMMASS({mass}*(100-{dry}{more})/100;0)"
        for row, volume, strong in ((first, spirit, strength), (second, water, "0")):
            sheet.put(f"W{row}", formula=wait(volume), style="Jarbook aside", fmt="0.0000")
            sheet.put(f"X{row}", formula=wait(strong), style="Jarbook aside", fmt="0.0")
        litres[name] = f"(SPIRIT.BLENDVOLUME($W${first}:$W${second};$X${first}:$X${second})+{grams}/1000*{SUGAR})"
        _result(sheet, name, wait(f"100*{alcohol}/{litres[name]}"), "0.0", in_formula(words[name]))
    volume, per_litre = litres["rest_strength"], _cell("rest_sugar")
    solids = f'IF({per_litre}>0;{in_formula(words["rest_sugar_low"])};{in_formula(words["rest_sugar_none"])})'
    _result(sheet, "rest_sugar", wait(f"{every}/{volume}"), "0",
            f'IF({per_litre}>{SOLIDS};{in_formula(words["rest_sugar_high"])};{solids})')
    density = (f"(SPIRIT.DENSITY({strength};20)*{spirit}+SPIRIT.DENSITY(0;20)*$W${BLENDS + 1}+{every})/{volume}")
    shown, said = _shown(density, _cell("rest_strength"), words)
    _result(sheet, "rest_shown", wait(shown), "0.0", said.replace("{0}", _cell("rest_shown")))
    _result(sheet, "rest_alcohol", wait(alcohol), "0.000", in_formula(words["rest_alcohol"]))


def _cloud(sheet):
    words = texts("liqueur_sheet")["words"]
    sample, strength, water, step, margin = (
        used(f"cloud_{name}") for name in ("sample", "strength", "water", "step", "margin"))
    wait = _blank_while(sample, strength, water, step, margin).format
    # If it clouded at the first addition, the sample as it was is what is still clear.
    first = BLENDS + 6
    for row, last in ((first, f"MAX(0;{water}-{step})"), (first + 2, water)):
        for column, formula in (("W", sample), ("X", strength)):
            sheet.put(f"{column}{row}", formula=wait(formula), style="Jarbook aside", fmt="0.00")
        for column, formula in (("W", last), ("X", "0")):
            sheet.put(f"{column}{row + 1}", formula=wait(formula), style="Jarbook aside", fmt="0.00")
    for name, row in (("clear", first), ("cloudy", first + 2)):
        _result(sheet, name, wait(f"SPIRIT.BLENDSTRENGTH($W${row}:$W${row + 1};$X${row}:$X${row + 1})"), "0.00", in_formula(words[name]))
    lowest, clear = _cell("lowest"), _cell("clear")
    none = in_formula(words["lowest_none"], margin=margin)
    _result(sheet, "lowest", f'IF({clear}="";"";IF({clear}+{margin}>{strength};"–";{clear}+{margin}))', "0.0",
            f'IF(ISNUMBER({lowest});{in_formula(words["lowest"], margin=margin)};{none})')
    _result(sheet, "water", f'IF(NOT(ISNUMBER({lowest}));"";SPIRIT.WATERTOADD(1;{strength};{lowest}))', "0.000",
            in_formula(words["water_each"]))


def _messages(sheet):
    say = texts("liqueur_sheet")["say"]
    volume, strength, sugar, spirit = (used(name) for name in PLACES if name.startswith("liqueur_"))
    strongest = f"{spirit}*(1-{SUGAR}*{sugar}/1000)"

    def half(key, names):
        filled = "+".join(f'({used(name)}<>"")' for name in names)
        return f'IF(AND({filled}>0;{filled}<{len(names)});{in_formula(say[key])};"")'

    mass = used("fruit_mass")
    dry, inside = used("fruit_dry"), used("fruit_sugar")
    formulas = {
        "boxes": BOXES.first_wrong(),
        "half_liqueur": half("half_liqueur", ("liqueur_volume", "liqueur_strength", "liqueur_spirit")),
        "too_strong": f'IF(COUNT({strength};{sugar};{spirit})<3;"";IF({strength}<=({strongest})*(1+1E-12);"";'
                      + in_formula(say["too_strong"], strength=strength, sugar=sugar, spirit=spirit,
                                   strongest=_number(f"ROUNDDOWN({strongest};2)", 2)) + "))",
        "half_fruit": f'IF({mass}="";{half("half_fruit", ("fruit_spirit", "fruit_strength"))};'
                      + half("half_fruit", ("fruit_mass", "fruit_spirit", "fruit_strength", "fruit_dry", "fruit_sugar")) + ")",
        "solids": f'IF(COUNT({dry};{inside})<2;"";IF({dry}>={inside};"";{in_formula(say["solids"], dry=dry, sugar=inside)}))',
        "half_cloud": half("half_cloud", ("cloud_strength", "cloud_water"))}
    for name, formula in formulas.items():
        sheet.put(MESSAGES[name].replace("$", ""), formula=formula, style="Jarbook aside")
    count = "+".join(f'({cell}<>"")' for cell in MESSAGES.values())
    sheet.put(LOOKS.replace("$", ""), formula=count, style="Jarbook aside", fmt="0")
    first = '""'
    for cell in reversed(MESSAGES.values()):
        first = f'IF({cell}<>"";{cell};{first})'
    typed = "+".join(f'({used(name)}<>"")' for name, kind in BOXES.kinds.items() if getattr(kind, "needed", False))
    more = in_formula(texts("boxes")["say"]["more"], count=f"({LOOKS}-1)")
    sheet.put(f"A{LOOK}", style="Jarbook look", to=f"R{LOOK}", formula=(
        f'IF({LOOKS}=0;IF({typed}=0;{in_formula(say["start"])};{in_formula(say["none"])});{first}&IF({LOOKS}>1;{more};""))'))
    sheet.condition(f"A{LOOK}", f"{LOOKS}>0", "Jarbook query look")
    sheet.name_cell("liqueur_look", f"A{LOOK}")


def _beside(sheet):
    words = texts("liqueur_sheet")["beside"]
    sheet.put(f"T{TOP}", words["wrong"], style="Jarbook heading")
    sheet.put(f"V{TOP}", words["figures"], style="Jarbook heading")
    sheet.put(POINT.replace("$", ""), formula='MID(0.5&"";2;1)', style="Jarbook aside")
    for column, key in zip(LIST, ("fruit", "dry", "sugar")):
        sheet.put(f"{column}{TOP}", words[key], style="Jarbook heading")
    for i, entry in enumerate(fruits()):
        row = LIST_TOP + i
        sheet.put(f"W{row}", entry["fruit"], style="Jarbook unit")
        sheet.put(f"X{row}", float(entry["dry_matter"]), style="Jarbook number", fmt="0.0")
        sheet.put(f"Y{row}", float(entry["sugar"]), style="Jarbook number", fmt="0.0")
    sheet.put(f"W{BLENDS - 1}", words["blends"], style="Jarbook heading")
    sheet.put(f"X{BLENDS - 1}", words["strengths"], style="Jarbook heading")


def add(book, data=None):
    """Adds the sheet; `data` fills its boxes by name."""
    words = texts("liqueur_sheet")
    sheet = page.add(book, SHEET, words, WIDTHS)
    page.band(sheet, TOP, words["band"], "liqueur", "weigh")
    page.band(sheet, FRUITS - 1, words["band"], "fruit", "rest")
    page.band(sheet, CLOUD - 1, words["band"], "cloud", "bottle")
    sheet.put(f"A{FOOT}", style="Jarbook unit")
    BOXES.fill(sheet, data or {})
    _liqueur(sheet)
    _fruit(sheet)
    _cloud(sheet)
    _messages(sheet)
    _beside(sheet)
    sheet.put(f"A{LIQUEUR + 4}", words["text"]["liqueur"], style="Jarbook note", to=f"I{LIQUEUR + 5}")
    sheet.put(f"A{FOOT + 1}", words["text"]["fruit"], style="Jarbook note", to=f"R{FOOT + 1}")
    sheet.put(f"A{FOOT + 2}", words["text"]["cloud"], style="Jarbook note", to=f"R{FOOT + 2}")
    sheet.heights |= {TITLE: 8, LOOK: 9, FOOT: 2, FOOT + 1: 8.5, FOOT + 2: 8.5}
    sheet.print_range = f"A1:R{FOOT + 2}"
    sheet.frozen_rows = LOOK
    sheet.cursor = f"D{LIQUEUR}"
    sheet.fold_columns("T", "Y")
    return sheet
