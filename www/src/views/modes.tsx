/** What is shown: a quiet row of words. On a phone the photo is one of them. */
import { photo } from '../state/desk';
import { mode, MODES, narrow, showMode, side } from '../state/ui';
import { words } from '../words';

export function Modes() {
  const t = words.modes;
  const besides = narrow.value && side.value === 'photo' && photo.value !== null;
  return (
    <nav class="modes" aria-label={t.title}>
      {photo.value && narrow.value && (
        <button type="button" aria-pressed={besides} onClick={() => (side.value = 'photo')}>
          {words.views.photo}
        </button>
      )}
      {MODES.map((name) => (
        <button type="button" key={name} aria-pressed={mode.value === name && !besides} onClick={() => showMode(name)}>
          {name === 'reading' && !photo.value ? t.start : t.names[name]}
        </button>
      ))}
    </nav>
  );
}
