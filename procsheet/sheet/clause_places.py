"""Where each element of `clauses.csv` stands on the sheet."""

from collections.abc import Iterator

from procsheet.sheet.clauses import Found, Place
from procsheet.sheet.model import Box, Lanes, Making, Step, Weighing, WeighingRow

QUALITY = "kept by the quality system"
OUT = ("out, kg net", "out, L")


# ---- what is looked for

def rows(page: Weighing) -> list[WeighingRow]:
    return [row for phase in page.phases for row in phase.rows]


def steps(page: Making) -> list[Step]:
    return [step for stage in page.stages for step in _steps(stage.parts)]


def _steps(parts) -> Iterator[Step]:
    for part in parts:
        if isinstance(part, Step):
            yield part
        else:
            yield from _steps([one for lane in part.lanes for one in lane.parts] if isinstance(part, Lanes) else part.parts)


def boxes(page: Making) -> list[Box]:
    """Of the steps and of the gates between them."""
    gates = [part.gate for stage in page.stages for part in stage.parts if isinstance(part, Lanes) and part.gate]
    return [box for one in (*steps(page), *gates) for box in one.boxes]


def captioned(some, *words: str) -> Found:
    return tuple(box for box in some if any(word in box.caption for word in words))


def column(caption: str, rows, *, second: bool = False) -> Found:
    """A column to write in stands wherever there is a row."""
    return (Box(caption, second=second),) if rows else ()


def said(some, *words: str) -> Found:
    return tuple(line for line in some if any(word in line for word in words))


def facts(*captions: str):
    return lambda front: tuple(fact.text for fact in front.facts if fact.caption in captions)


def cues(head: str):
    return lambda page: tuple(run.text for step in steps(page) for cue in step.cues if cue.head == head for run in cue.words if run.text)


def signed(*roles: str):
    """Each name, then its signature and day."""
    return lambda front: tuple(one for each in front.approvals if each.role in roles for one in (each.name, Box("signature"), Box("date")))


def sentences(page: Making) -> Found:
    return tuple(run.text for step in steps(page) for run in step.sentence if run.kind != "blank")


def limits(page: Making) -> Found:
    return tuple(box.limit for box in boxes(page) if box.limit)


def settings(page: Making) -> Found:
    return tuple(setting.value for step in steps(page) for setting in step.settings if setting.unit)


def precautions(front) -> Found:
    return (*(caution.danger for caution in front.cautions), front.cautions_note)


# ---- the table

PLACES: dict[str, tuple[Place, ...]] = {
    "product name, code, version, day in force": (
        Place("product", "head", lambda head: (head.product,)),
        Place("code", "head", lambda head: (head.code,)),
        Place("revision", "head", lambda head: (head.revision,)),
        Place("day in force", "front", lambda front: (*said(front.about, "Revision "), *facts("In force from")(front)))),
    "type, strength, batch size": (
        Place("type", "front", lambda front: front.about[:1]),
        Place("strength", kept="told by the name of the product, where it has one"),
        Place("batch size", "front", lambda front: (front.size,))),
    "list of all materials, also of what vanishes in processing": (
        Place("materials", "weighing", lambda page: (row.material for row in rows(page))),),
    "quantity of each in one system of weights, its accuracy, any overage": (
        Place("quantity", "weighing", lambda page: (row.target for row in rows(page))),
        Place("from, to", "weighing", lambda page: (end for row in rows(page) for end in (row.low, row.high) if end)),
        Place("overage", kept="none apart: what is weighed is the whole amount, an assay is told in its row")),
    "code and grade of each material": (
        Place("code, grade", "weighing", lambda page: (row.second_line for row in rows(page))),),
    "expected yield with limits, also between stages": (
        Place("yield of the batch", "checks", lambda page: (ratio.expected for ratio in page.ratios)),
        Place("sum of each phase", "weighing", lambda page: (phase.total for phase in page.phases))),
    "place and main equipment": (
        Place("place", "front", lambda front: (*said(front.about, "Plant: "), *facts("Made at")(front))),
        Place("what a vessel must be", "front", lambda front: (each.must_be for each in front.equipment)),
        Place("tag that was planned", "front", lambda front: (each.planned for each in front.equipment))),
    "how equipment is prepared and found clear of earlier work": (
        Place("clean, clear", "before", lambda page: said(page.checks, "labelled clean")),
        Place("procedure", "before", lambda page: captioned(page.clearance, "procedure"))),
    "operations step by step: addition, temperature, speed, time, sampling, cleaning, transfer": (
        Place("steps", "making", sentences),
        Place("settings", "making", settings)),
    "in-process controls with limits": (
        Place("limits in steps", "making", limits),
        Place("checks", "checks", lambda page: (check.limit for check in page.checks))),
    "storage of the bulk: conditions, container, longest time": (
        Place("how long the bulk keeps", "front", facts("Bulk keeps")),
        Place("containers, store, last day", "deviations", lambda page: page.bulk)),
    "special precautions": (
        Place("cautions", "front", precautions),),
    "sampling plan, test methods, acceptance criteria": (
        Place("limits", "checks", lambda page: (check.limit for check in page.checks)),
        Place("test methods, sampling", "deviations", lambda page: captioned(page.laboratory, "test methods"))),
    "packaging components and label specimen": (
        Place("pack", "making", cues("Pack")),
        Place("packing record, specimen", "making", lambda page: captioned(page.packs, "specimen"))),
    "written, dated, signed; checked by another, dated, signed": (
        Place("written by", "front", signed("written by")),
        Place("checked by", "front", signed("checked by"))),
    "written procedure for masters; what departs from it recorded and justified": (
        Place("procedure", kept=QUALITY),
        Place("what departs", "deviations", lambda page: (Box("what happened, how much, when"),))),
    "true copy of the master, checked, dated, signed": (
        Place("digest of the content", "head", lambda head: (head.digest,)),
        Place("issued by", "front", signed("issued by")),
        Place("pages agree", "before", lambda page: said(page.checks, "This record"))),
    "batch number of the bulk, to be traced to the finished lot": (
        Place("batch", "head", lambda head: (head.batch,)),
        Place("lot code on the packs", "making", lambda page: captioned(page.packs, "lot code"))),
    "dates and times of start, stages, end": (
        Place("weighing", "weighing", lambda page: captioned(page.closing, "started", "ended")),
        Place("steps", "making", lambda page: captioned(boxes(page), "time")),
        Place("making", "making", lambda page: captioned(page.closing, "started", "ended"))),
    "main equipment and lines that were used": (
        Place("tag that was used", "front", lambda front: column("used: tag, cleaned on", front.equipment)),
        Place("balance", "weighing", lambda page: (row.balance for row in rows(page)))),
    "lot and weighed quantity of each material": (
        Place("lot", "weighing", lambda page: column("lot", rows(page))),
        Place("actual weight", "weighing", lambda page: column("actual", rows(page)))),
    "who weighed and who verified, who added and who verified": (
        Place("weighed by", "weighing", lambda page: column("by", rows(page))),
        Place("verified by", "weighing", lambda page: column("check", [row for row in rows(page) if row.second], second=True)),
        Place("added by", "making", lambda page: column("by", [one for step in steps(page) for one in step.additions])),
        Place("second person where an addition asks for one", "making",
              lambda page: column("check", [one for step in steps(page) for one in step.additions if one.second], second=True)),
        Place("second person who reads all steps through", "making", lambda page: captioned(page.closing, "second person"))),
    "start-up checks: documents, released materials, clean equipment, line clearance": (
        Place("what is made sure of", "before", lambda page: page.checks),
        Place("initials", "before", lambda page: column("initials", page.checks)),
        Place("clearance", "before", lambda page: captioned(page.clearance, "clearance"))),
    "in-process and laboratory results, and who tested": (
        Place("found, by", "checks", lambda page: (*column("found", page.checks), *column("by, date", page.checks))),
        Place("report of the laboratory", "deviations", lambda page: captioned(page.laboratory, "report"))),
    "actual yield and share of the theoretical at each phase; worked out by one, verified by another": (
        Place("masses", "checks", lambda page: column("actual", page.masses)),
        Place("yield, accounted for", "checks", lambda page: (*column("by", page.ratios), *column("checked", page.ratios, second=True))),
        Place("what came out of a step", "making", lambda page: captioned(boxes(page), *OUT))),
    "samples taken": (
        Place("mass of the samples", "checks", lambda page: column("Samples", [mass for mass in page.masses if mass.name == "Samples"])),
        Place("labels of the samples", "making", lambda page: captioned(boxes(page), "labels, numbers"))),
    "who performed and who checked each step that matters": (
        Place("done by", "making", lambda page: captioned(boxes(page), "done by", "by, time")),
        Place("checked by", "making", lambda page: captioned((*boxes(page), *page.closing), "second person")),
        Place("names with their signs", "before", lambda page: (Box("name, in capitals"),))),
    "notes and deviations with signed approval": (
        Place("deviations", "deviations", lambda page: (Box("what happened, how much, when"),)),
        Place("decided by", "deviations", lambda page: (Box("decided by, date", second=True),))),
    "release by the responsible person": (
        Place("release", "deviations", lambda page: page.signing),),
    "containers and closures, control and specimens of labels, reconciliation": (
        Place("packs and closures", "making", lambda page: captioned(page.packs, "closures")),
        Place("labels", "making", lambda page: captioned(page.packs, "labels", "specimen"))),
    "entries by hand: what to enter, permanent ink, signed, corrections leave the original readable": (
        Place("how to correct", "head", lambda head: (head.correcting,)),),
    "retention: original archived, controlled copies used": (
        Place("archive", kept=QUALITY),
        Place("issue of this copy", "head", lambda head: (head.issue,))),
    "label of a dispensed container: name or code, control number, weight, batch and product": (
        Place("what the label says", "weighing", lambda page: said((page.intro,), "Label each container")),
        Place("the labels", kept="papers of their own: procsheet labels")),
}
