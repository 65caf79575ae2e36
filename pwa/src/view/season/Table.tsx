/** A table whose rows have a long name: before the numbers where there is room, else over them, as on a phone. */

import type { ComponentChildren } from "preact";
import { useWide } from "../shell/useWide";

interface Row {
  key: string;
  name: ComponentChildren;
  cells: ComponentChildren[];
}

interface Table {
  caption: string;
  captionUnseen?: boolean;
  /** What the names are of. */
  named: string;
  head: string[];
  rows: Row[];
}

export function Table({ caption, captionUnseen, named, head, rows }: Table) {
  const wide = useWide();
  const Shown = wide ? InOneLine : InTwoLines;
  return (
    <table class={wide ? "named wide" : "named"}>
      <caption class={captionUnseen ? "unseen" : ""}>{caption}</caption>
      <thead>
        <tr>
          {wide && <th scope="col">{named}</th>}
          {head.map((one) => (
            <th key={one} scope="col" class="number">
              {one}
            </th>
          ))}
        </tr>
      </thead>
      {rows.map((row) => (
        <Shown key={row.key} head={head} name={row.name} cells={row.cells} />
      ))}
    </table>
  );
}

type Line = Pick<Table, "head"> & Pick<Row, "name" | "cells">;

const InOneLine = ({ head, name, cells }: Line) => (
  <tbody>
    <tr>
      <th scope="row">{name}</th>
      <Numbers head={head} cells={cells} />
    </tr>
  </tbody>
);

const InTwoLines = ({ head, name, cells }: Line) => (
  <tbody>
    <tr>
      <th scope="rowgroup" colSpan={head.length}>
        {name}
      </th>
    </tr>
    <tr>
      <Numbers head={head} cells={cells} />
    </tr>
  </tbody>
);

const Numbers = ({ head, cells }: Pick<Line, "head" | "cells">) => (
  <>
    {cells.map((cell, place) => (
      <td key={head[place]} class="number">
        {cell}
      </td>
    ))}
  </>
);
