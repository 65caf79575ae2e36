/** Mots pour plusieurs personnes sur un téléphone : qui parle, codes PIN, signatures. */

import type { Words } from "../../../kit/language";
import type { people as english } from "../people";

export const people: Words<typeof english> = {
  title: "Qui utilise ce téléphone maintenant ?",
  now: "l'utilise maintenant",
  pinOf: (name) => `Code PIN de ${name}`,
  change: (name) => `Passer à ${name}`,
  pin: "Code PIN",
  pinTitle: "Votre code PIN sur ce téléphone",
  pinWhy:
    "Plusieurs personnes partagent un téléphone. Le code PIN empêche les autres de signer à votre nom : il est demandé quand quelqu'un passe à vous, et pour chaque contrôle. Il ne quitte jamais ce téléphone.",
  pinHas: "Vous avez un code PIN sur ce téléphone.",
  pinOld: "Code PIN actuel",
  pinNew: "Nouveau code PIN, 4 à 6 chiffres",
  pinAgain: "Le même encore une fois",
  pinSet: "Garder ce code PIN",
  pinChange: "Changer le code PIN",
  pinKept: "Le code PIN est gardé sur ce téléphone.",
  pinShape: "Un code PIN a 4 à 6 chiffres.",
  pinDiffers: "Les deux codes PIN diffèrent. Tapez-les de nouveau.",
  lookPin: (name) => `Votre code PIN, ${name} : il signe ce contrôle`,
  lookPinNew:
    "Vous n'avez pas encore de code PIN sur ce téléphone, et chaque contrôle en demande un. Choisissez-le maintenant.",
  lookPinNeeded: "Tapez votre code PIN : le contrôleur seul signe un contrôle.",
};
