/** Photos that came to another case's become a case of their own. */
import type { OpenPhoto } from '../../engine/desk';
import { change, doc } from '../desk';
import type { Doc } from '../doc';
import { withoutCase } from '../stains/stains_doc';
import { openPhotos, without } from '../tray/laid';
import { putCase } from './current';

/** The case before is as it was before they came. */
export async function beginWith(photos: readonly OpenPhoto[], label: string): Promise<void> {
  const mine = openPhotos(doc.peek()).filter((l) => photos.includes(l.photo));
  const [first, ...tray] = mine;
  if (!first || mine.length === openPhotos(doc.peek()).length) return;
  const rest = mine.reduce<Doc>((now, l) => ({ ...now, ...without(now, l.photo) }), doc.peek());
  change(label, rest);
  await putCase({ ...first, tray, guide: rest.guide, stains: withoutCase(rest.stains) }, {});
}
