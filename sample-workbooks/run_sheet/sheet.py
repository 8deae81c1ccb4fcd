"""The run sheet, from charge to bottle, blank or filled with a run."""
from odf.formula import split_address

from . import balance, blend, caution_list, charge, cuts, forecast, heat, held, jar_table, label, layout as L, opening, read, wash
from .pad import Pad
from .texts import T

# What a blank sheet already holds: the trade's usual values, and what the instruments usually are.
USUAL = {"reflux": 0, "pressure": 1013.25, "jar_unit": "mL", "reading_tolerance": 0.5, "reading_scatter": 0.1,
         "temperature_tolerance": 0.5, "volume_tolerance": 1, "start_temperature": 20,
         "label_tolerance": 0.3, "whole_jars": "no", "duty_unit": T["choice"]["duty_units"][0]}
# A to N together 239 mm: what a screen of 1366 points shows beside the sidebar. Few different ones: the
# office sets the width of each run of alike columns by itself, and slowly where a sheet has a chart.
WIDTHS = {"A": 7, "B:E": 14.1, "F": 28.6, "G": 12.4, "H:I": 19.2, "J:M": 15.9, "N": 32.4, "O": 3, "P:BY": 16}
# What a printed page holds, mm on the screen: A4 less margins and foot, at RUN_SCALE of make_workbooks
PAGE_HEIGHT = 199


def _printed_height(sheet, first, last):
    """Of rows and of the two that repeat above them, mm on the screen."""
    hidden = {row for fold in sheet.row_folds if fold.folded for row in range(fold.first, fold.last + 1)}
    printed = (row for row in (L.TITLE, L.LOOK, *range(first, last + 1)) if row not in hidden)
    return sum(sheet.heights.get(row, sheet.default_height) for row in printed)


def add(book, name, data=None):
    """Adds a run sheet of that name; `data` maps names of cells to values (see layout.names)."""
    sheet = book.add_sheet(name, "RunPage", tab_colour="#3d5361")
    for columns, millimetres in WIDTHS.items():
        sheet.width(columns, millimetres)
    data = dict(data or {})
    if "residue_volume" in data:  # the box; the name alone is what the balance leaves in the boiler
        data["residue_measured_volume"] = data.pop("residue_volume")
    pad = Pad(sheet, USUAL | {"run_title": name} | data)
    for section in (opening, charge, wash, jar_table, forecast, heat, cuts, held, blend, label, balance, caution_list):
        section.fill(pad)
    read.words(sheet)
    read.labels(sheet)
    sheet.put(f"{L.FIRST_BESIDE}1", T["beside"]["page"], style="Jarbook unit")
    sheet.fold_columns(L.FIRST_BESIDE, L.LAST_BESIDE)
    # Name and To look at repeat on each printed page; the headings of the jars in view are not printed, they stand on
    # their page once more.
    sheet.print_range = [f"A{first}:{L.LAST_COLUMN}{last}" for first, last in (
        (L.BEFORE, L.STILL - 1), (L.STILL, L.AFTER - 1), (L.AFTER, L.LAST))]
    sheet.title_rows = (L.TITLE, L.LOOK)
    # With the folds of the wash and of the still both open, or those of the readings and of the bottles
    for first, last, second in ((L.BEFORE, L.STILL - 1, L.MORE), (L.AFTER, L.LAST, L.BLEND)):
        if _printed_height(sheet, first, last) > PAGE_HEIGHT:
            sheet.breaks.add(second)
    sheet.cursor = L.names["run_kind"]
    for cell_name, cells in L.names.items():
        if ":" not in cells and not cell_name.startswith("page_") and split_address(cells)[::-1] not in sheet.cells:
            raise ValueError(f"{name}: nothing stands at {cell_name}, {cells}")
        sheet.name_cell(cell_name, cells)
    return sheet
