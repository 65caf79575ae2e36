/** Mots pour entourer un endroit sur une photo. */

import type { Words } from "../../../kit/language";
import type { ring as english } from "../ring";

export const ring: Words<typeof english> = {
  title: "Entourer l'endroit",
  how: "Touchez l'endroit sur la photo, ou faites-y glisser l'anneau.",
  which: "Quelle photo",
  photo: (n) => `Photo ${n}`,
  alt: "La photo avec l'anneau, comme elle sera gardée",
  larger: "Plus grand",
  smaller: "Plus petit",
  turn: "Tourner la photo",
  again: "Recommencer",
  sliders: "Le placer avec des curseurs",
  x: "Anneau depuis la gauche",
  y: "Anneau depuis le haut",
  across: "Taille de l'anneau",
  percent: (n) => `${n}\u00a0%`,
  save: "Garder la photo entourée",
  saving: "Dessin en cours …",
  leave: "Ne rien entourer",
  needs: "L'anneau n'est pas encore placé. Touchez l'endroit sur la photo, puis gardez-la.",
  stays: "Cela fait une nouvelle photo\u00a0; celle-ci reste telle quelle.",
};
