/** The empty page: what it does, three ways in, what to mind. */
import { openDemo } from '../state/open';
import { showMode } from '../state/ui';
import { words } from '../words';
import { pickPhoto, takePhoto } from './actions';
import { focusOn } from './focus_on';
import { later } from './later';
import { WorkWaiting } from './passes/waiting';

const CasesAtStart = later('CasesAtStart');

function Choice({ title, hint, act, primary }: { title: string; hint: string; act: () => void; primary?: boolean }) {
  return (
    <button type="button" class={primary ? 'choice primary' : 'choice'} onClick={act}>
      <strong>{title}</strong>
      <span>{hint}</span>
    </button>
  );
}

function Points({ title, points }: { title: string; points: readonly string[] }) {
  return (
    <section>
      <h2>{title}</h2>
      <ul>
        {points.map((p) => (
          <li key={p}>{p}</li>
        ))}
      </ul>
    </section>
  );
}

export function Start() {
  const t = words.start;
  return (
    <div class="start">
      <p class="what">{t.what}</p>
      <WorkWaiting />
      <div class="choices">
        <Choice primary title={t.open} hint={t.openHint} act={pickPhoto} />
        <Choice title={t.camera} hint={t.cameraHint} act={takePhoto} />
        <Choice title={t.demo} hint={t.demoHint} act={() => void openDemo().then(() => focusOn('reading'))} />
      </div>
      <CasesAtStart />
      <div class="without-photo" role="group" aria-label={words.modes.without}>
        <span>{words.modes.without}</span>
        <button type="button" onClick={() => showMode('photos')}>{words.modes.openPhotos}</button>
        <button type="button" onClick={() => showMode('swatches')}>{words.modes.openSwatches}</button>
        <button type="button" onClick={() => showMode('plan')}>{words.modes.openPlan}</button>
        <button type="button" onClick={() => showMode('practice')}>{words.modes.openPractice}</button>
      </div>
      <p class="privacy">{t.privacy}</p>
      <div class="before">
        <Points title={t.howTitle} points={t.how} />
        <Points title={t.careTitle} points={t.care} />
      </div>
    </div>
  );
}
