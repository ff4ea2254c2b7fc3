/** Numbers as they are typed: with a point or a comma, with any minus or dash. */
import { shortest } from '../charts/format';

const MINUS = /^[-−–—‐‑‒﹣－]\s*/;

/** NaN for anything else. */
export function numberOf(text: string): number {
  const plain = text.trim().replace(MINUS, '-').replace(',', '.');
  return /^[-+]?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : NaN;
}

/** As it is read. */
export const typedNumber = (value: number): string => shortest(Math.round(value * 100) / 100);

/** As it stands in a field: with the minus that keyboards have. */
export const inField = (value: number): string => typedNumber(value).replace('−', '-');
