/** Mots de l'écran du responsable : ce qui a été mis de côté. */

import type { Words } from "../../../kit/language";
import type { aside as english } from "../aside";

export const aside: Words<typeof english> = {
  title: "Mis de côté",
  what: "Des entrées que le serveur n'a pas prises dans le journal. Chacune est gardée octet par octet, et sa voiture est retenue jusqu'à ce que vous ayez regardé.",
  online: "Seul le serveur tient cette liste : elle se montre quand il est là, et n'est pas gardée sur ce téléphone.",
  notFor: "Seul un responsable regarde ce qui a été mis de côté. Demandez au vôtre.",
  load: "Redemander au serveur",
  loading: "Demande au serveur …",
  none: "Rien n'attend d'être regardé.",
  waiting: (n) => (n === 1 ? "1 vous attend" : `${n} vous attendent`),
  done: (n) => `Déjà regardé (${n})`,
  unreadable: "Une entrée illisible",
  car: (car) => (car === null ? "Aucune voiture n'y est lisible : elle les retient toutes" : `Voiture ${car}`),
  wroteBy: (name, device) => `Écrit par ${name}, sur l'appareil ${device}`,
  brought: (who, time) => `Apporté par ${who}, ${time}`,
  broughtByFile: "un fichier ou la machine elle-même",
  onDevice: (name, device) => `${name} (appareil ${device})`,
  groupOf: (n, who) => `${n} entrées de ${who}`,
  between: (first, last) => `Arrivées entre ${first} et ${last}`,
  times: (n, what) => `${n} × ${what}`,
  groupMeans:
    "Une seule décision pour toutes. Ce qui viendra plus tard de cet appareil sera redemandé. Rien n'est effacé : les octets restent sur le serveur.",
  whyAll: "Pourquoi laissez-vous tout de côté ?",
  discardAll: (n) => `Laisser les ${n} de côté`,
  blockAll: "Bloquer cet appareil et tout laisser de côté",
  some: "Voir les premières",
  raw: "L'entrée telle qu'elle est venue",
  accept: "La prendre dans le journal",
  discard: "La laisser de côté",
  why: "Pourquoi décidez-vous ainsi ?",
  own: "Raison propre",
  reasons: [
    "Demandé à l'auteur : c'est bien cela",
    "Ancienne application, d'avant les signatures",
    "Regardé la voiture moi-même",
    "Personne n'a écrit ceci",
    "Déjà dit ailleurs",
  ],
  needReason: "Donnez d'abord une raison : elle est gardée avec votre nom.",
  acceptMeans:
    "Prise, elle compte sur votre parole, comme si elle avait été signée. Chacun voit que c'est vous qui l'avez fait.",
  acceptSigned: "Son auteur l'a signée. Prise, elle compte avec l'heure qu'elle nomme.",
  inspectionNever:
    "Aucun examen ne fait compter un contrôle : son contrôleur le redit. Laissez-la de côté avec une raison.",
  onlyInRebuild:
    "Elle compterait sur votre seule parole, ce que seule une reconstruction du journal permet. Qui l'a écrite la récrit ; laissez celle-ci de côté avec une raison.",
  cannot:
    "Elle ne peut pas être prise : il n'y a rien dedans que le journal puisse prendre. Laissez-la de côté avec une raison.",
  decided: (verdict, name, reason) => `${verdict === "accepted" ? "Prise" : "Laissée de côté"} par ${name} : ${reason}`,
  bySelf: "le serveur lui-même",
  code: {
    unsigned: "Elle n'a pas de signature, et cette épreuve en exige une.",
    "unknown-device": "Elle est signée par un appareil que ce serveur ne connaît pas encore.",
    "no-pin":
      "Le téléphone est entré sans code PIN, et cette épreuve en exige un pour les contrôles et les sorties retenues.",
    "bad-signature": "La signature ne va pas : l'entrée a été changée en route, ou contrefaite.",
    "wrong-author": "Elle nomme un autre auteur que la personne entrée sur cet appareil.",
    "shut-out": "Elle vient d'un appareil exclu.",
    "odd-time": "Elle nomme une année que personne ne peut vouloir dire : l'horloge de son téléphone était fausse.",
    conflict: "Le journal tient une autre entrée du même numéro.",
    "too-large": "Elle est plus longue que ne peut l'être une entrée.",
    "not-json": "Elle est illisible : elle a été abîmée en route.",
    "wrong-shape": "Quelque chose n'y est pas comme une entrée doit être.",
    "unknown-version": "Elle a été faite par une application plus récente ou plus ancienne.",
    "unknown-kind": "Elle est d'une sorte que ce serveur ne connaît pas.",
    "set-aside-full":
      "Il est venu de cet appareil plus qu'il n'en est gardé ici ; le reste est sur ce téléphone et retient toutes les voitures.",
  },
  todo: {
    unsigned: "Demandez à qui l'a écrite de rentrer à nouveau sur ce téléphone, pour qu'il signe, et de la récrire.",
    "unknown-device":
      "Elle compte toute seule dès que le téléphone d'un responsable qui connaissait l'appareil a atteint ce serveur. Attendez d'abord cela.",
    "no-pin":
      "Faites rentrer qui l'a écrite sur ce téléphone, avec un code PIN, et qu'il la récrive. Laissez celle-ci de côté.",
    "bad-signature": "Demandez à qui y est nommé ce qu'il a écrit, et faites-le-lui récrire. Laissez celle-ci de côté.",
    "wrong-author": "Demandez aux deux. Qui l'a écrite la récrit sous son propre nom.",
    "shut-out":
      "Demandez à la personne. Ce qui a été écrit avant la perte du téléphone est à récrire ; laissez celle-ci de côté.",
    "odd-time":
      "Demandez à la personne. Prenez-la si ce qu'elle dit est juste ; son heure reste comme elle est. Faites régler l'horloge de ce téléphone.",
    conflict: "Comparez-la à celle du journal. Ce qui y manque est à récrire.",
    "set-aside-full":
      "Décidez de ce que cet appareil a apporté, ou bloquez-le ; laissez celle-ci de côté en dernier, et le reste vient.",
  },
  todoOther: "Demandez à qui y est nommé de la récrire, puis laissez celle-ci de côté.",
};
