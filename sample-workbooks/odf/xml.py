"""Elements as text. Attributes are written in the order given."""
from xml.sax.saxutils import escape, quoteattr

NAMESPACES = {
    "office": "urn:oasis:names:tc:opendocument:xmlns:office:1.0",
    "style": "urn:oasis:names:tc:opendocument:xmlns:style:1.0",
    "text": "urn:oasis:names:tc:opendocument:xmlns:text:1.0",
    "table": "urn:oasis:names:tc:opendocument:xmlns:table:1.0",
    "draw": "urn:oasis:names:tc:opendocument:xmlns:drawing:1.0",
    "fo": "urn:oasis:names:tc:opendocument:xmlns:xsl-fo-compatible:1.0",
    "xlink": "http://www.w3.org/1999/xlink",
    "dc": "http://purl.org/dc/elements/1.1/",
    "meta": "urn:oasis:names:tc:opendocument:xmlns:meta:1.0",
    "number": "urn:oasis:names:tc:opendocument:xmlns:datastyle:1.0",
    "svg": "urn:oasis:names:tc:opendocument:xmlns:svg-compatible:1.0",
    "form": "urn:oasis:names:tc:opendocument:xmlns:form:1.0",
    "chart": "urn:oasis:names:tc:opendocument:xmlns:chart:1.0",
    "config": "urn:oasis:names:tc:opendocument:xmlns:config:1.0",
    "of": "urn:oasis:names:tc:opendocument:xmlns:of:1.2",
    "ooo": "http://openoffice.org/2004/office",
    "calcext": "urn:org:documentfoundation:names:experimental:calc:xmlns:calcext:1.0",
    "loext": "urn:org:documentfoundation:names:experimental:office:xmlns:loext:1.0",
    "tableooo": "http://openoffice.org/2009/table",
}
HEADER = '<?xml version="1.0" encoding="UTF-8"?>\n'


def tag(name, attributes=None, *children):
    """One element. An attribute that is None is left out; children are elements already written."""
    pairs = "".join(f" {key}={quoteattr(str(value), {chr(10): '&#10;'})}"
                    for key, value in (attributes or {}).items() if value is not None)
    inside = "".join(children)
    return f"<{name}{pairs}>{inside}</{name}>" if inside else f"<{name}{pairs}/>"


def text(value):
    return escape(str(value))


def paragraphs(value, style=None):
    """Text as paragraphs, one a line; runs of spaces are not kept."""
    attributes = {"text:style-name": style} if style else None
    return "".join(tag("text:p", attributes, text(line)) for line in str(value).split("\n"))


class Lead:
    """A cell's text that begins with a few words in bold."""

    STYLE = "Lead"

    def __init__(self, lead, rest):
        self.lead, self.rest = lead, rest

    def __str__(self):
        return f"{self.lead} {self.rest}"

    def element(self):
        return tag("text:p", None, tag("text:span", {"text:style-name": self.STYLE}, text(self.lead)),
                   text(f" {self.rest}"))

    @classmethod
    def style(cls):
        return tag("style:style", {"style:name": cls.STYLE, "style:family": "text"},
                   tag("style:text-properties", {"fo:font-weight": "bold"}))


def root(name, attributes, *children):
    """A document's root element, with every namespace, and the XML declaration before it."""
    spaces = {f"xmlns:{prefix}": address for prefix, address in NAMESPACES.items()}
    return HEADER + tag(name, spaces | {"office:version": "1.3"} | (attributes or {}), *children)
