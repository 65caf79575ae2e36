/** What may be said later or never, folded away; its fields come after the first screen is there. */

import { lazy } from "../bits/lazy";
import { common } from "../words/common";
import { log } from "../words/log";
import type { MoreFields } from "./MoreFields";

const Fields = lazy<MoreFields>(
  async () => (await import("./MoreFields")).MoreFields,
  () => common.missing(log.moreChange),
);

export function More({ open, ...fields }: Omit<MoreFields, "isNew"> & { open: boolean }) {
  return (
    <details open={open}>
      <summary>{open ? log.moreChange : log.more}</summary>
      <Fields {...fields} isNew={!open} />
    </details>
  );
}
