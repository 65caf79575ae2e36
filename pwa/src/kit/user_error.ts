/** An error whose text is a whole sentence for the person: what happened and what to do. */

/** Nothing was done; `message` says why and what to do. */
export class UserError extends Error {}
