"""A service in WebKit: the plan on its clock, readings, what has run out, a signed walk on paper, a voice note."""

from pathlib import Path

import pytest
from PIL import Image
from pypdf import PdfReader
from server import Server

from .conftest import Pockets
from .finding import IS_SAID

MICROPHONE = """
const microphone = new AudioContext().createMediaStreamDestination().stream;
MediaDevices.prototype.getUserMedia = async () => (window.microphone = microphone);
"""
"""The page's microphone is one that hears nothing; WebKit's own false one does not always survive its end."""


def test_a_plan_is_asked_for_and_drawn_on_a_clock_for_each_person(team: Server, pocket: Pockets) -> None:
    bodo = pocket("p-bodo", "56")
    bodo.logs("Left side", "Mirror", "Broken")
    bodo.show("service")
    bodo.tap("We are in")
    bodo.sees("Due out")
    bodo.until(lambda: len(team.entries("56")) == 2, "the report and the time on the server")
    bodo.show("plan")
    bodo.tap("Plan service A")
    bodo.find("heading", "Everybody")
    bodo.misses("still being calculated")
    names = bodo.run("return [...document.querySelectorAll('.task-lists h2')].map((one) => one.innerText)")
    assert names[0] == "Bodo (you)"
    assert set(names) >= {"Anni", "Kasp", "Odil"}
    said = bodo.run("return [...document.querySelectorAll('.lane-task')].map((one) => one.ariaLabel)")
    assert any("Replace mirror, left side" in one and "planned" in one for one in said)
    drawn = "return [...document.querySelectorAll('.lane-task')].every((one) => one.getBoundingClientRect().height > 0)"
    bodo.until(lambda: bodo.run(drawn), "tasks that are drawn")


@pytest.mark.longer
def test_readings_are_saved_and_a_falling_reservoir_opens_a_brake_job(team: Server, pocket: Pockets) -> None:
    bodo = pocket("p-bodo", "57")
    bodo.show("readings")
    bodo.check("Full", inside="Brake reservoir")
    bodo.tap("Tyre pressure, Front left: +0.1", exact=True)
    bodo.tap("Save 2 readings", exact=True)
    bodo.sees("2 readings saved.")
    bodo.check("Low", inside="Brake reservoir")
    bodo.sees("The brake reservoir fell. Saving also reports the brakes")
    bodo.tap("Save 1 reading", exact=True)
    bodo.sees("1 reading saved.")
    bodo.until(lambda: len(team.entries("57")) == 4, "three readings and a report on the server")
    taken = [one["data"] for one in team.entries("57", "reading.taken")]
    assert {"reading": "tyre pressure", "value": 2, "unit": "bar", "place": "front-left"} in taken
    assert team.job("57", "engine-bay/master-cylinders-and-reservoir")["inspection"] == "needed"


@pytest.mark.longer
def test_what_ran_out_in_june_is_said_where_one_looks(pocket: Pockets) -> None:
    vera = pocket("p-vera", "59")
    for screen in ("readings", "service", "walk"):
        vera.show(screen)
        vera.sees("Fire extinguisher")
        item = vera.find("listitem", "Fire extinguisher")
        vera.until(lambda item=item: "Ran out on" in vera.run("return arguments[0].innerText", item), "it ran out")


def test_a_walk_is_signed_by_finger_and_on_paper_at_once(team: Server, pocket: Pockets, tmp_path: Path) -> None:
    vera = pocket("p-vera", "58")
    vera.sees("Papers and workbooks work without signal, too")  # what makes the paper follows in the background
    vera.show("walk")
    team.stop()
    vera.tap("Hand the car over")
    front = tmp_path / "front.jpg"
    Image.new("RGB", (1600, 1200), (40, 90, 120)).save(front)
    vera.upload(".walk-take input", front)
    vera.find("heading", "Front right, from the corner")
    vera.tap("Marks", inside="Steps of the walk")
    vera.tap("Left side")
    vera.check("Sill")
    vera.tap("Keep it, next place")
    vera.sees("Left side: Sill")
    vera.reload()  # in the middle: nothing may be lost
    vera.sees("Left side: Sill")
    vera.tap("Sign", inside="Steps of the walk")
    vera.tap("No time", inside="17 photos are missing")
    vera.fill("Name", "Zoë Ångström", inside="For the customer")
    wave = [(0.2 + 0.05 * step, 0.3 + 0.4 * (step % 2)) for step in range(8)]
    vera.draw(vera.css("svg.signature", nth=1), [wave, [(0.3, 0.8), (0.6, 0.8), (0.8, 0.7)]])
    vera.find("button", "Wipe it away")
    vera.tap("Sign", exact=True, nth=-1)
    vera.find("heading", "Signed")
    text = paper(vera.saved("Save hand-over-car"))
    for said in ("Hand-over of a car", "Sill", "For the customer: Zoë Ångström. Signed on the screen", "1. Front"):
        assert said in text, said
    team.start()
    vera.until(lambda: team.entries("58", "handover.signed"), "the walk on the server")
    [walk] = [one["data"] for one in team.entries("58", "handover.signed")]
    assert [(one["side"], one["name"], bool(one.get("photo"))) for one in walk["signed"]] == [
        ("team", "Vera", False),
        ("customer", "Zoë Ångström", True),
    ]


def paper(path: Path) -> str:
    """Return what a PDF says, white space as one blank, once it was seen to be on A4 with its fonts in it."""
    read = PdfReader(path)
    assert [round(float(side)) for side in read.pages[0].mediabox[2:]] == [595, 842]
    return " ".join(" ".join(page.extract_text() for page in read.pages).split())


def test_a_voice_note_is_recorded_or_the_phone_says_that_it_cannot(pocket: Pockets) -> None:
    toma = pocket("p-toma", "60")
    toma.logs("Rear end", "Number plate")
    toma.run(MICROPHONE)
    toma.tap("Voice note: hold or tap")
    # Debian's WebKitGTK has a recorder only beside more of GStreamer than it asks for.
    refused = "This phone or browser can't record here. Write a note instead."
    toma.until(lambda: toma.run(IS_SAID, refused) or toma.all("button", "Tap to keep it"), "a recording, or why not")
    if not toma.run(IS_SAID, refused):
        toma.tap("Tap to keep it")
        toma.find("button", "Play voice note of Toma")
    tracks = "return window.microphone.getTracks().map((one) => one.readyState)"
    toma.until(lambda: toma.run(tracks) == ["ended"], "the microphone to be off")
