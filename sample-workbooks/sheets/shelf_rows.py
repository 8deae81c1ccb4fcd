"""What lots and movements of the Shelf have in common: boxes read by place, what counts of each, what is said of one
that cannot be used, and strength and volume from alcohol and mass."""
from odf.formula import plain
from odf.workbook import Validation, one_of

from common.texts import in_formula, texts
from sheets.shelf_places import POINT, PURE

T = texts("shelf")
SAY, SLIP = T["say"], texts("boxes")["say"]
FIRST_DAY, LAST_DAY = 36526, 73050       # 2000 to 2099, as Calc counts days
MOST = 1000000


def say(key, **places):
    return in_formula(SAY[key], **places)


def number(cell, low, high, share=False):
    """The number in a box if it is one from low to high. MEDIAN takes no notice of a text or a blank that it is
    referred to: then the middle comes, which is neither."""
    wrong = f"MEDIAN({cell};{plain(low)};{plain(high)})<>{cell}"
    if share:
        wrong = f"OR({wrong};AND({cell}>0;{cell}<1))"
    return f'IFERROR(IF({cell}="";"";IF({wrong};"";{cell}));"")'


def day(cell):
    return f'IFERROR(IF({cell}="";"";IF(MEDIAN({cell};{FIRST_DAY};{LAST_DAY})<>{cell};"";INT({cell})));"")'


def name(cell):
    """A name as it is looked for: without blanks around it, a text even where digits were typed."""
    return f'IFERROR(TRIM({cell})&"";"")'


def word(cell, words):
    """The place of a word in its list, 0 if it is not there."""
    listed = "{" + "|".join(f'"{w}"' for w in words) + "}"
    return f"IFERROR(MATCH(TRIM({cell});{listed};0);0)"


def first_bad(boxes):
    """The first box that is filled and does not count: (box, the test that it counts)..."""
    out = "0"
    for i, (cell, counts) in reversed(list(enumerate(boxes, 1))):
        out = f'IF(IFERROR(AND({cell}<>"";NOT({counts}));TRUE());{i};{out})'
    return out


def slip(bad, typed, kinds, labels):
    """What to say of the box number `bad`, whose content stands in `typed` (nothing for an error).
    `kinds`: "word", "date", or (low, high, share) of each box."""
    bare = f'SUBSTITUTE({typed};"%";"")'
    swapped = f'IF({POINT}=".";SUBSTITUTE({bare};",";".");SUBSTITUTE({bare};".";","))'
    text = (f'IF(ISNUMBER(IFERROR(NUMBERVALUE({swapped};{POINT});""));{in_formula(SLIP["text_number"], typed=typed, number=swapped)};'
            f'{in_formula(SLIP["text"], typed=typed)})')
    said = []
    for kind in kinds:
        if kind == "word":
            said.append(in_formula(SLIP["not_listed"], typed=f'{typed}&""'))
        elif kind == "date":
            said.append(say("date", typed=f'{typed}&""'))
        else:
            low, high, share = kind
            out = in_formula(SLIP["range"], typed=typed, low=plain(low), high=plain(high))
            if high < FIRST_DAY:
                out = f'IF(AND({typed}>={FIRST_DAY};{typed}<={LAST_DAY});{in_formula(SLIP["date"])};{out})'
            if share:
                out = (f'IF(AND({typed}>0;{typed}<1);'
                       f'{in_formula(SLIP["share"], typed=typed, percent=f"ROUND(100*{typed};6)")};{out})')
            said.append(f"IF(ISTEXT({typed});{text};{out})")
    label = f'CHOOSE({bad};{";".join(chr(34) + label + chr(34) for label in labels)})'
    return say("box", box=label, what=f'IF({typed}="";{in_formula(SLIP["an_error"])};CHOOSE({bad};{";".join(said)}))')


def one_after_another(*tests, last='""'):
    """The text of the first test that holds: (condition, text)..."""
    out = last
    for condition, text in reversed(tests):
        out = f"IF({condition};{text};{out})"
    return out


# What a lot is made of is held as alcohol (L) and mass (kg in vacuo), which add exactly; below this it is empty.
NOTHING = "1E-9"


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
