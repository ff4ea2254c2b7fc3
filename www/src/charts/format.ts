/** Numbers as text: fixed digits, a true minus, no −0. */
export function fixed(value: number, digits = 1): string {
  const text = value.toFixed(digits);
  return Number(text) === 0 ? (0).toFixed(digits) : text.replace('-', '−');
}

export const percent = (share: number): string => `${share > 0 && share < 0.005 ? '<1' : Math.round(100 * share)} %`;

/** Thin spaces between thousands. */
export const grouped = (value: number): string => String(Math.round(value)).replace(/\B(?=(\d{3})+$)/g, '\u202f');
