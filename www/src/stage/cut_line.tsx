/** The line along which the selected outline is cut by a button: two ends to move. */
import { useRef } from 'preact/hooks';
import type { Point } from '../engine/types';
import { cutLine, endCut, moveCutEnd } from '../state/cut';
import { view } from '../state/ui';
import { words } from '../words';
import { stageFromPhoto } from './geometry';
import { Handle } from './handle';

export function CutLine({ what }: { what: string }) {
  const start = useRef<Point>([0, 0]);
  const line = cutLine.value;
  if (!line) return null;
  const { k } = view.value;
  const [a, b] = line.map((p) => stageFromPhoto(view.value, p)) as [Point, Point];
  const end = (which: 0 | 1, at: Point) => (
    <Handle
      key={which}
      id={`cut-end-${which}`}
      class="cut-end"
      at={at}
      label={words.found.cutEnd(which + 1, what)}
      onStart={() => (start.current = line[which])}
      onDrag={(dx, dy) => moveCutEnd(which, [start.current[0] + dx / k, start.current[1] + dy / k])}
      onEnd={() => {}}
      onNudge={(dx, dy) => moveCutEnd(which, [line[which][0] + dx, line[which][1] + dy])}
      onKey={(key) => (key === 'Escape' ? (endCut(), true) : false)}
    >
      <circle class="dot" r={7} />
    </Handle>
  );
  return (
    <g>
      <path class="stroke" d={`M${a[0]} ${a[1]}L${b[0]} ${b[1]}`} />
      {end(0, a)}
      {end(1, b)}
    </g>
  );
}
