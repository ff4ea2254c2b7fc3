/** A colour for the swatch that is entered, out of the open photo. */
import { useSignal } from '@preact/signals';
import { fixed } from '../../charts/format';
import { ZONES, type Zone } from '../../engine/types';
import { isDemo } from '../../state/demo';
import { photo, scene } from '../../state/desk';
import { reading } from '../../state/reading';
import { photoRetake } from '../../state/sheet';
import { retakeOf } from '../../state/sheet_model';
import { takeColour } from '../../state/stains/swatches';
import { regionById, regionIdOf } from '../../state/shapes';
import { selected } from '../../state/ui';
import { words } from '../../words';
import { labText } from '../plan/said';

export function FromPhoto() {
  const t = words.swatches.form;
  const chosen = useSignal<string | null>(null);
  const zone = useSignal<Zone>('middle');
  const report = reading.value?.report;
  const { regions } = scene.value;
  if (!photo.value || !report || regions.length === 0) return <p class="hint">{t.noPhoto}</p>;
  // What is selected in the photo is meant, until another one is chosen here.
  const region = regionById(scene.value, chosen.value) ?? regionById(scene.value, regionIdOf(selected.value)) ?? regions.find((r) => r.kind === 'tab') ?? regions[0]!;
  const distrust = photoRetake.value || retakeOf(report.checks, region.id);
  const read = distrust ? undefined : report.readings.find((r) => r.region === region.id)?.zones[zone.value];
  const { name, print } = photo.value;
  const spot = { photo: print, region: region.id, demo: isDemo(photo.value) };
  const take = (as: 'base' | 'after') => read && takeColour(as, read.lab, read.doubt, words.swatches.place(words.names.region(scene.value, region.id), words.names.zone[zone.value], name), spot);
  return (
    <fieldset class="from-photo">
      <legend>{t.photo}</legend>
      <div class="fields">
        <label>
          {t.region}
          <select value={region.id} onChange={(e) => (chosen.value = e.currentTarget.value)}>
            {regions.map((r) => <option key={r.id} value={r.id}>{words.names.region(scene.value, r.id)}</option>)}
          </select>
        </label>
        <label>
          {t.zone}
          <select value={zone.value} onChange={(e) => (zone.value = e.currentTarget.value as Zone)}>
            {ZONES.map((z) => <option key={z} value={z}>{words.names.zoneShort[z]}</option>)}
          </select>
        </label>
      </div>
      <p class="hint">{read ? t.reads(labText(read.lab), fixed(read.doubt)) : t.distrust}</p>
      <div class="chips">
        <button type="button" disabled={!read} onClick={() => take('base')}>{t.takeBase}</button>
        <button type="button" disabled={!read} onClick={() => take('after')}>{t.takeAfter}</button>
      </div>
    </fieldset>
  );
}
