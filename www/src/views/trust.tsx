/** What the reading stands on: the rung of trust it has reached, the tabs behind it, what would raise it. */
import { fixed, percent } from '../charts/format';
import type { AnchorTab, LightReport, Trust } from '../engine/types';
import { changeScene, doc, scene } from '../state/desk';
import { reading } from '../state/reading';
import { withCrossPolarised } from '../state/scene_edit';
import { photoRetake } from '../state/sheet';
import { words } from '../words';
import { Depth } from './depth';
import { showOwnTabs } from './shape_editor';

/** Less is not worth a line. */
const MIN_FALLOFF = 0.03;

/** The present rung is told by weight and by a full mark. */
export function Rungs({ trust }: { trust: Trust }) {
  const t = words.trust;
  return (
    <ol class="rungs">
      {(Object.keys(t.rungs) as Trust[]).map((rung) => (
        <li key={rung} aria-current={rung === trust ? 'true' : undefined}>
          <span class="rung-mark" aria-hidden="true" />
          {t.rungs[rung]}
          {rung === trust && <small> {t.here}</small>}
        </li>
      ))}
    </ol>
  );
}

/** How far the others, or with none the card, put a tab from its known colour. */
export function tabLine({ name, left_out_delta_e_00, used }: AnchorTab, alone: boolean): string {
  const t = words.trust;
  const say = used ? (alone ? t.byCard : t.byTabs) : alone ? t.unusedByCard : t.unusedByTabs;
  return say(words.names.tab(scene.value, name), fixed(left_out_delta_e_00));
}

function Tabs({ tabs, used }: { tabs: readonly AnchorTab[]; used: boolean }) {
  const listed = tabs.filter((tab) => tab.used === used);
  if (listed.length === 0) return null;
  return (
    <ul>
      {listed.map((tab) => (
        <li key={tab.region}>{tabLine(tab, tabs.length === 1)}</li>
      ))}
    </ul>
  );
}

export function Light({ light }: { light: LightReport }) {
  const t = words.trust;
  const used = light.tabs.filter((tab) => tab.used).length;
  return (
    <>
      <Rungs trust={light.trust} />
      <p>{words.names.said(scene.value, light.words)}</p>
      {light.falloff >= MIN_FALLOFF && <p class="falloff">{t.falloff(percent(light.falloff))}</p>}
      {light.tone_curve && <p>{t.toneCurve}</p>}
      <Tabs tabs={light.tabs} used={false} />
      {(light.raise || used > 0) && (
        <details>
          <summary>{[light.raise && t.raise, used > 0 && t.tabs(used)].filter(Boolean).join('; ')}</summary>
          {light.raise && <p class="raise">{words.names.said(scene.value, light.raise)}</p>}
          {light.trust === 'card_and_tabs' && (
            <button type="button" onClick={showOwnTabs}>
              {words.tabs.title}
            </button>
          )}
          <Tabs tabs={light.tabs} used={true} />
        </details>
      )}
    </>
  );
}

/** Of a pair the cross-polarised photo is known; a photo alone has to be told. */
export function PolarisedSwitch() {
  const t = words.trust;
  const on = scene.value.cross_polarised === true;
  if (doc.value.polarised && !on) return null;
  const turn = () => changeScene(words.edits.polarisedAlone, (s) => withCrossPolarised(s, !on));
  return (
    <button type="button" class="switch" role="switch" aria-checked={on} onClick={turn} title={t.polarisedHint}>
      <span class="switch-mark" aria-hidden="true" />
      {t.polarised}
      <strong>{on ? t.yes : t.no}</strong>
    </button>
  );
}

export function StandsOn() {
  const light = reading.value?.report.light;
  if (!light || photoRetake.value) return null;
  return (
    <Depth name="stands" title={words.trust.title} gist={words.trust.rungs[light.trust]}>
      <Light light={light} />
    </Depth>
  );
}
