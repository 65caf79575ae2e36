"""The car small on paper, from above and its underside: places hatched, the denser the more; black alone.

`car_drawing.json` is the app's own drawing (pwa/src/view/car), written by its test `car_on_paper.test.ts`.
"""

import json
from collections.abc import Mapping
from decimal import Decimal
from functools import cache
from importlib.resources import files
from math import ceil

from shuntbook.document.car_file import Json
from shuntbook.document.wording import Wording

SIDES = ("top", "under")
"""Together they show every place; the two from beside show none of their own."""
STEPS = 4
APART = {1: 40, 2: 26, 3: 16, 4: 16}
"""Units between a hatching's lines by its step; the densest is crossed. Wider than the app's: it is printed small."""
STYLE = (
    ".body,.mirror{fill:#fff;stroke:#000;stroke-width:5}.glass,.lamp,.trim{fill:none;stroke:#000;stroke-width:2}"
    ".tread{fill:#000}.zone{stroke:none}"
)
GAP = 60


def car_drawing(steps: Mapping[str, int], said: str, wording: Wording) -> Json:
    """Return the drawing as SVG with its text alternative. steps: zone → 1 to 4; said: what a hatching means."""
    sides = [_drawn()[side] for side in SIDES]
    width = sum(side["width"] for side in sides) + GAP
    inner, left = "", 0
    for side in sides:
        inner += f'<g transform="translate({left} 0)">{side["body"]}{_zones(side["zones"], steps)}</g>'
        left += side["width"] + GAP
    height = max(side["height"] for side in sides)
    frame = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}">'
    svg = f"{frame}<style>{STYLE}</style><defs>{_hatchings()}</defs>{inner}</svg>"
    return {"svg": svg, "said": said, "alt": _alt(steps, said, wording)}


def steps_of(amounts: Mapping[str, Decimal]) -> dict[str, int]:
    """Return zone → step, quarters of the largest amount; what has none is left out. Mirrors the app's `stepOf`."""
    most = max(amounts.values(), default=Decimal(0))
    return {zone: min(STEPS, ceil(amount * STEPS / most)) for zone, amount in amounts.items() if amount > 0}


def _zones(zones: Mapping[str, str], steps: Mapping[str, int]) -> str:
    shown = [(d, steps[zone]) for zone, d in zones.items() if zone in steps]
    return "".join(f'<path class="zone" d="{d}" fill="url(#h{step})"/>' for d, step in shown)


def _hatchings() -> str:
    found = ""
    for step, apart in APART.items():
        lines = f"M0 0V{apart}{f'M0 0H{apart}' if step == STEPS else ''}"
        found += (
            f'<pattern id="h{step}" width="{apart}" height="{apart}" patternUnits="userSpaceOnUse"'
            f' patternTransform="rotate(45)"><path d="{lines}" stroke="#000" stroke-width="5" fill="none"/></pattern>'
        )
    return found


def _alt(steps: Mapping[str, int], said: str, wording: Wording) -> str:
    named = [wording.zone(zone) for zone, _ in sorted(steps.items(), key=lambda one: (-one[1], one[0]))]
    places = ", ".join(named) or wording.say("no place")
    return wording.say(
        "The car from above and its underside, left and right as seated. {said}: {places}", said=said, places=places
    )


@cache
def _drawn() -> Json:
    drawn: Json = json.loads((files("shuntbook.document") / "car_drawing.json").read_text("utf8"))
    return drawn
