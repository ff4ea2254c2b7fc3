/** The cases that are kept on this device, the last changed first; and what is done to those that are not on the desk. */
import { computed, signal } from '@preact/signals';
import { newId } from './at_hand';
import { headFrom, saysPhotos } from './heads';
import { heldCases } from './locks';
import { within, type Head } from './store';

const heads = signal<readonly Head[] | null>(null);
/** Open in this window or another one. */
export const held = signal<ReadonlySet<string>>(new Set());

/** `null` until they were looked for. */
export const kept = computed<readonly Head[] | null>(() => {
  const all = heads.value?.filter((head) => !head.empty);
  return all ? [...all].sort((a, b) => (a.changed < b.changed ? 1 : a.changed > b.changed ? -1 : 0)) : null;
});

/** How long a deleted case can be brought back. */
const BACK_MS = 10 * 60_000;

const channel = openChannel();

function openChannel(): BroadcastChannel | null {
  try {
    return new BroadcastChannel('tabside cases');
  } catch {
    // Old browsers have none, and some give none to a page from a file.
    return null;
  }
}
(channel as { unref?: () => void } | null)?.unref?.();

/** Other windows look again. */
export const tellOthers = (): void => channel?.postMessage('changed');

export const cases = {
  async refresh(): Promise<void> {
    const [all, open] = await Promise.all([within('readonly', (tx) => tx.objectStore('cases').getAll()), heldCases().catch(() => new Set<string>())]);
    heads.value = all.flatMap((head) => headFrom(head) ?? []);
    held.value = open;
  },
  /** Of the one on the desk: it was just written. */
  changed(head: Head): void {
    if (heads.value) heads.value = [...heads.value.filter(({ id }) => id !== head.id), head];
  },
};

/** Looks again when another window did something. */
export function watchOthers(): () => void {
  if (!channel) return () => {};
  const again = () => void (heads.peek() && cases.refresh().catch(() => {}));
  channel.addEventListener('message', again);
  return () => channel.removeEventListener('message', again);
}

async function amendHead(id: string, as: (head: Head) => Head): Promise<void> {
  await within('readwrite', async (tx) => {
    const head = await tx.objectStore('cases').get(id);
    if (head) await tx.objectStore('cases').put({ ...as(head), revision: (headFrom(head)?.revision ?? 0) + 1 });
  });
  tellOthers();
  await cases.refresh();
}

export const renameKept = (id: string, label: string): Promise<void> => amendHead(id, (head) => ({ ...head, label }));

/** Out of the list; for a while it can be brought back. */
export const markDeleted = (id: string): Promise<void> => amendHead(id, (head) => ({ ...head, deleted: new Date().toISOString() }));
export const bringBack = (id: string): Promise<void> => amendHead(id, ({ deleted: _, ...head }) => head);

/** Gives the copy's id, or `null` when there is nothing to copy. */
export async function duplicate(id: string, labelOf: (head: Head) => string): Promise<string | null> {
  const copied = await within('readwrite', async (tx) => {
    const [head, kept] = await Promise.all([tx.objectStore('cases').get(id), tx.objectStore('docs').get(id)]);
    if (!head || !kept) return null;
    const { deleted: _, ...rest } = head;
    const copy = { ...rest, id: newId(), label: labelOf(head), changed: new Date().toISOString(), revision: 1 };
    await Promise.all([tx.objectStore('cases').put(copy), tx.objectStore('docs').put({ ...kept, id: copy.id })]);
    return copy.id;
  });
  tellOthers();
  await cases.refresh();
  return copied;
}

/** A photo that nothing refers to stays a day: another window's undo may want it. */
const UNUSED_MS = 24 * 3600_000;

/** Removes for good what was deleted, or only that one; and photos that no case has any more. */
export async function tidy(only?: string): Promise<void> {
  const open = await heldCases().catch(() => new Set<string>());
  const now = Date.now();
  await within('readwrite', async (tx) => {
    const [all, docs, photos] = [tx.objectStore('cases'), tx.objectStore('docs'), tx.objectStore('photos')];
    const heads = await all.getAll();
    const gone = heads.filter(({ id, empty, deleted }) => (only === undefined ? (deleted ? now - Date.parse(deleted) >= BACK_MS : empty && !open.has(id)) : id === only));
    const left = heads.filter((head) => !gone.includes(head));
    await Promise.all(gone.flatMap(({ id }) => [all.delete(id), docs.delete(id)]));
    const printsOf = (all: typeof heads) => new Set(all.flatMap((head) => headFrom(head)?.prints ?? []));
    const [used, ofGone] = [printsOf(left), printsOf(gone)];
    // One that does not say which photos are its own may need any of them.
    if (!left.every(saysPhotos)) return;
    for (const print of await photos.getAllKeys()) {
      if (used.has(print)) continue;
      const photo = ofGone.has(print) ? null : await photos.get(print);
      if (!photo || now - Date.parse(photo.at) > UNUSED_MS) await photos.delete(print);
    }
  });
  tellOthers();
  if (heads.peek()) await cases.refresh();
}
