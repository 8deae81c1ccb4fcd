"""The lots of the Shelf: what was filled, what stands there now, what was lost since and in a year, where it went."""
from sheets import shelf_places as P
from sheets.shelf_places import B, L, book, lots
from sheets.shelf_rows import (MOST, NOTHING, day, first_bad, heads, mass_of, name, number, one_after_another, strength_of, volume_of,
                               what_is_typed, word, words_box)
from sheets.shelf_said import SAY, Said, T, right

HEADS = (("A", "number"), (P.NAME, "lot"), (P.KIND, "kind"), (P.FROM, "from"), (P.VESSEL, "vessel"), (P.DATE, "date"),
         (P.LITRES, "litres"), (P.KILOGRAMS, "kilograms"), (P.STRENGTH, "strength"), (P.ALLOWED, "allowed"),
         (P.VOLUME_NOW, "volume_now"), (P.STRENGTH_NOW, "strength_now"), (P.ALCOHOL_NOW, "alcohol_now"), (P.LOSS, "loss"),
         (P.LOSS_RANGE, "loss_range"), (P.LOSS_YEAR, "loss_year"), (P.WORDS, "words"))
INPUTS = ((P.NAME, "name", "lot", None), (P.KIND, "kind", "kind", None), (P.FROM, "from", "from", None),
          (P.VESSEL, "vessel", "vessel", None), (P.DATE, "date", "date", "date"), (P.LITRES, "litres", "litres", "0.00"),
          (P.KILOGRAMS, "kilograms", "kilograms", "0.00"), (P.STRENGTH, "strength", "strength", "0.0"),
          (P.ALLOWED, "allowed", "allowed", "0.0"))
JUDGED = (P.KIND, P.DATE, P.LITRES, P.KILOGRAMS, P.STRENGTH, P.ALLOWED)
KINDS = ("word", "date", (0.000001, MOST, False), (0.000001, MOST, False), (0, 100, True), (0, 100, False))
SAID = Said(*P.SAID_OF_LOTS, ("kind", "date", "litres", "kilograms", "strength", "allowed"), KINDS,
            ("no_name", "twice", "no_kind", "no_date", "both", "no_amount", "no_strength"))


def _sum(what, row, key, *more):
    """Of the movements of this lot (`key` = "lot") or into it ("to")."""
    return f"SUMIFS({book.all(B[what])};{book.all(B[key])};$A{row}+1{''.join(';' + m for m in more)})"


def _counts(row):
    """(column, formula) of what counts of the boxes."""
    c = {key: f"${column}{row}" for key, column in L.items()}
    box = {column: lots.box(column, row) for column in P.BOXES}
    listed = f"${P.NAME}${P.KINDS_BAND + 2}:${P.NAME}${P.KINDS_BAND + 1 + len(T['kinds']['list'])}"
    yield "name", name(box[P.NAME])
    yield "kind", f'IFERROR(INDEX({listed};{word(box[P.KIND], listed)});"")'
    yield "date", day(box[P.DATE])
    for key, column, (low, high, share) in (("litres", P.LITRES, KINDS[2]), ("kilograms", P.KILOGRAMS, KINDS[3]),
                                            ("strength", P.STRENGTH, KINDS[4]), ("allowed", P.ALLOWED, KINDS[5])):
        yield key, number(box[column], low, high, share)
    yield "bad", first_bad([(box[column], f'{c[key]}=""') for column, key in zip(JUDGED, (
        "kind", "date", "litres", "kilograms", "strength", "allowed"))])
    yield "typed", what_is_typed(lots, row, c["bad"], JUDGED)
    blended = f'COUNTIFS({book.all(B["where"])};{c["name"]};{book.all(B["what"])};4)'
    none = f'AND({c["litres"]}="";{c["kilograms"]}="")'
    say = SAID.code
    # Not 0: the number of what is wrong, -1 if nothing is typed
    yield "reason", one_after_another(
        (f"{lots.filled(row)}=0", -1), (f'{c["bad"]}>0', SAID.slip(c["bad"], c["typed"])), (f'{c["name"]}=""', say("no_name")),
        (f'SUMPRODUCT(({lots.all(L["name"])}={c["name"]})*1)>1', say("twice")),
        (f'{c["kind"]}=""', say("no_kind")), (f'{c["date"]}=""', say("no_date")),
        (f'AND({c["litres"]}<>"";{c["kilograms"]}<>"")', say("both")),
        (f'AND({none};{c["strength"]}="";{blended}>0)', 0), (none, say("no_amount")), (f'{c["strength"]}=""', say("no_strength")))
    yield "volume", (f'IF({c["reason"]};"";IFERROR(IF({none};0;IF({c["litres"]}<>"";{c["litres"]};'
                     f'SPIRIT.VOLUMEFROMMASS({c["kilograms"]};{c["strength"]})));""))')
    yield "alcohol", f'IF({c["volume"]}="";"";{c["volume"]}*N({c["strength"]})/100)'
    yield "mass", f'IF({c["volume"]}="";"";{mass_of(c["volume"], "N(" + c["strength"] + ")")})'
    yield "state", f'IF({c["reason"]}<0;0;IF(ISNUMBER({c["volume"]});1;-1))'
    spoilt = f'COUNTIFS({book.all(B["lot"])};$A{row}+1;{book.all(B["fits"])};0)+COUNTIFS({book.all(B["to"])};$A{row}+1;{book.all(B["fits"])};0)'
    yield "whole", f'IF({c["state"]}<>1;0;IF({spoilt}>0;0;1))'
    yield "origin", name(box[P.FROM])
    typed = c["typed"]
    yield "said", SAID.words(c["reason"], f'IF({c["reason"]}>{SAID.slips};{c["name"]};{typed})', right(typed))


def _sums(row):
    """(column, formula) of what the movements come to."""
    c = {key: f"${column}{row}" for key, column in L.items()}

    def whole(formula):
        return f'IF({c["whole"]}=1;{formula};"")'

    yield "blended_in", whole(_sum("out", row, "to"))
    for key, what in (("charged", 3), ("blended_out", 4), ("bottled", 5), ("withdrawn", 6)):
        yield key, whole(_sum("out", row, "lot", book.all(B["what"]), str(what)))
    for key, fill, out, loss in (("now", "alcohol", "out", "loss"), ("mass_now", "mass", "mass_out", "mass_loss")):
        total = f'{c[fill]}+{c["blended_in"] if fill == "alcohol" else _sum(out, row, "to")}-{_sum(out, row, "lot")}-{_sum(loss, row, "lot")}'
        yield key, whole(f"IF(ABS({total})<{NOTHING};0;{total})")
    rows = f'{book.all("A")};{book.all(B["lot"])};$A{row}+1'
    yield "measured", whole(f'MAX(MAXIFS({rows};{book.all(B["what"])};1);MAXIFS({rows};{book.all(B["loss"])};"<>0"))')
    # Litres of pure alcohol times days, from filling to the last measuring
    until = (book.all("A"), f'"<="&{c["measured"]}')
    last = f'INDEX({book.all(B["date"])};{c["measured"]}+1)'
    held = (f'{c["alcohol"]}*({last}-{c["date"]})+{last}*({_sum("out", row, "to", *until)}-{_sum("out", row, "lot", *until)}'
            f'-{_sum("loss", row, "lot", *until)})-{_sum("blended_days", row, "to", *until)}+{_sum("weighed_days", row, "lot", *until)}')
    yield "days", f'IF(N({c["measured"]})=0;"";{held})'


def _range(row):
    """± of the loss: what vessels and scatter do, in squares; the one alcoholometer, by the difference of what it read."""
    c = {key: f"${column}{row}" for key, column in L.items()}
    until = (book.all("A"), f'"<="&{c["measured"]}')
    leaves = (book.all(B["what"]), '">=3"', *until)
    left = {key: f"INDEX({book.all(column)};{c['measured']}+1)" for key, column in (("volume", B["volume_left"]), ("alcohol", P.LEFT))}

    def squares(key, own):
        return f'({c[own]}^2+{_sum(key, row, "to", *until)}+{_sum(key, row, "lot", *leaves)}+{left[own]}^2)'

    net = f'({c["volume"]}+{_sum("volume", row, "to", *until)}-{_sum("volume", row, "lot", *leaves)}-{left["volume"]})'
    common, scatter, amount = (P.BOXES_USED[key] for key in ("reading_tolerance", "reading_scatter", "volume_tolerance"))
    return (f'IF(OR(N({c["measured"]})=0;COUNT({common};{scatter};{amount})<3);"";2/SQRT(3)*SQRT(({common}*{net}/100)^2'
            f'+({scatter}/100)^2*{squares("volume_squared", "volume")}+({amount}/100)^2*{squares("alcohol_squared", "alcohol")}))')


def _page(row):
    """(column, format, formula) of the page."""
    c = {key: f"${column}{row}" for key, column in L.items()}
    there = f'IF({c["whole"]}<>1;"";'
    strength = f"${P.STRENGTH_NOW}{row}"
    yield P.STRENGTH_NOW, "0.0", f'{there}IF({c["mass_now"]}=0;"";IFERROR({strength_of(c["now"], c["mass_now"])};"")))'
    yield P.VOLUME_NOW, "0.00|-", f'{there}IF({c["mass_now"]}=0;0;IF({strength}="";"";{volume_of(c["mass_now"], strength)})))'
    yield P.ALCOHOL_NOW, "0.000|-", f'{there}{c["now"]})'
    yield P.LOSS, "0.000", f'{there}IF({c["measured"]}=0;"";{_sum("loss", row, "lot")}))'
    yield P.LOSS_RANGE, "0.000", f"{there}IFERROR({_range(row)};\"\"))"
    until = _sum("loss", row, "lot", book.all("A"), f'"<="&{c["measured"]}')
    long = f'INDEX({book.all(B["date"])};{c["measured"]}+1)-{c["date"]}>={P.LEAST_DAYS}'
    yield P.LOSS_YEAR, "0.0", f'{there}IF(N({c["days"]})<=0;"";IF({long};36525*{until}/{c["days"]};"")))'
    n = book.all(B["what"])
    moved = "&".join(f'IF({n}={i};"{w} ";"")' for i, w in enumerate(T["whats"]["list"], 1) if i > 1)
    entry = f'{moved}&IF({book.all(B["where"])}="";"";{book.all(B["where"])}&" ")&TEXT({book.all(B["volume"])};"0.00")&" L"'
    gone = f'TEXTJOIN("; ";TRUE();IF(({book.all(B["lot"])}=$A{row}+1)*({n}<>"")*({n}<>1);{entry};""))'
    yield P.WORDS, None, (f'IF({c["state"]}=0;"";IF({c["reason"]}>0;{c["said"]};{gone}))')


def fill(sheet, rows):
    heads(sheet, lots, HEADS, L)
    choices = {"kind": dict(words=T["kinds"]["list"]), "from": dict(
        cells=P.listed("runs"), error=SAY["new_name"])}
    helps = {key: words_box(*T["help"][help_key], **choices.get(key, {})) for _, key, help_key, _ in INPUTS}
    for i in range(P.LOTS):
        row, lot = lots.first + i, rows[i] if i < len(rows) else {}
        sheet.heights[row] = P.HEIGHT
        sheet.put(f"A{row}", formula=f"ROW()-ROW($A${lots.top})+{P.NOTICED}", fmt="0", style="Jarbook number")
        for column, key, _, fmt in INPUTS:
            sheet.put(f"{column}{row}", lot.get(key), fmt=fmt, style="Jarbook input" if fmt else "Jarbook input text",
                      validation=helps[key])
        for key, formula in (*_counts(row), *_sums(row)):
            sheet.put(f"{L[key]}{row}", formula=formula, fmt="date" if key == "date" else None if key in (
                "name", "kind", "origin", "said", "typed") else "0.0000", style="Jarbook aside")
        for column, fmt, formula in _page(row):
            words = column == P.WORDS
            sheet.put(f"{column}{row}", formula=formula, fmt=fmt, array=f"{column}{row}" if words else None,
                      letters={"fo:font-size": "7.5pt"} if words else None,
                      style="Jarbook check" if words else "Jarbook result" if column == P.ALCOHOL_NOW else "Jarbook computed")
    SAID.put(sheet)
    first, cells = lots.first, lots.rows
    sheet.condition(cells(P.WORDS), f'${L["state"]}{first}=-1', "Jarbook query check")
    sheet.condition(cells(P.LOSS_YEAR), f'AND(ISNUMBER(${P.LOSS_YEAR}{first});ISNUMBER(${L["allowed"]}{first});'
                    f'${P.LOSS_YEAR}{first}>N(${L["allowed"]}{first}))', "Jarbook query")
    for i, column in enumerate(JUDGED, 1):
        sheet.condition(cells(column), f'${L["bad"]}{first}={i}', "Jarbook query input")
    sheet.fold_rows(max(first + 20, first + len(rows) + 4), lots.last)
