"""Charts as embedded objects. Their series are cell ranges of a sheet."""
from .styles import number_format
from .xml import root, tag, text


class Series:
    """One row of points. `symbol` None draws a line only, `line` None symbols only; `bars` are the cells that
    say how far up and down from each point a bar goes, `stroke` is how far it goes from every point."""

    def __init__(self, values, label, x=None, symbol=None, colour="#333333", line=None, dash=None,
                 size=2.6, column=False, secondary=False, bars=None, quiet=False, stroke=None):
        """A `quiet` one does not appear in the legend."""
        self.values, self.label, self.x, self.symbol, self.bars = values, label, x, symbol, bars
        self.quiet, self.stroke = quiet, stroke
        self.colour, self.line, self.dash, self.size = colour, line, dash, size
        self.column, self.secondary = column, secondary


class Axis:
    def __init__(self, title, minimum=None, maximum=None, step=None, code="general", grid=True):
        self.title, self.minimum, self.maximum = title, minimum, maximum
        self.step, self.code, self.grid = step, code, grid


_LETTERS = {"style:font-name": "Liberation Sans", "fo:font-family": "Liberation Sans",
            "fo:font-size": "8pt", "fo:color": "#222222"}


class Chart:
    """kind "scatter" (x and y) or "line" (categories). Anchored to a cell, as far as `to`."""

    def __init__(self, name, kind, title, series, x_axis, y_axis, width, height, categories=None,
                 second_axis=None, description="", legend="end"):
        self.legend = legend
        self.name, self.kind, self.title, self.series = name, kind, title, series
        self.x_axis, self.y_axis, self.second_axis = x_axis, y_axis, second_axis
        self.width, self.height, self.categories = width, height, categories
        self.description = description
        self.object, self.end = None, None

    # --- in the sheet --------------------------------------------------------------------------
    def frame(self, sheet):
        self.sheet = sheet
        ranges = []
        for series in self.series:
            ranges += [series.x, series.values, series.label, series.bars]
        watched = " ".join(sheet.reference(r) for r in dict.fromkeys(ranges + [self.categories]) if r)
        return tag(
            "draw:frame",
            {"draw:z-index": 0, "draw:name": self.name, "draw:style-name": sheet.book.automatic.frame(),
             "svg:width": f"{self.width}mm", "svg:height": f"{self.height}mm",
             "svg:x": "1mm", "svg:y": "1mm",
             "table:end-cell-address": sheet.reference(self.end) if self.end else None,
             "table:end-x": "0mm" if self.end else None, "table:end-y": "0mm" if self.end else None},
            tag("draw:object", {"draw:notify-on-update-of-ranges": watched,
                                "xlink:href": f"./{self.object}", "xlink:type": "simple",
                                "xlink:show": "embed", "xlink:actuate": "onLoad"}),
            tag("svg:title", None, text(self.title)),
            tag("svg:desc", None, text(self.description or self.title)))

    # --- the object ----------------------------------------------------------------------------
    def content(self):
        self._styles, self._formats, self._count = [], [], 0
        body = self._chart()
        return root("office:document-content", None,
                    tag("office:automatic-styles", None, *self._formats, *self._styles),
                    tag("office:body", None, tag("office:chart", None, body)))

    @staticmethod
    def styles():
        """The object's styles: the dash that a second curve is drawn with."""
        return root("office:document-styles", None, tag("office:styles", None, tag(
            "draw:stroke-dash", {"draw:name": "Dash", "draw:style": "rect", "draw:dots1": 1,
                                 "draw:dots1-length": "1.6mm", "draw:distance": "1.2mm"})))

    def _style(self, chart=None, graphic=None, letters=None, data=None):
        self._count += 1
        name = f"ch{self._count}"
        properties = ""
        for element, values in (("style:chart-properties", chart),
                                ("style:graphic-properties", graphic),
                                ("style:text-properties", letters)):
            if values:
                properties += tag(element, values)
        self._styles.append(tag("style:style", {"style:name": name, "style:family": "chart",
                                                "style:data-style-name": data}, properties))
        return name

    def _dash(self, dash):
        return {"draw:stroke": "dash", "draw:stroke-dash": dash} if dash else {"draw:stroke": "solid"}

    def _series_style(self, series):
        chart = {"chart:symbol-type": "none"}
        if series.symbol:
            chart = {"chart:symbol-type": "named-symbol", "chart:symbol-name": series.symbol,
                     "chart:symbol-width": f"{series.size}mm", "chart:symbol-height": f"{series.size}mm"}
        graphic = {"draw:fill-color": series.colour}
        if series.column:
            graphic |= {"draw:fill": "solid", "draw:stroke": "solid", "svg:stroke-color": "#333333"}
        elif series.line:
            graphic |= self._dash(series.dash) | {"svg:stroke-width": f"{series.line}mm",
                                                  "svg:stroke-color": series.colour}
        else:
            graphic |= {"draw:stroke": "none", "svg:stroke-color": series.colour}
        return self._style(chart | {"chart:link-data-style-to-source": "false"}, graphic)

    def _axis(self, axis, dimension, name, categories=False):
        chart = {"chart:display-label": "true", "chart:logarithmic": "false",
                 "chart:minimum": axis.minimum, "chart:maximum": axis.maximum,
                 "chart:interval-major": axis.step, "chart:tick-marks-major-outer": "true",
                 "chart:link-data-style-to-source": "false"}
        data = None
        if axis.code != "general":
            data = f"N{len(self._formats) + 1}"
            self._formats.append(number_format(data, axis.code))
        style = self._style(chart, {"draw:stroke": "solid", "svg:stroke-color": "#777777"}, _LETTERS, data)
        grid = self._style(None, {"draw:stroke": "solid", "svg:stroke-color": "#dddddd"})
        inside = tag("chart:title", {"chart:style-name": self._style(
            {"style:rotation-angle": 90} if dimension == "y" else None, None, _LETTERS)},
            tag("text:p", None, text(axis.title)))
        if categories:
            inside += tag("chart:categories", {
                "table:cell-range-address": self.sheet.reference(self.categories)})
        if axis.grid:
            inside += tag("chart:grid", {"chart:style-name": grid, "chart:class": "major"})
        return tag("chart:axis", {"chart:dimension": dimension, "chart:name": name,
                                  "chart:style-name": style}, inside)

    def _one_series(self, series):
        ref = self.sheet.reference
        kind = "chart:bar" if series.column else f"chart:{self.kind}"
        domain = tag("chart:domain", {"table:cell-range-address": ref(series.x)}) if series.x else ""
        if series.bars or series.stroke:
            ends = ({"chart:error-category": "cell-range", "chart:error-upper-range": ref(series.bars),
                     "chart:error-lower-range": ref(series.bars)} if series.bars else
                    {"chart:error-category": "constant", "chart:error-upper-limit": series.stroke,
                     "chart:error-lower-limit": series.stroke})
            style = self._style(ends | {"chart:error-upper-indicator": "true", "chart:error-lower-indicator": "true"},
                                {"draw:stroke": "solid", "svg:stroke-width": "0.4mm" if series.stroke else "0.2mm",
                                 "svg:stroke-color": series.colour})
            domain += tag("chart:error-indicator", {"chart:style-name": style, "chart:dimension": "y"})
        return tag("chart:series", {
            "chart:style-name": self._series_style(series),
            "chart:values-cell-range-address": ref(series.values),
            "chart:label-cell-address": ref(series.label),
            "chart:class": kind, "loext:hide-legend": "true" if series.quiet else None,
            "chart:attached-axis": "secondary-y" if series.secondary else "primary-y"}, domain)

    def _chart(self):
        title = tag("chart:title", {"chart:style-name": self._style(
            None, None, _LETTERS | {"fo:font-size": "9pt", "fo:font-weight": "bold"})},
            tag("text:p", None, text(self.title)))
        legend = tag("chart:legend", {
            "chart:legend-position": self.legend,
            "style:legend-expansion": "high" if self.legend == "end" else "wide",
            "chart:style-name": self._style(None, {"draw:stroke": "none", "draw:fill": "none"}, _LETTERS)})
        plot = self._style({"chart:include-hidden-cells": "true", "chart:treat-empty-cells": "leave-gap",
                            "chart:auto-position": "true", "chart:auto-size": "true"})
        wall = tag("chart:wall", {"chart:style-name": self._style(
            None, {"draw:stroke": "solid", "svg:stroke-color": "#999999", "draw:fill": "none"})})
        axes = self._axis(self.x_axis, "x", "primary-x", bool(self.categories))
        axes += self._axis(self.y_axis, "y", "primary-y")
        if self.second_axis:
            axes += self._axis(self.second_axis, "y", "secondary-y")
        area = self._style(None, {"draw:stroke": "none", "draw:fill": "solid",
                                  "draw:fill-color": "#ffffff"})
        # Over categories points stand between the marks of the axis, as bars do, and not on the axis itself.
        kind = "bar" if self.kind == "line" or any(s.column for s in self.series) else self.kind
        return tag(
            "chart:chart",
            {"svg:width": f"{self.width}mm", "svg:height": f"{self.height}mm", "xlink:href": "..",
             "xlink:type": "simple", "chart:class": f"chart:{kind}", "chart:style-name": area},
            title, legend,
            tag("chart:plot-area", {"chart:style-name": plot}, axes,
                *(self._one_series(s) for s in self.series), wall))
