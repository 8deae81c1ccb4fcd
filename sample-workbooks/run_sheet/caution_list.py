"""What there is to look at: every caution in a cell of its own beside the page, the most dangerous first;
the first of them stays in view at the top, all of them stand at the end of the sheet."""
from . import layout as L, read
from .forecast import FROM, STOP, TO
from .layout import at, fixed, jars
from .pad import blank_if, empty
from .texts import T, quoted, say
from .wash import above_water, differ, turned


def _boxes(sheet):
    """Boxes that cannot be used, and boxes that contradict each other."""
    rounded = "ROUND({};1)".format
    stop = (f'IF(AND(ISNUMBER({at.first_strength});ISNUMBER({STOP}));IF({STOP}>={at.first_strength};'
            f'{say("stop_above", stop=STOP, first=rounded(at.first_strength))};"");"")')
    hearts = (f'IF(AND(ISNUMBER({FROM});ISNUMBER({TO}));IF({TO}>={FROM};'
              f'{say("hearts_turned", **{"from": FROM, "to": TO})};"");"")')
    wish = read.used("wished_charge")
    water = (f'IF(AND(ISNUMBER({wish});ISNUMBER({at.lots_strength}));IF({wish}>{at.lots_strength}+0.05;'
             f'{say("wish_above", strength=rounded(at.lots_strength), wish=wish)};"");"")')
    wash = f'IF({turned()};{say("wash_turned")};"");IF({above_water()};{say("wash_above_water")};"");{differ()}'
    refused = (f'IF(ISERROR({getattr(at, name)});{say("error_at", label=quoted(T["label"][name]))};"")'
               for name in ("first_strength", "residue_measured_strength", "bottled_strength", "wash_by_gravities", "wash_by_sample",
                            "wash_by_boiling"))
    return f'TEXTJOIN(" ";TRUE();{read.said_of_boxes(sheet)};{stop};{hearts};{water};{wash};{";".join(refused)})'


def fill(pad):
    volume, boiler = at.charge_volume, read.used("boiler_volume")
    # Without the boiler's size only the strength is judged; the level at the stop as soon as there is one.
    check, still = f"SPIRIT.CHARGECHECK({volume};{at.charge_strength};{{}})".format, f'IF({boiler}="";2*{volume};{boiler})'
    with_stop = f"IF(AND(ISNUMBER({boiler});ISNUMBER({STOP}));{check(f'{boiler};40;{STOP}')};{check(still)})"
    charge = blank_if(*empty(volume)) + f'SUBSTITUTE(IFERROR({with_stop};IFERROR({check(still)};""));CHAR(10);" "))'
    odd = f"({at.jars_odd}-{at.jars_incomplete})"
    messages = {
        "charge_check": charge,
        "foreshots_check": f'IF(COUNTIFS({jars(L.CUT_USED)};"foreshots";{jars(L.WEIGHT)};">0")>0;{say("foreshots_in_blend")};"")',
        "boxes_check": _boxes(pad.sheet),
        "lots_check": f'IF({at.lots_odd}>0;{say("lots_wait")};"")',
        "jars_check": f'IF({at.jars_incomplete}>0;{say("jars_wait", count=at.jars_incomplete)};"")',
        "odd_check": f'IF({odd}>0;{say("jars_odd", count=odd)};"")',
        "recovery_check": f'IF(N({at.sum_recovery})>1.0005;{say("recovery", percent=f"ROUND(100*{at.sum_recovery};1)")};'
                          f'IF(AND({at.jars_ready}=1;{at.jars_complete}>2;ISNUMBER({at.charge_volume});{at.fitted_stages}="");'
                          f'{say("stages_low")};""))',
        "held_check": f'IF(N({at.held_ready})<>1;"";IF(N({at.held_chance})>=0.05;"";{at.held_advice}&""))',
        # What the readings together say is said once.
        "balance_check": f'IF(AND({at.held_check}="";OR({at.balance_verdict}={say("balance_missing")};{at.balance_verdict}={say("balance_found")}));'
                         f'{at.balance_verdict}&"";"")',
        "blend_check": f'{at.wish_check}&""',
        "label_check": f'IF({at.label_verdict}={say("label_outside")};{at.label_verdict}&"";"")',
        "cuts_check": f'IF(OR({at.jars_complete}=0;{read.used("run_kind")}="stripping run";{at.cuts_chosen}=0;'
                      f'{at.jars_complete}={at.cuts_chosen});"";{say("uncut", count=f"({at.jars_complete}-{at.cuts_chosen})")})'}
    pad.sheet.put(f"{L.MESSAGE_COLUMN}{L.MESSAGE - 1}", T["beside"]["messages"], style="Jarbook unit")
    for name, formula in messages.items():
        pad.aside(L.names[name], f'IFERROR({formula};"")', None)
    counted = {"lots_check", "jars_check", "odd_check"}
    others = "+".join(f'({getattr(at, name)}<>"")' for name in messages if name not in counted)
    pad.aside(L.names["queries"], f"{at.lots_odd}+{at.jars_odd}+{others}", "0")
    pad.band(L.ALL_LOOK, "look")
    pad.sheet.heights[L.LAST] = 15
    pad.result("look_all", f'IF({at.queries}=0;{at.look}&"";TEXTJOIN(CHAR(10);TRUE();'
               f'{fixed(L.MESSAGE_COLUMN, L.MESSAGE, L.MESSAGE + len(messages) - 1)}))', None, to=f"N{L.LAST}",
               style="Jarbook computed text", cell={"style:vertical-align": "top"})
