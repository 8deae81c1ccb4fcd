"""Compares what two offices computed of the same workbook: compare_values.py HERE THERE WITHIN

Both files are as jarbook-make-format writes them: sheet, address, kind and value of each cell that shows
something. Numbers may differ by WITHIN of their size (below 1, of 1); everything else is the same or a
difference. Prints how many cells there are, how many numbers differ at all and by how much; the exit
status is 0 only if none differs by more.
"""
import sys


def cells_of(path):
    cells = {}
    with open(path, encoding="utf-8") as file:
        for line in file:
            sheet, address, kind, value = (line.rstrip("\n").split("\t") + [""])[:4]
            cells[sheet, address] = kind, value
    return cells


def distance(one, other):
    a, b = float(one), float(other)
    return abs(a - b) / max(1.0, abs(a))


def compared(here, there, within):
    """The lines of what differs by more, and the distances of all numbers that differ at all."""
    wrong, distances = [], []
    for place in sorted(here.keys() | there.keys()):
        one, other = here.get(place), there.get(place)
        if one == other:
            continue
        if one and other and one[0] == other[0] == "n":
            distances.append(distance(one[1], other[1]))
            if distances[-1] <= within:
                continue
        wrong.append(f"{place[0]} {place[1]}: {one} and {other}")
    return wrong, distances


def main():
    here, there, within = cells_of(sys.argv[1]), cells_of(sys.argv[2]), float(sys.argv[3])
    wrong, distances = compared(here, there, within)
    for line in wrong[:20]:
        print(line)
    print(f"{len(here)} cells: {len(distances)} numbers differ"
          + (f", by {max(distances):.1e} at most" if distances else "") + f"; {len(wrong)} cells by more than {within}")
    return 0 if here and not wrong else 1


if __name__ == "__main__":
    sys.exit(main())
