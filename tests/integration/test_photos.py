"""Photos over HTTP: named by their hash, checked against it, whole or absent."""

import hashlib
import io
import threading

import pytest
from PIL import Image

from shuntbook.store import photos


def jpeg(colour: str = "red", size: tuple[int, int] = (400, 200), orientation: int | None = None) -> bytes:
    image = Image.new("RGB", size, colour)
    exif = image.getexif()
    if orientation:
        exif[0x0112] = orientation
        exif.get_ifd(0x8825)[1] = "N"
    out = io.BytesIO()
    image.save(out, "JPEG", exif=exif)
    return out.getvalue()


def name(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


@pytest.fixture
def put(client, join):
    headers = join("co-driver")

    def send(data: bytes, digest: str | None = None, kind: str = "image/jpeg"):
        path = f"/api/v1/photos/{digest or name(data)}"
        return client.put(path, data=data, headers=headers, content_type=kind)

    return send


@pytest.fixture
def fetch(phone):
    reader = phone("mechanic")
    return lambda digest, query="": reader.get(f"/photos/{digest}{query}")


def test_a_photo_is_kept_once_and_given_back_byte_for_byte(put, fetch):
    data = jpeg()
    first, again = put(data), put(data)
    assert (first.status_code, again.status_code) == (201, 200)
    assert first.get_json() == again.get_json() == {"photo": name(data), "width": 400, "height": 200}
    answer = fetch(name(data))
    assert (answer.data, answer.content_type) == (data, "image/jpeg")
    assert "immutable" in answer.headers["Cache-Control"]


def test_a_head_tells_whether_it_is_held_without_a_body(put, client, join):
    data, headers = jpeg(), join("driver")
    path = f"/api/v1/photos/{name(data)}"
    assert client.head(path, headers=headers).status_code == 404
    put(data)
    answer = client.head(path, headers=headers)
    assert (answer.status_code, answer.data, answer.headers["Content-Length"]) == (200, b"", str(len(data)))


@pytest.mark.parametrize(("kind", "media"), [("PNG", "image/png"), ("WEBP", "image/webp")])
def test_other_kinds_are_known_by_their_bytes_not_by_what_the_phone_says(put, fetch, kind, media):
    out = io.BytesIO()
    Image.new("RGB", (40, 30)).save(out, kind)
    assert put(out.getvalue(), kind="text/html").status_code == 201
    assert fetch(name(out.getvalue())).content_type == media


def test_a_thumbnail_is_upright_and_without_place(put, fetch):
    data = jpeg(orientation=6)
    assert put(data).get_json()["height"] == 400
    answer = fetch(name(data), "?width=160")
    small = Image.open(io.BytesIO(answer.data))
    assert (small.size, answer.content_type, b"Exif" in answer.data) == ((160, 320), "image/jpeg", False)


@pytest.mark.parametrize(
    ("width", "given"), [("1", 160), ("200", 320), ("9999", 400), ("0", 160), ("-5", 160), ("x", 400)]
)
def test_any_width_gets_a_sensible_picture(put, fetch, width, given):
    data = jpeg()
    put(data)
    assert Image.open(io.BytesIO(fetch(name(data), f"?width={width}").data)).width == given


@pytest.mark.parametrize(
    "spoil", [lambda d: d[:-1], lambda d: d + b"x", lambda d: d[:200] + bytes(64) + d[264:], lambda d: b""]
)
def test_bytes_that_are_not_those_of_the_name_are_refused(put, fetch, spoil):
    data = jpeg()
    answer = put(spoil(data), name(data))
    assert (answer.status_code, answer.get_json()["type"].rsplit("/", 1)[1]) == (422, "bad-photo")
    assert fetch(name(data)).status_code == 404


@pytest.mark.parametrize("data", [b"<svg xmlns='http://www.w3.org/2000/svg'/>", b"GIF89a" + bytes(20), jpeg()[:300]])
def test_what_is_no_picture_is_refused_even_under_its_own_name(put, data, sample_store):
    assert put(data).status_code == 422
    assert not photos.path_of(sample_store, name(data)).exists()


@pytest.mark.parametrize(
    "digest",
    ["..%2f..%2fshuntbook.sqlite", "../../shuntbook.sqlite", "%2e%2e/%2e%2e/secret.txt", "A" * 64, "a" * 63, "a" * 65,
     "a" * 64 + "%00", "a" * 62 + "/a", "%2fetc%2fpasswd"],
)  # fmt: skip
def test_a_name_that_is_no_hash_finds_nothing(put, fetch, digest):
    assert fetch(digest).status_code == 404
    assert put(jpeg(), digest).status_code in (404, 405)


def test_a_photo_that_was_damaged_on_the_disk_is_not_shown_and_heals_when_sent_again(put, fetch, sample_store):
    data = jpeg()
    put(data)
    path = photos.path_of(sample_store, name(data))
    path.write_bytes(data[:-4] + b"\x00\x00\x00\x00")
    assert fetch(name(data)).status_code == 404
    assert put(data).status_code == 201
    assert fetch(name(data)).data == data


def test_one_photo_sent_by_eight_threads_at_once_is_one_whole_file(app, join, sample_store):
    data, headers = jpeg("blue"), join("driver")
    statuses: list[int] = []

    def send() -> None:
        path = f"/api/v1/photos/{name(data)}"
        statuses.append(app.test_client().put(path, data=data, headers=headers).status_code)

    threads = [threading.Thread(target=send) for _ in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert set(statuses) <= {200, 201}
    assert len(statuses) == 8
    folder = photos.path_of(sample_store, name(data)).parent
    assert [file.name for file in folder.iterdir() if file.name.endswith(name(data))] == [name(data)]
    assert photos.read(sample_store, name(data)) == data


def test_an_entry_may_come_before_its_photo_and_the_photo_never(phone, pen):
    sender = phone()
    sender.sync(pen.filed("front-end/grille missing", photos=["ab" * 32]))
    (job,) = [job for job in sender.queue()["jobs"] if "ab" * 32 in job["photos"]]
    assert job["job"] == "front-end/grille"
    assert sender.get(f"/photos/{'ab' * 32}").status_code == 404


def test_photos_of_the_sample_event_are_all_held(fetch, sample_store):
    held = photos.all_held(sample_store.db)
    assert len(held) >= 5
    assert all(fetch(digest, "?width=320").status_code == 200 for digest in held)


VOICE = b"OggS" + bytes(400)


def test_a_voice_note_is_kept_and_given_back_as_a_photo_is(put, fetch):
    first, again = put(VOICE, kind="audio/ogg"), put(VOICE, kind="audio/ogg")
    assert (first.status_code, again.status_code) == (201, 200)
    answer = fetch(name(VOICE))
    assert (answer.data, answer.content_type) == (VOICE, "audio/ogg")
    assert fetch(name(VOICE), "?width=160").status_code == 422
    assert put(VOICE + b"x", digest=name(VOICE)).status_code == 422
