"""Formulas as a person types them, turned into what the file stores.

    SPIRIT.STRENGTH(D10;E10)   becomes   of:=ORG.JARBOOK.SPIRIT.STRENGTH([.D10];[.E10])

Separators are semicolons; another sheet is written Sheet.A1 or 'Run 1'.A1.
"""
import re

_CELL = r"\$?[A-Z]{1,3}\$?[0-9]+"
_TOKEN = re.compile(
    r'(?P<string>"(?:[^"]|"")*")'
    r"|(?P<function>SPIRIT\.[A-Z]+(?=\())"
    r"|(?P<later>(?:TEXTJOIN|MAXIFS|MINIFS)(?=\())"
    r"|(?P<sheet>\$?(?:'(?:[^']|'')+'|[A-Za-z_][A-Za-z0-9_]*)\.)(?P<there>" + _CELL + r"(?::" + _CELL + r")?)"
    r"|(?<![A-Za-z0-9_.$])(?P<here>" + _CELL + r"(?::" + _CELL + r")?)(?![A-Za-z0-9_(])")


def _range(sheet, cells):
    first, _, last = cells.partition(":")
    return f"[{sheet}{first}:.{last}]" if last else f"[{sheet}{first}]"


def _stored(match):
    if match["string"]:
        return match["string"]
    if match["function"]:
        return "ORG.JARBOOK." + match["function"]
    if match["later"]:  # not in OpenDocument 1.3
        return "COM.MICROSOFT." + match["later"]
    if match["there"]:
        sheet = match["sheet"]
        return _range(sheet if sheet.startswith("$") else "$" + sheet, match["there"])
    return _range(".", match["here"])


def stored(formula):
    """The stored text of a formula or of a condition, without the leading of:=."""
    return _TOKEN.sub(_stored, formula.removeprefix("="))


def plain(value):
    """A number as a formula writes it, never 1e+06; a formula as it is."""
    return value if isinstance(value, str) else f"{value:.6f}".rstrip("0").rstrip(".")


def column_name(column):
    """0 is A."""
    name = ""
    column += 1
    while column:
        column, rest = divmod(column - 1, 26)
        name = chr(65 + rest) + name
    return name


def column_number(name):
    number = 0
    for letter in name:
        number = number * 26 + ord(letter) - 64
    return number - 1


def split_address(address):
    """('C', 7) becomes from 'C7': column counted from 0, row from 1."""
    letters = address.rstrip("0123456789")
    return column_number(letters), int(address[len(letters):])
