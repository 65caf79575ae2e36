/** The car under the zones: outline, wheels, glass, and what hangs below. Decoration only. */

import { isBeside, type Side, WIDTH } from "./shapes";

/** Half of each stands out beside the body, which lies over it. */
const WHEELS = [
  [50, 112],
  [282, 112],
  [50, 324],
  [282, 324],
] as const;

const Top = () => (
  <>
    <path class="glass" d="M114 166Q180 148 246 166L230 196Q180 185 130 196Z" />
    <path class="glass" d="M130 364Q180 373 230 364L242 394Q180 405 118 394Z" />
    <path class="trim" d="M132 192V368M228 192V368M132 290H228M140 84Q134 116 132 148M220 84Q226 116 228 148" />
    <path class="trim" d="M164 298H196V313H164Z" />
    <path class="lamp" d="M78 40Q86 24 108 22L104 40ZM282 40Q274 24 252 22L256 40Z" />
    <path class="lamp" d="M80 440L106 444V458Q84 454 80 440ZM280 440L254 444V458Q276 454 280 440Z" />
    <path class="mirror" d="M70 204L46 196V214L71 214ZM290 204L314 196V214L289 214Z" />
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

const AXLES = [70, 290];

/** Seen from the left, the nose at the left. */
const Beside = () => (
  <>
    <path class="trim" d="M198 88L206 80H234L242 89M292 94L320 90L322 98L304 104" />
    <path
      class="body"
      d="M24 246L16 240L14 206Q14 176 40 164L112 148L158 98Q166 89 182 88L268 89Q290 90 302 103L330 152Q346 160 346 188L344 238L336 246A46 46 0 0 0 244 246H116A46 46 0 0 0 24 246Z"
    />
    <path class="glass" d="M128 146L167 102H206V146ZM214 146V102H268Q284 103 292 115L308 146Z" />
    <path class="trim" d="M122 152Q120 200 130 240M210 148V244M300 152Q304 180 296 192M130 244H236M112 148L124 146" />
    <path class="lamp" d="M18 196Q20 178 38 171L44 190ZM345 172L326 168L328 186L346 190Z" />
    <path class="mirror" d="M128 146L112 136V147Z" />
    {AXLES.map((x) => (
      <g key={x}>
        <circle class="tread" cx={x} cy="240" r="38" />
        <circle class="mirror" cx={x} cy="240" r="22" />
        <path class="trim" d={`M${x - 20} 240H${x + 20}M${x} 220V260`} />
      </g>
    ))}
  </>
);

/** Body outline, the wheels, then what is seen from that side. */
export function CarBody({ side }: { side: Side }) {
  if (isBeside(side)) {
    const mirrored = side === "right" ? { transform: `translate(${WIDTH} 0) scale(-1 1)` } : {};
    return (
      <g {...mirrored}>
        <Beside />
      </g>
    );
  }
  return (
    <g>
      {WHEELS.map(([x, y]) => (
        <rect key={`${x}-${y}`} class="tread" x={x} y={y} width="28" height="62" rx="7" />
      ))}
      <path
        class="body"
        d="M68 96C68 40 92 18 122 13Q180 4 238 13C268 18 292 40 292 96V168Q286 240 292 312V398C292 440 272 459 246 464Q180 476 114 464C88 459 68 440 68 398V312Q74 240 68 168Z"
      />
      {side === "top" ? <Top /> : <Under />}
    </g>
  );
}
