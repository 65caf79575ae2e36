/** Where the sections of a set-up are. */

/** The address of a section. */
export const addressOf = (event: string, page = ""): string =>
  `#/setup/${encodeURIComponent(event)}${page ? `/${page}` : ""}`;
