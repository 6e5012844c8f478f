"""Kinds of mistake: each looks for every place in a good method where it fits, and writes the method anew with it.

A kind yields a draft, the lines on which a finding is right, and '' or the argument why this plant does no harm.
"""

import re
from typing import Callable, Iterator, NamedTuple

from tests.planted.written import DEGREES, HARD, PERFUME, SILENT, Draft, Written, codes


class Kind(NamedTuple):
    """rules: the names a finding of this mistake may have; level: how grave the mistake is."""

    name: str
    rules: tuple[str, ...]
    level: str
    plant: Callable[[Written], Iterator[tuple]]


KINDS: list[Kind] = []


def kind(name: str, *rules: str, level: str = "WARN"):
    def keep(plant):
        KINDS.append(Kind(name, rules, level, plant))
        return plant
    return keep


HOT = ("fragrance-temp", "heat-sensitive", "preservative-max-temp", "flash-limit", "alcohol-cool", "temperature-not-reached")
IS_OW, IS_WO = "oil-in-water emulsion", ("water-in-oil emulsion", "water-in-silicone emulsion")


# ---- heat


def _limit(row) -> float | None:
    """The heat limit of a material [°C], the cautious one; a perfume's is 45 °C by common practice."""
    figure = row.material.figure("add below")
    if figure is not None:
        return figure.value.low - 273.15
    return 45.0 if row.material.is_a(*PERFUME) else None


def _sensitive(good: Written, groups, without=()):
    for row in good.rows:
        step = good.entering(row)
        if step is not None and step.verb == "add" and row.material.is_a(*groups) and not (without and row.material.is_a(*without)) and row.kind == "figure":
            yield row, step, good.into(step)


def _object(good: Written, step) -> str:
    return re.split(r" (?:to|into|in) ", good.said(step).split(" ", 1)[1])[0]


def _into_the_hot(good: Written, groups, without=()):
    """An addition that belongs after the cooling goes in right behind the heating of its vessel."""
    for row, step, vessel in _sensitive(good, groups, without):
        for heat, low in good.heats(vessel):
            if heat in good.before(step) and any(one.verb == "cool" for one in good.before(step) if one in good.after(heat)):
                limit = _limit(row)
                draft = Draft(good)
                draft.drop(step)
                put = draft.put(f"add {_object(good, step)} to {vessel}", after=heat)
                harmless = "no heat limit is known of it" if limit is None else f"it stands {limit:.0f} °C, and the batch has {low:.0f} °C" if limit >= low - 10 else ""
                yield draft, [put, row.span.line], harmless


@kind("perfume into the hot batch", *HOT)
def _(good):
    yield from _into_the_hot(good, PERFUME)


@kind("preservative into the hot batch", *HOT, level="STOP")
def _(good):
    yield from _into_the_hot(good, ("preservative",))


@kind("sensitive active into the hot batch", *HOT, level="STOP")
def _(good):
    yield from _into_the_hot(good, ("heat-sensitive", "extract", "active", "volatile", "protein", "enzyme", "vitamin"), (*PERFUME, "preservative"))


def _is_hot(good: Written, step) -> bool:
    """Whether what a step works on was heated, or most of it was."""
    vessel = good.into(step)
    if any(heat in good.before(step) for heat, _ in good.heats(vessel)):
        return True
    held, joined = good.held(step).get(vessel, []), good.joining()
    hot = [row for heat, _ in good.heats() if joined and heat in good.before(joined) for row in good.held(heat).get(good.into(heat), [])]
    return sum(good.share(row) for row in held if row in hot) > 0.4 * sum(map(good.share, held))


@kind("cooling forgotten", *HOT, "qs-water-last", "equal-temps", "melt-margin", "hollow-spheres", "encapsulate-late", "fill-temp", "pour-temp", "ph-adjust-temp", "over-shear-cool",
      level="STOP")
def _(good):
    for cool in good.steps:
        vessel = good.into(cool)
        if cool.verb != "cool" or good.is_in_block(cool) or not good.heats(vessel) and not any(low > 60 for _, low in good.heats()):
            continue
        later = [step for step in good.after(cool) if vessel in (good.into(step), *(take.vessel for take in step.what))]
        minding = [step for step in later if any((_limit(row) or 999) < 55 for row in good.brings(step)) or re.search(r"\b(?:below|at most|at) \d", good.said(step))]
        if any(step.verb == "cool" for step in good.after(cool)) or not _is_hot(good, cool):
            continue
        draft = Draft(good)
        draft.drop(cool)
        yield draft, [step.span.line for step in minding], "" if minding else "nothing behind the cooling minds the heat"


@kind("cooled too little", *HOT, "qs-water-last", "fill-temp", "pour-temp", "ph-adjust-temp", level="STOP")
def _(good):
    for cool in good.steps:
        match = DEGREES.search(good.said(cool))
        vessel = good.into(cool)
        if cool.verb != "cool" or good.is_in_block(cool) or not match or float(match[1]) > 45 or not good.heats(least=68) or " or lower" in good.said(cool) or not _is_hot(good, cool):
            continue
        later = [step for step in good.after(cool) if good.into(step) == vessel or any(take.vessel == vessel for take in step.what)]
        minding = [step for step in later if any((_limit(row) or 999) < 55 for row in good.brings(step)) or re.search(r"\b(?:below|at most|at) \d", good.said(step))]
        if any(step.verb == "cool" for step in later):
            continue
        draft = Draft(good)
        line = draft.swap(cool.span.line, match[0], "62-66 °C")
        yield draft, [line, *(step.span.line for step in minding)], "" if minding else "nothing behind the cooling minds the heat"


@kind("gate raised while cooling", *HOT)
def _(good):
    for step in good.steps:
        said = good.said(step)
        match = re.search(r"below (\d+) °C during", said)
        if match and not good.is_in_block(step) and good.heats(least=70):
            rows = [row for row in good.brings(step) if (_limit(row) or 999) < 60]
            draft = Draft(good)
            line = draft.swap(step.span.line, match[0], "below 72 °C during")
            name = said.split(" during ")[1].split()[0].rstrip(",")
            sooner = any((gate := re.search(rf"below (\d+) °C during {name}", good.said(one))) and int(gate[1]) < 60 for one in good.before(step))
            yield draft, [line, *(row.span.line for row in rows)], "an earlier step of the same cooling waits for less" if sooner else "" if rows else "nothing in it minds 72 °C"


@kind("reheated after the late additions", *HOT, level="STOP")
def _(good):
    for row, step, vessel in _sensitive(good, ("heat-sensitive", "extract", "preservative", "active", *PERFUME)):
        limit = _limit(row)
        if limit is not None and limit < 62 and good.heats(least=65):
            draft = Draft(good)
            line = draft.put(f"heat {vessel} to 75-80 °C with anchor", after=step)
            yield draft, [line, step.span.line, row.span.line], ""
            return


# ---- emulsions


def _oily(good: Written):
    """The heating of the oil phase, with the highest melting point in it [°C]."""
    joined = good.joining()
    for heat, low in good.heats():
        rows = good.held(heat).get(good.into(heat), [])
        melts = [row.material.figure("melts").value.high - 273.15 for row in rows if row.material.is_a("structures oil") and row.material.figure("melts")]
        again = any(step.verb in ("melt", "heat") and step is not heat and good.into(step) == good.into(heat) for step in good.before(joined)) if joined is not None else False
        if joined is not None and heat in good.before(joined) and melts and not any(row.material.is_a("water") for row in rows) and not again:
            yield heat, max(melts), joined


@kind("oil phase not hot enough", "melt-margin", "temperature-not-reached", "equal-temps", "emulsify-hot", "uv-solid", "ceramide-hot", level="STOP")
def _(good):
    for heat, melts, joined in _oily(good):
        low = int(melts) - 12
        draft = Draft(good)
        line = draft.swap(heat.span.line, DEGREES.search(good.said(heat))[0], f"{low}-{low + 3} °C")
        line[0] = line[0].replace(" until melted", "").replace(" until clear", "")
        for hold in good.after(heat):
            if hold.verb == "hold" and good.into(hold) == good.into(heat) and DEGREES.search(good.said(hold)):
                draft.swap(hold.span.line, DEGREES.search(good.said(hold))[0], f"{low}-{low + 3} °C")
        yield draft, [line, joined.span.line], "" if low > 26 else "what melts at so low a heat is soft in a warm room"


@kind("oil phase not heated", "melt-margin", "temperature-not-reached", "equal-temps", "emulsify-hot", "uv-solid", "ceramide-hot", level="STOP")
def _(good):
    for heat, melts, joined in _oily(good):
        if len(good.heats(good.into(heat))) == 1:
            draft = Draft(good)
            draft.drop(heat)
            charged = next(step for step in good.steps if good.into(step) == good.into(heat))
            yield draft, [joined.span.line, charged.span.line], "" if melts > 35 else "what melts at so low a heat is soft in a warm room"


def _watery(good: Written):
    joined = good.joining()
    for heat, low in good.heats(least=65):
        rows = good.held(heat).get(good.into(heat), [])
        if joined is not None and heat in good.before(joined) and any(row.material.is_a("water") for row in rows) and any(True for _ in _oily(good)):
            yield heat, joined


@kind("water phase not heated", "equal-temps", "temperature-not-reached", "melt-margin", "temp-match-wo", "emulsify-hot")
def _(good):
    for heat, joined in _watery(good):
        if len(good.heats(good.into(heat))) == 1 and not any(step.verb == "hold" for step in good.after(heat) if step in good.before(joined)):
            draft = Draft(good)
            draft.drop(heat)
            yield draft, [joined.span.line], ""


@kind("water phase much colder", "equal-temps", "temperature-not-reached", "melt-margin", "temp-match-wo", "emulsify-hot")
def _(good):
    for heat, joined in _watery(good):
        if not any(step.verb == "hold" for step in good.after(heat) if step in good.before(joined)):
            draft = Draft(good)
            line = draft.swap(heat.span.line, DEGREES.search(good.said(heat))[0], "40-42 °C")
            yield draft, [line, joined.span.line], ""


@kind("no high shear", "enough-shear")
def _(good):
    joined = good.joining()
    if joined is None or "emulsion" not in good.type or not any(HARD.search(good.said(step)) or step.verb == "homogenise" for step in [joined, *good.after(joined)]):
        return
    draft = Draft(good)
    for line in draft.lines:
        if line[1] and line[1] > min(place.span.line for place in good.method.places):
            line[0] = re.sub(r"with (?:homogeniser and anchor|homogeniser|rotor-stator|dissolver)(?: at \d+(?:-\d+)? (?:m/s|rpm))?(?:, then for \d+(?:-\d+)? min)?", "with anchor", line[0])
            line[0] = re.sub(r"^(\s+)homogenise ", r"\1stir ", line[0])
    left = draft.text.split("\n")[draft.now(joined.span.line) - 1:]
    if any(re.search(r"homogeni|high shear|mill\b|vigorous|rotor|dissolver|blender", line.split("--")[0].split(', if not')[0]) for line in left):
        return
    soft = any(row.material.is_a("self-emulsifying", "soap", "cationic surfactant", "base") for row in good.rows)
    yield draft, [joined.span.line], "self-emulsifying bases, soaps and lamellar conditioners form without it" if soft else ""


@kind("emulsifier left out", "emulsifier-present", "emulsifier-ratio", "wo-hlb", level="STOP")
def _(good):
    joined = good.joining()
    rows = [row for row in good.rows if row.material.is_a("emulsifier", "o/w emulsifier", "w/o emulsifier", "solubiliser", "surfactant", "soap", "self-emulsifying", "anionic surfactant",
                                                          "cationic surfactant")]
    if joined is None or "emulsion" not in good.type or not rows:
        return
    draft = Draft(good)
    for row in rows:
        for line in draft.lines:
            line[0] = line[0].replace(row.name, "mineral oil")
    pairs = any(row.material.is_a("base", "neutraliser", "borate") for row in good.rows) or any(row.material.is_a("carbomer") for row in good.rows)
    clay = any(row.material.is_a("organoclay") for row in good.rows)
    yield draft, [joined.span.line, *(place.span.line for place in (*good.rows, *good.method.phases))], (
        "a base with fatty acid, or a polymer, may emulsify it" if pairs else "a clay may hold it" if clay else
        "a material that nothing is known of may be it" if any(not row.material.known for row in good.rows) else "")


@kind("sheared again when cold", "over-shear-cool")
def _(good):
    joined = good.joining()
    if joined is None or good.type != IS_OW or good.percent("fatty alcohol", "structures oil") < 2:
        return
    for cool in good.steps:
        match = DEGREES.search(good.said(cool))
        if cool.verb == "cool" and cool in good.after(joined) and match and float(match[1]) <= 38 and not good.is_in_block(cool):
            draft = Draft(good)
            end = good.last(good.into(cool))
            if end is not None:
                line = draft.put(f"homogenise {good.into(cool)} for 5 min with homogeniser at 15 m/s", before=end)
                yield draft, [line], ""
            return


@kind("stirrer stopped while it sets", "stir-through-setting")
def _(good):
    joined = good.joining()
    if joined is None or good.type != IS_OW or good.percent("fatty alcohol", "structures oil") < 2:
        return
    for cool in good.steps:
        match = DEGREES.search(good.said(cool))
        if cool.verb == "cool" and cool in good.after(joined) and match and float(match[1]) <= 38 and not good.is_in_block(cool):
            draft = Draft(good)
            stop = draft.put(f"stop stirring {good.into(cool)}", before=cool)
            line = draft.line(cool.span.line)
            line[0] = re.sub(r" with [a-z-]+(?: and [a-z-]+)?(?: at \d+(?:-\d+)? (?:rpm|m/s))?", "", line[0])
            yield draft, [stop, line], ""
            return


# ---- water in oil


def _joined_wo(good: Written):
    joined = good.joining()
    return joined if joined is not None and good.type in IS_WO and joined.verb in ("add", "emulsify", "pour") else None


@kind("oil poured into the water", "order-wo", level="STOP")
def _(good):
    joined = _joined_wo(good)
    poured = next((take.vessel for take in joined.what if take.vessel), "") if joined else ""
    if poured:
        vessel = good.into(joined)
        draft = Draft(good)
        line = draft.line(joined.span.line)
        line[0] = line[0].replace(f"{poured} to {vessel}", f"{vessel} to {poured}").replace(f"{poured} into {vessel}", f"{vessel} into {poured}")
        for other in draft.lines:                           # the batch goes on in the other vessel
            if other[1] and other[1] > joined.span.line:
                other[0] = re.sub(rf"\b{poured}\b(?! and)", "@", other[0])
                other[0] = re.sub(rf"\b{vessel}\b", poured, other[0]).replace("@", vessel)
        yield draft, [line], ""


@kind("water poured in at once", "slow-water", level="STOP")
def _(good):
    joined = _joined_wo(good)
    if joined and good.percent("water") > 25 and any(row.material.is_a("water") for take in joined.what for row in [*take.rows, *good.held(joined).get(take.vessel, [])]):
        draft = Draft(good)
        line = draft.line(joined.span.line)
        line[0] = re.sub(r",? (?:very )?slowly|,? over \d+(?:-\d+)? (?:min|h)|,? in (?:\d+ )?portions|,? in a thin stream|,? dropwise", "", line[0])
        vessel = good.into(joined)
        line[0] = re.sub(rf"((?:to|into) {vessel})", r"\1 over 1 min", line[0], count=1)
        yield draft, [line], ""


@kind("salt left out of the water", "electrolyte-needed")
def _(good):
    rows = [row for row in good.of("electrolyte") if good.share(row) >= 0.003]
    if good.type in IS_WO and rows and not any(f'"{row.name}"' in good.text for row in rows) and good.percent("water") > 15:
        draft = Draft(good)
        for row in rows:
            draft.room(-100 * good.share(row))
            draft.drop_row(row)
        clay = any(row.material.is_a("borate", "organoclay") for row in good.rows)
        yield draft, [place.span.line for place in (*good.rows, *good.steps, *good.method.phases)], "borax and wax, or a clay, hold the drops" if clay else ""


@kind("salt put in after the water", "electrolyte-in-water")
def _(good):
    joined = _joined_wo(good)
    for row in good.of("electrolyte"):
        step = good.entering(row)
        taken = next((take for take in step.what if row in take.rows and take.phase), None) if step and joined else None
        if taken and step in good.before(joined) and good.share(row) >= 0.003 and " except " not in good.said(step):
            draft = Draft(good)
            line = draft.line(step.span.line)
            line[0] = re.sub(rf"\b{taken.phase}\b", f'{taken.phase} except "{row.name}"', line[0], count=1)
            put = draft.put(f'add "{row.name}" to {good.into(joined)} with anchor', after=joined)
            others = sum(good.share(one) for one in good.of("electrolyte") if one is not row and not one.material.is_a("preservative"))
            yield draft, [put, row.span.line], "the water carries salt enough without it" if others >= 0.005 else ""


@kind("water thickener in place of the oil's", "oil-rheology-only", "organoclay-steps")
def _(good):
    rows = good.of("thickener of oil", "structures oil", "organoclay")
    if good.type in IS_WO and rows and not any(row.material.is_a("silica", "powder") for row in good.rows):
        draft = Draft(good)
        for line in draft.lines:
            for row in rows:
                line[0] = line[0].replace(row.name, "xanthan gum")
        yield draft, [row.span.line for row in rows] + [step.span.line for step in good.steps if any(row in rows for row in good.brings(step))], ""


@kind("oil phase cut down", "oil-phase-min")
def _(good):
    oils = [row for row in good.of("oil phase", "silicone phase") if row.kind == "figure" and not row.material.is_a("w/o emulsifier", "emulsifier", *PERFUME)]
    closing = good.method.closing
    ranges = any(re.match(r"\s*\d+(?:\.\d+)?-", good.lines[row.span.line - 1]) for row in oils)
    if good.type in IS_WO and closing is not None and closing.material.is_a("water") and sum(map(good.share, oils)) > 0.1 and not ranges:
        draft = Draft(good)
        for row in oils:
            line = draft.line(row.span.line)
            line[0] = re.sub(r"(\d+(?:\.\d+)?) %(?: within \S+ %)?", lambda found: f"{float(found[1]) * 0.25:.2f} %", line[0], count=1)
        gone = draft.line(closing.span.line)
        gone[0] = re.sub(r", about [\d.]+ %", "", gone[0])
        yield draft, [row.span.line for row in good.rows] + [step.span.line for step in good.steps], ""


@kind("solubiliser in a water-in-oil cream", "no-hydrophile-in-oil", "wo-hlb")
def _(good):
    place = good.whole("w/o emulsifier") if good.type in IS_WO else None
    if place:
        row = next(row for row in good.rows if row.phase == place[0] and row.material.is_a("w/o emulsifier"))
        draft = Draft(good)
        line = draft.row("3 %  polysorbate 80", below=_under(good, row))
        yield draft, [line, place[1].span.line], ""


def _under(good: Written, row) -> int:
    line = row.span.line
    while line < len(good.lines) and good.lines[line].startswith("        "):
        line += 1
    return line


# ---- thickeners


SPRINKLED = re.compile(r",? ?(?:sprinkled|into the vortex|onto the surface|in \d+ portions|by hand|slowly|without stirring)\b|,? over \d+(?:-\d+)? min|,? until [a-z -]+$")


@kind("gum dumped on the water", "gum-predisperse", "carbomer-disperse")
def _(good):
    for row in good.of("gum", "carbomer"):
        step = good.entering(row)
        if step is None or row.material.text("form") not in ("powder", "") or good.share(row) < 0.001:
            continue
        vessel = good.into(step)
        pours = next((one for one in good.after(step) if any(take.vessel == vessel for take in one.what)), None)
        held = good.held(step).get(vessel, [])
        watery = any(one.material.is_a("water") for one in held)
        easy = any(word in row.name for word in ("self-wetting", "easy", "dispersible"))
        if watery and f'"{row.name}"' in good.said(step):
            draft = Draft(good)
            line = draft.say(step, f'add "{row.name}" to {vessel}')
        elif not watery and pours is not None and len(good.brings(step)) == 1 and not good.is_in_block(pours):
            draft = Draft(good)
            draft.drop(step)
            if not good.held(step).get(vessel):
                continue
            line = draft.put(f'add "{row.name}" to {good.into(pours)}', after=pours)
        else:
            continue
        looked = next((good.said(one) for one in good.after(step) if good.into(one) == vessel), "")
        apart = re.search(r"until (?:lump-free|dispersed|hydrated)", looked) is not None
        yield draft, [line, row.span.line], "this grade wets by itself" if easy else "the next step goes on until there are no lumps" if apart else ""


@kind("swelling cut short", "gum-hydrate-time")
def _(good):
    for step in good.steps:
        said = good.said(step)
        rows = [row for row in good.held(step).get(good.into(step), []) + good.brings(step) if row.material.is_a("gum") and row.material.figure("hydrates for") and row.material.text("form") != "solution"]
        if rows and step.verb in ("hydrate", "stir", "rest", "mix") and re.search(r"for (\d+)(?:-\d+)? (?:min|h)", said) and not good.is_in_block(step):
            others = [one for one in good.steps if one is not step and good.into(one) == good.into(step) and re.search(r"for \d+(?:-\d+)? (?:min|h)", good.said(one)) and one in good.before(step)]
            draft = Draft(good)
            line = draft.line(step.span.line)
            line[0] = re.sub(r"for \d+(?:-\d+)? (?:min|h)", "for 1 min", line[0]).replace(" until hydrated", "").replace(" until clear", "").replace(" until lump-free", "")
            following = next(iter(good.after(step)), step)
            slow = any(re.search(r"over \d|for [1-9]\d+", good.said(one)) or one.verb == "heat" for one in good.after(step)[:3])
            warm = any(one.verb == "heat" and good.into(one) == good.into(step) for one in good.before(step) if any(row in good.held(one).get(good.into(one), []) for row in rows))
            yield draft, [line, following.span.line, *(row.span.line for row in rows)], "other steps give it time" if others or slow or warm else ""
            return


@kind("carbomer sheared after the base", "carbomer-shear")
def _(good):
    rows = [row for row in good.of("carbomer") if good.share(row) > 0.001]
    step = next((one for one in good.steps if one.verb == "neutralise" and not good.is_in_block(one)), None)
    if rows and step:
        draft = Draft(good)
        line = draft.put(f"homogenise {good.into(step)} for 15 min with homogeniser at 15 m/s", after=step)
        yield draft, [line], ""


@kind("salt beside carbomer", "carbomer-salt", level="STOP")
def _(good):
    place = good.whole()
    rows = [row for row in good.of("carbomer") if good.share(row) > 0.001]
    if rows and place and good.type != "anhydrous":
        draft = Draft(good)
        line = draft.row("2 %  sodium chloride", below=_under(good, next(row for row in good.rows if row.phase == place[0] and row.kind == "figure")))
        yield draft, [line, *(row.span.line for row in rows), *(row.span.line for row in good.of("electrolyte"))], ""


@kind("calcium salt beside carbomer", "no-divalent-base", "carbomer-salt", level="STOP")
def _(good):
    place = good.whole()
    rows = [row for row in good.of("carbomer") if good.share(row) > 0.001]
    if rows and place:
        draft = Draft(good)
        line = draft.row("1 %  calcium chloride", below=_under(good, next(row for row in good.rows if row.phase == place[0] and row.kind == "figure")))
        yield draft, [line, *(row.span.line for row in rows)], ""


@kind("carbomer never neutralised", "carbomer-without-base", level="STOP")
def _(good):
    rows = [row for row in good.of("carbomer") if good.share(row) > 0.001]
    bases = good.of("base", "neutraliser")
    steps = [step for step in good.steps if codes(good.brings(step)) & codes(bases) and step.verb in ("neutralise", "adjust", "add")]
    if rows and bases and steps and all(codes(good.brings(step)) <= codes(bases) and not good.is_in_block(step) for step in steps):
        draft = Draft(good)
        for step in steps:
            draft.drop(step)
        for row in bases:
            draft.room(-100 * good.share(row))
            draft.drop_row(row)
        for phase in good.method.phases:
            if codes(phase.rows) <= codes(bases):
                draft.drop_line(phase.span.line)
        salts = [row for row in good.rows if row not in bases and (figure := row.material.figure("own pH")) and figure.value.low >= 8.5]
        yield draft, [row.span.line for row in rows] + [step.span.line for step in good.steps], (
            "it is a stock that other methods neutralise" if good.method.as_material else "an alkaline salt opens it" if salts else "")


@kind("acid after the gel stands", "acid-thins-polymer", level="STOP")
def _(good):
    rows = [row for row in good.of("carbomer") if good.share(row) > 0.001]
    end = good.last(good.main)
    if rows and end and any(step.verb == "neutralise" for step in good.steps):
        draft = Draft(good)
        line = draft.phase("Y", "3 %  lactic acid 80 %")
        put = draft.put(f"add Y to {good.main} with anchor", before=end)
        yield draft, [line, put], ""


@kind("quaternary beside an anionic gum", "anionic-gum-cationic", "anionic-cationic")
def _(good):
    rows = [row for row in good.of("anionic gum", "carbomer") if good.share(row) > 0.001]
    end = good.last(good.main)
    if rows and end and good.type != "anhydrous" and not good.of("cationic surfactant", "cationic polymer"):
        draft = Draft(good)
        line = draft.phase("Y", "2 %  cetrimonium chloride 29 %")
        put = draft.put(f"add Y to {good.main} with anchor", before=end)
        yield draft, [line, put, *(row.span.line for row in rows)], ""


@kind("clay without its activator", "organoclay-steps")
def _(good):
    clays = [row for row in good.of("organoclay") if "," not in row.name]
    for row in good.of("polar activator"):
        step = good.entering(row)
        if clays and step and len(good.brings(step)) == 1 and row.material.is_a("polar activator") and not row.material.is_a("alcohol"):
            draft = Draft(good)
            draft.drop(step)
            draft.drop_row(row)
            yield draft, [one.span.line for one in clays] + [one.span.line for one in good.steps], ""


@kind("clay opened with a slow stirrer", "organoclay-steps")
def _(good):
    clays = [row for row in good.of("organoclay") if "," not in row.name]
    if clays and any(HARD.search(good.said(step)) for step in good.steps):
        draft = Draft(good)
        for line in draft.lines:
            line[0] = re.sub(r"with (?:homogeniser and anchor|homogeniser|rotor-stator|dissolver)(?: at \d+(?:-\d+)? (?:m/s|rpm))?(?:, then for \d+(?:-\d+)? min)?", "with anchor", line[0])
            line[0] = re.sub(r"^(\s+)(?:homogenise|mill) ", r"\1stir ", line[0])
        yield draft, [row.span.line for row in clays] + [step.span.line for step in good.steps], ""


@kind("wrong base for the alcohol", "neutraliser-alcohol")
def _(good):
    rows = good.of("amine", "base", "neutraliser")
    alcohol = sum(good.share(row) * float(row.material.assay or 1) for row in good.of("alcohol"))
    if good.of("carbomer") and alcohol > 0.5 and rows:
        draft = Draft(good)
        for line in draft.lines:
            for row in rows:
                line[0] = line[0].replace(row.name, "sodium hydroxide 10 % solution")
        yield draft, [row.span.line for row in rows] + [step.span.line for step in good.steps if step.verb in ("neutralise", "adjust")], ""


@kind("polymer into the alcohol", "carbomer-in-water-first")
def _(good):
    for row in good.of("carbomer"):
        step = good.entering(row)
        alcohol = next((good.entering(one) for one in good.of("alcohol") if good.share(one) > 0.3 and good.entering(one)), None)
        if step and alcohol and step in good.before(alcohol) and good.into(step) == good.into(alcohol) and len(good.brings(step)) == 1:
            draft = Draft(good)
            draft.drop(step)
            line = draft.put(f'add "{row.name}" to {good.into(step)}', after=alcohol)
            yield draft, [line, row.span.line], "this grade wets by itself" if "self-wetting" in row.name or "easy" in row.name else ""


@kind("gum water kept warm overnight", "gum-warm-micro")
def _(good):
    for row in good.of("gum"):
        step = good.entering(row)
        joined = good.joining()
        if step and joined and step in good.before(joined):
            pours = next((one for one in good.after(step) if any(take.vessel == good.into(step) for take in one.what) and one in good.before(joined)), step)
            vessel = good.into(pours)
            held = good.held(joined).get(vessel, [])
            preserved = any(one.material.is_a("preservative") for one in held) or any(row.material.is_a("alcohol") for row in held)
            draft = Draft(good)
            place = next((one for one in good.after(pours) if one.verb == "heat" and good.into(one) == vessel), joined)
            draft.put(f"heat {vessel} to 35-40 °C with anchor", before=place)
            line = draft.put(f"hold {vessel} at 35-40 °C for 12 h", before=place)
            yield draft, [line], "it is preserved" if preserved else ""
            return


# ---- surfactants, preservatives


def _foaming(good: Written) -> bool:
    return good.percent("anionic surfactant", "surfactant") > 5 and "surfactant" in good.type


@kind("rotor in the foam", "no-high-shear-surf")
def _(good):
    if not _foaming(good):
        return
    for step in good.steps:
        if any(row.material.is_a("surfactant", "anionic surfactant") for row in good.brings(step)) and good.share(good.brings(step)[0]) > 0.03 and not good.is_in_block(step):
            draft = Draft(good)
            line = draft.put(f"homogenise {good.into(step)} for 15 min with homogeniser at 15 m/s", after=step)
            yield draft, [line], ""
            return


@kind("quaternary into an anionic wash", "anionic-cationic", level="STOP")
def _(good):
    place = good.whole("anionic surfactant") or good.whole("surfactant")
    if _foaming(good) and good.percent("anionic surfactant") > 3 and place and not good.of("cationic surfactant"):
        draft = Draft(good)
        line = draft.row("4 %  cetrimonium chloride 29 %", below=_under(good, next(row for row in good.rows if row.phase == place[0] and row.kind == "figure")))
        yield draft, [line, *(row.span.line for row in good.of("anionic surfactant")), *(step.span.line for step in good.steps)], ""


@kind("perfume straight into the water", "fragrance-solubiliser")
def _(good):
    for row in good.of(*PERFUME):
        step = good.entering(row)
        if step is None or good.percent("oil phase") > 5 or good.percent("alcohol") > 20 or good.type not in ("surfactant solution", "gel", "solution", "hydroalcoholic"):
            continue
        vessel = good.into(step)
        pours = next((one for one in good.after(step) if any(take.vessel == vessel for take in one.what)), None)
        if pours is not None and good.held(pours).get(vessel) and not any(one.material.is_a("water") for one in good.held(pours)[vessel]) and len(good.held(pours)[vessel]) > 1:
            draft = Draft(good)
            draft.drop(step)
            line = draft.put(f'add "{row.name}" to {good.into(pours)}', before=pours)
            micelles = good.percent("anionic surfactant") > 8
            yield draft, [line, row.span.line], "so much surfactant takes it up" if micelles else ""


@kind("organic acid preservative at pH 7", "preservative-ph", "ph-before-preservative", level="STOP")
def _(good):
    rows = [row for row in good.rows if row.material.is_a("preservative") and row.material.figure("pH") and row.material.figure("pH").value.high <= 6]
    if rows and re.search(r"\bpH \d", good.text):
        draft = Draft(good)
        moved = []
        for line in draft.lines:
            if re.search(r"(?:to|^\s+|check \w+ ) ?pH \d", line[0]) and not line[0].strip().startswith("phase"):
                line[0] = re.sub(r"pH \d+(?:\.\d+)?(?:-\d+(?:\.\d+)?)?", "pH 7.2-7.8", line[0])
                moved.append(line)
        if moved:
            beside = [row for row in good.of("preservative") if row not in rows]
            yield draft, [*moved, *(row.span.line for row in rows)], "another preservative stands beside it" if beside else ""


@kind("nitrosating preservative beside an amine", "nitrosation", level="STOP")
def _(good):
    end = good.last(good.main)
    if end and good.of("amine") and good.type != "anhydrous":
        draft = Draft(good)
        line = draft.phase("Y", "0.1 %  bronopol")
        put = draft.put(f"add Y to {good.main} with anchor", before=end)
        yield draft, [line, put, *(row.span.line for row in good.of("amine"))], ""


@kind("hypochlorite beside acid", "hypochlorite-mixing", level="STOP")
def _(good):
    end = good.last(good.main)
    if end and good.of("acid", "amine", "alcohol") and good.type != "anhydrous":
        draft = Draft(good)
        line = draft.phase("Y", "2 %  sodium hypochlorite 12 % solution")
        put = draft.put(f"add Y to {good.main} with anchor", before=end)
        yield draft, [line, put, *(row.span.line for row in good.rows)], ""


@kind("four times the preservative", "limit-of-use")
def _(good):
    for row in good.of("preservative"):
        match = re.match(r"\s*(\d+(?:\.\d+)?) %", good.lines[row.span.line - 1])
        if match and row.material.has("limit") and good.method.closing:
            draft = Draft(good)
            line = draft.line(row.span.line)
            line[0] = line[0].replace(f"{match[1]} %", f"{float(match[1]) * 4:g} %", 1)
            draft.room(3 * float(match[1]))
            highest = max((float(figure.value.high) for figure in row.material.figures("limit")), default=0)
            yield draft, [line], "four times is still below the entry" if 4 * good.share(row) <= highest else ""


# ---- balms, alcohol, powders


@kind("water in the balm", "balm-no-water", level="STOP")
def _(good):
    place = good.whole("oil phase") if good.type == "anhydrous" and any(" % " in good.lines[row.span.line - 1] for row in good.rows) else None
    if place and not good.of("water", "surfactant") and not good.of("polyol", "soap"):
        draft = Draft(good)
        line = draft.row("3 %  purified water", below=_under(good, next(row for row in good.rows if row.phase == place[0])))
        yield draft, [line, place[1].span.line], ""


@kind("balm poured too cold", "pour-temp", "temperature-not-reached", "melt-margin")
def _(good):
    for step in good.steps:
        if good.type == "anhydrous" and step.verb == "pour" and DEGREES.search(good.said(step)) and not good.is_in_block(step) and any(low > 60 for _, low in good.heats()):
            draft = Draft(good)
            line = draft.line(step.span.line)
            line[0] = re.sub(r"at \d+(?:-\d+)? °C(?: above set point)?", "at 30-33 °C", line[0])
            cool = next((one for one in reversed(good.before(step)) if one.verb == "cool"), None)
            lines = [line]
            if cool is not None:
                lines.append(draft.swap(cool.span.line, DEGREES.search(good.said(cool))[0], "30-33 °C"))
            yield draft, lines, ""


@kind("waxes not melted", "melt-margin", "temperature-not-reached", "balm-melt-order", level="STOP")
def _(good):
    if good.type != "anhydrous":
        return
    for heat, low in good.heats(least=70):
        rows = good.held(heat).get(good.into(heat), [])
        melts = [row.material.figure("melts").value.high - 273.15 for row in rows if row.material.is_a("wax") and row.material.figure("melts")]
        if melts and max(melts) > 60:
            draft = Draft(good)
            for one, _ in good.heats(good.into(heat)):
                line = draft.swap(one.span.line, DEGREES.search(good.said(one))[0], "48-50 °C")
                line[0] = line[0].replace(" until melted", "")
            for step in good.steps:
                if step.verb in ("hold", "cool") and good.into(step) == good.into(heat) and DEGREES.search(good.said(step)):
                    draft.swap(step.span.line, DEGREES.search(good.said(step))[0], "46-50 °C")
            yield draft, [step.span.line for step in good.steps if step in [heat, *good.after(heat)]], ""
            return


def _rated(good: Written) -> str:
    """The argument where the plant it was proven on has a kettle for flammable vapour."""
    plant = good.file.parent / (good.method.header.proven_on or "none")
    return "the plant has a kettle rated for such vapour, and it is taken" if plant.is_file() and "inerted" in plant.read_text(encoding="utf-8") else ""


@kind("alcohol into the hot batch", "alcohol-cool", "flash-limit", level="STOP")
def _(good):
    for heat, low in good.heats(least=65):
        if not any(word in good.text for word in ("nitrogen", "under vacuum")):
            draft = Draft(good)
            row = draft.phase("Y", "10 %  denatured alcohol")
            line = draft.put(f"add Y to {good.into(heat)}", after=heat)
            yield draft, [line, row, heat.span.line], _rated(good)
            return


@kind("light alkane heated in an open kettle", "flash-limit", "volatile-silicone", level="STOP")
def _(good):
    for heat, low in good.heats(least=65):
        if not any(word in good.text for word in ("nitrogen", "under vacuum", "close ")):
            draft = Draft(good)
            row = draft.phase("Y", "8 %  isododecane")
            line = draft.put(f"add Y to {good.into(heat)}", before=heat)
            yield draft, [line, row, heat.span.line], _rated(good)
            return


@kind("dry pigment into the emulsion", "pigment-wet")
def _(good):
    joined = good.joining()
    end = good.last(good.main)
    if joined and end and "emulsion" in good.type:
        draft = Draft(good)
        row = draft.phase("Y", "5 %  red iron oxide")
        line = draft.put(f"add Y to {good.main} with anchor", before=end)
        yield draft, [row, line], ""


@kind("pearl through the homogeniser", "mica-pearl-last")
def _(good):
    hard = next((step for step in good.steps if step.verb == "homogenise" and not good.is_in_block(step)), None)
    if hard:
        draft = Draft(good)
        row = draft.phase("Y", "3 %  pearl pigment")
        line = draft.put(f"add Y to {good.into(hard)} with anchor", before=hard)
        yield draft, [row, line, hard.span.line], ""


@kind("capsules through the homogeniser", "encapsulate-late", "hollow-spheres", level="STOP")
def _(good):
    hard = next((step for step in good.steps if step.verb == "homogenise" and not good.is_in_block(step)), None)
    if hard:
        draft = Draft(good)
        row = draft.phase("Y", "1 %  fragrance microcapsules slurry")
        line = draft.put(f"add Y to {good.into(hard)} with anchor", before=hard)
        yield draft, [row, line, hard.span.line], ""


@kind("acid beside zinc oxide", "zno-acid", level="STOP")
def _(good):
    end = good.last(good.main)
    if end and good.of("zinc oxide"):
        draft = Draft(good)
        row = draft.phase("Y", "2 %  citric acid")
        line = draft.put(f"add Y to {good.main} with anchor", before=end)
        yield draft, [row, line, *(one.span.line for one in good.of("zinc oxide"))], ""


# ---- lye


@kind("water onto the lye", "acid-into-water", level="STOP")
def _(good):
    for row in good.rows:
        if row.material.is_a("base") and row.material.text("form") in ("pellets", "flakes", "solid", "crystals", "granules", "powder") and good.share(row) > 0.01:
            step = good.entering(row)
            water = next((one for one in good.steps if any(other.material.is_a("water") for other in good.brings(one)) and step and good.into(one) == good.into(step)), None)
            if step and water and water in good.before(step) and len(good.brings(water)) == 1 and len(good.brings(step)) == 1:
                draft = Draft(good)
                draft.drop(step)
                lye = draft.put(f"charge {_object(good, step)} into {good.into(step)}", before=water)
                moved = draft.say(water, f"add {_object(good, water)} to {good.into(water)}")
                yield draft, [lye, moved], ""


# ---- end of the batch, accounts


@kind("make-up forgotten", "qs-water-last", "batch-weight")
def _(good):
    for step in good.steps:
        if step.verb == "make up" and not good.is_in_block(step):
            draft = Draft(good)
            draft.drop(step)
            hot = [one for one, _ in good.heats() if good.main == good.into(one) or good.into(one)]
            covered = "covered" in good.text or "close " in good.text
            yield draft, [one.span.line for one in good.steps] + [row.span.line for row in good.rows if row.kind == "closing"], (
                "so little water loses little" if good.percent("water") < 20 else "" if hot and not covered else "nothing is open and hot, so nothing is lost" if not hot else "it is hot under a lid only")


@kind("made up while hot", "qs-water-last")
def _(good):
    for step in good.steps:
        cool = next((one for one in reversed(good.before(step)) if one.verb == "cool" and good.into(one) == good.into(step)), None)
        hot = [one for one, _ in good.heats(least=65)]
        if step.verb == "make up" and cool and hot and not good.is_in_block(step) and not good.is_in_block(cool):
            draft = Draft(good)
            said = good.said(step)
            draft.drop(step)
            line = draft.put(said, before=cool)
            yield draft, [line], "it is hot under a lid only, and loses nothing more" if "covered" in good.text or "close " in good.text else ""


@kind("vacuum after the perfume", "vacuum-before-volatile", "essential-oil-vac")
def _(good):
    for row in good.of(*PERFUME):
        step = good.entering(row)
        vessel = good.into(step) if step else ""
        end = good.last(good.main)
        if step and vessel == good.main and end and good.share(row) > 0.001:
            draft = Draft(good)
            line = draft.put(f"deaerate {vessel} for 20 min under vacuum at -0.8 bar", before=end)
            yield draft, [line, step.span.line, row.span.line], ""
            return


@kind("phase never added", "never-added", level="STOP")
def _(good):
    for step in good.steps:
        rows = good.brings(step)
        if step.verb == "add" and rows and not any(take.vessel for take in step.what) and not good.is_in_block(step) and all(good.entering(row) is step for row in rows):
            draft = Draft(good)
            draft.drop(step)
            yield draft, [row.span.line for row in rows] + [phase.span.line for phase in good.method.phases], ""


@kind("added twice", "used-twice", "never-added", level="STOP")
def _(good):
    for step in good.steps:
        rows = good.brings(step)
        if step.verb == "add" and rows and not any(take.vessel for take in step.what) and not good.is_in_block(step) and all(good.entering(row) is step for row in rows):
            draft = Draft(good)
            line = draft.put(f"add {_object(good, step)} to {good.into(step)}", after=step)
            unsaid = all(row.kind == "open" or row.optional for row in rows) or "optional" in good.said(step)
            yield draft, [line, step.span.line], "no amount is written, so it may be meant in two parts" if unsaid else ""
            return


@kind("side vessel forgotten", "content-lost", "empty-vessel", level="STOP")
def _(good):
    for step in good.steps:
        poured = [take.vessel for take in step.what if take.vessel]
        if step.verb in ("add", "emulsify") and poured and not good.brings(step) and not good.is_in_block(step):
            rinses = [one for one in good.after(step) if one.verb == "rinse" and poured[0] in good.said(one)]
            draft = Draft(good)
            draft.drop(step)
            for one in rinses:
                if not good.is_in_block(one):
                    draft.drop(one)
            yield draft, [one.span.line for one in good.steps], ""


@kind("ten times too much", "formula-total", "published-figure", "amount-range", "own-range", "limit-of-use", "use-range", level="STOP")
def _(good):
    closing = good.method.closing
    for row in good.rows:
        match = re.match(r"\s*(\d+(?:\.\d+)?) %", good.lines[row.span.line - 1])
        if match and float(match[1]) >= 5:
            draft = Draft(good)
            line = draft.line(row.span.line)
            line[0] = line[0].replace(f"{match[1]} %", f"{float(match[1]) * 10:g} %", 1)
            fits = closing is not None and float(closing.mass or 0) / float(good.method.mass) > 9 * good.share(row)
            yield draft, [line, *([closing.span.line] if closing else [other.span.line for other in good.rows])], "the water gives way, and the amount is a usual one" if fits else ""
            return


@kind("no rest before the viscosity", "rest-before-test")
def _(good):
    for step in good.steps:
        tests = [one for one in good.after(step) if one.verb == "check" and "viscosity" in good.said(one)]
        if step.verb == "rest" and re.search(r"for (?:[6-9]|\d\d)(?:-\d+)? h", good.said(step)) and tests and not good.is_in_block(step):
            draft = Draft(good)
            draft.drop(step)
            later = any("after 24 h" in good.said(one) for one in tests)
            yield draft, [one.span.line for one in tests], "the test says when by itself" if later else ""


assert SILENT
