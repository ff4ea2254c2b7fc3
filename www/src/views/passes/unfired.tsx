/** The look before firing: third by third what is to be done while it still can be. */
import { fixed } from '../../charts/format';
import type { UnfiredZoneLook } from '../../engine/types';
import { isStrange } from '../../state/passes/pass_model';
import { notFired, passOpen, seenDrift, seenNames } from '../../state/stains/passes';
import { forgetUnfired, lookDrift, lookUnfired, unfiredLook } from '../../state/stains/unfired';
import { words } from '../../words';
import { engineWords } from '../../words/engine';
import { pickPhoto } from '../actions';
import { focusOn } from '../focus_on';

const LOOK = 'second-look';

export const labText = (lab: readonly number[]): string => lab.map((v) => fixed(v)).join(' ');

function Third({ look, directionsOnly }: { look: UnfiredZoneLook; directionsOnly: boolean }) {
  const t = words.unfired;
  return (
    <div data-zone={look.zone}>
      <dt>
        {words.names.zoneShort[look.zone]}
        <strong>{look.advice.map((a) => t.hand(a)).join(', ')}</strong>
      </dt>
      <dd>
        <p>{engineWords(t.third(look, directionsOnly))}</p>
        {look.fired && <p class="hint">{t.fired(labText(look.fired), fixed(look.fired_doubt ?? 0))}</p>}
      </dd>
    </div>
  );
}

/** That the photo may show another tooth. */
export const Drift = ({ by }: { by: number }) => (isStrange(by) ? <p class="care">{words.passes.drift(fixed(by))}</p> : null);

interface FromPhotoProps {
  label: string;
  /** What the restoration is taken for. */
  as: (restoration: string, target: string | null) => string;
  why: string;
  act: () => void;
}

/** What the open photo can be taken for, and of which outlines, or why it cannot; and a way to open another. */
export function FromPhoto({ label, as, why, act }: FromPhotoProps) {
  const names = seenNames.value;
  return (
    <>
      {why && <p class="hint why-not">{why}</p>}
      {!why && <Drift by={seenDrift.value} />}
      {!why && names && <p class="takes">{as(names.restoration, names.target)}</p>}
      <div class="chips">
        {!why && (
          <button type="button" class="primary" onClick={act}>
            {label}
          </button>
        )}
        <button type="button" onClick={pickPhoto}>
          {words.passes.openPhoto}
        </button>
      </div>
    </>
  );
}

export function UnfiredSection() {
  const kept = unfiredLook.value;
  if (!passOpen.value) return null;
  const t = words.unfired;
  return (
    <section class="unfired">
      <h2 id={LOOK} tabIndex={-1}>
        {t.title}
      </h2>
      {kept ? (
        <>
          <p class={kept.look.directions_only ? 'directions' : undefined}>{engineWords(kept.look.words)}</p>
          {kept.look.directions_only && <p>{t.directions}</p>}
          <Drift by={lookDrift.value} />
          <dl class="hand">
            {kept.look.zones.map((look) => (
              <Third key={look.zone} look={look} directionsOnly={kept.look.directions_only} />
            ))}
          </dl>
          <p class="hint">{t.kept}</p>
          <div class="chips">
            {!notFired.value && (
              <button type="button" onClick={() => void lookUnfired()}>
                {t.again}
              </button>
            )}
            <button type="button" onClick={() => (forgetUnfired(), focusOn(LOOK))}>
              {t.forget}
            </button>
          </div>
        </>
      ) : (
        <>
          <p class="hint">{t.how}</p>
          <FromPhoto label={t.look} as={t.takes} why={notFired.value} act={() => void lookUnfired().then(() => focusOn(LOOK))} />
        </>
      )}
    </section>
  );
}
