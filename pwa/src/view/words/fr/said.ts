/** Ce que dit l'application après un toucher. */

import type { Words } from "../../../kit/language";
import type { messages as english } from "../../../kit/messages";

export const said: Words<typeof english> = {
  partNotHere:
    "Cette partie de l'application n'est pas encore sur ce téléphone : rien n'a été fait. Trouvez du réseau, puis touchez encore.",
  noStore: "Ce navigateur ne laisse rien garder à l'application : quittez la navigation privée, ou écrivez sur papier.",
  newerStore:
    "Une version plus récente de l'application garde les rapports de ce téléphone : tous sont là, mais celle-ci ne peut pas les ouvrir. Fermez l'application et rouvrez-la où il y a du réseau.",
  slowStore:
    "La mémoire de ce téléphone ne répond pas. Fermez l'application et rouvrez-la, ou redémarrez le téléphone ; ce qui a été noté est gardé.",
  otherVersion:
    "Une version plus récente de l'application est ouverte dans un autre onglet. Rechargez cette page avant de continuer.",
  putBack:
    "Le navigateur a jeté ce que gardait l'application. Les rapports sont revenus ; les photos non envoyées sont perdues : reprenez-les.",
  notHereToUndo: "Cette entrée n'est pas sur ce téléphone : rien n'a été annulé.",
  undone: "Annulé.",
  saved: "Enregistré sur ce téléphone.",
  savedReports: (n) => `Enregistré sur ce téléphone : ${n === 1 ? "1 rapport" : `${n} rapports`}.`,
  amended: "Enregistré : le rapport se lit ainsi maintenant.",
  withdrawn: "Retiré. Il reste dans le journal.",
  nothingSeen: (stage) => `Enregistré : rien vu sur ${stage}.`,
  noReport: "Ce rapport n'est pas sur ce téléphone : rien n'a été enregistré.",
  full: "Ce téléphone est plein : rien n'a été enregistré. Faites de la place, puis recommencez.",
  writeFailed:
    "Le téléphone n'a pas pu écrire ceci : rien n'a été enregistré. Recommencez ; écrivez sur papier si cela échoue encore.",
  nobodyJoined: "Personne n'est entré sur ce téléphone : ouvrez d'abord un lien d'entrée. Rien n'a été enregistré.",
  carFirst: "Choisissez d'abord la voiture : rien n'a été enregistré.",
  hasPin: (name) => `${name} a un code secret sur ce téléphone : passez à ${name} dans la ligne du haut.`,
  joinNoServer:
    "Le serveur n'a pas répondu, et il le faut pour entrer. Trouvez du réseau, celui du camion ou un autre, puis rechargez cette page.",
  notKnown: {
    own: "Calculé sur ce téléphone d'après ce qu'il tient : le serveur peut en savoir plus.",
    never: "Le serveur n'a pas encore parlé de cette voiture.",
    unsent: (n) =>
      n === 1
        ? "1 entrée de ce téléphone n'est pas encore envoyée."
        : `${n} entrées de ce téléphone ne sont pas encore envoyées.`,
    cameIn: (clock) => `Le serveur n'a pas parlé depuis l'entrée de la voiture à ${clock}.`,
    wasDue: (service, clock) =>
      `La voiture était attendue en assistance ${service} à ${clock}, et le serveur n'a pas parlé depuis.`,
    newer: (n) => `Les travaux sur ce téléphone sont plus anciens que ${n} des entrées de la voiture ici.`,
  },
};
