"""What the rows of the Shelf say of themselves: each row has a number for its words, the words stand once in cells beside
the page, and a short formula puts what was typed, and one figure, into their places. Sentences built in every row
made the Shelf a third of what a run log takes to load."""
import re

from odf.formula import plain

from common.texts import in_formula, texts
from sheets.shelf_places import OTHER_POINT, POINT

T = texts("shelf")
SAY, SLIP = T["say"], texts("boxes")["say"]
FIRST_DAY, LAST_DAY = 36526, 73050       # 2000 to 2099, as Calc counts days

# A sentence in a cell has two places: {typed}, what a person wrote (or the first of two figures), and {number}.
_TYPED = {"typed", "name"}


def _placed(sentence, first=None):
    return re.sub(r"\{([a-z_]+)\}", lambda m: "{typed}" if m[1] in _TYPED or m[1] == first else "{number}", sentence)


def _range(label, low, high):
    """A formula where the locale decides how the limit is written."""
    text = SLIP["range"].replace("{high}", plain(high))
    if low == int(low):
        return label(text.replace("{low}", plain(low)))
    return "=" + in_formula(label(text), typed='"{typed}"', low=plain(low))


def _slips(title, kind):
    """The sentences on one box: what `Said.slip` counts. `kind` is "word", "date", or (low, high, share)."""
    def label(what):
        return SAY["box"].replace("{box}", title).replace("{what}", what)

    if kind == "word":
        return [label(SLIP["an_error"]), label(SLIP["not_listed"])]
    if kind == "date":
        return [label(SLIP["an_error"]), label(SAY["date"])]
    low, high, share = kind
    said = [label(SLIP["an_error"]), label(SLIP["text"]), label(_placed(SLIP["text_number"])), _range(label, low, high)]
    if high < FIRST_DAY:
        said.append(label(SLIP["date"]))
    return said + [label(_placed(SLIP["share"]))] if share else said


class Said:
    """The sentences of one table, from cell `column``top` down: those on boxes that cannot be used, by box, then `keys`.
    A key "where: waits" is the sentence `waits` once more, of another name."""

    def __init__(self, column, top, headings, kinds, keys):
        self.kinds, self.keys, self.bases, self.sentences = kinds, list(keys), [], []
        for heading, kind in zip(headings, kinds):
            self.bases.append(len(self.sentences))
            self.sentences += _slips(T["heading"][heading].replace("\n", " "), kind)
        self.slips = len(self.sentences)
        for key in self.keys:
            sentence = SAY[key.rpartition(": ")[2]]
            self.sentences.append(_placed(sentence, "more" if "{there}" in sentence else None))
        self.column, self.top = column, top
        self.cells = f"${column}${top}:${column}${top + len(self.sentences) - 1}"

    def put(self, sheet):
        for i, sentence in enumerate(self.sentences):
            text, formula = (None, sentence[1:]) if sentence.startswith("=") else (sentence, None)
            sheet.put(f"{self.column}{self.top + i}", text, formula=formula, style="Jarbook unit")

    def code(self, key):
        return self.slips + self.keys.index(key) + 1

    def slip(self, bad, typed):
        """The number of what to say of the box number `bad`, whose content stands in `typed` (nothing for an error)."""
        numbers = [i for i, kind in enumerate(self.kinds, 1) if isinstance(kind, tuple)]
        dated = [i for i in numbers if self.kinds[i - 1][1] < FIRST_DAY]
        share, = (i for i in numbers if self.kinds[i - 1][2])
        last = f"4+({bad}>={dated[0]})*(({typed}>={FIRST_DAY})*({typed}<={LAST_DAY})+2*({bad}={share})*({typed}>0)*({typed}<1))"
        text = f"IF(ISERROR(NUMBERVALUE({swapped(typed)};{POINT}));2;3)"
        return (f'CHOOSE({bad};{";".join(map(str, self.bases))})+IF({typed}="";1;IF({bad}<{numbers[0]};2;'
                f"IF(ISTEXT({typed});{text};{last})))")

    def words(self, code, typed, number):
        """The sentence of that number. What was typed comes last: nothing in it is taken for a place."""
        return f'IF({code}>0;SUBSTITUTE(SUBSTITUTE(INDEX({self.cells};{code});"{{number}}";{number});"{{typed}}";{typed});"")'


def swapped(typed):
    """A text with the other decimal sign in place of the one that is none here; per cent signs left out."""
    return f'SUBSTITUTE(SUBSTITUTE({typed};"%";"");{OTHER_POINT};{POINT})'


def right(typed):
    """What would be right, as a text: with the other decimal sign, or per cent of a share."""
    return f'IF(ISTEXT({typed});{swapped(typed)};ROUND(100*{typed};6)&"")'
