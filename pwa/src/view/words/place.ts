/** Words of the place within a stage: the page of the notes, the phone's position. */

import { worded } from "../../kit/language";

export const place = worded("place", {
  notePage: "Page of your notes",
  ask: "Where is this phone? (GPS)",
  asking: "Asking the satellites …",
  km: (km: string, metres: string) => `${km} by GPS, give or take ${metres}.`,
  noKm: "The road book's places near here are not in the set-up, or this is not on the stage: km stays as it is.",
  who: "Who gets this position?",
  share: "Share it with the team",
  unshare: "Keep it on this phone only",
  at: (lat: string, lon: string, metres: string) => `${lat}, ${lon} (± ${metres})`,
  metres: (metres: number) =>
    metres < 1000 ? `${metres < 100 ? metres : Math.round(metres / 10) * 10} m` : `${(metres / 1000).toFixed(1)} km`,
  map: "Open in a map",
  refused: {
    denied: "This phone may not tell the app where it is. Allow it in the phone's settings, or set the km by hand.",
    unavailable: "This phone does not know where it is. Set the km by hand.",
    timeout: "No satellites in 20 seconds. Go into the open and ask again, or set the km by hand.",
  } as Record<string, string>,
});
