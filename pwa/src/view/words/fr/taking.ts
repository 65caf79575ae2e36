/** Ce que dit l'application des fichiers que l'on prend dans des réglages. */

import type { Words } from "../../../kit/language";
import type { taking as english } from "../../../kit/taking";

export const taking: Words<typeof english> = {
  whichToml: (file) => `${file} : un fichier TOML est ici event.toml, car_map.toml ou rates.toml.`,
  whichTable: (file) => `${file} : son nom ne dit aucun tableau, comme parts.csv. Ouvrez le tableau et chargez-le là.`,
  noWorkbook: (file, why) => `${file} : ne peut pas être lu comme classeur (${why}).`,
  noSheet: (file) => `${file} : aucune feuille n'a le nom d'un tableau, comme Pièces ou Personnes.`,
  noFiles: "Il n'y a là aucun fichier de réglages : ils commencent par event.toml.",
  noToml: (why) => `Un fichier n'est pas du TOML valable : ${why}`,
  noZip: (file, why) => `${file} : ne peut pas être lu comme fichier zip (${why}).`,
  noColumns: (name, table, columns) =>
    `${name} : sa première ligne ne nomme aucune des colonnes de ${table} : ${columns}.`,
  sheet: (name) => `la feuille ${name}`,
  column: (column, name) => `la colonne ${column} de ${name}`,
  twice: (name) => `« ${name} » y est deux fois`,
  unnamed: "est vide ; il faut le remplir",
};
