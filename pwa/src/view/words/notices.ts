/** Words of what every screen says where an address or a device is not trusted. */

import { worded } from "../../kit/language";

export const notices = worded("notices", {
  insecureTitle: "No trusted address",
  insecure:
    "This page did not come over a trusted https address: it does not open without signal. Ask your manager for the right link.",
  unsigned: {
    title: "Not signed",
    insecure:
      "What you log here can't be signed: the page did not come over a trusted https address. It is kept and sent, but counts only once a manager has accepted it.",
    before:
      "You joined before entries were signed. What you log is kept and sent, but counts only once a manager has accepted it. Ask your manager for a new code and join again under Me: nothing is lost.",
  },
});
