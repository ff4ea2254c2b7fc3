/** The maps that can lie over the photo, one at a time. */
import { canDiffer, mapShown, showMap, type MapKind } from '../state/maps';
import { words } from '../words';
import { Switch } from './switch';

export function MapSwitches() {
  const t = words.evenness;
  const kinds: MapKind[] = canDiffer.value ? ['differing', 'uneven'] : ['uneven'];
  return (
    <div class="map-switches" role="group" aria-label={t.onPhoto}>
      <span>{t.onPhoto}</span>
      {kinds.map((kind) => (
        <Switch key={kind} on={mapShown.value === kind} text={t.maps[kind].show} hint={t.maps[kind].showLong} turn={(on) => showMap(kind, on)} />
      ))}
    </div>
  );
}
