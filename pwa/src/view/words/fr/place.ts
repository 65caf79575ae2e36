/** Mots de l'endroit dans la spéciale : page des notes, position du téléphone. */

import { decimal, type Words } from "../../../kit/language";
import type { place as english } from "../place";

export const place: Words<typeof english> = {
  notePage: "Page de vos notes",
  ask: "Où est ce téléphone ? (GPS)",
  asking: "Recherche des satellites …",
  km: (km, metres) => `${km} d'après le GPS, à ${metres} près.`,
  noKm: "Les points du carnet d'itinéraire près d'ici ne sont pas dans les réglages, ou ce n'est pas sur la spéciale : le km reste tel quel.",
  who: "Qui reçoit cette position ?",
  share: "La partager avec l'équipe",
  unshare: "La garder sur ce téléphone seulement",
  at: (lat, lon, metres) => `${lat}, ${lon} (± ${metres})`,
  metres: (metres) =>
    metres < 1000 ? `${metres < 100 ? metres : Math.round(metres / 10) * 10} m` : `${decimal(metres / 1000, 1)} km`,
  map: "Ouvrir dans une carte",
  refused: {
    denied:
      "Ce téléphone ne peut pas dire à l'application où il est. Autorisez-le dans ses réglages, ou réglez le km à la main.",
    unavailable: "Ce téléphone ne sait pas où il est. Réglez le km à la main.",
    timeout: "Pas de satellites en 20 secondes. Allez à découvert et recommencez, ou réglez le km à la main.",
  },
};
