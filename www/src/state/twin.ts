/**
 * The tooth on the other side of the mouth. Pure geometry: a mouth is nearly its own mirror image,
 * and the two middle teeth of a row are large neighbours of one size.
 */
import type { Region, Scene } from '../engine/types';
import { areaOf, boundsOf, middleOf, regionById } from './shapes';

/** Twins differ less in area than this: an outline by hand and a slanting view both change it. */
const ALIKE = 0.25;

const area = ({ outline }: Region): number => areaOf(outline);
const x = ({ outline }: Region): number => middleOf(outline)[0];

/** The cervical end below is a lower tooth. */
const pointsUp = ({ cervical, incisal }: Region): boolean => Boolean(cervical && incisal && cervical[1] > incisal[1]);

/** How far two areas are from each other, as a share of the larger. */
const unlike = (a: Region, b: Region): number => 1 - Math.min(area(a), area(b)) / Math.max(area(a), area(b), 1);

/** Another tooth stands between them, or would have room to. */
const gapped = (a: Region, b: Region): boolean => {
  const [left, right] = [boundsOf(a.outline), boundsOf(b.outline)];
  return right.left - left.right > Math.min(left.right - left.left, right.right - right.left) / 2;
};

/** The place of the left one of the two middle teeth. */
function middlePair(row: readonly Region[]): number | undefined {
  const merit = (k: number): number => {
    const [a, b] = [row[k]!, row[k + 1]!];
    return gapped(a, b) ? 0 : Math.min(area(a), area(b)) * (1 - unlike(a, b));
  };
  const best = row.slice(1).reduce((best, _, k) => (merit(k) > merit(best) ? k : best), 0);
  return row.length > 1 && merit(best) > 0 ? best : undefined;
}

/** What a tooth is best compared with: its twin; where that is missing, the neighbour most alike in size; else the tooth most alike. */
export function twinOf(scene: Scene, id: string): string | undefined {
  const one = regionById(scene, id);
  if (!one) return undefined;
  // What is already a restoration still has its place in the row.
  const row = scene.regions.filter((r) => r.kind !== 'tab' && pointsUp(r) === pointsUp(one)).sort((a, b) => x(a) - x(b));
  const at = row.indexOf(one);
  const left = middlePair(row);
  const natural = (r: Region | undefined): Region[] => (r && r !== one && r.kind === 'tooth' ? [r] : []);
  const alike = (r: Region): boolean => unlike(one, r) <= ALIKE;
  const nearest = (of: Region[]): Region | undefined => of.sort((a, b) => unlike(one, a) - unlike(one, b))[0];
  const twin = left === undefined ? [] : natural(row[2 * left + 1 - at]).filter(alike);
  const beside = [row[at - 1], row[at + 1]].flatMap(natural).filter(alike);
  return (twin[0] ?? nearest(beside) ?? nearest(row.flatMap(natural)) ?? nearest(scene.regions.flatMap(natural)))?.id;
}
