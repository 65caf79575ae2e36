/**
 * A zip file's parts, checked before anything is unpacked (PKWARE APPNOTE 6.3.10).
 *
 * The file's comment, `sha256=…`, covers every byte before the comment's length: a change anywhere shows.
 */

import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex } from "@noble/hashes/utils.js";
import { unzipSync, type Zippable, zipSync } from "fflate";

export type Files = Map<string, Uint8Array>;

/** A file that is no bundle, or a damaged one; the text says all that is damaged. */
export class BadBundle extends Error {}

const SEAL = "sha256=";
const COMMENT_BYTES = SEAL.length + 64;
const END_BYTES = 22;
const END = [0x50, 0x4b, 5, 6];
const MOST_FILES = 20_000;
const MOST_RATIO = 200;
const SMALL_BYTES = 64 << 10;
/** A phone has no more room to unpack in. */
const MOST_BYTES = 512 << 20;
/** The same content gives the same bytes: a zip file can't hold an earlier time than this. */
const EPOCH = new Date(1980, 0, 1);

/** Return the SHA-256 of bytes as hex digits. */
export const digestOf = (bytes: Uint8Array): string => bytesToHex(sha256(bytes));

/** Return files as a sealed zip file; photos are stored as they are, the rest is deflated. */
export function zipped(files: Files, isStored: (name: string) => boolean): Uint8Array<ArrayBuffer> {
  const parts: Zippable = {};
  for (const [name, bytes] of files) parts[name] = [bytes, { level: isStored(name) ? 0 : 9, mtime: EPOCH }];
  const plain = zipSync(parts);
  const sealed = new Uint8Array(plain.length + COMMENT_BYTES);
  sealed.set(plain);
  new DataView(sealed.buffer).setUint16(plain.length - 2, COMMENT_BYTES, true);
  const digest = digestOf(sealed.subarray(0, plain.length - 2));
  sealed.set(new TextEncoder().encode(SEAL + digest), plain.length);
  return sealed;
}

/** Return a zip file's files. `mostBytes`: of a file of that name, null where there is none. Errors: BadBundle. */
export function unzipped(bytes: Uint8Array, mostBytes: (name: string) => number | null): Files {
  checkSeal(bytes);
  const faults: string[] = [];
  const seen = new Set<string>();
  let total = 0;
  reading(() =>
    unzipSync(bytes, {
      filter(file) {
        const most = mostBytes(file.name);
        if (seen.has(file.name)) faults.push(`${file.name}: is in it twice`);
        if (most === null) faults.push(`${file.name}: no file of a bundle has such a name`);
        else if (file.originalSize > most) faults.push(`${file.name}: ${file.originalSize} bytes, at most ${most}`);
        if (file.originalSize > Math.max(SMALL_BYTES, MOST_RATIO * file.size))
          faults.push(`${file.name}: unpacks to far too much`);
        if (file.compression !== 0 && file.compression !== 8) faults.push(`${file.name}: is packed in another way`);
        seen.add(file.name);
        total += file.originalSize;
        return false;
      },
    }),
  );
  if (seen.size > MOST_FILES) faults.push(`${seen.size} files, at most ${MOST_FILES}`);
  if (total > MOST_BYTES) faults.push(`${total} bytes in all, at most ${MOST_BYTES}`);
  if (faults.length > 0) throw new BadBundle(faults.join("\n"));
  return new Map(Object.entries(reading(() => unzipSync(bytes))));
}

function reading<T>(work: () => T): T {
  try {
    return work();
  } catch (error) {
    // Whatever the reader of zip files says of bytes that are none.
    if (error instanceof Error) throw new BadBundle(`The file can't be read: ${error.message}`);
    throw error;
  }
}

function checkSeal(bytes: Uint8Array): void {
  const isEnd = (place: number) => place >= 0 && END.every((byte, at) => bytes[place + at] === byte);
  if (isEnd(bytes.length - END_BYTES) && bytes.at(-1) === 0 && bytes.at(-2) === 0) return;
  const comment = bytes.length - COMMENT_BYTES;
  const said = new TextDecoder().decode(bytes.subarray(Math.max(0, comment)));
  const length = isEnd(comment - END_BYTES) ? new DataView(bytes.buffer, bytes.byteOffset + comment - 2, 2) : null;
  if (length?.getUint16(0, true) !== COMMENT_BYTES || !said.startsWith(SEAL)) {
    throw new BadBundle("The end of the file is missing or damaged");
  }
  if (said !== SEAL + digestOf(bytes.subarray(0, comment - 2))) {
    throw new BadBundle("The bytes are not those that were written: the SHA-256 of the whole does not fit");
  }
}
