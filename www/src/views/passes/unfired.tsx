/** The look before firing: third by third what is to be done while it still can be. */
import { fixed } from '../../charts/format';
import type { UnfiredZoneLook } from '../../engine/types';
import { notFired, passOpen } from '../../state/stains/passes';
import { forgetUnfired, lookUnfired, unfiredLook } from '../../state/stains/unfired';
import { words } from '../../words';
import { pickPhoto } from '../actions';
import { focusOn } from './focus';

const LOOK = 'second-look';

export const labText = (lab: readonly number[]): string => lab.map((v) => fixed(v)).join(' ');

function Third({ look }: { look: UnfiredZoneLook }) {
  const t = words.unfired;
  return (
    <div data-zone={look.zone}>
      <dt>
        {words.names.zoneShort[look.zone]}
        <strong>{look.advice.map((a) => t.hand(a)).join(', ')}</strong>
      </dt>
      <dd>
        <p>{look.words}</p>
        {look.fired && <p class="hint">{t.fired(labText(look.fired), fixed(look.fired_doubt ?? 0))}</p>}
      </dd>
    </div>
  );
}

/** What the open photo can be taken for, or why it cannot; and a way to open another. */
export function FromPhoto({ label, why, act }: { label: string; why: string; act: () => void }) {
  return (
    <>
      {why && <p class="hint why-not">{why}</p>}
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
          <p class={kept.look.directions_only ? 'directions' : undefined}>{kept.look.words}</p>
          <dl class="hand">
            {kept.look.zones.map((look) => (
              <Third key={look.zone} look={look} />
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
          <FromPhoto label={t.look} why={notFired.value} act={() => void lookUnfired().then(() => focusOn(LOOK))} />
        </>
      )}
    </section>
  );
}
