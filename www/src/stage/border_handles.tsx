/** The two borders of the selected region's thirds: lines across it, to drag along the axis. */
import { useRef } from 'preact/hooks';
import type { Point, Region } from '../engine/types';
import { bordersOf, withBorder } from '../state/borders';
import { changeScene, endRun, scene } from '../state/desk';
import { regionById, type Shape } from '../state/shapes';
import { say } from '../state/status';
import { view } from '../state/ui';
import { words } from '../words';
import { stageFromPhoto } from './geometry';
import { Handle } from './handle';
import { bigEnoughForHandles } from './point_handles';
import { reachAcross } from './stroke';
import { axisOnStage } from './shape_handles';

/** The grips stand off the outline, so that they do not cover its points. */
const STAND_OFF_PX = 34;
/** By keys, in shares of the axis: one per cent, or five with Shift. */
const KEY_STEP = 0.01;

const percentOf = (t: number): number => Math.round(t * 100);

export function BorderHandles({ region, shape, what }: { region: Region; shape: Shape; what: string }) {
  const start = useRef({ at: 0, run: '' });
  const axis = axisOnStage(region);
  if (!axis || !bigEnoughForHandles(shape, view.value.k)) return null;
  const [ax, ay] = [axis.to[0] - axis.from[0], axis.to[1] - axis.from[1]];
  const length = Math.hypot(ax, ay) || 1;
  const [ux, uy] = [ax / length, ay / length];
  // To the right of an upright axis.
  const normal: Point = uy >= 0 ? [uy, -ux] : [-uy, ux];
  const onStage = shape.outline.map((p) => stageFromPhoto(view.value, p));
  const put = (which: 0 | 1, to: number, run: string) => changeScene(words.edits.moveBorder, (s) => withBorder(s, region.id, which, to), run);
  const now = (which: 0 | 1) => bordersOf(regionById(scene.value, region.id) ?? region)[which];
  const grip = (which: 0 | 1) => {
    const t = bordersOf(region)[which];
    const middle: Point = [axis.from[0] + t * ax, axis.from[1] + t * ay];
    const [left, right] = reachAcross(onStage, middle, normal);
    const on = (side: number): Point => [middle[0] + side * normal[0], middle[1] + side * normal[1]];
    const [from, at] = [on(left), on(right + STAND_OFF_PX)];
    return (
      <g key={which}>
        <path class="border-line" d={`M${from[0]} ${from[1]}L${at[0]} ${at[1]}`} />
        <Handle
          class={`border border-${which}`}
          at={at}
          label={words.found.borders.handle(which, percentOf(t), what)}
          onStart={() => (start.current = { at: t, run: `drag ${performance.now()}` })}
          onDrag={(dx, dy) => put(which, start.current.at + (dx * ux + dy * uy) / length, start.current.run)}
          onEnd={endRun}
          onNudge={(dx, dy) => {
            const along = dx * ux + dy * uy;
            const steps = Math.max(Math.abs(dx), Math.abs(dy)) > 1 ? 5 : 1;
            // The arrow across the axis does nothing.
            if (Math.abs(along) < 0.7 * Math.hypot(dx, dy)) return;
            put(which, t + Math.sign(along) * steps * KEY_STEP, `nudge ${shape.key} border`);
            say(words.status.border(percentOf(now(which))));
          }}
        >
          <path class="dot" d="M-9 -3h18v6h-18z" />
          <text class="end-name" y={-9}>
            {words.found.borders.short(percentOf(t))}
          </text>
        </Handle>
      </g>
    );
  };
  return (
    <>
      {grip(0)}
      {grip(1)}
    </>
  );
}
