"""How the workbooks look: named cell styles, page styles. Plain, calm, and printable in grey:
what a person fills in is a light box, what is computed lies on pale grey, a caution is boxed in bold.
"""
from odf.styles import NamedStyle, PageStyle

INK, QUIET, RULE, FIELD = "#1f2933", "#5b6670", "#b3bcc4", "#8d99a3"
PAPER, COMPUTED, BAND, WARN, WARN_PAPER = "#fffdf2", "#eef1f3", "#3d5361", "#8c1d18", "#fbeae7"

_thin = {"fo:border": f"0.5pt solid {FIELD}"}
_hair = {"fo:border-bottom": f"0.35pt solid {RULE}"}
_middle = {"style:vertical-align": "middle"}
_pad = {"fo:padding-left": "0.4mm", "fo:padding-right": "0.4mm", "fo:padding-top": "0.1mm",
        "fo:padding-bottom": "0.1mm"}
_open = {"style:cell-protect": "none"}
_wrap = {"fo:wrap-option": "wrap"}
_left = {"fo:text-align": "start", "fo:margin-left": "0mm"}
_right = {"fo:text-align": "end"}
_centre = {"fo:text-align": "center"}

NAMED_STYLES = [
    NamedStyle("Default", cell=_middle | _pad | {"style:cell-protect": "protected"},
               letters={"style:font-name": "Liberation Sans", "fo:font-size": "9.5pt", "fo:color": INK}),
    NamedStyle("Jarbook title", cell={"fo:border-bottom": f"1.5pt solid {BAND}"},
               letters={"fo:font-size": "14pt", "fo:font-weight": "bold", "fo:color": BAND}),
    NamedStyle("Jarbook title line", cell={"fo:border-bottom": f"1.5pt solid {BAND}"}, paragraph=_left,
               letters={"fo:font-size": "11pt", "fo:color": INK}),
    NamedStyle("Jarbook section", cell={"fo:background-color": BAND, "fo:padding-left": "1.4mm",
                                        "fo:border-left": "2pt solid #ffffff"},
               letters={"fo:font-size": "10pt", "fo:font-weight": "bold", "fo:color": "#ffffff"}),
    NamedStyle("Jarbook section rest", cell={"fo:background-color": BAND}),
    NamedStyle("Jarbook heading", cell=_wrap | {"fo:border-bottom": f"0.75pt solid {BAND}",
                                                "style:vertical-align": "bottom"}, paragraph=_centre,
               letters={"fo:font-size": "8pt", "fo:font-weight": "bold", "fo:color": BAND}),
    NamedStyle("Jarbook label", cell=_hair | {"fo:padding-left": "1.4mm"}, paragraph=_left, letters={"fo:font-size": "9pt"}),
    NamedStyle("Jarbook unit", cell=_hair | {"fo:padding-left": "1mm"}, paragraph=_left,
               letters={"fo:font-size": "8pt", "fo:color": QUIET}),
    NamedStyle("Jarbook note", cell=_wrap | {"style:vertical-align": "top",
                                             "fo:padding-left": "1.4mm"}, paragraph=_left,
               letters={"fo:font-size": "8pt", "fo:color": QUIET}),
    NamedStyle("Jarbook text", cell=_wrap | {"style:vertical-align": "top"}, paragraph=_left),
    NamedStyle("Jarbook input", cell=_thin | _open | {"fo:background-color": PAPER}, paragraph=_right),
    NamedStyle("Jarbook input text", "Jarbook input", cell={"fo:wrap-option": "no-wrap",
                                                            "style:shrink-to-fit": "true",
                                                            "fo:padding-left": "0.9mm"},
               paragraph=_left, letters={"fo:font-size": "9pt"}),
    NamedStyle("Jarbook computed", cell={"fo:background-color": COMPUTED,
                                         "fo:border": f"0.35pt solid {RULE}"}, paragraph=_right),
    NamedStyle("Jarbook computed text", "Jarbook computed", cell=_wrap | {"fo:padding-left": "0.9mm"}, paragraph=_left,
               letters={"fo:font-size": "9pt"}),
    # Shrinks so that an error such as #VALUE! can be read in a narrow column.
    NamedStyle("Jarbook result", "Jarbook computed", cell={"style:shrink-to-fit": "true"}, letters={"fo:font-weight": "bold"}),
    NamedStyle("Jarbook aside", cell={"fo:border": f"0.35pt solid {RULE}"}, paragraph=_right,
               letters={"fo:font-size": "8pt", "fo:color": QUIET}),
    NamedStyle("Jarbook caution", cell=_wrap | {"fo:background-color": WARN_PAPER,
                                                "fo:border": f"1pt solid {WARN}", "fo:padding-left": "0.9mm"},
               paragraph=_left,
               letters={"fo:font-size": "9pt", "fo:font-weight": "bold", "fo:color": WARN}),
    # Where two of them share a small box.
    NamedStyle("Jarbook small caution", "Jarbook caution", letters={"fo:font-size": "8pt"}),
    NamedStyle("Jarbook query", cell={"fo:background-color": WARN_PAPER},
               letters={"fo:font-weight": "bold", "fo:font-style": "italic", "fo:color": WARN}),
    # On inputs: a style that a conditional format applies also decides about protection.
    NamedStyle("Jarbook query input", "Jarbook query", cell=_open),
    NamedStyle("Jarbook good", letters={"fo:font-weight": "bold", "fo:color": BAND}),
]

FOOT = "Jarbook"


def page_styles(run_scale):
    return [PageStyle("RunPage", True, scale=run_scale, left_foot=FOOT),
            PageStyle("WidePage", True, left_foot=FOOT, width_pages=1),
            PageStyle("TallPage", False, left_foot=FOOT, width_pages=1)]
