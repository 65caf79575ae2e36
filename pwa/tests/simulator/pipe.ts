/** The pipe to the process that runs the server: a line of JSON there, a line back, and nothing else happens meanwhile. */

import { readSync, writeSync } from "node:fs";

export type Json = Record<string, unknown>;

/** The ends of two pipes that nobody else uses: unlike standard output, they wait until all is read or written. */
const [READ, WRITE] = process.argv.slice(2).map(Number) as [number, number];

let rest = Buffer.alloc(0);

/** Return the next line that the other side wrote, or null where it has gone. */
export function readLine(): Json | null {
  const parts: Buffer[] = [rest];
  for (let end = rest.indexOf(10); ; ) {
    if (end >= 0) {
      const all = Buffer.concat(parts);
      const at = all.length - (parts.at(-1) as Buffer).length + end;
      rest = Buffer.from(all.subarray(at + 1));
      return JSON.parse(all.subarray(0, at).toString()) as Json;
    }
    const part = Buffer.alloc(65_536);
    const length = readSync(READ, part);
    if (length === 0) return null;
    parts.push(part.subarray(0, length));
    end = (parts.at(-1) as Buffer).indexOf(10);
  }
}

/** Write a line to the other side. */
export function writeLine(value: Json): void {
  const bytes = Buffer.from(`${JSON.stringify(value)}\n`);
  for (let at = 0; at < bytes.length; ) at += writeSync(WRITE, bytes, at);
}

/** Ask the server's process for something and return what it says. Errors: Error where it has gone or it failed. */
export function askServer(ask: Json): Json {
  writeLine(ask);
  const reply = readLine();
  if (reply === null) throw new Error("the server's process has gone");
  if (typeof reply.broken === "string") throw new Error(reply.broken);
  return reply;
}
