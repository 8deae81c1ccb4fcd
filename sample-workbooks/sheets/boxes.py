"""Boxes to fill in, for sheets that are no run sheet: where they stand, what they accept, what counts of each, what
is wrong with it.

A box is read by its place, in a range that begins and ends with protected cells: cut and drag take references to
single cells along. Beside it stands in grey what counts of it (its number, the usual value where it is blank,
nothing where it cannot be used), and then its unit or what is wrong with it. All other formulas read the grey cells
only.
"""
import dataclasses

from odf.formula import column_name, column_number, plain, stored
from odf.workbook import Validation

from common.texts import in_formula, texts


@dataclasses.dataclass
class Side:
    """The columns of one side of the page: label from, to; box; what counts; unit or words from, to; and, beside the
    page, what is wrong."""
    label: str
    label_end: str
    box: str
    counts: str
    words: str
    words_end: str
    wrong: str


@dataclasses.dataclass
class Number:
    """What a box accepts: least and most, the usual value (a formula) or None, unit (a key of [unit]), format. A
    `share` between 0 and 1 is refused as a per cent sign typed, or a share meant."""
    low: float
    high: float
    usual: str | None
    unit: str
    fmt: str = "0.0"
    share: bool = False
    needed: bool = False


@dataclasses.dataclass
class Choice:
    """A word from a list that stands in cells of the sheet, which a formula names; `usual` is the word that counts
    where the box is blank."""
    cells: str
    unit: str | None = None
    usual: str | None = None


def between(first, last):
    """The columns behind the first one, to the last."""
    return [column_name(i) for i in range(column_number(first) + 1, column_number(last) + 1)]


class Boxes:
    """The boxes of a sheet: `places` are {name: (side, row)}, `kinds` {name: Number or Choice}. The rows `top` and
    `foot` are protected, above the first box and below the last. `words` are the sheet's texts, `point` is a cell
    that holds the decimal sign."""

    def __init__(self, places, kinds, top, foot, words, point):
        self.places, self.kinds, self.top, self.foot, self.words, self.point = places, kinds, top, foot, words, point
        self._say = texts("boxes")["say"]

    def used(self, name):
        side, row = self.places[name]
        return f"${side.counts}${row}"

    def wrong(self, name):
        side, row = self.places[name]
        return f"${side.wrong}${row}"

    def box(self, name):
        """The box, by its place; for formulas in its own row."""
        column = self.places[name][0].box
        return f"INDEX(${column}${self.top}:${column}${self.foot};ROW()-{self.above()})"

    def above(self):
        """A cell with the number of the row above the boxes, beside the page. What hangs on it notices that a drag
        over boxes is undone (see run_sheet/read.py); so must other formulas that read boxes from `top` to `foot`."""
        side, _ = next(iter(self.places.values()))
        return f"${side.wrong}${self.foot}"

    def fill(self, sheet, data):
        """All boxes, with `data` in them."""
        if set(data) - set(self.places):
            raise ValueError(f"no such box: {set(data) - set(self.places)}")
        last = max((side.words_end for side, _ in self.places.values()), key=column_number)
        sheet.put(self.above().replace("$", ""), style="Jarbook aside",
                  formula=f"ROW($A${self.top})-1+0*ROWS($A$1:${last}${self.foot})")
        for name, (side, row) in self.places.items():
            kind = self.kinds[name]
            style = "Jarbook needed label" if getattr(kind, "needed", False) else "Jarbook label"
            sheet.put(f"{side.label}{row}", self.words["label"][name], style=style)
            for column in between(side.label, side.label_end):
                sheet.put(f"{column}{row}", style=style)
            sheet.heights[row] = 6.3
            fill = self._number if isinstance(kind, Number) else self._choice
            fill(sheet, name, kind, data.get(name))
            sheet.name_cell(name, f"{side.box}{row}")
            sheet.name_cell(f"{name}_counts", f"{side.counts}{row}")
            sheet.name_cell(f"{name}_words", f"{side.words}{row}")

    def _number(self, sheet, name, kind, value):
        side, row = self.places[name]
        cell, low, high = self.box(name), plain(kind.low), plain(kind.high)
        sheet.put(f"{side.box}{row}", value, fmt=kind.fmt if kind.fmt != "0" else "general",
                  style="Jarbook input needed" if kind.needed else "Jarbook input",
                  validation=Validation(*self.words["help"][name]))
        # MEDIAN takes no notice of a text or a blank that it is referred to: then the middle comes, which is neither.
        refused = f"MEDIAN({cell};{low};{high})<>{cell}"
        if kind.share and kind.low == 0:
            refused = f"OR({refused};AND({cell}>0;{cell}<1))"
        blank = '""' if kind.usual is None else f'IFERROR({kind.usual};"")'
        self._judge(sheet, name, f'IF({cell}="";{blank};IF({refused};"";{cell}))', self._slip(cell, kind), kind.fmt)

    def _choice(self, sheet, name, kind, value):
        side, row = self.places[name]
        cell = self.box(name)
        condition = f"""of:cell-content-is-in-list({stored(f"$'{sheet.name}'.{kind.cells}")})"""
        sheet.put(f"{side.box}{row}", value, style="Jarbook input text",
                  validation=Validation(*self.words["help"][name], condition, stop=False))
        listed = f'INDEX({kind.cells};MATCH(TRIM({cell});{kind.cells};0))'
        blank = f'"{kind.usual or ""}"'
        self._judge(sheet, name, f'IF({cell}="";{blank};{listed})',
                    in_formula(self._say["not_listed"], typed=f'{cell}&""'), None)

    def _judge(self, sheet, name, counts, slip, fmt):
        """The grey cell, the words beside it, and what is wrong."""
        side, row = self.places[name]
        cell, why, unit = self.box(name), f"{side.wrong}{row}", self.kinds[name].unit
        sheet.put(f"{side.counts}{row}", formula=f'IFERROR({counts};"")', fmt=fmt,
                  style="Jarbook plan counts" if fmt else "Jarbook plan counts words")
        sheet.put(why, style="Jarbook aside", formula=(
            f'IFERROR(IF(OR({cell}="";${side.counts}{row}<>"");"";{slip});{in_formula(self._say["an_error"])})'))
        unit_words = in_formula(self.words["unit"][unit]) if unit else '""'
        sheet.put(f"{side.words}{row}", style="Jarbook plan words", to=f"{side.words_end}{row}",
                  formula=f'IF({why}="";{unit_words};{why})')
        sheet.condition(f"{side.words}{row}", f'${side.wrong}${row}<>""', "Jarbook query check")
        sheet.condition(f"{side.box}{row}", f'${side.wrong}${row}<>""', "Jarbook query input")

    def _slip(self, cell, kind):
        """What to say of a cell that holds something else than wanted."""
        say, point = self._say, self.point
        bare = f'SUBSTITUTE({cell};"%";"")'
        swapped = f'IF({point}=".";SUBSTITUTE({bare};",";".");SUBSTITUTE({bare};".";","))'
        text = (f'IF(ISNUMBER(IFERROR(NUMBERVALUE({swapped};{point});""));'
                f'{in_formula(say["text_number"], typed=cell, number=swapped)};{in_formula(say["text"], typed=cell)})')
        number = in_formula(say["range"], typed=cell, low=plain(kind.low), high=plain(kind.high))
        if kind.high < 36526:
            number = f'IF(AND({cell}>=36526;{cell}<=73050);{in_formula(say["date"])};{number})'
        if kind.share:
            number = (f'IF(AND({cell}>0;{cell}<1);'
                      f'{in_formula(say["share"], typed=cell, percent=f"ROUND(100*{cell};6)")};{number})')
        return f"IF(ISTEXT({cell});{text};{number})"

    def first_wrong(self):
        """The first box that cannot be used, named, or a blank."""
        first = '""'
        for name in reversed(self.places):
            label = '"' + self.words["label"][name] + '"'
            said = in_formula(self._say["box"], label=label, what=self.wrong(name))
            first = f'IF({self.wrong(name)}<>"";{said};{first})'
        return first

    def count_wrong(self):
        return "+".join(f'({self.wrong(name)}<>"")' for name in self.places)
