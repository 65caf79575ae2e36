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
    "Plusieurs personnes partagent un téléphone. Le code PIN empêche les autres de signer à votre nom : il est demandé quand quelqu'un passe à vous, pour chaque contrôle et pour une sortie malgré la retenue. Il se choisit à l'entrée et ne quitte jamais ce téléphone. Oublié ? Entrez à nouveau avec un nouveau lien.",
  pinHas: "Vous avez un code PIN sur ce téléphone.",
  pinOld: "Code PIN actuel",
  pinNew: "Nouveau code PIN, 6 chiffres",
  pinAgain: "Le même encore une fois",
  pinSet: "Garder ce code PIN",
  pinChange: "Changer le code PIN",
  pinKept: "Le code PIN est gardé sur ce téléphone.",
  pinShape: "Un code PIN a 6 chiffres.",
  pinDiffers: "Les deux codes PIN diffèrent. Tapez-les de nouveau.",
  lookPin: (name) => `Votre code PIN, ${name} : il signe ce contrôle`,
  lookPinNew:
    "Vous n'avez pas encore de code PIN sur ce téléphone, et chaque contrôle en demande un. Choisissez-le maintenant.",
  releasePin: (name) => `Votre code PIN, ${name} : il signe cette autorisation`,
  releasePinNeeded: "Tapez votre code : une sortie malgré la retenue est signée par qui la décide.",
  lookPinNeeded: "Tapez votre code PIN : le contrôleur seul signe un contrôle.",
  join: {
    how: "Ouvrez le lien envoyé par votre responsable, ou tapez son code ici. Un code sert une fois.",
    code: "Code",
    button: "Rejoindre",
    joining: "Demande au serveur …",
    pin: "Code PIN de 6 chiffres, pour contrôleurs, responsables et mécaniciens",
    pinShape: "Un code PIN a 6 chiffres. Corrigez-le ou laissez vide.",
    kept: "Ce que ce téléphone a noté avant est gardé et sera quand même envoyé.",
    stay: (name) => `Continuer avec ${name}`,
  },
};
