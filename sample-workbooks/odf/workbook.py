"""A whole workbook: its sheets, styles, validations, names, settings, and the package."""
import textwrap
import zipfile

from .formula import split_address, stored
from .sheet import Sheet, absolute
from .styles import AutomaticStyles
from .xml import HEADER, Lead, paragraphs, root, tag, text

_SHEET_TYPE = "application/vnd.oasis.opendocument.spreadsheet"
_CHART_TYPE = "application/vnd.oasis.opendocument.chart"


# What the window shows; left out, each would count as no.
_VIEW = (("ShowGrid", "false"), ("ShowZeroValues", "true"), ("ShowNotes", "true"),
         ("ShowPageBreaks", "true"), ("HasColumnRowHeaders", "true"), ("HasSheetTabs", "true"),
         ("IsOutlineSymbolsSet", "true"), ("IsValueHighlightingEnabled", "false"))

_DOCUMENT = (("ShowGrid", "false"), ("ShowZeroValues", "true"), ("ShowNotes", "true"),
             ("ShowPageBreaks", "true"), ("HasColumnRowHeaders", "true"), ("HasSheetTabs", "true"),
             ("IsOutlineSymbolsSet", "true"), ("AutoCalculate", "true"))


class Validation:
    """What a cell accepts, and the help shown beside it. `condition` as in the file format; empty
    accepts everything and only helps."""

    def __init__(self, title, help_text, condition="", error=None, stop=True):
        self.title, self.help, self.condition = title, help_text, condition
        self.error, self.stop = error or help_text, stop


def one_of(*words):
    """Condition: one of these texts, offered as a list."""
    quoted = ";".join(f'"{word}"' for word in words)
    return f"of:cell-content-is-in-list({quoted})"


def between(low, high):
    return f"of:cell-content-is-decimal-number() and cell-content-is-between({low},{high})"


def at_least(low):
    return f"of:cell-content-is-decimal-number() and cell-content()>={low}"


def time_of_day():
    return "of:cell-content-is-time() and cell-content-is-between(0,0.99999999)"


def a_date():
    return "of:cell-content-is-date() and cell-content()>=2"


def formula_true(formula):
    return f"of:is-true-formula({stored(formula)})"


def _narrow(help_text):
    """Broken into short lines: Calc shows each paragraph on one line."""
    return "\n".join(line for paragraph in help_text.split("\n")
                     for line in textwrap.wrap(paragraph, 64))


class Workbook:
    def __init__(self, named_styles, page_styles, title, subject, generator):
        self.named_styles, self.page_styles = named_styles, page_styles
        self.title, self.subject, self.generator = title, subject, generator
        self.automatic = AutomaticStyles()
        self.sheets, self.charts, self.names = [], [], {}
        self._validations, self._controls = {}, 0
        self.active = 0

    def add_sheet(self, name, page, **options):
        sheet = Sheet(self, name, page, **options)
        self.sheets.append(sheet)
        return sheet

    def add_chart(self, chart):
        self.charts.append(chart)
        chart.object = f"Object {len(self.charts)}"
        return chart

    def control_name(self):
        self._controls += 1
        return f"control{self._controls}"

    def name_cells(self, name, sheet, cells):
        """A name of the whole workbook."""
        self.names[name] = (sheet, cells)

    def validation_name(self, validation):
        return self._validations.setdefault(validation, f"val{len(self._validations) + 1}")

    @staticmethod
    def named_range(name, sheet, cells):
        return tag("table:named-range", {
            "table:name": name, "table:base-cell-address": absolute(sheet.name, "A1"),
            "table:cell-range-address": absolute(sheet.name, cells)})

    # --- parts ---------------------------------------------------------------------------------
    def _validation_elements(self):
        if not self._validations:
            return ""
        out = []
        base = self.sheets[0].reference("A1")
        for validation, name in self._validations.items():
            lists = "cell-content-is-in-list" in validation.condition
            out.append(tag(
                "table:content-validation",
                {"table:name": name, "table:condition": validation.condition or None,
                 "table:allow-empty-cell": "true",
                 "table:display-list": "unsorted" if lists else None,
                 "table:base-cell-address": base},
                tag("table:help-message", {"table:title": validation.title,
                                           "table:display": "true"}, paragraphs(_narrow(validation.help))),
                tag("table:error-message", {
                    "table:title": validation.title,
                    "table:message-type": "stop" if validation.stop else "warning",
                    "table:display": "true" if validation.condition else "false"},
                    paragraphs(_narrow(validation.error)))))
        return tag("table:content-validations", None, *out)

    def content(self):
        tables = "".join(sheet.element() for sheet in self.sheets)  # first: they make the styles
        names = tag("table:named-expressions", None, *(
            self.named_range(name, sheet, cells) for name, (sheet, cells) in self.names.items())
        ) if self.names else ""
        self.automatic.frame()
        return root(
            "office:document-content", None,
            tag("office:automatic-styles", None, self.automatic.elements(), Lead.style()),
            tag("office:body", None, tag(
                "office:spreadsheet", None,
                tag("table:calculation-settings", {"table:automatic-find-labels": "false",
                                                   "table:use-regular-expressions": "false",
                                                   "table:use-wildcards": "false",
                                                   "table:case-sensitive": "false"},
                    tag("table:null-date", {"table:date-value": "1899-12-30"})),
                self._validation_elements(), tables, names)))

    def styles(self):
        default = tag("style:default-style", {"style:family": "table-cell"},
                      tag("style:paragraph-properties", {"style:tab-stop-distance": "12.5mm"}),
                      tag("style:text-properties", {"style:font-name": "Liberation Sans",
                                                    "fo:font-size": "10pt",
                                                    "fo:language": "zxx", "fo:country": "none"}))
        small = tag("style:style", {"style:name": "Small", "style:family": "text"},
                    tag("style:text-properties", {"fo:font-size": "8pt", "fo:color": "#444444",
                                                  "style:font-name": "Liberation Sans"}))
        fonts = tag("office:font-face-decls", None, tag("style:font-face", {
            "style:name": "Liberation Sans", "svg:font-family": "'Liberation Sans'",
            "style:font-family-generic": "swiss", "style:font-pitch": "variable"}))
        return root(
            "office:document-styles", None, fonts,
            tag("office:styles", None, default, *(s.element() for s in self.named_styles)),
            tag("office:automatic-styles", None, small, *(p.layout() for p in self.page_styles)),
            tag("office:master-styles", None, *(p.master() for p in self.page_styles)))

    def meta(self):
        return root("office:document-meta", None, tag(
            "office:meta", None, tag("meta:generator", None, text(self.generator)),
            tag("dc:title", None, text(self.title)), tag("dc:subject", None, text(self.subject))))

    def settings(self):
        def item(name, kind, value):
            return tag("config:config-item", {"config:name": name, "config:type": kind}, str(value))

        tables = []
        for sheet in self.sheets:
            rows = sheet.frozen_rows
            frozen = (item("VerticalSplitMode", "short", 2)
                      + item("VerticalSplitPosition", "int", rows)
                      + item("ActiveSplitRange", "short", 3 if sheet.frozen_columns else 2)
                      + item("PositionBottom", "int", rows)) if rows else ""
            if sheet.frozen_columns:
                frozen = (item("HorizontalSplitMode", "short", 2)
                          + item("HorizontalSplitPosition", "int", sheet.frozen_columns)
                          + item("PositionRight", "int", sheet.frozen_columns)) + frozen
            tables.append(tag("config:config-item-map-entry", {"config:name": sheet.name},
                              item("CursorPositionX", "int", split_address(sheet.cursor)[0]),
                              item("CursorPositionY", "int", split_address(sheet.cursor)[1] - 1),
                              frozen,
                              item("ZoomType", "short", 0), item("ZoomValue", "int", 100),
                              *(item(name, "boolean", value) for name, value in _VIEW)))
        view = tag("config:config-item-map-entry", None, item("ViewId", "string", "view1"),
                   tag("config:config-item-map-named", {"config:name": "Tables"}, *tables),
                   item("ActiveTable", "string", text(self.sheets[self.active].name)),
                   *(item(name, "boolean", value) for name, value in _VIEW))
        return root("office:document-settings", None, tag(
            "office:settings", None,
            tag("config:config-item-set", {"config:name": "ooo:view-settings"},
                tag("config:config-item-map-indexed", {"config:name": "Views"}, view)),
            tag("config:config-item-set", {"config:name": "ooo:configuration-settings"},
                *(item(name, "boolean", value) for name, value in _DOCUMENT))))

    # --- the package ---------------------------------------------------------------------------
    def save(self, path, template=False):
        kind = _SHEET_TYPE + ("-template" if template else "")
        parts = {"content.xml": self.content(), "styles.xml": self.styles(),
                 "meta.xml": self.meta(), "settings.xml": self.settings()}
        entries = [("/", kind)] + [(name, "text/xml") for name in parts]
        for chart in self.charts:
            parts[f"{chart.object}/content.xml"] = chart.content()
            parts[f"{chart.object}/styles.xml"] = chart.styles()
            entries += [(f"{chart.object}/", _CHART_TYPE),
                        (f"{chart.object}/content.xml", "text/xml"),
                        (f"{chart.object}/styles.xml", "text/xml")]
        manifest_space = "urn:oasis:names:tc:opendocument:xmlns:manifest:1.0"
        parts["META-INF/manifest.xml"] = HEADER + tag(
            "manifest:manifest", {"xmlns:manifest": manifest_space, "manifest:version": "1.3"},
            *(tag("manifest:file-entry", {"manifest:full-path": name, "manifest:media-type": media})
              for name, media in entries))
        with zipfile.ZipFile(path, "w") as package:
            _add(package, "mimetype", kind, zipfile.ZIP_STORED)
            for name, body in parts.items():
                _add(package, name, body, zipfile.ZIP_DEFLATED)


def _add(package, name, body, compression):
    entry = zipfile.ZipInfo(name, (1980, 1, 1, 0, 0, 0))  # no clock: the same bytes every time
    entry.compress_type = compression
    entry.external_attr = 0o644 << 16
    entry.create_system = 3
    package.writestr(entry, body.encode("utf-8"), compresslevel=9)
