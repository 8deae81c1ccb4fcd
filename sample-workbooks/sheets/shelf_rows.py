"""What lots and movements of the Shelf have in common: boxes read by place, what counts of each, which one cannot be
used, and strength and volume from alcohol and mass. Every letter of a row is read a hundred and twenty times: a
formula names a box as seldom as can be, and stands as Calc would write it."""
from odf.formula import plain
from odf.workbook import Validation, one_of

from common.texts import in_formula
from sheets import shelf_places as P
from sheets.shelf_places import PURE
from sheets.shelf_said import FIRST_DAY, LAST_DAY, SAY, T

MOST = 1000000


def say(key, **places):
    return in_formula(SAY[key], **places)


def number(cell, low, high, share=False):
    """The number in a box if it is one from low to high. MEDIAN takes no notice of a text or a blank that it is
    referred to: then the middle comes, which is neither, and the number is divided by FALSE."""
    return f'IFERROR({_in_range(cell, low, high)}{f"/NOT(AND({cell}>0;{cell}<1))" if share else ""};"")'


def number_or(words, cell, low, high):
    """The same, or that one word."""
    return f'IFERROR(IF(LOWER(TRIM({cell}))="{words}";"{words}";{_in_range(cell, low, high)});"")'


def _in_range(cell, low, high):
    return f"{cell}/(MEDIAN({cell};{plain(low)};{plain(high)})={cell})"


def day(cell):
    return f'IFERROR(INT({_in_range(cell, FIRST_DAY, LAST_DAY)});"")'


def name(cell):
    """A name as it is looked for: without blanks around it, a text even where digits were typed."""
    return f'IFERROR(TRIM({cell})&"";"")'


def word(cell, words):
    """The place of a word in a list that stands in cells."""
    return f"MATCH(TRIM({cell});{words};0)"


def first_bad(boxes):
    """The first box that is filled and does not count: (box, what is true when nothing counts of it)..."""
    out = "0"
    for i, (cell, nothing) in reversed(list(enumerate(boxes, 1))):
        out = f'IF(IFERROR(({nothing})*({cell}<>"");1);{i};{out})'
    return out


def what_is_typed(block, row, bad, boxes):
    """The content of the box number `bad` of these columns, nothing for an error."""
    places = ";".join(str(P.BOXES.index(column) + 1) for column in boxes)
    return f'IF({bad}=0;"";IFERROR(INDEX({block.boxes};$A{row}+1;CHOOSE({bad};{places}));""))'


def one_after_another(*tests, last="0"):
    """The result of the first test that holds: (condition, result)..."""
    out = last
    for condition, text in reversed(tests):
        out = f"IF({condition};{text};{out})"
    return out


# What a lot is made of is held as alcohol (L) and mass (kg in vacuo), which add exactly; below this it is empty.
NOTHING = "0.000000001"     # as Calc writes it


def strength_of(alcohol, mass):
    """% vol of so much alcohol in so much mass."""
    return (f'IF(ABS({alcohol})<{NOTHING};0;SPIRIT.CONVERT(MIN(100;{alcohol}*{PURE}/10/{mass});"%mas";"%vol"))')


def volume_of(mass, strength):
    return f"1000*{mass}/SPIRIT.DENSITY({strength};20)"


def mass_of(volume, strength):
    return f"{volume}*SPIRIT.DENSITY({strength};20)/1000"


def words_box(title, text, words=None, cells=None, error=None):
    """Help on a box, with a list of words or of the words in cells."""
    if words:
        return Validation(title, text, one_of(*words))
    if cells:
        return Validation(title, text, f"of:cell-content-is-in-list({cells})", error, stop=False)
    return Validation(title, text)


def shown_day(cell):
    return f'TEXT({cell};"YYYY-MM-DD")'


def heads(sheet, block, columns, beside):
    """The headings of a block, on the page and beside it ({key: column}), and the thin rows that its boxes lie between."""
    for column, key in columns:
        sheet.put(f"{column}{block.head}", T["heading"][key] if key else None, style="Jarbook heading")
    for key, column in beside.items():
        sheet.put(f"{column}{block.head}", key.replace("_", " "), style="Jarbook unit")
    for column in "ABCDEFGHIJ":
        sheet.put(f"{column}{block.top}", style="Jarbook section rest")
        sheet.put(f"{column}{block.foot}", style="Jarbook section rest")
    sheet.heights |= {block.head: 9, block.top: 1.2, block.foot: 1.2}
