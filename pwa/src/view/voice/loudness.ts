/** How loud a stretch of sound is, for a bar that a person reads at a glance. Pure. */

/** Quieter than this is an empty bar, 0 dB (full scale) a full one; speech at an arm's length is about -30 dB (common practice). */
const QUIET_DB = -60;

/**
 * Return the loudness from 0 to 1, even steps of decibels.
 *
 * samples: bytes around 128, as `getByteTimeDomainData` gives them (Web Audio API, AnalyserNode).
 */
export function loudness(samples: Uint8Array): number {
  let squares = 0;
  for (const sample of samples) squares += ((sample - 128) / 128) ** 2;
  const db = 10 * Math.log10(squares / samples.length);
  return Math.min(1, Math.max(0, 1 - db / QUIET_DB));
}
