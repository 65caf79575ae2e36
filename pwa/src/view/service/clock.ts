/** Clock times on the officials' board, as minutes of the day. Pure. */

const DAY = 24 * 60;
const two = (value: number) => String(value).padStart(2, "0");

/** 782 for "13:02". */
export const minutesOf = (clock: string): number => {
  const [hour = "0", minute = "0"] = clock.split(":");
  return Number(hour) * 60 + Number(minute);
};

/** "13:02" for 782; past midnight it starts again. */
export const clockFor = (minutes: number): string => {
  const within = ((minutes % DAY) + DAY) % DAY;
  return `${two(Math.floor(within / 60))}:${two(within % 60)}`;
};

/** Whole minutes until the due minute begins; 0 all through the due minute, negative after it. */
export const minutesLeft = (due_ms: number, now_ms: number): number =>
  Math.floor(due_ms / 60_000) - Math.floor(now_ms / 60_000);
