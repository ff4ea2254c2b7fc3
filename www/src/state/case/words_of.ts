/** What is said when something cannot be kept: once for each reason, until it is kept again. */
import { words } from '../../words';
import { problem, say, type Problem } from '../status';
import type { Trouble } from './store';

let told: Trouble | 'photos' | null = null;
let shown: Problem | null = null;

function tell(what: Trouble | 'photos'): void {
  if (told === what) return;
  told = what;
  const t = words.cases.trouble;
  problem.value = shown = { title: t.title.texts[what], text: t.text.texts[what], advice: t.advice.texts[what] };
}

export const tellTrouble = (trouble: Trouble): void => tell(trouble);
/** Outlines and notes fit, photos do not. */
export const tellPhotosLeftOut = (): void => tell('photos');

/** All is kept again. */
export function tellKept(): void {
  if (told === null) return;
  told = null;
  if (problem.value === shown) problem.value = null;
  shown = null;
  say(words.cases.keptAgain);
}

const refused = new Set<string>();

/** A photo that cannot be freed of what it says about people and places is not kept. */
export function tellRefused(names: readonly string[]): void {
  const fresh = names.filter((name) => !refused.has(name));
  if (!fresh.length) return;
  fresh.forEach((name) => refused.add(name));
  const t = words.cases;
  problem.value = { title: t.refusedTitle(fresh.map((name) => words.photo.shown(name))), text: t.refusedText, advice: t.refusedAdvice };
}
