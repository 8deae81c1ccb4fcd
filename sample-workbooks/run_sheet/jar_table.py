"""Section 3, Jars: what is measured on each jar, and what follows from it."""
from . import layout as L
from .forecast import CHARGE, PRESSURE
from .layout import at, jars
from .pad import blank_if, empty

RISE = 0.5        # % vol that a jar may be above the one before it, by scatter of the readings
AWAY = 2.0        # % vol that a jar's difference may be from those around it
FAR_WARM = 8      # °C that a jar may be from the middle of all
LONG_JAR = 12 * 60  # min; a clock that seems to go on by more has gone back
READY = f"{at.jars_ready}=0"


def headings(pad):
    pad.section(f"A{L.JARS}", f"T{L.JARS}", "3  Jars, in the order in which they ran")
    row = L.JAR_HEAD
    pad.sheet.heights[row] = 13
    pad.sheet.breaks.add(L.JARS)
    words = {
        L.NUMBER: "Jar", L.CLOCK: "Clock", L.READING: "Reading\n% vol", L.TEMPERATURE: "Temp.\n°C",
        L.STRENGTH: "Strength\n% vol\nat 20 °C", L.VOLUME: "mL\nat 20 °C", L.ALCOHOL: "Pure\nalcohol\nmL",
        L.COLLECTED: "Collected\nL\nat 20 °C", L.ALCOHOL_SUM: "Pure alc.\ncollected\nL",
        L.BOILER: "Boiler by\nbalance\n% vol", L.EXPECTED: "Forecast\nat its middle\n% vol",
        L.DIFFERENCE: "Differ-\nence\n% vol", L.SUGGESTED: "Suggested\ncut", L.CUT: "Cut",
        L.KEEP: "Keep\n0, 1, 2 …", L.TAKE: "Take for\nthe product\nmL", L.CHECK: "Look again"}
    pad.heading(f"{L.AMOUNT}{row}", None, formula=f'"Amount"&CHAR(10)&IF({at.jar_unit}="";"?";{at.jar_unit})')
    for column, text in words.items():
        pad.heading(f"{column}{row}", text)
    pad.heading(f"{L.NOTE}{row}", "Notes", f"T{row}")


def side(pad):
    """Cells beside the page."""
    sheet, row = pad.sheet, L.JAR_HEAD
    sheet.put(f"{L.STATE}{L.HEAD}", "Beside the page: what the chart, the blend and the checks count with.",
              style="Jarbook unit")
    for column, text in ((L.STATE, "1 whole,\n-1 not"), (L.MIDDLE, "L at its\nmiddle"), (L.UNCUT, "no cut yet"),
                         (L.FORESHOTS, "foreshots"), (L.HEADS, "heads"), (L.HEARTS, "hearts"),
                         (L.TAILS, "tails"), (L.WEIGHT, "prefer-\nence"), (L.PLANNED, "planned\nmL"),
                         (L.USED, "pure alc.\nused, mL"), (L.NAMED, "suggested"),
                         (L.TOLERANCE, "± amount"), (L.SINCE, "min since\nfirst drip")):
        pad.heading(f"{column}{row}", text)
    state = jars(L.STATE)
    pad.result("jars_complete", f"COUNTIF({state};1)", "0", style="Jarbook aside")
    pad.result("jars_incomplete", f"COUNTIF({state};-1)", "0", style="Jarbook aside")
    pad.result("jars_ready", f"IF(AND({at.jars_complete}>0;{at.jars_incomplete}=0);1;0)", "0",
               style="Jarbook aside")
    pad.result("queries", f'SUMPRODUCT(({jars(L.CHECK)}<>"")*1)', "0", style="Jarbook aside")
    pad.result("cuts_chosen", f"SUMPRODUCT(({state}=1)*({jars(L.CUT)}<>\"\"))", "0", style="Jarbook aside")


def minutes_before(row, first):
    """Minutes from the first drip to the last jar above that has a clock."""
    return f"MAX(0;$AH${first}:$AH{row - 1})" if row > first else "0"


def known_before(row, first):
    drip = f'{at.first_drip}<>""'
    return f"OR({drip};COUNT($AH${first}:$AH{row - 1})>0)" if row > first else drip


def check(row, first):
    """What is odd about a jar, in a word; the first that applies."""
    amount, reading, degrees = f"$C{row}", f"$D{row}", f"$E{row}"
    strength, difference = f"$F{row}", f"$M{row}"
    tests = [(f'$V{row}=-1', f'IF({amount}="";"amount missing";IF({reading}="";"reading missing";'
                             f'"temperature missing"))'),
             (f'$V{row}<>1', f'IF($O{row}<>"";"a cut without a jar";"")'),
             (f"ISERROR($G{row})", '"error: see the menu"'),
             (f"AND(1*{reading}>0;1*{reading}<1)", '"per cent, not a share?"'),
             (f'AND($B{row}<>"";NOT(ISNUMBER($B{row})))', '"clock: not a time"'),
             (f'IF(ISNUMBER($AH{row});AND({known_before(row, first)};$AH{row}-{minutes_before(row, first)}>{LONG_JAR});'
              f"FALSE())", '"clock goes back?"')]
    if row > first:
        tests.append((f'IF(N($V{row - 1})=1;IF(ISERROR($F{row - 1});FALSE();{strength}>$F{row - 1}+{RISE});'
                      f'FALSE())', '"strength rises"'))
    tests.append((f"ABS({degrees}-MEDIAN({jars(L.TEMPERATURE)}))>{FAR_WARM}", '"temperature far off"'))
    around = f"$M${max(first, row - 2)}:$M${min(L.JAR_END, row + 2)}"
    if first < row < L.JAR_END:
        tests.append((f'IF(ISNUMBER({difference});IF(COUNT({around})>3;ABS({difference}-MEDIAN({around}))>{AWAY};'
                      f"FALSE());FALSE())", '"off the curve"'))
    tests.append((f'AND($O{row}="foreshots";N($AC{row})>0)', '"foreshots kept?"'))
    formula = '""'
    for condition, answer in reversed(tests):
        formula = f"IF({condition};{answer};{formula})"
    return formula


def rows(pad):
    sheet, first = pad.sheet, L.JAR
    data = pad.data.get("jars", [])
    for i in range(L.JAR_COUNT):
        row = first + i
        jar = data[i] if i < len(data) else {}
        sheet.put(f"A{row}", i + 1, style="Jarbook unit", paragraph={"fo:text-align": "center"})
        pad.entry_at(f"B{row}", "jar_clock", jar.get("clock"), "time")
        pad.entry_at(f"C{row}", "jar_amount", jar.get("amount"), "0")
        pad.entry_at(f"D{row}", "jar_reading", jar.get("reading"), "0.0")
        pad.entry_at(f"E{row}", "jar_temperature", jar.get("temperature"), "0.0")
        c, d, e, f, g, h = (f"${x}{row}" for x in "CDEFGH")
        collected, volumes, strengths = f"$I{row}", f"$G${first}:$G{row}", f"$F${first}:$F{row}"
        wait = blank_if(*empty(collected))
        # The jar's own test comes first, so that an error of the charge leaves rows without jars blank.
        waits = wait + blank_if(*empty(at.charge_volume))
        pad.computed(f"F{row}", blank_if(*empty(c, d, e)) + f"SPIRIT.STRENGTH({d};{e}))",
                     style="Jarbook result")
        pad.computed(f"G{row}", blank_if(*empty(f)) + f'IF({at.jar_unit}="g";SPIRIT.VOLUMEFROMMASS({c};{f});'
                     f"SPIRIT.VOLUME({c};{f};{e};20)))", "0.0", style="Jarbook result")
        pad.computed(f"H{row}", blank_if(*empty(g)) + f"SPIRIT.PUREALCOHOL({g};{f}))", "0.0")
        pad.computed(f"I{row}", blank_if(*empty(g), f"COUNTIF($V${first}:$V{row};-1)>0") +
                     f"SPIRIT.BLENDVOLUME({volumes};{strengths})/1000)")
        pad.computed(f"J{row}", wait + f"SUM($H${first}:$H{row})/1000)")
        pad.computed(f"K{row}", waits + f"SPIRIT.RESIDUESTRENGTH({at.charge_volume}*1000;"
                     f"{at.charge_strength};{volumes};{strengths})))")
        pad.computed(f"L{row}", wait + blank_if(*empty(at.charge_volume, at.stages)) +
                     f"SPIRIT.FORECASTSTRENGTH({CHARGE};$W{row};{at.stages};{PRESSURE})))", "0.0")
        pad.computed(f"M{row}", blank_if(*empty(f"$L{row}")) + f"{f}-$L{row})", "+0.0")
        pad.computed(f"N{row}", blank_if(f"$V{row}=0") + f'$AF{row}&"")', None, style="Jarbook computed text")
        pad.entry_at(f"O{row}", "jar_cut", jar.get("cut"), text=True)
        pad.entry_at(f"P{row}", "jar_keep", jar.get("keep"), "general")
        pad.computed(f"Q{row}", blank_if(*empty(f"$AC{row}")) + f'IF({at.wished_volume}="";'
                     f"IF($AC{row}>0;{g};0);$AD{row}))", "0|-")
        pad.computed(f"R{row}", check(row, first), None, style="Jarbook computed text")
        pad.entry_at(f"S{row}", "jar_note", jar.get("note"), to=f"T{row}", text=True)
        beside(pad, row, i == 0)


def suggestion():
    return (blank_if(READY, *empty(at.foreshots_volume, at.hearts_from, at.hearts_to)) +
            f"SPIRIT.CUTNAMES({jars(L.VOLUME)};{jars(L.STRENGTH)};{at.foreshots_volume}*1000;"
            f"{at.hearts_from};{at.hearts_to}))")


def beside(pad, row, first_row):
    aside = dict(style="Jarbook aside")
    pad.computed(f"V{row}", f"IF(COUNTA($C{row}:$E{row})=0;0;IF(COUNTA($C{row}:$E{row})=3;1;-1))", "0", **aside)
    before = "" if first_row else f"+MAX($I${L.JAR}:$I{row - 1})"
    pad.computed(f"W{row}", blank_if(*empty(f"$I{row}")) + f"($I{row}{before})/2)", "0.000", **aside)
    pad.computed(f"X{row}", blank_if(*empty(f"$W{row}"), f'$O{row}<>""') + f"$F{row})", "0.00", **aside)
    for column, cut in zip((L.FORESHOTS, L.HEADS, L.HEARTS, L.TAILS), L.CUT_NAMES):
        pad.computed(f"{column}{row}", blank_if(*empty(f"$W{row}"), f'$O{row}<>"{cut}"') + f"$F{row})",
                     "0.00", **aside)
    pad.computed(f"AC{row}", blank_if(*empty(f"$G{row}")) + f'IF($P{row}<>"";$P{row};'
                 f'IF({at.run_kind}="stripping run";1;IF($O{row}="hearts";1;0))))', "general", **aside)
    plan = (blank_if(READY, *empty(at.wished_volume, at.bottling_strength)) +
            f"SPIRIT.BLENDPLAN({jars(L.VOLUME)};{jars(L.STRENGTH)};{at.wished_volume}*1000;"
            f'{at.bottling_strength};{jars(L.WEIGHT)};{at.whole_jars}="yes"))')
    pad.computed(f"AD{row}", plan if first_row else None, "0.0",
                 array=f"AD{L.JAR_END + 1}" if first_row else None, **aside)
    pad.computed(f"AG{row}", blank_if(*empty(f"$F{row}")) + f"$C{row}*{at.volume_tolerance}/100)", "0.0", **aside)
    # From jar to jar, so that midnight does not matter, nor a run of more than a day.
    passed = minutes_before(row, L.JAR)
    pad.computed(f"AH{row}", f"IF(ISNUMBER($B{row});{passed}+MOD(ROUND(1440*($B{row}-{at.first_drip});0)-{passed};1440);"
                 f'"")', "0", **aside)
    # Texts of an array that comes from an add-in are equal to no other text (Calc 7.4): column N makes
    # ordinary texts of these.
    pad.computed(f"AF{row}", suggestion() if first_row else None, None,
                 array=f"AF{L.JAR_END}" if first_row else None, **aside)
    pad.computed(f"AE{row}", blank_if(*empty(f"$Q{row}")) + f"SPIRIT.PUREALCOHOL($Q{row};$F{row}))",
                 "0.0", **aside)


def marks(pad):
    """Odd readings stand out; so do cuts that differ from the suggestion."""
    sheet, first, last = pad.sheet, L.JAR, L.JAR_END
    sheet.condition(f"R{first}:R{last}", f"LEN($R{first})>0", "Jarbook query")
    sheet.condition(f"D{first}:D{last}", f'OR($R{first}="strength rises";$R{first}="off the curve";'
                    f'$R{first}="per cent, not a share?";$R{first}="reading missing")', "Jarbook query input")
    sheet.condition(f"E{first}:E{last}", f'OR($R{first}="temperature far off";'
                    f'$R{first}="temperature missing")', "Jarbook query input")
    sheet.condition(f"B{first}:B{last}", f'LEFT($R{first};5)="clock"', "Jarbook query input")
    sheet.condition(f"C{first}:C{last}", f'$R{first}="amount missing"', "Jarbook query input")
    sheet.condition(f"O{first}:P{last}", f'$R{first}="foreshots kept?"', "Jarbook query input")
    sheet.condition(f"N{first}:N{last}", f'AND($O{first}<>"";$N{first}<>"";$O{first}<>$N{first})',
                    "Jarbook good")


def fill(pad):
    headings(pad)
    side(pad)
    rows(pad)
    pad.computed(f"AD{L.JAR_END + 1}", None, "0.0", style="Jarbook aside")
    marks(pad)
    pad.sheet.heights[L.JAR_END + 1] = 1.5
    for row in range(L.JAR, L.JAR_END + 1):
        pad.sheet.heights[row] = 4.9   # to be written on by hand, too
