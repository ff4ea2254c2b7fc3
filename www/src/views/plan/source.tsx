/** Where the colours of a plan come from, and what stands in the way of one. */
import { THIRDS } from '../../engine/types';
import { hold } from '../../state/steps';
import { compared } from '../../state/stains/comparison';
import { isBlank, typedLab } from '../../state/stains/draft';
import { changeStains, takeDemo } from '../../state/stains/swatches';
import { typeColours, typeZone, typing } from '../../state/stains/plan_inputs';
import { refusals, shownNames, type Refusal } from '../../state/stains/planning';
import { EMPTY_TYPED, type TypedPlan } from '../../state/stains/typed_plan';
import { stains } from '../../state/stains/work';
import { showMode, side } from '../../state/ui';
import { words } from '../../words';
import { pickPhoto, takePhoto } from '../actions';
import { LabFields } from '../lab_fields';
import { focusOn } from '../focus_on';

function fillFromPhoto(): void {
  const zones = compared.value?.zones ?? [];
  const typed = Object.fromEntries(THIRDS.map((zone) => {
    const found = zones.find((z) => z.zone === zone);
    return [zone, found ? { from: typedLab(found.from), to: typedLab(found.to) } : EMPTY_TYPED[zone]];
  })) as TypedPlan;
  changeStains(words.plan.edits.typed, { typed });
}

const SIDES = [['from', 'now'], ['to', 'wanted']] as const;

function TypedTable() {
  const t = words.plan;
  const typed = stains.value.typed ?? EMPTY_TYPED;
  return (
    <div class="typed-colours">
      <p class="hint">{t.typedHint}</p>
      {THIRDS.map((zone) => (
        <fieldset key={zone}>
          <legend>{words.names.zone[zone]}</legend>
          {SIDES.map(([part, what]) => (
            <div key={part} class="lab-row">
              <span>{t[what]}</span>
              <LabFields text={typed[zone][part]} asked={!isBlank(typed[zone].from) && !isBlank(typed[zone].to) && !isBlank(typed[zone][part])} label={(axis) => t.typedField(words.names.zone[zone], t[what], axis)} put={(text) => typeZone(zone, { [part]: text })} />
            </div>
          ))}
        </fieldset>
      ))}
      {compared.value && <button type="button" onClick={fillFromPhoto}>{t.fillFromPhoto}</button>}
    </div>
  );
}

/** The head of every plan; where the keyboard goes when one appears. */
export function FromTo({ names }: { names: { restoration: string; target: string } }) {
  return <h2 id="plan-head" tabIndex={-1}>{words.plan.fromTo(names.restoration, names.target)}</h2>;
}

/** The target is chosen where both are seen: on the reading. */
function chooseTarget(): void {
  showMode('reading');
  focusOn('choose-target', 'reading');
}

export function Source() {
  const t = words.plan;
  return (
    <section class="plan-source">
      {shownNames.value && <FromTo names={shownNames.value} />}
      {!typing.value && compared.value && <button type="button" aria-label={t.changeLong} onClick={chooseTarget}>{t.change}</button>}
      <div class="segments" role="group" aria-label={t.source}>
        <button type="button" aria-pressed={!typing.value} onClick={() => typing.value && typeColours(false)}>{t.fromPhoto}</button>
        <button type="button" aria-pressed={typing.value} onClick={() => typing.value || typeColours(true)}>{t.typed}</button>
      </div>
      {typing.value && <TypedTable />}
    </section>
  );
}

function mark(): void {
  hold('restoration');
  side.value = 'photo';
}

type Way = readonly [string, () => void];

function waysOn({ why }: Refusal): Way[] {
  const t = words.plan.refused;
  const open: Way[] = [[words.menu.open, pickPhoto], [words.menu.camera, takePhoto]];
  if (why === 'no-swatches') return [[t.swatches, () => showMode('swatches')], [words.swatches.useDemo, () => void takeDemo().then(() => focusOn('plan-head', 'plan'))]];
  if (why === 'no-photo') return [...open, [t.type, () => typeColours(true)]];
  if (why === 'retake') return open;
  if (why === 'ask') return [[words.views.photo, () => (side.value = 'photo')]];
  return why === 'no-restoration' ? [[t.mark, mark]] : [];
}

export function Refusals() {
  const t = words.plan.refused;
  return (
    <div class="reason">
      <strong>{t.title}</strong>
      {refusals.value.map((refusal) => (
        <div key={refusal.why} data-why={refusal.why}>
          <p>{t.texts[refusal.why]} {'text' in refusal && refusal.text}</p>
          <div class="now-buttons">{waysOn(refusal).map(([text, act]) => <button type="button" key={text} onClick={act}>{text}</button>)}</div>
        </div>
      ))}
    </div>
  );
}
