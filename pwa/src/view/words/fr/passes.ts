/** Mots de la page des contrôles qui ne comptent pas, et de ce qu'un responsable apprend une fois d'une version plus ancienne. */

import type { Words } from "../../../kit/language";
import type { passes as english } from "../passes";

export const passes: Words<typeof english> = {
  title: "Contrôles qui ne comptent pas",
  link: "Contrôles qui ne comptent pas",
  linkAbout: "signés comme passés, et pourquoi ils couvrent moins",
  how: "Chacun a été signé comme passé et ne couvre pas tout ce qu'il nomme. Il reste dans le journal. Ce qu'il ne couvre pas retient la voiture jusqu'à ce qu'un contrôleur signe à nouveau.",
  notFor: "Cette page est pour les mécaniciens, les contrôleurs et les responsables.",
  heard: (time) => `Tel que le serveur l'avait à ${time}.`,
  none: "Aucun",
  noneAbout: "Chaque contrôle signé comme passé couvre tout ce qu'il nomme.",
  notHere: "Pas encore sur ce téléphone",
  notHereAbout:
    "C'est le serveur qui en tient la liste. Ouvrez cette page une fois avec du réseau ; elle reste ensuite sur ce téléphone.",
  open: "Encore à contrôler",
  since: (n) => `Contrôlés depuis, ou sans contrôle exigé (${n})`,
  signed: (name, time) => `Signé par ${name}, ${time}`,
  before: "comptait en version 0.1",
  about: (what) => `Non couvert : ${what.join(", ")}`,
  report: (name, time) => `signalement de ${name}, ${time}`,
  repair: (name, time) => `réparation de ${name}, ${time}`,
  inspection: (name, time) => `contrôle échoué de ${name}, ${time}`,
  why: {
    "not-inspector": (name) => `${name} n'est pas contrôleur sur cette épreuve.`,
    "unfinished-work": (name) => `${name} a commencé ce travail, et aucune réparation terminée ne l'inclut.`,
    "until-begun": (_, until) => `Il valait jusqu'à l'assistance ${until}, qui a commencé.`,
    "no-check-ok": () => "Aucun de ses points n'est en ordre.",
    "must-check": (_name, _until, checks) => `Doit être en ordre, et ne l'est pas : ${checks}.`,
    "no-official": () => "Pour l'arceau, il manque quel officiel l'a vu et ce qu'il a décidé.",
    "own-repair": (name) => `${name} l'a réparé. Quelqu'un d'autre doit le contrôler.`,
    "own-work-undone": (name) =>
      `${name} y a travaillé et a repris cette entrée. Cela compte toujours comme du travail.`,
    "too-bad": () => "C'est pire que ce qui peut être accepté sans réparation. Réparez d'abord.",
    bent: () => "C'est tordu, et aucune assistance n'est nommée jusqu'à laquelle le contrôle vaut.",
    temporary: () =>
      "La réparation est provisoire, et aucune assistance n'est nommée jusqu'à laquelle le contrôle vaut.",
    "check-not-ok": (_name, _until, checks) => `Il compte comme échoué. Pas en ordre : ${checks}.`,
    gone: () => "Ce qu'il nomme a été signalé autrement depuis, ou repris.",
  },
  told: {
    title: "Contrôles de la version 0.1",
    text: "Les règles sont plus strictes. Ces contrôles comptaient en version 0.1 et ne comptent plus ; chaque voiture est retenue jusqu'à ce qu'ils soient refaits.",
    of: (car, n) => `Voir la ${car} : ${n === 1 ? "1 contrôle" : `${n} contrôles`}`,
    close: "Fermer",
  },
};
