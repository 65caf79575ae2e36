/** What is tapped: one primary in the dock, everything else secondary, text or, where it ends something, danger. */

import type { ComponentChildren } from "preact";
import "./button.css";
import { Icon } from "./Icon";
import type { IconName } from "./icons";

export type ButtonKind = "primary" | "secondary" | "text" | "danger";

export interface ButtonProps {
  /** Secondary where nothing is said. */
  kind?: ButtonKind;
  /** The words on it. */
  children: ComponentChildren;
  icon?: IconName;
  onClick?: () => void;
  /** A link that looks like a button. */
  href?: string;
  /** Besides, when the link is followed. */
  onFollow?: () => void;
  type?: "button" | "submit";
  /** The id of the text that says why it can't be pressed yet: it stays reachable, and a tap does nothing. */
  unavailable?: string;
  /** What was tapped is still being done: it keeps its place and the focus, and a second tap does nothing. */
  busy?: boolean;
  /** A name for screen readers that says more than the words on it. */
  label?: string;
  expanded?: boolean;
  /** As wide as its place. */
  wide?: boolean;
  /** 56 px, for what is tapped in the car; Save is as large as a finger needs. */
  size?: "usual" | "car" | "save";
}

const classes = ({ kind = "secondary", wide, size = "usual" }: ButtonProps) =>
  ["ui-button", `is-${kind}`, `is-${size}`, wide && "is-wide"].filter(Boolean).join(" ");

/** A button, or a link that looks like one where there is an `href`. */
export function Button(props: ButtonProps) {
  const { icon, children, href, label, busy, unavailable } = props;
  const inside = (
    <>
      {icon && <Icon name={icon} size={20} />}
      <span>{children}</span>
    </>
  );
  if (href !== undefined) {
    return (
      <a class={classes(props)} href={href} aria-label={label} onClick={props.onFollow}>
        {inside}
      </a>
    );
  }
  const stopped = busy || unavailable !== undefined;
  return (
    <button
      type={props.type ?? "button"}
      class={classes(props)}
      aria-label={label}
      aria-expanded={props.expanded}
      aria-busy={busy || undefined}
      aria-disabled={stopped || undefined}
      aria-describedby={unavailable}
      onClick={(event) => {
        if (stopped) event.preventDefault();
        else props.onClick?.();
      }}
    >
      {inside}
    </button>
  );
}

interface IconButtonProps {
  icon: IconName;
  /** Its name: nothing else says what it does. */
  label: string;
  onClick: () => void;
  expanded?: boolean;
}

/** An icon alone, where its place says what it does: back, more, close. 48 px. */
export function IconButton({ icon, label, onClick, expanded }: IconButtonProps) {
  return (
    <button type="button" class="ui-icon-button" aria-label={label} aria-expanded={expanded} onClick={onClick}>
      <Icon name={icon} />
    </button>
  );
}
