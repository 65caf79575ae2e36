/** Mots de ce qui entoure chaque écran : barre du haut, bandeau de retenue, onglets. */

import type { Words } from "../../../kit/language";
import type { shell as english } from "../shell";

export const shell: Words<typeof english> = {
  back: "Retour",
  handOver: "Remise",
  live: "en ligne",
  fetched: (n) => `${n} reçues …`,
  noSignal: "pas de réseau",
  serverError: "erreur du serveur",
  service: (service) => `Assistance ${service}`,
  out: (clock) => `sortie ${clock}`,
  left: (min) => `encore ${min} min`,
  over: (min) => `${min} min de retard`,
  after: (stage) => `Après ${stage}`,
  next: (service, clock) => `Assistance ${service} à ${clock}`,
  me: (name) => `${name} : moi et ce téléphone`,
  strip: {
    label: "Ce que contient le journal sur cette voiture",
    hold: "RETENUE",
    nothing: "Rien d'ouvert",
    nothingRest: "dans le journal ne la retient",
    unknown: "Pas encore connu",
    inspect: (n) => `${n} à contrôler`,
    failed: (n) => (n < 2 ? `${n} refusé` : `${n} refusés`),
    official: (n) => `${n} pour un officiel`,
    review: (n) => `${n} à examiner`,
    why: "Pourquoi",
    whyLabel: "Pourquoi : ce que contient le journal sur cette voiture",
  },
};
