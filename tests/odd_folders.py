"""Event folders as a stranger would bring them, odd in every column, for planning.

Own car map with zones for one, own rate table with every column there is, access that needs access, two services and
inspectors or none, work that is under way, patched, put off or done; unknown zones and components; a cage.
"""

import json
from pathlib import Path
from random import Random

from making import Json, Pen

EVENT = "odd-folder"
COLUMNS = (
    "component,condition,action,minutes_best,minutes_likely,minutes_worst,mechanics,access,parts,must_do,value,"
    "zone,skill,after,then,ground,fire_risk,wear,max_events,crew"
)
CONDITIONS = ("marked", "worn", "loose", "bent", "cracked", "leaking", "flat", "broken", "missing")
COMPONENTS = (
    "wheel", "tyre", "hub", "arm", "brake-hose", "strut", "rack", "lamp", "panel", "fuel-pipe", "seat-belt", "hoop",
    "sensor", "mat",
)  # fmt: skip
GROUPS = {
    "brake-hose": "brake", "rack": "steering", "fuel-pipe": "fuel", "seat-belt": "restraint", "hoop": "cage",
    "arm": "wheel-hold",
}  # fmt: skip
ZONES = {
    "nose-left": ("corner", ("wheel", "tyre", "hub", "arm", "brake-hose", "strut")),
    "tail-right": ("corner", ("wheel", "tyre", "hub", "arm", "brake-hose", "strut")),
    "face": ("end", ("lamp", "panel")),
    "bay": ("engine", ("fuel-pipe", "sensor", "rack")),
    "belly": ("underside", ("panel", "fuel-pipe")),
    "cockpit": ("cabin", ("seat-belt", "hoop", "mat")),
}
STEPS = (
    ("car-on-stands", "car", ""),
    ("wheel-off", "zone", "car-on-stands"),
    ("liner-out", "zone", "wheel-off"),
    ("guard-off", "car", "car-on-stands"),
    ("heat-shield-off", "car", "guard-off"),
    ("lid-up", "car", ""),
)
NAMED = ("[]", '["B"]')
LIFTS, WHENS = ("", "car-on-stands", "car-on-stands", "lid-up"), ("any", "any", "first", "ground", "last")
CHECKS = ("wheel-nut-torque", "toe-look", "pump-the-pedal", "leak-look", "run-up", "belt-look")


class Odd:
    """An odd event folder, the same for the same seed.

    coming: with the keys, too, that the planner follows only when no rule is in `plan_rules.COMING`.
    """

    def __init__(self, seed: int, *, coming: bool = False) -> None:
        self.chance = Random(f"odd {seed}")
        self.more = Random(f"more {seed}") if coming else None
        self.mechanics = self.chance.randint(1, 6)
        self.inspectors = self.chance.choice([0, 1, 1, 2])
        self.pen = Pen(EVENT, car="7")
        self.entries: list[Json] = []

    def rare(self, share: float) -> bool:
        return self.chance.random() < share

    def minutes(self, longest: int = 8) -> list[str]:
        best, more, most = self.chance.randint(1, longest), self.chance.randint(0, 5), self.chance.randint(0, 9)
        return [str(best), str(best + more), str(best + more + most)]

    def yes(self, share: float) -> str:
        return "yes" if self.sometimes(share) else ""

    def sometimes(self, share: float) -> bool:
        """Whether one of the keys to come is there; never where none is asked for."""
        return self.more is not None and self.more.random() < share

    def car_map(self) -> str:
        lines = ['safety_groups = ["fuel", "restraint", "wheel-hold"]']
        for zone, (kind, components) in ZONES.items():
            lines += [f"[zones.{zone}]", f'kind = "{kind}"', f"people = {self.chance.choice([1, 1, 2, 3])}"]
            lines += [f"components = {json.dumps(components)}"]
        for component in COMPONENTS:
            group = f'group = "{GROUPS[component]}"' if component in GROUPS else ""
            lines += [f"[components.{component}]", f'label = "{component}"', group]
            lines += ['inspect_access = ["lid-up"]'] if self.sometimes(0.1) else []
        lines += ["[symptoms.pull]", 'label = "pulls"', 'checks = ["nose-left/arm", "nose-left/tyre", "bay/rack"]']
        lines += ["[[knock_on]]", 'component = "wheel"', 'conditions = ["broken", "bent"]']
        return "\n".join([*lines, 'same_zone = ["hub", "arm", "brake-hose"]', 'also = ["bay/rack"]'])

    def operations(self) -> str:
        rows = [COLUMNS]
        for component in COMPONENTS:
            for condition in self.chance.sample(CONDITIONS, 4):
                rows.append(",".join(self.row(component, condition, "")))
                homes = [zone for zone, (_, there) in ZONES.items() if component in there]
                if self.rare(0.15):
                    rows.append(",".join(self.row(component, condition, self.chance.choice(homes))))
        return "\n".join(rows)

    def row(self, component: str, condition: str, zone: str) -> list[str]:
        steps = [step for step, _, _ in STEPS]
        access = ";".join(self.chance.sample(steps, self.chance.choice([0, 0, 1, 1, 2])))
        action = self.chance.choice(["swap", "replace", "change", "tighten", "weld", "tape", "bleed", "inspect"])
        after = self.chance.choice(["", "", *COMPONENTS])
        then = ";".join(self.chance.sample(CHECKS, self.chance.choice([0, 0, 0, 1, 2])))
        parts = self.chance.choice(["", "", "bolt*2", "bolt;plate"])
        flags = [str(self.rare(share)).lower() for share in (0.1, 0.1, 0.1)]
        value = self.chance.choice(["0", "5", "12.5", "40", "90"])
        middle = [str(self.chance.choice([1, 1, 1, 2])), access, parts, str(self.rare(0.25)).lower(), value]
        skill = self.chance.choice(["", "", "", "welder", "electrics"])
        return [
            component,
            condition,
            action,
            *self.minutes(),
            *middle,
            zone,
            skill,
            after,
            then,
            *flags,
            "",
            self.yes(0.15),
        ]

    def rates(self) -> dict[str, str]:
        steps = ["step,per,minutes_open,minutes_close,mechanics,needs,crew"]
        lifts = self.more.choice(LIFTS) if self.more else ""
        steps[0] += ",moves_car" if lifts else ""
        for step, per, needs in STEPS:
            ends = [self.chance.choice(["0", "0.5", "1", "2.5"]) for _ in range(2)]
            steps.append(",".join([step, per, *ends, self.chance.choice(["0", "1", "1", "2"]), needs, self.yes(0.1)]))
            steps[-1] += f",{'yes' if step == lifts else ''}" if lifts else ""
        checks = ["check,minutes_best,minutes_likely,minutes_worst,mechanics,when,by,crew"]
        for check in CHECKS:
            when = self.chance.choice(["before-close", "on-ground"])
            by, people = self.chance.choice(["anyone", "other", "inspector"]), self.chance.choice(["1", "1", "2"])
            if check == "wheel-nut-torque":
                when, by, people = "on-ground", "other", "1"
            checks.append(",".join([check, *self.minutes(3), people, when, by, self.yes(0.3)]))
        toml = 'currency = "EUR"\nlabour_per_hour = 60\ninspect_minutes = [1, 2, 4]\nassess_minutes = [2, 5, 9]\n'
        toml += self.inspections()
        toml += "[inspect_minutes_by_group]\nbrake = [1, 1, 3]\ncage = [5, 6, 9]"
        parts = "part,description,unit_cost\nbolt,Bolt,1.50\nplate,Plate,30.00"
        files = {"operations.csv": self.operations(), "access.csv": "\n".join(steps), "parts.csv": parts}
        return {**files, "checks.csv": "\n".join(checks), "rates.toml": toml}

    def inspections(self) -> str:
        lines = ["inspect_next_minutes = [0.25, 0.5, 1]"] if self.sometimes(0.6) else []
        kinds = {"corner": ["car-on-stands", "wheel-off"], "underside": ["guard-off"], "engine": ["lid-up"]}
        lines += ["[inspect_access]"] if self.more else []
        lines += [f"{kind} = {json.dumps(steps)}" for kind, steps in kinds.items() if self.sometimes(0.5)]
        return "\n".join([*lines, ""])

    def event(self) -> str:
        lines = [f'event = "{EVENT}"', 'timezone = "Europe/Vienna"', "[[cars]]", 'car = "7"']
        people = [("p-toma", ["co-driver"]), ("p-bodo", ["manager"])]
        for number in range(self.mechanics):
            people.append((f"p-{number}", ["mechanic", "inspector"] if self.rare(0.2) else ["mechanic"]))
        people += [(f"p-look-{number}", ["inspector"]) for number in range(self.inspectors)]
        for person, roles in people:
            skills = self.chance.sample(["welder", "electrics"], self.chance.choice([0, 0, 1, 2]))
            lines += ["[[people]]", f'person = "{person}"', f"roles = {json.dumps(roles)}"]
            lines += [f"skills = {json.dumps(skills)}"]
        for number, service in enumerate("AB", start=1):
            lines += ["[[stages]]", f'stage = "SS{number}"', "km = 9.5"]
            lines += ["[[services]]", f'service = "{service}"', f'after = "SS{number}"']
            lines += [f"arrive = 2026-06-13T1{number}:20:00+02:00", f"minutes = {self.chance.choice([5, 15, 25, 40])}"]
            both = f"in_and_out_minutes = {self.chance.choice(['0', '3.5', '7'])}"
            lines += ["in_minutes = 2", "out_minutes = 1.5"] if self.sometimes(0.3) else [both]
        for task in ("fluids", "wheels-round", "screen")[: self.chance.randint(0, 3)]:
            zone = self.chance.choice(["", "bay", "cockpit", "nose-left", "no-such-zone"])
            lines += ["[[routine]]", f'task = "{task}"', f"services = {self.chance.choice(NAMED)}"]
            lines += [f"minutes = [{', '.join(self.minutes(3))}]", f"mechanics = {self.chance.choice([0, 1, 1, 2])}"]
            steps = [step for step, per, _ in STEPS if per == "car" or zone == "nose-left"]
            lines += [
                f'zone = "{zone}"',
                f"access = {json.dumps(self.chance.sample(steps, self.chance.randint(0, 1)))}",
            ]
            lines += [f"must_do = {str(self.rare(0.5)).lower()}"]
            lines += ["vital = true"] if self.sometimes(0.3) else []
            lines += [f'when = "{self.more.choice(WHENS)}"'] if self.more else []
        for resource, held_by in (("stands", "car-on-stands"), ("welder-set", "weld"), ("extinguisher", "fire-risk")):
            if self.rare(0.4):
                lines += ["[[resources]]", f'resource = "{resource}"', f"count = {self.chance.choice([0, 1, 1, 2])}"]
                lines += [f'held_by = ["{held_by}"]']
        lines += ["[planning]", "on_time_percent = 90"] if self.sometimes(0.4) else []
        lines += ["[regulations]", "late_limit_minutes = 3", "total_late_limit_minutes = 4"]
        return "\n".join(lines)

    def say(self, kind: str, subject: str | None = None, **more: object) -> Json:
        entry = self.pen.entry(kind, subject, **more)  # type: ignore[arg-type]
        self.entries.append(entry)
        return entry

    def story(self) -> None:
        filed: dict[str, list[str]] = {}
        for _ in range(self.chance.randint(2, 12)):
            zone = self.chance.choice([*ZONES, *ZONES, "attic"])
            there = (*ZONES.get(zone, ("", ()))[1], *self.chance.sample(["lamp", "gizmo"], int(self.rare(0.2))))
            names = self.chance.sample(there, min(len(there), self.chance.randint(0, 2)))
            found = [{"component": name, "condition": self.chance.choice(["unknown", *CONDITIONS])} for name in names]
            symptoms = ["pull"] if self.rare(0.1) else []
            report = self.say("report.filed", stage="SS1", where="stage", zone=zone, findings=found, symptoms=symptoms)
            for name in names:
                filed.setdefault(f"{zone}/{name}", []).append(str(report["id"]))
        if self.rare(0.7):
            self.say("service.entered", "A", service="A", official_time="10:20")
        for job, covers in filed.items():
            self.happens(job, covers)

    def happens(self, job: str, covers: list[str]) -> None:
        who = f"p-{self.chance.randrange(self.mechanics)}"
        what = self.chance.random()
        if what < 0.12:
            self.say("job.started", job, person=who)
        elif what < 0.3:
            begun = [str(self.say("job.started", job, person=who)["id"])] if self.rare(0.5) else []
            parts = [{"part": "bolt", "qty": 1}]
            rest = {"ends": begun, "parts": parts, "repairers": [who], "temporary": self.rare(0.4)}
            done = self.say("job.finished", job, person=who, covers=covers, action="tape", **rest)
            if self.rare(0.4):
                kind = self.chance.choice(["inspection.passed", "inspection.failed"])
                self.say(kind, job, person="p-look-0", covers=[*covers, str(done["id"])])
        elif what < 0.36:
            self.say("job.deferred", job, person=who, covers=covers, to="next-service", reason="no time")

    def write(self, folder: Path) -> None:
        (folder / "rates").mkdir(parents=True)
        for name, text in self.rates().items():
            (folder / "rates" / name).write_text(text + "\n")
        (folder / "event.toml").write_text(self.event())
        (folder / "car_map.toml").write_text(self.car_map())
        (folder / "van.csv").write_text(f"part,loaded\nbolt,{self.chance.choice([0, 4, 60])}\nplate,20\n")
        self.story()
        (folder / "entries.jsonl").write_text("".join(json.dumps(entry) + "\n" for entry in self.entries))
