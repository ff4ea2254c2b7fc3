/** The passes so far, each with its numbers and whether the strengths learn from it; and the work as a file. */
import { fixed } from '../../charts/format';
import { isStrange } from '../../state/passes/pass_model';
import { workToJson } from '../../state/passes/work_file';
import type { KeptPass } from '../../state/passes/kept_pass';
import { isLearned, learnFrom, passFired } from '../../state/stains/passes';
import type { Work } from '../../state/stains/work';
import { openWork } from '../../state/stains/work_files';
import { say } from '../../state/status';
import { words } from '../../words';
import { JSON_TYPES, pickFile, saveText } from '../pick_file';
import { Switch } from '../switch';
import { PassEvenness, PassTable } from './pass_table';

function Kept({ kept, n, open }: { kept: KeptPass; n: number; open: boolean }) {
  const t = words.passes;
  const { zones } = kept.review;
  const worst = (of: (z: (typeof zones)[number]) => number) => fixed(Math.max(0, ...zones.map(of)));
  return (
    <details class="kept-pass" open={open}>
      <summary>
        {t.one(n, worst((z) => z.before_delta_e_00), worst((z) => z.left_delta_e_00))} <small>{t.worst}</small>
        {isStrange(kept.drift) && <strong class="mark">{t.mark(fixed(kept.drift ?? 0))}</strong>}
      </summary>
      <PassTable kept={kept} n={n} />
      {kept.carried && !(open && passFired.value) && <p class="hint">{t.carried}</p>}
      <PassEvenness kept={kept} />
      {kept.swatches.length > 0 && <Switch on={isLearned(kept)} text={t.learn} hint={t.learnHint} turn={(on) => learnFrom(kept, n, on)} />}
    </details>
  );
}

function saveWork(job: Work): void {
  const name = words.passes.file(job.label.replace(/[\\/:*?"<>|]/g, '-'));
  saveText(name, workToJson(job), 'application/json');
  say(words.status.saved(name));
}

export function OpenWork() {
  return (
    <button type="button" onClick={() => pickFile({ accept: JSON_TYPES }, (file) => void openWork(file, file.name))}>
      {words.passes.open}
    </button>
  );
}

export function History({ job }: { job: Work }) {
  const t = words.passes;
  const count = job.passes.length;
  return (
    <>
      {count > 0 && <h3>{t.history(count)}</h3>}
      {job.passes.map((kept, i) => (
        <Kept key={i} kept={kept} n={i + 1} open={i === count - 1} />
      ))}
      <div class="chips">
        <button type="button" onClick={() => saveWork(job)}>
          {t.save}
        </button>
        <OpenWork />
      </div>
    </>
  );
}
