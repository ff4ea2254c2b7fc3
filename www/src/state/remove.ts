/** Takes an outline away, with a way back. */
import { words } from '../words';
import { changeScene, scene } from './desk';
import { removed } from './scene_edit';
import type { ShapeKey } from './shapes';
import { say } from './status';
import { select } from './ui';

export function removeShape(key: ShapeKey): void {
  const what = words.names.shape(scene.value, key);
  changeScene(words.edits.remove(what), (s) => removed(s, key));
  select(null);
  say(words.status.removed(what));
}
