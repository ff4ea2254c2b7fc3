/** Only for paper: the photo as it is shown, small, with its outlines, their names and the numbered notes. */
import { useEffect, useRef } from 'preact/hooks';
import { fixed } from '../../charts/format';
import type { Preview } from '../../engine/types';
import { drawOutlined } from '../../stage/draw_outlined';
import { current } from '../../state/case/at_hand';
import { guide, photo, scene } from '../../state/desk';
import { notes } from '../../state/notes_edit';
import { previews } from '../../state/previews';
import { reading } from '../../state/reading';
import { words } from '../../words';

const [PRINT_PX, PRINT_MOST_PX] = [900, 1350];
/** On paper the photo is about 6 cm wide: letters of 11 units are 6 points high there. */
const PRINT_UNIT_PX = 3;

/** Of its own width a small photo would be smaller than the names written into it. */
export function printedSize({ width, height }: { width: number; height: number }): { width: number; height: number } {
  const k = Math.min(PRINT_PX / width, PRINT_MOST_PX / height);
  return { width: Math.max(1, Math.round(width * k)), height: Math.max(1, Math.round(height * k)) };
}

/** All on one canvas: paper scales a drawing that lies over a picture by itself. */
function draw(canvas: HTMLCanvasElement | null, preview: Preview, photoWidth_px: number): void {
  const context = canvas?.getContext('2d');
  if (context) drawOutlined(context, preview, scene.peek(), { k: context.canvas.width / photoWidth_px, x: 0, y: 0 }, photoWidth_px, PRINT_UNIT_PX);
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

/** What the numbers on the same sheet come from. */
function Facts() {
  const now = reading.value;
  if (!now) return null;
  const { photo, version } = now.report;
  const { label } = current.value ?? {};
  const { factNames: n, sizeOf } = words.numbers;
  const facts = [[n.size, sizeOf(photo.width, photo.height)], [n.space, photo.space.name], [n.camera, photo.facts.camera], [n.taken, photo.facts.taken]];
  return (
    <p class="printed-facts print-only">
      {label && <strong>{label}. </strong>}
      {words.exports.readWith(version, guide.value?.name ?? '')} {facts.flatMap(([name, value]) => (value ? [`${name}: ${value}`] : [])).join('; ')}
    </p>
  );
}

export function PrintedPhoto() {
  const canvas = useRef<HTMLCanvasElement>(null);
  const open = photo.value;
  const preview = open && previews.of(open);
  useEffect(() => (preview ? whenPrinted(() => draw(canvas.current, preview, open!.info.width)) : undefined), [preview]);
  if (!open || !preview) return null;
  const { width, height } = open.info;
  return (
    <>
      <Facts />
      <div class="printed-photo print-only" role="img" aria-label={words.notes.picture}>
        <canvas ref={canvas} {...printedSize(preview)} />
        {notes.value.map(({ id, at: [x, y] }, i) => (
          <span key={id} class="pin-number" style={{ left: `${(100 * (x + 0.5)) / width}%`, top: `${(100 * (y + 0.5)) / height}%` }}>{fixed(i + 1, 0)}</span>
        ))}
      </div>
    </>
  );
}
