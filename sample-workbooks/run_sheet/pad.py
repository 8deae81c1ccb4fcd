"""Fills a run sheet by the names of its cells, with the data of a run or blank."""
from odf.formula import column_name, split_address

from . import layout
from .entries import E


class Pad:
    """A sheet to write on, the run's data (name of a cell to value), and the usual ways to fill."""

    def __init__(self, sheet, data):
        self.sheet, self.data = sheet, data

    def _along(self, first, last, text, style, rest):
        """Text that runs over the empty cells beside it. Not merged: merged cells load slowly."""
        self.sheet.put(first, text, style=style)
        (start, row), (end, _) = split_address(first), split_address(last)
        for column in range(start + 1, end + 1):
            self.sheet.put(f"{column_name(column)}{row}", style=rest)

    def section(self, first, last, text):
        self._along(first, last, text, "Jarbook section", "Jarbook section rest")

    def heading(self, address, text, to=None, formula=None, **options):
        self.sheet.put(address, text, formula=formula, style="Jarbook heading", to=to, **options)

    def label(self, first, last, text):
        self._along(first, last, text, "Jarbook label", "Jarbook label")

    def unit(self, address, text, to=None):
        self._along(address, to or address, text, "Jarbook unit", "Jarbook unit")

    def note(self, first, last, text):
        self.sheet.put(first, text, style="Jarbook note", to=last)

    def entry(self, name, fmt=None, to=None, text=False, **options):
        """An input cell of that name; the sheet's data fill it."""
        self.entry_at(layout.names[name], name, self.data.get(name), fmt, to, text, **options)

    def entry_at(self, address, kind, value, fmt=None, to=None, text=False, **options):
        self.sheet.put(address, value, style="Jarbook input text" if text else "Jarbook input",
                       fmt=fmt, to=to, validation=E[kind], **options)

    def result(self, name, formula, fmt="0.00", to=None, style="Jarbook computed", **options):
        """A computed cell of that name."""
        self.sheet.put(layout.names[name], formula=formula, style=style, fmt=fmt, to=to, **options)

    def computed(self, address, formula, fmt="0.00", style="Jarbook computed", **options):
        self.sheet.put(address, formula=formula, style=style, fmt=fmt, **options)


def blank_if(*conditions):
    """The opening of a guarded formula: stays blank while one of these holds."""
    test = conditions[0] if len(conditions) == 1 else f"OR({';'.join(conditions)})"
    return f'IF({test};"";'


def empty(*cells):
    return [f'{cell}=""' for cell in cells]
