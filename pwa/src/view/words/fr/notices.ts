/** Mots dits sur chaque écran quand une adresse ou un appareil n'est pas reconnu. */

import type { Words } from "../../../kit/language";
import type { notices as english } from "../notices";

export const notices: Words<typeof english> = {
  insecureTitle: "Adresse non reconnue",
  insecure:
    "Cette page n'est pas venue par une adresse https reconnue : elle ne s'ouvre pas sans réseau. Demandez le bon lien à votre responsable.",
  unsigned: {
    title: "Non signé",
    insecure:
      "Ce que vous notez ici ne peut pas être signé : la page n'est pas venue par une adresse https reconnue. C'est gardé et envoyé, mais cela ne compte qu'une fois accepté par un responsable.",
    before:
      "Vous avez rejoint l'équipe avant la mise en place des signatures. Ce que vous notez est gardé et envoyé, mais ne compte qu'une fois accepté par un responsable. Demandez-lui un nouveau code et rejoignez de nouveau sous Moi : rien n'est perdu.",
  },
};
