/**
 * Entries as a run of QR codes, read in any order.
 *
 * A code's text is `SB1:` and, in base45, 8 bytes of the SHA-256 of all that is packed, the code's number from 0, how
 * many there are, and its piece. The hash names the run and is checked over the whole at its end.
 */

import { sha256 } from "@noble/hashes/sha2.js";
import type { Entry } from "../kit/api";
import { base45, fromBase45 } from "./base45";
import { pack, unpack } from "./packing";

const MARK = "SB1:";
const HASH_BYTES = 8;
const HEAD_BYTES = HASH_BYTES + 2;

/** A piece so large makes a code of version 15 at level M (ISO/IEC 18004, table 7: 600 characters), good to read. */
export const MOST_PIECE_BYTES = 387;

/** One byte counts them; so many take a minute to read already. */
export const MOST_CODES = 99;

/** Runs begun at a time: whoever scans two phones by turns loses nothing. */
const MOST_RUNS = 4;

/** Return the texts of the codes for entries, or null where they are too much for codes. */
export function codesOf(entries: Entry[]): string[] | null {
  const packed = pack(entries);
  const count = Math.max(1, Math.ceil(packed.length / MOST_PIECE_BYTES));
  if (count > MOST_CODES) return null;
  const size = Math.ceil(packed.length / count);
  const hash = hashOf(packed);
  return Array.from({ length: count }, (_, number) => {
    const piece = packed.subarray(number * size, (number + 1) * size);
    return MARK + base45(Uint8Array.of(...hash, number, count, ...piece));
  });
}

/** What a code that was read did. `damaged`: all are here and do not fit together; they are forgotten. */
export type Read =
  | { read: "foreign" }
  | { read: "piece"; have: number; of: number; is_new: boolean }
  | { read: "damaged" }
  | { read: "whole"; items: unknown[]; of: number };

export interface Reader {
  take(text: string): Read;
}

interface Run {
  hash: Uint8Array;
  pieces: (Uint8Array | undefined)[];
}

/** Make a reader of codes. */
export function openReader(): Reader {
  const runs = new Map<string, Run>();
  return { take: (text) => take(runs, text) };
}

function take(runs: Map<string, Run>, text: string): Read {
  const code = codeOf(text);
  if (!code) return { read: "foreign" };
  const { hash, number, count, piece } = code;
  // The count belongs to the name: a damaged head begins another run and spoils none.
  const name = `${count} ${hash.join()}`;
  const run = runs.get(name) ?? begin(runs, name, hash, count);
  const is_new = run.pieces[number] === undefined;
  if (is_new) run.pieces[number] = piece;
  const have = run.pieces.filter((one) => one !== undefined).length;
  if (have < count) return { read: "piece", have, of: count, is_new };
  runs.delete(name);
  return whole(run);
}

function begin(runs: Map<string, Run>, name: string, hash: Uint8Array, count: number): Run {
  const run = { hash, pieces: new Array<Uint8Array | undefined>(count).fill(undefined) };
  runs.set(name, run);
  const [oldest] = runs.keys();
  if (runs.size > MOST_RUNS && oldest !== undefined) runs.delete(oldest);
  return run;
}

function whole({ hash, pieces }: Run): Read {
  const packed = Uint8Array.from(pieces.flatMap((piece) => [...(piece ?? [])]));
  const items = hashOf(packed).every((byte, place) => byte === hash[place]) ? unpack(packed) : null;
  return items ? { read: "whole", items, of: pieces.length } : { read: "damaged" };
}

function codeOf(text: string) {
  const bytes = text.startsWith(MARK) ? fromBase45(text.slice(MARK.length)) : null;
  if (!bytes || bytes.length <= HEAD_BYTES) return null;
  const hash = bytes.slice(0, HASH_BYTES);
  const [number = 0, count = 0] = bytes.subarray(HASH_BYTES, HEAD_BYTES);
  if (number >= count || count > MOST_CODES) return null;
  return { hash, number, count, piece: bytes.slice(HEAD_BYTES) };
}

const hashOf = (bytes: Uint8Array): Uint8Array => sha256(bytes).slice(0, HASH_BYTES);
