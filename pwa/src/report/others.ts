/** The card for an accident on the road: fields in, lines of `others` out, and back again. Pure. */

export const OTHERS_FIELDS = ["name", "plate", "insurer", "witnesses", "police"] as const;
type OthersField = (typeof OTHERS_FIELDS)[number];
/** `more`: what fits no field. */
export type Others = Record<OthersField | "more", string>;

const HEADS: Record<OthersField, string> = {
  name: "Name",
  plate: "Plate",
  insurer: "Insurer",
  witnesses: "Witnesses",
  police: "Police number",
};

/** Return "Name: …" and so on, a line each, empty fields left out. */
export function othersText(others: Others): string {
  const lines = OTHERS_FIELDS.filter((field) => others[field].trim()).map(
    (field) => `${HEADS[field]}: ${others[field].replace(/\s+/g, " ").trim()}`,
  );
  return [...lines, others.more.trim()].filter(Boolean).join("\n");
}

/** Return the fields of such a text; a line that is none of them, or comes twice, is kept under `more`. */
export function othersOf(text: string): Others {
  const found: Others = { name: "", plate: "", insurer: "", witnesses: "", police: "", more: "" };
  const more: string[] = [];
  for (const line of text.split("\n")) {
    const field = OTHERS_FIELDS.find((one) => line.startsWith(`${HEADS[one]}: `));
    if (field && !found[field]) found[field] = line.slice(HEADS[field].length + 2);
    else more.push(line);
  }
  return { ...found, more: more.join("\n").trim() };
}
