"""The two phases of an emulsion meet at different temperatures.

Why it matters
    A colder phase sets the fat it meets: specks, grains, a weak cream that weeps. Water colder than the highest melting point
    in the oil is worse: part of the fat never gets into the emulsion at all.

Wrong
    phase B: oils
        8 %  cetearyl alcohol
        3 %  cetearyl glucoside
    method
        charge B into side
        heat side to 75 °C until melted
        add side to main with homogeniser
        homogenise main for 5 min

Right
    phase B: oils
        8 %  cetearyl alcohol
        3 %  cetearyl glucoside
    method
        heat main to 75 °C
        charge B into side
        heat side to 75 °C until melted
        add side to main with homogeniser
        homogenise main for 5 min

Exceptions
    Nothing in the oil phase that sets; a cold process; a planned addition of part of the water cold, which the finding asks to be
    signed for. A difference the method itself allows (`both within 10 °C of each other`) is taken at its word.

Needs
    melts

Source
    common practice, no source; trade article on troubleshooting topical products, for what cold water does
"""

from procsheet.findings import Finding, Label
from procsheet.model import quantities
from procsheet.rules.batch import judge
from procsheet.rules.words import celsius, kelvin
from procsheet.trace.heat import melting_point

NAME = "equal-temps"
LEVEL = "WARN"
COLD = "STOP"
WHY = "A colder phase sets the fat it meets: specks and grains, and a weak cream that weeps. What has set never gets into the emulsion."


def check(batch):
    allowed = batch.apart(NAME, "between")
    for moment in batch.trace.moments:
        if moment.facts.met == moment.index and moment.before and (moment.poured or moment.entering):
            yield from _meeting(batch, moment, allowed)
        elif moment.before_facts.emulsified and (moment.entering or moment.poured):
            yield from _quenched(batch, moment)


def _meeting(batch, moment, allowed):
    """Two phases meet here: the one in the vessel and the one that is added."""
    rows = [row for code in moment.contents if (row := batch.graph.rows.get(code)) is not None]
    setting = melting_point(rows)
    if setting is None:
        return
    written = moment.step.value("both within")
    allowed = max(allowed, quantities.difference(written) or 0) if written is not None else allowed
    there, coming = _at_the_start(batch, moment), moment.arriving
    apart = max(coming.low - there.high, there.low - coming.high)
    colder, cold = (moment.vessel, there) if there.high < coming.low else ("what is added", coming)
    if cold.high < setting and (apart > allowed or cold.high < setting - 5) and not _never_hot(there, coming, setting):
        verdict = "undecided" if cold.missing else "beyond"
        level = judge(COLD, verdict, batch_figure(rows, setting), setting - cold.high)
        yield _finding(batch, moment, level, f"the phases meet while {colder} is {celsius(cold)}, colder than the {celsius(setting)} its fats melt at", cold)
    elif apart > allowed:
        level = judge(LEVEL, "undecided" if there.missing or coming.missing else "beyond")
        yield _finding(batch, moment, level, f"the phases meet {kelvin(apart)} apart: {celsius(there)} and {celsius(coming)}", cold)


def _never_hot(there, coming, setting) -> bool:
    """A cold process: neither phase was ever heated."""
    return there.high < 313 and coming.high < 313


def batch_figure(rows, setting):
    return next((figure for row in rows for figure in row.material.figures("melts") if abs(figure.value.high - setting) < 0.01), None)


def _at_the_start(batch, moment):
    """The temperature of the vessel before anything was poured in."""
    before = batch.trace.moments[moment.parents[0]]
    gate = next((gate for gate in moment.gates if gate.which == "vessel" and gate.verdict != "missed"), None)
    return gate.asked if gate is not None and gate.asked.within(before.end) else before.end


def _quenched(batch, moment):
    """Something cold goes into a hot emulsion and takes it below the setting of its fats at one stroke."""
    rows = [row for code in moment.before if (row := batch.graph.rows.get(code)) is not None]
    setting = melting_point(rows)
    before = batch.trace.moments[moment.parents[0]].end
    if setting is None or before.low < setting or moment.start.high >= setting or moment.start.missing:
        return
    yield _finding(batch, moment, LEVEL, f"what is added cools {moment.vessel} from {celsius(before)} to {celsius(moment.start)} at one stroke, "
                   f"through the {celsius(setting)} its fats set at", moment.start)


def _finding(batch, moment, level, title, cold) -> Finding:
    missing = f" ({cold.missing} is not said)" if cold.missing else ""
    return Finding(level, NAME, title + missing, Label(moment.span, "the phases meet here"), (), WHY,
                   f"Bring both to one temperature first: heat {moment.vessel} to the other's temperature, and write `both within {kelvin(batch.apart(NAME))} of each other`.",
                   batch.source(NAME), step=moment.step.number)
