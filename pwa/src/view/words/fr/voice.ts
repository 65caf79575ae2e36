/** Mots des notes vocales. */

import type { Words } from "../../../kit/language";
import type { voice as english } from "../voice";

export const voice: Words<typeof english> = {
  record: "Note vocale : maintenir ou toucher",
  asking: "Demande du micro …",
  held: (clock) => `Enregistre ${clock}. Lâchez pour la garder`,
  going: (clock) => `Enregistre ${clock}. Touchez pour la garder`,
  recording: "Enregistrement en cours.",
  keeping: "Enregistrement …",
  allowed: "Le micro peut servir maintenant. Maintenez le bouton et parlez.",
  ended: "Une minute au plus : cette partie est gardée. Lancez-en une autre pour la suite.",
  silent: "Rien n'a été enregistré. Maintenez le bouton et recommencez, ou écrivez une note.",
  refused:
    "L'application ne peut pas utiliser le micro. Autorisez-le pour cette page dans les réglages du téléphone, ou écrivez une note.",
  absent: "Ce téléphone ou ce navigateur ne peut pas enregistrer ici. Écrivez une note.",
  play: (who, clock) => `Écouter la note vocale de ${who}, ${clock}`,
  pause: (who) => `Mettre en pause la note vocale de ${who}`,
  takeBack: "Reprendre",
  takeBackOf: (who, clock) => `Reprendre la note vocale de ${who}, ${clock}`,
  takeBackSure: "Touchez encore pour la reprendre",
  away: "Cette note vocale n'est pas sur ce téléphone, et le serveur ne peut pas la donner maintenant. Réessayez quand il est joignable.",
  broken: "Ce téléphone ne peut pas lire la note vocale. Essayez avec un autre.",
};
