"""Photos shared from another app, with no network: the service worker takes them, and they wait for their place."""

import json
import urllib.request
from collections.abc import Iterator

import pytest
from phones import SIZE, Phone
from playwright.sync_api import Browser, expect
from server import Server

# The system posts a form as a navigation. A page's own form may not: so this phone does without content policy.
SHARE = """files => {
  const form = document.createElement("form");
  Object.assign(form, { action: "/share", method: "POST", enctype: "multipart/form-data" });
  const input = document.createElement("input");
  Object.assign(input, { type: "file", name: "photos", multiple: true });
  const data = new DataTransfer();
  for (const { name, type, bytes } of files) data.items.add(new File([new Uint8Array(bytes)], name, { type }));
  input.files = data.files;
  form.append(input);
  document.body.append(form);
  form.submit();
}"""


@pytest.fixture
def toma(browser: Browser) -> Iterator[Phone]:
    phone = Phone(browser.new_context(viewport=SIZE, bypass_csp=True))
    yield phone
    phone.close()
    assert phone.complaints == []


def photo(colour: str) -> bytes:
    from io import BytesIO

    from PIL import Image

    file = BytesIO()
    Image.new("RGB", (320, 240), colour).save(file, "JPEG")
    return file.getvalue()


@pytest.mark.longer
def test_photos_shared_offline_wait_for_the_place(empty_server: Server, toma: Phone) -> None:
    page = toma.join(empty_server, "p-toma")
    with urllib.request.urlopen(f"{empty_server.url}/manifest.webmanifest") as answer:
        target = json.load(answer)["share_target"]
    assert target == {
        "action": "/share",
        "method": "POST",
        "enctype": "multipart/form-data",
        "params": {"files": [{"name": "photos", "accept": ["image/*"]}]},
    }
    toma.context.set_offline(True)
    both = [{"name": f"{colour}.jpg", "type": "image/jpeg", "bytes": list(photo(colour))} for colour in ("red", "blue")]
    page.evaluate(SHARE, both)
    page.get_by_text("2 photos are kept. Tap where it was hit.").wait_for()
    assert page.url == f"{empty_server.url}/#/log"
    # Told as soon as they are kept; drawn once each has been read from the phone's store.
    expect(page.locator("img.thumb")).to_have_count(2)

    page.get_by_role("button", name="Front left").first.click()
    page.get_by_label("Wheel rim", exact=True).check()
    page.evaluate(SHARE, [{"name": "more.jpg", "type": "image/jpeg", "bytes": list(photo("white"))}])
    page.locator(".log-form img").nth(2).wait_for()
    assert page.get_by_label("Wheel rim", exact=True).is_checked(), "what was being written outlives the new page"

    page.evaluate(SHARE, [{"name": "a.txt", "type": "text/plain", "bytes": [1]}])
    page.get_by_text("1 thing that was shared is no photo").wait_for()
    page.get_by_role("button", name="Log it").click()
    page.locator(".log-form img").nth(2).wait_for()
