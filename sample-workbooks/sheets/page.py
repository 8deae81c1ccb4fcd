"""What pages with boxes at the left and at the right begin with, and the bands across them."""
from odf.formula import column_name, column_number

TITLE = 1


def add(book, name, words, widths):
    """A new sheet with its title and, beside it, what it is for."""
    sheet = book.add_sheet(name, "WidePage", tab_colour="#8d99a3")
    for columns, millimetres in widths.items():
        sheet.width(columns, millimetres)
    for letter in "BC":
        sheet.put(f"{letter}{TITLE}", style="Jarbook title line")
    sheet.put(f"D{TITLE}", words["note"], style="Jarbook title line", to=f"R{TITLE}",
              cell={"fo:wrap-option": "wrap", "style:vertical-align": "middle"}, letters={"fo:font-size": "8pt"})
    sheet.put(f"A{TITLE}", words["title"], style="Jarbook title")
    return sheet


def band(sheet, row, words, left, right=None, last="R", middle="J"):
    """A band to the column `last`: a title and, at `middle`, a second one or a hint (a key that ends so)."""
    titles = {"A": left} | ({middle: right} if right else {})
    for column in map(column_name, range(column_number(last) + 1)):
        key = titles.get(column)
        sheet.put(f"{column}{row}", words[key] if key else None,
                  style="Jarbook section" if key and not key.endswith("_hint") else "Jarbook section rest")
    sheet.heights[row] = 5.6
