"""Lye and oils of a cold-process soap meet too hot, or the perfume goes in before the soap has thickened.

Why it matters
    Saponification heats itself. Started hot it runs away: the soap sets in the pot before it can be poured, or rises out of the mould. Perfume
    hastens it once more, and what went in before the soap has thickened is half eaten by the lye.

Wrong
    product Bar Soap
    type soap
    basis the sum
    phase A: fats
        700 g  olive oil
        300 g  coconut oil
    phase B: lye
        300 g  purified water
        136 g  sodium hydroxide
    vessel pot
    vessel jug
    mould loaf "lined"
    method
        charge "purified water" into jug
        dissolve "sodium hydroxide" in jug slowly
        cool jug to 60 °C
        charge A into pot
        heat pot to 60 °C
        add jug to pot slowly with stick blender
        pour pot into loaf

Wrong
    product Bar Soap
    type soap
    basis the sum
    phase A: fats
        700 g  olive oil
        300 g  coconut oil
    phase B: lye
        300 g  purified water
        136 g  sodium hydroxide
    phase C: perfume
        20 g   lavender oil
    vessel pot
    vessel jug
    mould loaf "lined"
    method
        charge "purified water" into jug
        dissolve "sodium hydroxide" in jug slowly
        cool jug to 40 °C
        charge A into pot
        heat pot to 40 °C
        add C to pot
        add jug to pot slowly with stick blender
        pour pot into loaf

Right
    product Bar Soap
    type soap
    basis the sum
    phase A: fats
        700 g  olive oil
        300 g  coconut oil
    phase B: lye
        300 g  purified water
        136 g  sodium hydroxide
    phase C: perfume
        20 g   lavender oil
    vessel pot
    vessel jug
    mould loaf "lined"
    method
        charge "purified water" into jug
        dissolve "sodium hydroxide" in jug slowly
        cool jug to 40 °C
        charge A into pot
        heat pot to 40 °C
        add jug to pot slowly with stick blender
        react pot until "a trail stays on the surface"
        add C to pot
        pour pot into loaf

Limits
    From 43 °C a hint, above 49 °C a warning; the hotter of oils, lye and the two together counts. Lye that nothing cools after solid alkali went in is
    as hot as it made itself.

Exceptions
    Soap that is cooked, at 60 °C or above after they met, and potash soap. Temperatures that are written `?`.

Source
    public threads and teaching pages
"""

from procsheet.findings import Finding, Label
from procsheet.intervals import BEYOND, STRADDLES
from procsheet.model.material import SOLID
from procsheet.rules.words import celsius

NAME = "soap-too-hot"
LEVEL = "WARN"
HINT = "NOTE"
COOLS = ("cool", "rest", "wait", "hold", "set aside")
WHY = "Saponification heats itself: started hot, or hastened by perfume, it sets in the pot before it can be poured, or rises out of the mould."


def check(batch):
    joined = next((moment for moment in batch.trace.moments if batch.trace.holds(moment, "saponifiable") and _soda(batch, moment)), None)
    if batch.type != "soap" or joined is None or _is_cooked(batch, joined):
        return
    if not any(gate.verdict == "missed" for gate in joined.gates):
        yield from (_hot(batch, joined) or _hot_lye(batch, joined))
    yield from _early_perfume(batch, joined)


def _soda(batch, moment) -> list:
    return [row for row in batch.trace.holds(moment, "base") if not row.material.is_a("potassium salt")]


def _is_cooked(batch, joined) -> bool:
    return any(moment.throughout.high >= batch.limit(NAME, "cooked") and not moment.throughout.missing for moment in batch.trace.later(joined) if moment.step.verb in ("heat", "hold", "react"))


def _hot(batch, joined) -> list[Finding]:
    soft, hard = batch.limit(NAME, "a hint"), batch.limit(NAME, "a warning")
    known = [one for one in (*(batch.trace.moments[parent].end for parent in joined.parents), joined.peak) if not one.missing]
    hot = max(known, key=lambda one: (one.low, one.high), default=None)
    if hot is None or batch.hotter(hot, soft) not in (BEYOND, STRADDLES):
        return []
    level = LEVEL if batch.hotter(hot, hard) == BEYOND else HINT
    warmed = batch.trace.warmed_by(joined)
    also = (Label(warmed.span, f"{warmed.vessel} comes to {celsius(warmed.end)} here"),) if warmed is not joined else ()
    return [Finding(level, NAME, f"lye and fats meet in {joined.vessel} at {celsius(hot)}; above {celsius(soft)} the soap runs away", Label(joined.span, "too hot to begin"), also, WHY,
                    f"Cool both vessels to {celsius(soft)} or below before line {joined.span.line}.", batch.source(NAME, "fats"), step=joined.step.number)]


def _hot_lye(batch, joined) -> list[Finding]:
    """Solid alkali in water, and nothing that cools it before it meets the fats."""
    solid = [row for row in _soda(batch, joined) if row.material.text("form") in SOLID]
    made = next((moment for moment in batch.trace.history(joined) if moment is not joined and any(row.code in moment.contents for row in solid)), None)
    if made is None:
        return []
    between = [moment for moment in batch.trace.path(made) if moment.index <= joined.index]
    if any(moment.step.verb in COOLS or moment.gates or moment.step.has("keeping", "never above") for moment in between) or _waits(batch, made, joined):
        return []
    return [Finding(LEVEL, NAME, f"the lye in {made.vessel} heats itself, and nothing cools it before it meets the fats", Label(joined.span, "as hot as it made itself"),
                    (Label(made.span, "comes to 80 °C and more here"),), WHY,
                    f"Put a step before line {joined.span.line}: cool {made.vessel} to {celsius(batch.limit(NAME, 'a hint'))} or below.", batch.source(NAME, "fats"), step=joined.step.number)]


def _waits(batch, made, joined) -> bool:
    return any(node.step.verb == "wait" and made.node < node.index < joined.node for node in batch.graph.nodes)


def _early_perfume(batch, joined):
    """Perfume that stands in the fats when the lye comes, or goes in before any step that the crew ends by what it sees."""
    for exposure in batch.trace.exposures:
        meets = next((moment for moment in batch.trace.path(exposure.moment) if _soda(batch, moment)), None)
        if exposure.material.is_a("perfume") and meets is not None and meets.index >= joined.index and not _has_thickened(batch, joined, meets):
            yield Finding(LEVEL, NAME, f"{exposure.row.name} meets the lye before the soap has thickened", Label(exposure.moment.span, "before trace"),
                          (Label(joined.span, "lye and fats meet here"),) if joined is not exposure.moment else (), WHY,
                          f"Add {exposure.row.name} after line {joined.span.line}, behind a step of its own: react {joined.vessel} until \"a trail stays\".",
                          batch.source(NAME, "fats"), material=exposure.row.name, step=exposure.moment.step.number)
            return


def _has_thickened(batch, joined, meets) -> bool:
    between = [moment for moment in batch.trace.path(joined) if moment.index < meets.index]
    return any(moment.step.verb == "react" or moment.step.has("until") for moment in between)
