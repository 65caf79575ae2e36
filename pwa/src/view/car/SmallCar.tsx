/** The same car, small, with one place filled: for the eye alone, beside words that name it. */

import { CarBody } from "./CarBody";
import "./car.css";
import { SHAPES, sideOf, viewBox } from "./shapes";

/** Nothing where the drawing does not know the place. */
export function SmallCar({ zone }: { zone: string }) {
  const side = sideOf(zone, "top");
  const shape = SHAPES[side].find((one) => one.zone === zone);
  if (!shape) return null;
  return (
    <svg class="drawing small-car" viewBox={viewBox(side)} aria-hidden="true" focusable="false">
      <CarBody side={side} />
      <path class="there" d={shape.d} />
    </svg>
  );
}
