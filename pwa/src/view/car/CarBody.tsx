/** The car under the zones: outline, wheels, glass, and what hangs below. Decoration only. */

import type { Side } from "./shapes";

const WHEELS = [
  [58, 118],
  [280, 118],
  [58, 330],
  [280, 330],
] as const;

const Top = () => (
  <>
    <path class="glass" d="M120 164Q180 150 240 164L229 192Q180 182 131 192Z" />
    <path class="glass" d="M131 368Q180 376 229 368L238 394Q180 402 122 394Z" />
    <path class="trim" d="M132 192V368M228 192V368M132 290H228M140 84Q134 116 132 148M220 84Q226 116 228 148" />
    <path class="trim" d="M164 298H196V313H164Z" />
    <path class="lamp" d="M78 40Q86 24 108 22L104 40ZM282 40Q274 24 252 22L256 40Z" />
    <path class="lamp" d="M80 440L106 444V458Q84 454 80 440ZM280 440L254 444V458Q276 454 280 440Z" />
    <path class="trim" d="M70 200L44 192V210L70 212M290 200L316 192V210L290 212" />
    <path class="trim" d="M84 424Q180 434 276 424" />
  </>
);

const Under = () => (
  <>
    <path class="trim" d="M122 58H238L230 146H130Z" />
    <path class="trim" d="M80 145H130M230 145H280M80 357H130M230 357H280" />
    <path class="trim" d="M172 146V306M188 146V306M150 306H210V376H150Z" />
    <path class="trim" d="M112 192V288M248 192V288M196 238H226V284H196Z" />
    <path class="trim" d="M130 357H230M202 376V448H226V396" />
  </>
);

/** Body outline, the four wheels, then what is seen from that side. */
export function CarBody({ side }: { side: Side }) {
  return (
    <g>
      <path
        class="body"
        d="M70 92Q70 24 116 14Q180 3 244 14Q290 24 290 92V164Q284 240 290 316V412Q290 454 256 464Q180 477 104 464Q70 454 70 412V316Q76 240 70 164Z"
      />
      {WHEELS.map(([x, y]) => (
        <rect key={`${x}-${y}`} class="tread" x={x} y={y} width="22" height="54" rx="6" />
      ))}
      {side === "top" ? <Top /> : <Under />}
    </g>
  );
}
