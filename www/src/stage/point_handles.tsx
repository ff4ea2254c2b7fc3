/** The handles of the selected outline's points. */
import { useSignal } from '@preact/signals';
import { changeScene, endRun } from '../state/desk';
import { dragPoint, handleIndices, insertPoint, removePoint } from '../state/outline_edit';
import { withOutline } from '../state/scene_edit';
import { boundsOf, type Shape } from '../state/shapes';
import { say } from '../state/status';
import { select, selectedPoint, view } from '../state/ui';
import { words } from '../words';
import { stageFromPhoto } from './geometry';
import { Handle } from './handle';

/** Two targets never cover each other much. */
const SPACING_PX = 52;
/** Below this an outline is too small for handles: zoom in first. */
const MIN_EXTENT_PX = 150;

export const bigEnoughForHandles = ({ outline }: Shape, k: number): boolean => {
  const { left, top, right, bottom } = boundsOf(outline);
  return Math.max(right - left, bottom - top) * k >= MIN_EXTENT_PX;
};

export const handlesOf = (shape: Shape): number[] =>
  handleIndices(shape.outline, SPACING_PX / view.value.k, selectedPoint.value);

/** Moves a point by photo pixels; `from` is the outline the move began with. */
export function movePointBy(shape: Shape, index: number, handles: readonly number[], dx: number, dy: number, run: string): void {
  const outline = dragPoint(shape.outline, index, handles, dx, dy);
  changeScene(words.edits.movePoint, (s) => withOutline(s, shape.key, outline), run);
}

export function addPointAt(shape: Shape, index: number): void {
  const next = insertPoint(shape.outline, index);
  changeScene(words.edits.addPoint, (s) => withOutline(s, shape.key, next.outline));
  selectedPoint.value = next.index;
}

export function removePointAt(shape: Shape, index: number, handles: readonly number[]): void {
  changeScene(words.edits.removePoint, (s) => withOutline(s, shape.key, removePoint(shape.outline, index, handles)));
  selectedPoint.value = null;
}

interface Drag {
  shape: Shape;
  handles: number[];
  run: string;
}

export function PointHandles({ shape, what }: { shape: Shape; what: string }) {
  const drag = useSignal<Drag | null>(null);
  if (!bigEnoughForHandles(shape, view.value.k)) return null;
  const handles = drag.value?.handles ?? handlesOf(shape);
  const n = shape.outline.length;
  const reachable = selectedPoint.value ?? handles[0];
  const go = (index: number) => {
    selectedPoint.value = index;
    const [x, y] = shape.outline[index]!;
    say(words.status.pointAt(index + 1, n, Math.round(x), Math.round(y)));
    requestAnimationFrame(() => document.getElementById(`point-${index}`)?.focus());
  };
  const keys = (index: number) => (key: string) => {
    const at = handles.indexOf(index);
    if (key === '[') go(handles.at(at - 1)!);
    else if (key === ']') go(handles[(at + 1) % handles.length]!);
    else if (key === 'Insert') addPointAt(shape, index);
    else if (key === 'Delete' || key === 'Backspace') removePointAt(shape, index, handles);
    else if (key === 'Escape') select(null);
    else return false;
    return true;
  };
  return (
    <>
      {handles.map((index) => (
        <Handle
          key={index}
          id={`point-${index}`}
          class={index === selectedPoint.value ? 'point chosen' : 'point'}
          at={stageFromPhoto(view.value, shape.outline[index]!)}
          label={words.stage.point(index + 1, n, what)}
          reachable={index === reachable}
          onFocus={() => (selectedPoint.value = index)}
          onStart={() => {
            selectedPoint.value = index;
            drag.value = { shape, handles: handlesOf(shape), run: `drag ${performance.now()}` };
          }}
          onDrag={(dx, dy) => {
            const d = drag.value;
            if (d) movePointBy(d.shape, index, d.handles, dx / view.value.k, dy / view.value.k, d.run);
          }}
          onEnd={() => {
            drag.value = null;
            endRun();
          }}
          onNudge={(dx, dy) => movePointBy(shape, index, handles, dx, dy, `nudge ${shape.key} ${index}`)}
          onKey={keys(index)}
        >
          <circle class="dot" r={index === selectedPoint.value ? 7 : 5} />
        </Handle>
      ))}
    </>
  );
}
