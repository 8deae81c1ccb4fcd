"""How the workbooks look: named cell styles, page styles. Plain, calm, and printable in grey:
what a person fills in is a light box, what is computed lies on pale grey, a caution is boxed in bold.
"""
from odf.styles import NamedStyle, PageStyle

INK, RULE, FIELD = "#1f2933", "#a3adb5", "#7d8993"
PAPER, COMPUTED, BAND, WARN, WARN_PAPER = "#fffdf2", "#eceff1", "#3d5361", "#8c1d18", "#fbeae7"

# Readable in a light and in a dark colour scheme: letters of the scheme's own colour where nothing
# lies under them, else letters and ground both set; rules of a grey that shows on either.
_own = {"style:use-window-font-color": "true"}
_ink = {"fo:color": INK}
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
_words = {"fo:wrap-option": "no-wrap", "style:shrink-to-fit": "true", "fo:padding-left": "0.9mm"}

NAMED_STYLES = [
    NamedStyle("Default", cell=_middle | _pad | {"style:cell-protect": "protected"},
               letters={"style:font-name": "Liberation Sans", "fo:font-size": "9.5pt"} | _own),
    NamedStyle("Jarbook title", cell={"fo:border-bottom": f"1.5pt solid {FIELD}"},
               letters={"fo:font-size": "14pt", "fo:font-weight": "bold"}),
    NamedStyle("Jarbook title line", cell={"fo:border-bottom": f"1.5pt solid {FIELD}"}, paragraph=_left,
               letters={"fo:font-size": "11pt"}),
    NamedStyle("Jarbook section", cell={"fo:background-color": BAND, "fo:padding-left": "1.4mm"},
               letters={"fo:font-size": "10pt", "fo:font-weight": "bold", "fo:color": "#ffffff"}),
    NamedStyle("Jarbook section rest", cell={"fo:background-color": BAND},
               letters={"fo:font-size": "9pt", "fo:color": "#ffffff"}),
    NamedStyle("Jarbook heading", cell=_wrap | {"fo:border-bottom": f"0.75pt solid {FIELD}",
                                                "style:vertical-align": "bottom"}, paragraph=_centre,
               letters={"fo:font-size": "8pt", "fo:font-weight": "bold"}),
    # A heading at the left, over several columns
    NamedStyle("Jarbook lead", cell={"fo:border-bottom": f"0.75pt solid {FIELD}", "style:vertical-align": "bottom",
                                     "fo:padding-left": "1.4mm"}, paragraph=_left,
               letters={"fo:font-size": "8pt", "fo:font-weight": "bold"}),
    NamedStyle("Jarbook button", cell={"fo:background-color": BAND, "fo:border": "1pt solid #ffffff"}, paragraph=_centre,
               letters={"fo:font-size": "9.5pt", "fo:font-weight": "bold", "fo:color": "#ffffff"}),
    # The line that stays in view, and sentences of a row
    NamedStyle("Jarbook look", cell=_wrap | {"fo:padding-left": "1.4mm"}, paragraph=_left,
               letters={"fo:font-size": "9pt", "fo:font-weight": "bold"}),
    NamedStyle("Jarbook label", cell=_hair | {"fo:padding-left": "1.4mm"}, paragraph=_left, letters={"fo:font-size": "9pt"}),
    NamedStyle("Jarbook needed label", "Jarbook label", letters={"fo:font-weight": "bold"}),
    NamedStyle("Jarbook unit", cell=_hair | {"fo:padding-left": "1mm"}, paragraph=_left,
               letters={"fo:font-size": "8pt"}),
    NamedStyle("Jarbook number", cell=_hair, paragraph=_centre, letters={"fo:font-size": "8.5pt"}),
    NamedStyle("Jarbook note", cell=_wrap | {"style:vertical-align": "top",
                                             "fo:padding-left": "1.4mm"}, paragraph=_left,
               letters={"fo:font-size": "8pt"}),
    NamedStyle("Jarbook text", cell=_wrap | {"style:vertical-align": "top"}, paragraph=_left),
    NamedStyle("Jarbook input", cell=_thin | _open | {"fo:background-color": PAPER}, paragraph=_right,
               letters=_ink),
    NamedStyle("Jarbook input text", "Jarbook input", cell=_words, paragraph=_left,
               letters={"fo:font-size": "9pt"}),
    # The few boxes that a first run needs: a frame that shows in black and white, too.
    NamedStyle("Jarbook input needed", "Jarbook input", cell={"fo:border": f"1.75pt solid {BAND}"},
               letters={"fo:font-weight": "bold"}),
    NamedStyle("Jarbook input needed text", "Jarbook input needed", cell=_words, paragraph=_left,
               letters={"fo:font-size": "9pt"}),
    NamedStyle("Jarbook computed", cell={"fo:background-color": COMPUTED,
                                         "fo:border": f"0.35pt solid {RULE}"}, paragraph=_right, letters=_ink),
    NamedStyle("Jarbook computed text", "Jarbook computed", cell=_wrap | {"fo:padding-left": "0.9mm"}, paragraph=_left,
               letters={"fo:font-size": "9pt"}),
    # Shrinks so that an error such as #VALUE! can be read in a narrow column.
    NamedStyle("Jarbook result", "Jarbook computed", cell={"style:shrink-to-fit": "true"}, letters={"fo:font-weight": "bold"}),
    # Wrapped, or its texts would run out of the folded columns.
    NamedStyle("Jarbook aside", cell=_wrap | {"fo:border": f"0.35pt solid {RULE}"}, paragraph=_right,
               letters={"fo:font-size": "8pt"}),
    NamedStyle("Jarbook caution", cell=_wrap | {"fo:background-color": WARN_PAPER,
                                                "fo:border": f"1pt solid {WARN}", "fo:padding-left": "0.9mm"},
               paragraph=_left,
               letters={"fo:font-size": "9pt", "fo:font-weight": "bold", "fo:color": WARN}),
    NamedStyle("Jarbook check", "Jarbook computed", cell=_wrap | {"fo:padding-left": "0.9mm"}, paragraph=_left,
               letters={"fo:font-size": "8pt"}),
    NamedStyle("Jarbook query check", "Jarbook check", cell={"fo:background-color": WARN_PAPER},
               letters={"fo:font-weight": "bold", "fo:color": WARN}),
    NamedStyle("Jarbook query look", "Jarbook look", cell={"fo:background-color": WARN_PAPER, "fo:border": f"1pt solid {WARN}"},
               letters={"fo:color": WARN}),
    NamedStyle("Jarbook query", cell={"fo:background-color": WARN_PAPER},
               letters={"fo:font-weight": "bold", "fo:font-style": "italic", "fo:color": WARN}),
    # On inputs: a style that a conditional format applies also decides about protection.
    NamedStyle("Jarbook query input", "Jarbook query", cell=_open | {"fo:border": f"1.5pt solid {WARN}"}),
    # On what is computed: the ground stays.
    NamedStyle("Jarbook good", cell={"fo:background-color": COMPUTED},
               letters={"fo:font-weight": "bold", "fo:color": INK}),
]

FOOT = "Jarbook"


def page_styles(run_scale):
    return [PageStyle("RunPage", True, scale=run_scale, left_foot=FOOT),
            PageStyle("WidePage", True, left_foot=FOOT, width_pages=1),
            PageStyle("TallPage", False, left_foot=FOOT, width_pages=1)]
