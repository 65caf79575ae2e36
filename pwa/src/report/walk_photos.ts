/** Which photos a walk under way holds on to; on its own, since the app asks at each start. */

import type { WalkDraft } from "./walk_draft";

/** Return the photos of a draft: its views' and its marks'. */
export function photosOfDraft(draft: WalkDraft): string[] {
  const views = Object.values(draft.photos).flatMap((one) => (one.photo === null ? [] : [one.photo]));
  return [...views, ...draft.marks.flatMap((mark) => mark.photos)];
}
