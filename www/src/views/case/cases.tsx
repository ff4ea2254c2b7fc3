/** The cases that are kept on this device: looking for one, going on with it, and what becomes of the others. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { momentText } from '../../charts/format';
import { newCase, shownLabel, type Hindrance } from '../../state/case/current';
import { cases, kept } from '../../state/case/list';
import { lookAtSpace } from '../../state/case/space';
import type { Head } from '../../state/case/store';
import { dialog } from '../../state/dialogs';
import { doc } from '../../state/desk';
import { words } from '../../words';
import { focusOn } from '../focus_on';
import { CaseRow } from './case_row';
import { Storage } from './storage';

/** Everything in the row that one might remember. */
const textOf = (head: Head): string => [shownLabel(head), ...head.names.map((name) => words.photo.shown(name)), head.work ?? '', momentText(new Date(head.changed))].join(' ').toLocaleLowerCase();

const holds = (head: Head, wanted: string): boolean => {
  const text = textOf(head);
  return wanted.toLocaleLowerCase().split(/\s+/).every((word) => text.includes(word));
};

export function Cases() {
  const t = words.cases;
  const wanted = useSignal('');
  /** What came of what was pressed last. */
  const said = useSignal('');
  useEffect(() => {
    void cases.refresh().catch(() => (said.value = t.hindered.texts.unreachable));
    void lookAtSpace();
  }, []);
  const all = kept.value ?? [];
  const there = all.filter((head) => !head.deleted);
  const shown = all.filter((head) => holds(head, wanted.value));
  const left = (hindered: Hindrance | null) => {
    if (hindered) return void (said.value = t.hindered.texts[hindered]);
    dialog.value = null;
    focusOn('reading');
  };
  const bare = !doc.value.photo && !doc.value.stains.work;
  return (
    <>
      <p class="hint">{t.why}</p>
      <div class="cases-top">
        <button type="button" disabled={bare} onClick={() => void newCase().then(left)}>{t.newCase}</button>
        {all.length > 0 && <input type="search" aria-label={t.search} placeholder={t.search} value={wanted.value} onInput={(e) => (wanted.value = e.currentTarget.value)} />}
      </div>
      <p role="status" class={said.value ? 'cases-said' : 'unseen'}>{said.value || (wanted.value && t.found(shown.filter((head) => !head.deleted).length, there.length))}</p>
      {shown.length === 0 && <p class="waiting">{all.length ? t.noneFound : t.none}</p>}
      <ul class="tray-list cases-list">
        {shown.map((head) => <CaseRow key={head.id} head={head} say={(text) => (said.value = text)} left={left} />)}
      </ul>
      <Storage any={there.length > 0} say={(text) => (said.value = text)} />
    </>
  );
}
