/** Patterns of lines: steps of density for money, told apart without colour. */

import { type HatchStep, STEPS } from "./hatching";

/** Distance of the lines by step; the last is crossed as well. */
const APART: Record<HatchStep, number> = { 0: 0, 1: 18, 2: 11, 3: 6, 4: 6 };

export const hatchOf = (id: string, step: HatchStep): string => (step === 0 ? "none" : `url(#${id}-${step})`);

/** `id`: unique on the page, since patterns are found by name across drawings. */
export function Hatches({ id, scale = 1 }: { id: string; scale?: number }) {
  return (
    <defs>
      {STEPS.filter((step) => step > 0).map((step) => {
        const apart = APART[step] * scale;
        return (
          <pattern
            key={step}
            id={`${id}-${step}`}
            width={apart}
            height={apart}
            patternUnits="userSpaceOnUse"
            patternTransform="rotate(45)"
          >
            <path class="hatch" d={`M0 0V${apart}${step === 4 ? `M0 0H${apart}` : ""}`} />
          </pattern>
        );
      })}
    </defs>
  );
}
