/** Words of several people on one phone: who speaks, PINs, signatures. */

import { worded } from "../../kit/language";

export const people = worded("people", {
  title: "Who uses this phone now?",
  now: "uses it now",
  pinOf: (name: string) => `PIN of ${name}`,
  change: (name: string) => `Change to ${name}`,
  pin: "PIN",
  pinTitle: "Your PIN on this phone",
  pinWhy:
    "Several people share a phone. The PIN keeps others from signing with your name: it is asked when somebody changes to you, and for every look. It never leaves this phone.",
  pinHas: "You have a PIN on this phone.",
  pinOld: "PIN until now",
  pinNew: "New PIN, 4 to 6 digits",
  pinAgain: "The same once more",
  pinSet: "Keep this PIN",
  pinChange: "Change the PIN",
  pinKept: "The PIN is kept on this phone.",
  pinShape: "A PIN has 4 to 6 digits.",
  pinDiffers: "The two PINs are not the same. Type them again.",
  lookPin: (name: string) => `Your PIN, ${name}: it signs this look`,
  lookPinNew: "You have no PIN on this phone yet, and each look is signed with one. Choose it now.",
  lookPinNeeded: "Type your PIN: a look is signed by the inspector alone.",
});
