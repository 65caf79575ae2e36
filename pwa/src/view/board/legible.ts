/**
 * How large capitals must be to be read from afar, and what that is on a wall screen. Pure.
 *
 * ISO 9241-303:2011 prefers Latin characters of 20 to 22 minutes of arc, 16 at the least; a character's height is that of
 * its capital without accents. A height h seen from a distance d spans the angle a with h = 2·d·tan(a/2), so 20′ at 5 m
 * are 29.09 mm. A 32-inch screen of 16:9 is 708.4 × 398.5 mm: with 1080 lines, 78.8 px.
 */

const ARC_MINUTES = 20;
const INCHES = 32;

const MM_PER_INCH = 25.4;
const [WIDE, HIGH] = [16, 9];

/** Return the height in mm that spans an angle from a distance. */
export const heightMm = (from_mm: number, arc_minutes: number): number =>
  2 * from_mm * Math.tan(((arc_minutes / 60) * Math.PI) / 360);

/** Return width and height in mm of a 16:9 screen with a diagonal of so many inches. */
export function screenMm(inches: number): { width_mm: number; height_mm: number } {
  const unit_mm = (inches * MM_PER_INCH) / Math.hypot(WIDE, HIGH);
  return { width_mm: WIDE * unit_mm, height_mm: HIGH * unit_mm };
}

/** From how far the board is read: what stands to be chosen. */
export const DISTANCES = ["2", "3", "5"] as const;
export type Distance = (typeof DISTANCES)[number];

/** Return the height of the board's capitals as a share of the height of a 16:9 screen, to be read from so many metres. */
export const capitalShare = (from_m: number): number =>
  heightMm(from_m * 1000, ARC_MINUTES) / screenMm(INCHES).height_mm;

/**
 * Return the height of the board's capitals in px on a viewport: by its height, or where it is narrower than 16:9 by its
 * width, so that a line holds as much on a phone as on the wall.
 */
export const capitalPx = (from_m: number, width_px: number, height_px: number): number =>
  capitalShare(from_m) * Math.min(height_px, (width_px * HIGH) / WIDE);

/** Return from how far, in mm, what is set for so many metres is read on a 16:9 screen of so many inches. */
export const readFromMm = (from_m: number, inches: number): number =>
  (capitalShare(from_m) * screenMm(inches).height_mm) / heightMm(1, ARC_MINUTES);
