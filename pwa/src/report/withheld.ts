/** What stands in the place of an entry that somebody may not see: it counts, and says nothing. */

/** Say whether this stands for an entry. */
export const isWithheld = ({ kind }: { kind: string }): boolean => kind === "withheld" || kind === WITHHELD_CAR;

/** Stands for an entry of a car that a person is not shown, which others calculate with. */
export const WITHHELD_CAR = "withheld.car";
