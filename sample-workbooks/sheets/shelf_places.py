"""Where everything stands on the sheet Shelf, and how its formulas read it.

Two tables of the same columns, lots and the book of movements, each between two thin protected rows, so that no
reference to a column of boxes can be moved as a whole; a row may be inserted anywhere between them. Beside the page
stands what counts of each box; all else reads that.
"""
from odf.formula import column_name, column_number

TITLE, LOOK, ACCOUNT = 1, 2, 3
LOTS, MOVEMENTS = 40, 120
RUNS_SHOWN = 16
HEIGHT = 6          # mm of a row: two lines of small words
LEAST_DAYS = 60        # less says nothing of a year


class Block:
    """Rows of one table; columns by letter."""

    def __init__(self, band, count):
        self.band, self.head, self.top = band, band + 1, band + 2
        self.first, self.last, self.foot = band + 3, band + 2 + count, band + 3 + count

    def all(self, column):
        """A column with the thin rows above and below: nothing but blanks there."""
        return f"${column}${self.top}:${column}${self.foot}"

    def box(self, column, row):
        """A box of this row, by its place."""
        return f"INDEX({self.all(column)};$A{row}+1)"

    def before(self, column, row):
        """The rows above this one."""
        return f"${column}${self.top}:INDEX({self.all(column)};$A{row})"

    @property
    def boxes(self):
        return f"${BOXES[0]}${self.top}:${BOXES[-1]}${self.foot}"

    def filled(self, row):
        return f"COUNTA(INDEX({self.boxes};$A{row}+1;0))"

    def rows(self, column, last=None):
        return f"{column}{self.first}:{last or column}{self.last}"


# What is typed of a lot and of a movement, and beside it what is computed of both
NAME, KIND, FROM, VESSEL, DATE, LITRES, KILOGRAMS, STRENGTH, ALLOWED = BOXES = "BCDEFGHIJ"
WHAT, WHERE, NOTE = KIND, FROM, VESSEL
VOLUME_NOW, STRENGTH_NOW, ALCOHOL_NOW, LOSS, LOSS_RANGE, LOSS_YEAR, WORDS = "KLMNOPQ"
LEFT, LEFT_STRENGTH = LOSS_RANGE, LOSS_YEAR

lots = Block(ACCOUNT + 1, LOTS)
book = Block(lots.foot + 1, MOVEMENTS)
KINDS_BAND = book.foot + 1
RUNS_BAND = KINDS_BAND + 12
SEASON_BAND = RUNS_BAND + RUNS_SHOWN + 3


def _letters(first, names):
    return {name: column_name(column_number(first) + i) for i, name in enumerate(names.split())}


# Beside the page. Alcohol in L, mass in kg in vacuo: both add exactly, and litres and strength follow from them.
L = _letters("S", "name kind date litres kilograms strength allowed bad typed reason state whole origin volume alcohol "
             "mass now mass_now blended_in charged blended_out bottled withdrawn measured days said")
B = _letters("S", "name what date litres kilograms strength bad typed lot where to waits since reason_box before "
             "mass_before strength_before volume_before strength_moved volume alcohol mass over reason fits out mass_out loss "
             "mass_loss volume_left volume_squared alcohol_squared weighed_days blended_days said quoted figure")
# Lists to choose from: column, rows
LISTS = {"lots": ("BD", LOTS), "places": ("BE", LOTS + RUNS_SHOWN), "runs": ("BF", RUNS_SHOWN)}
POINT, PURE = f"$S${lots.band}", f"$T${lots.band}"      # the decimal sign; density of ethanol
LAST_BESIDE = "BF"
ALL_RUNS = f"$U${lots.band}"                            # how many runs there are
# 0; what hangs on it notices that a drag over boxes is undone (see run_sheet/read.py)
NOTICED = f"$V${lots.band}"
OTHER_POINT = f"$W${lots.band}"                         # the sign that is no decimal sign here
# Below the book, where no row is inserted: words to choose from, and what the rows say of themselves (column, first row)
WHATS, SAID_OF_LOTS, SAID_OF_BOOK = (("X", KINDS_BAND), ("Y", KINDS_BAND), ("AF", KINDS_BAND))
# The measuring errors: what counts of each box
SIDE = ("A", "E", "F", "G", "H", "J", "S")
BOX_ROWS = {name: SEASON_BAND + 2 + i for i, name in enumerate(("reading_tolerance", "reading_scatter", "volume_tolerance"))}
BOXES_USED = {name: f"${SIDE[3]}${row}" for name, row in BOX_ROWS.items()}


def listed(name):
    """The cells of a list, as a validity in the file wants them."""
    column, count = LISTS[name]
    return f"[$Shelf.${column}${lots.first}:.${column}${lots.first + count - 1}]"


def in_list(name):
    column, count = LISTS[name]
    return f"${column}${lots.first}:${column}${lots.first + count - 1}"
