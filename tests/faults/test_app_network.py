"""F8, F18, F20 and F28 on the real app: partitions, portals, uploads that are cut, photos that are not there yet."""

import random
import time
from collections.abc import Callable

import pytest

from shuntbook.kit.canonical import sha256
from shuntbook.store.database import Store

from .invariants import check
from .pictures import jpeg
from .pocket import Pocket
from .proxy import CAPTIVE, CAPTIVE_BEHIND, NOTHING, REFUSED, Fault
from .tally import is_long, tries
from .yard import Yard

Pockets = Callable[..., Pocket]


@pytest.mark.longer
def test_f08_a_real_phone_behind_one_way_and_full_partitions(yard: Yard, pocket: Pockets) -> None:
    phone, chance, longest_s = pocket(keeps_app=True), random.Random(88), 10.0 if is_long() else 1.0
    recovered_s = []
    for way in ("up", "down", "both", "refused") * tries(1, 3):
        if way in ("up", "both"):
            yard.proxy.up.clear()
        if way in ("down", "both"):
            yard.proxy.down.clear()
        if way == "refused":
            yard.proxy.rule = lambda request: REFUSED
        phone.log_hit()
        time.sleep(chance.uniform(0, longest_s))
        if way == "both":
            yard.proxy.cut_open()
        yard.proxy.heal()
        recovered_s.append(yard.settle())
    check(yard, "F8", "partitions, the app", tries=len(recovered_s), recovered_s=recovered_s)


def test_f28_a_portal_answers_the_app_in_the_servers_place(yard: Yard, pocket: Pockets) -> None:
    phone, recovered_s = pocket(), []
    half = Fault(reply_bytes=160)
    for fault in (CAPTIVE, CAPTIVE_BEHIND, half) * tries(1, 3):
        yard.proxy.rule = lambda request, fault=fault: fault if request.is_api else NOTHING
        entry, asked = phone.log_hit(), yard.proxy.count("POST", "/sync")
        began = time.monotonic()
        while yard.proxy.count("POST", "/sync") < asked + 1:
            assert time.monotonic() - began < 60
            time.sleep(0.05)
        phone.page.wait_for_timeout(500)
        assert phone.own()[entry["id"]][1] == "waiting", "a page is no acknowledgement"
        yard.proxy.heal()
        recovered_s.append(yard.settle())
    check(yard, "F28", "portals and cut replies, the app", tries=len(recovered_s), recovered_s=recovered_s)


def photos_held(yard: Yard) -> set[str]:
    return {row[0] for row in Store(yard.data).db.conn.execute("SELECT photo FROM photo")}


@pytest.mark.longer
def test_f18_the_apps_upload_is_cut_at_a_random_byte(yard: Yard, pocket: Pockets) -> None:
    phone, chance, recovered_s = pocket(), random.Random(180), []
    before = photos_held(yard)
    for turn in range(tries(1, 6)):
        cuts = iter([Fault(request_bytes=chance.randrange(100_000)) for _ in range(2)])
        yard.proxy.rule = lambda request, cuts=cuts: next(cuts, NOTHING) if request.is_photo else NOTHING
        phone.log_hit()
        phone.add_photo(jpeg(600 + turn, (1600, 1200)))
        recovered_s.append(yard.settle())
        assert next(cuts, None) is None, "both cuts were met"
    held = photos_held(yard) - before
    assert len(held) == len(recovered_s)
    kept = Store(yard.data).photos
    assert all(sha256((kept / name[:2] / name).read_bytes()) == name for name in held)
    check(yard, "F18", "the app's upload cut", tries=2 * len(recovered_s), recovered_s=recovered_s)


@pytest.mark.longer
def test_f20_a_photo_that_is_not_there_yet_holds_nothing_up(yard: Yard, pocket: Pockets) -> None:
    phone, writer = pocket(), yard.phone("p-toma")
    late = jpeg(650, (640, 480))
    writer.report("front-left/wheel", photos=[sha256(late)])
    yard.settle()
    phone.phone.show("reports")
    phone.page.locator(".reports .ui-row").first.click()
    phone.page.get_by_text("Photo not on this phone yet").first.wait_for()
    phone.log_hit()
    yard.settle()
    writer.add_photo(late)
    yard.settle()
    phone.open_again("reports")
    phone.page.locator(".ui-row-photo img").first.wait_for()
    check(yard, "F20", "the app shows a placeholder, then the photo")
