/** Mots de la liste des touches, pour les écrans à clavier. */

import type { Words } from "../../../kit/language";
import type { keys as english } from "../keys";

export const keys: Words<typeof english> = {
  title: "Touches",
  close: "Fermer",
  list: [
    ["↓ ↑", "La ligne suivante de la liste, et la précédente"],
    ["Entrée", "Ouvrir la ligne"],
    ["/", "Chercher dans la liste"],
    ["?", "Cette liste"],
    ["Échap", "Fermer ce qui couvre l'écran"],
  ],
};
