/** Asking for a new photo: the letter, to change, copy or save. */
import { useSignal } from '@preact/signals';
import { reading } from '../../state/reading';
import { problem, say } from '../../state/status';
import { mayAsk, retakeText } from '../../state/tray/retake_model';
import type { Report } from '../../engine/types';
import { words } from '../../words';
import { saveText } from '../pick_file';
import { plain } from '../plain';

export function RetakeRequest({ report, photoName }: { report: Pick<Report, 'checks'>; photoName: string }) {
  const t = words.retake;
  const composed = retakeText(report, photoName);
  // What was typed holds until there is something else to say.
  const typed = useSignal({ text: '', instead: '' });
  const text = typed.value.instead === composed ? typed.value.text : composed;
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(text);
      say(t.copied);
    } catch {
      problem.value = { title: t.copyFailed, text: '', advice: t.copyAdvice };
    }
  };
  const save = () => {
    const name = t.fileName(photoName.replace(/\.[^.]+$/, ''));
    saveText(name, plain(text), 'text/plain');
    say(words.status.saved(name));
  };
  return (
    <div class="retake-request" role="group" aria-label={t.title}>
      <p class="hint">{t.how}</p>
      <textarea rows={14} spellcheck={false} aria-label={t.text(photoName)} value={text} onInput={(e) => (typed.value = { text: e.currentTarget.value, instead: composed })} />
      <div class="chips">
        <button type="button" class="primary" onClick={() => void copy()}>{t.copy}</button>
        <button type="button" onClick={save}>{t.save}</button>
      </div>
    </div>
  );
}

/** The same about the photo that is looked at, when anything speaks against it. */
export function RetakeOfReading() {
  const now = reading.value;
  const name = now?.doc.photo?.name;
  return now && name !== undefined && mayAsk(now.report) ? <RetakeRequest report={now.report} photoName={words.photo.shown(name)} /> : null;
}
