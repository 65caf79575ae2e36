/** How long a voice note is, as people read it. Pure. */

/** "0:07", "1:00". */
export function clock(seconds: number): string {
  const whole = Math.floor(seconds);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
}
