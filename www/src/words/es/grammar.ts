/** "a, b y c"; before the sound of i it is "e": "medio e incisal". */
const and = (next: string): string => (/^["“«]?h?[ií](?![aeoáéó])/i.test(next) ? 'e' : 'y');

export function listed(parts: readonly string[], between = ', '): string {
  const last = parts.at(-1) ?? '';
  return parts.length < 2 ? last : `${parts.slice(0, -1).join(between)} ${and(last)} ${last}`;
}

/** "1 muestra", "2 muestras". */
export const counted = (n: number, one: string, many: string): string => `${n} ${n === 1 ? one : many}`;

export const upper = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

export const lower = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

const ARTICLES: Record<string, string> = { Diente: 'el', Parche: 'el', Restauración: 'la', Muestra: 'la', Tarjeta: 'la' };

/** "el diente 11", from "Diente 11", for within a sentence; what is no name of an outline or a card stays. */
export function the(what: string): string {
  const article = ARTICLES[what.split(' ')[0] ?? ''];
  return article ? `${article} ${lower(what)}` : what;
}

/** "del tercio medio", "de la corona", "del diente 11". */
export const of = (what: string): string => `de ${the(what)}`.replace(/^de el /, 'del ');

/** "al diente 11", "a la muestra A2". */
export const to = (what: string): string => `a ${the(what)}`.replace(/^a el /, 'al ');
