/** Mots de la remise sans réseau : fichiers et codes. */

import { decimal, type Words } from "../../../kit/language";
import type { codes as englishCodes, handing as englishHanding, handover as english } from "../handover";

const counted = (n: number, one: string, more = `${one}s`) => `${n} ${n < 2 ? one : more}`;
const entriesOf = (n: number) => counted(n, "entrée");

export const handover: Words<typeof english> = {
  title: "Transmettre sans réseau",
  what: "Ce que tient ce téléphone passe à un autre, ou au serveur, sans aucun réseau. Rien n'est perdu ici, et la même chose prise deux fois compte une fois.",
  out: "Donner un fichier",
  outHow:
    "Toutes les entrées et photos de cette épreuve qui sont sur ce téléphone. Envoyez le fichier par n'importe quel moyen : le partage du téléphone, un câble, une clé.",
  make: "Faire le fichier",
  making: "Le fichier se fait …",
  made: (entries, photos, bytes) =>
    `Le fichier contient ${entriesOf(entries)} et ${counted(photos, "photo")} : ${decimal(bytes / 1e6, 1)} Mo.`,
  share: "Le partager …",
  save: "L'enregistrer sur ce téléphone",
  in: "Prendre un fichier",
  inHow:
    "Un fichier fait par un autre téléphone ou le serveur. Il est d'abord vérifié en entier : abîmé, il est refusé en entier.",
  pick: "Choisir le fichier",
  taking: "Vérification du fichier …",
  damaged: "Ce fichier est abîmé, ou n'est pas de Shuntbook : rien n'en a été pris. Redemandez-le.",
  codes: "Par code, à travers la vitre",
  codesHow:
    "Un téléphone montre ses rapports en codes, l'autre les lit. Les photos n'y tiennent pas : elles viennent par fichier, ou avec un réseau.",
  show: "Montrer des rapports en codes",
  scan: "Lire des codes",
  scanStop: "Arrêter de lire",
  camera: "Ce que voit l'appareil photo",
  again: "Lire d'autres codes",
};

function taken({ fresh, held, photos, doubtful, conflicts, unreadable }: Parameters<typeof englishHanding.taken>[0]) {
  const said = [
    `Pris : ${counted(fresh, "nouvelle entrée", "nouvelles entrées")}, ${held} déjà ici, ${counted(photos, "nouvelle photo", "nouvelles photos")}.`,
  ];
  if (fresh > 0) said.push("Pas encore envoyé au serveur : cela se fait tout seul quand il y en a un.");
  if (doubtful > 0) {
    said.push(
      `${entriesOf(doubtful)} que ce téléphone seul ne peut croire. Le serveur décide ; d'ici là la voiture est retenue.`,
    );
  }
  if (conflicts > 0)
    said.push(`${entriesOf(conflicts)} non prises : une autre du même numéro est ici. Donnez le fichier au serveur.`);
  if (unreadable > 0)
    said.push(
      `${entriesOf(unreadable)} non prises : cette application ne peut pas les lire. Donnez le fichier au serveur.`,
    );
  return said;
}

const FAILED = {
  "no-https":
    "L'appareil photo a besoin de l'adresse https du serveur : ouvrez-y l'application, ou transmettez par fichier.",
  "no-camera": "Aucun appareil photo n'a été trouvé sur cet appareil. Transmettez par fichier.",
  "not-allowed":
    "Le navigateur n'a pas pu utiliser l'appareil photo. Autorisez-le pour cette page, ou transmettez par fichier.",
} as const;

function scan(news: Parameters<typeof englishHanding.scan>[0]): string {
  if (news.news === "piece") return `${news.have} codes sur ${news.of} lus. Ne bougez pas : le reste vient tout seul.`;
  if (news.news === "foreign") return "C'est un autre genre de code. Visez les codes de l'autre téléphone.";
  if (news.news === "damaged") return "Les codes n'allaient pas ensemble. Restez dessus : ils sont relus.";
  if (news.news === "failed") return FAILED[news.why];
  return "Visez le code de l'autre téléphone, qu'il remplisse presque l'image.";
}

export const handing: Words<typeof englishHanding> = { taken, scan };

export const codes: Words<typeof englishCodes> = {
  title: "Rapports en codes",
  how: "Tenez ce téléphone de sorte que l'autre voie le code entier. Sur l'autre téléphone : Moi, Transmettre sans réseau, Lire des codes.",
  photos: "Les photos ne tiennent pas dans un code : elles viennent par fichier, ou avec un réseau.",
  which: "Rapports",
  none: "Aucun rapport de cette voiture n'est encore sur ce téléphone.",
  nothing: "Cochez au moins un rapport.",
  tooMany: "C'est trop pour des codes. Cochez moins de rapports, ou transmettez par fichier.",
  drawing: "Le code se dessine …",
  place: (n, of) => (of === 1 ? "Un seul code contient tout." : `Code ${n} sur ${of}`),
  code: (n, of) => `Code QR ${n} sur ${of}`,
  stop: "S'arrêter à ce code",
  goOn: "Continuer tout seul",
  next: "Code suivant",
  unsent: "pas encore envoyé",
};
