"""Fills a run sheet by the names of its cells, with the data of a run or blank."""
from odf.formula import column_name, split_address

from . import layout
from .entries import E
from .texts import T


class Pad:
    """A sheet to write on, the run's data (name of a cell to value), and the usual ways to fill."""

    def __init__(self, sheet, data):
        self.sheet, self.data = sheet, data

    def _along(self, first, last, text, style, rest, formula=None):
        """Text that runs over the empty cells beside it. Not merged: merged cells load slowly."""
        self.sheet.put(first, text, formula=formula, style=style)
        (start, row), (end, _) = split_address(first), split_address(last)
        for column in range(start + 1, end + 1):
            self.sheet.put(f"{column_name(column)}{row}", style=rest)

    def band(self, row, key, hint=None, formula=None):
        """A band over the whole width, its hint, or what a formula says, at the right half."""
        self.sheet.heights[row] = 5.6
        self._along(f"A{row}", f"E{row}", T["band"][key], "Jarbook section", "Jarbook section rest")
        self._along(f"F{row}", f"N{row}", T["band"][hint] if hint else None, "Jarbook section rest",
                    "Jarbook section rest", formula)

    def heading(self, address, text, to=None, formula=None, **options):
        self.sheet.put(address, text, formula=formula, style="Jarbook heading", to=to, **options)

    def lead(self, first, last, text):
        """A heading that stands at the left, over several columns."""
        self._along(first, last, text, "Jarbook lead", "Jarbook lead")

    def label(self, first, last, key, needed=False):
        style = "Jarbook needed label" if needed else "Jarbook label"
        self._along(first, last, T["label"].get(key, key), style, style)

    def unit(self, first, last, key):
        self._along(first, last or first, T["unit"].get(key, key), "Jarbook unit", "Jarbook unit")

    def entry(self, name, fmt=None, to=None, text=False, needed=False, **options):
        """An input cell of that name; the sheet's data fill it."""
        self.entry_at(layout.names[name], name, self.data.get(name), fmt, to, text, needed, **options)

    def entry_at(self, address, kind, value, fmt=None, to=None, text=False, needed=False, **options):
        style = "Jarbook input" + (" needed" if needed else "") + (" text" if text else "")
        self.sheet.put(address, value, style=style, fmt=fmt, to=to, validation=E[kind], **options)

    def result(self, name, formula, fmt="0.00", to=None, style="Jarbook computed", **options):
        """A computed cell of that name."""
        self.sheet.put(layout.names[name], formula=formula, style=style, fmt=fmt, to=to, **options)

    def computed(self, address, formula, fmt="0.00", style="Jarbook computed", **options):
        self.sheet.put(address, formula=formula, style=style, fmt=fmt, **options)

    def aside(self, address, formula, fmt="0.00", **options):
        self.sheet.put(address, formula=formula, style="Jarbook aside", fmt=fmt, **options)

    def aside_heading(self, address, text):
        self.sheet.put(address, text, style="Jarbook heading")

    # The usual line: label, cell, unit. Left A to F, middle F to I, right J to N.
    def line(self, row, name, unit, formula=None, fmt="0.00", bold=False, to=None, text=False, needed=False,
             label=None):
        column = layout.names[name][0]
        first, last, unit_first, unit_last = {"D": ("A", "C", "E", "E"), "H": ("F", "G", "I", "I"),
                                              "M": ("J", "L", "N", "N")}[column]
        self.label(f"{first}{row}", f"{last}{row}", label or name, needed)
        if formula:
            self.result(name, formula, fmt, style="Jarbook result" if bold else "Jarbook computed")
        else:
            self.entry(name, fmt, to, text, needed)
        if unit:
            if to:
                unit_first = chr(ord(to[0]) + 1)
            self.unit(f"{unit_first}{row}", f"{max(unit_first, unit_last)}{row}", unit)


def blank_if(*conditions):
    """The opening of a guarded formula: stays blank while one of these holds."""
    test = conditions[0] if len(conditions) == 1 else f"OR({';'.join(conditions)})"
    return f'IF({test};"";'


def empty(*cells):
    return [f'{cell}=""' for cell in cells]
