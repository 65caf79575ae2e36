/** Strokes of a finger as a picture, and as the path that shows them. */

import { UserError } from "../../kit/user_error";
import { walk as words } from "../words/walk";

/** Width and height of a signature's field, in the units of its strokes. */
export const FIELD = { width: 1000, height: 360 };
const INK_WIDTH = 7;
const PICTURE_PX = 800;

/** The SVG path of strokes; a tap alone is a dot. */
export function pathOf(strokes: readonly number[][]): string {
  return strokes.map(lineOf).join("");
}

function lineOf(stroke: readonly number[]): string {
  const [x = 0, y = 0, ...rest] = stroke;
  const points = [];
  for (let at = 0; at + 1 < rest.length; at += 2) points.push(`L${rest[at]} ${rest[at + 1]}`);
  return `M${x} ${y}${points.length ? points.join("") : `L${x + 1} ${y}`}`;
}

/** Return what was drawn as black on white, or null where nobody drew. Errors: Error where there is no canvas. */
export async function pictureOf({ strokes }: { strokes: readonly number[][] }): Promise<Blob | null> {
  if (strokes.length === 0) return null;
  const scale = PICTURE_PX / FIELD.width;
  const canvas = document.createElement("canvas");
  canvas.width = PICTURE_PX;
  canvas.height = FIELD.height * scale;
  const context = canvas.getContext("2d");
  if (!context) throw new UserError(words.noDrawing);
  context.fillStyle = "white";
  context.fillRect(0, 0, canvas.width, canvas.height);
  context.scale(scale, scale);
  context.lineWidth = INK_WIDTH;
  context.lineCap = "round";
  context.lineJoin = "round";
  context.stroke(new Path2D(pathOf(strokes)));
  return new Promise((resolve) => canvas.toBlob(resolve, "image/png"));
}
