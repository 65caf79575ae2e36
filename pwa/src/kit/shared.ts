/** What the service worker and the page agree on about photos that another app shares. */

/** The manifest's `share_target` names these two: where the system posts to, and the field that holds the files. */
export const SHARE_PATH = "/share";
export const SHARE_FIELD = "photos";

/** Where the page goes on with them. */
export const SHARED_ADDRESS = "#/log/shared";

/** The cache in which they wait, as they came, until the page has made photos of them. */
export const SHARED_CACHE = "shared-photos";

/** Its one item that is no photo: how many were not taken, as `NotTaken`. */
export const NOT_TAKEN_PATH = `${SHARE_PATH}/not-taken`;

/** No more wait at a time: each is several MB as it comes. */
export const MOST_SHARED = 20;

/** By reason: no photos, more than MOST_SHARED, no room on the phone. */
export interface NotTaken {
  not_photos: number;
  too_many: number;
  no_room: number;
}

/** What became of what was shared: photos kept, by SHA-256, and `unreadable` ones besides those not taken. */
export interface Shared extends NotTaken {
  photos: string[];
  unreadable: number;
}
