/** The photo on a canvas with its outlines and their names drawn into it, for paper and for pictures that are saved. */
import type { Point, Preview, Scene } from '../engine/types';
import { imageData } from '../state/previews';
import { boundsOf, middleOf, shapesOf } from '../state/shapes';
import { words } from '../words';
import { pathOf, stageFromPhoto, type View } from './geometry';

type Context = CanvasRenderingContext2D | OffscreenCanvasRenderingContext2D;

/** Narrower letters are not read any more. */
const NARROWEST = 0.6;

export interface Written {
  text: string;
  at: Point;
  /** At most. */
  width: number;
}

/** Names in the middle of their outlines, and within them: beside others of its kind each leaves out the kind where one has no room for it. */
export function written(context: Pick<Context, 'measureText'>, scene: Scene, view: View): Written[] {
  const all = scene.regions.map(({ id, kind, outline }) => {
    const { left, right } = boundsOf(outline);
    return { id, kind, at: stageFromPhoto(view, middleOf(outline)), room: (right - left) * view.k, text: words.names.short(scene, `region:${id}`) };
  });
  const widthOf = (text: string) => context.measureText(text).width;
  const cramped = new Set(all.flatMap(({ kind, text, room }) => (widthOf(text) > room ? [kind] : [])));
  return all.map(({ id, kind, at, room, text: full }) => {
    const text = (cramped.has(kind) && words.names.own(scene, id)) || full;
    return { text, at, width: Math.max(room, NARROWEST * widthOf(text)) };
  });
}

/** `view` takes photo pixels to the canvas; `unit` is the width of an outline there. */
export function drawOutlined(context: Context, preview: Preview, scene: Scene, view: View, photoWidth_px: number, unit: number): void {
  const whole = new OffscreenCanvas(preview.width, preview.height);
  whole.getContext('2d')?.putImageData(imageData(preview), 0, 0);
  context.imageSmoothingQuality = 'high';
  const k = (view.k * photoWidth_px) / preview.width;
  context.drawImage(whole, view.x, view.y, preview.width * k, preview.height * k);
  Object.assign(context, { strokeStyle: '#fff', lineWidth: unit, lineJoin: 'round' });
  // A card of several steps has no outline of its own.
  for (const { outline } of shapesOf(scene)) if (outline.length > 2) context.stroke(new Path2D(pathOf(view, outline)));
  Object.assign(context, { font: `bold ${11 * unit}px sans-serif`, textAlign: 'center', textBaseline: 'middle', strokeStyle: '#000', fillStyle: '#fff', lineWidth: 2 * unit });
  for (const { text, at: [x, y], width } of written(context, scene, view)) {
    context.strokeText(text, x, y, width);
    context.fillText(text, x, y, width);
  }
}
