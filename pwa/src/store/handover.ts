/** Keeps what another phone or a file handed over, and reads what this phone hands over. */

import type { Entry, Problem } from "../kit/api";
import { saysTheSame } from "../kit/signing";
import { type Db, type EntryRecord, type PhotoRecord, type Write, write } from "./db";
import { photosOf } from "./entries";
import { putEntry } from "./held";
import { nextArrival } from "./meta";
import { paged } from "./pages";
import { photoHere } from "./photos";

/** An entry that was handed over; `problem`: why this phone can't believe it, or null. */
export interface Handed {
  entry: Entry;
  problem: Problem | null;
}

/** A photo that was handed over, checked against its name. */
export interface HandedPhoto {
  photo: string;
  bytes: Uint8Array;
  type: string;
}

/** What became of it. `conflicts`: another entry of that number is here, and stays. */
export interface Kept {
  fresh: number;
  held: number;
  conflicts: number;
  doubtful: number;
  photos: number;
}

/** Keep all that is new in one transaction; it waits to be sent like this phone's own. */
export function keepHanded(db: Db, handed: Handed[], photos: HandedPhoto[], held_at: string): Promise<Kept> {
  return write(db, ["entries", "photos", "meta"], async (tx) => {
    const kept: Kept = { fresh: 0, held: 0, conflicts: 0, doubtful: 0, photos: 0 };
    const arrival = await nextArrival(tx as unknown as Write<"meta">);
    const ids = handed.map((one) => one.entry.id);
    const in_pages = await paged(tx as unknown as Write<"meta">, ids);
    const into = tx as unknown as Write<"entries">;
    for (const one of handed) await keepEntry(into, one, in_pages, { held_at, arrival }, kept);
    for (const photo of photos) await keepPhoto(tx as unknown as Write<"photos">, photo, held_at, kept);
    return kept;
  });
}

async function keepEntry(
  tx: Write<"entries">,
  { entry, problem }: Handed,
  in_pages: Map<string, EntryRecord>,
  when: Pick<EntryRecord, "held_at" | "arrival">,
  kept: Kept,
): Promise<void> {
  const here = in_pages.get(entry.id) ?? (await tx.objectStore("entries").get(entry.id));
  if (here && here.sending !== "withheld") {
    if (saysTheSame(here.entry, entry)) kept.held++;
    else kept.conflicts++;
    return;
  }
  await putEntry(tx, { id: entry.id, entry, mine: false, sending: "waiting", problem, ...when });
  kept.fresh++;
  if (problem) kept.doubtful++;
}

async function keepPhoto(tx: Write<"photos">, handed: HandedPhoto, held_at: string, kept: Kept): Promise<void> {
  const photos = tx.objectStore("photos");
  const here = await photos.get(handed.photo);
  if (here && here.bytes.byteLength > 0 && here.sending !== "draft") return;
  const { photo, type } = handed;
  const bytes = handed.bytes.slice().buffer as ArrayBuffer;
  const record: PhotoRecord = { photo, bytes, type, sending: "waiting", problem: null, device: null, held_at };
  await photos.put(record);
  kept.photos++;
}

/** Return the photos of entries that are here whole. */
export async function photosHere(db: Db, entries: Entry[]): Promise<PhotoRecord[]> {
  const names = [...new Set(entries.flatMap(photosOf))].sort();
  const found = await Promise.all(names.map((name) => photoHere(db, name)));
  return found.filter((photo) => photo !== null);
}
