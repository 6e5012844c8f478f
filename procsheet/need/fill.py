"""What goes into one pack, how many packs a batch fills, and whether a sample of them holds enough."""

from fractions import Fraction
from math import floor
from statistics import mean, stdev
from typing import NamedTuple

from procsheet import units
from procsheet.findings import Finding
from procsheet.formulas.fill_tolerance import MEAN, fill_tolerance, least_mean, most_defective
from procsheet.model import quantities
from procsheet.model.method import Method
from procsheet.plan import size
from procsheet.plan.plan import Plan
from procsheet.syntax import tree

BATCH = (100, 10_000)                   # packs of one test: below the first all are tested, above the second it is several batches
COLD = 293.15                           # K, where a declared volume holds: Directive 76/211/EEC, annex I 2.2


class Fill(NamedTuple):
    """Contents in g or mL, as `unit` says.

    error     what one pack may lack; None outside the table (below 5, above 10 000)
    target    what the filler is set to: the declared content, or more where a pack at the low end of the fill tolerance would else lack too much
    density   kg/m³, least and most by the release limits, None where a pack is filled by weight or nothing is known
    warm      the temperature [K] the density is written for, where that is not 20 °C
    units     packs that one batch fills at its lowest yield, after the plant's filling loss
    """

    pack: str
    unit: str
    declared: Fraction
    error: Fraction | None
    target: Fraction
    density: tuple[Fraction, Fraction] | None
    warm: float | None
    units: int | None
    per_case: int | None

    @property
    def limits(self) -> tuple[Fraction, Fraction] | None:
        """T1, which few may lie below, and T2, which none may."""
        return (self.declared - self.error, self.declared - 2 * self.error) if self.error is not None else None

    @property
    def weighs(self) -> tuple[Fraction, Fraction] | None:
        """g of a pack filled to its target, at the least and the most density."""
        if self.unit == "g":
            return self.target, self.target
        return (self.target * self.density[0] / 1000, self.target * self.density[1] / 1000) if self.density else None

    @property
    def cases(self) -> tuple[int, int] | None:
        """Full cases of one batch, and the packs beside them."""
        return divmod(self.units, self.per_case) if self.units is not None and self.per_case else None


class Judged(NamedTuple):
    """A sample, in g or mL. least, most: what the mean must reach, and how many may lie below T1; None where that test takes another number of packs."""

    mean: Fraction
    deviation: float
    least: float | None
    short: int
    most: int | None
    far: int                            # below T2

    @property
    def passes(self) -> bool:
        return (self.least is None or self.mean >= self.least) and (self.most is None or self.short <= self.most) and not self.far


def fill(plan: Plan) -> Fill | None:
    """The fill of the pack whose content is declared; None where none is."""
    method, figure = plan.method, size.declared(plan.method)
    content = quantities.middle(figure) if figure is not None else None
    kind = units.dimension(figure.unit) if content else ""
    if kind not in ("mass", "volume"):
        return None
    unit = "g" if kind == "mass" else "mL"
    declared = content * 1000 if kind == "mass" else content * 1_000_000
    error = fill_tolerance(nominal=declared) if 5 <= declared <= 10_000 else None
    density, warm = _density(method) if kind == "volume" else (None, None)
    target = _target(declared, error, _tolerance(method, declared, kind))
    fits = size.fits(method, plan.factor, plan.plant.filling_loss or Fraction(0))
    return Fill(_pack(method), unit, declared, error, target, density, warm, floor(fits * declared / target) if fits is not None else None, _per_case(method))


def cold(filled: Fill, product: str) -> list[Finding]:
    """A declared volume whose density at 20 °C is not written."""
    if filled.unit == "g" or filled.density is not None and filled.warm is None:
        return []
    known = f"is written for {filled.warm - 273.15:.4g} °C" if filled.warm is not None else "is not known"
    return [Finding("OPEN", "pack-density", f"{product}: {filled.pack or 'the pack'} declares a volume, which holds at 20 °C; the product's density {known}",
                    why="The filler weighs: packs filled by a density that is too low hold less than they declare.", fix="Write it below `limits`: density 0.96-1.00 g/mL at 20 °C")]


def judge(filled: Fill, sample: tuple[Fraction, ...], packs: int) -> Judged:
    """The mean and the short packs of a sample against the reference test. `sample` in g, or mL at 20 °C; `packs`: of the batch it was taken from.

    Raises ValueError where neither test takes so many packs, or no error is laid down for the content.
    """
    if filled.limits is None or len(sample) < 2:
        raise ValueError("no limits hold for this content or sample")
    taken, deviation = len(sample), stdev(sample)
    if packs < BATCH[0]:
        least, most = float(filled.declared), floor(taken * Fraction(5, 100)) if taken >= packs else None
    else:
        wanted, allowed = most_defective(batch=min(packs, BATCH[1]), destructive=taken == 20)
        most = allowed if taken == wanted else None
        least = least_mean(nominal=float(filled.declared), deviation=deviation, sample=taken) if taken in MEAN else None
        if least is None and most is None:
            raise ValueError(f"of {packs} packs a sample is {', '.join(map(str, sorted({*MEAN, wanted})))} packs, not {taken}")
    enough, none_below = filled.limits
    return Judged(mean(sample), deviation, least, sum(one < enough for one in sample), most, sum(one < none_below for one in sample))


def _target(declared: Fraction, error: Fraction | None, tolerance: Fraction | None) -> Fraction:
    """At least the declared content; a pack that comes out low by the fill tolerance still reaches T1."""
    return max(declared, declared - error + tolerance) if error is not None and tolerance is not None else declared


def _figure(method: Method, key: str) -> tree.Quantity | None:
    entry = next((entry for pack in method.packs for entry in pack.lines if entry.key == key), None)
    return next((word for word in entry.words if isinstance(word, tree.Quantity) and not word.is_open), None) if entry else None


def _tolerance(method: Method, declared: Fraction, kind: str) -> Fraction | None:
    """g or mL: a share of the content, or an amount of the same sort."""
    figure = _figure(method, "fill tolerance")
    if figure is None:
        return None
    value, measured = quantities.exact(figure)[1], units.dimension(figure.unit)
    return value * declared if measured == "share" else value * (1000 if kind == "mass" else 1_000_000) if measured == kind else None


def _per_case(method: Method) -> int | None:
    figure = _figure(method, "per")
    return int(Fraction(figure.low)) or None if figure is not None else None


def _pack(method: Method) -> str:
    return next((pack.title for pack in method.packs if any(entry.key == "declared" for entry in pack.lines)), "")


def _density(method: Method) -> tuple[tuple[Fraction, Fraction] | None, float | None]:
    """The product's density by its limits, and the temperature it is written for where that is not 20 °C."""
    for limit in method.limits:
        if limit.measure.name in ("density", "relative density") and isinstance(limit.measure.target, tree.Quantity) and (ends := quantities.exact(limit.measure.target)):
            factor = 1000 if limit.measure.name == "relative density" else 1
            at = next((clause.value for clause in limit.clauses if clause.kind in ("at", "measured at")), None)
            ends_at = quantities.interval(at) if at is not None else None
            return (ends[0] * factor, ends[1] * factor), ends_at.low if ends_at is not None and not ends_at.low <= COLD <= ends_at.high else None
    return None, None
