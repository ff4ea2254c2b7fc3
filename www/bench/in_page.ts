/**
 * What is measured inside a page, in any engine, with the page's own worker and the page's own way from
 * what was found to a scene, a comparison and a plan. It travels as text; `photo.mjs` bundles it.
 */
import { WorkerClient, type WorkerLike } from '../src/engine/client';
import { fingerprint } from '../src/engine/fingerprint';
import { THIRDS, type Found, type Opened, type PlanZone, type Point, type Report, type Scene, type SwatchBook } from '../src/engine/types';
import { EMPTY_DOC, type Doc } from '../src/state/doc';
import { withFound } from '../src/state/found';
import { targetOf, withKind } from '../src/state/roles';
import { areaOf, middleOf } from '../src/state/shapes';
import { USUAL_LIMITS } from '../src/state/stains/stains_doc';
import type { Calls } from '../src/worker/protocol';

export interface Job {
  readonly photo: string;
  readonly book: string;
  readonly worker: string;
  readonly rounds: number;
  readonly dragsPerRound: number;
}

type First = 'glimpse' | 'preview';

export interface Measured {
  readonly widthPx: number;
  readonly heightPx: number;
  /** What a photo is shown by first; a page from before there were glimpses asks for the preview. */
  readonly first: First;
  /** Milliseconds, one per round. */
  readonly times: Record<string, number[]>;
  /** Bytes of the program's memory: of a fresh worker after one photo and all that is done with it, and of the one that did all rounds. */
  readonly memoryOnce: number | string;
  readonly memoryAfterAll: number | string;
  readonly regions: number;
  readonly thirds: number;
  readonly swatches: number;
  /** Of the region whose handle is dragged. */
  readonly draggedPx: number;
}

/** What the page shows: `MAX_PREVIEW_PX` in its `state/previews`, which holds the page's desk as well. */
const PREVIEW_PX = 2_000_000;
const DRAGGED_PX = 1e6;
const PLAN_PICTURE_PX = 480;

type Client = WorkerClient<Calls>;

async function timed<T>(work: () => Promise<T>): Promise<[number, T]> {
  const from = performance.now();
  const value = await work();
  return [performance.now() - from, value];
}

/** The browser's own decoder, and every pixel back. */
async function own(file: Blob): Promise<readonly [number, number]> {
  const bitmap = await createImageBitmap(file);
  const { width, height } = bitmap;
  const context = new OffscreenCanvas(width, height).getContext('2d', { willReadFrequently: true })!;
  context.drawImage(bitmap, 0, 0);
  const { data } = context.getImageData(0, 0, width, height);
  if (data.length !== width * height * 4) throw new Error('The browser gave fewer pixels than the photo has.');
  bitmap.close();
  return [width, height];
}

/** As choosing a file does: is it open already, then the photo and its print. */
async function open(client: Client, file: Blob): Promise<Opened> {
  await fingerprint(file);
  const [opened] = await Promise.all([client.call('open', [file]), fingerprint(file)]);
  return opened;
}

interface Made {
  readonly scene: Scene;
  readonly target: string | undefined;
  readonly restoration: string;
}

/** What the page makes of what was found, and of "yes" to the proposed restoration. */
function sceneOf(found: Found): Made {
  const { scene, proposal } = withFound(EMPTY_DOC.scene, found);
  const doc: Doc = { ...EMPTY_DOC, scene, proposal };
  const { restoration } = proposal;
  if (restoration === undefined) throw new Error('The search proposes no restoration in this photo.');
  const settled: Doc = { ...doc, ...withKind(doc, restoration, 'restoration') };
  return { scene: settled.scene, target: targetOf(settled), restoration };
}

/** Each third that was read in both, as the plan's view asks for it. */
function zonesOf({ advice, readings }: Report): PlanZone[] {
  const settled = advice[0];
  const of = (id: string | undefined) => readings.find((r) => r.region === id)?.zones;
  return THIRDS.flatMap((zone) => {
    const [from, to] = [of(settled?.restoration)?.[zone], of(settled?.target)?.[zone]];
    const found = settled?.zones.find((z) => z.zone === zone);
    return from && to && found ? [{ zone, from: from.lab, to: to.lab, doubt: found.doubt }] : [];
  });
}

/** The restoration as large as a close photo would show it. */
function enlarged({ scene, restoration }: Made, width: number, height: number): Scene {
  const regions = scene.regions.map((region) => {
    if (region.id !== restoration) return region;
    const [k, [x, y]] = [Math.sqrt(DRAGGED_PX / areaOf(region.outline)), middleOf(region.outline)];
    const within = ([px, py]: Point): Point => [Math.min(width - 1, Math.max(0, x + (px - x) * k)), Math.min(height - 1, Math.max(0, y + (py - y) * k))];
    const axis = { ...(region.cervical && { cervical: within(region.cervical) }), ...(region.incisal && { incisal: within(region.incisal) }) };
    return { ...region, ...axis, outline: region.outline.map(within) };
  });
  return { ...scene, regions };
}

function moved(scene: Scene, restoration: string, by: number): Scene {
  const regions = scene.regions.map((r) => (r.id === restoration ? { ...r, outline: r.outline.map(([x, y], i): Point => (i === 0 ? [x + by, y] : [x, y])) } : r));
  return { ...scene, regions };
}

const memory = (client: Client): Promise<number | string> => client.call('memory', []).catch((error: unknown) => `the page’s worker gives none (${String(error)})`);

export async function measure(job: Job): Promise<Measured> {
  const bytes = await (await fetch(job.photo)).arrayBuffer();
  const file = new File([bytes], 'photo.jpg', { type: 'image/jpeg' });
  const book = (await (await fetch(job.book)).json()) as SwatchBook;
  const begin = (): Client => new WorkerClient<Calls>(() => new Worker(job.worker, { type: 'module' }) as unknown as WorkerLike);

  const times: Record<string, number[]> = {};
  const note = async <T>(key: string, work: () => Promise<T>): Promise<T> => {
    const [time, value] = await timed(work);
    (times[key] ??= []).push(time);
    return value;
  };
  let size: readonly [number, number] = [0, 0];
  let seen = { regions: 0, thirds: 0, draggedPx: 0 };

  /** A fresh worker with one photo, from its file to a dragged handle. */
  async function everything(client: Client): Promise<void> {
    const opened = await open(client, file);
    await client.call(first, [opened.id, PREVIEW_PX]);
    await client.call('preview', [opened.id, PREVIEW_PX]);
    const made = sceneOf(await client.call('find', [opened.id]));
    const { scene, target } = made;
    const report = await client.call('read', [opened.id, scene, { target }]);
    await client.call('plan', [book, { zones: zonesOf(report), limits: USUAL_LIMITS }]);
    const { width, height } = opened.info;
    await client.call('read', [opened.id, enlarged(made, width, height), { target }]);
  }

  /** The browser's own, then the whole job, then the same with the picture first, as the page has it. */
  async function round(client: Client, number: number): Promise<void> {
    size = await note('own', () => own(file));
    const id = await note('job', async () => {
      const opened = await note('job open', () => open(client, file));
      const found = await note('job find', () => client.call('find', [opened.id]));
      const { scene, target } = sceneOf(found);
      const report = await note('job read', () => client.call('read', [opened.id, scene, { target }]));
      await note('job plan', () => client.call('plan', [book, { zones: zonesOf(report), limits: USUAL_LIMITS }]));
      return opened.id;
    });
    await client.call('close', [id]);

    const opened = await note('picture', async () => {
      const opened = await note('picture open', () => open(client, file));
      await note('picture first', () => client.call(first, [opened.id, PREVIEW_PX]));
      return opened;
    });
    if (first === 'glimpse') await note('preview', () => client.call('preview', [opened.id, PREVIEW_PX]));
    const made = sceneOf(await note('find', () => client.call('find', [opened.id])));
    const { scene, target } = made;
    const report = await note('read', () => client.call('read', [opened.id, scene, { target }]));
    const zones = zonesOf(report);
    // Another name is another book to the engine: it fits again.
    const fresh = { ...book, name: `${book.name} ${number}` };
    await note('fit and plan', async () => {
      await note('fit', () => client.call('fit_swatches', [fresh]));
      await client.call('plan', [fresh, { zones, limits: USUAL_LIMITS }]);
    });
    await client.call('fit_swatches', [book]);
    await note('plan', () => client.call('plan', [book, { zones, limits: USUAL_LIMITS }]));

    const plan = await client.call('plan', [book, { zones, limits: USUAL_LIMITS }]);
    await note('plan picture', () => client.call('planned_picture', [opened.id, scene, made.restoration, book, plan.zones, PLAN_PICTURE_PX]));
    const settled = scene.regions.find((r) => r.id === made.restoration)!;
    await note('tap', () => client.call('outline_choices', [opened.id, middleOf(settled.outline)]));

    const large = enlarged(made, ...size);
    seen = { regions: scene.regions.length, thirds: zones.length, draggedPx: areaOf(large.regions.find((r) => r.id === made.restoration)!.outline) };
    await client.call('read', [opened.id, large, { target }]);
    for (let i = 1; i <= job.dragsPerRound; i++) {
      const scene = moved(large, made.restoration, i);
      await note('drag', () => client.call('read', [opened.id, scene, { target }]));
    }
    await client.call('close', [opened.id]);
  }

  // A worker that does not know a call is lost with it.
  const tried = begin();
  const { id } = await open(tried, file);
  const first = await tried.call('glimpse', [id, PREVIEW_PX]).then((): First => 'glimpse', (): First => 'preview');
  tried.rest();

  const once = begin();
  await everything(once);
  const memoryOnce = await memory(once);
  once.rest();

  const warm = begin();
  await warm.call('fit_swatches', [book]);
  await round(warm, -1);
  for (const key of Object.keys(times)) times[key] = [];
  for (let i = 0; i < job.rounds; i++) await round(warm, i);
  const memoryAfterAll = await memory(warm);
  warm.rest();
  if (seen.thirds !== 3) throw new Error(`Only ${seen.thirds} thirds could be compared: this photo is not fit for the measurement.`);
  return { widthPx: size[0], heightPx: size[1], first, times, memoryOnce, memoryAfterAll, swatches: book.swatches.length, ...seen };
}

/** Begun and asked about: not every driver waits for what takes long. */
const state: { done?: Measured; failed?: string } = {};
export const begin = (job: Job): void => {
  delete state.done;
  delete state.failed;
  measure(job).then(
    (done) => (state.done = done),
    (error: unknown) => (state.failed = error instanceof Error ? `${error.message}` : String(error)),
  );
};
export const asked = (): typeof state => state;
