/** The page: a start without a photo; photo and reading with one. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { photo } from './state/desk';
import { openAny } from './state/open';
import { side } from './state/ui';
import { attachPage } from './views/page_events';
import { Stage } from './stage/stage';
import { GuideSteps } from './views/guide_steps';
import { BusyBar, ProblemBox, Status } from './views/messages';
import { Panel } from './views/panel';
import { Start } from './views/start';
import { TopBar } from './views/top_bar';
import { words } from './words';

function Sides() {
  const t = words.views;
  return (
    <nav class="sides" aria-label={t.choose}>
      {(['photo', 'sheet'] as const).map((s) => (
        <button type="button" key={s} aria-pressed={side.value === s} onClick={() => (side.value = s)}>
          {t[s]}
        </button>
      ))}
    </nav>
  );
}

export function App() {
  const dropping = useSignal(false);
  useEffect(() => attachPage({ open: (file) => void openAny(file), dropping: (on) => (dropping.value = on) }), []);
  const open = photo.value !== null;
  return (
    <div class={open ? `page with-photo side-${side.value}` : 'page'}>
      <TopBar />
      {open && (
        <>
          <Sides />
          <GuideSteps />
          <main class="sides-of-one">
            <Stage />
            <Panel />
          </main>
        </>
      )}
      {!open && <Start />}
      <div class="messages">
        <ProblemBox />
        <BusyBar />
        <Status />
      </div>
      {dropping.value && <div class="dropping">{words.drop}</div>}
    </div>
  );
}
