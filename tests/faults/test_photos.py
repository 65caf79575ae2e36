"""F18 to F20 and F22: photos cut on the way, damaged, early, late or missing, and small files that are huge inside."""

import random

import pytest

from shuntbook.kit.canonical import sha256

from .invariants import check
from .pictures import bomb, jpeg, with_hole
from .proxy import NOTHING, Fault
from .tally import tries
from .yard import KEYS, Peak, Simulated, Yard, problem_code


def put(phone: Simulated, name: str, data: bytes) -> tuple[int, bytes]:
    return phone.call("PUT", f"/photos/{name}", data, **{"Content-Type": "image/jpeg"})


def is_held(phone: Simulated, name: str) -> bool:
    return phone.call("HEAD", f"/photos/{name}")[0] == 200


def test_f18_an_upload_cut_at_a_random_byte_is_sent_again_whole(yard: Yard) -> None:
    phone, chance, times = yard.phone(), random.Random(18), tries(6, 80)
    for turn in range(times):
        data = jpeg(turn)
        name = sha256(data)
        phone.report(KEYS[turn % 8], photos=[phone.add_photo(data)])
        cut = Fault(request_bytes=chance.randrange(len(data)))
        yard.proxy.rule = lambda request, cut=cut: cut if request.is_photo else NOTHING
        assert not phone.round()
        assert not is_held(phone, name), "a photo with a hole is no photo"
        yard.proxy.heal()
        yard.settle()
        assert sha256(phone.call("GET", f"/photos/{name}")[1]) == name
    check(yard, "F18", "a photo's upload cut at a random byte", tries=times)


def test_f19_a_damaged_photo_is_refused_by_its_hash(yard: Yard) -> None:
    phone, count = yard.phone(), 0
    for number in range(tries(3, 20)):
        whole = jpeg(300 + number)
        for damaged in (whole[: len(whole) * 2 // 3], with_hole(whole), whole + b"x", whole[:1]):
            status, body = put(phone, sha256(whole), damaged)
            assert (status, problem_code(body)) == (422, "bad-photo")
            assert not is_held(phone, sha256(whole))
            count += 1
        cut = whole[: len(whole) * 2 // 3]
        assert put(phone, sha256(cut), cut)[0] == 422, "cut short it is no picture under its own name either"
        assert put(phone, sha256(whole), whole)[0] in (200, 201)
    check(yard, "F19", "photos truncated or with 4 KiB of zeros", tries=count)


def test_f19_a_phone_with_a_damaged_photo_goes_on_with_the_others(yard: Yard) -> None:
    phone = yard.phone()
    whole, other = jpeg(190), jpeg(191)
    phone.report(photos=[phone.add_photo(whole)])
    phone.report(photos=[phone.add_photo(other)])
    phone.outbox.db.execute("UPDATE photo SET bytes = ? WHERE photo = ?", [with_hole(whole), sha256(whole)])
    yard.settle()
    assert phone.outbox.count("attention") == 1
    assert (is_held(phone, sha256(whole)), is_held(phone, sha256(other))) == (False, True)
    check(yard, "F19", "damaged on the phone, sent under its old name")


def test_f20_entry_before_photo_photo_before_entry_photo_never(yard: Yard) -> None:
    phone, reader = yard.phone("p-toma"), yard.phone("p-bodo")
    for turn in range(tries(2, 10)):
        before, after, never = (jpeg(200 + 3 * turn + place) for place in range(3))
        assert put(phone, sha256(before), before)[0] == 201
        names = [sha256(data) for data in (before, after, never)]
        phone.report(KEYS[5], "missing", photos=names)
        assert phone.round()
        assert put(phone, names[1], after)[0] == 201
        yard.settle()
        job = yard.server.job("41", KEYS[5])
        assert set(names) <= set(job["photos"]), "the queue names all three"
        assert [is_held(reader, name) for name in names] == [True, True, False]
        status, body = reader.call("GET", f"/photos/{names[2]}")
        assert (status, b"still be on the phone" in body) == (404, True)
    check(yard, "F20", "entry first, photo first, photo never", tries=3 * tries(2, 10))


BOMBS = [(15_000, 12_000), (10_000, 10_000), (7_200, 7_200), (65_500, 65_500)]


@pytest.mark.parametrize("size", BOMBS, ids=str)
def test_f22_a_small_file_of_very_many_pixels_is_refused_before_it_is_decoded(
    yard: Yard, size: tuple[int, int]
) -> None:
    phone, data = yard.phone(), bomb(*size)
    assert put(phone, sha256(jpeg(220)), jpeg(220))[0] in (200, 201)  # what decoding needs at all is loaded
    with Peak(yard.server.worker()) as peak:
        for _ in range(tries(2, 5)):
            status, body = put(phone, sha256(data), data)
            assert (status, problem_code(body)) == (422, "bad-photo")
            assert not is_held(phone, sha256(data))
    # A bit a pixel is an eighth of a byte: the smallest of these would take 6.5 MB even so, 52 MB as Pillow holds it.
    assert peak.grown_mib < 30
    yard.settle()
    megapixels = size[0] * size[1] // 10**6
    note = f"{megapixels} megapixels in {len(data) // 1000} kB: memory grew by {peak.grown_mib:.0f} MiB"
    check(yard, "F22", "pictures of 52 to 4290 megapixels", tries=tries(2, 5), note=note)
