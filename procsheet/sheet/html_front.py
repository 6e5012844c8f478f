"""Front page, the page of further findings, and what is made sure of before starting."""

from procsheet.sheet.bars import bar_class
from procsheet.sheet.front_room import ONE_LINE, cautions_here, points_here
from procsheet.sheet.marks import HEADS, TICK, TRIANGLE, box, box_row, caution, given, heads, table, text
from procsheet.sheet.model import Approval, BeforeStarting, Box, Caution, Equipment, Front, Head, Point

VESSEL = 8          # letters of a vessel in the usual size
SIGNERS = 6         # lines for those who write in the record
EACH_AGAIN = "Each is repeated just before its step."
NOTHING = "<small>nothing</small>"


def front(page: Front, head: Head) -> str:
    here = points_here(page, head)
    return (title(page, head) + facts(page) + equipment(page.equipment) + cautions(page, cautions_here(page, head))
            + points(page.points_title, page.points[:here], more_to_come(page, here)) + approvals(page.approvals))


def title(page: Front, head: Head) -> str:
    about = "".join(f"<p>{text(line)}</p>" for line in page.about)
    length = "long" if len(head.product) > ONE_LINE else "short"
    name = f'<p class="kind">{text(page.kind)}</p><h1 class="{length}">{given(head.product)}</h1>{about}'
    expected = (f'<p class="caption">expected bulk yield</p><p class="expected">{text(page.expected)}</p>'
                f'<p class="of">{text(page.expected_note)}</p>') if page.expected else ""
    size = f'<p class="caption">batch size</p><p class="size">{given(page.size)}</p>'
    return table("title", (118, 64), f"<tr><td>{name}</td><td><div>{size}{expected}</div></td></tr>")


def facts(page: Front) -> str:
    if not page.facts:
        return ""
    cells = "".join(f'<td><p class="caption">{text(fact.caption)}</p><b>{given(fact.text)}</b></td>' for fact in page.facts)
    return table("facts", (round(182 / len(page.facts), 2),) * len(page.facts), f"<tr>{cells}</tr>")


def equipment(vessels: tuple[Equipment, ...]) -> str:
    rows = "".join(f'<tr><td>{bar_mark(each)}</td><td>{vessel(each)}</td><td>{text(each.must_be)}</td>'
                   f'<td><b class="code">{text(each.planned)}</b></td><td class="box"></td></tr>' for each in vessels)
    captions = ("vessel", "", "must be", "planned", "used: tag, cleaned on")
    return vessels and "<h2>Equipment</h2>" + table("equipment", (8, 25, 83, 24, 42), rows, head=heads(*captions)) or ""


def vessel(each: Equipment) -> str:
    return f'<b class="vessel{" long" if len(each.vessel) > VESSEL else ""}">{text(each.vessel)}</b>'


def bar_mark(vessel: Equipment) -> str:
    return f'<span class="bar {bar_class((vessel.bar,))}"></span>'


def cautions(page: Front, here: int) -> str:
    note = f'<p class="note">{text(page.cautions_note)}</p>'
    if not page.cautions:
        return note
    rest = len(page.cautions) - here
    more = f" {rest} more on the findings page." if rest else ""
    return f"<h2>Cautions<small>{EACH_AGAIN}{more}</small></h2>{caution_table(page.cautions[:here])}{note}"


def caution_table(some: tuple[Caution, ...]) -> str:
    cells = [f"<td>{caution(each)}</td>" for each in some]
    rows = "".join(f"<tr>{''.join(cells[n:n + 2])}</tr>" for n in range(0, len(cells), 2))
    return table("cautions", (91, 91), rows) if rows else ""


def points(name: str, found: tuple[Point, ...], after: str = "") -> str:
    rows = "".join(f'<tr><td><b class="level">{text(each.level)}</b></td><td><b>{text(each.fact)}</b> {text(each.more)}</td>'
                   f"{box(each.box)}</tr>" for each in found)
    return f"<h2>{text(name)}{'' if rows or after else NOTHING}</h2>{table('points', (21, 104, 57), rows) if rows else ''}{after}"


def more_to_come(page: Front, here: int) -> str:
    more = f"{len(page.points) - here} more" if here else f"{len(page.points)}, all of them"
    return f'<p class="note">{more} on the findings page.</p>' if len(page.points) > here else ""


def more_points(page: Front, head: Head) -> str:
    """The page of findings, with what the front has no room for; '' where that is nothing."""
    dangers, rest = page.cautions[cautions_here(page, head):], page.points[points_here(page, head):]
    told = (f"<h2>Cautions</h2>{caution_table(dangers)}" if dangers else "") + (points(page.points_title, rest) if rest else "")
    return told and f"<h1>Findings</h1>{told}"


def approvals(given_by: tuple[Approval, ...]) -> str:
    boxes = [(Box(f"{each.role}, name", filled=each.name), Box("signature", second=each.second), Box("date")) for each in given_by]
    pairs = [sum(boxes[n:n + 2], ()) for n in range(0, len(boxes), 2)]
    rows = "".join(f"<tr>{''.join(map(box, pair))}</tr>" for pair in pairs)
    return rows and "<h2>Approvals</h2>" + table("boxes row", (36, 32, 23) * 2, rows)


def before_starting(page: BeforeStarting) -> str:
    rows = "".join(f'<tr><td>{TICK}</td><td>{text(line)}</td><td class="box"></td></tr>' for line in page.checks)
    return ("<h1>Before starting</h1>"
            + table("before", (11, 141, 30), rows, head=heads("", "make sure of", "initials"))
            + box_row(page.clearance) + "<h2>Marks in this record</h2>" + marks(page.vessels)
            + "<h2>Everyone who writes in this record</h2>"
            + table("signers", (62, 40, 28, 52), f"<tr>{'<td class=box></td>' * 4}</tr>" * SIGNERS,
                    head=heads("name, in capitals", "task", "initials", "signature")))


def marks(vessels: tuple[Equipment, ...]) -> str:
    """Each mark beside what it says."""
    explained = [(bar_mark(each), f"work in {text(each.vessel)}") for each in vessels]
    explained += [(TRIANGLE, "caution, read before the step"), (HEADS, "second person needed; signs in the thick box")]
    return '<p class="marks">' + " ".join(f"<span>{mark} {words}</span>" for mark, words in explained) + "</p>"
