/** Mots de la fiche d'un contrat : chaque clause en une phrase, et ce que coûterait un choc. */

import type { Words } from "../../../kit/language";
import type { agreements as english } from "../agreements";

export const agreements: Words<typeof english> = {
  how: "Qui paie ce qui casse : un contrat par voiture. Sans contrat, une voiture ne facture rien à personne.",
  begin: (car) => `Contrat pour la voiture ${car}`,
  head: (customer, car) => `${customer || "Client pas encore nommé"}, voiture ${car || "pas choisie"}`,
  open: "Modifier",
  close: "Fermer",
  takeOut: "Enlever ce contrat",
  asTable: "Modifier en tableau",
  who: "Qui, et quelle voiture",
  pays: "Combien le client paie",
  spared: "Ce qui est facturé, et ce qui ne l'est pas",
  sums: "Comment c'est calculé",
  hire: "La location",
  drivers: "Qui peut conduire",
  nobody: "Personne ici n'est encore pilote : ajoutez d'abord des personnes.",
  says: {
    agreement: "Son numéro, tel qu'il figure sur le papier signé.",
    car: "La voiture dont il s'agit.",
    customer: "Qui paie ; le décompte lui est adressé.",
    address: "Telle qu'elle figure sur le décompte ; séparez les lignes par des virgules.",
    drivers: "N'est facturé que ce qui casse quand l'un d'eux conduit. Personne de choisi : qui que ce soit.",
    excess: (amount, isEvent) =>
      amount
        ? isEvent
          ? `Sur toute l'épreuve, le client paie au plus ${amount} de dommages.`
          : `Pour chaque choc, le client paie au plus ${amount}.`
        : "Pas de franchise : le client paie tous les dommages.",
    excess_per: "Si la franchise vaut pour chaque choc ou une fois pour l'épreuve.",
    cap: (amount) =>
      amount
        ? `Pour tous les dommages ensemble, jamais plus de ${amount}.`
        : "Pas de plafond sur l'ensemble des dommages.",
    share_percent: (percent) =>
      percent
        ? `De chaque choc, le client supporte ${percent} %, avant franchise et plafond.`
        : "Le client supporte tout.",
    excluded: "Pièces qui ne sont jamais facturées, quoi qu'il leur soit arrivé. Noms du plan de la voiture.",
    wear_excluded: "L'ancien nom de « excluded » ; il se lit de même.",
    wear: (isCharged) =>
      isCharged
        ? "Ce qui s'est seulement usé est facturé comme un dommage."
        : "Ce qui s'est seulement usé n'est pas facturé.",
    included: "Combien d'une pièce sont dans le prix : tyre*4. Leur montage l'est aussi.",
    part_worn: (isWorn) =>
      isWorn
        ? "Une pièce est facturée moins ce qui était déjà usé de sa vie."
        : "Une pièce est facturée neuve, quoi qu'il ait été usé de sa vie.",
    labour_per_hour: (amount, isNone) =>
      amount
        ? isNone
          ? "Aucune main-d'œuvre n'est facturée."
          : `Une heure de travail coûte ${amount}.`
        : "Une heure de travail coûte ce que dit le barème.",
    consumables_percent: (percent) =>
      percent ? `Les consommables ajoutent ${percent} %.` : "Les consommables ajoutent ce que dit le barème.",
    recovery: (isCharged) =>
      isCharged ? "Ce qui casse au dépannage est facturé." : "Ce qui casse au dépannage est dans le prix.",
    deposit: (amount) => (amount ? `${amount} versés d'avance sont déduits.` : "Rien n'a été versé d'avance."),
    tax_percent: (percent) => (percent ? `${percent} % de taxe s'ajoutent à la fin.` : "Aucune taxe ne s'ajoute."),
    later_findings_days: (days) =>
      days
        ? `Un dommage trouvé plus de ${days} jours après le retour n'est pas facturé.`
        : "Un dommage trouvé plus tard est facturé aussi.",
    text: "Ce qui a été convenu d'autre ; cela figure sur le décompte.",
    signed_on: "Le jour de la signature.",
    hire_from: "Quand la location commence.",
    hire_to: "Quand la voiture doit être rendue. Au-delà, c'est un retard.",
  },
  example: "Un exemple",
  size: (currency) => `Un choc de … ${currency} de dommages`,
  unread: "Écrivez la taille du choc, et les clauses, en nombres comme 1200 ou 12,50.",
  one: (size, cost) => `Un choc de ${size} coûterait au client ${cost}.`,
  three: (size, cost) => `Trois chocs de ${size} dans l'épreuve : ${cost}.`,
  misuse: (size) => `Si c'était un mauvais usage : ${size}, en entier.`,
  tax: (tax) => `Taxe sur ce choc : ${tax}.`,
  deposit: (deposit, rest) => `La caution de ${deposit} est déduite : il reste ${rest} à payer pour un choc.`,
  back: (deposit, rest) => `La caution de ${deposit} couvre un choc : ${rest} sont rendus.`,
  beside:
    "Les pièces comprises, l'usure et les pilotes décident des dommages qui comptent. Les autres frais s'ajoutent.",
};
