"""The smallest and largest batch a plant can make of a method, and how an order is split."""

from procsheet.commands.common import OK, STOPPED, Unusable, compiled


def run(chosen) -> int:
    if not chosen.plant:
        raise Unusable("fit needs a plant: procsheet fit FILE --plant FILE")
    from procsheet.plan.fit import fit, split
    made = compiled(chosen.file, chosen)
    if made.batch is None:
        raise Unusable(f"{chosen.file} could not be followed to its end; procsheet check {chosen.file} says why")
    graph, plant = made.batch.graph, made.plant
    found = fit(graph, plant, made_for(chosen))
    print("\n".join(told(found, plant)))
    if not found.ranges:
        return STOPPED
    if chosen.batch or chosen.units is not None:
        mass = float(made.batch.plan.mass)
        parts = split(found, mass)
        print(_order(mass, parts, found))
        return OK if parts is not None else STOPPED
    return OK


def made_for(chosen) -> tuple[tuple[str, str], ...]:
    return tuple(tuple(pair.split("=", 1)) for pair in chosen.vessel)


def told(found, plant) -> list[str]:
    from procsheet.show import wrap
    if not found.ranges:
        return [f"no batch of this method fits {plant.name}", *(line for one in found.against for line in wrap(_against(one), "  "))]
    out = []
    for low, high in found.ranges:
        out += [f"fits {plant.name} from {_mass(low.mass)} to {_mass(high.mass)}"]
        for word, end in (("smallest", low), ("largest", high)):
            vessels = ", ".join(f"{name} {kettle.tag}" for name, kettle in end.kettles.items() if kettle is not None)
            out.append(f"  {word:<9} {_mass(end.mass)} in {vessels}")
            out += [line for one in end.against for line in wrap(_against(one), f"  {'beyond':<9} ", " " * 12)]
    return out


def _against(finding) -> str:
    return f"{finding.title}" + (f" (step {finding.step}, line {finding.at.span.line})" if finding.step else "")


def _order(mass: float, parts, found) -> str:
    if parts is None:
        return f"{_mass(mass)} cannot be split into equal batches that fit"
    if parts.count == 1:
        return f"{_mass(mass)} fits as one batch"
    return f"{_mass(mass)} is made as {parts.count} equal batches of {_mass(parts.mass)}"


def _mass(kilograms: float) -> str:
    return f"{kilograms:.4g} kg" if kilograms >= 1 else f"{kilograms * 1000:.4g} g"
