/** Makes and takes what passes without a network: bundles and codes. Loaded when it is first used. */

import encodeQR from "qr";
import { bundleOf, openBundle, parsed } from "../handover/bundle";
import { codesOf } from "../handover/codes";
import { entryOf } from "../handover/shape";
import { BadBundle } from "../handover/zip";
import type { Entry } from "../kit/api";
import type { BundleTaken, Code, MadeBundle, TakenIn } from "../report/handed";
import { entriesOf } from "../report/lists";
import { byTime } from "../report/order";
import { setupHere } from "../store/answers";
import type { Db } from "../store/db";
import { isWithheld } from "../report/withheld";
import { entriesHere } from "../store/entries";
import { type HandedPhoto, keepHanded, photosHere } from "../store/handover";
import { readMeta } from "../store/meta";
import { signedEntries } from "../store/signatures";
import type { RunningCore } from "./core";
import { judged } from "./judging";
import { shareOf } from "./sharing";

/** Modules of white around a code (ISO/IEC 18004, 6.3.8). */
const QUIET = 4;
const TYPE = "application/zip";

/** Make a file of all that this phone holds of the event: entries, the photos that are here, devices. */
export async function makeBundle(core: RunningCore): Promise<MadeBundle> {
  const db = await core.db;
  const event = core.snapshot().state.setup?.event ?? null;
  const entries = (await entriesNow(db)).filter((entry) => event === null || entry.event === event);
  const photos = await photosHere(db, entries);
  const made_at = new Date(core.now()).toISOString();
  const bytes = bundleOf({
    made_at,
    log_id: await readMeta(db, "log_id"),
    entries,
    devices: (await setupHere(db))?.answer.devices ?? [],
    photos: photos.map(({ photo, bytes }) => ({ photo, bytes: new Uint8Array(bytes) })),
  });
  const name = `shuntbook-${event ?? "event"}-${made_at.slice(0, 16).replaceAll(/[-:]/g, "")}.zip`;
  const file = new File([bytes], name, { type: TYPE });
  const url = URL.createObjectURL(file);
  return { name, url, bytes: bytes.length, entries: entries.length, photos: photos.length, share: shareOf(file) };
}

// What is not signed yet is signed first: nobody else could.
async function entriesNow(db: Db): Promise<Entry[]> {
  await signedEntries(db);
  const entries = entriesOf(await entriesHere(db));
  return entries.filter((entry) => !isWithheld(entry)).sort(byTime);
}

/** Take a file in: checked whole first, a damaged one is refused whole. */
export async function takeBundle(core: RunningCore, file: Blob): Promise<BundleTaken> {
  try {
    const { lines, photos } = openBundle(new Uint8Array(await file.arrayBuffer()));
    return { taken: await takeItems(core, lines.map(parsed), photos) };
  } catch (error) {
    if (error instanceof BadBundle) return { damaged: error.message.split("\n") };
    throw error;
  }
}

/** Keep entries and photos that were handed over; those that are entries wait to be sent. */
export async function takeItems(core: RunningCore, items: unknown[], photos: HandedPhoto[]): Promise<TakenIn> {
  const db = await core.db;
  const entries = items.map(entryOf).filter((entry) => entry !== null);
  const kept = await keepHanded(db, await judged(db, entries), photos, new Date(core.now()).toISOString());
  await core.refresh();
  core.written();
  return { ...kept, unreadable: items.length - entries.length };
}

/** Return the codes for reports with all their versions, or null where they are too much for codes. */
export async function codesFor(core: RunningCore, reports: string[]): Promise<Code[] | null> {
  const { car, setup } = core.snapshot().state;
  const isAsked = (entry: Entry) =>
    entry.event === setup?.event && entry.car === car && reports.includes(entry.subject ?? "");
  const entries = (await entriesNow(await core.db)).filter(isAsked);
  const texts = entries.length > 0 ? codesOf(entries) : [];
  return texts?.map(drawn) ?? null;
}

function drawn(text: string): Code {
  return encodeQR(text, "raw", { ecc: "medium", encoding: "alphanumeric", border: QUIET });
}
