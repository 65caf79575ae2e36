/** Mots du tour de la voiture. */

import type { Words } from "../../../kit/language";
import type { round as english } from "../round";

export const round: Words<typeof english> = {
  title: "Tour de la voiture",
  how: "Cochez ce qui est abîmé, puis passez à l'endroit suivant. Enregistrez une fois à la fin : un rapport par endroit abîmé.",
  happened: "Que s'est-il passé ?",
  happenedNote: "Met dans les travaux tout ce qui est à contrôler ensuite.",
  looked: (n, of) => `${n} endroits sur ${of} faits`,
  found: (n) => (n === 1 ? "1 constat" : `${n} constats`),
  next: (zone) => `Suivant : ${zone}`,
  save: (n) =>
    n === 0 ? "Enregistrer : rien n'est encore coché" : n === 1 ? "Enregistrer 1 constat" : `Enregistrer ${n} constats`,
  saving: "Enregistrement …",
  needs: "Rien n'est encore coché. Cochez ce qui est abîmé, puis enregistrez.",
  drop: "Recommencer",
  notKept:
    "Ce téléphone est plein : les coches ne durent que tant que cette page est ouverte. Enregistrez maintenant, puis faites de la place.",
  dropped: "Les coches sont effacées.",
  bringBack: "Les reprendre",
  nothing: "Rien trouvé ? Retournez à Noter et dites que rien n'a été vu.",
};
