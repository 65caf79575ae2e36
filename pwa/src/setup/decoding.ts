/** Bytes of a file as text, in the encodings that spreadsheets write. */

/** `guessed`: it says nowhere that it is Windows-1252, and is only no UTF-8. */
export interface Decoded {
  text: string;
  guessed: boolean;
}

/**
 * Return bytes as text: UTF-8, UTF-16 where it begins with its mark, else Windows-1252, which is what spreadsheets in
 * western Europe save as plain CSV. Text in it that has any accent is no UTF-8 (RFC 3629), so that the two are told apart.
 */
export function decoded(bytes: Uint8Array): Decoded {
  const utf16 = MARKS.find(([first, second]) => bytes[0] === first && bytes[1] === second);
  if (utf16) return { text: new TextDecoder(utf16[2]).decode(bytes), guessed: false };
  try {
    return { text: new TextDecoder("utf-8", { fatal: true }).decode(bytes), guessed: false };
  } catch (error) {
    // What the decoder throws for bytes that are no UTF-8 (Encoding Standard, WHATWG).
    if (!(error instanceof TypeError)) throw error;
    return { text: new TextDecoder("windows-1252").decode(bytes), guessed: true };
  }
}

const MARKS = [
  [0xff, 0xfe, "utf-16le"],
  [0xfe, 0xff, "utf-16be"],
] as const;
