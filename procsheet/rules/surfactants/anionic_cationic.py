"""Anionic and cationic meet.

Why it matters
    The two charges fall out together as a curd or as strings, mole for mole: what was to clean and what was to condition are both
    gone. No stirring brings them back.

Wrong
    type surfactant solution
    phase B: surfactant
        30 %  sodium laureth sulfate 27 % solution
    phase C: conditioner
        5 %  cetrimonium chloride 29 %
    method
        add B to main with paddle
        add C to main with paddle

Wrong
    type surfactant solution
    phase B: surfactant
        30 %  sodium laureth sulfate 27 % solution
    phase C: conditioner
        0.3 %  polyquaternium-10
    method
        add B to main with paddle
        add C to main with paddle

Right
    type surfactant solution
    phase B: conditioner
        0.3 %  polyquaternium-10
    phase C: amphoteric
        8 %  cocamidopropyl betaine 30 %
    phase D: surfactant
        30 %  sodium laureth sulfate 27 % solution
    method
        add B to main, sprinkled, with paddle until clear
        add C to main with paddle
        add D to main slowly with paddle

Limits
    Active matter of both in one vessel. Surfactants: from 0.1 % of either a warning, from 0.5 % a stop. A cationic preservative: from 0.01 %
    on a warning. Cationic surfactant and anionic gum or carbomer: a warning. Cationic polymers are made to go with anionics: a dry one into
    5 % or more of anionic surfactant is a warning, a solution of one is a hint where no amphoteric or nonionic surfactant stands between.

Exceptions
    More amphoteric than anionic surfactant in the vessel: a hint. Cationic polymer in the water first. Traces.

Needs
    ionic, assay

Source
    four public threads on shampoos with cationic polymers; guar supplier page; common practice, no source, for the doses
"""

from procsheet.findings import Finding, Label
from procsheet.model.material import SOLID
from procsheet.rules.batch import gravest
from procsheet.rules.words import share

NAME = "anionic-cationic"
LEVEL = "STOP"
SOME, HINT = "WARN", "NOTE"
MILD = ("surfactant amphoteric", "surfactant nonionic", "solubiliser")
BASE = 0.1                              # of a self-emulsifying base is anionic (common practice, no source)
NEARLY = 1e-9
WHY = "The two charges fall out together as a curd or as strings, and take each other's work away. Stirring and heat do not bring them back."


def check(batch):
    found = gravest((_surfactants(batch), _gums(batch), _polymers(batch)))
    if found is not None:
        yield found


def _anionic(row) -> float:
    """The share of a row that is anionic surfactant or emulsifier."""
    if row.material.is_a("self-emulsifying"):               # a base: only a part of it is charged
        return BASE if row.material.text("ionic") == "anionic" else 0.0
    if row.material.share("anionic surfactant", "soap"):
        return row.material.share("anionic surfactant", "soap")
    charged = row.material.text("ionic") == "anionic" and row.material.is_a("emulsifier") and not row.material.is_a("carbomer", "thickener of water")
    return 1.0 if charged and row.material.kind != "preservative" else 0.0


def _cationic(row) -> float:
    return row.material.share("cationic surfactant")


def _gum(row) -> float:
    return 1.0 if row.material.is_a("anionic gum", "carbomer") else 0.0


def _polymer(row) -> float:
    return row.material.share("cationic polymer")


def _part(batch, held, of) -> float:
    """kg of active matter in a vessel."""
    return sum(mass * of(batch.graph.rows[code]) for code, mass in held.items() if code in batch.graph.rows)


def _share(batch, moment, of) -> float:
    """What a vessel holds of it, as a share of the batch: a premix is no stronger product."""
    return _part(batch, moment.contents, of) / float(batch.plan.mass)


def _first(batch, one, least: float, other, enough: float):
    """The first step whose vessel holds enough of both."""
    return next((moment for moment in batch.trace.moments if _share(batch, moment, one) >= least - NEARLY and _share(batch, moment, other) >= enough - NEARLY), None)


def _surfactants(batch):
    for words, level in (("a stop", LEVEL), ("a warning", SOME)):
        least = batch.limit(NAME, words)
        moment = _first(batch, _anionic, least, _cationic, least)
        if moment is not None:
            milder = _share(batch, moment, lambda row: row.material.share("surfactant amphoteric")) > _share(batch, moment, _anionic)
            return _finding(batch, moment, HINT if milder else level, _anionic, _cationic, "they fall out together",
                            "keep to one charge: a betaine or a glucoside in place of the anionic, or a cationic polymer in place of the cationic surfactant")
    moment = _first(batch, _anionic, batch.limit(NAME, "a warning"), _keeping, batch.limit(NAME, "preservative"))
    return moment and _finding(batch, moment, SOME, _anionic, _keeping, "it keeps nothing any more", "keep it with a preservative that carries no charge")


def _keeping(row) -> float:
    """The share that is a cationic preservative."""
    return row.material.share("cationic surfactant") if row.material.is_a("preservative") else 0.0


def _gums(batch):
    moment = _first(batch, _gum, batch.limit(NAME, "polymer"), _cationic, batch.limit(NAME, "a warning"))
    return moment and _finding(batch, moment, SOME, _gum, _cationic, "it falls out in strings", "thicken with hydroxyethylcellulose or another gum without charge")


def _polymers(batch):
    """A cationic polymer into anionic surfactant that is already there."""
    most = batch.limit(NAME, "no longer dilute")
    for moment in batch.trace.moments:
        rows = [batch.graph.rows[code] for code in moment.added if code in batch.graph.rows and code not in moment.before]
        row = next((row for row in rows if _polymer(row) and batch.of_batch(row, "cationic polymer") >= batch.limit(NAME, "polymer")), None)
        there = _part(batch, moment.before, _anionic)
        if row is not None and there and there >= most * sum(moment.before.values()) - NEARLY:
            dry = row.material.text("form") in SOLID and not _is_swollen(batch, moment, row)
            if dry or not any(row.material.is_a(*MILD) for row in batch.trace.holds(moment, *MILD, before=True)):
                return _finding(batch, moment, SOME if dry else HINT, _anionic, _polymer, "it makes gel and strings before it has spread",
                                "swell the polymer in the water alone, add the amphoteric, and the anionic last and slowly")
    return None


def _is_swollen(batch, moment, row) -> bool:
    """Whether a polymer has been in water of its own before."""
    return any(batch.watery(one.contents) > one.contents[row.code] for one in batch.trace.history(moment)[:-1] if row.code in one.contents)


def _finding(batch, moment, level, one, other, does, fix) -> Finding:
    negative = max(moment.contents, key=lambda code: _weight(batch, moment, code, one))
    positive = max(moment.contents, key=lambda code: _weight(batch, moment, code, other))
    minus, plus = batch.graph.rows[negative], batch.graph.rows[positive]
    title = f"{share(_share(batch, moment, other))} of {plus.name} meets {share(_share(batch, moment, one))} of {minus.name} in {moment.vessel}, both as active matter: {does}"
    return Finding(level, NAME, title, Label(moment.span, "they meet here"), (Label(plus.span, "cationic"), Label(minus.span, "anionic")), WHY,
                   f"{fix[0].upper()}{fix[1:]}.", batch.source(NAME), material=plus.name, step=moment.step.number)


def _weight(batch, moment, code, of) -> float:
    return moment.contents[code] * of(batch.graph.rows[code]) if code in batch.graph.rows else 0.0
