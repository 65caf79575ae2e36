/** Moves entries that lie by themselves into a page. */

import { type Db, type Write, write } from "./db";
import { moveToPage } from "./held";
import { readUpto, writeUpto } from "./pages";

const PAGE = 250;
const LOOKED_AT = 1_000;
const AT_A_TIME = 50;

/** Move the first of what was heard into one page, in one transaction; returns how many there were. */
export function packOne(db: Db): Promise<number> {
  return write(db, ["entries", "meta"], async (tx) => {
    const sent = await (tx as unknown as Write<"entries">)
      .objectStore("entries")
      .index("sending")
      .getAll("sent", LOOKED_AT);
    const records = sent.filter((one) => !one.mine).slice(0, PAGE);
    await moveToPage(tx as unknown as Write<"entries">, records, AT_A_TIME);
    const meta = tx as unknown as Write<"meta">;
    await writeUpto(meta, await readUpto(meta));
    return records.length;
  });
}
