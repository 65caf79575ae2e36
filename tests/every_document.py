"""Every document of a car, and a car whose log has something for each of them."""

from collections.abc import Callable

from document_cases import car_file, pictures
from making import Pen
from shuntbook.cost.sheet import cost_sheet
from shuntbook.document.car_file import CarFile, Json
from shuntbook.document.cost_statement import cost_statement
from shuntbook.document.declaration import declaration
from shuntbook.document.hand_over import hand_over
from shuntbook.document.job_sheet import job_sheet
from shuntbook.document.parts_order import parts_order
from shuntbook.document.record import record
from shuntbook.document.restart import restart_sheet
from shuntbook.setup.folder import Setup

PHOTOS = pictures(3)
Make = Callable[[CarFile, str], Json]


def costs_of(file: CarFile, paper: str) -> Json:
    """Return the data of the car's cost statement."""
    costs = cost_sheet({file.car: file.entries}, file.setup, file.car)
    return cost_statement(costs, file.setup, [file], paper)


DOCUMENTS: dict[str, Make] = {
    "restart-sheet": restart_sheet,
    "job-sheet": job_sheet,
    "hand-over": hand_over,
    "declaration": declaration,
    "record": record,
    "parts-order": lambda file, paper: parts_order(file, paper, True),
    "costs": costs_of,
}


def storied_car(pen: Pen, setup: Setup) -> CarFile:
    """A car that was handed over, hit, repaired, looked at, and stopped."""
    shas = list(PHOTOS)
    mark = pen.filed("front-end/badge marked", where="hand-over", photos=[shas[2]])
    walk = pen.entry(
        "handover.signed",
        walk="out",
        odometer_km="18342",
        marks=[mark["id"]],
        photos=[{"view": "front", "photo": shas[2]}],
    )
    hit = pen.filed("front-left/wheel bent", stage="SS2", km=5.2, cause="stone", direction=10, photos=[shas[0]])
    done = pen.finished("front-left/wheel", hit, action="swap", minutes=9, parts=[{"part": "rim", "qty": 1}])
    after = pen.entry("photo.linked", "front-left/wheel", photo=shas[1], caption="New rim on")
    look = pen.passed("front-left/brake-hose", hit, checks=[{"check": "dry", "ok": True}])
    hoop = pen.filed("cabin/main-hoop marked", stage="SS3", cause="tree", drives="no")
    seen = pen.passed(
        "cabin/main-hoop", hoop, shown_to="the chief scrutineer", official_said="May continue; show again after SS3"
    )
    stop = pen.entry("car.retired", stage="SS3")
    fence = pen.entry(
        "incident.grouped", reports=[hoop["id"]], title="Off at the bridge", property_hit="a farm fence, 6 m"
    )
    return car_file([mark, walk, hit, done, after, look, hoop, seen, stop, fence], setup, photos=PHOTOS)
