/** Mots d'une journée d'école : le coup d'œil entre deux tours. */

import type { Words } from "../../../kit/language";
import type { turn as english } from "../turn";

export const turn: Words<typeof english> = {
  title: "Entre deux tours",
  how: (session) => `Après ${session} : qui conduit ensuite, et un toucher par endroit.`,
  asBefore: "Comme avant",
  isNew: "Du nouveau",
  missing: (n) => (n === 1 ? "1 endroit n'est pas encore regardé." : `${n} endroits ne sont pas encore regardés.`),
  save: (session) => `Enregistrer : rien de nouveau sur ${session}`,
  saving: "Enregistrement …",
  sayNew: (zone) => `Dire ce qui est nouveau, en commençant par ${zone}`,
};
