"""Named styles, the automatic styles made from them, number formats, page styles."""
from .xml import tag, text

_CELL, _PARAGRAPH, _TEXT = "style:table-cell-properties", "style:paragraph-properties", "style:text-properties"


def style_name(name):
    """As the file wants it: spaces coded."""
    return name.replace(" ", "_20_")


def _properties(cell, paragraph, letters):
    out = ""
    for element, values in ((_CELL, cell), (_PARAGRAPH, paragraph), (_TEXT, letters)):
        if values:
            out += tag(element, values)
    return out


class NamedStyle:
    """A cell style that the user sees under its name."""

    def __init__(self, name, parent="Default", cell=None, paragraph=None, letters=None):
        self.name, self.parent = name, parent
        self.cell, self.paragraph, self.letters = cell or {}, paragraph or {}, letters or {}

    def element(self):
        parent = None if self.name == "Default" else style_name(self.parent)
        return tag("style:style", {"style:name": style_name(self.name),
                                   "style:display-name": self.name,
                                   "style:family": "table-cell",
                                   "style:parent-style-name": parent},
                   _properties(self.cell, self.paragraph, self.letters))


def _digits(places, grouping=False):
    return tag("number:number", {"number:decimal-places": places,
                                 "number:min-decimal-places": places,
                                 "number:min-integer-digits": 1,
                                 "number:grouping": "true" if grouping else None})


def _number_style(name, body, *maps, kind="number:number-style", volatile=False):
    return tag(kind, {"style:name": name, "style:volatile": "true" if volatile else None},
               body, *maps)


def _map(condition, style):
    return tag("style:map", {"style:condition": condition, "style:apply-style-name": style})


def number_format(name, code):
    """The data style of a code: 0, 0.0 ..., 0%, 0.0 %, +0.0 (signed), ±0.0 (± before it),
    0|- (zero as a dash), date, time, hours (of a day's fraction), general. No language is named: the numbers follow the locale in which the file is opened.
    """
    if code == "general":
        return _number_style(name, tag("number:number", {"number:min-integer-digits": 1}))
    if code == "date":  # year-month-day wherever it is opened
        def dash():
            return tag("number:text", None, "-")

        parts = (tag("number:year", {"number:style": "long"}), dash(),
                 tag("number:month", {"number:style": "long"}), dash(),
                 tag("number:day", {"number:style": "long"}))
        return tag("number:date-style", {"style:name": name}, *parts)
    if code == "hours":  # h:mm, also more than a day
        return tag("number:time-style", {"style:name": name, "number:truncate-on-overflow": "false"},
                   tag("number:hours"), tag("number:text", None, ":"),
                   tag("number:minutes", {"number:style": "long"}))
    if code == "time":
        return tag("number:time-style", {"style:name": name},
                   tag("number:hours", {"number:style": "long"}), tag("number:text", None, ":"),
                   tag("number:minutes", {"number:style": "long"}))
    if code == "text":
        return tag("number:text-style", {"style:name": name}, tag("number:text-content"))
    signed, dashed, percent = code.startswith("+"), code.endswith("|-"), code.endswith("%")
    digits = code.strip("+±|-% ")
    body = _digits(len(digits.partition(".")[2]))
    kind = "number:percentage-style" if percent else "number:number-style"
    if code.startswith("±"):
        body = tag("number:text", None, "± ") + body
    if percent:
        body += tag("number:text", None, " %" if code.endswith(" %") else "%")
    minus = tag("number:text", None, text("-"))
    if signed:
        plus = _number_style(name + "P0", tag("number:text", None, "+") + body, volatile=True, kind=kind)
        zero = _number_style(name + "P1", body, volatile=True, kind=kind)
        return plus + zero + _number_style(name, minus + body, _map("value()>0", name + "P0"),
                                           _map("value()=0", name + "P1"), kind=kind)
    if percent:
        return _number_style(name, body, kind=kind)
    if dashed:
        plain = _number_style(name + "P0", body, volatile=True)
        below = _number_style(name + "P1", minus + body, volatile=True)
        return plain + below + _number_style(name, tag("number:text", None, "–"),
                                             _map("value()>0", name + "P0"),
                                             _map("value()<0", name + "P1"))
    return _number_style(name, body)


class AutomaticStyles:
    """Cell, row, column and table styles made on demand, each once, in the order of first use."""

    def __init__(self):
        self._names, self._elements, self._formats = {}, [], {}

    def _once(self, key, prefix, make):
        if key not in self._names:
            count = sum(1 for name in self._names.values() if name.startswith(prefix)) + 1
            self._names[key] = f"{prefix}{count}"
            self._elements.append(make(self._names[key]))
        return self._names[key]

    def data(self, code):
        if code not in self._formats:
            name = f"N{100 + len(self._formats)}"
            self._formats[code] = name
            self._elements.append(number_format(name, code))
        return self._formats[code]

    def cell(self, parent, code, cell=(), paragraph=(), letters=()):
        """A cell style as `parent` with a number format and a few own properties (item tuples)."""
        if not code and not cell and not paragraph and not letters:
            return style_name(parent)
        data = self.data(code) if code else None
        return self._once(("cell", parent, code, cell, paragraph, letters), "ce", lambda name: tag(
            "style:style", {"style:name": name, "style:family": "table-cell",
                            "style:parent-style-name": style_name(parent),
                            "style:data-style-name": data},
            _properties(dict(cell), dict(paragraph), dict(letters))))

    def column(self, width):
        return self._once(("column", width), "co", lambda name: tag(
            "style:style", {"style:name": name, "style:family": "table-column"},
            tag("style:table-column-properties", {"style:column-width": f"{width}mm"})))

    def row(self, height, page_break=False):
        return self._once(("row", height, page_break), "ro", lambda name: tag(
            "style:style", {"style:name": name, "style:family": "table-row"},
            tag("style:table-row-properties", {
                "style:row-height": f"{height}mm" if height else None,
                "style:use-optimal-row-height": "false" if height else "true",
                "fo:break-before": "page" if page_break else "auto"})))

    def table(self, master_page, tab_colour):
        return self._once(("table", master_page, tab_colour), "ta", lambda name: tag(
            "style:style", {"style:name": name, "style:family": "table",
                            "style:master-page-name": master_page},
            tag("style:table-properties", {"table:display": "true", "style:writing-mode": "lr-tb",
                                           "tableooo:tab-color": tab_colour})))

    def frame(self):
        return self._once(("frame",), "gr", lambda name: tag(
            "style:style", {"style:name": name, "style:family": "graphic"},
            tag("style:graphic-properties", {"draw:stroke": "none", "draw:fill": "none"})))

    def elements(self):
        return "".join(self._elements)


class PageStyle:
    """A page: landscape or portrait A4, margins and header and footer with sheet name and page."""

    def __init__(self, name, landscape, scale=100, left_foot="", width_pages=None):
        self.name, self.landscape, self.scale = name, landscape, scale
        self.left_foot, self.width_pages = left_foot, width_pages

    def layout(self):
        width, height = ("297mm", "210mm") if self.landscape else ("210mm", "297mm")
        margin, top, bottom = ("8mm", "6mm", "5mm") if self.landscape else ("12mm", "12mm", "7mm")
        scale = ({"style:scale-to-X": self.width_pages, "style:scale-to-Y": 0}
                 if self.width_pages else {"style:scale-to": f"{self.scale}%"})
        small = tag("style:header-footer-properties", {
            "fo:min-height": "4.5mm", "fo:margin-left": "0mm", "fo:margin-right": "0mm",
            "fo:margin-top": "1mm"})
        return tag(
            "style:page-layout", {"style:name": self.name},
            tag("style:page-layout-properties", {
                "fo:page-width": width, "fo:page-height": height,
                "style:print-orientation": "landscape" if self.landscape else "portrait",
                "fo:margin-top": top, "fo:margin-bottom": bottom, "fo:margin-left": margin,
                "fo:margin-right": margin, "style:table-centering": "horizontal",
                "style:print": "objects charts drawings zero-values", "style:print-page-order": "ttb",
                "style:first-page-number": "continue"} | scale),
            tag("style:header-style"), tag("style:footer-style", None, small))

    def master(self):
        def region(side, *content):
            return tag(f"style:region-{side}", None,
                       tag("text:p", None, tag("text:span", {"text:style-name": "Small"}, *content)))

        number = tag("text:page-number", None, "1")
        count = tag("text:page-count", None, "1")
        foot = tag("style:footer", None,
                   region("left", text(self.left_foot)),
                   region("center", tag("text:sheet-name", None, "?")),
                   region("right", "Page ", number, " of ", count))
        return tag("style:master-page", {"style:name": self.name,
                                         "style:page-layout-name": self.name},
                   tag("style:header", {"style:display": "false"}), foot)
