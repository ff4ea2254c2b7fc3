/** The photo with outlines, names and the numbers of each third, what the light checks say, and the version, as one PNG. */
import type { PhotoNumbers } from '../../charts/csv';
import { fixed, momentText } from '../../charts/format';
import type { OpenPhoto } from '../../engine/desk';
import { THIRDS, type Report } from '../../engine/types';
import { stageFromPhoto } from '../../stage/geometry';
import { drawOutlined } from '../../stage/draw_outlined';
import { notes } from '../../state/notes_edit';
import { previews } from '../../state/previews';
import { sharpen } from '../../state/sharpen';
import { middleOf } from '../../state/shapes';
import { words } from '../../words';
import { layoutOf, type Block } from './picture_layout';
import { plain } from '../plain';

type Read = PhotoNumbers & { readonly report: Report };

/** Neutral, near L* 50: it does not bias the eye. */
const GROUND = '#767676';
const FONT = 'system-ui, sans-serif';

/** The numbers of each outline. What may not be trusted has none. */
export function blocksOf({ scene, report, untrusted }: Read, k: number): Block[] {
  const t = words.exports;
  return scene.regions.map(({ id, outline }): Block => {
    const zones = report.readings.find((r) => r.region === id)?.zones;
    const trusted = zones && untrusted() === undefined && untrusted(id) === undefined;
    const read = trusted ? THIRDS.flatMap((zone) => {
      const z = zones[zone];
      return z ? [t.third(words.names.zoneShort[zone], fixed(z.lab[0]), fixed(z.chroma), fixed(z.hue_deg, 0), fixed(z.doubt))] : [];
    }) : [];
    return { lines: [words.names.region(scene, id), ...(read.length ? read : [words.sheet.noNumber])], at: stageFromPhoto({ k, x: 0, y: 0 }, middleOf(outline)) };
  });
}

/** What stands below the photo. */
export function saidBelow({ photo, scene, report, guide }: Read, shown: { width: number; height: number }, now: Date): string[] {
  const t = words.exports;
  const { severity } = words.sheet.checks;
  const { info } = { info: report.photo };
  const whole = info.width <= shown.width;
  return [
    ...(report.checks.length ? report.checks.map((c) => t.check(severity[c.severity], words.names.said(scene, c.text))) : [words.sheet.checks.fine]),
    ...notes.value.map(({ text }, i) => t.note(i + 1, text || words.notes.empty)),
    t.units,
    whole ? t.sizeWhole(`${info.width} × ${info.height}`) : t.size(`${shown.width} × ${shown.height}`, `${info.width} × ${info.height}`),
    t.stamp(photo, momentText(now), report.version, guide ?? ''),
    words.sheet.disclaimer,
  ];
}

export async function pictureOf(open: OpenPhoto, read: Read, now: Date): Promise<Blob> {
  await sharpen(open);
  const preview = previews.of(open)!;
  const k = preview.width / open.info.width;
  const measure = new OffscreenCanvas(1, 1).getContext('2d')!;
  measure.font = `100px ${FONT}`;
  const layout = layoutOf(preview, blocksOf(read, k), saidBelow(read, preview, now), (text) => measure.measureText(text).width / 100);
  const canvas = new OffscreenCanvas(layout.width, layout.height);
  const context = canvas.getContext('2d')!;
  Object.assign(context, { fillStyle: GROUND });
  context.fillRect(0, 0, layout.width, layout.height);
  const view = { k, x: layout.photo[0], y: layout.photo[1] };
  drawOutlined(context, preview, read.scene, view, open.info.width, Math.max(1.5, layout.letter / 11));
  // Black below white: seen on any ground.
  for (const [colour, width] of [['#000', 3], ['#fff', 1.2]] as const) {
    Object.assign(context, { strokeStyle: colour, lineWidth: width });
    for (const { leader: [from, to] } of layout.blocks) {
      context.beginPath();
      context.moveTo(...from);
      context.lineTo(...to);
      context.stroke();
    }
  }
  pins(context, view, layout.letter);
  Object.assign(context, { fillStyle: '#fff', textAlign: 'left', textBaseline: 'top' });
  for (const { x, y, lines } of [...layout.blocks, layout.below]) {
    const heads = lines !== layout.below.lines;
    lines.forEach((line, i) => {
      context.font = `${heads && i === 0 ? 'bold ' : ''}${layout.letter}px ${FONT}`;
      context.fillText(plain(line), x, y + i * layout.line);
    });
  }
  return canvas.convertToBlob({ type: 'image/png' });
}

function pins(context: OffscreenCanvasRenderingContext2D, view: { k: number; x: number; y: number }, letter: number): void {
  Object.assign(context, { font: `bold ${letter}px ${FONT}`, textAlign: 'center', textBaseline: 'middle', lineWidth: 2 });
  notes.value.forEach(({ at }, i) => {
    const [x, y] = stageFromPhoto(view, at);
    context.beginPath();
    context.arc(x, y, 0.85 * letter, 0, 2 * Math.PI);
    Object.assign(context, { fillStyle: '#fff', strokeStyle: '#000' });
    context.fill();
    context.stroke();
    context.fillStyle = '#000';
    context.fillText(String(i + 1), x, y);
  });
}
