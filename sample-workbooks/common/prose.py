"""Running text in cells: how high a row must be. Calc is not asked; the letters' widths are known."""

# Advance widths in thousandths of the letter size, Liberation Sans regular (the metrics of Helvetica)
_WIDTHS = {}
for _letters, _width in (
        ("ijl'", 222), (" ftI.,:;/!|[]", 278), ("r-()", 333), ("°", 400), ("cksvxyzJ", 500),
        ("FTZ", 611), ("ABEKPSVXY", 667), ("wCDHNRU", 722), ("GOQ", 778), ("mM", 833), ("%", 889),
        ("W", 944), ("=+±×<>", 584), ("–", 556), ("…", 1000)):
    for _letter in _letters:
        _WIDTHS[_letter] = _width
_OTHER, _BOLD = 556, 1.07
_POINT = 0.3528   # mm
_LINE = 1.17      # line height, in letter sizes
_PADDING = 2.6    # mm, both sides and the border


def width(text, size, bold=False):
    """Length of a line of text in mm."""
    units = sum(_WIDTHS.get(letter, _OTHER) for letter in text)
    return units / 1000 * size * _POINT * (_BOLD if bold else 1)


def lines(text, room, size=9.5, bold=False):
    """Lines that a text takes in a cell of that width (mm), broken at spaces."""
    count = 0
    for paragraph in str(text).split("\n"):
        count += 1
        line = ""
        for word in paragraph.split(" "):
            longer = f"{line} {word}" if line else word
            if line and width(longer, size, bold) > room - _PADDING:
                count += 1
                longer = word
            line = longer
    return count


def height(cells, size=9.5, bold=False):
    """Row height in mm for (text, width) pairs."""
    return max(lines(text, room, size, bold) for text, room in cells) * _LINE * size * _POINT + 1.0
