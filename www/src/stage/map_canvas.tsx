/** Where regions are uneven or differ, laid over the photo, and the key to it. */
import { useLayoutEffect, useRef } from 'preact/hooks';
import { EvennessKey } from '../charts/evenness_key';
import { FULL_OF_MAP } from '../charts/evenness_scale';
import type { Patch } from '../engine/types';
import { scene } from '../state/desk';
import { mapProblem, mapRegions, maps, mapShown, showMap } from '../state/maps';
import { imageData } from '../state/previews';
import { outlinesHidden, stageSize, view } from '../state/ui';
import { words } from '../words';

const KEY_PX = 300;

function MapPatch({ patch }: { patch: Patch }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  useLayoutEffect(() => {
    canvas.current?.getContext('2d')?.putImageData(imageData(patch), 0, 0);
  }, [patch]);
  const { k, x, y } = view.value;
  const [left, top, width, height] = patch.place;
  const matrix = `translate(${x + left * k}px, ${y + top * k}px) scale(${(k * width) / patch.width}, ${(k * height) / patch.height})`;
  return <canvas ref={canvas} class={`over map ${mapShown.value}`} width={patch.width} height={patch.height} style={{ transform: matrix }} aria-hidden="true" />;
}

/** With the outlines it is hidden while they are: to see the photo alone. */
export function MapCanvas() {
  if (!mapShown.value || outlinesHidden.value) return null;
  return (
    <>
      {[...maps.value].map(([id, patch]) => (
        <MapPatch key={id} patch={patch} />
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
        width > 100 && <EvennessKey width={width} full={FULL_OF_MAP[kind]} label={of.key} darker={t.darker} lighter={t.lighter} none={of.none} unit={t.unit} />
      )}
    </div>
  );
}
