"""A phone with WebKit: what a hand does on it and what eyes see, and what its page complained of."""

import re
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any, Protocol, TypeVar

from PIL import Image

from .driver import CALL_S, ELEMENT, Driver, Refused
from .finding import BOX, FIND, IS_SAID, PLACE, STANDS, STORED, WAS_HIT
from .screen import Screen

PATIENCE_S = 60.0
"""Guards against hanging; judges no speed."""
LOOK_S = 0.15
SIZE = (390, 844)
TITLES = {"team": "Team plan", "job": "Queue", "aside": "Needs review", "setup": "Set-up"}
COMPLAINT = re.compile(r"CONSOLE (?:\w+ )?ERROR .*")
NO_FAULTS = (
    "Failed to load resource",  # the server is away on purpose
    "Unrecognized Content-Security-Policy directive 'manifest-src'",  # WebKitGTK installs no apps
)
"""What WebKit says that is no fault of the page."""
OWN_FETCH = re.compile(r"Fetch API cannot load http://127\.0\.0\.1:\d+/api/v1/\S+ due to access control checks")
"""Nothing controls the access to one's own origin: WebKit says so of a fetch whose page, or server, is gone."""
GONE = ("stale element reference", "no such element", "no such window", "element not interactable")
"""What the driver says of an element that was drawn again since it was found, or is about to be."""

Element = dict[str, str]
Value = TypeVar("Value")


class Joined(Protocol):
    """What a phone asks of a server."""

    @property
    def url(self) -> str: ...
    def link(self, person: str) -> str: ...


class WebKitPhone:
    """One phone: a profile that lasts, and a browser on it that can be killed and opened again."""

    def __init__(self, profile: Path, screen: Screen) -> None:
        self.profile = profile
        self.screen = screen
        self.left = screen.place()
        self.log = profile / "browser.log"
        self._heard = 0
        self.open()

    def open(self) -> None:
        """Start the browser, on what the profile kept."""
        self.profile.mkdir(exist_ok=True)
        self.driver = Driver(self.profile, self.screen, self.left, self.log)

    def kill(self) -> None:
        """Kill every process of the browser at once, as an empty battery would."""
        self.driver.kill()

    @property
    def complaints(self) -> list[str]:
        """Return what the page complained of: script errors, rejected promises, the content policy."""
        said = COMPLAINT.findall(self.log.read_text(errors="replace"))
        return [line for line in said if not (any(one in line for one in NO_FAULTS) or OWN_FETCH.search(line))]

    def hear(self) -> list[str]:
        """Return what it complained of since this was asked last."""
        new = self.complaints[self._heard :]
        self._heard += len(new)
        return new

    def go(self, address: str) -> None:
        """Open an address. Errors: Refused, where the page does not open."""
        self.driver.call("POST", "/url", {"url": address})

    def reload(self) -> None:
        """Load the app again and wait until it stands. The driver may answer while the old page is still there."""
        self.run("window.isOld = true")
        self.driver.call("POST", "/refresh")
        self.until(lambda: self.run("return window.isOld === undefined"), "another page")
        self.find("heading")

    def run(self, script: str, *arguments: object) -> Any:
        """Run a function's body in the page; return its value, a promise awaited."""
        return self.driver.run(script, *arguments)

    def stored(self, name: str) -> list[dict[str, Any]]:
        """Return what a store of the app's own database holds."""
        found: list[dict[str, Any]] = self.run(STORED, name)
        return found

    # What eyes see

    def until(self, true: Callable[[], Value | None], what: str, patience_s: float = PATIENCE_S) -> Value:
        """Wait until something is so; return its value. Errors: AssertionError that says what stands there instead."""
        end = time.monotonic() + patience_s
        while time.monotonic() < end:
            try:
                if value := true():
                    return value
            except Refused as error:
                if not str(error).startswith(GONE):  # drawn again meanwhile: look again
                    raise
            time.sleep(LOOK_S)
        raise AssertionError(f"waited in vain for {what} on:\n{self.run(STANDS)}\n{self.complaints}")

    def all(self, role: str, name: str = "", *, exact: bool = False, inside: str = "") -> list[Element]:
        """Return what is there now of a role and name, in the page's order. inside: the name of a region."""
        found: list[Element] = self.run(FIND, role, name, exact, inside)
        return found

    def find(self, role: str, name: str = "", *, exact: bool = False, inside: str = "", nth: int = 0) -> Element:
        """Wait for one thing. nth: which of them, from 0; negative from the end."""

        def one() -> Element | None:
            found = self.all(role, name, exact=exact, inside=inside)
            return found[nth] if (nth if nth >= 0 else -nth - 1) < len(found) else None

        return self.until(one, f"{role} {name!r} {inside}")

    def is_said(self, text: str) -> bool:
        """Say whether a text is on the screen now; white space counts as one blank."""
        said: bool = self.run(IS_SAID, text)
        return said

    def sees(self, text: str) -> None:
        """Wait for a text on the screen."""
        self.until(lambda: self.is_said(text), repr(text))

    def misses(self, text: str) -> None:
        """Wait until a text is on the screen no more."""
        self.until(lambda: not self.run(IS_SAID, text), f"{text!r} to go")

    def css(self, selector: str, nth: int = 0) -> Element:
        """Wait for an element by a CSS selector, for what has no name."""
        pick = "return document.querySelectorAll(arguments[0])[arguments[1]] ?? null"

        def one() -> Element | None:
            found: Element | None = self.run(pick, selector, nth)
            return found

        return self.until(one, selector)

    def picture(self) -> Image.Image:
        """Return what the screen shows of the page; the driver's own command for it never answers on Xvfb."""
        return self.screen.seen(self.left, *SIZE)

    # What a hand does

    def tap(self, name: str, *, role: str = "button", exact: bool = False, inside: str = "", nth: int = 0) -> None:
        """Tap in the middle of a thing, or of its label where that is drawn instead."""

        def hit() -> bool:
            if place := self.run(PLACE, self.find(role, name, exact=exact, inside=inside, nth=nth)):
                self.tap_at(*place)
            return bool(place) and self.run(WAS_HIT)

        self.until(hit, f"a tap on {role} {name!r}")

    def tap_at(self, x: float, y: float) -> None:
        """Tap a place of the view, in CSS pixels."""
        self._strokes([[(x, y)]])

    def check(self, label: str, *, inside: str = "") -> None:
        """Tap a check box or radio button by its label, unless it is checked."""
        box = self.find("field", label, exact=True, inside=inside)
        if not self.run("return arguments[0].checked", box):
            self.tap(label, role="field", exact=True, inside=inside)
        self.until(lambda: self.run("return arguments[0].checked", box), f"{label!r} checked")

    def fill(self, label: str, text: str, *, inside: str = "") -> None:
        """Type a text into a field, instead of what is in it."""

        def typed() -> bool:
            field = self.find("field", label, inside=inside)
            # The driver scrolls only to what is out of the window, not to what a bar lies on.
            self.run("arguments[0].scrollIntoView({ block: 'center' })", field)
            self.driver.call("POST", f"/element/{field[ELEMENT]}/clear")
            self.driver.call("POST", f"/element/{field[ELEMENT]}/value", {"text": text})
            return True

        self.until(typed, f"{label!r} filled")

    def choose(self, label: str, value: str) -> None:
        """Choose an option of a list by its value."""
        pick = "return [...arguments[0].options].find((one) => one.value === arguments[1])"

        def chosen() -> bool:
            option = self.run(pick, self.find("combobox", label), value)
            if option is not None:
                self.driver.call("POST", f"/element/{option[ELEMENT]}/click")
            return option is not None

        self.until(chosen, f"option {value!r}")

    def upload(self, selector: str, path: Path) -> None:
        """Give a file input a file, as the camera or the picker does."""
        self.driver.call("POST", f"/element/{self.css(selector)[ELEMENT]}/value", {"text": str(path)})

    def draw(self, field: Element, strokes: list[list[tuple[float, float]]]) -> None:
        """Draw with a finger; points are parts of the field's width and height."""
        left, top, width, height = self.run(BOX, field)
        self._strokes([[(left + x * width, top + y * height) for x, y in stroke] for stroke in strokes])

    def saved(self, link: str) -> Path:
        """Tap a link that saves a file; return where it lies once it is whole."""
        element = self.find("link", link)
        path = self.profile / "downloads" / str(self.run("return arguments[0].download", element))
        path.unlink(missing_ok=True)
        self.tap(link, role="link")
        sizes = [0]

        def is_whole() -> bool:
            """Its own name is there before its last bytes are: it is whole once it has stopped growing."""
            sizes.append(path.stat().st_size if path.exists() else 0)
            return 0 < sizes[-2] == sizes[-1]

        self.until(is_whole, f"{path.name} saved")
        return path

    def _strokes(self, strokes: list[list[tuple[float, float]]]) -> None:
        moves: list[dict[str, object]] = []
        for stroke in strokes:
            (x, y), *more = stroke
            moves += [_move(x, y), {"type": "pointerDown", "button": 0}]
            moves += [_move(*point) for point in more] or [{"type": "pause", "duration": 30}]
            moves += [{"type": "pointerUp", "button": 0}]
        finger = {"type": "pointer", "id": "finger", "parameters": {"pointerType": "mouse"}, "actions": moves}
        self.driver.call("POST", "/actions", {"actions": [finger]})

    # What the app needs of both

    def join(self, server: Joined, person: str, car: str = "41") -> None:
        """Join as a person with a car, and wait until app and set-up are kept for offline use."""
        try:
            self._join(server, person, car)
        except TimeoutError:
            # Seldom a fresh browser never answers its driver, idle and without a word: an owner opens it again. One
            # that is at work all the while would be the app's own fault.
            busy_s = self.driver.busy_s()
            assert busy_s < CALL_S / 2, f"no answer, and {busy_s:.0f} s of a processor taken"
            self.kill()
            self.open()
            self._join(server, person, car)

    def _join(self, server: Joined, person: str, car: str) -> None:
        self.go(server.link(person))
        self.until(lambda: self.all("button", f"Car {car}") or self.all("combobox", "Which car"), "a choice of car")
        if self.all("button", f"Car {car}"):
            self.tap(f"Car {car}")
        self.run("return navigator.serviceWorker.ready.then(() => true)")
        self.until(lambda: self.run("return !location.hash.includes('join')"), "the link to be used up")
        self.find("heading")
        self.take_car(car)

    def take_car(self, car: str) -> None:
        """Choose the car in the head line."""
        chosen = "return arguments[0].value"
        if self.run(chosen, self.find("combobox", "Which car")) != car:
            self.choose("Which car", car)
        self.until(lambda: self.run(chosen, self.find("combobox", "Which car")) == car, f"car {car}")

    def show(self, screen: str) -> None:
        """Go to a screen by its address and wait until it is there."""
        self.find("heading")  # an app that has not started yet hears of no other address
        self.run("location.hash = arguments[0]", f"#/{screen}")
        name = screen.split("/")[0]
        title = f"{TITLES.get(name, name.capitalize())} · Shuntbook"
        self.until(lambda: self.run("return document.title") == title, title)
        self.find("heading")

    def logs(self, zone: str, part: str, condition: str = "") -> None:
        """File a report from the seat: place, part, how bad, save."""
        self.show("me")  # a log that was left starts again
        self.show("log")
        self.tap(zone)
        self.find("button", "Save", exact=True)
        if not self.all("field", part, exact=True):
            self.tap("More parts")
        self.check(part)
        if condition:
            self.check(condition)
        self.tap("Save", exact=True)
        self.sees("Kept on this phone")


def _move(x: float, y: float) -> dict[str, object]:
    return {"type": "pointerMove", "duration": 0, "origin": "viewport", "x": round(x), "y": round(y)}
