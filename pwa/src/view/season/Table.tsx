/** A table whose rows have a long name: the name over the numbers, so that it fits the narrowest phone. */

import type { ComponentChildren } from "preact";

interface Row {
  key: string;
  name: ComponentChildren;
  cells: ComponentChildren[];
}

interface Table {
  caption: string;
  captionUnseen?: boolean;
  head: string[];
  rows: Row[];
}

export function Table({ caption, captionUnseen, head, rows }: Table) {
  return (
    <table class="named">
      <caption class={captionUnseen ? "unseen" : ""}>{caption}</caption>
      <thead>
        <tr>
          {head.map((one) => (
            <th key={one} scope="col" class="number">
              {one}
            </th>
          ))}
        </tr>
      </thead>
      {rows.map(({ key, name, cells }) => (
        <tbody key={key}>
          <tr>
            <th scope="rowgroup" colSpan={head.length}>
              {name}
            </th>
          </tr>
          <tr>
            {cells.map((cell, place) => (
              <td key={head[place]} class="number">
                {cell}
              </td>
            ))}
          </tr>
        </tbody>
      ))}
    </table>
  );
}
