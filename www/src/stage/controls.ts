/** The stage's zoom, for the parts of the page that are not the stage. */
import { regionIdOf, boundsOf, shapeOf, type ShapeKey } from '../state/shapes';
import { scene } from '../state/desk';
import type { ZoomControls } from './zoom';

let controls: ZoomControls | null = null;

export function setControls(next: ZoomControls | null): void {
  controls = next;
}

export const zoomControls = (): ZoomControls | null => controls;

/** Shows several outlines, as near as they go. */
export function zoomToRegions(ids: readonly string[]): void {
  const outlines = scene.value.regions.filter((r) => ids.includes(r.id)).flatMap((r) => r.outline);
  if (outlines.length === 0) return;
  const { left, top, right, bottom } = boundsOf(outlines);
  controls?.show({ x: left, y: top, width: right - left, height: bottom - top });
}

export function zoomToShape(key: ShapeKey): void {
  const shape = shapeOf(scene.value, key);
  if (!shape) return;
  const region = scene.value.regions.find((r) => r.id === regionIdOf(key));
  const ends = [region?.cervical, region?.incisal].filter((p) => p !== undefined);
  const { left, top, right, bottom } = boundsOf([...shape.outline, ...ends]);
  controls?.show({ x: left, y: top, width: right - left, height: bottom - top });
}
