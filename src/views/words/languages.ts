import { english, type Words } from "./english";
import { french } from "./french";

/** Every language of the views. A translation is a file like these and an entry here. */
export const languages: readonly Words[] = [english, french];

/** The first of the reader's languages that there is, otherwise English. */
export function chooseLanguage(wanted: readonly string[]): Words {
  const found = wanted.flatMap(
    (tag) => languages.find(({ locale }) => locale.slice(0, 2) === tag.slice(0, 2).toLowerCase()) ?? [],
  );
  return found[0] ?? english;
}
