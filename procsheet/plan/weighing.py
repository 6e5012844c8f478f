"""The weighing lines: every portion rounded to a balance, the difference carried by the closing row."""

from fractions import Fraction
from math import floor, log10

from procsheet.findings import Finding, Label
from procsheet.formulas.minimum_weight import minimum_weight
from procsheet.graph.graph import Graph, Portion
from procsheet.plan.plan import Line
from procsheet.plan.plant import Balance, Plant

MASS_UNITS = (("kg", Fraction(1)), ("g", Fraction(1, 1000)))
VOLUME_UNITS = (("L", Fraction(1, 1000)), ("mL", Fraction(1, 1000000)))
LARGE, SMALL = 10, 1                    # kg or L: from here on a batch is printed in kg and L, but not what is smaller than one of them
FINE = Fraction(1, 10000)               # kg: a balance that reads finer shows g


def weigh(graph: Graph, factor: Fraction, plant: Plant) -> tuple[tuple[Line, ...], list[Finding]]:
    """One line for each portion that enters, in the order of the formula, and what cannot be weighed."""
    total = graph.method.mass * factor
    lines, findings = [], []
    for node, portion in _portions(graph):
        line, wrong = _line(portion, node, factor, plant, total)
        lines.append(line)
        findings += wrong
    lines = _closed(lines, plant)
    order = {row.code: index for index, row in enumerate(graph.method.rows)}
    lines.sort(key=lambda line: (order[line.row.code], line.node))
    return tuple(line._replace(number=index) for index, line in enumerate(lines, 1)), findings


def _portions(graph: Graph):
    for node in graph.nodes:
        for portion in node.entering:
            if not (portion.use == "corrector" and any(portion.row.code == other.row.code for earlier in graph.nodes[:node.index] for other in earlier.entering)):
                yield node, portion
    for phase in graph.method.phases:
        if phase.in_pack:
            yield from ((None, Portion(row, row.mass or Fraction(0))) for row in phase.rows)


def _line(portion: Portion, node, factor: Fraction, plant: Plant, total: Fraction) -> tuple[Line, list[Finding]]:
    row = portion.row
    mass = (row.cap if portion.use == "corrector" and row.cap is not None else portion.mass) * factor
    step, index = (node.step.number, node.index) if node is not None else (0, -1)
    if row.measured == "volume":
        share = portion.mass / row.mass if row.mass else Fraction(0)
        return _measured(row, portion.use, (row.amount or Fraction(0)) * share * factor, total, step, index), []
    balance, wrong = choose(mass, plant, total)
    findings = [_too_little(row, mass, plant, node)] if wrong and mass > 0 and portion.use != "make-up" else []
    unit, size = _unit(total, mass if balance.reads >= FINE else min(mass, FINE), MASS_UNITS)
    target = to_reading(mass, balance.reads)
    low, high = _range(target, balance.reads, plant)
    containers, container = _containers(mass, row, plant)
    return Line(0, row, portion.use, mass, target, low, high, unit, decimals(balance.reads / size), balance.tag, containers, container, step, index), findings


def _measured(row, use: str, exact: Fraction, total: Fraction, step: int, node: int) -> Line:
    """A volume is printed to five digits, down to 0.1 mL, a whole one without its zeros: no measuring vessel is known."""
    unit, size = _unit(total, exact * 1000, VOLUME_UNITS)
    first = floor(log10(exact)) if exact > 0 else 0
    reads = Fraction(10) ** max(first - 4, min(first - 1, -7)) if exact > 0 else size
    target = to_reading(exact, reads)
    digits = 0 if target / size == floor(target / size) else decimals(reads / size)
    return Line(0, row, use, exact, target, None, None, unit, digits, "", 1, "", step, node)


def _unit(total: Fraction, amount: Fraction, table) -> tuple[str, Fraction]:
    """kg or L in a large batch, but for what is a small part of one. An open dose is as large as it may be."""
    return table[0] if total >= LARGE and not 0 < amount < SMALL else table[1]


def to_reading(value: Fraction, reads: Fraction) -> Fraction:
    """The nearest figure the balance can show; half goes up."""
    return floor(value / reads + Fraction(1, 2)) * reads


def decimals(reads: Fraction) -> int:
    """Digits behind the point that a reading needs."""
    digits = 0
    while reads * 10 ** digits != floor(reads * 10 ** digits) and digits < 9:
        digits += 1
    return digits


def _range(target: Fraction, reads: Fraction, plant: Plant):
    slack = target * plant.weighing_tolerance
    low, high = -floor(-(target - slack) / reads) * reads, floor((target + slack) / reads) * reads
    return low, max(high, target)


# ---- balances


def least(balance: Balance, plant: Plant) -> Fraction:
    """What the file says, else the least weight that keeps the plant's weighing tolerance."""
    if balance.least is not None:
        return balance.least
    return Fraction(minimum_weight(reads=float(balance.reads), tolerance=float(plant.weighing_tolerance))).limit_denominator(10**9)


def choose(mass: Fraction, plant: Plant, total: Fraction) -> tuple[Balance, bool]:
    """The finest balance that holds a weight, and whether the weight is under the least of every one."""
    if not plant.balances:
        return Balance("", total, _assumed(mass, total), Fraction(0)), False
    able = [balance for balance in plant.balances if balance.capacity >= mass and least(balance, plant) <= mass]
    if able:
        return min(able, key=lambda balance: (balance.reads, balance.capacity)), False
    if all(least(balance, plant) > mass for balance in plant.balances):
        return min(plant.balances, key=lambda balance: least(balance, plant)), True
    return max(plant.balances, key=lambda balance: balance.capacity), False


def _assumed(mass: Fraction, total: Fraction) -> Fraction:
    """What a balance would read where no plant is named: a hundred-thousandth of the batch, or three digits of a small weight."""
    coarse = Fraction(10) ** floor(log10(total / 100000))
    fine = Fraction(10) ** (floor(log10(mass)) - 2) if mass > 0 else coarse
    return min(coarse, fine)


def _too_little(row, mass: Fraction, plant: Plant, node) -> Finding:
    smallest = min(plant.balances, key=lambda balance: least(balance, plant))
    need = least(smallest, plant)
    strength = Fraction(1, 10)
    while mass / strength < need and strength > Fraction(1, 1000):
        strength /= 10
    blend = max(need / strength, mass / strength)
    share = f"{float(strength * 100):g} %"
    fix = (f"Make a {share} premix: {grams(blend * strength)} of {row.name} with {grams(blend * (1 - strength))} of the liquid it goes into; "
           f"weigh {grams(mass / strength)} of it, and take the liquid off its own row.")
    return Finding("WARN", "under-least-weight", f"{grams(mass)} of {row.name} is under what any balance of {plant.name} weighs: {smallest.tag} from {grams(need)}",
                   Label(row.span), (Label(node.step.span, "goes in here"),) if node is not None else (),
                   "The reading may be off by more than the plant allows for a weighing.", fix, material=row.name, step=node.step.number if node is not None else 0)


def grams(mass: Fraction) -> str:
    value = float(mass * 1000)
    return f"{value:.4g} g" if value < 1000 else f"{value / 1000:.4g} kg"


def _containers(mass: Fraction, row, plant: Plant) -> tuple[int, str]:
    """How many containers a line needs, and which."""
    volume = mass / (row.material.density or Fraction(1000))
    known = [container for container in plant.containers if container.holds]
    if not known:
        return 1, ""
    fitting = [container for container in known if container.holds >= volume]
    chosen = min(fitting, key=lambda container: container.holds) if fitting else max(known, key=lambda container: container.holds)
    return max(1, -floor(-volume / chosen.holds)), chosen.name


# ---- the difference of rounding


def _closed(lines: list[Line], plant: Plant) -> list[Line]:
    """The rounding difference of all other lines goes to the largest line of the closing row."""
    mains = [index for index, line in enumerate(lines) if line.row.kind == "closing" and line.row.measured == "mass" and line.use in ("", "part")]
    if not mains:
        return lines
    main = max(mains, key=lambda index: lines[index].exact)
    difference = sum((line.exact - line.target for index, line in enumerate(lines)
                      if index != main and line.row.measured == "mass" and line.use not in ("corrector", "make-up")), Fraction(0))
    line = lines[main]
    reads = Fraction(1, 10 ** line.decimals) * (Fraction(1) if line.unit == "kg" else Fraction(1, 1000))
    target = to_reading(line.exact + difference, reads)
    low, high = _range(target, reads, plant)
    return [*lines[:main], line._replace(target=target, low=low, high=high), *lines[main + 1:]]
