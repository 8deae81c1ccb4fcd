"""At the still: what is measured on each jar, and what follows from it. Every row has the same formulas,
so a row may be inserted anywhere between the thin ones and filled from any other."""
from . import layout as L, read
from .forecast import CHARGE, FIRST, FORESHOTS, FROM, PRESSURE, STAGES, TO
from .layout import at, jars
from .opening import jar_headings, jar_headings_below
from .pad import blank_if, empty
from .read import jar, jars_before, jars_so_far
from .texts import CAUTIONS, T, look_again, say

# The same as Check this sheet goes by: % vol that a jar may be above the one before it, °C that it may be from the
# middle of all
RISE, FAR_WARM = look_again("strength_rise"), look_again("far_temperature")
AWAY = 2            # % vol that a jar's difference may be from those around it
LONG_JAR = 12 * 60  # min; a clock that seems to go on by more has gone back
FAR_AMOUNT = 100    # times the middle of all
# A date typed where mL belong (46270 is in 2026), where the other jars are far smaller.
DATES = (43000, 55000)

INPUTS = ((L.CLOCK, "jar_clock", "clock", "time"), (L.AMOUNT, "jar_amount", "amount", "0"),
          (L.READING, "jar_reading", "reading", "0.0"), (L.TEMPERATURE, "jar_temperature", "temperature", "0.0"),
          (L.NOTE, "jar_note", "note", None), (L.KEEP, "jar_keep", "keep", "general"),
          (L.CUT_CHOSEN, "jar_cut", "cut", None))
# The cuts, as headings beside the page
CUTS = f"${L.FORESHOTS}${L.JAR_HEAD}:${L.TAILS}${L.JAR_HEAD}"
BAD = {L.CLOCK: 1, L.AMOUNT: 2, L.READING: 3, L.TEMPERATURE: 4, L.KEEP: 6, L.CUT_CHOSEN: 7}


def head(pad):
    sheet = pad.sheet
    pad.band(L.STILL, "still", formula=_corrections())
    sheet.breaks.add(L.STILL)
    running = CAUTIONS["running"]
    sheet.put(f"A{L.CAUTION}", " ".join(running.values()), style="Jarbook caution", to=f"N{L.CAUTION}",
              letters={"fo:font-size": "8pt"})
    sheet.heights |= {L.CAUTION: 11.5, L.DRIP: 6, L.JAR_HEAD: 8.5, L.JAR_TOP: 0.7, L.JAR_FOOT: 0.7}
    pad.line(L.DRIP, "first_drip", "", fmt="time")
    pad.line(L.DRIP, "jar_unit", "jar_unit", text=True, fmt=None)
    pad.line(L.DRIP, "heat_on", "clock", fmt="time")
    jar_headings(pad, L.JAR_HEAD)
    jar_headings_below(pad, L.JAR_AGAIN)
    for row in (L.JAR_TOP, L.JAR_FOOT):
        for column in "ABCDEFGH":
            sheet.put(f"{column}{row}")


def _corrections():
    """Which corrections the readings on this sheet are counted with, and of which day."""
    def part(key, digits):
        counts = read.used(f"{key}_correction")
        day = f"${L.CHECKED_DAY}${read.row_of(f'{key}_checked')}"
        date = f'YEAR({day})&"-"&TEXT(MONTH({day});"00")&"-"&TEXT(DAY({day});"00")'
        signed = f'IF({counts}>0;"+";"")&FIXED({counts};{digits};1)'
        checked = f'IF(N({day})>0;{say("checked", date=date)};"")'
        return f'IF(N({counts})=0;"";{say(f"corrected_{key}", correction=signed)}&{checked})'

    return f'TEXTJOIN("; ";TRUE();{part("alcoholometer", 2)};{part("thermometer", 1)})'


def counts(pad):
    """Beside the page, in the row of the band."""
    state = jars(L.STATE)
    pad.aside(L.names["jars_complete"], f"COUNTIF({state};1)", "0")
    pad.aside(L.names["jars_incomplete"], f"COUNTIF({state};-1)", "0")
    pad.aside(L.names["jars_ready"], f"IF(AND({at.jars_complete}>0;{at.jars_incomplete}=0);1;0)", "0")
    pad.aside(L.names["cuts_chosen"], f"SUMPRODUCT(({state}=1)*({jars(L.CUT_USED)}<>\"\"))", "0")
    pad.aside(L.names["jars_odd"], f'SUMPRODUCT(({jars(L.CHECK)}<>"")*1)', "0")
    pad.aside(L.names["jar_median"], f'IFERROR(MEDIAN(INDEX({jars(L.AMOUNT)};0*{at.above_jars};1));"")', "general")
    # Of whole jars only: a row that a bad drag has mixed up would make the sound ones look far off
    pad.aside(L.names["temperature_median"], f'IFERROR(MEDIAN(IF({state}=1;{jars(L.TEMPERATURE_USED)};""));"")', "0.0",
              array=L.names["temperature_median"])
    read.places(pad)
    # How this Calc writes decimals, and dates without a year
    pad.aside(L.names["point"], 'MID(0.5&"";2;1)', None)
    pad.aside(L.names["month_first"], 'IFERROR(MONTH(DATEVALUE("3/2/2001"))=3;FALSE())', "general")
    pad.aside(L.names["run_curve"], _curve(), None, array=L.names["run_curve"])
    row = L.JAR_HEAD
    for column, text in ((L.UNCUT, T["chart"]["uncut"]), (L.FORESHOTS, "foreshots"), (L.HEADS, "heads"),
                         (L.HEARTS, "hearts"), (L.TAILS, "tails")):
        pad.aside_heading(f"{column}{row}", text)
    for column, text in zip((L.TAKEN, L.USED, L.TOLERANCE, L.ALCOHOL, L.ALCOHOL_SUM, L.BOILER, L.DIFFERENCE,
                             L.REST, L.GOES),
                            T["beside"]["jar_more"]):
        pad.aside_heading(f"{column}{row}", text)


def _curve():
    """The run as one text, for Side by side: of each jar, in CURVE_PIECE digits, the share of the charge's pure
    alcohol collected by its end (millionths), its strength (ten thousandths of 1 % vol), its cut (0 if none). A cell, so that
    Runs can hold it, and whole numbers, so that no locale writes them otherwise."""
    end, strength, cut = jars(L.ALCOHOL_SUM), jars(L.STRENGTH), jars(L.CUT_USED)
    number = "0"
    for i, name in reversed(list(enumerate(L.CUT_NAMES, 1))):
        number = f'IF({cut}="{name}";"{i}";{number})'
    number = number.replace(";0)", ';"0")')
    whole = f"ISNUMBER({end})*ISNUMBER({strength})"
    digits = "0" * L.CURVE_DIGITS
    return (blank_if(f"N({at.charge_alcohol})=0") + f'TEXTJOIN("";1;IF({whole};TEXT(ROUND(1000000*IF({whole};{end};0)/{at.charge_alcohol};0);"{digits}")&'
            f'TEXT(ROUND(10000*IF({whole};{strength};0);0);"{digits}")&{number};"")))')


def _what_counts(pad, row):
    clock, amount, reading, degrees, keep, cut = (jar(c, row) for c in (
        L.CLOCK, L.AMOUNT, L.READING, L.TEMPERATURE, L.KEEP, L.CUT_CHOSEN))
    drip, kind = read.used("first_drip"), read.used("run_kind")
    # From jar to jar, so that midnight does not matter, nor a run of more than a day.
    passed = f"MAX(0;{jars_before(L.SINCE, row)})"
    pad.aside(f"{L.SINCE}{row}", f'IFERROR(({passed}+MOD(ROUND(1440*({clock}-N({drip}));0)-{passed};1440))/'
              f'(MEDIAN({clock};0;0.99999)={clock});"")', "0")
    most = f'IF(ISNUMBER({at.charge_volume});1100*{at.charge_volume};1000000)'
    date = f"AND({amount}>={DATES[0]};{amount}<={DATES[1]};{amount}>5*N({at.jar_median}))"
    pad.aside(f"{L.AMOUNT_USED}{row}", read.number(amount, "0.000001", most, more=date), "general")
    scale, degree = read.reading_correction(), read.temperature_correction()
    pad.aside(f"{L.READING_USED}{row}", read.number(reading, 1, 100, correction=scale))
    pad.aside(f"{L.TEMPERATURE_USED}{row}", read.number(degrees, -20, 40, zero=False, correction=degree))
    pad.aside(f"{L.CUT_USED}{row}", f'IF(${L.STATE}{row}=1;IFERROR(INDEX({CUTS};MATCH(TRIM({cut});{CUTS};0));"");"")', None)
    auto = f'N(OR({kind}="stripping run";${L.CUT_USED}{row}="hearts"))'
    pad.aside(f"{L.WEIGHT}{row}", blank_if(f"${L.STATE}{row}<>1") + read.number(keep, 0, 1000, default=auto, more=f"AND({keep}>0;{keep}<1)") + ")", "general")
    pad.aside(f"{L.STATE}{row}", f"IF(COUNTA({jar(L.AMOUNT, row)}:{jar(L.TEMPERATURE, row)})=0;0;"
              f"IF(ISNUMBER(${L.VOLUME}{row});1;-1))", "0")
    unusable = read.bad_box((
        (BAD[L.AMOUNT], amount, f'${L.AMOUNT_USED}{row}=""'), (BAD[L.READING], reading, read.unless_waiting(f"${L.READING_USED}{row}", scale) + '=""'),
        (BAD[L.TEMPERATURE], degrees, read.unless_waiting(f"${L.TEMPERATURE_USED}{row}", degree) + '=""'), (BAD[L.CLOCK], clock, f'${L.SINCE}{row}=""'),
        (BAD[L.CUT_CHOSEN], cut, f"ISERROR(MATCH(TRIM({cut});{CUTS};0))"),
        (BAD[L.KEEP], keep, f'IFERROR(({keep}<>"")*((MEDIAN({keep};0;1000)<>{keep})+({keep}>0)*({keep}<1));TRUE())')))
    pad.aside(f"{L.BAD}{row}", unusable, "0")


def _slip(pad, row):
    """The box that cannot be used: what stands there, what would be right, and which words say so."""
    bad, raw, right, code = f"${L.BAD}{row}", f"${L.RAW}{row}", f"${L.RIGHT}{row}", read.code
    typed = f"INDEX({L.JARS_BLOCK};$A{row}+1;{bad})"
    pad.aside(raw[1:], f'IF({bad}=0;"";IFERROR({typed};""))', "general")
    pad.aside(right[1:], f'IF({bad}=0;"";IFERROR(IF(ISTEXT({raw});IF({bad}=1;SUBSTITUTE(SUBSTITUTE({raw};".";":");",";":");'
              f'{read.swapped(raw)});IF({bad}=1;INT({raw})&":"&TEXT(ROUND(100*MOD({raw};1);0);"00");IF({read.is_date(raw)};'
              f'{read.day_as_number(raw)};IF({bad}=4;0.001;ROUND(100*{raw};6)))));""))', None)
    text = (f"IF({bad}=1;IF(ISERROR(TIMEVALUE({right}));{code('text_no_clock')};{code('text_for_clock')});"
            f"IF(ISERROR(NUMBERVALUE({right};{at.point}));{code('text')};{code('text_for_number')}))")
    clock = f"IF(AND({raw}>=2;{raw}<24;MOD({raw};1)<0.6);{code('clock')};{code('clock_any')})"
    each = (clock, f"IF({raw}<=0;{code('amount_low')};{code('amount_high')})",
            f"IF(AND({raw}>0;{raw}<1);{code('share')};{code('reading_range')})",
            f"IF({raw}=0;{code('temperature_zero')};{code('temperature_range')})", "0", code("keep_range"), code("one_of"))
    numbers = f"CHOOSE({bad};{';'.join(each)})"
    return (f"IF(ISERROR({typed});{code('an_error')};IF({bad}=7;{code('one_of')};IF(ISTEXT({raw});{text};"
            f"IF(AND({bad}>1;{read.is_date(raw)});{code('date')};{numbers}))))")


def _odd(row):
    """What is odd about a jar that counts; the first that applies, the most dangerous first."""
    strength, difference, since = f"$J{row}", f"${L.DIFFERENCE}{row}", f"${L.SINCE}{row}"
    amount, degrees = f"${L.AMOUNT_USED}{row}", f"${L.TEMPERATURE_USED}{row}"
    before = jars_before(L.SINCE, row)
    around = (f"INDEX({jars(L.DIFFERENCE)};MAX(1;$A{row}-1)):INDEX({jars(L.DIFFERENCE)};"
              f"MIN(ROWS({jars(L.DIFFERENCE)});$A{row}+3))")
    median = at.jar_median
    tests = (
        (f'AND(${L.CUT_USED}{row}="foreshots";N(${L.WEIGHT}{row})>0)', "foreshots_kept"),
        (f'IF(ISNUMBER({since});AND(OR({read.used("first_drip")}<>"";COUNT({before})>0);'
         f"{since}-MAX(0;{before})>{LONG_JAR});FALSE())", "clock_back"),
        (f"IF(ISNUMBER({median});AND({at.jars_complete}>2;OR({amount}>{FAR_AMOUNT}*{median};"
         f"{amount}*{FAR_AMOUNT}<{median}));FALSE())", "amount_far"),
        (f"IF(N({jar(L.STATE, row, 0)})=1;{strength}>{jar(L.STRENGTH, row, 0)}+{RISE};FALSE())", "rises"),
        (f"ABS({degrees}-N({at.temperature_median}))>{FAR_WARM}", "temperature_far"),
        (f"IF(ISNUMBER({difference});IF(COUNT({around})>3;ABS({difference}-MEDIAN({around}))>{AWAY};FALSE());FALSE())",
         "off_curve"))
    formula = "0"
    for condition, key in reversed(tests):
        formula = f"IF({condition};{read.code(key)};{formula})"
    return formula


def _reason(pad, row):
    code = read.code
    waits = f'OR({read.reading_correction()}="";{read.temperature_correction()}="")'
    missing = (f'IF({waits};{code("correction_wrong")};IF(${L.AMOUNT_USED}{row}="";{code("amount_missing")};IF(${L.READING_USED}{row}="";'
               f'{code("reading_missing")};IF(${L.TEMPERATURE_USED}{row}="";{code("temperature_missing")};{code("see_why")}))))')
    alone = f'IF(COUNTA(INDEX(${L.KEEP}${L.JAR_TOP}:${L.CUT_CHOSEN}${L.JAR_FOOT};$A{row}+1;0))=0;0;{code("cut_alone")})'
    pad.aside(f"{L.REASON}{row}", f"IF(${L.BAD}{row}>0;{_slip(pad, row)};IF(${L.STATE}{row}=-1;{missing};"
              f"IF(${L.STATE}{row}=0;{alone};{_odd(row)})))", "0")


def rows(pad):
    data = pad.data.get("jars", [])
    for i in range(L.JAR_COUNT):
        row, entry = L.JAR + i, data[i] if i < len(data) else {}
        pad.sheet.heights[row] = 7.3
        pad.computed(f"A{row}", f"ROW()-{at.above_jars}", "0", style="Jarbook number")
        for column, kind, key, fmt in INPUTS:
            pad.entry_at(f"{column}{row}", kind, entry.get(key), fmt, text=fmt is None,
                         needed=column in (L.AMOUNT, L.READING, L.TEMPERATURE))
        _what_counts(pad, row)
        results(pad, row)
        beside(pad, row)


def results(pad, row):
    amount, reading, degrees = (f"${c}{row}" for c in (L.AMOUNT_USED, L.READING_USED, L.TEMPERATURE_USED))
    strength, volume, collected = (f"${c}{row}" for c in (L.STRENGTH, L.VOLUME, L.COLLECTED))
    unit = read.used("jar_unit")
    pad.computed(f"{L.STRENGTH}{row}", blank_if(*empty(amount, reading, degrees)) + f"SPIRIT.STRENGTH({reading};{degrees}))",
                 style="Jarbook result")
    pad.computed(f"{L.VOLUME}{row}", f'IF(ISNUMBER({strength});IF({unit}="g";SPIRIT.VOLUMEFROMMASS({amount};{strength});'
                 f'IF({unit}="mL";SPIRIT.VOLUME({amount};{strength};{degrees};20);""));"")', "0", style="Jarbook result")
    pad.computed(f"{L.COLLECTED}{row}", blank_if(f"${L.STATE}{row}<>1", f"COUNTIF({jars_so_far(L.STATE, row)};-1)>0") +
                 f"SPIRIT.BLENDVOLUME({jars_so_far(L.VOLUME, row)};{jars_so_far(L.STRENGTH, row)})/1000)")
    pad.computed(f"{L.EXPECTED}{row}", blank_if(*empty(collected, at.charge_volume, STAGES, PRESSURE, FIRST),
                                                f"{collected}>={at.charge_volume}") +
                 f"SPIRIT.FORECASTSTRENGTH({CHARGE};${L.MIDDLE}{row};{STAGES};{PRESSURE}))", "0.0")
    pad.computed(f"{L.SUGGESTED}{row}", blank_if(f"${L.STATE}{row}<>1", f"{at.jars_ready}=0",
                                                 *empty(FORESHOTS, FROM, TO), f"{TO}>={FROM}") +
                 f'INDEX(SPIRIT.CUTNAMES({jars(L.VOLUME)};{jars(L.STRENGTH)};{FORESHOTS}*1000;{FROM};{TO});$A{row}+1)&"")',
                 None, style="Jarbook computed text")
    _reason(pad, row)
    pad.computed(f"{L.CHECK}{row}", read.spoken(row), None, style="Jarbook check")


def beside(pad, row):
    strength, volume, collected, middle = (f"${c}{row}" for c in (L.STRENGTH, L.VOLUME, L.COLLECTED, L.MIDDLE))
    pad.aside(f"{L.MIDDLE}{row}", blank_if(*empty(collected)) + f"({collected}+MAX(0;{jars_before(L.COLLECTED, row)}))/2)", "0.000")
    cut = f"${L.CUT_USED}{row}"
    pad.aside(f"{L.UNCUT}{row}", blank_if(*empty(middle), f'{cut}<>""') + f"{strength})")
    for column, name in zip((L.FORESHOTS, L.HEADS, L.HEARTS, L.TAILS), L.CUT_NAMES):
        pad.aside(f"{column}{row}", blank_if(*empty(middle), f'{cut}<>"{name}"') + f"{strength})")
    weight, taken, alcohol = f"${L.WEIGHT}{row}", f"${L.TAKEN}{row}", f"${L.ALCOHOL}{row}"
    planned = read.planned(f"$A{row}")
    pad.aside(f"{L.TAKEN}{row}", blank_if(f"NOT(ISNUMBER({weight}))", f'{read.wrong("wished_volume")}<>""') +
              f'IF({read.used("wished_volume")}="";IF({weight}>0;{volume};0);IF({at.plan_text}="";"";{planned})))', "0")
    pad.aside(f"{L.USED}{row}", blank_if(*empty(taken)) + f"SPIRIT.PUREALCOHOL({taken};{strength}))", "0.0")
    pad.aside(f"{L.TOLERANCE}{row}", blank_if(f"${L.STATE}{row}<>1", *empty(read.used("volume_tolerance"))) +
              f"${L.AMOUNT_USED}{row}*{read.used('volume_tolerance')}/100)", "0.0")
    pad.aside(f"{L.ALCOHOL}{row}", blank_if(*empty(volume)) + f"SPIRIT.PUREALCOHOL({volume};{strength}))", "0.0")
    pad.aside(f"{L.ALCOHOL_SUM}{row}", blank_if(*empty(collected)) + f"SUM({jars_so_far(L.ALCOHOL, row)})/1000)")
    pad.aside(f"{L.BOILER}{row}", blank_if(*empty(collected, at.charge_volume), f"SUM({jars_so_far(L.ALCOHOL, row)})>=1000*N({at.charge_alcohol})") +
              f"IFERROR(SPIRIT.RESIDUESTRENGTH({at.charge_volume}*1000;{at.charge_strength};{jars_so_far(L.VOLUME, row)};"
              f'{jars_so_far(L.STRENGTH, row)});""))')
    # What is left of a jar, and with what it goes: hearts stay hearts, the rest is feints ("tails" here).
    pad.aside(f"{L.REST}{row}", f'IF(AND(ISNUMBER({taken});ISNUMBER({volume}));MAX(0;{volume}-{taken});"")', "0")
    pad.aside(f"{L.GOES}{row}", blank_if(*empty(f"${L.REST}{row}")) + f'IF(OR({cut}="foreshots";{cut}="hearts");{cut};"tails"))', None)
    pad.aside(f"{L.DIFFERENCE}{row}", blank_if(*empty(f"${L.EXPECTED}{row}")) + f"{strength}-${L.EXPECTED}{row})", "+0.0")


def marks(pad):
    """Odd readings stand out; so do cuts that differ from the suggestion."""
    sheet, first, last = pad.sheet, L.JAR, L.JAR_END
    sheet.condition(f"{L.CHECK}{first}:{L.CHECK}{last}", f"LEN(${L.CHECK}{first})>0", "Jarbook query check")
    for column, number in BAD.items():
        sheet.condition(f"{column}{first}:{column}{last}", f"${L.BAD}{first}={number}", "Jarbook query input")
    sheet.condition(f"{L.SUGGESTED}{first}:{L.SUGGESTED}{last}", f'AND(${L.CUT_USED}{first}<>"";${L.SUGGESTED}{first}<>"";'
                    f'${L.CUT_USED}{first}<>${L.SUGGESTED}{first})', "Jarbook good")


def fill(pad):
    head(pad)
    counts(pad)
    rows(pad)
    marks(pad)
