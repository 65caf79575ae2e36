"""F10, F12 and F27 on the real app: a clock that lies, a token that is refused, a phone that was cloned."""

import shutil
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

import pytest
from phones import PocketPhone

from shuntbook.flow import diagnostics
from shuntbook.store.database import Store

from .invariants import check
from .pocket import Pocket
from .yard import Yard

Pockets = Callable[..., Pocket]
Browsers = Callable[..., PocketPhone]


@pytest.mark.longer
def test_f10_the_clock_of_a_real_phone_lies_and_jumps(yard: Yard, pocket: Pockets) -> None:
    times = [
        datetime(1970, 1, 1, 0, 0, 1, tzinfo=UTC),
        datetime(2099, 12, 31, 23, 59, 59, tzinfo=UTC),
        datetime(2026, 10, 25, 0, 59, 59, tzinfo=UTC),  # 02:59:59 in Vienna, the first time of two
        datetime(2026, 10, 25, 1, 0, tzinfo=UTC),  # 02:00:00 there, the second time
    ]
    logged: set[str] = set()
    for zone in ("Europe/Vienna", "Pacific/Marquesas"):
        phone = pocket("p-bodo", timezone_id=zone)
        for moment in times:
            phone.page.clock.set_fixed_time(moment)
            logged.add(phone.log_hit()["id"])
        yard.settle()
        entries = [one["entry"] for one in phone.entries() if one["mine"]]
        written = [datetime.fromisoformat(one["at"]) for one in sorted(entries, key=lambda one: one["seq"])]
        assert written == times, "each time as the phone had it, with its offset"
    offsets = {one["at"][19:] for one in yard.server.entries()}
    assert {"+02:00", "+01:00", "-09:30"} <= {offset.removeprefix(".000") for offset in offsets}
    job = yard.server.job("41", "front-left/wheel")
    assert (job["state"], job["condition"]) == ("open", "bent")
    assert logged <= set(job["findings"])
    assert len(logged) == 8
    check(yard, "F10", "the app's clock set to 1970, 2099 and about summer time's end", tries=8)


def end_token(yard: Yard, device: str) -> None:
    """Have the server forget a device's token, as one restored from an older copy has."""
    with Store(yard.data).write() as db:
        done = db.conn.execute("UPDATE device SET token_hash = 'forgotten' || device WHERE device = ?", [device])
        assert done.rowcount == 1


@pytest.mark.longer
def test_f12_a_token_is_refused_while_sending_and_another_person_joins(yard: Yard, pocket: Pockets) -> None:
    phone = pocket("p-bodo")
    first = phone.log_hit()
    yard.settle()
    end_token(yard, first["device"])
    entries = [phone.log_hit() for _ in range(2)]
    phone.phone.show("me")
    phone.page.get_by_text("does not know you on this phone any more").first.wait_for()
    assert [phone.own()[one["id"]][1] for one in entries] == ["waiting", "waiting"], "the outbox is kept"
    phone.page.goto(phone.doorway.link("p-kasp"))
    recovered_s = [yard.settle()]
    held = {one["id"]: one for one in yard.server.entries()}
    assert all(held[one["id"]]["person"] == "p-bodo" for one in entries), "its author is who wrote it"
    assert all(held[one["id"]]["device"] == first["device"] for one in entries)
    check(yard, "F12", "401 while sending, another person joins", recovered_s=recovered_s)


@pytest.mark.longer
def test_f12_the_same_person_joins_again(yard: Yard, pocket: Pockets) -> None:
    phone = pocket("p-anni")
    first = phone.log_hit()
    yard.settle()
    end_token(yard, first["device"])
    refused = phone.log_hit()
    phone.phone.show("me")
    phone.page.get_by_text("does not know you on this phone any more").first.wait_for()
    phone.page.goto(phone.doorway.link("p-anni"))
    recovered_s = [yard.settle()]
    after = phone.log_hit()
    yard.settle()
    assert (refused["seq"], after["seq"]) == (2, 1), "a new device counts for itself"
    check(yard, "F12", "401 while sending, the same person joins again", recovered_s=recovered_s)


@pytest.mark.longer
def test_f27_a_real_phone_is_cloned(make_yard: Callable[..., Yard], own_browser: Browsers, tmp_path: Path) -> None:
    yard = make_yard()
    yard.server.start()
    first = Pocket(yard, own_browser(tmp_path / "one"))
    device = first.log_hit()["device"]
    yard.settle()
    first.phone.context.close()
    shutil.copytree(tmp_path / "one", tmp_path / "two", symlinks=True, ignore=shutil.ignore_patterns("Singleton*"))
    first.open_again("log")
    clone = Pocket(yard, own_browser(tmp_path / "two"), has_joined=True)
    clone.page.goto(f"{yard.proxy.url}/#/log")
    for pocket in (first, clone):
        assert pocket.log_hit()["seq"] == 2
    yard.settle()
    (seen,) = [one for one in diagnostics.devices(Store(yard.data)) if one.device == device]
    assert (seen.entries, seen.twice) == (3, [2]), "the clash is seen, both are kept"
    first.phone.show("me")
    first.page.get_by_text(f"phone {device}: number 2 has come twice").wait_for()
    check(yard, "F27", "a real phone copied with all that it holds", clones=True)
