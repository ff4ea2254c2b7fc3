/** Which tab is tapped next: the suggested name large, the others to choose, or one typed freely. */
import { useSignal } from '@preact/signals';
import { guide } from '../state/desk';
import { nextTabName } from '../state/tap';
import { chosenTabName } from '../state/ui';
import { words } from '../words';

/** Names of the guide as buttons, and a field for any other. */
export function NameChoice({ current, choose }: { current: string; choose: (name: string) => void }) {
  const typed = useSignal('');
  const t = words.flow;
  const names = guide.value?.tabs.map((tab) => tab.name) ?? [];
  const use = (event: Event) => {
    event.preventDefault();
    const name = typed.value.trim();
    if (name) choose(name);
    typed.value = '';
  };
  return (
    <div class="name-choice">
      <div class="chips" role="group" aria-label={t.nextName}>
        {names.map((name) => (
          <button type="button" key={name} aria-pressed={name === current} onClick={() => choose(name)}>
            {name}
          </button>
        ))}
      </div>
      <form class="typed" onSubmit={use}>
        <label>
          {t.typed}
          <input value={typed.value} maxLength={60} autocomplete="off" onInput={(e) => (typed.value = e.currentTarget.value)} />
        </label>
        <button type="submit">{t.typedAdd}</button>
      </form>
    </div>
  );
}

/** "Tap tab [A2] in the photo": the name is a button that opens the others. */
export function TabPrompt() {
  const open = useSignal(false);
  const t = words.flow;
  const name = nextTabName();
  const choose = (next: string) => {
    chosenTabName.value = next;
    open.value = false;
  };
  return (
    <div class="tab-prompt" onKeyDown={(event) => event.key === 'Escape' && (open.value = false)}>
      <p class="say">
        {t.tab.before}{' '}
        <button type="button" class="next-name" aria-expanded={open.value} aria-label={t.tab.change(name)} onClick={() => (open.value = !open.value)}>
          {name || t.tab.nameless} <span aria-hidden="true">▾</span>
        </button>{' '}
        {t.tab.after}
      </p>
      {open.value && (
        <div class="names-popover">
          <NameChoice current={name} choose={choose} />
        </div>
      )}
    </div>
  );
}
