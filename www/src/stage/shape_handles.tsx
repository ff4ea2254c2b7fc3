/** Handles for the selected shape as a whole and for the ends of its axis. */
import { useRef } from 'preact/hooks';
import type { Point, Region } from '../engine/types';
import { changeScene, endRun } from '../state/desk';
import { moved, withAxisEnd, type AxisEnd } from '../state/scene_edit';
import { middleOf, regionKey, type Shape } from '../state/shapes';
import { view } from '../state/ui';
import { words } from '../words';
import { stageFromPhoto } from './geometry';
import { Handle } from './handle';
import { tapAt } from './taps';

/** The axis grips stand off the outline, so that they do not cover its points. */
const STAND_OFF_PX = 34;

export function MoveHandle({ shape, what }: { shape: Shape; what: string }) {
  const last = useRef({ dx: 0, dy: 0, run: '' });
  const begin = () => {
    last.current = { dx: 0, dy: 0, run: `drag ${performance.now()}` };
  };
  const by = (dx: number, dy: number, run: string) => changeScene(words.edits.moveOutline, (s) => moved(s, shape.key, dx, dy), run);
  return (
    <Handle
      class="move"
      at={stageFromPhoto(view.value, middleOf(shape.outline))}
      label={words.stage.move(what)}
      onStart={begin}
      onDrag={(dx, dy) => {
        const { k } = view.value;
        const { dx: px, dy: py, run } = last.current;
        by((dx - px) / k, (dy - py) / k, run);
        last.current = { dx, dy, run };
      }}
      onEnd={endRun}
      onNudge={(dx, dy) => by(dx, dy, `nudge ${shape.key}`)}
      // The grip lies on the outline, and covers a small one.
      onTap={tapAt}
    >
      <path class="grip" d="M0-13l4 5h-8zM0 13l4-5h-8zM-13 0l5 4v-8zM13 0l-5 4v-8zM-8 0h16M0-8v16" />
    </Handle>
  );
}

/** The axis as drawn: from the cervical to the incisal end, with the borders of the thirds. */
export function axisOnStage({ cervical, incisal }: Region): { from: Point; to: Point } | null {
  if (!cervical || !incisal) return null;
  return { from: stageFromPhoto(view.value, cervical), to: stageFromPhoto(view.value, incisal) };
}

export function AxisHandles({ region, what }: { region: Region; what: string }) {
  const start = useRef<{ at: Point; run: string } | null>(null);
  const axis = axisOnStage(region);
  if (!axis) return null;
  const length = Math.hypot(axis.to[0] - axis.from[0], axis.to[1] - axis.from[1]) || 1;
  const along: Point = [(axis.to[0] - axis.from[0]) / length, (axis.to[1] - axis.from[1]) / length];
  const end = (name: AxisEnd, base: Point, sign: number) => {
    const place = region[name]!;
    const at: Point = [base[0] + sign * along[0] * STAND_OFF_PX, base[1] + sign * along[1] * STAND_OFF_PX];
    const put = (to: Point, run: string) => changeScene(words.edits.moveAxis, (s) => withAxisEnd(s, region.id, name, to), run);
    return (
      <Handle
        key={name}
        class={`axis-end ${name}`}
        at={at}
        label={words.stage.axisEnd(words.stage[name], what)}
        onStart={() => (start.current = { at: place, run: `drag ${performance.now()}` })}
        onDrag={(dx, dy) => {
          const s = start.current;
          if (s) put([s.at[0] + dx / view.value.k, s.at[1] + dy / view.value.k], s.run);
        }}
        onEnd={endRun}
        onNudge={(dx, dy) => put([place[0] + dx, place[1] + dy], `nudge ${regionKey(region.id)} ${name}`)}
      >
        <rect class="dot" x={-6} y={-6} width={12} height={12} />
        <text class="end-name" y={sign < 0 ? -14 : 24}>
          {words.stage[name]}
        </text>
      </Handle>
    );
  };
  return (
    <>
      {end('cervical', axis.from, -1)}
      {end('incisal', axis.to, 1)}
    </>
  );
}
