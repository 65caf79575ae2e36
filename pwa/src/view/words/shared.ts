/** Words of photos that another app shared. */

import { worded } from "../../kit/language";

export const shared = worded("shared", {
  title: "Shared photos",
  taking: "Taking the photos in …",
  kept: (n: number) => `${n === 1 ? "1 photo waits" : `${n} photos wait`} on this phone for the place.`,
  none: "No shared photo waits here. Share photos from the gallery, or take one with Photo first.",
  notPhotos: (n: number) =>
    `${n === 1 ? "1 thing that was shared is" : `${n} things that were shared are`} no photo: not taken. Share photos only (JPEG or PNG).`,
  tooMany: (n: number, most: number) =>
    `${n === 1 ? "1 photo was" : `${n} photos were`} more than the ${most} that may wait at a time: not taken. Share again after saving.`,
  noRoom: (n: number) =>
    `${n === 1 ? "1 photo" : `${n} photos`} not taken: this phone is full. Make room, then share again.`,
  unreadable: (n: number) =>
    `${n === 1 ? "1 photo" : `${n} photos`} could not be read or kept. Still in the gallery: share again as JPEG, or make room.`,
  toLog: "Log it: choose the place",
});
