"""The people of the sample event with a phone each, and what they do with it, tap by tap."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from phones import Phone, stored, wait_until
from playwright.sync_api import Locator, Page, TimeoutError
from server import Server

PIN = "246824"


@dataclass
class Member:
    """One person with a phone, at one car."""

    server: Server
    phone: Phone
    person: str
    car: str

    @property
    def page(self) -> Page:
        return self.phone.page

    def at(self, screen: str) -> Page:
        return self.phone.show(screen)

    def sees(self, text: str) -> Locator:
        """Wait for a text on the screen."""
        found = self.page.get_by_text(text).first
        try:
            found.wait_for()
        except TimeoutError as error:
            raise AssertionError(f"{text!r} did not come into sight of {self.person}: {self.stands()}") from error
        return found

    def stands(self) -> str:
        """Say all that tells why something does not come: what is shown, what can't be tapped, what is held."""
        shown = self.page.locator("body").inner_text()
        waiting = self.page.locator("button:disabled").all_inner_texts()
        held = [f"{one['entry']['kind']} {one['sending']}" for one in stored(self.page, "entries")]
        return f"{shown}\nwaiting: {waiting}\nheld: {held}\ncomplaints: {self.phone.complaints}"

    def tap(self, name: str, *, exact: bool = False) -> None:
        self.page.get_by_role("button", name=name, exact=exact).first.click()

    def logs(self, zone: str, part: str, condition: str | None = None) -> None:
        """File a report from the seat: place, part, save."""
        self.at("me")  # a log that was left starts again
        page = self.at("log")
        self.tap(zone)
        more, wanted = page.get_by_role("button", name="More parts"), page.get_by_label(part, exact=True)
        more.or_(wanted).first.wait_for()
        if more.count():
            more.click()
        wanted.check()
        if condition:
            page.get_by_label(condition, exact=True).check()
        self.tap("Save", exact=True)
        self.sees("Kept on this phone")

    def opens(self, key: str) -> Page:
        """Open a job as soon as the queue of this phone has it."""
        self.at("queue")
        self.page.locator(f'main a[href="#/job/{key}"]').first.wait_for(state="attached")
        return self.at(f"job/{key}")

    def finishes(self, key: str) -> None:
        """Finish a job as the form stands."""
        self.opens(key)
        self.tap("Finish …")
        self.tap("Finish", exact=True)
        self.sees("Saved: finished.")

    def inspects(self, key: str, *, passes: bool = True, pin: str = PIN) -> None:
        """Sign an inspection of one job alone."""
        self.opens(key)
        zone, part = key.split("/")
        self.at(f"place/{zone}/inspect/{part}")
        self.signs(passes=passes, pin=pin)
        self.sees("Signed: 1 passed." if passes else "Signed: 1 not passed.")
        self.at("queue")

    def signs(self, *, passes: bool = True, pin: str = PIN) -> None:
        """Answer the inspection that is open, all OK or the first check not, and sign it with the PIN."""
        own = self.page.get_by_label("Your PIN, ")
        new = self.page.get_by_label("New PIN")
        own.or_(new).first.wait_for()
        if new.count():
            new.fill(pin)
            self.page.get_by_label("The same once more").fill(pin)
        else:
            own.fill(pin)
        answer_all_ok(self.page)
        if not passes:
            self.page.get_by_label("Not OK", exact=True).first.check()
        self.tap("Sign")

    def chooses_pin(self) -> None:
        """Choose a PIN under Me, as is possible just after joining."""
        page = self.at("me")
        self.tap("Your PIN on this phone")
        page.get_by_label("New PIN").fill(PIN)
        page.get_by_label("The same once more").fill(PIN)
        self.tap("Keep this PIN")
        self.sees("The PIN is kept on this phone.")

    def why(self) -> list[str]:
        """Open what the log holds of the car's release, and close it again; return its lines."""
        self.tap("Why: what the log holds of this car")
        dialog = self.page.get_by_role("dialog")
        lines = dialog.locator(".ui-section h3, .ui-row, .hold-notes p")
        lines.first.wait_for()
        said = [" ".join(one.split()) for one in lines.all_inner_texts()]
        dialog.get_by_role("button", name="Close").click()
        return said

    def wrote(self, kind: str, count: int = 1) -> list[dict[str, Any]]:
        """Wait until the server holds so many entries of a kind from this person at this car."""
        wait_until(self.page, lambda: len(self._of(kind)) >= count)
        found = self._of(kind)
        assert len(found) == count
        return found

    def _of(self, kind: str) -> list[dict[str, Any]]:
        return [one for one in self.server.entries(self.car, kind) if one["person"] == self.person]


def answer_all_ok(page: Page) -> None:
    """Answer every check of the inspection that is open with OK: none is answered by itself."""
    page.get_by_label("OK", exact=True).first.wait_for()
    for ok in page.get_by_label("OK", exact=True).all():
        ok.check()


def answer_asks(page: Page) -> None:
    """Answer all that is asked before the car leaves: done, and the nuts by the first who may say so."""
    asked = page.get_by_role("region", name="Before it leaves").get_by_role("group")
    asked.first.wait_for()
    for ask in asked.all():
        ask.get_by_role("radio").first.check()


Crew = Callable[[str], Member]
