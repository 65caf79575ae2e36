"""Voice notes: recorded without signal by holding or by two taps, sent later, heard on another phone."""

from collections.abc import Callable

import pytest
from cameras import phone_with_microphone
from crew import Member
from engines import engine
from phones import Phone
from playwright.sync_api import Playwright, expect
from server import Server

RECORD = "Voice note: hold or tap"
KEPT = "Voice note kept."


@pytest.mark.longer
@pytest.mark.keeps_app
def test_said_without_signal_sent_later_and_heard_in_service(
    empty_server: Server, playwright: Playwright, new_phone: Callable[[], Phone]
) -> None:
    bodo = Member(empty_server, new_phone(), "p-bodo", "41")
    bodo.phone.join(empty_server, "p-bodo")
    with phone_with_microphone(playwright) as phone:
        page = phone.join(empty_server, "p-toma")
        toma = Member(empty_server, phone, "p-toma", "41")
        phone.context.set_offline(True)
        toma.logs("Front left", "Wheel rim")
        page.get_by_role("button", name=RECORD).hover()
        page.mouse.down()
        toma.sees("Recording 0:01. Let go to keep it")
        # Chromium's false microphone beeps once a second: the bar that shows it is not empty for long. Without a sound
        # card, Firefox starts no AudioContext, and the app shows no bar.
        if engine().name == "chromium":
            expect(page.locator(".level > div:not([style='width: 0%;'])")).to_have_count(1)
        page.mouse.up()
        toma.sees(KEPT)
        held, tapped = (
            page.get_by_role("button", name="Play voice note of Toma"),
            page.get_by_role("button", name=RECORD),
        )
        expect(held).to_have_count(1)
        tapped.press("Enter")  # a key that is let go at once is a tap
        toma.sees("Recording 0:01. Tap to keep it")
        page.get_by_role("button", name="Tap to keep it").press("Enter")
        expect(held).to_have_count(2)
        page.get_by_role("button", name="Take back").last.click()
        expect(held).to_have_count(2)  # for good, so one tap does not do it
        page.get_by_role("button", name="Tap again to take it back").click()
        expect(held).to_have_count(1)
        held.first.click()
        page.get_by_role("button", name="Pause voice note of Toma").wait_for()

        phone.context.set_offline(False)
        [report] = toma.wrote("report.filed")
        first, _ = toma.wrote("voice.linked", 2)
        assert first["subject"] == report["id"]
        assert 1 <= first["data"]["seconds"] < 10
        # Its sound goes after it, as photos do; then service hears it at the job, and again with no server.
        toma.at("me")
        toma.sees("No photo or voice note waiting")
        for offline in (False, True):
            bodo.phone.context.set_offline(offline)
            page = bodo.opens("front-left/wheel")
            page.get_by_role("button", name="Play voice note of Toma").first.click()
            bodo.page.get_by_role("button", name="Pause voice note of Toma").wait_for()
    assert bodo.phone.complaints == []


@pytest.mark.longer
def test_a_phone_that_refuses_the_microphone_says_what_to_do(
    empty_server: Server, new_phone: Callable[[], Phone]
) -> None:
    phone = new_phone()
    phone.join(empty_server, "p-toma")
    toma = Member(empty_server, phone, "p-toma", "41")
    toma.logs("Front left", "Wheel rim")
    toma.tap(RECORD)
    toma.sees("Write a note")
