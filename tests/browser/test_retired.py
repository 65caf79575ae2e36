"""A car retires where there is no signal, the others hear of it, it restarts: screens, app bar, plan until then."""

from collections.abc import Callable

import pytest
from looking import is_as_it_should_be
from phones import Phone, wait_until
from playwright.sync_api import expect
from server import Server


@pytest.mark.longer
@pytest.mark.keeps_app
def test_retired_without_a_signal_then_a_restart_that_is_planned(
    server: Server, new_phone: Callable[[], Phone]
) -> None:
    toma, bodo = new_phone(), new_phone()
    seat, bay = toma.join(server, "p-toma"), bodo.join(server, "p-bodo")
    seat.evaluate("location.hash = '#/retired'")
    seat.get_by_role("heading", name="Retired, restart").wait_for()
    is_as_it_should_be(toma, "retired")
    toma.context.set_offline(True)
    seat.get_by_role("combobox", name="Stage").select_option("SS3")
    for _ in range(4):
        seat.get_by_role("button", name="km into the stage: +1", exact=True).click()
    seat.get_by_label("No, stopped").check()
    seat.get_by_role("combobox", name="What stopped it").select_option(index=1)
    seat.get_by_label("Event recovery").check()
    seat.get_by_role("button", name="Save: retired").click()
    seat.get_by_text("The car has retired.", exact=True).wait_for()
    seat.evaluate("location.hash = '#/log'")
    line = seat.get_by_role("link", name="Retired: SS3, km 4.0. Restart: not known yet")
    line.wait_for()
    assert server.entries("41", "car.retired") == []
    toma.context.set_offline(False)
    wait_until(seat, lambda: len(server.entries("41", "car.retired")) == 1)
    data = server.entries("41", "car.retired")[0]["data"]
    assert (data["stage"], data["km"], data["drives"]) == ("SS3", 4, "no")
    assert (data["recovered_by"], data["restart"]) == ("Event recovery", "unknown")
    assert data["cause"] in {one["subject"] for one in server.entries("41", "report.filed")}

    bay.get_by_role("link", name="Retired: SS3").click()
    bay.get_by_role("group", name="Does it restart?").get_by_label("Yes").check()
    bay.get_by_role("button", name="Ready by: +60").click()
    is_as_it_should_be(bodo, "retired, restarts")
    bay.get_by_role("button", name="Save: restarts, ready by").click()
    bay.get_by_role("button", name="Plan the work until").click()
    bay.get_by_role("button", name="Plan until").click()
    bay.get_by_role("heading", name="Everybody").wait_for()
    expect(bay.get_by_role("link", name="Restarts: ready by")).to_be_visible()
    bay.get_by_role("link", name="Job sheet").click()
    expect(bay.get_by_role("heading", level=1)).to_contain_text("Car 41, ready by")
    assert len(server.entries("41", "car.retired")) == 1
    assert len(server.entries("41", "car.restarts")) == 1

    # The co-driver's phone hears of it, and of its end.
    seat.get_by_role("link", name="Restarts: ready by").click()
    seat.get_by_role("button", name="It did not retire: it goes on").click()
    expect(seat.get_by_text("The car has retired.", exact=True)).to_have_count(0)
    seat.evaluate("location.hash = '#/log'")
    seat.get_by_role("button", name="We have stopped").wait_for()
    expect(seat.get_by_role("link", name="Restarts: ready by")).to_have_count(0)
