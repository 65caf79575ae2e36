/** Mots de l'aspect de l'application : les thèmes. */

import type { Words } from "../../../kit/language";
import type { eyes as english } from "../eyes";

export const eyes: Words<typeof english> = {
  title: "L'aspect de l'application sur ce téléphone",
  theme: { phone: "Comme le téléphone", day: "Jour", night: "Nuit", contrast: "Fort contraste" },
  about: {
    phone: "Clair ou sombre, et plus contrasté, selon les réglages du téléphone.",
    day: "Clair, quoi que dise le téléphone.",
    night:
      "Faible et chaud, pour des yeux faits à l'obscurité. Les photos aussi sont assombries : prenez un autre thème pour juger d'une couleur.",
    contrast: "Noir sur blanc à traits épais, pour le soleil bas et les yeux faibles.",
  },
  refused:
    "Ce navigateur ne garde rien pour cette page, le thème reste donc comme il était. Ouvrez l'application hors d'un onglet privé.",
};
