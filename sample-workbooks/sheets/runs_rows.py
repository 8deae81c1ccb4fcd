"""A run's row in the sheet Runs: what it says of its run sheet, and of the other runs of its still."""
from common.texts import texts
from run_sheet import layout as L, read
from sheets.runs_columns import CHANCE, FAR, LETTER, NAMED, OTHERS, ROWS, TOP


class There:
    """Cells of a run sheet by name: there.run_title is $'Run 1'.$B$1. Of a box, used() is what counts of it."""

    def __init__(self, sheet_name):
        self._sheet = "$'" + sheet_name.replace("'", "''") + "'."

    def __getattr__(self, name):
        def fixed(address):
            letters = address.rstrip("0123456789")
            return f"${letters}${address[len(letters):]}"

        return self._sheet + ":".join(fixed(address) for address in L.names[name].split(":"))

    def used(self, name):
        return self._sheet + read.used(name)


def _state(there, words):
    """Gone, not begun, under way or finished."""
    stop, stages, pressure = (there.used(name) for name in ("stop_strength", "stages", "pressure"))
    collected = there.sum_collected_alcohol
    forecast = f"SPIRIT.FORECASTALCOHOL({there.charge_volume};{there.charge_strength};100;{stop};{stages};{pressure})"
    waits = f'{there.charge_strength}="";{stop}="";{stages}="";{pressure}="";{collected}=""'
    drawn = f"IF(OR({waits});FALSE();{collected}>=0.95*{forecast})"
    return (f'IF(ISERROR(SHEET({there.run_title}));"{words["gone"]}";'
            f'IF(OR(ISNUMBER({there.balance_residue});ISNUMBER({there.bottled_strength}));"{words["finished"]}";'
            f'IF(N({there.jars_complete})=0;"{words["planned"]}";'
            f'IF(IFERROR({drawn};FALSE());"{words["finished"]}";"{words["running"]}"))))')


def _own(key):
    """The cell of that column in the formula's own row. Not by its address: a row's formulas are copied as
    texts from the row of another run."""
    return f"INDEX(${LETTER[key]}$1:${LETTER[key]}${FAR};ROW())"


def _all(key):
    """That column's cells of all runs, with the thin rows above and below."""
    letter = LETTER[key]
    return f"${letter}${TOP}:INDEX(${letter}$1:${letter}${FAR};{ROWS})"


def _unlike(words):
    """What the other finished runs of the still say together (at least three, by CONSENSUS), and whether this run's stages are
    farther from that than happens about once in a hundred runs, by Student's t. How much a still differs from run to run
    is itself known from these few runs, and the degrees of freedom say so (Welch and Satterthwaite, GUM G.4); for
    them the spread is taken as no less than a run's own uncertainty, below which it cannot be seen."""
    known, still = _own("known"), _own("still")
    there = f'({_all("still")}={still})*ISNUMBER({_all("known")})'
    others = f"{there}*(ROW({_all('known')})<>ROW())"
    call = f'SPIRIT.CONSENSUS(IF({others};{_all("known")};"");IF({others};{_all("stages_range")}/2;""))'
    for key, line in OTHERS.items():
        yield LETTER[key], f'IF({known}="";"";IFERROR(INDEX({call};{line});""))'
    mean, spread, after = (_own(key) for key in OTHERS)
    square = f'({after}^2+({_own("stages_range")}/2)^2)'
    seen = f'MAX({spread};{_own("stages_range")}/2)^2'
    degrees = f'(SUMPRODUCT({there})-2)*({square}/{seen})^2'
    yield LETTER["unlike"], (f'IF({mean}="";"";IF(ABS({known}-{mean})>TINV({CHANCE};{degrees})*SQRT({square});'
                             f'"{words["unlike"]}";""))')


def _for_side_by_side(there):
    """What the instruments leave open of the charge (k = 2; water measured like a lot), and what cut shares need."""
    present = f'ISERROR(SHEET({there.run_title}))'
    parts, tolerance = there.charge_parts, there.used("volume_tolerance")
    first = parts.split(":")[0]
    alcohol, volume, strength = (_own(f"charge_{what}") for what in ("alcohol", "volume", "strength"))
    water = f'({tolerance}/100*2/SQRT(3)*N({there.charge_water})/{volume})^2'
    waits = f'IF({present};"";IF(OR(COUNT({parts})<5;N({alcohol})=0;{tolerance}="");"";'
    vessel = f"({first}/{alcohol})^2"
    yield LETTER["alcohol_range"], f'{waits}SQRT(SUMSQ({parts}))))'
    yield LETTER["volume_range"], f'{waits}{volume}*SQRT({vessel}+{water})))'
    yield LETTER["strength_range"], f'{waits}{strength}*SQRT(SUMSQ({parts})/{alcohol}^2-{vessel}+{water})))'
    for key in ("volume_tolerance", "reading_scatter"):
        yield LETTER[key], f'IF({present};"";{there.used(key)})'


def row_formulas(sheet_name):
    """(column, formula) of a run's row."""
    there, words = There(sheet_name), texts("runs_sheet")
    finished = f'{_own("state")}="{words["finished"]}"'
    yield LETTER["state"], _state(there, words)
    for key, name in NAMED.items():
        cell = getattr(there, name)
        seen = f'IF({cell}="";"";{cell})'
        if key == "run":
            seen = f'IF(ISERROR(SHEET({cell}));"{words["gone"]}";{seen})'
        elif key in ("recovery", "unaccounted", "uncertainty"):
            seen = f'IF({finished};{seen};"")'
        elif key == "stages_range":
            seen = f'IF(ISNUMBER({cell});2*{cell};"")'
        else:
            seen = f'IF(ISERROR(SHEET({cell}));"";{seen})'
        yield LETTER[key], seen
    hours, spare, feints = there.sum_hours, there.balance_spare, there.balance_feints
    yield LETTER["hours"], f'IF(ISNUMBER({hours});{hours}/24;"")'
    yield LETTER["feints"], f'IF(ISNUMBER({feints});{feints}+N({spare});"")'
    recovery, uncertainty = _own("recovery"), _own("uncertainty")
    drawn, bar = _own("drawn_recovery"), _own("drawn_uncertainty")
    yield LETTER["drawn_recovery"], f'IF({finished};{recovery};"")'
    yield LETTER["drawn_uncertainty"], (f'IF(AND(ISNUMBER({recovery});ISNUMBER({uncertainty}));'
                                        f'{uncertainty}/{_own("charge_alcohol")};0)')
    yield LETTER["drawn_most"], f'IF({bar}>0;{drawn}+{bar};"")'
    yield LETTER["drawn_least"], f'IF({bar}>0;{drawn}-{bar};"")'
    yield LETTER["drawn_whole"], "1"
    stages, bar = _own("stages"), _own("drawn_range")
    yield LETTER["drawn_stages"], f'IF({finished};{stages};"")'
    yield LETTER["drawn_plain"], "1"
    measured = f'ISNUMBER({stages});ISNUMBER({_own("stages_range")})'
    yield LETTER["drawn_range"], f'IF(AND({finished};{measured});{_own("stages_range")};0)'
    yield LETTER["drawn_high"], f'IF({bar}>0;{stages}+{bar};"")'
    yield LETTER["drawn_low"], f'IF({bar}>0;{stages}-{bar};"")'
    yield LETTER["drawn_unlike"], f'IF({_own("unlike")}="";"";{stages})'
    yield LETTER["known"], f'IF(AND({finished};{_own("still")}<>"";{measured});{stages};"")'
    yield from _unlike(words)
    yield from _for_side_by_side(there)
