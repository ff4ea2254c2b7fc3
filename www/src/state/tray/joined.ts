/** Photos that come to a case that has some: of the same patient, or of the next one. That is for the user to say, and easily overlooked. */
import type { OpenPhoto } from '../../engine/desk';
import { words } from '../../words';
import { current } from '../case/at_hand';
import { doc } from '../desk';
import { parts } from '../parts';
import { tell } from '../status';
import { openPhotos } from './laid';

export function sayJoined(before: readonly OpenPhoto[]): void {
  const t = words.tray;
  const now = openPhotos(doc.value).map((l) => l.photo);
  const more = now.filter((photo) => !before.includes(photo));
  if (before.length === 0 || more.length === 0) return;
  const run = () => void parts().then((found) => found?.beginWith(more, t.ownCase));
  tell(t.joined(more.length, current.value?.label ?? '', now.length), { label: t.beginWith, run });
}
