"""How formulas read what is typed: by its place, never by a reference to the input cell alone. Cut and
drag take references along, and a formula would go on with the moved cell; a column that begins and
ends with a protected cell cannot be moved as a whole.

Beside each input stands what counts of it (a number in its range, a word of its list), or a blank. All
other formulas read that, so a wrong input makes them wait, and none of them shows an error.

The place is counted from a cell that knows the row above the block, and that cell listens to the whole page: when a drag
of blank cells is undone, Calc 7.4 tells only those who listen to where they came from, not those who
listen to where they had been dropped. So what reads a box must hang on such a cell, too.
"""
from odf.formula import column_name, column_number, plain, split_address

from . import layout as L
from .layout import at
from .texts import T, say

# The pages: each begins with a band and ends with a row that holds no input.
_PAGES = {"above_before": (L.BEFORE, L.STILL - 1), "above_still": (L.STILL, L.JAR_TOP), "above_after": (L.AFTER, L.ALL_LOOK)}


def row_of(name):
    return split_address(L.names[name])[1]


def column_of(name):
    return column_name(split_address(L.names[name])[0])


def box(name):
    """The single box of that name, by its place."""
    return in_row(column_of(name), row_of(name))


def in_row(column, row):
    """What stands in a column outside the jars and lots, for formulas in that row."""
    above, (first, last) = next((name, page) for name, page in _PAGES.items() if page[0] <= row <= page[1])
    return f"INDEX({L.fixed(column, first, last)};ROW()-{getattr(at, above)})"


def places(pad):
    """Where the blocks begin. ROWS listens to the page without looking into any of its cells."""
    for name, (first, _) in _PAGES.items():
        pad.aside(L.names[name], f"ROW($A${first})-1+{_NOTICED}", "0")
    for name, top in (("above_lots", L.LOT_TOP), ("above_jars", L.JAR_TOP)):
        pad.aside(L.names[name], f"ROW($A${top})+{_NOTICED}", "0")


_NOTICED = f"0*ROWS($A$1:${L.LAST_COLUMN}${L.LAST})"


def typed(name):
    """What is typed in a box, for a formula in any row."""
    return box(name).replace("ROW()", f"ROW($A${row_of(name)})", 1)


def jar(column, row, below=1):
    """A column of the jars in this jar's own row; below=0 is the row above it."""
    return f"INDEX({L.jars(column)};$A{row}+{below})" if below else f"INDEX({L.jars(column)};$A{row})"


def jars_so_far(column, row):
    return f"${column}${L.JAR_TOP}:INDEX({L.jars(column)};$A{row}+1)"


def jars_before(column, row):
    return f"${column}${L.JAR_TOP}:INDEX({L.jars(column)};$A{row})"


def lot(column, row):
    return f"INDEX({L.lots(column)};$A{row}+1)"


def number(cell, low, high, zero=True, more=None, default=None, correction=None):
    """The number in a cell if it is one from low to high (and not 0 unless `zero`, nor what `more` is true of), `default` if
    nothing is there, else a blank. A `correction` is added, and what comes of it must lie there, too; if it is blank,
    so is the result. MEDIAN takes no notice of blanks and texts that it is referred to: then the middle comes, which is
    neither, and the number is divided by FALSE. So the cell is named as seldom as can be: these formulas are much of what a
    run sheet takes to load."""
    test = f"{cell}/(MEDIAN({cell};{low};{high})={cell})"
    if correction:
        value = f"({cell}+{correction})"
        test = f"{value}/(MEDIAN({cell};{low};{high})={cell})/(MEDIAN({value};{low};{high})={value})/ISNUMBER({correction})"
    if not zero:
        test += f"/({cell}<>0)"
    if more:
        test += f"/NOT({more})"
    return f'IFERROR(IF({cell}="";{default};{test});"")' if default else f'IFERROR({test};"")'


def word(cell, words, default=None):
    """The word in a cell as the list spells it, `default` if nothing is there, else a blank. Not by HLOOKUP: in an
    imported sheet (Add a run) it finds no text of an array that stands in the formula."""
    listed = "{" + "|".join(f'"{w}"' for w in words) + "}"
    found = f"INDEX({listed};MATCH(TRIM({cell});{listed};0))"
    return f'IFERROR(IF({cell}="";"{default}";{found});"")' if default else f'IFERROR({found};"")'


PLAN_WIDTH = 25


def planned(before):
    """A figure of the blend plan, which comes as one text of equal pieces: a cell for each jar, filled by
    one array formula, would not let rows be inserted. `before` counts the pieces before it."""
    return f"NUMBERVALUE(MID({at.plan_text};{PLAN_WIDTH}*{before}+1;{PLAN_WIDTH});{at.point})"


# --- what is wrong ----------------------------------------------------------------------------------
def swapped(cell):
    """A text with the other decimal sign in place of the one that is none here; per cent signs left out."""
    return f'SUBSTITUTE(TRIM(SUBSTITUTE({cell};"%";""));IF({at.point}=".";",";".");{at.point})'


def text_slip(cell):
    """What to say of a text where a number belongs."""
    return (f"IF(ISNUMBER(IFERROR(NUMBERVALUE({swapped(cell)};{at.point});\"\"));"
            f"{say('text_for_number', typed=cell, number=swapped(cell))};{say('text', typed=cell)})")


def is_date(cell):
    """Days from 2000 to 2050, as Calc counts them."""
    return f"({cell}>=36526)*({cell}<=55153)*({cell}=INT({cell}))"


def day_as_number(cell):
    """Of a day and a month back to the decimal that was typed."""
    return (f"IF({at.month_first};MONTH({cell})&{at.point}&DAY({cell});"
            f"DAY({cell})&{at.point}&MONTH({cell}))")


def date_slip(cell):
    return say("date", typed=cell, number=day_as_number(cell))


def clock_slip(cell):
    """What to say of a text or a number in a box for a clock; with the colon in place of the sign typed, if that is a time."""
    right = f'SUBSTITUTE(SUBSTITUTE(IF(ISTEXT({cell});{cell};FIXED({cell};2;1));".";":");",";":")'
    clear = f"IF(ISTEXT({cell});ISNUMBER(IFERROR(TIMEVALUE({right});\"\"));IFERROR(AND({cell}>=2;{cell}<24;MOD({cell};1)<0.6);FALSE()))"
    return f"IF({clear};{say('clock', typed=cell, number=right)};{say('clock_any')})"


def share_slip(cell):
    return say("share", typed=cell, percent=f"ROUND(100*{cell};6)")


# --- what rows say of themselves: a number for the words, the words in cells beside the page -----------
REASONS = list(T["look"])


def code(key):
    return str(REASONS.index(key) + 1)


def words(sheet):
    for i, text in enumerate(T["look"].values()):
        sheet.put(f"{L.WORDS_COLUMN}{L.WORDS + i}", text, style="Jarbook unit")


_QUOTED = 20  # letters of what was typed: more of a text that was pasted would push the advice out of the cell


def spoken(row):
    """The words of a row, with what was typed and what would be right in their places."""
    listed = L.fixed(L.WORDS_COLUMN, L.WORDS, L.WORDS + len(REASONS) - 1)
    return (f'IF(${L.REASON}{row}=0;"";SUBSTITUTE(SUBSTITUTE(INDEX({listed};${L.REASON}{row});"{{typed}}";'
            f'IFERROR(LEFT(${L.RAW}{row};{_QUOTED});""));"{{number}}";${L.RIGHT}{row}))')


def bad_box(boxes):
    """Which box cannot be used: (number, input cell, what is true when nothing counts of it), the first that applies."""
    formula = "0"
    for number_, cell, nothing in reversed(boxes):
        formula = f"IF(({nothing})>ISBLANK({cell});{number_};{formula})"
    return formula


def unless_waiting(kept, correction):
    """What counts of a box for bad_box: not wrong while it only waits for a correction that cannot be used."""
    return f'IF({correction}="";0;{kept})'


def is_number_text(text):
    return f"ISNUMBER(IFERROR(NUMBERVALUE({text};{at.point});\"\"))"


# --- the single boxes -------------------------------------------------------------------------------
# low, high, 0 allowed; what counts when the box is blank, as a formula
def _stripping(yes, no):
    return f'IF({used("run_kind")}="{T["choice"]["kinds"][0]}";{yes};{no})'


def used(name):
    """Beside the page: what counts of a box."""
    return f"${L.BOXES[column_of(name)][1]}${row_of(name)}"


def wrong(name):
    """Beside the page: a blank, or the label of a box that cannot be used."""
    return f"${L.BOX_FACTS[column_of(name)][0]}${row_of(name)}"


def usable(*boxes):
    """Conditions that hold while one of these boxes holds what cannot be used."""
    return [f'{wrong(name)}<>""' for name in boxes]


def _own_tolerance(known):
    """Of a strength, by itself: how readings scatter, but not less than 0.3 % vol where it was no reading (a wash by its
    gravities is not known better)."""
    scatter = used("reading_scatter")
    return f'IF(OR({scatter}="";N({scatter})=0);"";IF({known};MAX(0.3;{scatter});{scatter}))'


# Boxes to which a correction of an instrument is added
CORRECTED = {"residue_reading": "alcoholometer_correction", "bottled_reading": "alcoholometer_correction",
             "wash_reading": "alcoholometer_correction", "residue_temperature": "thermometer_correction",
             "bottled_temperature": "thermometer_correction", "wash_temperature": "thermometer_correction"}


def reading_correction():
    return used("alcoholometer_correction")


def temperature_correction():
    return used("thermometer_correction")


def stages_known():
    """Stages are known from earlier runs, and of the still that is named here."""
    still, this = (f'TRIM({typed(name)}&"")' for name in ("known_still", "run_still"))
    return f'IF({used("known_stages")}="";FALSE();IFERROR(OR({still}="";{still}={this});FALSE()))'


def numbers():
    measures = f'IF(N({used("volume_tolerance")})=0;"";{used("volume_tolerance")})'
    known = stages_known()
    charge, first = at.charge_volume, at.first_strength
    return {
        "wished_charge": (1, 100, None), "boiler_volume": (0.01, 1e5, None), "watts": (1, 1e6, None),
        "stop_strength": (1, 96, _stripping("5", "20")),
        "foreshots_volume": (0, 1e4, f'IF({charge}="";"";{_stripping("0", f"ROUND({charge}/200;2)")})'),
        "hearts_from": (1, 97, f'IF(ISNUMBER({first});{_stripping(chr(34) * 2, f"MAX(2;ROUND(2*{first};0)/2-2.5)")};"")'),
        "hearts_to": (1, 97, f'IF(ISNUMBER({used("hearts_from")});MAX(1;{used("hearts_from")}-14);"")'),
        # The box decides, then what this still's earlier runs say, then what is usual.
        "stages": (1, 10, f'IF({known};{used("known_stages")};1.15)'),
        "stages_range": (0.001, 5, f'IF({known};{used("known_range")};"")'),
        "known_stages": (1, 10, None), "known_range": (0.001, 5, None),
        "reflux": (0, 100, "0"), "pressure": (600, 1100, "1013.25"),
        "start_temperature": (-20, 100, "20"),
        "reading_tolerance": (0.001, 5, "0.5"), "reading_scatter": (0, 5, "0.1"),
        "temperature_tolerance": (0.001, 10, "0.5"), "volume_tolerance": (0, 20, "1"),
        "alcoholometer_correction": (-5, 5, "0"), "thermometer_correction": (-5, 5, "0"), "cooling_rise": (1, 80, "30"),
        "wash_original": (1, 1.15, None), "wash_original_temperature": (0.1, 40, "20"),
        "wash_final": (0.98, 1.15, None), "wash_final_temperature": (0.1, 40, "20"),
        "wash_sample": (0.001, 1e5, None), "wash_made_up": (0.001, 1e5, None), "wash_reading": (1, 100, None),
        "wash_temperature": (-20, 40, None), "wash_water_boils": (60, 110, None), "wash_boils": (60, 110, None),
        "first_drip": (0, 0.99999, None), "heat_on": (0, 0.99999, None),
        "residue_measured_volume": (0, 1e5, None), "residue_reading": (0, 100, None),
        "residue_temperature": (-20, 40, None), "residue_known": (0, 100, None),
        "held_charge_volume": (0.001, 50, measures), "held_residue_volume": (0.001, 50, measures),
        "held_charge_strength": (0.001, 20, _own_tolerance(f"COUNT({L.lots(L.LOT_KNOWN_USED)})>0")),
        "held_residue_strength": (0.001, 20, _own_tolerance(f'{used("residue_known")}<>""')),
        "bottling_strength": (1, 97, None), "wished_volume": (0.001, 1e5, None),
        "bottle_size": (1, 1e5, None), "label_tolerance": (0.01, 5, "0.3"),
        "bottled_reading": (1, 100, None), "bottled_temperature": (-20, 40, None),
        "duty_rate": (0, 30000, None)}


WORDS = {"run_kind": ("kinds", 1), "jar_unit": ("jar_units", 0), "whole_jars": ("yes_no", 1),
         "duty_unit": ("duty_units", 0)}
_NOT_ZERO = {"residue_temperature", "bottled_temperature", "wash_temperature"}


def judge(sheet):
    """Fills the cells beside the page for every single box."""
    for name, (low, high, default) in numbers().items():
        correction = used(CORRECTED[name]) if name in CORRECTED else None
        typed = _beside(sheet, name, low, high, correction)
        # Watts or litres by the ten thousand may be a date that was typed, but hardly if they are round.
        date = f"({is_date(typed)}*({typed}>43000)*(MOD({typed};1000)<>0))" if high > 36526 else None
        kept = number(typed, plain(low), plain(high), name not in _NOT_ZERO, date, default or '""', correction)
        sheet.put(used(name).replace("$", ""), formula=kept, style="Jarbook aside", fmt="general")
    for name, (words, default) in WORDS.items():
        words = T["choice"][words]
        sheet.put(used(name).replace("$", ""), formula=word(_beside(sheet, name), words, words[default]),
                  style="Jarbook aside", fmt="general")


def _beside(sheet, name, low=None, high=None, correction=None):
    """What is typed in a box (of an error, words: the box alone shows it), its limits, and whether it cannot be used;
    gives the cell of what is typed."""
    row, column = row_of(name), column_of(name)
    (label, kept), (bad, typed, least, most) = L.BOXES[column], L.BOX_FACTS[column]
    sheet.put(f"{typed}{row}", formula=f"IFERROR(IF({box(name)}=\"\";\"\";{box(name)});{say('an_error')})", style="Jarbook aside", fmt="general")
    waits = f'+({correction}="")' if correction else ""
    sheet.put(f"{bad}{row}", style="Jarbook aside",
              formula=f'IF((${kept}{row}<>"")+(${typed}{row}=""){waits};"";${label}{row})')
    if high is not None:
        sheet.put(f"{least}{row}", low, style="Jarbook aside")
        sheet.put(f"{most}{row}", high, style="Jarbook aside")
    return f"${typed}{row}"


def said_of_boxes(sheet):
    """What is wrong with the first box that cannot be used, and how all such are called: words of its own for each box,
    which no sheet ever needs more than a few of, took long to load."""
    first, last = L.ESSENTIAL, L.ALL_LOOK
    bad, *facts = (f"${left}${first}:${right}${last}" for left, right in zip(L.BOX_FACTS["D"], L.BOX_FACTS["M"]))
    place, label, typed, least, most = (f"${column}${first}" for column in L.FIRST_BAD)
    # Line and column within the block, as one number; 0 if there is none
    found = f"SUMPRODUCT(MAX(({bad}<>\"\")*(100000-10*ROW({bad})-COLUMN({bad})+COLUMN({bad.partition(':')[0]}))))"
    sheet.put(place.replace("$", ""), formula=found, style="Jarbook aside", fmt="general")
    line, across = f"INT((100000-{place})/10)-{first - 1}", f"MOD(100000-{place};10)+1"
    for cell, block in zip((label, typed, least, most), (bad, *facts)):
        sheet.put(cell.replace("$", ""), style="Jarbook aside", fmt="general",
                  formula=f'IF({place}=0;"";INDEX({block};{line};{across}))')
    slips = (
        (f"{typed}={say('an_error')}", typed), (f'{most}=""', say("box_word", typed=typed)), (f"{most}<1", clock_slip(typed)),
        (f"ISTEXT({typed})", text_slip(typed)), (is_date(typed), date_slip(typed)),
        (f"AND({least}=1;{most}>90;{typed}>0;{typed}<1)", share_slip(typed)),
        # Within its limits, and yet not used: the 0 of a temperature that is none
        (f"AND({typed}>={least};{typed}<={most})", say("temperature_zero", point=at.point)))
    slip = say("box_range", typed=typed, low=least, high=most)
    for condition, words in reversed(slips):
        slip = f"IF({condition};{words};{slip})"
    names = f'TEXTJOIN(", ";TRUE();{bad})'
    return (f'IF({place}=0;"";{say("box", label=label, what=slip)}&'
            f'IF({names}={label};"";" "&{say("boxes_all", labels=names)}))')


def labels(sheet):
    """What is wrong names a box by the label on the page: it must be there."""
    for name in boxes_in_order():
        cell = sheet.cells.get((row_of(name), column_number(L.BOXES[column_of(name)][0])))
        if not cell or cell.value != T["label"][name]:
            raise ValueError(f"no label of {name} in its row")


def boxes_in_order():
    return list(WORDS) + list(numbers())
