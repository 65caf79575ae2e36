"""Puts the event's photos into a phone's own store, as if they had been taken there."""

from playwright.sync_api import Page

# The shape is PhotoRecord of pwa/src/store/db.ts.
KEEP = """async () => {
  const opened = (request) => new Promise((done, fail) => {
    request.onsuccess = () => done(request.result);
    request.onerror = () => fail(request.error);
  });
  const db = await opened(indexedDB.open("shuntbook"));
  const all = (store) => opened(db.transaction(store).objectStore(store).getAll());
  const [{ token }] = await all("identities");
  const named = (await all("entries")).flatMap(({ entry }) => entry.data.photos ?? []);
  const headers = { Authorization: `Bearer ${token}` };
  for (const photo of named) {
    const answer = await fetch(`/api/v1/photos/${photo}`, { headers });
    if (!answer.ok) throw new Error(`photo ${photo}: ${answer.status}`);
    const bytes = await answer.arrayBuffer();
    const held = { photo, bytes, type: "image/jpeg", sending: "sent", problem: null, device: null };
    const store = db.transaction("photos", "readwrite").objectStore("photos");
    await opened(store.put({ ...held, held_at: new Date().toISOString() }));
  }
  db.close();
  return named.length;
}"""


def keep_photos(page: Page) -> int:
    """Fetch and keep every photo that a report on the phone names; return how many."""
    return int(page.evaluate(KEEP))
