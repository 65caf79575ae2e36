/** The one set of icons: strokes on a grid of 24, 1.8 wide, with round ends; own drawings, by the name of what they mean. */

/** Paths by name. A dot is a line of no length, which the round ends make one. */
export const ICONS = {
  // Where to go.
  log: "M12 5v14M5 12h14",
  reports: "M6 3.5h8.5L18 7v13.5H6zM14 3.5V7.5h4M9 12h6M9 16h6",
  queue: "M9 6h11M9 12h11M9 18h11M4.5 6h.01M4.5 12h.01M4.5 18h.01",
  service: "M12 3.5a8.5 8.5 0 1 0 .01 0zM12 7.5V12l3 2",
  costs: "M4 20.5h16M6.5 17v-6M12 17V4.5M17.5 17V8.5",
  handover: "M4 12a8 8 0 0 1 13.7-5.6L20 8.5M20 4v4.5h-4.5M20 12a8 8 0 0 1-13.7 5.6L4 15.5M4 20v-4.5h4.5",
  documents: "M8 3.5h7L19 7.5V17H8zM15 3.5v4h4M5 7v13.5h10",
  season: "M4 5.5h16v15H4zM4 10h16M8.5 3v4M15.5 3v4M8 14h3M8 17h6",
  setup: "M4 7h9M17 7h3M15 4.8v4.4M4 17h3M11 17h9M9 14.8v4.4",
  more: "M5 11.2a.8.8 0 1 0 .01 0zM12 11.2a.8.8 0 1 0 .01 0zM19 11.2a.8.8 0 1 0 .01 0z",
  person: "M12 4a4 4 0 1 0 .01 0zM4.5 20.5c.8-4.6 3.7-6.5 7.5-6.5s6.7 1.9 7.5 6.5",
  // What a tap does.
  back: "M15 5l-7 7 7 7",
  forward: "M9 5l7 7-7 7",
  open: "M5 9l7 7 7-7",
  close: "M6 6l12 12M18 6L6 18",
  add: "M12 5v14M5 12h14",
  less: "M5 12h14",
  check: "M5 12.5l4.5 4.5L19 7.5",
  undo: "M8.5 5L4 9.5 8.5 14M4 9.5h10a5.5 5.5 0 0 1 0 11h-3",
  edit: "M4.5 19.5l1-4.2L16 4.8l3.2 3.2L8.7 18.5zM13.5 7.3l3.2 3.2",
  remove: "M4.5 7h15M9.5 7V4.5h5V7M6.5 7l1 13h9l1-13M10.5 11v5M13.5 11v5",
  search: "M10.5 4.5a6 6 0 1 0 .01 0zM15 15l5 5",
  sort: "M8 9.5l4-4 4 4M8 14.5l4 4 4-4",
  up: "M12 19V5M6.5 10.5L12 5l5.5 5.5",
  down: "M12 5v14M6.5 13.5L12 19l5.5-5.5",
  send: "M4 11.5L20 4l-6.5 16-2.8-6.7zM10.7 13.3L20 4",
  download: "M12 4v11M7 10.5L12 15.5l5-5M4.5 19.5h15",
  print: "M7 8.5V4h10v4.5M4 8.5h16v8h-3M7 16.5H4M7 13.5h10v7H7z",
  play: "M8 5v14l11-7z",
  pause: "M8.5 5v14M15.5 5v14",
  camera: "M4 8h3.5L9 5.5h6L16.5 8H20v11H4zM12 9.8a3.4 3.4 0 1 0 .01 0z",
  voice: "M12 3.5a3 3 0 0 1 3 3v5a3 3 0 0 1-6 0v-5a3 3 0 0 1 3-3zM5.5 11.5a6.5 6.5 0 0 0 13 0M12 18v3",
  code: "M4 4h6v6H4zM14 4h6v6h-6zM4 14h6v6H4zM14 14h2.5v2.5M20 14v.01M14 20h.01M17.5 17.5v.01M20 17.5V20h-2.5",
  walk: "M4 4v5h5M4.6 9a8 8 0 1 1-.6 3",
  // What is so.
  hold: "M8.3 3.5h7.4l4.8 4.8v7.4l-4.8 4.8H8.3l-4.8-4.8V8.3zM8.5 12h7",
  inspect: "M8.3 3.5h7.4l4.8 4.8v7.4l-4.8 4.8H8.3l-4.8-4.8V8.3zM12 7.5v5.5M12 16.3v.01",
  caution: "M12 4l9 16H3zM12 10v4.5M12 17.3v.01",
  done: "M12 3.5a8.5 8.5 0 1 0 .01 0zM8 12.3l2.8 2.8L16 9.8",
  note: "M12 3.5a8.5 8.5 0 1 0 .01 0zM12 11v5M12 7.8v.01",
  unknown: "M12 3.5a8.5 8.5 0 1 0 .01 0zM9.6 9.6a2.5 2.5 0 1 1 3.4 2.3c-.7.3-1 .8-1 1.6M12 16.5v.01",
  nothing: "M12 3.5a8.5 8.5 0 1 0 .01 0z",
  dot: "M12 9.5a2.5 2.5 0 1 0 .01 0z",
  waiting: "M7 3.5h10M7 20.5h10M8 3.5c0 5 8 5 8 8.5s-8 3.5-8 8.5M16 3.5c0 5-8 5-8 8.5s8 3.5 8 8.5",
  offline: "M4 9.5a11.5 11.5 0 0 1 16 0M7.2 13a7 7 0 0 1 9.6 0M12 17.5v.01M4.5 4.5l15 15",
  parts: "M12 3.5l7.5 4.2v8.6L12 20.5l-7.5-4.2V7.7zM4.8 7.8L12 12l7.2-4.2M12 12v8.3",
  tool: "M14.6 9.4a4.6 4.6 0 0 1 5.7-6l-2.8 2.8.3 2 2 .3 2.6-2.7a4.6 4.6 0 0 1-6 5.7l-8 8.3a2.2 2.2 0 0 1-3.2-3.2z",
  car: "M4 15.5v-3l2-1.2L8 7h8l2.5 4.3 1.5 1.2v3zM4 15.5h16M8 15.5a2 2 0 1 1-.01 0M16 15.5a2 2 0 1 1-.01 0M6.5 11.3h11.6",
} as const satisfies Record<string, string>;

/** A name of the set; another one is an error of the types. */
export type IconName = keyof typeof ICONS;
