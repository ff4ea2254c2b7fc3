/** Where regions are uneven or differ, laid over the photo, and the key to it. */
import { EvennessKey } from '../charts/evenness_key';
import { shortest } from '../charts/format';
import { scene } from '../state/desk';
import { mapProblem, mapRegions, maps, mapShown, showMap } from '../state/maps';
import { outlinesHidden, stageSize, view } from '../state/ui';
import { Pixels } from '../views/pixels';
import { words } from '../words';
import { patchTransform } from './geometry';

const KEY_PX = 300;

/** With the outlines it is hidden while they are: to see the photo alone. */
export function MapCanvas() {
  if (!mapShown.value || outlinesHidden.value) return null;
  return (
    <>
      {[...maps.value].map(([id, patch]) => (
        <Pixels key={id} picture={patch} class={`over map ${mapShown.value}`} style={{ transform: patchTransform(view.value, patch) }} />
      ))}
    </>
  );
}

export function MapNote() {
  const kind = mapShown.value;
  if (!kind) return null;
  const t = words.evenness;
  const of = t.maps[kind];
  const names = t.and(mapRegions.value.map((id) => words.names.region(scene.value, id)));
  const width = Math.min(KEY_PX, stageSize.value.width - 32);
  const [full] = [...maps.value.values()].map((patch) => patch.full_delta_e_00);
  return (
    <div class="uneven-note" role="group" aria-label={of.show}>
      <div class="uneven-head">
        <span>
          <strong>{of.show}</strong> {names}
        </span>
        <button type="button" onClick={() => showMap(kind, false)}>
          {t.hide}
        </button>
      </div>
      {mapProblem.value ? (
        <p>{t.noMap}</p>
      ) : (
        width > 100 && full !== undefined && <EvennessKey width={width} full={full} label={of.key(shortest(full))} darker={t.darker} lighter={t.lighter} none={of.none} unit={t.unit} />
      )}
    </div>
  );
}
