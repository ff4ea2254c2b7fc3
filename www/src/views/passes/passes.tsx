/** What came of the plan: the fired result taken from a photo, go on or stop, and the passes so far. */
import { fixed } from '../../charts/format';
import { isStrange, paintedOf } from '../../state/passes/pass_model';
import { coatsOf, typeCoats } from '../../state/passes/coats';
import type { KeptPass } from '../../state/passes/kept_pass';
import { lastPass, notResult, passFired, passOpen, planNextPass, recordPass, seen, takePassBack } from '../../state/stains/passes';
import { work, type Work } from '../../state/stains/work';
import { words } from '../../words';
import { engineWords } from '../../words/engine';
import { mixText } from '../plan/said';
import { Stepper } from '../stepper';
import { focusOn } from '../focus_on';
import { History, OpenWork } from './history';
import { PassLanes } from './pass_table';
import { FromPhoto, UnfiredSection } from './unfired';

/** Where the keyboard goes on when what was pressed is gone. */
const FIRED = 'fired-result';

function Coats({ job }: { job: Work }) {
  const t = words.passes;
  const painted = paintedOf(job.plan).filter((p) => p.paint.mix.length > 0);
  if (painted.length === 0) return null;
  return (
    <details class="coats">
      <summary>{t.painted}</summary>
      <p class="hint">{t.paintedHint}</p>
      <div class="coats-fields">
        {painted.map((p) => (
          <Stepper key={p.zone} value={coatsOf(p)} label={t.coats(p.zone, mixText(p.paint))} min={0.25} max={12} step={0.25} put={(coats) => typeCoats(p.zone, coats)} />
        ))}
      </div>
    </details>
  );
}

function Fired({ job }: { job: Work }) {
  const t = words.passes;
  const shows = seen.value;
  const inPhoto = shows !== null && Object.keys(shows.target).length > 0;
  return (
    <>
      <p class="hint">{t.how}</p>
      <Coats job={job} />
      {!notResult.value && <p>{inPhoto ? t.inPhoto : t.notInPhoto}</p>}
      <FromPhoto label={t.fired} as={t.takes} why={notResult.value} act={() => void recordPass().then(() => focusOn(FIRED))} />
    </>
  );
}

function Review({ kept }: { kept: KeptPass }) {
  const t = words.passes;
  return (
    <>
      {isStrange(kept.drift) && <p class="care strange">{t.strange(fixed(kept.drift ?? 0))}</p>}
      <p class="go" data-advice={kept.review.advice}>
        {engineWords(kept.review.words)}
      </p>
      <PassLanes kept={kept} />
      {kept.carried && <p class="hint">{t.carried}</p>}
      <ul class="pass-words">
        {kept.review.zones.map((z) => (
          <li key={z.zone}>
            <span>{words.names.zoneShort[z.zone]}</span> {engineWords(z.words)}
          </li>
        ))}
      </ul>
      {passFired.value && (
        <div class="chips">
          <button type="button" class={kept.review.advice === 'go' && !isStrange(kept.drift) ? 'primary' : undefined} title={t.nextWhy} onClick={() => void planNextPass().then(() => focusOn(FIRED))}>
            {t.next}
          </button>
          <button type="button" onClick={() => (takePassBack(), focusOn(FIRED))}>
            {t.takeBack}
          </button>
        </div>
      )}
    </>
  );
}

export function PassesSection() {
  const [job, last] = [work.value, lastPass.value];
  if (!job) return <OpenWork />;
  if (!passOpen.value && !last) return null;
  return (
    <>
      <UnfiredSection />
      <section class="passes">
        <h2 id={FIRED} tabIndex={-1}>
          {words.passes.title}
        </h2>
        {passOpen.value ? <Fired job={job} /> : last && <Review kept={last} />}
        <History job={job} />
      </section>
    </>
  );
}
