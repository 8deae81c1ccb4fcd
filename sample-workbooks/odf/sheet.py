"""One sheet: cells, merged areas, widths, validations, conditional formats, names, print range."""
import datetime
from itertools import groupby

from .formula import column_name, column_number, split_address, stored
from .xml import Lead, paragraphs, tag


_EMPTY, _COVERED = "<table:table-cell/>", "<table:covered-table-cell/>"


class Cell:
    def __init__(self, value, formula, style, span, validation, array, drawing, link):
        self.value, self.formula, self.style, self.span = value, formula, style, span
        self.validation, self.array, self.drawing, self.link = validation, array, drawing, link


class Button:
    """A push button (place and size in mm) that opens an address; it is not printed."""

    def __init__(self, text, url, x, y, width, height):
        self.text, self.url = text, url
        self.x, self.y, self.width, self.height = x, y, width, height


class Fold:
    """Rows or columns (counted from 1) that an outline sign folds and unfolds."""

    def __init__(self, first, last, folded):
        self.first, self.last, self.folded = first, last, folded


class Sheet:
    """Cells are addressed as a person does: sheet.put("C7", ...)."""

    def __init__(self, book, name, page, tab_colour=None, protected=True):
        self.book, self.name, self.page, self.tab_colour = book, name, page, tab_colour
        self.protected = protected
        self.cells, self.covered, self.widths, self.heights = {}, set(), {}, {}
        self.breaks, self.names, self.conditions = set(), {}, []
        self.print_range = None  # one, or a list of them
        self.title_rows, self.frozen_rows, self.frozen_columns, self.cursor = None, 0, 0, "A1"
        self.row_folds, self.column_folds, self.buttons = [], [], []
        self.default_height = 4.5

    # --- filling -------------------------------------------------------------------------------
    def put(self, address, value=None, formula=None, style="Default", fmt=None, to=None,
            validation=None, array=None, cell=None, paragraph=None, letters=None, drawing=None,
            link=None):
        """Fills a cell. `to` merges as far as that cell, `array` enters the formula as one array
        formula as far as that cell; `cell`, `paragraph`, `letters` are own style properties.

        Mind in rows above those that repeat on each page, and in these: Calc 7.4 computes them before
        it has read the rest, and only what depends on an add-in is computed again. A formula there
        that depends on typed cells alone would show 0 until somebody recalculates."""
        column, row = split_address(address)
        span = self._extent(column, row, to)
        if to:
            self.covered |= {(row + r, column + c) for r in range(span[1])
                             for c in range(span[0])} - {(row, column)}
        if (row, column) in self.cells:
            raise ValueError(f"{self.name}.{address} is filled twice")
        name = self.book.automatic.cell(style, fmt, tuple((cell or {}).items()),
                                        tuple((paragraph or {}).items()),
                                        tuple((letters or {}).items()))
        self.cells[row, column] = Cell(value, formula, name, span if to else None, validation,
                                       self._extent(column, row, array) if array else None,
                                       drawing, link)

    @staticmethod
    def _extent(column, row, to):
        if not to:
            return (1, 1)
        last_column, last_row = split_address(to)
        return (last_column - column + 1, last_row - row + 1)

    def width(self, columns, millimetres):
        """One column or several: "A", "C:M"."""
        first, _, last = columns.partition(":")
        for column in range(column_number(first), column_number(last or first) + 1):
            self.widths[column] = millimetres

    def condition(self, cells, formula, style):
        """A conditional format; the formula is written for the first cell of the range."""
        self.conditions.append((cells, formula, style))

    def name_cell(self, name, address):
        """A name of this sheet alone."""
        self.names[name] = address

    def fold_rows(self, first, last, folded=True):
        self.row_folds.append(Fold(first, last, folded))

    def fold_columns(self, first, last, folded=True):
        self.column_folds.append(Fold(column_number(first) + 1, column_number(last) + 1, folded))

    def reference(self, cells):
        """'Run 1'.A1 or 'Run 1'.A1:'Run 1'.B9, as attributes of the file want it."""
        first, _, last = cells.partition(":")
        sheet = "'" + self.name.replace("'", "''") + "'."
        return f"{sheet}{first}:{sheet}{last}" if last else sheet + first

    # --- writing -------------------------------------------------------------------------------
    def _value_attributes(self, value):
        if value is None or value == "":
            return {}, ""
        if isinstance(value, datetime.date):
            return {"office:value-type": "date", "office:date-value": value.isoformat()}, ""
        if isinstance(value, datetime.time):
            return {"office:value-type": "time",
                    "office:time-value": value.strftime("PT%HH%MM%SS")}, ""
        if isinstance(value, (int, float)):
            return {"office:value-type": "float", "office:value": repr(value)}, ""
        if isinstance(value, Lead):
            return {"office:value-type": "string"}, value.element()
        return {"office:value-type": "string"}, paragraphs(value)

    def _cell(self, row, column):
        cell = self.cells[row, column]
        attributes = {"table:style-name": cell.style}
        if cell.validation:
            attributes["table:content-validation-name"] = self.book.validation_name(cell.validation)
        if cell.span:
            attributes |= {"table:number-columns-spanned": cell.span[0],
                           "table:number-rows-spanned": cell.span[1]}
        if cell.formula:
            attributes["table:formula"] = "of:=" + stored(cell.formula)
        if cell.array:
            attributes |= {"table:number-matrix-columns-spanned": cell.array[0],
                           "table:number-matrix-rows-spanned": cell.array[1]}
        more, body = self._value_attributes(cell.value)
        if cell.link:
            body = tag("text:p", None, tag("text:a", {"xlink:href": cell.link,
                                                      "xlink:type": "simple"}, str(cell.value)))
        drawing = cell.drawing.frame(self) if cell.drawing else ""
        return tag("table:table-cell", attributes | more, drawing, body)

    def _element_at(self, row, column):
        if (row, column) in self.cells:
            return self._cell(row, column)
        return _COVERED if (row, column) in self.covered else _EMPTY

    def _row_cells(self, row, last_column):
        """The cells of a row; equal blank ones next to each other as one element."""
        out, count = [], 1
        elements = [self._element_at(row, column) for column in range(last_column + 1)]
        for element, after in zip(elements, elements[1:] + [None]):
            if element == after and element.count("<") == 1 and "formula" not in element:
                count += 1
                continue
            out.append(element if count == 1 else
                       element.replace("/>", f' table:number-columns-repeated="{count}"/>'))
            count = 1
        return "".join(out)

    @staticmethod
    def _folded(elements, folds, kind):
        """Elements of rows or columns, those of a fold inside its group."""
        out, inside = [], []
        fold_at = {i: fold for fold in folds for i in range(fold.first, fold.last + 1)}
        for i, element in enumerate(elements, 1):
            fold = fold_at.get(i)
            if not fold:
                out.append(element)
                continue
            inside.append(element)
            if i == fold.last:
                out.append(tag(f"table:table-{kind}-group",
                               {"table:display": "false" if fold.folded else None}, *inside))
                inside = []
        return out

    @staticmethod
    def _hidden(folds):
        return {i for fold in folds if fold.folded for i in range(fold.first, fold.last + 1)}

    def _rows(self, last_row, last_column):
        automatic, hidden = self.book.automatic, self._hidden(self.row_folds)
        elements = []
        for row in range(1, last_row + 1):
            style = automatic.row(self.heights.get(row, self.default_height), row in self.breaks)
            elements.append(tag("table:table-row", {
                "table:style-name": style, "table:visibility": "collapse" if row in hidden else None},
                self._row_cells(row, last_column)))
        if self.title_rows:
            first, last = self.title_rows
            title = tag("table:table-header-rows", None, *elements[first - 1:last])
            # One element for these rows keeps the count of the others.
            elements[first - 1:last] = [title] + [""] * (last - first)
        return "".join(self._folded(elements, self.row_folds, "row"))

    def _columns(self, last_column):
        # Alike ones as one: the office sets the width of each entry by itself.
        hidden = self._hidden(self.column_folds)
        fold_of = {i: n for n, fold in enumerate(self.column_folds) for i in range(fold.first, fold.last + 1)}
        columns = [(self.book.automatic.column(self.widths.get(column, 20)), fold_of.get(column + 1))
                   for column in range(last_column + 1)]
        out, column = [], 0
        for (style, fold), alike in groupby(columns):
            count = len(list(alike))
            column += count
            out.append((fold, tag("table:table-column", {
                "table:style-name": style,
                "table:number-columns-repeated": count if count > 1 else None,
                "table:visibility": "collapse" if column in hidden else None,
                "table:default-cell-style-name": "Default"})))
        whole = []
        for fold, entries in groupby(out, key=lambda entry: entry[0]):
            inside = "".join(element for _, element in entries)
            if fold is not None:
                inside = tag("table:table-column-group", {
                    "table:display": "false" if self.column_folds[fold].folded else None}, inside)
            whole.append(inside)
        return "".join(whole)

    def _names(self):
        if not self.names:
            return ""
        return tag("table:named-expressions", None, *(self.book.named_range(name, self, cells)
                                                      for name, cells in self.names.items()))

    def _conditional_formats(self):
        if not self.conditions:
            return ""
        out = []
        for cells, formula, style in self.conditions:
            first = cells.partition(":")[0]
            out.append(tag(
                "calcext:conditional-format",
                {"calcext:target-range-address": self.reference(cells)},
                tag("calcext:condition", {
                    "calcext:apply-style-name": style,
                    "calcext:value": f"formula-is({stored(formula)})",
                    "calcext:base-cell-address": self.reference(first)})))
        return tag("calcext:conditional-formats", None, *out)

    def _forms(self):
        """The buttons: what they are, and where they are drawn."""
        if not self.buttons:
            return ""
        models, shapes = [], []
        for button in self.buttons:
            name = self.book.control_name()
            models.append(tag("form:button", {
                "form:name": button.text, "form:control-implementation": "ooo:com.sun.star.form.component.CommandButton",
                "xml:id": name, "form:id": name, "form:label": button.text, "form:printable": "false",
                "form:button-type": "url", "office:target-frame": "", "xlink:href": button.url,
                "form:focus-on-click": "false", "form:tab-stop": "false"}))
            shapes.append(tag("draw:control", {
                "draw:z-index": 1, "svg:x": f"{button.x}mm", "svg:y": f"{button.y}mm",
                "svg:width": f"{button.width}mm", "svg:height": f"{button.height}mm", "draw:control": name}))
        form = tag("form:form", {
            "form:name": "Form", "form:control-implementation": "ooo:com.sun.star.form.component.Form",
            "office:target-frame": ""}, *models)
        return (tag("office:forms", {"form:automatic-focus": "false", "form:apply-design-mode": "false"}, form)
                + tag("table:shapes", None, *shapes))

    def element(self):
        everything = set(self.cells) | self.covered
        last_row = max(row for row, _ in everything)
        last_column = max(max(column for _, column in everything), max(self.widths, default=0))
        printed = [self.print_range] if isinstance(self.print_range, str) else self.print_range or []
        protection = tag("loext:table-protection", {
            "loext:select-protected-cells": "true",
            "loext:select-unprotected-cells": "true"}) if self.protected else ""
        return tag(
            "table:table",
            {"table:name": self.name,
             "table:style-name": self.book.automatic.table(self.page, self.tab_colour),
             "table:protected": "true" if self.protected else None,
             "table:print-ranges": " ".join(self.reference(cells) for cells in printed) or None},
            protection, self._forms(), self._columns(last_column), self._rows(last_row, last_column),
            self._names(), self._conditional_formats())


def absolute(sheet_name, cells):
    """$'Run 1'.$A$1:.$B$9 for a named range."""
    def fixed(address):
        column, row = split_address(address)
        return f"${column_name(column)}${row}"

    first, _, last = cells.partition(":")
    start = "$'" + sheet_name.replace("'", "''") + "'." + fixed(first)
    return f"{start}:.{fixed(last)}" if last else start
