/** Amounts of data in words. */
import { fixed } from '../../charts/format';
import { words } from '../../words';

const MEGABYTE = 1e6;

export function megabytes(bytes: number): string {
  const mb = bytes / MEGABYTE;
  if (mb >= 1000) return words.cases.gigabytes(fixed(mb / 1000));
  return words.cases.megabytes(fixed(mb, mb < 10 ? 1 : 0));
}
