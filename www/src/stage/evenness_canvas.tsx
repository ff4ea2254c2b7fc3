/** Where regions are uneven, laid over the photo, and the key to it. */
import { useLayoutEffect, useRef } from 'preact/hooks';
import { EvennessKey } from '../charts/evenness_key';
import type { Patch } from '../engine/types';
import { scene } from '../state/desk';
import { showUneven, unevenMaps, unevenProblem, unevenRegions, unevenShown } from '../state/evenness';
import { imageData } from '../state/previews';
import { outlinesHidden, stageSize, view } from '../state/ui';
import { words } from '../words';

const KEY_PX = 300;

function UnevenMap({ patch }: { patch: Patch }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  useLayoutEffect(() => {
    canvas.current?.getContext('2d')?.putImageData(imageData(patch), 0, 0);
  }, [patch]);
  const { k, x, y } = view.value;
  const [left, top, width, height] = patch.place;
  const matrix = `translate(${x + left * k}px, ${y + top * k}px) scale(${(k * width) / patch.width}, ${(k * height) / patch.height})`;
  return <canvas ref={canvas} class="over uneven" width={patch.width} height={patch.height} style={{ transform: matrix }} aria-hidden="true" />;
}

/** With the outlines it is hidden while they are: to see the photo alone. */
export function EvennessCanvas() {
  if (!unevenShown.value || outlinesHidden.value) return null;
  return (
    <>
      {[...unevenMaps.value].map(([id, patch]) => (
        <UnevenMap key={id} patch={patch} />
      ))}
    </>
  );
}

export function EvennessNote() {
  if (!unevenShown.value) return null;
  const t = words.evenness;
  const names = t.and(unevenRegions.value.map((id) => words.names.region(scene.value, id)));
  const width = Math.min(KEY_PX, stageSize.value.width - 32);
  return (
    <div class="uneven-note" role="group" aria-label={t.show}>
      <div class="uneven-head">
        <span>
          <strong>{t.show}</strong> {names}
        </span>
        <button type="button" onClick={() => showUneven(false)}>
          {t.hide}
        </button>
      </div>
      {unevenProblem.value ? (
        <p>{t.noMap}</p>
      ) : (
        width > 100 && <EvennessKey width={width} label={t.key} darker={t.darker} lighter={t.lighter} none={t.none} unit={t.unit} />
      )}
    </div>
  );
}
