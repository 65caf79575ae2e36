/** Where a step leads: whole steps within a range. */

export interface StepRange {
  least: number;
  most: number;
  step: number;
}

/** How many decimals a number is written with: 0.1 + 0.2 must read 0.3. */
const decimals = (number: number) => (/\.(\d+)$/.exec(String(number))?.[1] ?? "").length;

/** Return the value after a change, not beyond the ends; with as many decimals as value and step have. */
export function stepTo(value: number, by: number, { least, most, step }: StepRange): number {
  const places = Math.max(decimals(value), decimals(step));
  return Math.min(most, Math.max(least, Number((value + by).toFixed(places))));
}

/** Return by how much a key changes the value, as the ARIA pattern for spin buttons has it; null for other keys. */
export function stepOfKey(key: string, value: number, range: StepRange & { largeStep: number }): number | null {
  const { least, most, step, largeStep } = range;
  const steps: Record<string, number> = {
    ArrowUp: step,
    ArrowRight: step,
    ArrowDown: -step,
    ArrowLeft: -step,
    PageUp: largeStep,
    PageDown: -largeStep,
    Home: least - value,
    End: most - value,
  };
  const by = steps[key];
  return by === undefined || !Number.isFinite(by) ? null : by;
}
