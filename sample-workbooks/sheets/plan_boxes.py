"""The boxes of the season plan: where they stand, what they accept, what counts of each, what is wrong with it.

As on a run sheet, boxes are read by their place, in a range that begins and ends with protected cells: cut and
drag take references to single cells along. Beside each box stands in grey what counts of it (its number, the
usual value where it is blank, nothing where it cannot be used), and then its unit or what is wrong with it.
All other formulas read the grey cells only.
"""
from odf.formula import plain, stored
from odf.workbook import Validation

from common.texts import in_formula, texts
from sheets.boxes import between

SHEET = "Season plan"
TITLE, LOOK, WANTED = 1, 2, 3
LINE, LINES = 4, 10
CUTS = LINE + LINES              # band
CUT_LINE, CUT_LINES = CUTS + 1, 4
RESULTS = CUT_LINE + CUT_LINES   # band: the foot of the boxes
# Label from, to; box; what counts; unit or words from, to; beside the page: what is wrong
LEFT, RIGHT = ("A", "C", "D", "E", "F", "I", "T"), ("J", "L", "M", "N", "O", "R", "U")
NAMES, FIGURES = "V", "W"        # beside the page: what else is counted with, by name
BESIDE = 4                       # its first row
# The number of the row above the boxes; what hangs on it notices that a drag is undone (see run_sheet/read.py)
ABOVE = f"$T${RESULTS}"


def _places(side, first, names):
    return {name: (side, first + i) for i, name in enumerate(names)}


PLACES = (
    _places(LEFT, LINE, ("bottles_wanted", "bottle_size", "bottling_strength", "wash_volume", "wash_strength",
                         "low_volume", "low_strength", "feints_volume", "feints_strength", "strength_error"))
    | _places(RIGHT, LINE, ("still_name", "boiler_volume", "watts", "fill", "stages", "stages_low", "stages_high",
                            "start_temperature", "cooling_rise", "metal"))
    | _places(LEFT, CUT_LINE, ("strip_stop", "charge_limit", "foreshots", "heads_return"))
    | _places(RIGHT, CUT_LINE, ("hearts_from", "hearts_to", "spirit_stop", "tails_return")))
NEEDED = {"bottles_wanted", "wash_volume", "wash_strength", "boiler_volume", "watts"}


def used(name):
    side, row = PLACES[name]
    return f"${side[3]}${row}"


def wrong(name):
    side, row = PLACES[name]
    return f"${side[6]}${row}"


def box(name):
    """The box, by its place; for formulas in its own row."""
    column = PLACES[name][0][2]
    return f"INDEX(${column}${WANTED}:${column}${RESULTS};ROW()-{ABOVE})"


# Name: least, most, usual value (a formula) or None, unit, format; share: a figure between 0 and 1 is refused,
# as a per cent sign typed or a share meant. Volumes end where dates begin, as Calc counts them.
def numbers(singles):
    return {
        "bottles_wanted": (1, 30000, None, "bottles", "0", False),
        "bottle_size": (5, 5000, "500", "millilitre", "0", False),
        "bottling_strength": (15, 96, "40", "strength", "0.0", True),
        "wash_volume": (0.1, 30000, None, "litre20", "0.0", False),
        "wash_strength": (3, 25, None, "strength", "0.0", True),
        "low_volume": (0.01, 30000, None, "litre20", "0.0", False),
        "low_strength": (5, 95, None, "strength", "0.0", True),
        "feints_volume": (0.01, 30000, None, "litre20", "0.0", False),
        "feints_strength": (5, 95, None, "strength", "0.0", True),
        "strength_error": (0, 2, "0.3", "strength", "0.0", False),
        "boiler_volume": (0.1, 10000, None, "litre", "0.0", False),
        "watts": (10, 1e6, None, "watt", "0", False),
        "fill": (25, 100, "75", "percent", "0", True),
        "stages": (1, 10, f'IF(ISNUMBER({singles["known_stages"]});{singles["known_stages"]};1.15)', "stages", "0.00", False),
        "stages_low": (1, 10, f'IF(ISNUMBER({singles["known_low"]});{singles["known_low"]};MIN(1;{used("stages")}))',
                       "range", "0.00", False),
        "stages_high": (1, 10, f'IF(ISNUMBER({singles["known_high"]});{singles["known_high"]};MAX(1.4;{used("stages")}))',
                        "range", "0.00", False),
        "start_temperature": (0.1, 60, "20", "celsius", "0", False),
        "cooling_rise": (1, 80, "30", "kelvin", "0", False),
        "metal": (0, 5000, "0", "kilogram", "0.0", False),
        "strip_stop": (1, 50, "5", "running", "0.0", True),
        "charge_limit": (5, 40, "40", "strength", "0.0", True),
        "foreshots": (0, f'IF(ISNUMBER({singles["usual_charge"]});ROUND(50*{singles["usual_charge"]};0);100000)', f'ROUND(5*{singles["usual_charge"]};0)', "thrown", "0", False),
        "heads_return": (0, 100, "100", "percent", "0", True),
        "hearts_from": (2, 97, f'MAX(3;ROUND(2*{singles["first_strength"]};0)/2-1)', "running", "0.0", True),
        "hearts_to": (1.5, 97, f'MAX(2;{used("hearts_from")}-14)', "running", "0.0", True),
        "spirit_stop": (1, 96, "20", "running", "0.0", True),
        "tails_return": (0, 100, "100", "percent", "0", True)}


def _slip(cell, low, high, share, point):
    """What to say of a cell that holds something else than wanted."""
    words = texts("season_plan")["say"]
    bare = f'SUBSTITUTE({cell};"%";"")'
    swapped = f'IF({point}=".";SUBSTITUTE({bare};",";".");SUBSTITUTE({bare};".";","))'
    text = (f'IF(ISNUMBER(IFERROR(NUMBERVALUE({swapped};{point});""));'
            f'{in_formula(words["text_number"], typed=cell, number=swapped)};{in_formula(words["text"], typed=cell)})')
    most = plain(high)
    number = in_formula(words["range"], typed=cell, low=plain(low), high=most)
    number = f'IF(AND({cell}>=36526;{cell}<=73050);{in_formula(words["date"])};{number})'
    if share:
        number = (f'IF(AND({cell}>0;{cell}<1);{in_formula(words["share"], typed=cell, percent=f"ROUND(100*{cell};6)")};'
                  f'{number})')
    return f"IF(ISTEXT({cell});{text};{number})"


def _number_box(sheet, name, entry, singles, value):
    words, (side, row) = texts("season_plan"), PLACES[name]
    low, high, usual, unit, fmt, share = entry
    cell, counts, why = box(name), f"{side[3]}{row}", f"{side[6]}{row}"
    sheet.put(f"{side[2]}{row}", value, fmt=fmt if fmt != "0" else "general",
              style="Jarbook input needed" if name in NEEDED else "Jarbook input",
              validation=Validation(*words["help"][name]))
    # MEDIAN takes no notice of a text or a blank that it is referred to: then the middle comes, which is neither.
    refused = f"MEDIAN({cell};{plain(low)};{plain(high)})<>{cell}"
    if share and low == 0:
        refused = f"OR({refused};AND({cell}>0;{cell}<1))"
    blank = '""' if usual is None else f'IFERROR({usual};"")'
    sheet.put(counts, formula=f'IFERROR(IF({cell}="";{blank};IF({refused};"";{cell}));"")', fmt=fmt, style="Jarbook plan counts")
    sheet.put(why, style="Jarbook aside", formula=(
        f'IFERROR(IF(OR({cell}="";ISNUMBER(${counts}));"";{_slip(cell, low, high, share, singles["point"])});'
        f'{in_formula(words["say"]["an_error"])})'))
    sheet.put(f"{side[4]}{row}", style="Jarbook plan words", to=f"{side[5]}{row}",
              formula=f'IF({why}="";{in_formula(words["unit"][unit])};{why})')
    sheet.condition(f"{side[4]}{row}", f'${side[6]}${row}<>""', "Jarbook query check")
    sheet.condition(f"{side[2]}{row}", f'${side[6]}${row}<>""', "Jarbook query input")


def _one_of_cells(cells):
    return f"of:cell-content-is-in-list({stored(cells)})"


def _still_box(sheet, singles, value, stills):
    """The still's name, in a longer box: a list of those in Runs, or any other."""
    words, (side, row) = texts("season_plan"), PLACES["still_name"]
    title, text = words["help"]["still_name"]
    sheet.put(f"{side[2]}{row}", value, style="Jarbook input text", to=f"O{row}",
              validation=Validation(title, text, _one_of_cells(f"$'{SHEET}'.{stills}"), words["say"]["still_new"], stop=False))
    known = in_formula(words["words"]["from_runs"], count=singles["known_runs"], stages=f'FIXED({singles["known_stages"]};2)',
                       low=f'FIXED({singles["known_least"]};2)', high=f'FIXED({singles["known_most"]};2)')
    one = in_formula(words["words"]["from_run"], stages=f'FIXED({singles["known_stages"]};2)')
    sheet.put(f"P{row}", style="Jarbook plan words", to=f"{side[5]}{row}", formula=(
        f'IF({singles["still"]}="";"";IF(N({singles["known_runs"]})=0;{in_formula(words["words"]["no_runs"])};'
        f'IF({singles["known_runs"]}=1;{one};{known})))'))


def fill(sheet, data, singles, stills):
    """All boxes, with `data` in them; `singles` are cells beside the page by name."""
    words = texts("season_plan")
    entries = numbers(singles)
    sheet.put(ABOVE.replace("$", ""), style="Jarbook aside",
              formula=f"ROW($A${WANTED})-1+0*ROWS($A${WANTED}:$R${RESULTS})")
    if set(data) - set(PLACES):
        raise ValueError(f"no such box: {set(data) - set(PLACES)}")
    for name, (side, row) in PLACES.items():
        style = "Jarbook needed label" if name in NEEDED else "Jarbook label"
        sheet.put(f"{side[0]}{row}", words["label"][name], style=style)
        for column in between(side[0], side[1]):
            sheet.put(f"{column}{row}", style=style)
        sheet.heights[row] = 6.3
        if name == "still_name":
            _still_box(sheet, singles, data.get(name), stills)
        else:
            _number_box(sheet, name, entries[name], singles, data.get(name))


def first_wrong():
    """The first box that cannot be used, named, or a blank."""
    words = texts("season_plan")
    names = [name for name in PLACES if name != "still_name"]
    first = '""'
    for name in reversed(names):
        said = in_formula(words["say"]["box"], label=f'"{words["label"][name]}"', what=wrong(name))
        first = f'IF({wrong(name)}<>"";{said};{first})'
    return first
