/** The car drawing as data for the server's papers: made here from the app's own, never drawn a second time. */

import { type ComponentChild, type VNode, isValidElement } from "preact";
import { expect, test } from "vitest";
import { CarBody } from "../src/view/car/CarBody";
import { heightOf, SHAPES, SIDES, WIDTH } from "../src/view/car/shapes";

/** SVG text of what a component without state draws. */
function svg(node: ComponentChild): string {
  if (Array.isArray(node)) return node.map(svg).join("");
  if (!isValidElement(node)) return "";
  const { type, props } = node as VNode<Record<string, unknown>>;
  if (typeof type === "function") return svg((type as (props: unknown) => ComponentChild)(props));
  const { children, ...attributes } = props;
  const inner = svg(children as ComponentChild);
  if (typeof type !== "string") return inner;
  const said = Object.entries(attributes).map(([name, value]) => ` ${name}="${String(value)}"`);
  return `<${type}${said.join("")}${inner ? `>${inner}</${type}>` : "/>"}`;
}

test("the server's papers have the app's drawing: `npx vitest run --update` writes it again", async () => {
  const sides = SIDES.map((side) => [
    side,
    {
      width: WIDTH,
      height: heightOf(side),
      body: svg(CarBody({ side })),
      zones: Object.fromEntries(SHAPES[side].map(({ zone, d }) => [zone, d])),
    },
  ]);
  const text = `${JSON.stringify(Object.fromEntries(sides), null, 1)}\n`;
  expect(text).toContain('class=\\"body\\"');
  await expect(text).toMatchFileSnapshot("../../api/shuntbook/document/car_drawing.json");
});
