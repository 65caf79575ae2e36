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
    "Several people share a phone. The PIN keeps others from signing with your name: it is asked when somebody changes to you, for every inspection and for a release on hold. It is chosen at joining and never leaves this phone. Forgotten? Join again with a new link.",
  pinHas: "You have a PIN on this phone.",
  pinOld: "PIN until now",
  pinNew: "New PIN, 6 digits",
  pinAgain: "The same once more",
  pinSet: "Keep this PIN",
  pinChange: "Change the PIN",
  pinKept: "The PIN is kept on this phone.",
  pinShape: "A PIN has 6 digits.",
  pinDiffers: "The two PINs are not the same. Type them again.",
  lookPin: (name: string) => `Your PIN, ${name}: it signs this inspection`,
  lookPinNew: "You have no PIN on this phone yet, and each inspection is signed with one. Choose it now.",
  releasePin: (name: string) => `Your PIN, ${name}: it signs this release`,
  releasePinNeeded: "Type your PIN: a release on hold is signed by whoever decides it.",
  lookPinNeeded: "Type your PIN: an inspection is signed by the inspector alone.",
  join: {
    how: "Open the link that your manager sent you, or type its code here. A code works once.",
    code: "Code",
    button: "Join",
    joining: "Asking the server …",
    pin: "PIN of 6 digits, for inspectors, managers and mechanics",
    pinShape: "A PIN has 6 digits. Correct it, or leave it empty.",
    kept: "What this phone logged before is kept and still goes out.",
    stay: (name: string) => `Go on as ${name}`,
  },
});
