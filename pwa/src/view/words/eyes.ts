/** Words of how the app looks: the themes. */

import { worded } from "../../kit/language";

export const eyes = worded("eyes", {
  title: "How the app looks on this phone",
  theme: {
    phone: "As the phone",
    day: "Day",
    night: "Night",
    contrast: "High contrast",
  },
  about: {
    phone: "Light or dark, and with more contrast, as the phone's own settings say.",
    day: "Light, whatever the phone says.",
    night:
      "Dim and warm, for eyes that are used to the dark. Photos are dimmed too: choose another theme to judge a colour.",
    contrast: "Black on white with thick lines, for low sun and weak eyes.",
  },
  refused:
    "This browser keeps nothing for this page, so the theme stays as it was. Open the app outside a private tab.",
});
