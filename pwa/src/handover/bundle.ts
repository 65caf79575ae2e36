/** The bundle: what a phone holds of an event as one file, and such a file read. The server's command has the same format. */

import type { Device, Entry } from "../kit/api";
import { BadBundle, digestOf, type Files, unzipped, zipped } from "./zip";

const FORMAT = "shuntbook-bundle";
const VERSION = 1;
const MANIFEST = "manifest.json";
const MANIFEST_HASH = "manifest.sha256";
const ENTRIES = "entries.jsonl";
const DEVICES = "devices.json";
const PHOTOS = "photos/";
const MOST_PHOTO_BYTES = 12 << 20;
const MOST_LISTED_BYTES = 256 << 20;
const LISTED = [MANIFEST, MANIFEST_HASH, ENTRIES, DEVICES, "set_aside.jsonl", "trusted.json"];
/** Set-ups, which a phone takes from its server only; they are checked with the rest. */
const SETUP = /^setup\/(?!\.+\/)[\w.~%-]+\/(rates\/)?[\w-]+\.(toml|csv)$/;

/** What a phone hands over. log_id: of the server's log that it knew. */
export interface Bundle {
  made_at: string;
  log_id: string | null;
  entries: Entry[];
  devices: Device[];
  photos: { photo: string; bytes: Uint8Array }[];
}

/** What a file holds, checked whole; `lines` are not read yet. */
export interface Opened {
  lines: string[];
  photos: { photo: string; bytes: Uint8Array; type: string }[];
}

interface Member {
  name: string;
  sha256: string;
  bytes: number;
}

/** Return a bundle's bytes. */
export function bundleOf(bundle: Bundle): Uint8Array<ArrayBuffer> {
  const files: Files = new Map();
  files.set(ENTRIES, utf8(bundle.entries.map((entry) => `${JSON.stringify(entry)}\n`).join("")));
  files.set(DEVICES, utf8(JSON.stringify(bundle.devices)));
  for (const { photo, bytes } of bundle.photos) files.set(PHOTOS + photo, bytes);
  const listed = [...files].map(([name, bytes]): Member => ({ name, sha256: digestOf(bytes), bytes: bytes.length }));
  const { made_at, log_id, entries } = bundle;
  const manifest = utf8(
    JSON.stringify({ format: FORMAT, v: VERSION, made_at, log_id, entries: entries.length, files: listed }),
  );
  files.set(MANIFEST, manifest);
  files.set(MANIFEST_HASH, utf8(digestOf(manifest)));
  return zipped(files, (name) => name.startsWith(PHOTOS));
}

/** Read a bundle, from a phone or a server. Errors: BadBundle with all that is damaged; nothing is to be taken then. */
export function openBundle(bytes: Uint8Array): Opened {
  const files = unzipped(bytes, mostBytes);
  const missing = [MANIFEST, MANIFEST_HASH, ENTRIES].filter((name) => !files.has(name));
  if (missing.length > 0) throw new BadBundle(missing.map((name) => `${name}: is missing`).join("\n"));
  const manifest = bytesOf(files, MANIFEST);
  if (textOf(files, MANIFEST_HASH).trim() !== digestOf(manifest)) {
    throw new BadBundle(`${MANIFEST}: its SHA-256 is not the one in ${MANIFEST_HASH}`);
  }
  const { entries, files: members } = readManifest(textOf(files, MANIFEST));
  const faults = faultsOf(files, members);
  if (faults.length > 0) throw new BadBundle(faults.join("\n"));
  const lines = textOf(files, ENTRIES)
    .split("\n")
    .filter((line) => line.trim() !== "");
  if (lines.length !== entries)
    throw new BadBundle(`${ENTRIES}: ${lines.length} entries, the manifest says ${entries}`);
  return { lines, photos: photosOf(files) };
}

function mostBytes(name: string): number | null {
  if (LISTED.includes(name) || SETUP.test(name)) return MOST_LISTED_BYTES;
  return /^(photos\/[0-9a-f]{64}|papers\/[0-9a-f-]{36}\.(a4|letter)\.pdf)$/.test(name) ? MOST_PHOTO_BYTES : null;
}

function readManifest(text: string): { entries: number; files: Member[] } {
  const manifest = parsed(text) as Partial<Record<string, unknown>> | null;
  if (manifest?.format !== FORMAT || manifest.v !== VERSION) {
    throw new BadBundle(`${MANIFEST}: this app reads ${FORMAT} ${VERSION} only. A newer app may read it`);
  }
  const { entries, files } = manifest;
  if (!Number.isSafeInteger(entries) || !Array.isArray(files) || !files.every(isMember)) {
    throw new BadBundle(`${MANIFEST}: can't be read`);
  }
  return { entries: entries as number, files };
}

function isMember(value: unknown): value is Member {
  const { name, sha256, bytes } = (value ?? {}) as Partial<Member>;
  return typeof name === "string" && typeof sha256 === "string" && Number.isSafeInteger(bytes);
}

function faultsOf(files: Files, members: Member[]): string[] {
  const said = new Map(members.map((member) => [member.name, member]));
  const here = [...files.keys()].filter((name) => name !== MANIFEST && name !== MANIFEST_HASH);
  const faults = here.filter((name) => !said.has(name)).map((name) => `${name}: is not in the manifest`);
  if (said.size !== members.length) faults.push(`${MANIFEST}: names a file twice`);
  for (const { name, sha256, bytes } of said.values()) {
    const file = files.get(name);
    if (!file) faults.push(`${name}: is in the manifest and missing`);
    else if (file.length !== bytes || digestOf(file) !== sha256) faults.push(`${name}: its SHA-256 does not fit`);
  }
  return faults;
}

function photosOf(files: Files): Opened["photos"] {
  const photos: Opened["photos"] = [];
  const faults: string[] = [];
  for (const [name, bytes] of files) {
    if (!name.startsWith(PHOTOS)) continue;
    const photo = name.slice(PHOTOS.length);
    const type = typeOf(bytes);
    if (digestOf(bytes) !== photo) faults.push(`${name}: its bytes are others`);
    else if (!type) faults.push(`${name}: is no JPEG, PNG or WebP, and no voice note`);
    else photos.push({ photo, bytes, type });
  }
  if (faults.length > 0) throw new BadBundle(faults.join("\n"));
  return photos;
}

/**
 * By the first bytes: JPEG (ITU T.81), PNG, WebP in RIFF; of voice notes WebM (RFC 8794), Ogg (RFC 3533), MP4
 * (ISO/IEC 14496-12). The server looks closer.
 */
function typeOf(bytes: Uint8Array): string | null {
  const begin = String.fromCharCode(...bytes.subarray(0, 12));
  if (begin.startsWith("\xff\xd8\xff")) return "image/jpeg";
  if (begin.startsWith("\x89PNG\r\n\x1a\n")) return "image/png";
  if (begin.startsWith("RIFF") && begin.endsWith("WEBP")) return "image/webp";
  if (begin.startsWith("\x1aE\xdf\xa3")) return "audio/webm";
  if (begin.startsWith("OggS")) return "audio/ogg";
  return begin.slice(4, 8) === "ftyp" ? "audio/mp4" : null;
}

const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);

const bytesOf = (files: Files, name: string): Uint8Array => files.get(name) ?? new Uint8Array();

function textOf(files: Files, name: string): string {
  return new TextDecoder().decode(bytesOf(files, name));
}

/** Return a JSON text's value, or null where it is none. */
export function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    if (error instanceof SyntaxError) return null;
    throw error;
  }
}
