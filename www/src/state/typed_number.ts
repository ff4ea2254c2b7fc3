/** Numbers as they are typed: with a point or a comma, with any minus or dash. Pure. */
const MINUS = /^[-−–—‐‑‒﹣－]\s*/;

/** NaN for anything else. */
export function numberOf(text: string): number {
  const plain = text.trim().replace(MINUS, '-').replace(',', '.');
  return /^[-+]?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : NaN;
}

/** As it is read: a true minus. */
export const typedNumber = (value: number): string => String(Math.round(value * 100) / 100).replace('-', '−');
