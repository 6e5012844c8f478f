"""Two invented sheets: a hand cream that shows every page, and a small one that shows everything rare."""

from procsheet.sheet.model import (Addition, Approval, BeforeStarting, Box, Branch, Caution, Check, Checks, Cue, Deviations, Equipment,
    Fact, Front,
                                   Gate, Head, Lane, Lanes, Making, Mass, Point, PortionRow, Portions, Ratio, Run, Setting, Sheet, Stage,
                                       Step,
                                   Weighing, WeighingPhase, WeighingRow)


def say(sentence: str) -> tuple[Run, ...]:
    """Words from a line: *number*, _VESSEL_, [unit] for a blank."""
    kinds = {"*": "number", "_": "vessel", "[": "blank"}
    runs, plain = [], ""
    rest = sentence
    while rest:
        mark, rest = rest[0], rest[1:]
        if mark not in kinds:
            plain += mark
            continue
        inside, rest = rest.split("]" if mark == "[" else mark, 1)
        runs += [Run(plain)] if plain else []
        runs, plain = runs + [Run(inside, kinds[mark])], ""
    return tuple(runs + ([Run(plain)] if plain else []))


def look(words: str) -> Cue:
    return Cue("Look for", say(words))


START, END, DONE = Box("start, time"), Box("end, time"), Box("done by")
CHECKED = Box("checked by, second person", width=2, second=True)
MAIN, SIDE, PAIL = "solid", "hatched", "hollow"

HEAD = Head("Harbour Hand Cream", "HHC-014", "3", "H26-0412", "1", "12 April 2026, 07:40", "8653 c91f 0c4e cd53")

EQUIPMENT = (Equipment(MAIN, "MAIN", "200 L kettle: anchor, rotor-stator, jacket, vacuum", "MK-2"),
             Equipment(SIDE, "SIDE", "50 L kettle: propeller, jacket", "SK-1"),
             Equipment(PAIL, "PAIL", "12 L pail and hand whisk, for step 2"))

FRONT = Front(
    about=("Oil-in-water emulsion. White, glossy cream for the hands.", "Made for Harbour Soap Company by Northquay Filling, plant 2."),
    size="120.0 kg", expected="116.4 – 119.4 kg", expected_note="97.0 to 99.5 % of 120.0 kg",
    facts=(Fact("Fits", "about 1600 tubes of 75 mL"), Fact("Working time", "about 3 h, then rest 12 h"),
           Fact("People", "2, one of them to check"), Fact("Start no later than", "4 h before shift end")),
    equipment=EQUIPMENT,
    cautions=(Caution("Hot oils and wax, up to 80 °C.", "Burns. Steps 5 to 10."),
              Caution("Turning anchor and rotor-stator.", "Lid closed, interlock on. Steps 1 to 16."),
              Caution("Vacuum, to −0.5 bar.", "Vent slowly before opening. Step 12."),
              Caution("Undiluted phenoxyethanol and fragrance.", "Eye irritant; may cause a skin allergy. Step 13."),
              Caution("Fine powder, xanthan gum.", "Dust; very slippery when wet. Step 2.")),
    points_title="What the check of the method found, at 120 kg in this plant",
    points=(Point("To know", "Cooling is slower than on the bench.",
        "Step 11 takes about 54 min here, 12 min at 1 kg. No material passes its limit."),
            Point("To know", "Fewer passes through the head.",
                  "13 in step 10 here, 48 at 1 kg, tip speed the same. Watch the end point, not the clock."),
            Point("Exception", "Xanthan gum goes through high shear.",
                "Accepted by R.T.: “recovers overnight; 11 200 mPa·s after 24 h in trial 41.”",
                  Box("agreed for the plant by, date", second=True))),
    approvals=(Approval("written by", "R.T."), Approval("checked by", "M.O.", second=True), Approval("accepted by the plant"),
        Approval("issued by")))

BEFORE = BeforeStarting(
    ("This record: batch number and issue agree on every page; no page is missing",
        "All materials on the weighing list are released and within date",
     "MAIN, SIDE and tools clean, dry, labelled clean; nothing left of earlier work", "Balances F150, B15 and B3 checked today",
     "Thermometers of MAIN and SIDE within calibration", "pH meter standardised today at pH 4 and pH 7",
     "Jacket hot 95 °C and cold 12 °C, vacuum, drums and liners ready"), vessels=EQUIPMENT)


def weigh(line: str) -> WeighingRow:
    return WeighingRow(*(part.strip() for part in line.split("|")))


WEIGHING = Weighing((
    WeighingPhase("Phase A", "Water", "6 containers, 95.160 kg in all", tuple(map(weigh, (
        "1 | Purified water | A1 · RM-1001 · step 1 | 86.40 | 85.97 | 86.83 | F150 | hose, drum",
        "2 | Purified water, rinse | A1 · RM-1001 · step 9 | 1.800 | 1.791 | 1.809 | B15 | 1 pail",
        "3 | Purified water, make-up | A1 · RM-1001 · step 15 | 1.800 | 1.791 | 1.809 | B15 | 1 pail",
        "4 | Glycerin | A2 · RM-1020, 99.5 % · step 2 | 4.800 | 4.776 | 4.824 | B15 | 1 pail",
        "5 | Xanthan gum | A3 · RM-1107, fine powder · step 2 | 0.2400 | 0.2388 | 0.2412 | B3 | 1 bag",
        "6 | Tetrasodium glutamate diacetate | A4 · RM-1142, 38 % solution · step 3 | 0.1200 | 0.1194 | 0.1206 | B3 | 1 bottle")))),
    WeighingPhase("Phase B", "Oils", "6 containers, 22.800 kg in all", tuple(map(weigh, (
        "7 | Caprylic/capric triglyceride | B1 · RM-2003 · step 5 | 7.200 | 7.164 | 7.236 | B15 | 1 pail",
        "8 | Cetearyl alcohol | B2 · RM-2010, 50:50 · step 5 | 6.000 | 5.970 | 6.030 | B15 | 1 bag",
        "9 | Shea butter | B3 · RM-2044, refined · step 5 | 3.600 | 3.582 | 3.618 | B15 | 1 pail",
        "10 | Glyceryl stearate | B4 · RM-2031 · step 5 | 2.400 | 2.388 | 2.412 | B15 | 1 bag",
        "11 | Cetearyl glucoside | B5 · RM-2037 · step 5 | 2.400 | 2.388 | 2.412 | B15 | 1 bag",
        "12 | Dimethicone, 350 mm²/s | B6 · RM-2052 · step 5 | 1.200 | 1.194 | 1.206 | B3 | 1 bottle")))),
    WeighingPhase("Phase C", "Below 40 °C", "3 containers, 2.040 kg in all", tuple(map(weigh, (
        "13 | Phenoxyethanol | C1 · RM-3001 · step 13 | 1.0800 | 1.0746 | 1.0854 | B3 | 1 bottle",
        "14 | Tocopheryl acetate | C2 · RM-3014 · step 13 | 0.6000 | 0.5970 | 0.6030 | B3 | 1 bottle",
        "15 | Fragrance | C3 · RM-3120 · step 13 | 0.3600 | 0.3582 | 0.3618 | B3 | 1 bottle")))),
    WeighingPhase("Phase D", "pH, as needed", "1 container, 0.360 kg in all", tuple(map(weigh, (
        "16 | Citric acid, 20 % solution | D1 · RM-1210 · step 14 | 0.3600 | 0.3582 | 0.3618 | B3 | 1 bottle",))))),
    closing=(Box("weighing started, date and time"), Box("weighing ended, date and time"), Box("containers, planned 16, counted"),
             Box("all here and labelled, second person", second=True)))

HEAT = Lanes((
    Lane(MAIN, "MAIN", "kettle MK-2", parts=(
        Step("1", (MAIN,), "MAIN", say("Charge the water into _MAIN_."),
            settings=(Setting("anchor", "30", "rpm"), Setting("lid", "closed")),
             additions=(Addition("A1", "Purified water", "86.40"),), boxes=(START, END, Box("°C", "20–25"), DONE)),
        Step("2", (PAIL,), "PAIL", say("Whisk the gum into the glycerin in the _PAIL_."),
            cautions=(Caution("Dust.", "Tip the bag low. Wipe up dry."),),
             cues=(look("even slurry, no dry powder."),), additions=(Addition("A2", "Glycerin", "4.800"),
                 Addition("A3", "Xanthan gum", "0.2400")),
             boxes=(START, END, DONE)),
        Step("3", (MAIN,), "MAIN", say("Pour the slurry, then A4, into the vortex in _MAIN_ over *3 min*."),
             settings=(Setting("rotor-stator", "950", "rpm"), Setting("anchor", "40", "rpm")), cues=(look("no lumps."),),
             additions=(Addition("A4", "Tetrasodium glutamate diacetate", "0.1200"),), boxes=(START, END, DONE)),
        Step("4", (MAIN,), "MAIN", say("Heat _MAIN_ to *78 °C*."),
            settings=(Setting("takes about", "28", "min"), Setting("anchor", "40", "rpm")),
             boxes=(START, END, Box("°C", "75–80"), DONE)))),
    Lane(SIDE, "SIDE", "kettle SK-1", "at the same time", (
        Step("5", (SIDE,), "SIDE", say("Charge the oils into _SIDE_, in this order."), boxes=(START, END, DONE), additions=(
            Addition("B1", "Caprylic/capric triglyceride", "7.200"), Addition("B2", "Cetearyl alcohol", "6.000"),
                Addition("B3", "Shea butter", "3.600"),
            Addition("B4", "Glyceryl stearate", "2.400"), Addition("B5", "Cetearyl glucoside", "2.400"),
            Addition("B6", "Dimethicone, 350 mm²/s", "1.200"))),
        Step("6", (SIDE,), "SIDE", say("Heat _SIDE_ to *78 °C* until all is melted."),
             cautions=(Caution("Hot oil and wax.", "Burns. Keep water out. Lid closed."),),
             settings=(Setting("takes about", "22", "min"), Setting("propeller", "200", "rpm")), cues=(look("clear liquid, no grains."),),
             boxes=(START, END, Box("°C", "75–80"), DONE))))),
    Gate("When steps 4 and 6 are done:", say("step 7. The early one waits at *75–80 °C*, at most *60 min*.")))

SHEAR = (Setting("rotor-stator", "1910", "rpm"), Setting("tip speed", "12", "m/s"), Setting("anchor", "40", "rpm"))

MAKING = Making((
    Stage("Stage 1", "Heat both phases", (HEAT,)),
    Stage("Stage 2", "Emulsify", (
        Step("7", (MAIN, SIDE), "MAIN and SIDE", say("Compare _MAIN_ and _SIDE_. Go on only if within *5 °C*."), second=True,
             boxes=(Box("MAIN °C", "75–80"), Box("SIDE °C", "75–80"), Box("apart °C", "≤ 5"), DONE, CHECKED)),
        Step("8", (MAIN, SIDE), "SIDE → MAIN", say("Pump _SIDE_ into _MAIN_ over *5 min*, below the surface."), second=True,
             cautions=(Caution("Hot oil under pump pressure, 78 °C.",
                 "Burns. Check every clamp on the transfer line before the pump starts."),),
             settings=SHEAR, cues=(look("white at once, no oil floating."),), boxes=(START, END, Box("MAIN °C", "75–80"), DONE, CHECKED)),
        Step("9", (MAIN, SIDE), "SIDE → MAIN", say("Rinse _SIDE_ with *1.800 kg* of hot water into _MAIN_."),
             boxes=(START, END, Box("water °C", "75–80"), DONE, Box("SIDE empty, seen by", width=2))),
        Step("10", (MAIN,), "MAIN", say("Homogenise _MAIN_ for *8 min*."), second=True, settings=SHEAR,
             cues=(look("smooth, white, no oil eyes in a drop on black glass. If there are, 4 min more, once."),),
             boxes=(START, END, Box("MAIN °C", "72–80"), DONE, CHECKED, Box("rpm, read"),
                 Box("4 min more: no / yes, start time", width=2))))),
    Stage("Stage 3", "Cool and finish", (
        Step("11", (MAIN,), "MAIN", say("Cool _MAIN_ to *30 °C*. Rotor-stator off."),
             settings=(Setting("takes about", "54", "min"), Setting("anchor", "30", "rpm"), Setting("jacket", "12", "°C")),
             cues=(Cue("Meanwhile", say("step 12 at 60 °C, step 13 at 40 °C.")),),
             boxes=(Box("at 75 °C, time"), Box("at 60 °C, time"), Box("at 40 °C, time"), Box("at 30 °C, time"), Box("end °C", "29–31"),
                 DONE)),
        Step("12", (MAIN,), "MAIN", say("Below *60 °C*, deaerate _MAIN_ for *10 min*. Then vent slowly."), inside="in step 11",
             cautions=(Caution("Vacuum.", "Close lid and all ports first. Keep hands away. Watch the level: the cream rises."),),
             settings=(Setting("vacuum", "−0.5", "bar"), Setting("anchor", "20", "rpm")), cues=(look("bubbles have stopped rising."),),
             boxes=(START, END, Box("start °C", "50–60"), DONE, Box("bar, read", "−0.4 to −0.6", width=2))),
        Step("13", (MAIN,), "MAIN", say("Below *40 °C*, add to _MAIN_, one at a time, *2 min* apart."), inside="in step 11", second=True,
             cautions=(Caution("Undiluted phenoxyethanol and fragrance.",
                 "Irritate the eyes; may cause a skin allergy. See the safety data sheets."),),
             settings=(Setting("anchor", "40", "rpm"), Setting("vacuum", "off")),
             boxes=(Box("start °C", "30–40"), Box("end °C", "30–40"), END, DONE, CHECKED),
             additions=(Addition("C1", "Phenoxyethanol", "1.0800", second=True),
                 Addition("C2", "Tocopheryl acetate", "0.6000", second=True),
                        Addition("C3", "Fragrance", "0.3600", second=True))),
        Step("14", (MAIN,), "MAIN", say("Adjust _MAIN_ to *pH 5.0–5.5* with D1, in portions of *0.090 kg*. Wait *5 min* after each."),
            second=True,
             settings=(Setting("in all, at most", "0.360", "kg"), Setting("anchor", "40", "rpm"), Setting("measure at", "25", "°C")),
             cues=(look("a steady reading, on 10 % in water. Already 5.0–5.5: add nothing."),),
             boxes=(START, Box("end pH", "5.0–5.5"), Box("D1, kg", "≤ 0.360"), DONE, CHECKED),
             portions=Portions(("before", "portion 1", "portion 2", "portion 3", "portion 4"),
                               (PortionRow("D1 added, kg", ("none", "", "", "", "")), PortionRow("pH after 5 min", ("",) * 5)))),
        Step("15", (MAIN,), "MAIN", say("Top up _MAIN_ with water to *120.0 kg* net."),
             settings=(Setting("expect", "1.4–1.8", "kg"), Setting("anchor", "40", "rpm")),
             cues=(Cue("Stop if", say("it needs more than 1.8 kg. Write a deviation.")),),
             boxes=(Box("before, kg net"), Box("after, kg net", "119.8–120.2", width=2), Box("water used, kg"), Box("time"), DONE)),
        Step("16", (MAIN,), "MAIN", say("Stir _MAIN_ for *10 min*. Take *200 g* from top and from bottom."),
             settings=(Setting("anchor", "30", "rpm"), Setting("samples", "2 × 200", "g")), cues=(look("top and bottom look alike."),),
             boxes=(START, END, Box("MAIN °C", "28–32"), DONE, Box("sample labels, numbers", width=2))),
        Step("17", (MAIN,), "MAIN", say("Discharge _MAIN_ into drums, through a *500 µm* strainer. Close and label each drum."),
             cues=(look("nothing left on the strainer."),),
             boxes=(Box("drum 1, kg net"), Box("drum 2, kg net"), Box("drum 3, kg net"), START, END, DONE))))),
    (Box("making ended, date", width=5), Box("making ended, time", width=5),
        Box("steps 1 to 17 read through, second person, signature", width=8, second=True)))

CHECKS = Checks(
    (Check("Appearance", "step 10, 16 · eye, daylight", "white, glossy, no grains"),
        Check("Odour", "step 16 · nose, against sample", "as the standard sample"),
     Check("pH at 25 °C", "step 14, 16 · 10 % in water", "5.0 – 5.5"),
     Check("Viscosity at 25 °C, after 24 h", "on the rested bulk · laboratory’s method", "9000 – 14 000 mPa·s"),
     Check("Density at 25 °C", "on the rested bulk · cup", "0.94 – 0.98 g/mL"),
         Check("Top and bottom alike", "step 16 · two samples", "pH within 0.1"),
     Check("Total count", "on the rested bulk · laboratory", "≤ 100 cfu/g")),
    (Mass("Weighed in, all materials", "a", "120.0"), Mass("Bulk in drums, step 17", "b", "116.4 – 119.4"), Mass("Samples", "c", "0.40"),
     Mass("Left in kettle, strainer, line", "d", "0.6 – 3.0")),
    (Ratio("Yield", "b ÷ 120.0 × 100", "97.0 – 99.5 %"), Ratio("Accounted for", "(b + c + d) ÷ a × 100", "99.0 – 100.5 %")))

DEVIATIONS = Deviations(bulk=(Box("drums, number"), Box("stored where, at 15–25 °C"), Box("rest until, 12 h after step 17"),
    Box("use or retest before, 14 days")))

HAND_CREAM = Sheet(HEAD, FRONT, BEFORE, WEIGHING, MAKING, CHECKS, DEVIATIONS)

# What is rare: a draft with open figures, five vessels, branches, thirty additions in a step, names that hardly fit.

LONG_NAME = "Polyglyceryl-3 distearate and glyceryl stearate citrate, flakes"
DOTTED, CROSSED = "dotted", "crossed"
THIRTY = tuple(f"Material number {n} of thirty" for n in range(1, 31))
WAX, TANK, TUB = "WAX MELTER", "PREMIX TANK OF THE SECOND HALL", "TUB"

ODD_FRONT = Front(
    about=("Anhydrous balm <with> \"marks\" & signs that a page must not swallow.",), size="",
    facts=(Fact("People", "2"), Fact("Working time")),
    equipment=(Equipment(MAIN, "MAIN", "2000 L kettle", "MK-9"), Equipment(SIDE, WAX, "300 L melter, jacket", "WM-1"),
               Equipment(PAIL, TANK, "100 L tank, propeller"), Equipment(DOTTED, TUB), Equipment(CROSSED, "CAN", "20 L can")),
    cautions=(Caution("Hot wax, up to 90 °C."),),
    points=tuple(Point("Not checked" if n % 2 else "To know", f"Point {n} of the odd method.", "The flash point is not known; " * n)
                 for n in range(1, 8)),
    approvals=(Approval("written by"),))

ODD_WEIGHING = Weighing((
    WeighingPhase("Phase A1", "A phase with a title that is longer than most of them are", "4 containers, 1 251.2 kg in all", (
        WeighingRow("1", LONG_NAME, "A1 · RM-100020003000 · 96.5 %, flakes of the second kind · steps 1, 2 and 11",
                    "1250.00", "1243.75", "1256.25", "F2000", "drums, 8 of 160", "Roll the drum before it is opened."),
        WeighingRow("2", "Perfume", "A2 · step 3", note="Open dose."),
        WeighingRow("3", "Tocopherol", "A3", "0.00500", "0.00498", "0.00502", "M1", "1 vial", second=False),
        WeighingRow("4", "Water", "A4", "12 500", "12 400", "12 600", "T1", "line"))),), unit="g")

ODD_LANES = Lanes((
    Lane(MAIN, "MAIN", "kettle MK-9", parts=(
        Step("1", (MAIN,), "MAIN", say("Charge the thirty materials into _MAIN_ in this order "
                                     "and wait after each until the surface is smooth again."),
             additions=tuple(Addition(f"A{n}", name, f"{n}.{'0' * (n % 4)}0") for n, name in enumerate(THIRTY, 1)),
                 boxes=(START, END, DONE)),)),
    Lane(SIDE, WAX, "WM-1", "at the same time", (
        Step("2", (SIDE,), WAX, say(f"Melt the wax in _{WAX}_ at *85–90 °C*."),
            settings=(Setting("jacket", "", "°C"), Setting("takes about", "40", "min")),
             second=True, boxes=(DONE,)),
        Branch(say("If the wax is grainy:"), (
            Step("3", (SIDE,), WAX, say(f"Hold _{WAX}_ at *90 °C* for [min]."), inside="in step 2", boxes=(START, END, CHECKED)),)))),
    Lane(PAIL, TANK, "", "at the same time", (
        Step("4", (PAIL, DOTTED), f"{TUB} → {TANK}", say(f"Pour _{TUB}_ into _{TANK}_."), boxes=(DONE,), second=True,
             additions=(Addition("C1", LONG_NAME, "120.00", second=True), Addition("C2", "Talc", "0.5000")),
             portions=Portions(tuple(f"portion {n}" for n in range(1, 8)), (PortionRow("pH after 5 min", ("",) * 7),))),)),
    Lane(CROSSED, "CAN", parts=(Step("5", (CROSSED,), "CAN", say("Warm _CAN_ to *40 °C*."), boxes=(DONE,)),))),
    Gate("When steps 1, 3, 4 and 5 are done:", say("step 6, within *20 min*."),
        (Box("MAIN °C", "80–85"), Box("WAX °C", "80–85"), DONE, Box("checked by", second=True))))

ODD_MAKING = Making((
    Stage("Stage 1", "Melt and weigh side by side, with a title that does not end where the line ends", (ODD_LANES,)),
    Stage("Stage 2", "Join", (
        Step("6", (MAIN, PAIL), f"{TANK} → MAIN", say(f"Pump _{TANK}_ into _MAIN_ at [°C] over [min], below the surface."), second=True,
             cautions=(Caution("Hot wax.", "Burns."), Caution("Pressure in the line.", "Vent it before a clamp is opened. " * 4)),
             settings=tuple(Setting(name, value, "rpm") for name, value in
                            (("anchor", "40"), ("rotor-stator", ""), ("propeller", "900"), ("sweep of the second hall", "12"),
                                ("lid", "closed"))),
             cues=(look("no streaks."), Cue("Stop if", say("it is above *90 °C*.")),
                 Cue("Note", say("A wax above its cloud point stays clear."))),
             boxes=(START, Box("a caption which is far too long for a box of its width", "80–85"), DONE)),
        Step("7", (MAIN,), "MAIN",
            (Run("Cool "), Run("MAIN", "vessel"), Run(" to "), Run("°C", "blank", "5 °C above the cloud point of A1"), Run("."))),
        Branch(say("If the bulk is grainy:"), (
            Step("8", (MAIN,), "MAIN", say("Heat _MAIN_ to *85 °C* again."), inside="if grainy", boxes=(DONE,)),
            Branch(say("Repeat at most 6 times until _MAIN_ is clear:"), (
                Step("9", (MAIN,), "MAIN", say("Stir _MAIN_ for *5 min*."), boxes=(START, END, DONE)),), rounds=6)),
                    end=say("Go on with step 11.")),
        Branch(say("Otherwise:"), (Step("10", (MAIN,), "MAIN", say("Take *50 g*."), boxes=(Box("label", width=3), DONE)),)),
        Step("11", (MAIN,), "MAIN", say("Add to _MAIN_ one after the other."), boxes=(DONE,),
             additions=tuple(Addition(f"B{n}", f"{name}, {LONG_NAME}" if n == 2 else name, f"{n}.50" if n != 3 else "", second=n % 2 == 0)
                             for n, name in enumerate(THIRTY, 1)),
             portions=Portions(tuple(f"portion {n}" for n in range(1, 11)), (PortionRow("added, g", ("none",) + ("",) * 9),)))))))

ODD_BALM = Sheet(Head("Winter Balm for the Hands, the Feet and Whatever Else is Dry, Unscented", draft=True), ODD_FRONT, None,
    ODD_WEIGHING, ODD_MAKING,
                 Checks((Check("Appearance"),)), Deviations())
