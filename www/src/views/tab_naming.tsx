/** The tabs in one row, as they lie in the photo; each gets its name by a press, none by itself. */
import { scene } from '../state/desk';
import { ask, asked, giveName, putOffNaming, tabsInOrder } from '../state/naming';
import { words } from '../words';
import { NameChoice } from './tab_names';

export function TabNaming() {
  const t = words.found;
  const id = asked.value;
  const close = () => ask(null);
  return (
    <div class={id === null ? 'tab-naming' : 'tab-naming open'} onKeyDown={(event) => event.key === 'Escape' && close()}>
      <p class="say">{t.nameTabs}</p>
      {id === null && <p class="hint">{t.nameTabsHint}</p>}
      <div class="now-buttons">
        {tabsInOrder.value.map((tab) => (
          <button type="button" key={tab.id} class={tab.name ? 'tab-place' : 'tab-place nameless'} aria-expanded={tab.id === id} onClick={() => ask(tab.id === id ? null : tab.id)}>
            {words.names.region(scene.value, tab.id)}
          </button>
        ))}
        <button type="button" onClick={putOffNaming}>
          {t.nameLater}
        </button>
      </div>
      {id !== null && (
        <div class="asking" role="group" aria-label={t.nameOne(words.names.region(scene.value, id))}>
          <NameChoice key={id} current={tabsInOrder.value.find((r) => r.id === id)?.name ?? ''} choose={giveName} />
        </div>
      )}
    </div>
  );
}
