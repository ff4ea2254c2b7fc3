/** On the start: the cases that are kept here, and why the last one is not open again. */
import { dialog } from '../../state/dialogs';
import { notice, openCopy, openKept, type Hindrance } from '../../state/case/current';
import { kept } from '../../state/case/list';
import { say } from '../../state/status';
import { words } from '../../words';
import { focusOn } from '../focus_on';

export function CasesAtStart() {
  const t = words.cases;
  const n = kept.value?.filter((head) => !head.deleted).length ?? 0;
  const told = notice.value;
  if (n === 0 && !told) return null;
  const done = (hindered: Hindrance | null) => (hindered ? say(t.hindered.texts[hindered]) : focusOn('reading'));
  return (
    <div class="cases-at-start">
      {told && (
        <p class="work-waiting">
          <span>{t[told.kind](told.name)}</span>
          <button type="button" onClick={() => void (told.kind === 'elsewhere' ? openCopy : openKept)(told.id).then(done)}>{told.kind === 'elsewhere' ? t.openCopy : t.openIt}</button>
        </p>
      )}
      {n > 0 && <button type="button" onClick={() => (dialog.value = 'cases')}>{t.show(n)}</button>}
    </div>
  );
}
