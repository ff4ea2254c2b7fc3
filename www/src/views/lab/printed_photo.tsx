/** Only for paper: the photo as it is shown, small, with its outlines, their names and the numbered notes. */
import { useEffect, useRef } from 'preact/hooks';
import { fixed } from '../../charts/format';
import type { Preview } from '../../engine/types';
import { stageFromPhoto, pathOf } from '../../stage/geometry';
import { photo, scene } from '../../state/desk';
import { notes } from '../../state/notes_edit';
import { imageData, previews } from '../../state/previews';
import { middleOf, shapesOf } from '../../state/shapes';
import { words } from '../../words';

const PRINT_PX = 900;

/** All on one canvas: paper scales a drawing that lies over a picture by itself. */
function draw(canvas: HTMLCanvasElement | null, preview: Preview, photoWidth_px: number): void {
  const context = canvas?.getContext('2d');
  if (!context) return;
  const whole = new OffscreenCanvas(preview.width, preview.height);
  whole.getContext('2d')?.putImageData(imageData(preview), 0, 0);
  context.imageSmoothingQuality = 'high';
  context.drawImage(whole, 0, 0, context.canvas.width, context.canvas.height);
  const view = { k: context.canvas.width / photoWidth_px, x: 0, y: 0 };
  Object.assign(context, { strokeStyle: '#fff', lineWidth: 2, lineJoin: 'round' });
  // A card of several steps has no outline of its own.
  for (const { outline } of shapesOf(scene.peek())) if (outline.length > 2) context.stroke(new Path2D(pathOf(view, outline)));
  Object.assign(context, { font: 'bold 22px sans-serif', textAlign: 'center', textBaseline: 'middle', strokeStyle: '#000', fillStyle: '#fff', lineWidth: 4 });
  for (const { id, outline } of scene.peek().regions) {
    const [name, [x, y]] = [words.names.short(scene.peek(), `region:${id}`), stageFromPhoto(view, middleOf(outline))];
    context.strokeText(name, x, y);
    context.fillText(name, x, y);
  }
}

/** Millions of pixels are copied for paper only once there is paper. */
function whenPrinted(act: () => void): () => void {
  const stop = new AbortController();
  const paper = matchMedia('print');
  if (paper.matches) act();
  paper.addEventListener('change', () => paper.matches && act(), { signal: stop.signal });
  window.addEventListener('beforeprint', act, { signal: stop.signal });
  return () => stop.abort();
}

export function PrintedPhoto() {
  const canvas = useRef<HTMLCanvasElement>(null);
  const open = photo.value;
  const preview = open && previews.of(open);
  const k = preview ? Math.min(1, PRINT_PX / preview.width) : 1;
  useEffect(() => (preview ? whenPrinted(() => draw(canvas.current, preview, open!.info.width)) : undefined), [preview]);
  if (!open || !preview) return null;
  const { width, height } = open.info;
  return (
    <div class="printed-photo print-only" role="img" aria-label={words.notes.picture}>
      <canvas ref={canvas} width={Math.round(preview.width * k)} height={Math.round(preview.height * k)} />
      {notes.value.map(({ id, at: [x, y] }, i) => (
        <span key={id} class="pin-number" style={{ left: `${(100 * (x + 0.5)) / width}%`, top: `${(100 * (y + 0.5)) / height}%` }}>{fixed(i + 1, 0)}</span>
      ))}
    </div>
  );
}
