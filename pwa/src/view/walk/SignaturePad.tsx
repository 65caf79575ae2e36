/** A field to sign in with a finger: each stroke is kept as it ends. */

import { useRef, useState } from "preact/hooks";
import type { DraftSignature } from "../../report/walk_draft";
import { walk as words } from "../words/walk";
import { FIELD, pathOf } from "./ink";

interface SignaturePadProps {
  signature: DraftSignature;
  onChange: (strokes: number[][], what: string) => void;
}

/** Points nearer than so much say nothing more. */
const LEAST = 4;
/** A scribble of minutes is no signature, and has to be kept. */
const MOST_NUMBERS = 6000;

export function SignaturePad({ signature, onChange }: SignaturePadProps) {
  const { name, strokes } = signature;
  const [live, setLive] = useState<number[] | null>(null);
  const drawing = useRef<number[] | null>(null);
  const begin = (event: PointerEvent & { currentTarget: SVGSVGElement }) => {
    if (strokes.flat().length > MOST_NUMBERS) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    drawing.current = pointOf(event);
    setLive(drawing.current);
  };
  const move = (event: PointerEvent & { currentTarget: SVGSVGElement }) => {
    const points = drawing.current;
    if (!points) return;
    const [x = 0, y = 0] = pointOf(event);
    if (Math.hypot(x - (points.at(-2) ?? 0), y - (points.at(-1) ?? 0)) < LEAST) return;
    drawing.current = [...points, x, y];
    setLive(drawing.current);
  };
  const end = () => {
    const points = drawing.current;
    drawing.current = null;
    setLive(null);
    if (points) onChange([...strokes, points], words.signTitle.toLowerCase());
  };
  return (
    <div class="stack">
      <p class="soft">
        {words.drawHere(name || words.name)}. {words.drawOr}
      </p>
      <svg
        class="signature"
        viewBox={`0 0 ${FIELD.width} ${FIELD.height}`}
        role="img"
        aria-label={words.drawHere(name || words.name)}
        onPointerDown={begin}
        onPointerMove={move}
        onPointerUp={end}
        onPointerCancel={end}
      >
        <path class="signature-line" d={`M60 ${FIELD.height - 70}H${FIELD.width - 60}`} />
        <path class="signature-ink" d={pathOf(live ? [...strokes, live] : strokes)} />
      </svg>
      {strokes.length > 0 && (
        <button type="button" class="button" onClick={() => onChange([], words.wipe.toLowerCase())}>
          {words.wipe}
        </button>
      )}
    </div>
  );
}

function pointOf(event: PointerEvent & { currentTarget: SVGSVGElement }): number[] {
  const box = event.currentTarget.getBoundingClientRect();
  const scale = FIELD.width / box.width;
  return [Math.round((event.clientX - box.left) * scale), Math.round((event.clientY - box.top) * scale)];
}
