"""The app's main job in WebKit: hits logged with no server, in a browser that dies, arrive once, signed, with photo."""

import hashlib
import io
from pathlib import Path
from urllib.error import HTTPError

from PIL import Image
from server import Server

from .conftest import Pockets
from .phone import WebKitPhone

CAR = "51"


def photo_on(server: Server, name: str) -> bytes | None:
    """Return a photo's bytes as the server gives them, or None while it has none."""
    try:
        return server.call("GET", f"/photos/{name}", server.manager)
    except HTTPError as error:
        error.close()
        return None


def test_a_hit_outlives_server_and_browser_and_arrives_once_with_its_photo(
    team: Server, pocket: Pockets, picture: Path
) -> None:
    toma = pocket("p-toma", CAR)
    team.stop()
    toma.logs("Front left", "Wheel rim")
    toma.upload("input[type=file]", picture)
    toma.css(".kept img")
    toma.reload()
    toma.logs("Front right", "Wheel rim")
    toma.kill()

    toma.open()
    toma.go(f"{team.url}/#/reports")
    toma.sees("Waiting")
    team.start()
    toma.until(lambda: len(team.entries(CAR)) == 3, "three entries on the server")
    assert [one["kind"] for one in team.entries(CAR)] == ["report.filed", "report.amended", "report.filed"]
    # Unsigned entries, and ones whose signature does not fit, would have been set aside.
    assert all(one["sig"] for one in team.entries(CAR))
    assert team.get("/set-aside", team.manager) == []
    arrives_stripped(team, toma)
    toma.sees("Sent")
    toma.misses("Waiting")
    jobs = [job["job"] for job in team.queue(CAR)["jobs"] if not job["knock_on"]]
    assert sorted(jobs) == ["front-left/wheel", "front-right/wheel"]


def arrives_stripped(team: Server, phone: WebKitPhone) -> None:
    """The photo comes smaller, upright, and without what the camera wrote beside it."""
    [name] = team.entries(CAR, "report.amended")[0]["data"]["photos"]
    data = phone.until(lambda: photo_on(team, name), "the photo on the server")
    assert hashlib.sha256(data).hexdigest() == name
    with Image.open(io.BytesIO(data)) as image:
        assert image.size == (1200, 1600), "upright, as it was turned by EXIF"
        assert not image.getexif()
    assert b"Exif" not in data
