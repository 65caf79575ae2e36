/** Mots de l'écran Moi : personne, téléphone, ce qui attend. */

import type { Words } from "../../../kit/language";
import type { me as english } from "../me";

const MOST_NAMED = 6;

/** `les numéros 3, 4 et 5`, les premiers nommés. */
function numbered(numbers: number[]): string {
  if (numbers.length === 1) return `le numéro ${numbers[0]}`;
  const named = numbers.slice(0, MOST_NAMED);
  const last = numbers.length > named.length ? `${numbers.length - named.length} autres` : named.pop();
  return `les numéros ${named.join(", ")} et ${last}`;
}

/** `812 ko`, `3,4 Mo`, `12 Go`. */
function size(bytes: number): string {
  if (bytes < 1e6) return `${Math.ceil(bytes / 1e3)} ko`;
  const [amount, unit] = bytes < 1e9 ? [bytes / 1e6, "Mo"] : [bytes / 1e9, "Go"];
  return `${amount.toFixed(1).replace(".", ",")} ${unit}`;
}

export const me: Words<typeof english> = {
  title: "Moi et ce téléphone",
  iAm: (name) => `Vous êtes ${name}`,
  joinAnother: "Ajouter une autre personne",
  people: "Personnes sur ce téléphone",
  refused:
    "Le serveur ne vous connaît plus sur ce téléphone. Tout est gardé ici. Demandez un nouveau code à votre responsable et rejoignez de nouveau ; ensuite tout part.",
  status: "Ce téléphone",
  waiting: (n) => (n === 0 ? "Rien en attente d'envoi" : `${n} en attente d'envoi`),
  photos: (n) => (n === 0 ? "Ni photo ni note vocale en attente" : `Photos et notes vocales en attente : ${n}`),
  attention: (n) => (n === 0 ? "Rien de refusé" : `Attention demandée : ${n}, voir Rapports`),
  heard: (time) => `Serveur entendu pour la dernière fois à ${time}`,
  heardNever: "Serveur pas encore entendu",
  reachable: "Le dernier essai a atteint le serveur",
  failed:
    "Le serveur a rencontré une erreur au dernier essai. Tout reste ici, et un nouvel essai se fait de lui-même ; son journal en dit plus.",
  unreachable: "Le dernier essai n'a pas atteint le serveur. Un nouvel essai se fait de lui-même.",
  sync: "Envoyer et recevoir maintenant",
  syncing: "Demande au serveur …",
  kept: "Mémoire : le navigateur a promis de la garder",
  keptNot:
    "Mémoire : le navigateur peut l'effacer quand la place manque. Envoyez souvent, et ajoutez l'application à l'écran d'accueil.",
  keep: "Demander au navigateur de garder le journal",
  offlineNot:
    "Ne s'ouvre pas ici sans réseau : la page n'est pas venue par une adresse https reconnue. Demandez le bon lien à votre responsable.",
  update: "Une mise à jour est prête. Elle démarre quand vous la touchez, jamais d'elle-même.",
  updateDo: "Mettre à jour maintenant",
  noUpdate: "L'application est à jour, autant que ce téléphone le sache",
  signed: (name) => `Ce que vous notez ici est signé par ${name}`,
  signaturesOff:
    "Les signatures sont désactivées sur cette épreuve : le journal ne prouve pas qui a écrit quoi. Votre responsable les a désactivées dans les réglages.",
  aside: "Parcourir ce qui a été mis de côté",
  walk: "État des lieux d'une voiture",
  setup: "Régler les épreuves",
  handover: "Transmettre sans réseau",
  numbers: "Numéros qui ne se suivent pas",
  numbersHow: "Chaque téléphone compte ce qu'on y note : 1, 2, 3 …",
  missing: (name, device, numbers) =>
    `${name}, téléphone ${device} : pas encore reçu : ${numbered(numbers)}. C'est peut-être encore sur ce téléphone-là, ou perdu avec lui : ouvrez-y l'application, et demandez à ${name} ce qui manque.`,
  twice: (name, device, numbers) =>
    `${name}, téléphone ${device} : reçu deux fois : ${numbered(numbers)}, comme d'un téléphone copié. Les deux écritures sont gardées. Rejoignez de nouveau sur l'un des deux téléphones.`,
  event: "Épreuve",
  language: "Langue",
  languageNote:
    "La page se recharge dans cette langue. Ce qui est sur ce téléphone reste. Ce que le serveur imprime ou refuse en détail, et ce que votre équipe a écrit elle-même, reste tel quel.",
  languageNotKept: "Ce navigateur n'a pas gardé le choix : quittez la navigation privée, puis choisissez de nouveau.",
  not: "Ce que cette application n'est pas",
  notText:
    "Elle tient un journal. Elle ne dit jamais qu'une voiture peut rouler : les officiels, les règlements et les gens du métier décident.",
  resting:
    "La voiture ne roule pas : pour ménager la batterie, ce téléphone essaie le serveur une fois par minute, et quand vous touchez l'envoi",
  room: (used, left) => `Place : l'application occupe ${size(used)}, il reste ${size(left)}, selon le navigateur`,
  roomLittle: (left) =>
    `Place : il ne reste que ${size(left)}, selon le navigateur. Envoyez ce qui attend, puis supprimez des films, des images ou des applications dont vous n'avez pas besoin. Sur un téléphone plein, plus rien n'est gardé.`,
  roomUnknown: "Place : ce navigateur ne dit pas ce qu'il en reste pour l'application",
  home: {
    title: "Mettre Shuntbook sur l'écran d'accueil",
    offerWhy:
      "L'application s'ouvre d'un toucher, sans les barres du navigateur, et celui-ci garde plus volontiers ce qui est noté quand la place manque.",
    offer: "La mettre sur l'écran d'accueil",
    byHandWhy:
      "Sur ce téléphone, le journal n'est gardé durablement qu'ainsi : le navigateur efface ce que tient une page qui n'a pas été ouverte pendant sept jours.",
    steps: [
      "Laissez d'abord tout partir : sous Moi, rien ne doit attendre. L'icône commence avec un journal à elle.",
      "Touchez le bouton de partage du navigateur, un carré avec une flèche vers le haut.",
      "Choisissez « Sur l'écran d'accueil ».",
      "Ouvrez Shuntbook par son icône et rejoignez-y l'équipe avec un nouveau code de votre responsable.",
    ],
  },
  looks: "Listes de contrôle",
  about: "À propos : ce que ce n'est pas, précautions, qui décide",
  device: (d) => `Numéro de ce téléphone : ${d}`,
};
