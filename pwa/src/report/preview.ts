/** What is seen of a paper before it is fetched. */

export type Preview =
  /** One page of it as a picture; `tag` is the server's name for just this picture. */
  | { kind: "page"; url: string; pages: number; tag: string | null }
  /** The first rows of a table, its heads among them; `of`: how many there are below the heads. */
  | { kind: "rows"; rows: string[][]; of: number }
  /** The picture that is held is still what the server would send. */
  | { kind: "same" }
  | { kind: "refused"; why: string }
  | { kind: "unreachable" };
