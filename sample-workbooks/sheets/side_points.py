"""Side by side, beside the page: which rows of Runs are chosen, and the jars of these runs, for the chart and for the
uncertainties of the cut shares.

A run's jars come from Runs as one text (run_curve of its sheet), and only those of the chosen runs are taken apart: a
season of fifty costs no more here than three runs. Runs finds its sheets by reference, so that they may be renamed.
"""
from common.texts import in_formula, texts
from odf.formula import column_name, column_number
from run_sheet import layout as L
from sheets import runs_columns as runs

SLOTS = 4
BOX_HEAD, BOX, WORDS = 4, 5, 6          # the boxes stand between two protected rows
BOX_COLUMNS = ("C", "E", "G", "I")
FIRST_COLUMN = "M"                       # beside the page
SINGLES = ("name", "state", "place", "text", "jars", "label")
SINGLE_ROW = BOX_HEAD                    # their first row; the names of the points stand below them
HEAD = SINGLE_ROW + len(SINGLES)
FIRST, ROWS = HEAD + 1, 100
LAST = FIRST + ROWS - 1
POINTS = ("end", "strength", "cut", "middle", "weight", "mark_at", "mark")
FREE, CHOSEN, UNKNOWN, TWICE, GONE, MANY, ALIKE = range(7)   # what a box is


class Slot:
    """A choice: its cells beside the page. `count` is the number of runs that the sheet Runs is made with."""

    def __init__(self, number, count):
        self.number, self.count = number, count
        self.first_column = column_number(FIRST_COLUMN) + number * (len(POINTS) + 1)

    def column(self, i):
        return column_name(self.first_column + i)

    def single(self, name):
        return f"${self.column(1)}${SINGLE_ROW + SINGLES.index(name)}"

    def points(self, name):
        letter = self.column(POINTS.index(name))
        return f"${letter}${FIRST}:${letter}${LAST}"

    def all_of(self, key):
        """A column of Runs with its closing rows: it grows and shrinks with the runs."""
        letter = runs.LETTER[key]
        return f"$Runs.${letter}${runs.TOP}:${letter}${runs.FIRST + self.count}"

    def of_run(self, key):
        """What Runs says of the chosen run; for where `place` is a number."""
        return f"INDEX({self.all_of(key)};{self.single('place')})"

    @property
    def free(self):
        return f'{self.single("place")}=""'


def _singles(slot, earlier):
    """(name, formula, format) of what stands there once."""
    name, state = slot.single("name"), slot.single("state")
    column = BOX_COLUMNS[slot.number]
    # ROWS listens to all boxes, so that the Undo of a drag over this one is noticed (see run_sheet/read.py)
    everywhere = f"0*ROWS(${BOX_COLUMNS[0]}${BOX_HEAD}:${BOX_COLUMNS[-1]}${WORDS})"
    box = f"INDEX(${column}${BOX_HEAD}:${column}${WORDS};{BOX - BOX_HEAD + 1}+{everywhere})"
    yield "name", f'IFERROR(TRIM({box}&"");"?")', None
    # Compared as texts with =, which knows no wildcards and no capitals
    same = f'(TRIM({slot.all_of("run")}&"")={name})'
    count = f"SUMPRODUCT({same}*1)"
    place = f'SUMPRODUCT(MAX({same}*({runs.FAR}-ROW({slot.all_of("run")}))))'
    place = f'({runs.FAR}-{place}-ROW($Runs.$A${runs.TOP})+1)'
    twice = "+".join(f'({other.single("name")}={name})' for other in earlier)
    gone = texts("runs_sheet")["gone"]
    jars = f"LEN(INDEX({slot.all_of('curve')};{place}))/{L.CURVE_PIECE}"
    chosen = f'IF({count}>1;{ALIKE};IF({jars}>{ROWS};{MANY};{CHOSEN}))'
    chosen = f'IF({count}=0;{UNKNOWN};IF(INDEX({slot.all_of("state")};{place})="{gone}";{GONE};{chosen}))'
    chosen = f"IF({twice}>0;{TWICE};{chosen})" if earlier else chosen
    yield "state", f'IF({name}="";{FREE};{chosen})', "0"
    yield "place", f'IF(OR({state}={CHOSEN};{state}={MANY});{place};"")', "0"
    # Zeros before and behind it, so that each jar has one before it and no piece is missing
    padded = f'REPT("0";{L.CURVE_PIECE})&{{}}&REPT("0";{L.CURVE_PIECE * ROWS})'
    yield "text", f'IF(OR({slot.free};{state}={MANY});"";{padded.format(slot.of_run("curve"))})', None
    yield "jars", f'IF({slot.single("text")}="";0;LEN({slot.of_run("curve")})/{L.CURVE_PIECE})', "0"
    yield "label", f'IF({slot.free};"–";{slot.of_run("run")})', None


def _points(slot):
    """(name, array formula, format) of the jars."""
    text, jars = slot.single("text"), slot.single("jars")
    jar = f'(ROW({slot.points("end")})-{FIRST})'

    def piece(start, digits, before=0):
        return f"VALUE(MID({text};{L.CURVE_PIECE}*({jar}+{1 - before})+{start};{digits}))"

    def end(before=0):
        return f"{piece(1, L.CURVE_DIGITS, before)}/1000000"

    def strength(before=0):
        return f"{piece(1 + L.CURVE_DIGITS, L.CURVE_DIGITS, before)}/10000"

    def cut(before=0):
        return piece(L.CURVE_PIECE, 1, before)

    def each(formula):
        return f'IF({text}="";"";IF({jar}<{jars};{formula};""))'

    yield "end", each(end()), "0.0 %"
    yield "strength", each(strength()), "0.00"
    yield "cut", each(cut()), "0"
    yield "middle", each(f"({end()}+{end(1)})/2"), "0.0 %"
    # What volume and reading of a jar leave open of its alcohol, squared (k = 2, rectangular half-widths)
    vessel, scatter = slot.of_run("volume_tolerance"), slot.of_run("reading_scatter")
    square = f"(({vessel}/100)^2+({scatter}/({strength()}))^2)*4/3"
    yield "weight", each(f"({end()}-{end(1)})^2*{square}"), "0.0000"
    # Where one cut ends and the next begins: between two jars
    change = f"({cut()}<>{cut(1)})*({cut()}>0)*({cut(1)}>0)*({jar}>0)"
    yield "mark_at", each(f'IF({change};{end(1)};"")'), "0.0 %"
    yield "mark", each(f'IF({change};({strength()}+{strength(1)})/2;"")'), "0.0"


def share_range(slot, cut):
    """How far a cut's share of the pure alcohol collected is open (k = 2): a jar of the cut raises it, one of another lowers it."""
    share, code = slot.of_run(cut), L.CUT_NAMES.index(cut) + 1
    own, all_ = f'SUMIF({slot.points("cut")};{code};{slot.points("weight")})', f'SUM({slot.points("weight")})'
    return f"SQRT((1-{share})^2*{own}+{share}^2*({all_}-{own}))/MAX({slot.points('end')})"


def fill(sheet, slots):
    words = texts("side_by_side")["beside"]
    sheet.put(f"{FIRST_COLUMN}{SINGLE_ROW - 1}", words["page"], style="Jarbook unit")
    for slot in slots:
        for i, (name, formula, fmt) in enumerate(_singles(slot, slots[:slot.number])):
            row = SINGLE_ROW + i
            sheet.put(f"{slot.column(0)}{row}", words[name], style="Jarbook unit")
            sheet.put(f"{slot.column(1)}{row}", formula=formula, fmt=fmt, style="Jarbook aside",
                      cell={"fo:wrap-option": "no-wrap", "style:shrink-to-fit": "true"} if fmt is None else None)
        for i, (name, formula, fmt) in enumerate(_points(slot)):
            letter = slot.column(i)
            sheet.put(f"{letter}{HEAD}", words[name], style="Jarbook heading")
            for row in range(FIRST, LAST + 1):
                sheet.put(f"{letter}{row}", formula=formula if row == FIRST else None, fmt=fmt, style="Jarbook aside",
                          array=f"{letter}{LAST}" if row == FIRST else None)
        sheet.name_cell(f"points_{slot.number + 1}", f"{slot.column(0)}{FIRST}:{slot.column(len(POINTS) - 1)}{LAST}")


def words_of(slot):
    """What is said below the box."""
    say, state = texts("side_by_side")["say"], slot.single("state")
    date = slot.of_run("date")  # year-month-day, without the letters that locales have for these in formats
    date = f'IF(ISNUMBER({date});YEAR({date})&"-"&TEXT(MONTH({date});"00")&"-"&TEXT(DAY({date});"00")&", ";"")'
    there = in_formula(say["chosen"], date=date, state=slot.of_run("state"))
    spoken = {CHOSEN: there, UNKNOWN: in_formula(say["unknown"]), TWICE: in_formula(say["twice"]), GONE: in_formula(say["gone"]),
              MANY: in_formula(say["many"], count=str(ROWS)), ALIKE: in_formula(say["alike"])}
    formula = '""'
    for code, text in spoken.items():
        formula = f"IF({state}={code};{text};{formula})"
    return formula
