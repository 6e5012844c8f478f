"""Plan to trace: one walk through the steps in their order."""

from procsheet.graph.graph import Node
from procsheet.intervals import INFINITY, Interval, hull, meet, point
from procsheet.model import quantities
from procsheet.model.method import Row, Step
from procsheet.plan.plan import Plan
from procsheet.syntax import tree
from procsheet.trace import facts as truths, heat
from procsheet.trace.affinity import affinities
from procsheet.trace.stirring import stir
from procsheet.trace.trace import Exposure, Facts, Gate, Moment, Running, Trace

TARGETED = ("heat", "cool")
MEASURED_AT = ("check", "adjust", "sample", "compare")       # there `at 25 °C` is how warm the sample is
STORING = ("rest", "set aside", "cure")
BOILING = 373.15                        # K: as warm as a batch of water gets where no figure is given


def walk(plan: Plan) -> Trace:
    """The trace of a plan: a moment for every node that holds something."""
    walker = Walker(plan)
    for node in plan.graph.nodes:
        walker.visit(node)
    return walker.trace()


def _asked(step: Step, heat_on: bool) -> tuple[tree.Clause, ...]:
    """The clauses of a step, and the temperature a hold names: where the heat is off it must be there already."""
    held = step.written.slots.get("T") if step.verb == "hold" and not heat_on else None
    return (*step.written.clauses, tree.Clause("at", held, held.span)) if held is not None else step.written.clauses


class Walker:
    """Keeps the moment each vessel is at, and what runs on in it."""

    def __init__(self, plan: Plan):
        self.plan, self.graph, self.room = plan, plan.graph, plan.plant.room
        self.factor = float(plan.factor)
        self.affinities = affinities(plan.method)
        self.capacity = {row.code: row.material.heat_capacity()[0] for row in plan.method.rows}
        self.melts = {row.code: figure.value for row in plan.method.rows if row.material.is_a("structures oil") and (figure := row.material.figure("melts")) is not None}
        self.density = {row.code: float(row.material.density or 1000) for row in plan.method.rows}
        self.moments: list[Moment] = []
        self.of_state: dict[int, int] = {}                  # graph state -> the moment that left it
        self.drift: dict[int, Interval] = {}                # moment -> temperature after a wait elsewhere
        self.running: dict[str, Running] = {}
        self.cover: dict[str, tuple[str, float | None]] = {}
        self.heat_on: set[str] = set()                      # vessels that were heated and neither cooled nor taken off the heat since
        self.lid: dict[str, str] = {}                       # 'open' or 'covered', under the vacuum or nitrogen
        self.exposures: list[tuple[Row, int, str]] = []
        self.host_start: dict[int, Interval] = {}           # step number -> the temperature it aims at

    # ---- one node

    def visit(self, node: Node) -> None:
        step = node.step
        if node.after is None:
            if step.verb == "wait":
                self._wait(step)
            return
        before = self._moment(node.before)
        poured = [self._moment(state) for state, _ in node.poured]
        kettle = self.plan.kettles.get(node.place)
        contents = {code: float(mass) * self.factor for code, mass in self.graph.states[node.after].contents.items()}
        rows = [self.graph.rows[code] for code in contents if code in self.graph.rows]
        shear, self.running[node.place], turning = stir(step, self._running(node, before, poured), kettle)
        start, arriving, gates = self._start(node, before, poured, rows)
        end, throughout, duration = self._effect(node, start, rows, contents, kettle, bool(turning))
        self._heat(step, node)
        cover, pressure = self._cover(step, node.place)
        before_facts = self.moments[before].facts if before is not None else (self.moments[poured[0]].facts if poured else Facts())
        index = len(self.moments)
        facts = truths.after(before_facts, [self.moments[one].facts for one in poured], step, [(self.graph.rows[code], mass) for code, mass in contents.items() if
                             code in self.graph.rows], self.affinities, shear, self.plan.method.header.type, index)
        self.moments.append(Moment(
            index, node.index, step, node.part, node.parts, node.place, start, end, throughout, arriving, shear, duration, cover, pressure,
            self._held(node.before), contents, node.entering, tuple(one for one in poured), before_facts, facts, tuple(gates),
            tuple(([before] if before is not None else []) + poured), bool(kettle and kettle.inerted), turning,
            self._by_jacket(node, start, rows, contents, kettle)))
        self.of_state[node.after] = index
        self.exposures += [(portion.row, index, portion.use) for portion in node.entering]

    def _moment(self, state: int | None) -> int | None:
        """The moment that left a state; a state that was only shared out is the moment of the one before it."""
        while state is not None and state not in self.of_state:
            parents = self.graph.states[state].parents
            state = parents[0] if parents else None
        return self.of_state.get(state) if state is not None else None

    def _held(self, state: int | None) -> dict[str, float]:
        return {code: float(mass) * self.factor for code, mass in self.graph.states[state].contents.items()} if state is not None else {}

    def _running(self, node: Node, before: int | None, poured: list[int]) -> Running:
        return self.running.get(node.place, Running()) if before is not None else Running()

    # ---- before the step: gates, and what is added

    def _temperature(self, moment: int | None) -> Interval:
        if moment is None:
            return self.room
        return self.drift.get(moment, self.moments[moment].end)

    def _start(self, node: Node, before: int | None, poured: list[int], rows: list[Row]):
        """The temperature once everything is in, that of what is added, and the gates before it."""
        step, gates = node.step, []
        vessel = self._temperature(before) if before is not None else None
        arrivals = [self._temperature(one) for one in poured]
        if vessel is None and not poured and node.part == 0:
            fresh = self._asked_of_fresh(step, rows)
        else:
            fresh = self.room
            vessel, arrivals = self._through_gates(node, vessel, arrivals, poured, rows, gates)
        parts = [(self._mass(node.before), self._capacity(node.before), vessel)] if vessel is not None else []
        parts += [(self._mass(state) * float(share), self._capacity(state), temperature) for (state, share), temperature in zip(node.poured, arrivals)]
        for portion in node.entering:
            parts.append((float(portion.mass) * self.factor, self.capacity[portion.row.code], self._fresh(step, portion.use, fresh)))
        arriving = hull([*arrivals, *([self._fresh(step, "", fresh)] if node.entering else [])]) if arrivals or node.entering else None
        return heat.mixed(parts) if parts else self.room, arriving, gates

    def _fresh(self, step: Step, use: str, fresh: Interval) -> Interval:
        """The temperature of weighed material: the room's, unless the step says how warm it goes in."""
        said = step.clause("added at", "added below", "added above", "added at most", "added at least")
        found = heat.asked(said.value, said.kind.removeprefix("added "), [], self.plan.plant) if said is not None else None
        if found is None or found.low == -INFINITY or found.high == INFINITY:
            return fresh if found is None else meet(fresh, found)
        return found

    def _asked_of_fresh(self, step: Step, rows: list[Row]) -> Interval:
        """Into an empty vessel: a temperature behind the step is that of the material."""
        clause = step.clause("at", "both at", "keeping") if step.verb not in TARGETED else None
        found = heat.asked(clause.value, "at", rows, self.plan.plant) if clause is not None else None
        return found if found is not None and abs(found.low) < INFINITY and abs(found.high) < INFINITY else self.room

    def _through_gates(self, node: Node, vessel, arrivals: list[Interval], poured: list[int], rows: list[Row], gates: list[Gate]):
        step, slack = node.step, self.plan.plant.temperature_tolerance
        if node.part > 0 or self._stored(step, vessel, rows) is not None:
            return vessel, arrivals
        for clause in _asked(step, node.place in self.heat_on):
            kind = clause.kind.removeprefix("added ")
            if kind not in heat.GATES or step.verb in MEASURED_AT and kind == "at":
                continue
            wanted = heat.asked(clause.value, kind, rows, self.plan.plant)
            if wanted is None:
                if kind in ("at", "both at") and getattr(clause.value, "is_open", False) and vessel is not None and not clause.kind.startswith("added "):
                    vessel = hull([vessel, Interval(self.room.low, BOILING, "its temperature")])
                continue
            if (clause.kind.startswith("added ") or kind == "both at") and arrivals:
                made = [heat.gate(kind, wanted, one, slack, "added", self.moments[moment].vessel) for one, moment in zip(arrivals, poured)]
                gates += made
                arrivals = [heat.narrowed(one, gate) for one, gate in zip(arrivals, made)]
            if not clause.kind.startswith("added ") and vessel is not None:
                made = heat.gate(kind, wanted, vessel, slack, "vessel", node.place)
                gates.append(made)
                vessel = heat.narrowed(vessel, made)
            elif not clause.kind.startswith("added ") and vessel is None and arrivals and kind != "both at":
                made = [heat.gate(kind, wanted, one, slack, "vessel", self.moments[moment].vessel) for one, moment in zip(arrivals, poured)]
                gates += made
                arrivals = [heat.narrowed(one, gate) for one, gate in zip(arrivals, made)]
        return vessel, arrivals

    def _stored(self, step: Step, vessel: Interval | None, rows: list[Row]) -> Interval | None:
        """`rest main for 24 h at 20 °C` is where it stands: it drifts there by itself if that lies toward the room."""
        clause = step.clause(*heat.GATES) if step.verb in STORING else None
        wanted = heat.asked(clause.value, clause.kind, rows, self.plan.plant) if clause is not None else None
        if wanted is None or vessel is None or not wanted.touches(hull([vessel, self.room])):
            return None
        return meet(wanted, hull([vessel, self.room]))

    def _mass(self, state: int | None) -> float:
        return sum(self._held(state).values()) if state is not None else 0.0

    def _capacity(self, state: int | None) -> float:
        """Mass-weighted heat capacity of a vessel's content [J/(kg K)]."""
        held = self._held(state)
        total = sum(held.values())
        return sum(mass * self.capacity.get(code, 3000.0) for code, mass in held.items()) / total if total else 4180.0

    # ---- what the step does

    def _effect(self, node: Node, start: Interval, rows: list[Row], contents: dict[str, float], kettle, stirred: bool):
        step = node.step
        duration = heat.duration_of(step, len(node.entering) + len(node.poured)) if node.part == 0 else point(0.0)
        aim = self._aim(node, start, rows)
        if aim is not None and (ceiling := heat.asked(step.value("never above"), "at", rows, self.plan.plant)) is not None:
            aim = Interval(min(aim.low, ceiling.high), min(aim.high, ceiling.high), aim.missing)
        if aim is None:
            left = step.verb in ("rest", "set aside") or step.has("for") and duration is None or (duration is not None and duration.high > heat.LONG and not duration.missing and step.verb != "hold")
            kept = step.has("keeping") or step.has("at") and node.place in self.heat_on
            end = heat.drifting(start, self.room, self._load(contents), duration) if left and not kept else start
            if stirred and not kept and kettle is not None and kettle.power and duration is not None:
                end = heat.stirred(end, kettle.power, self._load(contents), duration)
            return end, hull([start, end]), duration
        jacket = heat.jacket_duration(start, aim, *self._load(contents), kettle, self.plan.plant, self._melting(contents, start, aim))
        return aim, hull([start, aim]), self._longer(jacket, duration) if duration is not None or not step.has("for") else None

    def _by_jacket(self, node: Node, start: Interval, rows: list[Row], contents: dict[str, float], kettle) -> Interval | None:
        """How long the jacket takes for the whole step, whatever stands inside it."""
        final = self._target(node.step, node.place, start, rows) if node.part == 0 and node.step.verb in TARGETED else None
        return heat.jacket_duration(start, final, *self._load(contents), kettle, self.plan.plant, self._melting(contents, start, final)) if final is not None else None

    def _melting(self, contents: dict[str, float], start: Interval, end: Interval) -> float:
        """kg of fat whose melting point lies between."""
        return sum(mass for code, mass in contents.items() if code in self.melts and start.high < self.melts[code].low and end.high > self.melts[code].low)

    def _load(self, contents: dict[str, float]) -> tuple[float, float, float]:
        """Mass [kg], heat capacity [J/(kg K)] and volume [m³] of what a vessel holds."""
        total = sum(contents.values())
        capacity = sum(mass * self.capacity.get(code, 3000.0) for code, mass in contents.items()) / total if total else 4180.0
        return total, capacity, sum(mass / self.density.get(code, 1000.0) for code, mass in contents.items())

    def _heat(self, step: Step, node: Node) -> None:
        """Heat stays on in a vessel until it is cooled, taken off the heat, or emptied."""
        if step.verb in ("heat", "melt") or step.has("keeping"):
            self.heat_on.add(node.place)
        elif step.verb in ("cool", "stop heating") or node.before is None:
            self.heat_on.discard(node.place)

    def _longer(self, one: Interval | None, other: Interval | None) -> Interval | None:
        if one is None or other is None:
            return one or other
        return Interval(max(one.low, other.low), max(one.high, other.high))

    def _aim(self, node: Node, start: Interval, rows: list[Row]) -> Interval | None:
        """The temperature a step ends at, None where it only keeps or loses what it has."""
        step = node.step
        final = self._stored(step, start, rows) or self._target(step, node.place, start, rows)
        if final is None:
            return None
        guest = self._guest(node)
        return self._at_guest(guest, start, final, rows) if guest is not None else final

    def _target(self, step: Step, vessel: str, start: Interval, rows: list[Row]) -> Interval | None:
        if (step.verb in TARGETED or step.verb == "hold" and vessel in self.heat_on) and "T" in step.written.slots:
            return self._reach(step, step.written.slots["T"], start, rows)
        if step.has("keeping") and (kept := heat.asked(step.value("keeping"), "at", rows, self.plan.plant)) is not None:
            return self._bounded(kept, start)
        until = step.value("until")
        if isinstance(until, tree.States) and "cold" in until.names or step.verb == "cool" and "T" not in step.written.slots:
            return self.room
        if isinstance(until, tree.Measure) and until.name == "temperature" and isinstance(until.target, tree.Quantity):
            return self._reach(step, until.target, start, rows)
        brings = step.what and step.verb != "melt"          # `add B until melted`: it melts in what is hot already
        melting = step.verb == "melt" or (isinstance(until, tree.States) and "melted" in until.names and step.verb not in TARGETED and not brings)
        return heat.melted(start, rows) if melting else None

    def _reach(self, step: Step, written: tree.Quantity, start: Interval, rows: list[Row]) -> Interval:
        wanted = heat.asked(written, "to", rows, self.plan.plant)
        if wanted is None:
            missing = "its temperature" if written.is_open else written.relative or "its temperature"
            low = min(start.low, self.room.low) if step.verb in ("cool", "hold") else start.low
            return Interval(low, start.high if step.verb == "cool" else max(start.high, BOILING), missing)
        return self._bounded(wanted, start)

    def _bounded(self, wanted: Interval, start: Interval) -> Interval:
        """`below 40 °C` as an aim: from the room up to it; `above 75 °C`: from it to a little more, and what is missing is said."""
        if wanted.low == -INFINITY:
            return Interval(min(self.room.low, wanted.high), wanted.high) if start.high > wanted.high else start
        if wanted.high == INFINITY:
            return Interval(wanted.low, max(wanted.low, start.high) + 10, "how far above")
        return wanted

    def _guest(self, node: Node) -> Node | None:
        """The step that stands inside this one, next."""
        if node.part + 1 >= node.parts:
            return None
        later = self.graph.nodes[node.index + 1:]
        return next((one for one in later if one.inside == node.step.number and one.place == node.place and one.part == 0), None)

    def _at_guest(self, guest: Node, start: Interval, final: Interval, rows: list[Row]) -> Interval:
        """Where the host stands when its guest begins: at the guest's own gate, or anywhere on the way."""
        way = hull([start, final])
        for clause in guest.step.written.clauses:
            if clause.kind in ("at", "below", "above", "at most", "at least"):
                wanted = heat.asked(clause.value, clause.kind, rows, self.plan.plant)
                if wanted is not None and way.touches(wanted, self.plan.plant.temperature_tolerance):
                    return meet(way, wanted)
                if wanted is not None:
                    return final                            # never on this way: the guest's gate will say so
        return Interval(way.low, way.high, "at what temperature") if way.width > 5 else way

    # ---- cover, and waiting

    def _cover(self, step: Step, vessel: str) -> tuple[str, float | None]:
        """What lies over the batch during a step; vacuum and nitrogen stop with it, a lid stays until it is opened."""
        lasting = self.cover.get(vessel, ("open", None))
        if step.verb in ("close", "open", "evacuate", "vent", "blanket"):
            if step.verb in ("close", "open"):
                self.lid[vessel] = "covered" if step.verb == "close" else "open"
            lasting = {"blanket": ("nitrogen", None), "evacuate": ("vacuum", self._pressure(step))}.get(step.verb, (self.lid.get(vessel, "open"), None))
            self.cover[vessel] = lasting
        elif step.has("covered", "open") and step.verb not in ("deaerate",):
            lasting = ("covered", None) if step.has("covered") else ("open", None)
        if step.has("vacuum") or step.verb == "deaerate" and step.has("pressure"):
            return "vacuum", self._pressure(step)
        if step.has("nitrogen"):
            return "nitrogen", None
        return lasting

    def _pressure(self, step: Step) -> float | None:
        written = step.value("pressure") or step.written.slots.get("P")
        value = quantities.interval(written) if isinstance(written, tree.Quantity) else None
        return (value.low + value.high) / 2 if value is not None and abs(value.low) < INFINITY and abs(value.high) < INFINITY else None

    def _wait(self, step: Step) -> None:
        """While everybody waits, every vessel drifts toward the room."""
        duration = heat.duration_of(step, 0)
        if duration is not None and duration.high <= heat.LONG:
            return
        for moment in {self.of_state[state] for state in self.of_state}:
            self.drift[moment] = heat.drifting(self._temperature(moment), self.room, self._load(self.moments[moment].contents), duration)

    # ---- the whole

    def trace(self) -> Trace:
        following: list[int | None] = [None] * len(self.moments)
        for moment in self.moments:
            for parent in moment.parents:
                following[parent] = moment.index
        hottest, strongest = list(range(len(self.moments))), list(range(len(self.moments)))
        for index in range(len(self.moments) - 1, -1, -1):
            after = following[index]
            if after is not None:
                here = self.moments[index]
                if self.moments[hottest[after]].throughout.high > here.throughout.high:
                    hottest[index] = hottest[after]
                if self.moments[strongest[after]].shear.rank.high > here.shear.rank.high:
                    strongest[index] = strongest[after]
        exposures = tuple(Exposure(row, self.moments[index], use) for row, index, use in self.exposures)
        return Trace(self.plan, tuple(self.moments), tuple(following), tuple(hottest), tuple(strongest), exposures, self.affinities)
