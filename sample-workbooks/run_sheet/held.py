"""After: the readings of charge, jars and residue held against each other: whether they balance in pure alcohol
and in mass, which one to doubt, and the recovery that all of them give together.

The lists of the functions are made inside three array formulas, of the jars' rows and two rows beside them, which
stand for residue and charge: no column of cells more, and an inserted jar is in them by itself.
"""
from . import layout as L, read
from .layout import at
from .pad import blank_if, empty
from .read import used
from .texts import T, say

VOLUME, DEGREES = used("residue_measured_volume"), used("residue_temperature")
SCATTER, MEASURES = used("reading_scatter"), used("volume_tolerance")
COMMON, READY = at.held_common, at.held_ready
# % vol by which 1 °C moves a corrected strength, about, from 40 to 80 % vol (R 22)
PER_DEGREE = 0.35
TESTED = 6
CHI, PROBABILITY, CANDIDATES, ROW, KIND = (f"$V${L.HELD + i}" for i in (0, 2, 3, 4, 5))


def _lists(first, residue_row, charge_row):
    """The five lists and the common tolerance: rows from `first` on, of which two stand for residue and charge."""
    last = max(L.JAR_END, residue_row, charge_row)
    rows = f"ROW($A${first}:$A${last})"
    jar_volume, jar_strength = (f"${c}${first}:${c}${last}" for c in (L.VOLUME, L.STRENGTH))

    def column(charge, residue, jar):
        return (f"IF({rows}=ROW($A${charge_row});{charge};IF({rows}=ROW($A${residue_row});{residue};"
                f'IF(ISNUMBER({jar_volume});{jar};"")))')

    return ";".join((
        column('"in"', '"out"', '"out"'),
        column(f"ROUND({at.charge_volume};4)", f"ROUND({at.held_residue};4)", f"ROUND({jar_volume}/1000;4)"),
        column(f"ROUND({at.charge_strength};2)", f"ROUND({at.residue_measured_strength};2)", f"ROUND({jar_strength};2)"),
        column(used("held_charge_volume"), used("held_residue_volume"), MEASURES),
        column(used("held_charge_strength"), used("held_residue_strength"), SCATTER), COMMON))


# Row n of the answer is jar n; then come residue and charge
BY_JAR = _lists(L.JAR, L.JAR_FOOT, L.JAR_FOOT + 1)
# Charge and residue first, so that an array of two rows shows them
CHARGE_FIRST = _lists(L.JAR_HEAD, L.JAR_TOP, L.JAR_HEAD)
COUNT = f"ROWS($A${L.JAR}:$A${L.JAR_END})"


def _beside(pad):
    row = L.HELD
    tolerances = empty(COMMON, SCATTER, MEASURES, *(used(f"held_{lot}_{of}") for lot in ("charge", "residue")
                                                   for of in ("volume", "strength")))
    pad.aside(L.names["held_common"], blank_if(*empty(used("reading_tolerance"), used("temperature_tolerance"))) +
              f"SQRT({used('reading_tolerance')}^2+({PER_DEGREE}*{used('temperature_tolerance')})^2))", "0.00")
    pad.aside(L.names["charge_tolerance"], blank_if(*empty(COMMON, used("held_charge_strength"))) +
              f"SQRT({COMMON}^2+{used('held_charge_strength')}^2))", "0.00")
    pad.aside(L.names["held_residue"], blank_if(*empty(at.balance_residue)) +
              f"SPIRIT.VOLUME({VOLUME};{at.residue_measured_strength};{DEGREES};20))", "0.000")
    zero = f"N({SCATTER})*N({MEASURES})=0"
    # 0 not yet, 1 all there; 2 the jars, 3 the charge, 4 the residue, 5 a tolerance is missing
    pad.aside(L.names["held_ready"], f"IF({at.jars_complete}+{at.jars_incomplete}=0;0;IF({at.jars_ready}=0;2;"
              f'IF({at.charge_alcohol}="";3;IF(N({at.held_residue})=0;4;IF(OR({";".join([*tolerances, zero])});5;1)))))', "0")
    for i in range(TESTED):
        pad.aside(f"V{row + i}", f"IF({READY}<>1;\"\";IFERROR(SPIRIT.RECONCILETEST({BY_JAR});\"\"))" if i == 0 else None,
                  "general", array=f"V{row + TESTED - 1}" if i == 0 else None)
    for i in range(2):
        for column in "WX":
            corner = i == 0 and column == "W"
            pad.aside(f"{column}{row + i}", f'IF(N({PROBABILITY})<0.05;"";IFERROR(SPIRIT.RECONCILE({CHARGE_FIRST});""))'
                      if corner else None, "0.000", array=f"X{row + 1}" if corner else None)
    for column, text in zip("VW", T["beside"]["held"]):
        pad.aside_heading(f"{column}{row - 1}", text)


def _advice():
    """The function's words, with jars, residue and charge by name."""
    words = f"SPIRIT.RECONCILEADVICE({BY_JAR})"
    for row, key in ((f'{COUNT}+1&" "', "held_residue"), (f'{COUNT}+2&" "', "held_charge")):
        words = f'SUBSTITUTE({words};"row "&{row};{say(key)})'
    words = f'SUBSTITUTE({words};"row ";{say("held_jar")})'
    waits = ";".join(say(key) for key in ("held_waits_jars", "held_waits_charge", "held_waits_residue",
                                          "held_waits_tolerance"))
    return (f'IF({READY}=0;"";IF({READY}>1;CHOOSE({READY}-1;{waits});IF({PROBABILITY}="";{say("held_apart")};'
            f'IFERROR({words};{say("held_apart")}))))')


def _box():
    """Where the one reading stands that explains it."""
    jar = f"ROW($A${L.JAR})-1+{ROW}"

    def box(name):  # by the row of what counts of it: it follows inserted rows, but no box that is moved
        return f'ADDRESS(ROW({used(name)});{"ABCDEFGHIJKLM".index(read.column_of(name)) + 1};4)'

    left = (f'IF({KIND}=1;{box("residue_measured_volume")};IF({used("residue_known")}<>"";{box("residue_known")};'
            f'{box("residue_reading")}))')
    return (f'IF(N({CANDIDATES})<>1;"";IF({ROW}={COUNT}+2;{say("held_at_lots")};IF({ROW}={COUNT}+1;{say("held_at_residue", box=left)};'
            f'{say("held_at_jar", jar=ROW, box=f"ADDRESS({jar};2+{KIND};4)")})))')


def _recovery():
    """Of all readings together; its uncertainty is at most that of the better of the two plain ways (jars over charge,
    or what is not left in the residue), which the balanced one cannot exceed: least squares."""
    row = L.HELD
    charge, residue = (f"$W${row + i}*$X${row + i}" for i in (0, 1))
    share = f"({residue})/({charge})"
    waits = blank_if(f"N({PROBABILITY})<0.05", *empty(f"$W${row}", f"$X${row + 1}"))
    yield waits + f"1-{share})"
    v, q = at.charge_volume, at.charge_strength
    left, weak = at.held_residue, at.residue_measured_strength
    alcohol, mine, yours = f"({v}*{q})", (used("held_charge_volume"), used("held_charge_strength")), (
        used("held_residue_volume"), used("held_residue_strength"))
    volumes = L.jars(L.VOLUME)
    of_charge = f"(({mine[0]}/100)^2+({mine[1]}/{q})^2)"
    x = f"({left}*{weak}/{alcohol})"
    by_residue = (f"({x}*{yours[0]}/100)^2+({left}*{yours[1]}/{alcohol})^2+{x}^2*{of_charge}+"
                  f"({COMMON}*({left}-{x}*{v})/{alcohol})^2")
    r = f"(SUM({L.jars(L.ALCOHOL)})/10/{alcohol})"       # mL of pure alcohol over L × % vol
    by_jars = (f"SUMSQ({L.jars(L.ALCOHOL)})*({MEASURES}/1000/{alcohol})^2+SUMSQ({volumes})*({SCATTER}/1000/{alcohol})^2+"
               f"{r}^2*{of_charge}+({COMMON}*(SUM({volumes})/1000-{r}*{v})/{alcohol})^2")
    yield blank_if(*empty(at.held_recovery)) + f"2*SQRT(MIN({by_residue};{by_jars})/3))"


def fill(pad):
    pad.band(L.HELD, "held", "held_hint")
    row = L.HELD + 1
    pad.result("held_advice", _advice(), None, to=f"N{row}", array=L.names["held_advice"], style="Jarbook look", letters={"fo:font-weight": "normal"})
    pad.sheet.heights |= {row: 8, L.HELD - 1: 1.5}
    pad.sheet.condition(L.names["held_advice"], f"IF(ISNUMBER({PROBABILITY});{PROBABILITY}<0.05;FALSE())", "Jarbook query look")
    _beside(pad)
    row += 1
    pad.line(row, "held_chance", None, blank_if(*empty(PROBABILITY)) + f"{PROBABILITY})", "0.0 %")
    pad.unit(f"E{row}", f"E{row}", "")
    pad.label(f"F{row}", f"G{row}", "held_box")
    pad.result("held_box", _box(), None, to=f"I{row}", style="Jarbook computed text")
    recovery, uncertainty = _recovery()
    pad.line(row, "held_recovery", None, recovery, "0.0 %")
    pad.result("held_recovery_uncertainty", uncertainty, "±0.0 %")
    row += 1
    pad.line(row, "held_charge_volume", "percent")
    pad.line(row, "held_residue_volume", "percent")
    pad.line(row + 1, "held_charge_strength", "strength")
    pad.line(row + 1, "held_residue_strength", "strength")
    pad.unit(f"J{row}", f"N{row}", "held_others")
    pad.unit(f"J{row + 1}", f"N{row + 1}", "")
    pad.sheet.fold_rows(row, row + 1, True)
