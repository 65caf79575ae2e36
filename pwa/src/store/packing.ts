/** Moves entries that lie by themselves into a page. */

import { type Db, write } from "./db";
import { moveToPage } from "./held";

const PAGE = 250;
const AT_A_TIME = 50;

/** Move the first of what a server has into one page, in one transaction: they are in one of the two at any time. */
export async function packOne(db: Db): Promise<void> {
  await write(db, ["entries"], async (tx) => {
    const records = await tx.objectStore("entries").index("sending").getAll("sent", PAGE);
    await moveToPage(tx, records, AT_A_TIME);
  });
}
