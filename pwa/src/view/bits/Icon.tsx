/** Small drawings beside words; always decoration, the words carry the meaning. */

const PATHS: Record<string, string> = {
  log: "M12 5v14M5 12h14",
  reports: "M6 4h12v16H6zM9 9h6M9 13h6M9 17h3",
  queue: "M4 6h2M9 6h11M4 12h2M9 12h11M4 18h2M9 18h11",
  service: "M12 4a8 8 0 1 0 .01 0zM12 8v4l3 2",
  costs: "M5 20V10M12 20V4M19 20v-7M3 20h18",
  me: "M12 4a4 4 0 1 0 .01 0zM4 21c1-5 4-7 8-7s7 2 8 7",
  waiting: "M7 3h10M7 21h10M8 3c0 5 8 5 8 9s-8 4-8 9M16 3c0 5-8 5-8 9s8 4 8 9",
  sent: "M4 13l5 5L20 6",
  attention: "M12 3L22 20H2zM12 9v5M12 17v.5",
  hold: "M8 2h8l6 6v8l-6 6H8l-6-6V8zM8 12h8",
  "nothing-open": "M12 3a9 9 0 1 0 .01 0zM8 12h8",
  unknown: "M12 3a9 9 0 1 0 .01 0zM9.5 9.5a2.5 2.5 0 1 1 3.5 2.3c-.7.3-1 .7-1 1.7M12 16.5v.5",
  camera: "M4 8h4l2-3h4l2 3h4v11H4zM12 10.5a3 3 0 1 0 .01 0z",
  microphone: "M12 3a3 3 0 0 1 3 3v5a3 3 0 0 1-6 0V6a3 3 0 0 1 3-3zM6 11a6 6 0 0 0 12 0M12 17v4M9 21h6",
  play: "M7 4v16l13-8z",
  pause: "M8 5v14M16 5v14",
  two: "M4 4h10v10H4zM10 14v6h10V10h-6",
};

/** A drawing by name; nothing for a name that has none. */
export function Icon({ name }: { name: string }) {
  return (
    <svg class="icon" viewBox="0 0 24 24" aria-hidden="true" focusable="false">
      <path
        d={PATHS[name] ?? ""}
        fill="none"
        stroke="currentColor"
        stroke-width="2"
        stroke-linecap="round"
        stroke-linejoin="round"
      />
    </svg>
  );
}
