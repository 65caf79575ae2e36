"""Listens at the accessibility bus as a screen reader does; run by the system's Python, which has its bindings.

It writes a line of JSON for each thing that a screen reader would tell of by itself: what takes the focus, and what
comes into a live region. Lines on its input are orders: "key NAME" presses a real key, "read" writes all of the page
in its order, "where" what has the focus.
"""

import json
import os
import sys
from collections.abc import Callable, Iterator

import gi

gi.require_version("Atspi", "2.0")
from gi.repository import Atspi, GLib  # noqa: E402  the version comes first

STATES = {
    "check box": [("checked", "ticked", "not ticked")],
    "radio button": [("checked", "chosen", "not chosen")],
    "toggle button": [("pressed", "pressed", "not pressed")],
}
"""What each of a role is or is not."""
GROUPS = ("panel", "landmark", "grouping")
KEYS = {"Tab": 0xFF09, "Enter": 0xFF0D, "Space": 0x20, "Down": 0xFF54, "SayAll": 0xFFAB}
"""X's numbers of keys; Orca reads all from here by the plus of the number pad."""
TIMEOUT_MS = 60_000
"""How long the browser may take to answer a question about a thing; the library's own 0.8 s are too short for a browser
that shares its processor, and what it is asked about then would never be told of."""
TEXT = ("static", "text")
WHOLE = (
    "heading",
    "link",
    "push button",
    "toggle button",
    "check box",
    "radio button",
    "entry",
    "password text",
    "combo box",
)
"""What is told with its name; it is not read once more bit by bit."""
BULLET = "•"
OBJECT = "\ufffc"
"""Stands in a text for what is not text."""


def write(**line: object) -> None:
    print(json.dumps(line, ensure_ascii=False), flush=True)  # noqa: T201  this is its output


def told(one: Atspi.Accessible) -> str:
    """Return a thing as it is told: role, state, name, and the group it stands in."""
    one.clear_cache()  # else a name or state is what it was when somebody last asked
    role = one.get_role_name()
    states = one.get_state_set()
    words = [role]
    level = (one.get_attributes() or {}).get("level")
    if role == "heading" and level:
        words[0] = f"heading {level}"
    words += [yes if states.contains(_state(name)) else no for name, yes, no in STATES.get(role, [])]
    if states.contains(Atspi.StateType.EXPANDABLE):
        words.append("open" if states.contains(Atspi.StateType.EXPANDED) else "closed")
    if not states.contains(Atspi.StateType.ENABLED):
        words.append("off")
    name = (one.get_name() or "").strip()
    value = _value(one, role)
    return ", ".join(words) + f": {name}" + (f" = {value}" if value else "")


def _state(name: str) -> Atspi.StateType:
    return getattr(Atspi.StateType, name.upper())


def _value(one: Atspi.Accessible, role: str) -> str:
    """Return what a field holds."""
    if role == "entry":
        answer: str = Atspi.Text.get_text(one, 0, Atspi.Text.get_character_count(one))
        return answer
    if role == "combo box":
        picked = Atspi.Selection.get_selected_child(one, 0)
        return picked.get_name() if picked else ""
    return ""


def group_of(one: Atspi.Accessible) -> str:
    """Return the name of the innermost group around a thing."""
    at = one.get_parent()
    while at is not None and at.get_role_name() != "document web":
        if at.get_role_name() in GROUPS and at.get_name():
            answer: str = at.get_name()
            return answer
        at = at.get_parent()
    return ""


def on_focus(event: Atspi.Event) -> None:
    # What has left the page by the time it is asked about answers with no role (AT-SPI: an error condition).
    if event.source.get_role() == Atspi.Role.INVALID:
        write(heard="gone", says=event.type, group="")
    elif event.detail1:
        write(heard="focus", says=told(event.source), group=group_of(event.source))


def on_text(event: Atspi.Event) -> None:
    """Tell of text that came into a live region; what it holds besides text tells of itself."""
    live = (event.source.get_attributes() or {}).get("container-live", "off")
    text = str(event.any_data).replace(OBJECT, "").strip()
    if live != "off" and text:
        write(heard=live, says=text, group="")


def forgiving(hear: Callable[[Atspi.Event], None]) -> Callable[[Atspi.Event], None]:
    """Return a listener for what may be gone from the page before it is asked about: that is told of by nobody."""

    def heard(event: Atspi.Event) -> None:
        try:
            hear(event)
        except GLib.Error as error:
            write(heard="gone", says=f"{event.type}: {error.message}", group="")

    return heard


def press(name: str) -> None:
    """Press a real key, which comes to the window as from a keyboard, and release it."""
    Atspi.generate_keyboard_event(KEYS[name], None, Atspi.KeySynthType.SYM)


def read() -> None:
    """Write all of the page, from its top, as it is read by arrow keys."""
    page = _page(fresh())
    lines = list(_lines(page)) if page else ["no page"]
    write(heard="read", says="", group="", lines=lines)


def where() -> None:
    """Write what has the focus now, by the tree itself; nothing, where the tree changes while it is gone through."""
    try:
        one = _focused(_page(fresh()))
        says, group = (told(one), group_of(one)) if one else ("", "")
    except GLib.Error:
        says, group = "", ""
    write(heard="where", says=says, group=group)


def _focused(at: Atspi.Accessible | None) -> Atspi.Accessible | None:
    """Return the innermost thing that has the focus."""
    if not at:
        return None
    for place in range(at.get_child_count()):
        found = _focused(at.get_child_at_index(place))
        if found:
            return found
    at.clear_cache()
    return at if at.get_state_set().contains(Atspi.StateType.FOCUSED) else None


def fresh() -> Atspi.Accessible:
    """Return the root of all, with nothing remembered of what lies under it."""
    desktop = Atspi.get_desktop(0)
    desktop.clear_cache()
    return desktop


def _page(at: Atspi.Accessible) -> Atspi.Accessible | None:
    """Return the page in sight, which is deep within the browser's own windows and panes."""
    at.clear_cache()
    if at.get_role_name() == "document web":
        return at if at.get_state_set().contains(Atspi.StateType.SHOWING) else None
    for place in range(at.get_child_count()):
        child = at.get_child_at_index(place)
        found = _page(child) if child else None
        if found:
            return found
    return None


def _lines(at: Atspi.Accessible) -> Iterator[str]:
    """Give what stands in a thing, line by line; a label is not read beside the field or the group that it names."""
    names: list[str] = []
    for place in range(at.get_child_count()):
        child = at.get_child_at_index(place)
        role, name = child.get_role_name(), (child.get_name() or "").strip()
        if role in WHOLE:
            names.append(name)
            yield told(child)
        elif role in TEXT:
            if name not in [*names, at.get_name(), BULLET]:
                yield f"text: {name}"
        else:
            if role in GROUPS and name:
                yield f"{role}: {name}"
            yield from _lines(child)


def obey(*_: object) -> bool:
    """Do what has come to the input; its end ends the listening."""
    orders = os.read(sys.stdin.fileno(), 4096).decode()
    for order in orders.splitlines():
        name, _space, rest = order.partition(" ")
        if name == "key":
            press(rest)
        elif name == "where":
            where()
        else:
            read()
    if not orders:
        Atspi.event_quit()
    return bool(orders)


def main() -> None:
    Atspi.set_timeout(TIMEOUT_MS, TIMEOUT_MS)
    for kind, hear in [("object:state-changed:focused", on_focus), ("object:text-changed:insert", on_text)]:
        Atspi.EventListener.new(forgiving(hear)).register(kind)
    GLib.io_add_watch(sys.stdin.fileno(), GLib.IO_IN | GLib.IO_HUP, obey)
    write(heard="ready", says="", group="")
    Atspi.event_main()


main()
