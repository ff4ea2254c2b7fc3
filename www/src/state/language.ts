/** Which language the page speaks. Catalogues other than English are files of their own. */
import { effect } from '@preact/signals';
import { ENGLISH, language, words, type Language } from '../words';
import { partMissing } from './problems';
import { remember, settings } from './settings';

/** Each by its own name. */
export const LANGUAGES = [
  { tag: 'en', name: 'English' },
  { tag: 'de', name: 'Deutsch' },
  { tag: 'es', name: 'Español' },
] as const;

type Catalogue = Pick<Language, 'words' | 'engine'>;

const FILES: Record<string, () => Promise<Catalogue>> = {
  de: () => import('../words/de/index'),
  es: () => import('../words/es/index'),
};

const decimalOf = (tag: string): string => new Intl.NumberFormat(tag).formatToParts(0.5).find((p) => p.type === 'decimal')?.value ?? '.';

async function load(tag: string): Promise<Language> {
  const file = FILES[tag];
  if (!file) return ENGLISH;
  const { words, engine } = await file();
  return { tag, words, decimal: decimalOf(tag), ...(engine && { engine }) };
}

let asked = '';

/** Nothing that was done is lost: words are all that changes. */
async function speak(tag: string): Promise<void> {
  asked = tag;
  const next = await load(tag);
  // Another was asked for meanwhile.
  if (asked === tag) language.value = next;
}

export async function useLanguage(tag: string): Promise<void> {
  try {
    await speak(tag);
    remember({ language: tag });
  } catch {
    partMissing();
  }
}

/** The first of the wanted languages that there is. */
export function chosenLanguage(wanted: readonly string[]): string {
  const bare = wanted.map((tag) => tag.toLowerCase().split('-')[0]);
  return LANGUAGES.find(({ tag }) => tag === bare.find((b) => LANGUAGES.some((l) => l.tag === b)))?.tag ?? 'en';
}

/** A page that waits for its words longer than this begins in English. */
const PATIENCE_MS = 1500;

/** As it was set, else as the browser asks for; before the page is drawn, if the words come soon. */
export async function startLanguage(): Promise<void> {
  effect(() => {
    document.documentElement.lang = language.value.tag;
    document.title = words.settings.page;
  });
  const { language: kept } = settings.peek();
  const soon = speak(chosenLanguage(kept ? [kept] : navigator.languages)).catch(() => {});
  await Promise.race([soon, new Promise((go) => setTimeout(go, PATIENCE_MS))]);
}

/** So that the language can be changed when the server is out of reach. */
export const fetchLanguages = async (): Promise<void> => {
  for (const file of Object.values(FILES)) await file().catch(() => {});
};
