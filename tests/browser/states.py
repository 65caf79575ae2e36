"""States that a screen may be in: in the car, without the server's answer, crowded, under the system's own colours."""

from collections.abc import Callable

from playwright.sync_api import Route
from screens import Screen, tap

Does = Callable[[Route], None]

IN_THE_CAR = ["log", "log, form", "log, saved", "reports", "service for the crew", "board"]
ANSWERS = "**/api/v1/**"
ASKING = [
    Screen("costs", "p-vera", "costs"),
    Screen("needs review", "p-vera", "aside"),
    Screen("plan, asked for", "p-vera", "plan", tap("Plan service")),
    Screen("season", "p-vera", "season"),
    Screen("statement", "p-vera", "statement", car="42"),
    Screen("document, asked for", "p-vera", "documents", tap("To print (PDF)")),
    Screen("set-up", "p-vera", "setup"),
    Screen("queue", "p-vera", "queue"),
    Screen("me", "p-vera", "me"),
]
"""The screens that show what only the server can say."""
CROWDED = [
    ("queue", ".queue .ui-row"),
    ("service", ".ui-hold.is-hold"),
    ("reports", ".reports .ui-row"),
    ("log", ".zone .count"),
    ("board", ".board-row"),
]
"""Screens that show many jobs or reports at once, and what is there when they do."""
FORCED = {
    "log, form": [".save-bar .button.main", ".chip:has(:checked)", ".ui-tabs [aria-current]"],
    "log, saved": [".button.main"],
    "log, withdrawn": [".kept h2"],
    "queue": [".ui-hold-text", ".ui-tag", ".ui-row"],
}
"""What is filled, or marked by a ground, by the screen that has it."""


def thinks(route: Route) -> None:
    """Answer nothing: what is asked stays open."""


def fails(route: Route) -> None:
    body = '{"type": "about:blank", "title": "The server could not do it", "status": 500}'
    route.fulfill(status=500, content_type="application/problem+json", body=body)


def is_away(route: Route) -> None:
    route.abort("connectionrefused")


DOING = [thinks, fails, is_away]
# In this order every tenth is another screen in another state.
CASES = [(screen, DOING[(at + turn) % 3]) for turn in range(3) for at, screen in enumerate(ASKING)]
