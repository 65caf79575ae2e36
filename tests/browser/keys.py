"""A person with a keyboard and nothing else; what takes the focus must say its name and show that it has it."""

from typing import Any

from phones import Phone
from playwright.sync_api import Page

MOST_STOPS = 120

# Name: ARIA's own computation comes from Chromium (below). Seen: WCAG 2.4.7 asks for a visible indicator; here an
# outline, or for shapes of a drawing, which take no outline everywhere, a stroke. A chip's tick box draws it on its
# label's text, a field on the box around it, the hold strip's button on all of the strip, which is its target. Hidden:
# WCAG 2.4.11 asks that what has the focus is not entirely hidden by what the page lays over it.
FOCUSED = """() => {
  const one = document.activeElement;
  if (!one || one === document.body) return null;
  const outlined = (thing, part) => {
    const { outlineStyle, outlineWidth } = getComputedStyle(thing, part);
    return outlineStyle !== 'none' && parseFloat(outlineWidth) >= 2;
  };
  const drawn = one.querySelector(':scope > path, :scope > circle');
  const beside = one.matches('.chip input, .ui-choice input') && one.nextElementSibling;
  const around = one.closest('.ui-field-box');
  const seen = outlined(one) || (one.matches('.ui-hold-why') && outlined(one, '::after'))
    || (beside && outlined(beside)) || (around && outlined(around))
    || (drawn && parseFloat(getComputedStyle(drawn).strokeWidth) >= 3);
  const box = one.getBoundingClientRect();
  const [left, top] = [Math.max(box.left, 0), Math.max(box.top, 0)];
  const [right, bottom] = [Math.min(box.right, innerWidth), Math.min(box.bottom, innerHeight)];
  let open = false;
  for (let across = 1; across < 6; across++) for (let down = 1; down < 6; down++) {
    const [x, y] = [left + (right - left) * across / 6, top + (bottom - top) * down / 6];
    const at = right > left && bottom > top && document.elementFromPoint(x, y);
    open ||= Boolean(at) && (one.contains(at) || at.contains(one) || one.parentElement.contains(at));
  }
  return { html: one.outerHTML.slice(0, 140), seen: Boolean(seen), open, tag: one.tagName };
}"""


class Keyboard:
    """Walks with Tab and taps with Enter and Space; remembers what was wrong with what it came by."""

    def __init__(self, phone: Phone) -> None:
        self.page: Page = phone.page
        self.cdp = phone.context.new_cdp_session(phone.page)
        self.faults: list[str] = []

    def tab_to(self, role: str, name: str, *, back: bool = False) -> None:
        """Press Tab until the thing of this role and name has the focus."""
        came_by = []
        for _ in range(MOST_STOPS):
            self.page.keyboard.press("Shift+Tab" if back else "Tab")
            found = self.look()
            came_by.append(found)
            if found[0] == role and found[1].startswith(name):
                return
        raise AssertionError(f"no {role} {name!r} by Tab; came by {came_by}")

    def press(self, role: str, name: str, key: str = "Enter", *, back: bool = False) -> None:
        """Go to a thing and press a key on it."""
        self.tab_to(role, name, back=back)
        self.page.keyboard.press(key)

    def look(self) -> tuple[str, str]:
        """Return role and name of what has the focus, as a screen reader hears them; note what is wrong with it."""
        state = self.page.evaluate(FOCUSED)
        if state is None:
            return "", ""
        role, name = self._heard()
        wrong = [said for said, bad in _judged(state, name).items() if bad]
        self.faults += [f"{state['html']}: {said}" for said in wrong]
        return role, name

    def _heard(self) -> tuple[str, str]:
        """Return role and name from Chromium's own accessibility tree."""
        thing = self.cdp.send("Runtime.evaluate", {"expression": "document.activeElement"})["result"]["objectId"]
        asked = {"objectId": thing, "fetchRelatives": False}
        node = self.cdp.send("Accessibility.getPartialAXTree", asked)["nodes"][0]
        return node.get("role", {}).get("value", ""), node.get("name", {}).get("value", "").strip()


def _judged(state: dict[str, Any], name: str) -> dict[str, bool]:
    return {
        "has no name": not name,
        "does not show that it has the focus (WCAG 2.4.7)": not state["seen"],
        "is hidden behind something (WCAG 2.4.11)": not state["open"],
    }
