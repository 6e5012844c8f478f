"""What a batch needs and costs: materials to buy, lots to take, packs to fill. Several methods make one list."""

import sys
from datetime import date
from fractions import Fraction
from pathlib import Path

from procsheet.commands.common import OK, STOPPED, Unusable, coloured, compiled, methods, read, write


class Stopped(Exception):
    """A method has a STOP: nothing is bought for it."""


def run(chosen) -> int:
    from procsheet.need.lots import read_stock
    from procsheet.need.need import reckon
    from procsheet.need.table import tables
    from procsheet.need.told import told, verdict
    try:
        made = products(chosen)
    except Stopped as problem:
        print(f"procsheet: {problem}", file=sys.stderr)
        return STOPPED
    stock = read(chosen.stock)[0] if chosen.stock else None
    lots, wrong = read_stock(stock) if stock is not None else ((), [])
    need = reckon(made, lots, _day(chosen.on))
    need = need._replace(findings=(*wrong, *need.findings))
    listed = tables(need)
    judged = _judged(chosen.sample, need) if chosen.sample else None
    if chosen.output:
        _write(Path(chosen.output), listed)
    if chosen.json:
        print(_data(need, listed, judged))
    elif not chosen.output:
        print("\n".join([*told(need, listed, stock is not None), *(verdict(judged, need.costs[0].fill) if judged else [])]))
    _show(need.findings, stock, sys.stderr if chosen.json or chosen.output else sys.stdout)
    short = stock is not None and any(item.short for item in need.items)
    return STOPPED if short or any(finding.stops for finding in need.findings) or judged and not judged.passes else OK


def products(chosen) -> tuple:
    """Each method as it is ordered: in one batch, or in as many equal ones as the plant that was asked for needs."""
    from procsheet.need.need import Made
    made, names = [], []
    for file in methods(chosen.files):
        one = compiled(file, chosen)
        if one.batch is None:
            raise Unusable(f"{file} could not be followed to its end; procsheet check {file} says why")
        plan, count = _batches(one, chosen)
        stops = [finding.name for finding in one.findings if finding.stops and not (finding.name == "vessel-too-small" and (count > 1 or not chosen.plant))]
        if stops:
            raise Stopped(f"{file} is stopped by {', '.join(dict.fromkeys(stops))}; procsheet check {file} says why")
        names.append(one.method.header.product or file)
        made.append(Made(names[-1] + (f", {names.count(names[-1])}" if names.count(names[-1]) > 1 else ""), plan, count))
    return tuple(made)


def _batches(one, chosen) -> tuple:
    """The plan of one batch, and how many of it."""
    from procsheet.plan.draw_up import draw_up
    from procsheet.plan.fit import fit, split
    from procsheet.plan.plan import Order
    plan = one.batch.plan
    if not chosen.plant or not plan.plant.kettles or not (chosen.batch or chosen.units is not None):
        return plan, 1
    named = tuple(tuple(pair.split("=", 1)) for pair in chosen.vessel)
    parts = split(fit(plan.graph, plan.plant, named), float(plan.mass))
    if parts is None or parts.count == 1:
        return plan, 1
    return draw_up(plan.graph, plan.plant, Order(mass=plan.mass / parts.count, vessels=named)), parts.count


def _day(text: str) -> date:
    try:
        return date.fromisoformat(text) if text else date.today()
    except ValueError:
        raise Unusable(f"{text} is no day; write it like 2026-03-02") from None


# ---- a sample of packs


def _judged(file: str, need):
    from procsheet.need.fill import judge
    cost = need.costs[0]
    if len(need.costs) > 1 or cost.fill is None or cost.fill.units is None:
        raise Unusable("--sample goes with one method whose pack declares what it holds")
    try:
        return judge(cost.fill, _sample(file), cost.fill.units)
    except ValueError as problem:
        raise Unusable(f"{file}: {problem}") from None


def _sample(file: str) -> tuple[Fraction, ...]:
    from procsheet.need.lots import NUMBER
    words = read(file)[0].text.split()
    wrong = next((word for word in words if not NUMBER.fullmatch(word)), None)
    if wrong is not None:
        raise Unusable(f"{file}: `{wrong}` is no plain number; write what each pack holds, such as 74.8")
    return tuple(map(Fraction, words))


# ---- told and written


def _show(findings, stock, stream) -> None:
    from procsheet.show import show
    for finding in sorted(findings, key=lambda one: one.at.span.line):
        print("\n" + show(finding, {stock.name: stock} if stock is not None else {}, colour=coloured(stream)), file=stream)


def _write(path: Path, listed) -> None:
    from procsheet.need.table import to_csv, to_xlsx
    ending = path.suffix.lower()
    if ending not in (".csv", ".xlsx"):
        raise Unusable(f"{path} ends in neither .csv nor .xlsx")
    write(path, to_csv(listed[0]) if ending == ".csv" else to_xlsx(listed))
    print(path)


def _data(need, listed, judged) -> str:
    import json
    from procsheet.need.told import SAYS
    from procsheet.show import as_data
    out = {table.title.lower(): [dict(zip(table.head, row)) for row in table.rows] for table in listed}
    out |= {"to pay": [one._asdict() for one in need.to_pay], "without a price": list(need.without), "findings": list(map(as_data, need.findings)), "says": SAYS}
    if judged is not None:
        out["sample"] = judged._asdict() | {"passes": judged.passes}
    return json.dumps(out, ensure_ascii=False, indent=1, default=float)
