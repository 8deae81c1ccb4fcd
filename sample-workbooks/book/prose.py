"""Running text in cells: how high a row must be."""
import math

_CHARACTER = 0.168   # mean width of a character of Liberation Sans, in mm for each pt of size
_LINE = 0.42         # height of a line, in mm for each pt of size


def lines(text, width, size=9.5, bold=False):
    """Lines that a text takes in a cell of that width (mm), paragraphs counted; somewhat generous."""
    room = (width - 1.5) / (_CHARACTER * size * (1.08 if bold else 1))
    return sum(max(1, math.ceil(len(paragraph) / room)) for paragraph in str(text).split("\n"))


def height(cells, size=9.5):
    """Row height for (text, width) pairs, mm."""
    return max(lines(text, width, size) for text, width in cells) * _LINE * size + 1.2
