/** "Colours of my tabs": a table to type them into, to use, save and open. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { guide } from '../state/desk';
import { RANGES } from '../state/own_tabs';
import { addTab, draft, edit, emptyAll, faults, faultText, fillFromGuide, ownInUse, takeDraft } from '../state/tab_book';
import { words } from '../words';
import { pickGuide, saveOwnTabs } from './actions';
import { TabRows } from './tab_rows';

function Faults() {
  const found = faults.value;
  return (
    <div role="status" class="faults">
      {found.length > 0 && draft.value && (
        <>
          <strong>{words.tabs.faultsTitle}</strong>
          <ul>
            {found.slice(0, 6).map((fault, i) => (
              <li key={i}>{faultText(fault, draft.value!)}</li>
            ))}
          </ul>
        </>
      )}
    </div>
  );
}

function Book() {
  const t = words.tabs;
  const used = guide.value;
  // Another guide in use, by a file or by undo, is another start.
  useEffect(fillFromGuide, [used]);
  const now = draft.value;
  if (!now) return null;
  const buttons: [string, () => void][] = [[t.fill, fillFromGuide], [t.empty, emptyAll], [t.open, pickGuide]];
  return (
    <>
      <p class="hint">{t.why}</p>
      <div class="chips">{buttons.map(([text, act]) => <button type="button" key={text} onClick={act}>{text}</button>)}</div>
      <label class="set-name">
        {t.setName}
        <input value={now.name} maxLength={60} autocomplete="off" onInput={(e) => edit({ ...now, name: e.currentTarget.value })} />
      </label>
      <div class="scroll-x">
        <table class="tab-table">
          <caption>{t.caption}</caption>
          <thead>
            <tr>{[t.name, ...RANGES.map((r) => r.name)].map((head) => <th scope="col" key={head}>{head}</th>)}<td /></tr>
          </thead>
          <tbody>{now.tabs.map((tab, at) => <TabRows key={`${at} of ${now.tabs.length}`} tab={tab} at={at} />)}</tbody>
        </table>
      </div>
      <Faults />
      <div class="chips">
        <button type="button" onClick={addTab}>{t.add}</button>
        <button type="button" class="primary" onClick={() => void takeDraft()}>{t.use}</button>
        <button type="button" onClick={saveOwnTabs}>{t.save}</button>
      </div>
    </>
  );
}

export function OwnTabs() {
  const t = words.tabs;
  const open = useSignal(false);
  const own = ownInUse();
  return (
    <details class="own-tabs" id="own-tabs" onToggle={(e) => (open.value = e.currentTarget.open)}>
      <summary>{t.title}</summary>
      {own && <p>{t.inUse(own.name, own.tabs.length)}</p>}
      {open.value && <Book />}
    </details>
  );
}
