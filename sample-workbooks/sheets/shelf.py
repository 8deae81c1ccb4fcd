"""The Shelf sheet: every lot with where it came from and where it went, the book of movements, and the account of the
pure alcohol from wash to bottle.

Three parts below each other: lots (shelf_lots), movements (shelf_book), sums (shelf_sums); where they stand and how
they are read is in shelf_places.
"""
from common.texts import in_formula, texts
from sheets import page, shelf_book, shelf_lots, shelf_places as P, shelf_sums as sums
from sheets.shelf_places import B, L, book, lots
from sheets.shelf_rows import T, say

SHEET = "Shelf"
# A to M together 239 mm: what a screen of 1366 points shows beside the sidebar.
WIDTHS = {"A": 8, "B": 37, "C": 26, "D": 25.5, "E": 23.5, "F": 18.5, "G:J": 13, "K": 15, "L": 12.5, "M": 16, "N:P": 13.5,
          "Q": 68, "R": 3, "S:BF": 14}


def _first(state, value, block, reason, key):
    """The first row of a block with that state, named."""
    place = f"MATCH({value};{block.all(state)};0)"
    return say(key, row=f"{place}-1", what=f"INDEX({block.all(reason)};{place})")


def _look(sheet):
    boxes = sums.boxes()
    odd, run = f'({book.all(B["fits"])}=1)*({book.all(B["said"])}>0)', f"$Q${sums.RUN_FIRST}:$Q${sums.RUN_LAST}"
    wrong = sums.BESIDE
    odds = f"SUMPRODUCT({odd})"
    odd_runs = f'SUMPRODUCT((LEN({run})>0)*1)'
    first_odd = f"MATCH(1;INDEX({odd};0);0)"
    first_run = f'MATCH(1;INDEX((LEN({run})>0)*1;0);0)'
    # What is merely odd is told once nothing is wrong.
    wrongs = f'({boxes.count_wrong()}+{wrong["wrong_lots"]}+{wrong["wrong_book"]})'
    count = f"IF({wrongs}>0;{wrongs};{odds}+{odd_runs})"
    said = (f'IF({boxes.count_wrong()}>0;{boxes.first_wrong()};IF({wrong["wrong_lots"]}>0;{_first(L["state"], -1, lots, L["said"], "in_lots")};'
            f'IF({wrong["wrong_book"]}>0;{_first(B["fits"], 0, book, P.WORDS, "in_book")};'
            f'IF({odds}>0;{say("in_book", row=f"{first_odd}-1", what=f"INDEX({book.all(P.WORDS)};{first_odd})")};'
            f'{say("in_runs", run=f"INDEX($B${sums.RUN_FIRST}:$B${sums.RUN_LAST};{first_run})", what=f"INDEX({run};{first_run})")}))))')
    none = f'IF({wrong["whole"]}=1;{in_formula(T["look_none"])};{in_formula(T["look_start"])})'
    sheet.put("S2", formula=count, style="Jarbook aside", fmt="0")
    sheet.put(f"A{P.LOOK}", style="Jarbook look", to=f"{P.WORDS}{P.LOOK}",
              formula=f'IF($S$2=0;{none};{said}&IF($S$2>1;{in_formula(T["look_more"], count="$S$2-1")};""))')
    sheet.condition(f"A{P.LOOK}", "$S$2>0", "Jarbook query look")


def _account(sheet):
    """The balance in one line that stays in view. Independent of each other: what the lots' rows come to, what the book's do."""
    cells = {"in": f"SUM({lots.all(L['alcohol'])})", "stock": f"SUM({lots.all(L['now'])})", "loss": f"SUM({book.all(B['loss'])})"}
    for key, what in (("charged", 3), ("bottled", 5), ("withdrawn", 6)):
        cells[key] = f"SUMIFS({book.all(B['out'])};{book.all(B['what'])};{what})"
    names = ("in", "charged", "bottled", "withdrawn", "stock", "loss")
    at = {name: f"${chr(ord('T') + i)}$3" for i, name in enumerate(names)}
    whole = sums.BESIDE["whole"]
    for name in names:
        sheet.put(at[name].replace("$", ""), style="Jarbook aside", fmt="0.000", formula=f'IF({whole}=0;"";{cells[name]})')
    closes = "-".join(at[name] for name in names)
    sheet.put("Z3", style="Jarbook aside", fmt="0.000000000", formula=f'IF({whole}=0;"";ROUND({closes};9))')
    shown = {name: f"FIXED({cell};3;1)" for name, cell in at.items()} | {"closes": "FIXED($Z$3;9;1)"}
    text = f'IF({whole}=1;{in_formula(T["text"]["balance"], **shown)};IF($S$2=0;{in_formula(T["text"]["balance_start"])};' \
           f'{in_formula(T["text"]["balance_waits"], what=f"$A${P.LOOK}")}))'
    sheet.put(f"A{P.ACCOUNT}", style="Jarbook look", to=f"{P.WORDS}{P.ACCOUNT}", formula=text)
    sheet.condition(f"A{P.ACCOUNT}", f'AND(ISNUMBER($Z$3);ABS(N($Z$3))>1E-9)', "Jarbook query look")
    for name in names:
        sheet.name_cell(f"shelf_{name}", at[name].replace("$", ""))
    sheet.name_cell("shelf_closes", "Z3")


def add(book_, count, data=None):
    """Adds the sheet, for a sheet Runs of so many rows; `data` has its lots and movements, and boxes by name."""
    data = dict(data or {})
    sheet = book_.add_sheet(SHEET, "WidePage", tab_colour="#8d99a3")
    for columns, millimetres in WIDTHS.items():
        sheet.width(columns, millimetres)
    sheet.put(f"A{P.TITLE}", T["title"], style="Jarbook title")
    sheet.put(f"B{P.TITLE}", style="Jarbook title line")
    for column in "NOPQ":
        sheet.put(f"{column}{P.TITLE}", style="Jarbook title line")
    sheet.put(f"C{P.TITLE}", T["note"], style="Jarbook title line", to=f"M{P.TITLE}",
              cell={"fo:wrap-option": "wrap", "style:vertical-align": "middle"}, letters={"fo:font-size": "8pt"})
    sheet.heights |= {P.TITLE: 8, P.LOOK: 6, P.ACCOUNT: 6}
    _look(sheet)
    _account(sheet)
    page.band(sheet, lots.band, T["band"], "lots", last=P.WORDS)
    shelf_lots.fill(sheet, data.pop("lot", []))
    page.band(sheet, book.band, T["band"], "book", last=P.WORDS)
    shelf_book.fill(sheet, data.pop("movement", []))
    sums.fill(sheet, count, data)
    sheet.put("S1", texts("shelf")["beside"]["page"], style="Jarbook unit")
    sheet.breaks |= {book.band, P.KINDS_BAND}
    last = max(int(cell[1:]) for cell in sums.ACCOUNT_CELLS.values())
    sheet.print_range = f"A1:{P.WORDS}{last}"
    sheet.frozen_rows, sheet.frozen_columns = P.ACCOUNT, 2
    sheet.cursor = f"B{lots.first}"
    sheet.fold_columns("S", P.LAST_BESIDE)
    _names(sheet)
    return sheet


def _names(sheet):
    names = {"shelf_look": f"A{P.LOOK}", "shelf_account": f"A{P.ACCOUNT}", "shelf_looks": "S2",
             "lots_block": lots.rows(P.BOXES[0], P.BOXES[-1]), "movements_block": book.rows(P.BOXES[0], P.STRENGTH)}
    for prefix, block, columns in (
            ("lot", lots, dict(name=P.NAME, kind=P.KIND, run=P.FROM, vessel=P.VESSEL, date=P.DATE, litres=P.LITRES, kilograms=P.KILOGRAMS,
                               strength=P.STRENGTH, allowed=P.ALLOWED, volume_now=P.VOLUME_NOW, strength_now=P.STRENGTH_NOW,
                               alcohol_now=P.ALCOHOL_NOW, loss=P.LOSS, loss_range=P.LOSS_RANGE, loss_year=P.LOSS_YEAR, words=P.WORDS,
                               filled=L["alcohol"], state=L["state"])),
            ("moved", book, dict(lot=P.NAME, what=P.WHAT, where=P.WHERE, note=P.NOTE, date=P.DATE, litres=P.LITRES,
                                 kilograms=P.KILOGRAMS, strength=P.STRENGTH, volume=P.VOLUME_NOW, true_strength=P.STRENGTH_NOW,
                                 alcohol=P.ALCOHOL_NOW, loss=P.LOSS, left=P.LEFT, left_strength=P.LEFT_STRENGTH, words=P.WORDS,
                                 fits=B["fits"], out=B["out"]))):
        for key, column in columns.items():
            names[f"{prefix}_{key}"] = block.rows(column)
    for key, column in (("run", "B"), ("charged", "G"), ("charge", "H"), ("collected", "K"), ("shelved", "M"), ("words", "Q")):
        names[f"through_{key}"] = f"{column}{sums.RUN_FIRST}:{column}{sums.RUN_LAST}"
    names["kinds_table"] = f"B{sums.KIND_FIRST}:O{sums.KIND_ALL}"
    for name, cell in sums.ACCOUNT_CELLS.items():
        names[f"season_{name}"] = cell
    for name, cells in names.items():
        sheet.name_cell(name, cells)
