"""The book of the Shelf: each movement takes from a lot as the rows above have left it, and the row that does not fit
is named. Measuring again sets a lot to what is there; the difference is its loss."""
from sheets import shelf_places as P
from sheets.shelf_places import B, L, book, lots
from sheets.shelf_rows import (MOST, NOTHING, day, first_bad, heads, mass_of, name, number, number_or, one_after_another, shown_day,
                               strength_of, volume_of, what_is_typed, word, words_box)
from sheets.shelf_said import SAY, Said, T, right

HEADS = (("A", "number"), (P.NAME, "lot"), (P.WHAT, "what"), (P.WHERE, "where"), (P.NOTE, "note"), (P.DATE, "moved_date"),
         (P.LITRES, "litres"), (P.KILOGRAMS, "kilograms"), (P.STRENGTH, "strength"), (P.ALLOWED, None),
         (P.VOLUME_NOW, "volume_moved"), (P.STRENGTH_NOW, "strength"), (P.ALCOHOL_NOW, "alcohol_moved"),
         (P.LOSS, "difference"), (P.LEFT, "left"), (P.LEFT_STRENGTH, "strength"), (P.WORDS, "book_words"))
INPUTS = ((P.NAME, "lot", "what_lot", None), (P.WHAT, "what", "what", None), (P.WHERE, "where", "where", None),
          (P.NOTE, "note", "note", None), (P.DATE, "date", "moved_date", "date"), (P.LITRES, "litres", "moved_litres", "0.00"),
          (P.KILOGRAMS, "kilograms", "moved_kilograms", "0.00"), (P.STRENGTH, "strength", "moved_strength", "0.0"))
JUDGED = (P.WHAT, P.DATE, P.LITRES, P.KILOGRAMS, P.STRENGTH)
KINDS = ("word", "date", (0, MOST, False), (0, MOST, False), (0, 100, True))
MEASURED, WATER, CHARGED, BLENDED = 1, 2, 3, 4
ALL = T["whats"]["all"]
# What quotes the lot blended into; what has two figures; what has a figure beside the lot's name; all else
SAID = Said(*P.SAID_OF_BOOK, ("what", "moved_date", "litres", "kilograms", "strength"), KINDS, (
    "unknown_target", "to: lot_not_whole", "to: before_filling", "too_much", "empties", "other_strength", "lot_not_whole",
    "before_filling", "order", "waits", "which_lot", "unknown_lot", "no_what", "no_date", "both", "no_amount", "all_alone",
    "measured_strength", "water_strength", "no_where", "itself", "see_why"))


def _of_lot(key, lot):
    return f"INDEX({lots.all(L[key])};{lot})"


def _boxes(row):
    """(column, formula) of what counts of the boxes, and what is wrong with the row by itself."""
    c = {key: f"${column}{row}" for key, column in B.items()}
    box = {column: book.box(column, row) for column in P.BOXES}
    listed = f"${P.WHATS[0]}${P.WHATS[1]}:${P.WHATS[0]}${P.WHATS[1] + len(T['whats']['list']) - 1}"
    yield "name", name(box[P.NAME])
    yield "what", f"IFERROR({word(box[P.WHAT], listed)};0)"
    yield "date", day(box[P.DATE])
    yield "litres", number_or(ALL, box[P.LITRES], 0, MOST)
    yield "kilograms", number(box[P.KILOGRAMS], 0, MOST)
    yield "strength", number(box[P.STRENGTH], 0, 100, True)
    nothing = [f'{c["what"]}=0'] + [f'{c[key]}=""' for key in ("date", "litres", "kilograms", "strength")]
    yield "bad", first_bad(list(zip((box[column] for column in JUDGED), nothing)))
    yield "typed", what_is_typed(book, row, c["bad"], JUDGED)
    yield "lot", f'IF({c["name"]}="";0;IFERROR(MATCH({c["name"]};{lots.all(L["name"])};0);0))'
    yield "where", name(box[P.WHERE])
    yield "to", f'IF(OR({c["what"]}<>{BLENDED};{c["where"]}="");0;IFERROR(MATCH({c["where"]};{lots.all(L["name"])};0);0))'
    above, before = (book.before(B[key], row) for key in ("lot", "to"))
    fits = book.before(B["fits"], row)
    rows = book.before("A", row)
    yield "waits", f'IF({c["lot"]}=0;0;MAX(MAXIFS({rows};{above};{c["lot"]};{fits};0);MAXIFS({rows};{before};{c["lot"]};{fits};0)))'
    dates = book.before(B["date"], row)
    yield "since", f'IF({c["lot"]}=0;"";MAX(MAXIFS({dates};{above};{c["lot"]});MAXIFS({dates};{before};{c["lot"]})))'
    yield "reason_box", _reason(row, c)


def _reason(row, c):
    """The number of what is wrong with the row by itself; -1 if nothing is typed."""
    own, to, what, say = c["lot"], c["to"], c["what"], SAID.code
    waits = f'({c["waits"]}>0)*{say("waits")}'
    blended = one_after_another(
        (f"{to}=0", say("unknown_target")), (f"{to}={own}", say("itself")), (f'{_of_lot("state", to)}<>1', say("to: lot_not_whole")),
        (f'{c["date"]}<{_of_lot("date", to)}', say("to: before_filling")), last=waits)
    return one_after_another(
        (f"{book.filled(row)}=0", -1), (f'{c["bad"]}>0', SAID.slip(c["bad"], c["typed"])),
        (f'{c["name"]}=""', say("which_lot")), (f"{own}=0", say("unknown_lot")), (f'{_of_lot("state", own)}<>1', say("lot_not_whole")),
        (f"{what}=0", say("no_what")), (f'{c["date"]}=""', say("no_date")), (f'{c["date"]}<{_of_lot("date", own)}', say("before_filling")),
        (f'{c["date"]}<N({c["since"]})', say("order")), (f'AND({c["litres"]}<>"";{c["kilograms"]}<>"")', say("both")),
        (f'AND({c["litres"]}="";{c["kilograms"]}="")', say("no_amount")),
        (f'AND({c["litres"]}="{ALL}";OR({what}<={WATER};{c["strength"]}<>""))', say("all_alone")),
        (f'AND({what}={MEASURED};{c["strength"]}="";N({c["litres"]})+N({c["kilograms"]})>0)', say("measured_strength")),
        (f'AND({what}={WATER};{c["strength"]}<>"")', say("water_strength")),
        (f'AND({what}={CHARGED};{c["where"]}="")', say("no_where")), (f"{what}={BLENDED}", blended), last=waits)


def _amounts(row):
    """(column, formula) of the lot before the row, of what the row moves, and whether it fits."""
    c = {key: f"${column}{row}" for key, column in B.items()}
    own, what, all_typed = c["lot"], c["what"], f'{c["litres"]}="{ALL}"'

    def if_possible(formula):
        return f'IF({c["reason_box"]};"";IFERROR({formula};""))'

    def total(fill, out, loss):
        above, into = book.before(B["lot"], row), book.before(B["to"], row)
        there = (f"{_of_lot(fill, own)}+SUMIFS({book.before(B[out], row)};{into};{own})-SUMIFS({book.before(B[out], row)};{above};{own})"
                 f"-SUMIFS({book.before(B[loss], row)};{above};{own})")
        return if_possible(f"IF(ABS({there})<{NOTHING};0;{there})")

    yield "before", total("alcohol", "out", "loss")
    yield "mass_before", total("mass", "mass_out", "mass_loss")
    yield "strength_before", if_possible(f'IF({c["mass_before"]}=0;0;{strength_of(c["before"], c["mass_before"])})')
    yield "volume_before", if_possible(f'IF({c["mass_before"]}=0;0;{volume_of(c["mass_before"], c["strength_before"])})')
    yield "strength_moved", if_possible(f'IF({what}={WATER};0;IF({c["strength"]}<>"";{c["strength"]};IF({what}={MEASURED};0;{c["strength_before"]})))')
    strength = c["strength_moved"]
    weighed = f'IF({c["kilograms"]}=0;0;SPIRIT.VOLUMEFROMMASS({c["kilograms"]};{strength}))'
    yield "volume", if_possible(f'IF({all_typed};{c["volume_before"]};IF({c["kilograms"]}<>"";{weighed};{c["litres"]}))+0*{strength}')
    yield "alcohol", if_possible(f'IF({all_typed};{c["before"]};{c["volume"]}*{strength}/100)')
    yield "mass", if_possible(f'IF({all_typed};{c["mass_before"]};{mass_of(c["volume"], strength)})')
    # An amount that exceeds the book by no more than the vessel's error empties the lot.
    more, nothing = f'({c["volume"]}-{c["volume_before"]})', f'MAX({NOTHING};{NOTHING}*{c["volume"]})'
    yield "over", if_possible(f"IF(OR({what}<={WATER};{more}<={nothing});0;"
                              f"IF({more}<={c['volume']}*N({P.BOXES_USED['volume_tolerance']})/100;1;2))")
    yield "reason", one_after_another(
        (c["reason_box"], c["reason_box"]),
        (f'COUNT({c["before"]};{c["mass_before"]};{c["alcohol"]};{c["mass"]};{c["over"]})<5', SAID.code("see_why")),
        (f'{c["over"]}=2', SAID.code("too_much")))
    yield "fits", f'IF({c["reason"]}<0;"";N({c["reason"]}=0))'
    fits = f'IF({c["reason"]};"";'
    emptied, leaves = f'{c["over"]}=1', f"{what}>{WATER}"
    # A strength measured on the way out is that of the whole lot: its litres stay, what its alcohol is less by is lost.
    again = f'AND({leaves};{c["strength"]}<>"")'
    revalued = {"alcohol": f'{c["volume_before"]}*{strength}/100', "mass": mass_of(c["volume_before"], strength)}
    for key, moved, before, loss in (("out", "alcohol", "before", "loss"), ("mass_out", "mass", "mass_before", "mass_loss")):
        water = f'IF({what}={WATER};-{c[moved]};0)' if moved == "mass" else "0"
        yield key, f"{fits}IF({leaves};{c[moved]};{water}))"
        yield loss, (f"{fits}IF(OR({what}={MEASURED};{emptied});{c[before]}-{c[moved]};IF({again};{c[before]}-{revalued[moved]};0)))")
    yield "volume_left", f'{fits}IF({what}={MEASURED};{c["volume"]};IF({leaves};MAX(0;-{more});"")))'
    yield "volume_squared", f'{fits}{c["volume"]}^2)'
    yield "alcohol_squared", f'{fits}{c["alcohol"]}^2)'
    yield "weighed_days", f'{fits}({c["out"]}+{c["loss"]})*{c["date"]})'
    yield "blended_days", f'{fits}{c["out"]}*{c["date"]})'
    reading, scatter = (f"N({P.BOXES_USED[key]})" for key in ("reading_tolerance", "reading_scatter"))
    differs = f'AND({again};ABS(N({c["strength"]})-{c["strength_before"]})>2*({reading}+{scatter}))'
    yield "said", one_after_another((c["reason"], c["reason"]), (emptied, SAID.code("empties")), (differs, SAID.code("other_strength")))
    yield "quoted", _quoted(c)
    yield "figure", _figure(c, more)


def _quoted(c):
    """What a sentence quotes: what was typed, the other lot, an amount, the lot."""
    said, say = c["said"], SAID.code
    return one_after_another((f"{said}<1", '""'), (f"{said}<={SAID.slips}", f'{c["typed"]}&""'), (f'{said}<{say("too_much")}', c["where"]),
                             (f'{said}={say("too_much")}', f'FIXED({c["volume"]};2;1)'), last=c["name"])


def _figure(c, more):
    """The figure, row or day in a sentence, as a text."""
    said, own, to = c["said"], c["lot"], c["to"]
    figures = ('""', f"{to}-1", shown_day(_of_lot("date", to)), f'FIXED({c["volume_before"]};2;1)', f"FIXED({more};2;1)",
               f'FIXED({c["strength_before"]};1;1)', f"{own}-1", shown_day(_of_lot("date", own)), shown_day(c["since"]), c["waits"])
    return one_after_another((f'OR({said}<1;{said}>{SAID.code("waits")})', '""'), (f"{said}<={SAID.slips}", right(c["typed"])),
                             last=f'CHOOSE({said}-{SAID.slips};{";".join(figures)})&""')


def _page(row):
    c = {key: f"${column}{row}" for key, column in B.items()}
    there = f'IF({c["reason"]};"";'
    yield P.VOLUME_NOW, "0.00", there + c["volume"] + ")"
    yield P.STRENGTH_NOW, "0.0", there + f'IF(OR({c["alcohol"]}=0;{c["volume"]}=0);"";{c["strength_moved"]}))'
    yield P.ALCOHOL_NOW, "0.000|-", there + c["alcohol"] + ")"
    yield P.LOSS, "0.000", there + f'IF({c["loss"]}=0;"";{c["loss"]}))'
    left = f'({c["before"]}-{c["out"]}-{c["loss"]})'
    mass = f'({c["mass_before"]}-{c["mass_out"]}-{c["mass_loss"]})'
    yield P.LEFT, "0.000|-", there + f"IF(ABS({left})<{NOTHING};0;{left}))"
    strength = strength_of(f"${P.LEFT}{row}", mass)
    yield P.LEFT_STRENGTH, "0.0", there + f'IF({mass}<={NOTHING};"";IFERROR({strength};"")))'
    yield P.WORDS, None, SAID.words(c["said"], c["quoted"], c["figure"])


def fill(sheet, rows):
    heads(sheet, book, HEADS, B)
    choices = {"lot": dict(cells=P.listed("lots"), error=SAY["new_name"]), "what": dict(words=T["whats"]["list"]),
               "where": dict(cells=P.listed("places"), error=SAY["new_name"])}
    helps = {key: words_box(*T["help"][help_key], **choices.get(key, {})) for _, key, help_key, _ in INPUTS}
    for i in range(P.MOVEMENTS):
        row, moved = book.first + i, rows[i] if i < len(rows) else {}
        sheet.heights[row] = P.HEIGHT
        sheet.put(f"A{row}", formula=f"ROW()-ROW($A${book.top})+{P.NOTICED}", fmt="0", style="Jarbook number")
        sheet.put(f"{P.ALLOWED}{row}", style="Jarbook label")
        for column, key, _, fmt in INPUTS:
            sheet.put(f"{column}{row}", moved.get(key), fmt=fmt, style="Jarbook input" if fmt else "Jarbook input text",
                      validation=helps[key])
        for key, formula in (*_boxes(row), *_amounts(row)):
            sheet.put(f"{B[key]}{row}", formula=formula, fmt="date" if key in ("date", "since") else None if key in (
                "name", "litres", "typed", "where", "quoted", "figure") else "0.0000", style="Jarbook aside")
        for column, fmt, formula in _page(row):
            sheet.put(f"{column}{row}", formula=formula, fmt=fmt, style="Jarbook check" if column == P.WORDS else "Jarbook computed")
    SAID.put(sheet)
    for i, what in enumerate(T["whats"]["list"]):
        sheet.put(f"{P.WHATS[0]}{P.WHATS[1] + i}", what, style="Jarbook unit")
    first, cells = book.first, book.rows
    sheet.condition(cells(P.WORDS), f'LEN(${P.WORDS}{first})>0', "Jarbook query check")
    for i, column in enumerate(JUDGED, 1):
        sheet.condition(cells(column), f'${B["bad"]}{first}={i}', "Jarbook query input")
    sheet.fold_rows(max(first + 30, first + len(rows) + 6), book.last)
