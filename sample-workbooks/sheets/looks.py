"""Cell styles of these sheets alone. Letters without a paper of their own keep the window's colour, so that
they can be read on a dark screen, too."""
from common.look import COMPUTED, INK
from odf.styles import NamedStyle

WINDOW = {"style:use-window-font-color": "true"}
EDGE = "0.5pt solid #8d99a3"
HAIR = "0.35pt solid #8d99a3"
_wrap = {"fo:wrap-option": "wrap"}
_left = {"fo:text-align": "start", "fo:margin-left": "0mm"}
_sides = {"fo:border-left": EDGE, "fo:border-right": EDGE, "fo:padding-left": "2.5mm", "fo:padding-right": "2.5mm"}

STYLES = [
    NamedStyle("Jarbook page title", cell={"fo:border-bottom": "1.5pt solid #8d99a3"}, paragraph=_left,
               letters=WINDOW | {"fo:font-size": "14pt", "fo:font-weight": "bold"}),
    NamedStyle("Jarbook page text", cell=_wrap | {"style:vertical-align": "top"}, paragraph=_left,
               letters=WINDOW | {"fo:font-size": "9.5pt"}),
    # The cautions: one box around all of them.
    NamedStyle("Jarbook box first", "Jarbook page text", cell=_sides | {
        "fo:border-top": EDGE, "fo:border-bottom": "none", "style:vertical-align": "middle"},
        letters={"fo:font-weight": "bold", "fo:font-size": "11pt"}),
    NamedStyle("Jarbook box", "Jarbook page text", cell=_sides | {"fo:border-top": "none", "fo:border-bottom": "none"}),
    NamedStyle("Jarbook box last", "Jarbook page text", cell=_sides | {"fo:border-top": "none", "fo:border-bottom": EDGE}),
    # Rows of a table of words
    NamedStyle("Jarbook table words", cell=_wrap | {
        "style:vertical-align": "top", "fo:border-bottom": HAIR, "fo:padding-left": "1.2mm", "fo:padding-right": "1.2mm",
        "fo:padding-top": "0.6mm", "fo:padding-bottom": "0.6mm"}, paragraph=_left,
        letters=WINDOW | {"fo:font-size": "9pt"}),
    NamedStyle("Jarbook table head", cell=_wrap | {
        "fo:border-bottom": "1pt solid #8d99a3", "style:vertical-align": "bottom", "fo:padding-left": "1.2mm"},
        paragraph=_left, letters=WINDOW | {"fo:font-size": "9pt", "fo:font-weight": "bold"}),
    # Runs that are not finished. Letters and ground both: the row's own ground stays under a conditional style.
    NamedStyle("Jarbook apart", cell={"fo:border": HAIR, "fo:background-color": COMPUTED},
               letters={"fo:color": INK, "fo:font-style": "italic"}),
]
