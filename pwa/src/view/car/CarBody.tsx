/** The car under the zones: outline, wheels, glass, and what hangs below. Decoration only. */

import type { Side } from "./shapes";

const WHEELS = [
  [62, 122],
  [276, 122],
  [62, 372],
  [276, 372],
] as const;

const Top = () => (
  <>
    <path class="glass" d="M116 176Q180 158 244 176L232 206Q180 194 128 206Z" />
    <path class="glass" d="M126 398Q180 408 234 398L242 424Q180 434 118 424Z" />
    <path class="trim" d="M130 206V398M230 206V398M130 292H230M140 84Q134 120 132 160M220 84Q226 120 228 160" />
    <path class="trim" d="M164 300H196V316H164Z" />
    <path class="lamp" d="M78 40Q86 24 108 22L104 40ZM282 40Q274 24 252 22L256 40Z" />
    <path class="lamp" d="M80 462L106 466V480Q84 476 80 462ZM280 462L254 466V480Q276 476 280 462Z" />
    <path class="trim" d="M70 206L46 198V216L70 218M290 206L314 198V216L290 218" />
    <path class="trim" d="M84 446Q180 456 276 446" />
  </>
);

const Under = () => (
  <>
    <path class="trim" d="M122 60H238L230 150H130Z" />
    <path class="trim" d="M84 128H130M230 128H276M84 378H130M230 378H276" />
    <path class="trim" d="M172 150V330M188 150V330M150 330H210V400H150Z" />
    <path class="trim" d="M112 200V306M248 200V306M196 250H226V300H196Z" />
    <path class="trim" d="M130 378H230M202 400V470H226V420" />
  </>
);

/** Body outline, the four wheels, then what is seen from that side. */
export function CarBody({ side }: { side: Side }) {
  return (
    <g>
      <path
        class="body"
        d="M70 96Q70 26 116 16Q180 4 244 16Q290 26 290 96V170Q284 250 290 330V430Q290 474 256 482Q180 496 104 482Q70 474 70 430V330Q76 250 70 170Z"
      />
      {WHEELS.map(([x, y]) => (
        <rect key={`${x}-${y}`} class="tread" x={x} y={y} width="22" height="54" rx="6" />
      ))}
      {side === "top" ? <Top /> : <Under />}
    </g>
  );
}
