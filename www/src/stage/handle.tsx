/** One thing to grab on the stage: a 44 px target around a small mark, by pointer and by keys. */
import type { ComponentChildren } from 'preact';
import { useRef } from 'preact/hooks';
import type { Point } from '../engine/types';
import { arrowOf } from './keys';

const TOUCH_RADIUS_PX = 22;

export interface HandleProps {
  at: Point;
  label: string;
  /** In the tab order; of a ring of points only one is. */
  reachable?: boolean;
  class?: string;
  id?: string;
  children: ComponentChildren;
  onStart?: () => void;
  onFocus?: () => void;
  /** Stage pixels since the start. */
  onDrag: (dx: number, dy: number) => void;
  onEnd: () => void;
  /** Photo pixels: 1, or 10 with Shift. */
  onNudge: (dx: number, dy: number) => void;
  onKey?: (key: string) => boolean;
}

export function Handle(props: HandleProps) {
  const start = useRef<Point | null>(null);
  const down = (event: PointerEvent) => {
    if (event.button !== 0) return;
    start.current = [event.clientX, event.clientY];
    (event.currentTarget as Element).setPointerCapture(event.pointerId);
    props.onStart?.();
  };
  const move = (event: PointerEvent) => {
    if (start.current) props.onDrag(event.clientX - start.current[0], event.clientY - start.current[1]);
  };
  const up = () => {
    if (start.current) props.onEnd();
    start.current = null;
  };
  const key = (event: KeyboardEvent) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const arrow = arrowOf(event.key);
    const by = event.shiftKey ? 10 : 1;
    if (arrow) props.onNudge(arrow[0] * by, arrow[1] * by);
    else if (!props.onKey?.(event.key)) return;
    event.preventDefault();
    event.stopPropagation();
  };
  return (
    <g
      class={`handle ${props.class ?? ''}`}
      data-grab
      id={props.id}
      transform={`translate(${props.at[0].toFixed(1)} ${props.at[1].toFixed(1)})`}
      tabindex={props.reachable === false ? -1 : 0}
      role="button"
      aria-label={props.label}
      onPointerDown={down}
      onPointerMove={move}
      onPointerUp={up}
      onPointerCancel={up}
      onKeyDown={key}
      onFocus={props.onFocus}
    >
      <circle class="hit" r={TOUCH_RADIUS_PX} />
      {props.children}
    </g>
  );
}
