/** What German sentences need and English ones do not. */

/** „A, B und C“. */
export const listed = (parts: readonly string[]): string => (parts.length < 2 ? parts.join('') : `${parts.slice(0, -1).join(', ')} und ${parts.at(-1)}`);

export const upper = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** „Zervikales Drittel“ within a sentence. */
export const lower = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

export const counted = (n: number, one: string, many: string): string => `${n} ${n === 1 ? one : many}`;

/** „zervikalen Drittel“, from „Zervikales Drittel“; any other part as it is. */
export const bent = (zone: string): string => lower(zone).replace(/es Drittel$/, 'en Drittel');

const STEMS: Record<string, string> = { cervical: 'zervikal', middle: 'mittler', mitte: 'mittler', incisal: 'inzisal', whole: 'gesamt' };

/** The adjective of a third, by its English name or by its word in heads, with the ending that its case wants. */
export const ofThird = (name: string, ending: 'e' | 'en' | 'es'): string => (STEMS[name.toLowerCase()] ?? name.toLowerCase()) + ending;

type Case = 'nominative' | 'accusative' | 'dative';
const FEMININE = { nominative: 'die', accusative: 'die', dative: 'der' };
const ARTICLES: Record<string, Record<Case, string>> = {
  Zahn: { nominative: 'der', accusative: 'den', dative: 'dem' },
  Farbmuster: { nominative: 'das', accusative: 'das', dative: 'dem' },
  Restauration: FEMININE,
  Graukarte: FEMININE,
  Karte: FEMININE,
  Graustufe: FEMININE,
};

/** „die Restauration 21“, from „Restauration 21“, for within a sentence; what is no name of an outline or a card stays. */
export function the(what: string, as: Case = 'nominative'): string {
  const article = ARTICLES[what.split(' ')[0] ?? '']?.[as];
  return article ? `${article} ${what}` : what;
}

/** „zum Zahn 11“, „zur Restauration 21“. */
export const to = (what: string): string => `zu ${the(what, 'dative')}`.replace(/^zu dem /, 'zum ').replace(/^zu der /, 'zur ');
