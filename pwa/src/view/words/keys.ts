/** Words of the list of keys, for screens with a keyboard. */

import { worded } from "../../kit/language";

export const keys = worded("keys", {
  title: "Keys",
  close: "Close",
  list: [
    ["↓ ↑", "The next row of the list, and the one before"],
    ["Enter", "Open the row"],
    ["/", "Search the list"],
    ["?", "This list"],
    ["Esc", "Close what lies over the screen"],
  ] as [string, string][],
});
