/** What the list shows of a case, checked: a damaged record must not take the list with it, and may still lead to a whole case. */
import type { Head } from './store';
import type { Stored } from './stored_file';

const FIRST = new Date(0).toISOString();

const texts = (value: unknown): string[] | null => (Array.isArray(value) && value.every((one) => typeof one === 'string') ? value : null);
const moment = (value: unknown): string | null => (typeof value === 'string' && !Number.isNaN(Date.parse(value)) ? value : null);

export const isStored = (value: unknown): value is Stored => value instanceof Blob || value instanceof ArrayBuffer;

/** As it is, with something harmless in the place of what is damaged; `null` when it does not even say whose it is. */
export function headFrom(value: unknown): Head | null {
  const found = (typeof value === 'object' && value !== null ? value : {}) as Partial<Record<keyof Head, unknown>>;
  if (typeof found.id !== 'string') return null;
  const created = moment(found.created) ?? moment(found.changed) ?? FIRST;
  return {
    id: found.id,
    label: typeof found.label === 'string' ? found.label : '',
    created,
    changed: moment(found.changed) ?? created,
    ...(found.readOnly === true && { readOnly: true }),
    revision: typeof found.revision === 'number' ? found.revision : 0,
    by: typeof found.by === 'string' ? found.by : '',
    thumb: isStored(found.thumb) ? found.thumb : null,
    names: texts(found.names) ?? [],
    prints: texts(found.prints) ?? [],
    bytes: typeof found.bytes === 'number' ? found.bytes : 0,
    work: typeof found.work === 'string' ? found.work : null,
    empty: found.empty === true,
    ...(found.deleted !== undefined && { deleted: moment(found.deleted) ?? FIRST }),
  };
}

/** Whether it says which photos are its own. */
export const saysPhotos = (value: unknown): boolean => texts((value as Partial<Head> | null)?.prints) !== null;
