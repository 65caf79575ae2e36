/** The one primary action of a screen, at the thumb, and what stands with it. */

import type { ComponentChildren } from "preact";
import "./dock.css";
import { Button, type ButtonProps } from "./Button";

interface DockProps {
  /** Filled; there is one. `danger` where it ends something. */
  primary: Omit<ButtonProps, "kind" | "wide"> & { kind?: "primary" | "danger" };
  /** Beside it, plain. */
  secondary?: Omit<ButtonProps, "kind" | "wide">;
  /** Above both: what the tap will do, or why it can't be done yet. */
  note?: ComponentChildren;
}

/** 76 px; higher where Save is as large as a finger in the car needs. */
export function Dock({ primary, secondary, note }: DockProps) {
  return (
    <div class="ui-dock">
      {note && <div class="ui-dock-note">{note}</div>}
      {secondary && <Button size="car" {...secondary} kind="secondary" />}
      <Button size="car" {...primary} kind={primary.kind ?? "primary"} />
    </div>
  );
}
