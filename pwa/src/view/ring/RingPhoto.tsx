/** The photo as it will be kept: a tap or a drag puts the ring there. */

import {
  COLOURS,
  circleOf,
  type Marking,
  movedTo,
  pixelAt,
  type Ring,
  type Size,
  seenAs,
  turning,
} from "../../kit/ring";
import { ring as words } from "../words/ring";

interface RingPhotoProps {
  url: string;
  /** Of the photo before it is turned. */
  size: Size;
  marking: Marking;
  onMove: (ring: Ring) => void;
}

/** Drawn in the photo's own pixels, with the numbers that the kept one is drawn with. */
export function RingPhoto({ url, size, marking: { ring, turn }, onMove }: RingPhotoProps) {
  const seen = seenAs(size, turn);
  const { x, y, degrees } = turning(size, turn);
  const circle = circleOf(ring, seen);
  const put = (event: PointerEvent) => {
    const on = event.currentTarget as SVGSVGElement;
    onMove(movedTo(ring, seen, pixelAt(on.getBoundingClientRect(), seen, { x: event.clientX, y: event.clientY })));
  };
  const begin = (event: PointerEvent) => {
    if (!event.isPrimary) return;
    // The finger may leave the photo: the ring goes along its edge then.
    (event.currentTarget as SVGSVGElement).setPointerCapture(event.pointerId);
    put(event);
  };
  const drag = (event: PointerEvent) => {
    if ((event.currentTarget as SVGSVGElement).hasPointerCapture(event.pointerId)) put(event);
  };
  const drawn = { cx: circle.x, cy: circle.y, r: circle.radius, fill: "none" };
  return (
    <svg
      class="ring-photo"
      viewBox={`0 0 ${seen.width} ${seen.height}`}
      preserveAspectRatio="xMidYMid meet"
      role="img"
      aria-label={words.alt}
      onPointerDown={begin}
      onPointerMove={drag}
    >
      <image href={url} {...size} transform={`translate(${x} ${y}) rotate(${degrees})`} />
      <circle {...drawn} stroke={COLOURS.edge} stroke-width={circle.black} />
      <circle {...drawn} stroke={COLOURS.line} stroke-width={circle.white} />
    </svg>
  );
}
