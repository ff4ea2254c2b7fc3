/** The selected shape by words and numbers: name, kind, colour of the card, every point. */
import { useRef } from 'preact/hooks';
import type { Region, RegionKind } from '../engine/types';
import { setDepth } from '../state/depths';
import { scene } from '../state/desk';
import { giveRegionName, setKind } from '../state/role_edit';
import { regionById, regionIdOf, shapeOf, shapesOf } from '../state/shapes';
import { hold } from '../state/steps';
import { select, selected, side, tool } from '../state/ui';
import { words } from '../words';
import { BorderFields } from './border_fields';
import { CardEditor } from './card_editor';
import { FoundSteps } from './found_steps';
import { NumberTable } from './point_table';
import { NameChoice } from './tab_names';

/** Brings the editor into sight, on a phone too. */
export function showEditor(): void {
  side.value = 'sheet';
  setDepth('outlines', true);
  requestAnimationFrame(() => {
    const editor = document.getElementById('shape-editor');
    editor?.querySelector<HTMLDetailsElement>('details.points')?.setAttribute('open', '');
    editor?.scrollIntoView({ block: 'start' });
    editor?.focus({ preventScroll: true });
  });
}

/** Opens the table of the user's own tabs and brings it into sight. */
export function showOwnTabs(): void {
  side.value = 'sheet';
  setDepth('outlines', true);
  requestAnimationFrame(() => {
    const book = document.getElementById('own-tabs');
    book?.setAttribute('open', '');
    book?.scrollIntoView({ block: 'start' });
    book?.querySelector('summary')?.focus({ preventScroll: true });
  });
}

function NameAndKind({ region }: { region: Region }) {
  const t = words.shape;
  const rename = (name: string) => giveRegionName(region.id, name);
  return (
    <div class="fields">
      <label>
        {t.name}
        <input value={region.name} maxLength={60} autocomplete="off" onInput={(e) => rename(e.currentTarget.value)} />
      </label>
      <label>
        {t.kind}
        <select value={region.kind} onChange={(e) => setKind(region.id, e.currentTarget.value as RegionKind)}>
          {(Object.keys(t.kinds) as RegionKind[]).map((kind) => (
            <option key={kind} value={kind}>
              {t.kinds[kind]}
            </option>
          ))}
        </select>
      </label>
      {region.kind === 'tab' && <NameChoice current={region.name} choose={rename} />}
    </div>
  );
}

/** The list of all outlines: the way to select one without the photo. */
export function ShapeList() {
  const shapes = shapesOf(scene.value);
  const t = words.shape;
  return (
    <div class="shape-list">
      {shapes.length === 0 && <p>{t.none}</p>}
      <div class="chips" role="group" aria-label={t.title}>
        {shapes.map(({ key }) => (
          <button type="button" key={key} aria-pressed={key === selected.value} onClick={() => select(key === selected.value ? null : key)}>
            {words.names.shape(scene.value, key)}
          </button>
        ))}
      </div>
      {scene.value.card && !scene.value.second_card && (
        <div class="second-place">
          <button type="button" aria-pressed={tool.value === 'second'} onClick={() => hold(tool.value === 'second' ? 'look' : 'second')}>
            {t.second}
          </button>
          <p class="hint">{t.secondWhy}</p>
        </div>
      )}
    </div>
  );
}

export function ShapeEditor() {
  const root = useRef<HTMLElement>(null);
  const shape = shapeOf(scene.value, selected.value);
  if (!shape) return null;
  const t = words.shape;
  const region = regionById(scene.value, regionIdOf(shape.key));
  return (
    <section class="shape-editor" id="shape-editor" ref={root} tabIndex={-1} aria-label={t.selected(words.names.shape(scene.value, shape.key))}>
      <h2>{t.selected(words.names.shape(scene.value, shape.key))}</h2>
      {region ? <NameAndKind key={region.id} region={region} /> : <CardEditor which={shape.key === 'second' ? 'second_card' : 'card'} />}
      {region && <BorderFields key={`${region.id} borders`} region={region} />}
      {shape.key === 'card' && <FoundSteps />}
      <details class="points">
        <summary>{t.byNumbers}</summary>
        <NumberTable key={shape.key} shape={shape} />
      </details>
    </section>
  );
}
