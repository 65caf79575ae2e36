/** Lists: full-width rows with hairlines, under headers that stay in sight while their rows scroll by. */

import type { ComponentChildren } from "preact";
import "./list.css";
import { Mark, type Tone } from "./Mark";

interface SectionHeaderProps {
  title: string;
  /** The title leads there. */
  href?: string;
  /** A button beside it, for all of the section. */
  action?: ComponentChildren;
  /** At the right: how many, how long. */
  meta?: string;
  tone?: "hold" | "must" | "plain";
  level?: 2 | 3;
  id?: string;
}

/** Stays under what is stuck to the top; `--sticky-top` says how high that is. */
export function SectionHeader({ title, href, meta, action, tone = "plain", level = 2, id }: SectionHeaderProps) {
  const Heading = level === 2 ? "h2" : "h3";
  return (
    <div class={href === undefined ? `ui-section is-${tone}` : `ui-section is-${tone} is-link`}>
      <Heading id={id}>{href === undefined ? title : <a href={href}>{title}</a>}</Heading>
      {meta && <p>{meta}</p>}
      {action}
    </div>
  );
}

/** The rows of a section; `labelledBy`: the id of its header. */
export function List({ children, labelledBy }: { children: ComponentChildren; labelledBy?: string }) {
  return (
    <ul class="ui-list" aria-labelledby={labelledBy}>
      {children}
    </ul>
  );
}

export interface RowProps {
  title: string;
  /** One line: where, what, since when. Tags stand in it. */
  meta?: ComponentChildren;
  /** At the right, as *9 min*, and a line under it, as who has it. */
  figure?: ComponentChildren;
  under?: ComponentChildren;
  /** In front: a shape, or a photo. */
  tone?: Tone;
  toneLabel?: string;
  photo?: ComponentChildren;
  /** What a tap does; a row without either is only read. */
  href?: string;
  /** Besides, when the link is followed. */
  onFollow?: () => void;
  onOpen?: () => void;
  /** A name for screen readers that says more than the words in it. */
  label?: string;
  /** This row's thing is shown beside the list. */
  current?: boolean;
  /** A button beside the row that does something at once. */
  action?: ComponentChildren;
}

/** Both lines go to the right edge: then the title has one cell that nothing else takes, and needs no element. */
const isFull = ({ figure, under, meta }: RowProps) => Boolean(figure && under && meta);

/** Few elements: a list may have hundreds of rows. */
function Inside(props: RowProps) {
  const { title, meta, figure, under, tone, toneLabel, photo } = props;
  return (
    <>
      {photo ? <span class="ui-row-photo">{photo}</span> : tone && <Mark tone={tone} label={toneLabel} />}
      {isFull(props) ? title : <span class="ui-row-title">{title}</span>}
      {meta && <span class="ui-row-meta">{meta}</span>}
      {figure && <span class="ui-row-figure">{figure}</span>}
      {under && <span class="ui-row-under">{under}</span>}
    </>
  );
}

const classOf = (props: RowProps) =>
  ["ui-row", (props.photo || props.tone) && "with-lead", isFull(props) && "is-full"].filter(Boolean).join(" ");

function Body(props: RowProps) {
  const { href, onOpen, current } = props;
  if (href !== undefined) {
    return (
      <a
        class={classOf(props)}
        href={href}
        aria-label={props.label}
        aria-current={current || undefined}
        onClick={props.onFollow}
      >
        <Inside {...props} />
      </a>
    );
  }
  if (!onOpen) {
    return (
      <div class={classOf(props)}>
        <Inside {...props} />
      </div>
    );
  }
  return (
    <button
      type="button"
      class={classOf(props)}
      aria-label={props.label}
      aria-current={current || undefined}
      onClick={onOpen}
    >
      <Inside {...props} />
    </button>
  );
}

/** A row of a list: title, one line of meta, a figure at the right. 60 px at least. */
export function Row(props: RowProps) {
  return (
    <li>
      <Body {...props} />
      {props.action && <div class="ui-row-action">{props.action}</div>}
    </li>
  );
}
