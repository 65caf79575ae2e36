"""The place in the stage from the phone's own position: asked for by a tap, shared by another, and by nothing else."""

from collections.abc import Callable

import pytest
from crew import Member
from phones import Phone
from playwright.sync_api import expect
from server import Server

MORE = "Km, direction, cause, note, who drives"


@pytest.mark.longer
def test_km_from_the_phone_and_the_position_only_shared_on_purpose(
    empty_server: Server, new_phone: Callable[[], Phone]
) -> None:
    phone = new_phone()
    page = phone.join(empty_server, "p-toma")
    toma = Member(empty_server, phone, "p-toma", "41")
    ask = page.get_by_role("button", name="Where is this phone? (GPS)")
    page.get_by_role("button", name="Front left").first.click()
    page.get_by_text(MORE).click()
    ask.click()
    toma.sees("This phone may not tell the app where it is.")

    phone.context.grant_permissions(["geolocation"])
    phone.context.set_geolocation({"latitude": 43.079, "longitude": -19.176, "accuracy": 12})
    ask.click()
    toma.sees("km 4.1 by GPS, give or take 12 m. 43.07900, -19.17600 (± 12 m)")
    page.get_by_role("button", name="Page of your notes: +10").click()
    page.get_by_role("button", name="Page of your notes: +1", exact=True).click()
    toma.tap("Save", exact=True)
    [filed] = toma.wrote("report.filed")
    assert (filed["data"]["km"], filed["data"]["note_page"]) == (4.1, 11)
    assert "position" not in filed["data"]

    toma.sees("SS1, km 4.1, note page 11")
    toma.tap("Change it")
    toma.sees("km 4.1 by GPS, give or take 12 m.")  # kept here, from before
    page.get_by_label("Share it with the team").click()
    toma.tap("Save the change")
    [amended] = toma.wrote("report.amended")
    assert amended["data"]["position"] == {"lat": 43.079, "lon": -19.176, "accuracy_m": 12}
    toma.at(f"report/{filed['id']}")
    expect(page.get_by_role("link", name="Open in a map")).to_have_attribute("href", "geo:43.079,-19.176;u=12")
    assert phone.complaints == []
