/** Mots des photos partagées par une autre application. */

import type { Words } from "../../../kit/language";
import type { shared as english } from "../shared";

const photos = (n: number) => (n === 1 ? "1 photo" : `${n} photos`);

export const shared: Words<typeof english> = {
  title: "Photos partagées",
  taking: "Reprise des photos …",
  kept: (n) => `${photos(n)} en attente de l'endroit sur ce téléphone.`,
  none: "Aucune photo partagée n'attend ici. Partagez-en depuis la galerie, ou prenez-en une avec Photo d'abord.",
  notPhotos: (n) =>
    `${n === 1 ? "1 élément partagé n'est pas une photo" : `${n} éléments partagés ne sont pas des photos`}\u00a0: pas repris. Partagez seulement des photos (JPEG ou PNG).`,
  tooMany: (n, most) =>
    `${photos(n)} de plus que les ${most} qui peuvent attendre\u00a0: pas repris. Partagez de nouveau après avoir enregistré.`,
  noRoom: (n) => `${photos(n)} pas repris\u00a0: ce téléphone est plein. Faites de la place, puis partagez de nouveau.`,
  unreadable: (n) =>
    `${photos(n)} illisible ou pas gardé. Toujours dans la galerie\u00a0: partagez de nouveau en JPEG, ou faites de la place.`,
  toLog: "Noter le choc\u00a0: choisir l'endroit",
};
