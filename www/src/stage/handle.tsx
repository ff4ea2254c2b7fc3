/** One thing to grab on the stage: a 44 px target around a small mark, by pointer and by keys. */
import type { ComponentChildren } from 'preact';
import { useRef } from 'preact/hooks';
import type { Point } from '../engine/types';
import { arrowOf } from './keys';

const TOUCH_RADIUS_PX = 22;
/** A finger never holds quite still. */
export const TAP_SLOP_PX = 10;

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
  /** A press that did not move, in stage pixels; with it small movements are none. */
  onTap?: (at: Point) => void;
}

export function Handle(props: HandleProps) {
  const start = useRef<Point | null>(null);
  const moved = useRef(false);
  const down = (event: PointerEvent) => {
    if (event.button !== 0) return;
    start.current = [event.clientX, event.clientY];
    moved.current = !props.onTap;
    (event.currentTarget as Element).setPointerCapture(event.pointerId);
    props.onStart?.();
  };
  const move = (event: PointerEvent) => {
    if (!start.current) return;
    const [dx, dy] = [event.clientX - start.current[0], event.clientY - start.current[1]];
    moved.current ||= Math.hypot(dx, dy) > TAP_SLOP_PX;
    if (moved.current) props.onDrag(dx, dy);
  };
  const up = (event: PointerEvent) => {
    const tapped = start.current !== null && !moved.current && event.type === 'pointerup';
    if (start.current) props.onEnd();
    start.current = null;
    if (!tapped) return;
    const stage = (event.currentTarget as Element).closest('svg')!.getBoundingClientRect();
    props.onTap?.([event.clientX - stage.left, event.clientY - stage.top]);
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
