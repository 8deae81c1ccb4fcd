"""What each input accepts, and the help that Calc shows beside it."""
from odf.workbook import Validation, a_date, at_least, between, one_of, time_of_day

KINDS = ("stripping run", "spirit run", "botanical run")
CUTS = ("foreshots", "heads", "hearts", "tails")
LOT_KINDS = ("wash", "low wines", "feints", "spirit", "water")


def _positive(title, text, unit, high):
    return Validation(title, text, between(0, high), f"A number from 0 to {high:g} {unit}.")


E = {
    "run_title": Validation("Name of the run", "A short name, such as Run 1. It heads this sheet and its row in the Run book."),
    "run_date": Validation("Date", "Day of the run.", a_date(), "A date, please."),
    "run_kind": Validation("Kind of run", "In a stripping run every jar counts as product (low wines). In the other kinds the jars chosen as hearts do.", one_of(*KINDS), "One of: " + ", ".join(KINDS) + "."),
    "run_still": Validation("Still", "Which still, and how it is fitted."),
    "run_material": Validation("Made from", "Fruit or grain, harvest, vessel."),
    "run_lot": Validation("Record number", "Your own number for the record that your licence asks for."),
    "jar_unit": Validation("Jars measured in", "mL: amounts read on a measuring cylinder, at the jar's temperature.\ng: amounts weighed on a scale, without the jar.\nIt holds for the whole sheet.", one_of("mL", "g"), "mL or g."),
    "first_drip": Validation("First drip", "Clock time of the first drip, such as 9:40.", time_of_day(), "A time of day, such as 9:40."),
    "run_remarks": Validation("Remarks", "Weather, smell, anything unusual."),
    "boiler_volume": _positive("Boiler", "What the boiler holds when full to the brim, L.", "L", 100000),
    "watts": _positive("Heat", "Power that reaches the boiler, W: not the heater's plate, less what is lost to the room.", "W", 1000000),
    "stages": Validation("Stages of the still", "Effective equilibrium stages. Leave 1.15 until your still's own value is known from earlier runs (Forecast, stages fitted to this run); plausible pots have 1.0 to 1.4.", between(1, 10), "From 1 (plain pot) to 10."),
    "reflux": Validation("Reflux", "L returned to the boiler for each L collected; 0 for a plain pot. It only changes the hours.", between(0, 100), "From 0 to 100."),
    "pressure": Validation("Air pressure", "Pressure at the still (not reduced to sea level), hPa. If empty, 1013.25 is taken.", between(600, 1100), "From 600 to 1100 hPa."),
    "start_temperature": Validation("Temperature of the charge", "Of the charge when the heating begins, °C. Forecast of the heating time only.", between(-20, 100), "From -20 to 100 °C."),
    "reading_tolerance": Validation("Alcoholometer, ±", "Half-width within which the instrument itself is right, % vol: usually one scale division. It is off by the same in every reading.", between(0.001, 5), "From 0.001 to 5 % vol."),
    "reading_scatter": Validation("Scatter of readings, ±", "Half-width of what single readings scatter by, % vol: how finely the scale is read, how well the jar was mixed. 0 if none.", between(0, 5), "From 0 to 5 % vol."),
    "temperature_tolerance": Validation("Thermometer, ±", "Half-width within which the thermometer itself is right, °C.", between(0.001, 10), "From 0.001 to 10 °C."),
    "volume_tolerance": Validation("Amounts, ±", "Half-width within which measuring vessel or scale is right, per cent of the amount: 1, not 0.01.", between(0, 20), "From 0 to 20 (per cent)."),
    "lot": Validation("Lot", "What goes into the boiler and where it comes from."),
    "lot_kind": Validation("Kind of lot", "What it is.", one_of(*LOT_KINDS), "One of: " + ", ".join(LOT_KINDS) + "."),
    "lot_volume": _positive("Volume", "Volume as measured, at the temperature given in this row, L.", "L", 100000),
    "lot_reading": Validation("Reading", "What the alcoholometer shows, uncorrected, % vol: 26.5, not 0.265. Leave empty for a wash or anything else that an alcoholometer cannot read, and give the known strength.", between(0, 100), "From 0 to 100 % vol on the scale."),
    "lot_temperature": Validation("Temperature", "Of the lot when it was read and measured, °C. For a true 0 type 0.001.", between(-20, 40), "From -20 to 40 °C."),
    "lot_known": Validation("Known strength", "True strength, % vol at 20 °C, where no reading applies: a wash by distilled sample, or a strength already corrected. It counts instead of a reading.", between(0, 100), "From 0 to 100 % vol."),
    "wished_charge": Validation("Wished strength", "Strength to which the charge is brought with water, % vol: 30, not 0.30. At or below 40 for safety. Leave empty to charge the lots as they are.", between(1, 100), "From 1 to 100 % vol."),
    "botanical": Validation("Botanical", "What, and how prepared: seed crushed, peel fresh."),
    "botanical_rate": _positive("Grams per litre", "g for each L of the charge.", "g", 10000),
    "botanical_where": Validation("Where", "In the pot, in a basket in the vapour; steeped how long."),
    "stop_strength": Validation("Stop", "Strength of the distillate at which the run is stopped, % vol.", between(1, 100), "From 1 to 100 % vol."),
    "foreshots_volume": _positive("Foreshots", "Litres thrown away at the start. Throwing them away does not make doubtful material safe: methanol comes over through the whole run.", "L", 10000),
    "hearts_from": Validation("Hearts from", "Hearts begin with the first jar at or below this strength, % vol. A plan only: nose and taste decide.", between(1, 100), "From 1 to 100 % vol."),
    "hearts_to": Validation("Hearts to", "Hearts end before the first jar below this strength, % vol; less than hearts from. A plan only: nose and taste decide.", between(1, 100), "From 1 to 100 % vol."),
    "jar_clock": Validation("Clock", "When the jar was full and changed, such as 10:25. Past midnight just go on: 0:15.", time_of_day(), "A time of day, such as 10:25."),
    "jar_amount": _positive("Amount", "What is in the jar: mL at the jar's temperature, or g if the sheet is set to g (top left).", "mL or g", 1000000),
    "jar_reading": Validation("Reading", "What the alcoholometer shows, uncorrected, % vol: 68.5, not 0.685. Well mixed, read below the meniscus.", between(0, 100), "From 0 to 100 % vol on the scale."),
    "jar_temperature": Validation("Temperature", "Of the jar at the moment of the reading, °C. For a true 0 type 0.001.", between(-20, 40), "From -20 to 40 °C: let a warmer jar cool first."),
    "jar_cut": Validation("Cut", "The cut you decide on by nose and taste. Empty: not decided.", one_of(*CUTS), "One of: " + ", ".join(CUTS) + "."),
    "jar_keep": Validation("Keep", "Empty: hearts are kept (in a stripping run every jar).\n0: not used for the product.\n1 or more: used; a greater number is preferred when only a part is needed.", between(0, 1000), "0, or a number above 0."),
    "jar_note": Validation("Notes", "Smell, taste, what happened."),
    "residue_volume": _positive("Residue", "Volume left in the boiler, L, cooled to the temperature given here. Let the still cool before opening.", "L", 100000),
    "residue_reading": Validation("Reading of the residue", "Alcoholometer in the cooled residue, % vol. Only if it holds nothing but alcohol and water; else give the known strength.", between(0, 100), "From 0 to 100 % vol on the scale."),
    "residue_temperature": Validation("Temperature of the residue", "°C, when measured.", between(-20, 40), "From -20 to 40 °C: let it cool first."),
    "residue_known": Validation("Known strength of the residue", "True strength, % vol at 20 °C, by distilled sample. It counts instead of a reading.", between(0, 100), "From 0 to 100 % vol."),
    "bottling_strength": Validation("Bottling strength", "Strength of the finished spirit, % vol: 42, not 0.42. Empty: the kept jars stay as they are.", between(1, 100), "From 1 to 100 % vol."),
    "wished_volume": _positive("Wished volume", "Litres of finished spirit wanted. Empty: all the jars kept are used. If given, the best plan for that volume is worked out.", "L", 100000),
    "whole_jars": Validation("Whole jars", "yes: a jar is used in whole or not at all, and the volume may come out up to 5 % larger.\nno: jars may be divided.", one_of("yes", "no"), "yes or no."),
    "bottle_size": _positive("Bottle", "What one bottle holds, mL.", "mL", 100000),
    "label_tolerance": Validation("Tolerance of the label", "How far the strength may be from the label, % vol. 0.3 is usual for spirits in the EU; your law decides.", between(0.01, 5), "From 0.01 to 5 % vol."),
    "bottled_reading": Validation("Reading of the finished lot", "After mixing and a day's rest, % vol on the scale.", between(0, 100), "From 0 to 100 % vol on the scale."),
    "bottled_temperature": Validation("Temperature of the finished lot", "°C, at the reading.", between(-20, 40), "From -20 to 40 °C."),
    "book_value": Validation("Your handbook", "Type an entry of your own printed table."),
}
