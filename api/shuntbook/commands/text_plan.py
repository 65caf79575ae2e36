"""Plans as a mechanic reads them in a terminal: "Lift the car: Bodo, Kasp", by the labels of the event's set-up."""

import re
from collections.abc import Iterable

from shuntbook.plan.told import CarPlan, Hands, Later, LeftOut, Plan, PlanTask, TeamPlan
from shuntbook.setup.folder import Setup

STEPS = {
    "car-on-stands": ("Lift the car", "Lower the car"),
    "front-on-stands": ("Lift the front", "Lower the front"),
    "rear-on-stands": ("Lift the rear", "Lower the rear"),
    "rinse-or-scrape": ("Rinse or scrape", "Rinse or scrape"),
    "torque-on-ground": ("Ready for torque on the ground", "Torque on the ground"),
    "cool-down": ("Let it cool down", "Cooled down"),
    "brakes-opened-and-bled": ("Open the brakes", "Bleed the brakes"),
    "fuel-made-safe": ("Fuel: make ready for work", "Fuel: close up"),
    "welding-place-made-safe": ("Welding place: make ready", "Welding place: put away"),
    "official-called": ("Call the official", "Official has been"),
}
ENDINGS = (
    ("-on-stands", "up on stands", "down again"),
    ("-drained-and-filled", "drain", "fill"),
    ("-isolated", "isolate", "connect"),
    ("-emptied", "empty", "pack"),
    ("-off", "off", "on"),
    ("-out", "out", "in"),
    ("-up", "up", "down"),
)
NAMED = {
    "wheel-nut-torque": "Torque the wheel nuts",
    "hub-nut-torque": "Torque the hub nut",
    "toe-check": "Check the toe",
    "rear-toe-check": "Check the rear toe",
    "brake-check-under-pressure": "Pedal held, check for leaks",
    "bonnet-pins-second-check": "Bonnet pins, a second check",
    "cut-off-check": "Try the cut-off",
    "door-opens-check": "Try the door from both sides",
    "fuel-leak-check": "Check for fuel leaks",
    "full-lock-check": "Full lock both ways",
    "guard-off-check": "Check with the guard off",
    "hose-routing-check": "Check how the hose runs",
    "lamp-check": "Lamps on, checked",
    "lock-to-lock-check": "Lock to lock, checked",
    "noise-check": "Listen for noise",
    "oil-leak-check": "Check for oil leaks",
    "restraint-check": "Check the restraints",
    "strap-check": "Check the straps",
    "throttle-closes-check": "Throttle closes",
    "weld-check": "Check the weld",
    "lamps-screen-and-numbers": "Lamps, screen and numbers",
    "belts-extinguishers-and-cut-off": "Belts, extinguishers, cut-off",
}
"""Checks and routine work whose name alone is no sentence that is said in a bay; a look of the table is a check."""
NUTS = "wheel-nut-torque"
CHOICES = {"everything": "everything, whatever the chance", "on-hold": "in time, on hold", "on-time": "on time"}
FOR = {"next-service": "for the next service", "road": "for the crew on the road", "after": "for after the event"}
LARGE_MIN = 90


class PlanWords:
    """Says what stands in a plan."""

    def __init__(self, setup: Setup) -> None:
        self._map = setup.car_map
        self._parts = setup.rates.parts
        self._people = {person.person: person.name for person in setup.event.people}

    def people(self, people: Iterable[str]) -> str:
        """Return names in their order."""
        return ", ".join(self._people.get(person, person) for person in people)

    def task(self, task: PlanTask) -> str:
        """Return "Lift the car", "Wheel off, front left", "Inspect front left: brake hose, lower arm"."""
        if task.kind in ("open", "close") and task.step is not None:
            return self._at(step_words(task.step, task.kind == "open"), task.zone)
        if task.kind == "routine":
            return self.group(task.task)
        if task.kind == "inspect":
            return f"Inspect {self._inspected(task)}"
        name = task.task.partition(" ")[0]
        doing = large(name)
        if task.job is None or name == NUTS:
            # The nuts are the corner's, whatever the wheel came off for.
            return self._at(doing, task.zone)
        return f"{doing}: {self._thing(task.job)}" if task.kind == "check" else f"{doing} {self._thing(task.job)}"

    def group(self, group: str) -> str:
        """Return a job or routine work by its name."""
        name = group.removeprefix("routine ")
        renewed = re.fullmatch(r"renew ([^/]+/[^/]+)", name)
        if renewed:
            return f"Renew {self._thing(renewed[1])}"
        return large(name) if name != group or "/" not in group else large(self._thing(group))

    def reason(self, item: LeftOut) -> str:
        """Return why something is left out; parts by what the rate table calls them."""
        said, colon, names = item.reason.partition(": ")
        if item.why != "part" or not colon:
            return item.reason
        known = (self._parts.get(name) for name in names.split(", "))
        told = (part.description if part else name for part, name in zip(known, names.split(", "), strict=True))
        return f"{said}: {'; '.join(map(small, told))}"

    def _inspected(self, task: PlanTask) -> str:
        if len(task.jobs) < 2:
            return self._thing(task.jobs[0] if task.jobs else task.job or task.zone)
        return f"{self._zone(task.zone)}: {', '.join(self._part(job) for job in task.jobs)}"

    def _at(self, doing: str, zone: str) -> str:
        return f"{doing}, {self._zone(zone)}" if zone in self._map.zones else doing

    def _thing(self, job: str) -> str:
        zone, _, part = job.partition("/")
        return self._zone(zone) if part in ("", "unknown") else f"{self._part(job)}, {self._zone(zone)}"

    def _part(self, job: str) -> str:
        part = job.partition("/")[2]
        known = self._map.components.get(part)
        return small(known.label if known else plain(part))

    def _zone(self, zone: str) -> str:
        known = self._map.zones.get(zone)
        return small(known.label if known else plain(zone))


def step_words(step: str, opens: bool) -> str:
    """Return opening or closing an access step in words; a step of the team's own by its name."""
    if step in STEPS:
        return STEPS[step][0 if opens else 1]
    for ending, opening, closing in ENDINGS:
        if step.endswith(ending):
            return f"{large(step.removesuffix(ending))} {opening if opens else closing}"
    return f"{'Open up' if opens else 'Put back'}: {plain(step)}"


def lasts(seconds: int) -> str:
    """Return how long something takes as people in a bay say it: 30 s, 1 min 15 s, 2 min, 1 h 35."""
    if seconds < 60:
        return f"{seconds} s"
    if seconds < 120 and seconds % 60:
        return f"1 min {seconds - 60} s"
    # As a phone says it: a half is rounded up.
    minutes = (seconds + 30) // 60
    if minutes <= LARGE_MIN:
        return f"{minutes} min"
    return f"{minutes // 60} h {minutes % 60:02}" if minutes % 60 else f"{minutes // 60} h"


def plan_text(plan: Plan, setup: Setup) -> str:
    """Return a plan as lines: a line a task on the clock, then what is left out and what minutes buy."""
    words = PlanWords(setup)
    proof = "proven the best" if plan.proven else "not proven the best"
    lines = [f"Car {plan.car}, service {plan.service}: done after {_clock(plan.finish_s)}, {proof} ({plan.by})."]
    if plan.late_min:
        lines.append(f"It ends {plan.late_min} min late ({plan.penalty_s} s penalty): what holds the car does not fit.")
        lines.append(f"Out by then in {plan.on_time:.0%} of the runs.")
    else:
        lines.append(f"{lasts(plan.spare_s)} in hand; in time in {plan.on_time:.0%} of the runs.")
    lines += [
        f"At hand, too: {CHOICES[one.choice]}, done after {_clock(one.finish_s)}, "
        f"{'out by then' if one.late_min else 'in time'} in {one.on_time:.0%}."
        for one in plan.others
    ]
    for task in plan.tasks:
        who = words.people(task.people) or "nobody bound"
        span = f"{_clock(task.start_s)}-{_clock(task.end_s)}"
        lines.append(f"{span}  {words.task(task)} ({lasts(task.end_s - task.start_s)}): {who}")
    lines += [_left(item, words) for item in plan.left_out]
    if plan.needs:
        least = plan.needs.minutes
        lines.append(f"Safety-critical and vital work needs {least} minutes from control to control.")
    for item in plan.later:
        more = f" to +{item.to_late_min}" if item.to_late_min > item.leave_late_min else ""
        bought = _more_and_less(item, words)
        lines.append(f"+{item.leave_late_min}{more} min (from {item.penalty_s} s penalty): {bought}")
    for hands in plan.hands:
        count = f"{hands.mechanics} mechanic{'' if hands.mechanics == 1 else 's'}"
        lines.append(f"{count}: done after {_clock(hands.finish_s)}, {_more_and_less(hands, words)}")
    return "\n".join(lines)


def _left(item: LeftOut, words: PlanWords) -> str:
    return f"Not in the plan, {FOR[item.to]}: {words.group(item.job)}: {words.reason(item)}"


def _more_and_less(item: Later | Hands, words: PlanWords) -> str:
    said = [f"also {'; '.join(map(words.group, item.adds))}"] if item.adds else []
    said += [f"without {'; '.join(map(words.group, item.drops))}"] if item.drops else []
    return "; ".join(said) or "the same jobs"


def team_plan_text(plan: TeamPlan, setup: Setup) -> str:
    """Return the plan of several cars as lines, car by car."""
    head = f"From {plan.starts_at}, done after {_clock(plan.finish_s)} ({plan.by})."
    return "\n\n".join([head, *(_of_car(car, setup) for car in plan.cars)])


def _of_car(car: CarPlan, setup: Setup) -> str:
    """Return a car's part; a car that comes in later has a clock of its own, which is said before its times."""
    text = plan_text(car, setup)
    return f"Car {car.car} starts {_clock(car.offset_s)} after the first:\n{text}" if car.offset_s else text


def plain(name: str) -> str:
    """Return a name of the set-up as words."""
    return name.replace("-", " ")


def large(name: str) -> str:
    """Return a name as words that begin a line."""
    return NAMED.get(re.sub(r"\blook\b", "check", name)) or plain(name)[:1].upper() + plain(name)[1:]


def small(label: str) -> str:
    """Return a label as it stands within a line; an abbreviation stays as it is."""
    return label if re.match(r".[A-Z0-9]", label) else label[:1].lower() + label[1:]


def _clock(seconds: int) -> str:
    return f"{seconds // 60:02}:{seconds % 60:02}"
