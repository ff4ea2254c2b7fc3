/**
 * An engine of the same interface with made-up numbers, for unit tests of the page's plumbing.
 * Colours follow from where an outline lies, so that moving it changes its reading.
 */
import type { Difference, FittedBook, Found, FoundRegion, Guide, Opened, Pass, PassReview, Patch, Plan, PlanRequest, Point, PracticeRequest, PracticeScore, Prediction, PredictRequest, Preview, ReadOptions, Rect, Region, RegionKind, Report, Scene, SwatchBook, UnfiredLook, UnfiredRequest, ZoneReading } from '../src/engine/types';
import { THIRDS, ZONES } from '../src/engine/types';
import { middleOf } from '../src/state/shapes';
import { fakeLook, fakeReview, fakeScore } from './fake_passes';
import { fakeFit, fakePlan, fakePredict } from './fake_stains';

const SIZE = { width: 1200, height: 800 };

export const FAKE_GUIDE: Guide = {
  name: 'Fake guide',
  source: 'published',
  tabs: ['A1', 'A2', 'A3', 'B1'].map((name, i) => ({ name, lab: [80 - 2 * i, 0.4 * i, 13 + 2 * i] })),
};

const box = ([x, y]: Point, w: number, h: number): Point[] => [[x - w, y - h], [x + w, y - h], [x + w, y + h], [x - w, y + h]];

const ellipse = ([x, y]: Point, w: number, h: number): Point[] =>
  Array.from({ length: 40 }, (_, i) => [x + w * Math.sin((i * Math.PI) / 20), y - h * Math.cos((i * Math.PI) / 20)]);

function zoneReading(region: Region, step: number): ZoneReading {
  const [x, y] = middleOf(region.outline);
  const lab: [number, number, number] = [66 + x / 100 - step, 1 + y / 1000, 16 + y / 200 - 1.5 * step];
  const chroma = Math.hypot(lab[1], lab[2]);
  const hue_deg = (Math.atan2(lab[2], lab[1]) * 180) / Math.PI;
  return { lab, chroma, hue_deg, doubt: 0.5, doubt_in_photo: 0.3, doubt_l_in_photo: 0.25, doubt_c_in_photo: 0.2, pixels: 12345, glare: 0.02, glare_value: 0.4, glare_measured: false, whiteness: 20 };
}

/** A tooth around a place, so many times the usual size, and as sure. */
const crown = ([x, y]: Point, by: number): FoundRegion => ({ kind: 'tooth', outline: ellipse([x, y], 80 * by, 110 * by), cervical: [x, y - 110 * by], incisal: [x, y + 110 * by], sure: by });

export class Engine {
  #open = new Set<number>();
  #next = 1;
  #guide = FAKE_GUIDE;

  open(bytes: Uint8Array): Opened {
    if (bytes[0] !== 0xff) throw { kind: 'file-damaged', message: 'The file is not a picture.' };
    this.#open.add(this.#next);
    const facts = { format: 'JPEG', orientation: 1 };
    return { id: this.#next++, info: { ...SIZE, space: { name: 'sRGB', source: 'exif', bits: 8 }, facts }, checks: [] };
  }

  close(id: number): void {
    this.#open.delete(id);
  }

  preview(id: number): Preview {
    this.#need(id);
    return { width: 60, height: 40, rgba: new Uint8Array(60 * 40 * 4).fill(160) };
  }

  glimpse(id: number): Preview {
    return this.preview(id);
  }

  preview_strip(id: number, _max_px: number, strip: number): Preview | undefined {
    return strip ? undefined : this.preview(id);
  }

  outline_card(_id: number, tap: Point): Point[] {
    return box(tap, 90, 70);
  }

  outline_card_in(_id: number, { x, y, width, height }: Rect): Point[] {
    return box([x + width / 2, y + height / 2], width / 2, height / 2);
  }

  find(id: number): Found {
    this.#need(id);
    const at = (kind: RegionKind, x: number, y: number): FoundRegion => ({ ...crown([x, y], 1), kind, sure: 0.9 });
    return {
      card: { outline: box([1000, 600], 90, 70), whole: box([1000, 600], 90, 70), sure: 0.9 },
      regions: [at('tooth', 200, 200), at('tooth', 400, 200), at('tab', 400, 600), at('tab', 200, 600)],
      target: 0,
      restoration: 1,
    };
  }

  /** Smaller and smaller. */
  outline_choices(_id: number, tap: Point): FoundRegion[] {
    return [1, 0.8, 0.6].map((by) => crown(tap, by));
  }

  /** Halves, whatever the stroke. */
  cut_outline(_id: number, outline: Point[], _stroke: Point[]): FoundRegion[] {
    const [x, y] = middleOf(outline);
    return [-1, 1].map((side) => ({ kind: 'tooth', outline: box([x + 40 * side, y], 38, 110), cervical: [x + 40 * side, y + 110], incisal: [x + 40 * side, y - 110], sure: 1 }));
  }

  set_guide(guide: Guide | undefined): Guide {
    return (this.#guide = guide ?? FAKE_GUIDE);
  }

  guide(): Guide {
    return this.#guide;
  }

  pair(): void {}

  glare_map(): Preview {
    return { width: 30, height: 20, rgba: new Uint8Array(30 * 20 * 4) };
  }

  straightened(): Preview {
    return { width: 30, height: 40, rgba: new Uint8Array(30 * 40 * 4).fill(200) };
  }

  fit_swatches(book: SwatchBook): FittedBook {
    return fakeFit(book);
  }

  predict(book: SwatchBook, requests: PredictRequest[]): Prediction[] {
    return fakePredict(book, requests);
  }

  plan(book: SwatchBook, request: PlanRequest): Plan {
    if (book.swatches.length === 0) throw { kind: 'input', message: 'The book has no swatch that can be used.' };
    return fakePlan(book, request);
  }

  review_pass(book: SwatchBook, pass: Pass): PassReview {
    return fakeReview(book, pass);
  }

  look_unfired(book: SwatchBook, request: UnfiredRequest): UnfiredLook {
    return fakeLook(book, request);
  }

  score_practice(request: PracticeRequest): PracticeScore {
    return fakeScore(request);
  }

  /** Darker on the left, lighter on the right. */
  evenness_map(id: number): Patch {
    this.#need(id);
    const rgba = Uint8Array.from({ length: 4 * 4 * 4 }, (_, i) => (i % 4 === 3 ? 128 : i % 16 < 8 ? 0 : 255));
    return { width: 4, height: 4, rgba, place: [100, 100, 40, 60], full_delta_e_00: 3 };
  }

  difference_map(id: number): Patch {
    return { ...this.evenness_map(id), full_delta_e_00: 6 };
  }

  /** Distances in L*a*b* stand for ΔE00. */
  differences(numbers: Float64Array): Difference[] {
    return Array.from({ length: numbers.length / 8 }, (_, i) => {
      const [l = 0, a = 0, b = 0, doubt = NaN, toL = 0, toA = 0, toB = 0, toDoubt = NaN] = numbers.subarray(8 * i, 8 * i + 8);
      const both = Math.hypot(doubt, toDoubt);
      return {
        delta_e_00: Math.hypot(toL - l, toA - a, toB - b), delta_l: toL - l, delta_c: Math.hypot(toA, toB) - Math.hypot(a, b), delta_h: 0,
        words: toL > l ? 'lighter' : 'darker', verdict: 'accepted', ...(!Number.isNaN(both) && { doubt: both }),
      };
    });
  }

  planned_picture(): Preview {
    return { width: 30, height: 40, rgba: new Uint8Array(30 * 40 * 4).fill(150) };
  }

  planned_patch(): Patch {
    return { width: 30, height: 40, rgba: new Uint8Array(30 * 40 * 4).fill(150), place: [100, 100, 60, 80] };
  }

  read(id: number, scene: Scene, _options: ReadOptions): Report {
    this.#need(id);
    const regions = scene.card ? scene.regions : [];
    const readings = regions.map((region) => ({
      region: region.id,
      zones: Object.fromEntries(ZONES.map((zone, i) => [zone, zoneReading(region, i % 3)])),
      gradient: Array.from({ length: 12 }, (_, i) => ({ at: i / 11, lab: zoneReading(region, (2 * i) / 11).lab })),
      blotch: 0.4,
    }));
    const ladders = regions
      .filter((r) => r.kind !== 'tab')
      .flatMap((r) => ZONES.map((zone) => ({ region: r.id, zone, tabs: this.#rungs(scene) })));
    const tooth = regions.find((r) => r.kind === 'tooth');
    const advice = regions
      .filter((r) => r.kind === 'restoration' && tooth)
      .map((r) => ({
        restoration: r.id,
        target: tooth!.id,
        zones: THIRDS.map((zone, i) => ({
          zone, delta_e_00: 2.4 - i, doubt: 0.4, delta_l: 2, delta_c: -1, delta_h: 0.2, verdict: 'disturbing' as const,
          words: 'clearly lighter, less chroma', directions: ['lower_value' as const, 'add_chroma' as const],
          steps: ['Lower the value: one thin coat of grey.', 'Add chroma in the tooth’s own hue.'],
        })),
        cautions: ['Follow the instructions of the ceramic, the stain and the furnace.'],
      }));
    const info = { ...SIZE, space: { name: 'sRGB', source: 'exif' as const, bits: 8 }, facts: { format: 'JPEG', orientation: 1 } };
    return { version: '0.0.0', photo: info, checks: [], scene, readings, ladders, advice };
  }

  #rungs(scene: Scene) {
    const seen = scene.regions.filter((r) => r.kind === 'tab').map((r) => r.name);
    const names = [...seen, ...this.#guide.tabs.map((t) => t.name).filter((n) => !seen.includes(n))];
    return names.map((name, i) => ({
      name, delta_e_00: 0.6 + 0.9 * i, delta_l: 0.5, delta_c: 0.1, delta_h: 0.1, words: 'slightly lighter', verdict: 'accepted' as const,
      basis: seen.includes(name) ? ('in_photo' as const) : ('published' as const), whole_tab: false,
    }));
  }

  #need(id: number): void {
    if (!this.#open.has(id)) throw { kind: 'input', message: 'This photo is not open.' };
  }
}

export default async function init(): Promise<void> {}
