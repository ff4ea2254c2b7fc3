/** Numbers as text in the language of the page: its decimal sign, fixed digits, a true minus, no −0. */
import { language } from '../words';

const formats = new Map<string, Intl.NumberFormat>();

function inLanguage(value: number, least: number, most: number): string {
  const { tag } = language.value;
  const key = `${tag} ${least} ${most}`;
  let format = formats.get(key);
  if (!format) {
    format = new Intl.NumberFormat(tag, { minimumFractionDigits: least, maximumFractionDigits: most, useGrouping: false, numberingSystem: 'latn' });
    formats.set(key, format);
  }
  const text = format.format(value);
  return /[1-9]/.test(text) ? text.replace('-', '−') : text.replace(/[-−]/, '');
}

export const fixed = (value: number, digits = 1): string => inLanguage(value, digits, digits);

/** No more digits than it has, and not more than these. */
export const shortest = (value: number, digits = 2): string => inLanguage(value, 0, digits);

export const percent = (share: number): string => `${share > 0 && share < 0.005 ? '<1' : Math.round(100 * share)} %`;

/** Thin spaces between thousands. */
export const grouped = (value: number): string => String(Math.round(value)).replace(/\B(?=(\d{3})+$)/g, '\u202f');

export const dayText = (when: Date): string => when.toLocaleDateString(language.value.tag, { dateStyle: 'medium' });

export const momentText = (when: Date): string => when.toLocaleString(language.value.tag, { dateStyle: 'medium', timeStyle: 'short' });
