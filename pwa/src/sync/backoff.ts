/** How long to wait before the next try. */

const FIRST_MS = 1_000;

/** The longest wait: an outbox must be empty within 30 s of the network's return, so tries come well inside that. */
export const LONGEST_MS = 12_000;

/**
 * Return the wait after `failures` tries in a row (1 = one), doubling, up to LONGEST_MS; `chance` in [0, 1) spreads
 * phones that lost the server at the same moment. A server's own Retry-After counts up to a minute.
 */
export function waitMs(failures: number, chance: number, retry_after_s: number | null = null): number {
  const steps = Math.min(Math.max(failures, 1) - 1, 10);
  const wait = Math.min(FIRST_MS * 2 ** steps, LONGEST_MS) * (0.75 + chance / 4);
  return Math.round(Math.max(wait, Math.min(retry_after_s ?? 0, 60) * 1000));
}
