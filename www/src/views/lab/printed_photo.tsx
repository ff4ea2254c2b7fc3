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

function draw(canvas: HTMLCanvasElement | null, preview: Preview): void {
  const context = canvas?.getContext('2d');
  if (!context) return;
  const whole = new OffscreenCanvas(preview.width, preview.height);
  whole.getContext('2d')?.putImageData(imageData(preview), 0, 0);
  context.imageSmoothingQuality = 'high';
  context.drawImage(whole, 0, 0, context.canvas.width, context.canvas.height);
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
  useEffect(() => (preview ? whenPrinted(() => draw(canvas.current, preview)) : undefined), [preview]);
  if (!open || !preview) return null;
  const { width, height } = open.info;
  const view = { k: PRINT_PX / width, x: 0, y: 0 };
  const { regions } = scene.value;
  // A card of several steps has no outline of its own.
  const outlines = shapesOf(scene.value).flatMap(({ outline }) => (outline.length > 2 ? [outline] : []));
  return (
    <div class="printed-photo print-only" role="img" aria-label={words.notes.picture}>
      <canvas ref={canvas} width={Math.round(preview.width * k)} height={Math.round(preview.height * k)} />
      <svg viewBox={`0 0 ${PRINT_PX} ${(PRINT_PX * height) / width}`} aria-hidden="true">
        {outlines.map((outline, i) => (
          <path key={i} d={pathOf(view, outline)} />
        ))}
        {regions.map(({ id, outline }) => {
          const [x, y] = stageFromPhoto(view, middleOf(outline));
          return (
            <text key={id} x={x} y={y}>
              {words.names.short(scene.value, `region:${id}`)}
            </text>
          );
        })}
      </svg>
      {notes.value.map(({ id, at: [x, y] }, i) => (
        <span key={id} class="pin-number" style={{ left: `${(100 * (x + 0.5)) / width}%`, top: `${(100 * (y + 0.5)) / height}%` }}>{fixed(i + 1, 0)}</span>
      ))}
    </div>
  );
}
