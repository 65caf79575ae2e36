/** Lists: full-width rows with hairlines, under headers that stay in sight while their rows scroll by. */

import type { ComponentChildren } from "preact";
import "./list.css";
import { Mark, type Tone } from "./Mark";

interface SectionHeaderProps {
  title: string;
  /** At the right: how many, how long. */
  meta?: string;
  tone?: "hold" | "must" | "plain";
  level?: 2 | 3;
  id?: string;
}

/** Stays under what is stuck to the top; `--sticky-top` says how high that is. */
export function SectionHeader({ title, meta, tone = "plain", level = 2, id }: SectionHeaderProps) {
  const Heading = level === 2 ? "h2" : "h3";
  return (
    <div class={`ui-section is-${tone}`}>
      <Heading id={id}>{title}</Heading>
      {meta && <p>{meta}</p>}
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
  figure?: string;
  under?: string;
  /** In front: a shape, or a photo. */
  tone?: Tone;
  toneLabel?: string;
  photo?: ComponentChildren;
  /** What a tap does; a row without either is only read. */
  href?: string;
  onOpen?: () => void;
  /** This row's thing is shown beside the list. */
  current?: boolean;
  /** A button beside the row that does something at once. */
  action?: ComponentChildren;
}

function Inside({ title, meta, figure, under, tone, toneLabel, photo }: RowProps) {
  return (
    <>
      {photo ? <span class="ui-row-photo">{photo}</span> : tone && <Mark tone={tone} label={toneLabel} />}
      <span class="ui-row-lines">
        <span class="ui-row-title">{title}</span>
        {meta && <span class="ui-row-meta">{meta}</span>}
      </span>
      {(figure || under) && (
        <span class="ui-row-end">
          {figure && <span class="ui-row-figure">{figure}</span>}
          {under && <span class="ui-row-meta">{under}</span>}
        </span>
      )}
    </>
  );
}

function Body(props: RowProps) {
  const { href, onOpen, current } = props;
  if (href !== undefined) {
    return (
      <a class="ui-row" href={href} aria-current={current || undefined}>
        <Inside {...props} />
      </a>
    );
  }
  if (!onOpen) {
    return (
      <div class="ui-row">
        <Inside {...props} />
      </div>
    );
  }
  return (
    <button type="button" class="ui-row" aria-current={current || undefined} onClick={onOpen}>
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
