/** Which lines stand on which page of the board: all of them come by, none is left out. Pure. */

/** How long a page stands. Common practice, no source: a line is read in two seconds, a page has some four to ten. */
export const PAGE_MS = 8_000;

/** Return the places of the lines on each page, in their order; a line higher than the room has a page of its own. */
export function pagesOf(heights: readonly number[], room: number): number[][] {
  const pages: number[][] = [];
  let left = 0;
  for (const [place, height] of heights.entries()) {
    const page = pages.at(-1);
    if (!page || height > left) {
      pages.push([place]);
      left = room - height;
    } else {
      page.push(place);
      left -= height;
    }
  }
  return pages;
}
