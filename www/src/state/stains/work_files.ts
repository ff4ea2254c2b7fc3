/** Opens a work from a file in the place of what is at hand, as one step of undo. */
import { words } from '../../words';
import { workFromJson } from '../passes/work_file';
import { report } from '../problems';
import { problem, say } from '../status';
import { showMode } from '../ui';
import { putWork } from './work';

export async function openWork(file: Blob, name: string): Promise<void> {
  const t = words.passes;
  try {
    const found = workFromJson(await file.text());
    problem.value = null;
    putWork(t.edits.open(name), found);
    showMode('plan');
    say(t.said.opened(found.label));
  } catch (error) {
    report(t.openFailed(name), error);
  }
}
