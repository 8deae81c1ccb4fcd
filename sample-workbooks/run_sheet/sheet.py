"""The run sheet, from charge to bottle, blank or filled with a run."""
from odf.formula import split_address

from . import balance, blend, charge, cuts, forecast, jar_table, layout, opening
from .pad import Pad

# What a blank sheet already holds: the trade's usual values, and what the instruments usually are.
USUAL = {"stages": 1.15, "reflux": 0, "pressure": 1013.25, "jar_unit": "mL", "reading_tolerance": 0.5, "reading_scatter": 0.1,
         "temperature_tolerance": 0.5, "volume_tolerance": 1, "start_temperature": 20,
         "label_tolerance": 0.3, "whole_jars": "no"}
WIDTHS = {"A": 9, "B": 14.5, "C:G": 15, "H": 17, "I:M": 15, "N:O": 18, "P": 14, "Q": 15, "R": 36, "S": 20, "T": 24,
          "U": 6, "V:AH": 15}


def add(book, name, data=None):
    """Adds a run sheet of that name; `data` maps names of cells to values (see layout.names)."""
    sheet = book.add_sheet(name, "RunPage", tab_colour="#3d5361")
    for columns, millimetres in WIDTHS.items():
        sheet.width(columns, millimetres)
    pad = Pad(sheet, USUAL | {"run_title": name} | (data or {}))
    for section in (opening, charge, forecast, jar_table, cuts, blend, balance):
        section.fill(pad)
    sheet.print_range = f"A1:{layout.LAST_COLUMN}{layout.LAST}"
    sheet.frozen_rows = 1
    sheet.cursor = layout.names["run_title"]
    for cell_name, cells in layout.names.items():
        if ":" not in cells and split_address(cells)[::-1] not in {(r, c) for r, c in sheet.cells}:
            raise ValueError(f"{name}: nothing stands at {cell_name}, {cells}")
        sheet.name_cell(cell_name, cells)
    return sheet
