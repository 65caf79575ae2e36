"""The story as it is heard: for each thing done, what the bus tells, where the focus is, what Orca says."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from crew import PIN
from phones import Phone
from server import Server

from .listening import Listener

Role = Literal["button", "checkbox", "link", "radio", "textbox"]

CORNER = "Front left corner"
HOSE = f"{CORNER}: Brake hose"
HOLD = f"HOLD: 1 to inspect: {HOSE}"


@dataclass
class Reader:
    """Somebody at a phone who does not see it: goes to things by name, presses real keys, hears."""

    server: Server
    phone: Phone
    ear: Listener

    def goes(self, role: Role, name: str) -> None:
        """Go to a thing, as by a screen reader's list of links or buttons."""
        self.phone.page.get_by_role(role, name=name, exact=True).first.focus()

    def joins(self, person: str) -> None:
        self.phone.page.goto(self.server.link(person))

    def types_pin(self) -> None:
        for label in ("New PIN", "The same once more"):
            self.phone.page.get_by_label(label).fill(PIN)


@dataclass(frozen=True)
class Step:
    """What is done, and what is heard of it: all of it, and where the focus is afterwards."""

    does: Callable[[Reader], None]
    heard: tuple[str, ...]
    at: str | None = None
    spoken: tuple[str, ...] = ()
    """What Orca says of it, in this order, maybe among other things."""


def goes(role: Role, name: str, heard: str, spoken: str) -> Step:
    return Step(lambda reader: reader.goes(role, name), (heard,), heard, (spoken,))


def press(key: str, *heard: str, at: str | None = None, spoken: tuple[str, ...] = ()) -> Step:
    return Step(lambda reader: reader.ear.press(key), heard, at, spoken)


def answers(check: str) -> list[Step]:
    """Answer a check of the inspection with OK: it is not chosen when it is come to, and chosen after a key."""

    def goes_there(reader: Reader) -> None:
        reader.phone.page.get_by_role("group", name=check, exact=True).get_by_role(
            "radio", name="OK", exact=True
        ).focus()

    here = f"radio button, not chosen: OK [{check}]"
    return [Step(goes_there, (here,), here), press("Space", at=f"radio button, chosen: OK [{check}]")]


LOGS = [
    Step(
        lambda reader: reader.joins("p-toma"),
        ("landmark: Which car is this phone with?",),
        "landmark: Which car is this phone with?",
        ("main content Which car is this phone with?",),
    ),
    goes(
        "button",
        "Car 41, our own",
        "push button: Car 41, our own [Which car is this phone with?]",
        "Car 41, our own push button.",
    ),
    press("Enter", "landmark: Log", "polite: Tap where it was hit", at="landmark: Log", spoken=("main content Log.",)),
    goes("button", "Next", "push button: Next [How it works]", "Next push button."),
    press(
        "Enter",
        "heading 2: What the marks mean [How it works]",
        at="heading 2: What the marks mean [How it works]",
        spoken=("What the marks mean heading level 2 clickable.",),
    ),
    goes(
        "button",
        "Front left corner",
        "push button: Front left corner [Car seen from above]",
        "Front left corner push button.",
    ),
    press(
        "Enter",
        "heading 2: Front left corner [Log]",
        at="heading 2: Front left corner [Log]",
        # Orca 43 keeps silent about it where what opened it is gone by the time it asks (docs/eyes.md).
    ),
    press("Tab", "push button: Other place [Log]", spoken=("Other place push button.",)),
    goes(
        "checkbox",
        "Wheel rim",
        "check box, not ticked: Wheel rim [What is damaged?]",
        "Wheel rim check box not checked.",
    ),
    goes(
        "button",
        "More parts (19)",
        "push button: More parts (19) [What is damaged?]",
        "More parts (19) push button.",
    ),
    press(
        "Enter",
        "check box, not ticked: Track-rod end [What is damaged?]",
        at="check box, not ticked: Track-rod end [What is damaged?]",
        spoken=("Track-rod end check box not checked.",),
    ),
    goes(
        "checkbox",
        "Brake hose",
        "check box, not ticked: Brake hose [What is damaged?]",
        "Brake hose check box not checked.",
    ),
    press("Space", at="check box, ticked: Brake hose [What is damaged?]", spoken=("checked",)),
    goes("button", "Save", "push button: Save [Log]", "Save push button."),
    press(
        "Enter",
        "heading 2: Kept on this phone [Log]",
        at="heading 2: Kept on this phone [Log]",
    ),
    goes("link", "Reports", "link: Reports [Screens]", "Reports link."),
    press("Enter", "landmark: Reports", at="landmark: Reports", spoken=("main content Reports.",)),
]
REPAIRS = [
    Step(
        lambda reader: reader.joins("p-bodo"),
        ("landmark: Queue", f"polite: {HOLD}"),
        "landmark: Queue",
        ("main content Queue.", HOLD),
    ),
    goes(
        "link",
        f"Open job: {HOSE}",
        f"link: Open job: {HOSE} [Front left corner]",
        f"Open job: {HOSE} link.",
    ),
    press(
        "Enter",
        f"landmark: {HOSE}",
        f"polite: {HOLD}",
        at=f"landmark: {HOSE}",
        spoken=(f"main content {HOSE}.", HOLD),
    ),
    goes("button", "Start", "push button: Start [Work]", "Start push button."),
    press("Enter", "polite: Started.", at="push button, closed: Finish … [Work]", spoken=("Started.",)),
    press(
        "Enter",
        "heading 3: Finish the job [Finish the job]",
        at="heading 3: Finish the job [Finish the job]",
        spoken=("Finish the job heading level 3 clickable.",),
    ),
    goes("button", "Finish", "push button: Finish [Finish the job]", "Finish push button."),
    press(
        "Enter",
        "push button, closed: Finish … [Work]",
        "polite: Saved: finished.",
        at="push button, closed: Finish … [Work]",
        spoken=("Saved: finished.",),
    ),
]
INSPECTS = [
    Step(
        lambda reader: reader.joins("p-odil"),
        ("landmark: Queue", f"polite: {HOLD}"),
        "landmark: Queue",
        ("main content Queue.", HOLD),
    ),
    goes(
        "link",
        f"Open job: {HOSE}",
        f"link: Open job: {HOSE} [Front left corner]",
        f"Open job: {HOSE} link.",
    ),
    press(
        "Enter",
        f"landmark: {HOSE}",
        f"polite: {HOLD}",
        at=f"landmark: {HOSE}",
        spoken=(f"main content {HOSE}.", HOLD),
    ),
    goes("link", "Inspect", "link: Inspect [Work]", "Inspect link."),
    press("Enter", f"landmark: {CORNER}", at=f"landmark: {CORNER}", spoken=(f"main content {CORNER}.",)),
    *answers("Reservoir at MAX, cap on; if it has dropped, the leak is found first: every hose, pipe, caliper"),
    *answers("Right hose, not twisted, in its bracket, clip in"),
    *answers("Hose and lead touch neither strut, arm nor rim from lock to lock at full droop"),
    *answers("Union or banjo torqued, new washers, paint-marked"),
    *answers("Caliper slides free, pads thick enough, both disc faces without a crack"),
    *answers("Bled where it was open; pedal held hard 30 s, both ends and nipple dry (must be OK)"),
    *answers("Pedal firm with the engine running"),
    goes("button", "Sign: 1 passed", f"push button: Sign: 1 passed [{CORNER}]", "Sign: 1 passed push button."),
    press(
        "Enter",
        "assertive: A PIN has 6 digits.",
        at=f"push button: Sign: 1 passed [{CORNER}]",
        spoken=("A PIN has 6 digits.",),
    ),
    Step(
        Reader.types_pin,
        (
            f"password text: New PIN, 6 digits [{CORNER}]",
            f"password text: The same once more [{CORNER}]",
        ),
    ),
    goes("button", "Sign: 1 passed", f"push button: Sign: 1 passed [{CORNER}]", "Sign: 1 passed push button."),
    press(
        "Enter",
        f"heading 2: Signed and saved on this phone [{CORNER}]",
        "polite: Signed: 1 passed.",
        at=f"heading 2: Signed and saved on this phone [{CORNER}]",
        spoken=("Signed: 1 passed.",),
    ),
]
STORY = [*LOGS, *REPAIRS, *INSPECTS]
