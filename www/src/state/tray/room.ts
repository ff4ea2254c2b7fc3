/** How many more photos may be opened. */
import { words } from '../../words';
import { doc } from '../desk';
import { problem } from '../status';
import { incoming } from './incoming';
import { MAX_PHOTOS, openPhotos } from './laid';

export const room = (): number => Math.max(0, MAX_PHOTOS - openPhotos(doc.value).length - incoming.value.filter((i) => i.state !== 'failed').length);
export const hasRoom = (): boolean => room() > 0;

export function sayFull(...names: string[]): void {
  const t = words.tray;
  problem.value = { title: t.full(MAX_PHOTOS), text: names.length ? t.leftOut(names) : '', advice: t.makeRoom };
}
