/** One kept case: its picture, what it is called, what lies in it, and what can be done with it. */
import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { momentText } from '../../charts/format';
import { current, openCopy, openKept, remove, rename, shownLabel, takeBack, type Hindrance } from '../../state/case/current';
import { duplicate, held, tidy } from '../../state/case/list';
import { megabytes } from '../../state/case/sizes';
import type { Head } from '../../state/case/store';
import { fileFrom } from '../../state/case/stored_file';
import { words } from '../../words';
import { TextField } from '../text_field';

const LOADED_MS = 10_000;

/** As a file's address, as long as it is shown. */
function Thumb({ file }: { file: Head['thumb'] }) {
  const url = useSignal('');
  useEffect(() => {
    if (!file) return;
    const made = (url.value = URL.createObjectURL(fileFrom(file)));
    // The picture may be just loading by it.
    return () => void setTimeout(() => URL.revokeObjectURL(made), LOADED_MS);
  }, [file]);
  return <div class="thumb" aria-hidden="true">{file && url.value && <img src={url.value} alt="" />}</div>;
}

interface RowProps {
  head: Head;
  /** What came of it. */
  say: (text: string) => void;
  /** Another case is on the desk, or why not. */
  left: (hindered: Hindrance | null) => void;
}

function Rename({ head, done }: { head: Head; done: (label: string | null) => void }) {
  const t = words.cases;
  const typed = useSignal(head.label);
  const form = useRef<HTMLFormElement>(null);
  useEffect(() => form.current?.querySelector('input')?.focus(), []);
  return (
    <form class="case-rename" ref={form} onSubmit={(e) => (e.preventDefault(), done(typed.value))}>
      <TextField label={t.label} value={typed.value} put={(text) => (typed.value = text)} />
      <p class="hint">{t.labelHint}</p>
      <div class="chips">
        <button type="submit">{t.rename}</button>
        <button type="button" onClick={() => done(null)}>{words.busy.cancel}</button>
      </div>
    </form>
  );
}

function Deleted({ head, say }: RowProps) {
  const t = words.cases;
  const name = shownLabel(head);
  const back = useRef<HTMLButtonElement>(null);
  useEffect(() => back.current?.focus(), []);
  const failed = () => say(t.hindered.texts.unreachable);
  return (
    <li class="tray-row case-row deleted">
      <p>{t.removed(name)}</p>
      <div class="chips">
        <button type="button" ref={back} aria-label={t.backLong(name)} onClick={() => void takeBack(head.id).then(() => say(t.broughtBack(name)), failed)}>{t.back}</button>
        <button type="button" aria-label={t.forGoodLong(name)} onClick={() => void tidy(head.id).then(() => say(t.gone(name)), failed)}>{t.forGood}</button>
      </div>
    </li>
  );
}

export function CaseRow(props: RowProps) {
  const { head, say, left } = props;
  const t = words.cases;
  const naming = useSignal(false);
  if (head.deleted) return <Deleted {...props} />;
  const { id, names, work, bytes, changed, thumb } = head;
  const name = shownLabel(head);
  const here = current.value?.id === id;
  const elsewhere = !here && held.value.has(id);
  const failed = () => say(t.hindered.texts.unreachable);
  const named = async (label: string | null) => {
    naming.value = false;
    if (label === null) return;
    await rename(id, label);
    say(t.renamed(shownLabel({ ...head, label: label.trim() })));
  };
  const took = (hindered: Hindrance | null) => say(hindered ? t.hindered.texts[hindered] : t.removed(name));
  return (
    <li class={here ? 'tray-row case-row looked' : 'tray-row case-row'} aria-current={here}>
      <Thumb file={thumb} />
      <div class="tray-said">
        <h3>{name}</h3>
        <p>{[t.photos(names.length), work !== null && t.work(work), megabytes(bytes), t.changed(momentText(new Date(changed)))].filter(Boolean).join(' · ')}</p>
        {names.length > 0 && <p class="case-names">{names.map((n) => words.photo.shown(n)).join(', ')}</p>}
        {(here || elsewhere) && <p>{here ? t.here : t.otherWindow}</p>}
      </div>
      {naming.value ? (
        <Rename head={head} done={(label) => void named(label).catch(failed)} />
      ) : (
        <div class="tray-acts">
          {!here && !elsewhere && <button type="button" class="primary" aria-label={t.openLong(name)} onClick={() => void openKept(id).then(left, failed)}>{t.open}</button>}
          {elsewhere && <button type="button" aria-label={t.copyLong(name)} onClick={() => void openCopy(id).then(left, failed)}>{t.openCopy}</button>}
          {!elsewhere && <button type="button" aria-label={t.renameLong(name)} onClick={() => (naming.value = true)}>{t.rename}</button>}
          <button type="button" aria-label={t.duplicateLong(name)} onClick={() => void duplicate(id, (h) => t.copyOf(shownLabel(h))).then(() => say(t.duplicated(name)), failed)}>{t.duplicate}</button>
          {!elsewhere && <button type="button" aria-label={t.removeLong(name)} onClick={() => void remove(id).then(took, failed)}>{t.remove}</button>}
        </div>
      )}
    </li>
  );
}
