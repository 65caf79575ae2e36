/** The papers of a car as the screen lists them: what each is for, and as which files it is had. */

import type { EventSetup, Role } from "../../kit/api";
import { documents as words } from "../words/documents";
import { type DocumentName, documentsFor } from "./papers";

export type FormName = "pdf" | "csv" | "xlsx" | "zip";

/** One file that a paper is had as. */
export interface Form {
  name: FormName;
  /** What follows the event's address. */
  path: string;
  /** Where what it would look like is asked for; null where words say what is in it. */
  seen: ((page: number) => string) | null;
}

export interface Listed {
  id: DocumentName | "all" | "costs";
  name: string;
  use: string;
  /** What the file is, for the subject of an e-mail. */
  about: string;
  forms: [Form, ...Form[]];
}

/** What was chosen for all papers, and for which service a job sheet is. */
export interface Chosen {
  paper: string;
  language: string;
  service: string;
}

/** Return the papers that these roles may have, in the order in which a weekend needs them. */
export function listed(roles: Role[], setup: EventSetup, car: string, chosen: Chosen): Listed[] {
  const { paper, language, service } = chosen;
  const ofCar = `cars/${encodeURIComponent(car)}`;
  const asked = { paper, language };
  const papers = documentsFor(roles, setup).map((name): Listed => {
    const how = name === "job-sheet" && service ? { ...asked, service } : asked;
    const table = `${ofCar}/documents/parts-order.csv`;
    return {
      id: name,
      name: words.name[name] ?? name,
      use: words.use[name] ?? "",
      about: words.about(words.name[name] ?? name, car, setup.name),
      forms: [
        printed(`${ofCar}/documents/${name}`, how),
        ...(name === "parts-order" ? [{ name: "csv" as const, path: table, seen: () => table }] : []),
      ],
    };
  });
  const zip = `${ofCar}/documents.zip?${new URLSearchParams(asked)}`;
  papers.push({
    id: "all",
    name: words.allTitle,
    use: words.allHow,
    about: words.about(words.allTitle, car, setup.name),
    forms: [{ name: "zip", path: zip, seen: null }],
  });
  if (roles.includes("manager")) papers.push(costsListed(setup.name, asked));
  return papers;
}

export function costsListed(event: string, asked: { paper: string; language: string }): Listed {
  return {
    id: "costs",
    name: words.costs,
    use: words.costsUse,
    about: words.about(words.costs, "", event),
    forms: [
      printed("costs", asked),
      { name: "xlsx", path: "costs.xlsx", seen: null },
      { name: "csv", path: "costs.csv", seen: () => "costs.csv" },
    ],
  };
}

const printed = (stem: string, asked: Record<string, string>): Form => ({
  name: "pdf",
  path: `${stem}.pdf?${new URLSearchParams(asked)}`,
  seen: (page) => `${stem}.png?${new URLSearchParams({ ...asked, page: String(page) })}`,
});
