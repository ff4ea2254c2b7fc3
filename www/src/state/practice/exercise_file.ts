/** Attempts as a file: plain JSON, checked before any is added. */
import { THIRDS, type PracticeRequest, type PracticeScore } from '../../engine/types';
import { array, FileError, labFrom, number, parsed, record } from '../scene_file';
import type { Attempt } from './exercise';

const MAX_ATTEMPTS = 5000;
const MAX_TEXT = 500;
const VERDICTS: readonly unknown[] = ['not_seen', 'accepted', 'disturbing'];

export const attemptsToJson = (attempts: readonly Attempt[]): string => `${JSON.stringify({ attempts }, null, 1)}\n`;

/** Throws a `FileError` when a part is wrong. */
export const attemptsFromJson = (text: string): Attempt[] => array(record(parsed(text), 'practice').attempts, MAX_ATTEMPTS, 'practice').map(attemptFrom);

const text = (value: unknown): string => (typeof value === 'string' ? value.slice(0, MAX_TEXT) : '');

function attemptFrom(value: unknown): Attempt {
  const { who, base, target, at, request, score, task } = record(value, 'practice');
  if (Number.isNaN(Date.parse(text(at)))) throw new FileError('practice');
  return { who: text(who), base: text(base), target: text(target), at: text(at), request: requestFrom(request), score: scoreFrom(score), ...(text(task) && { task: text(task) }) };
}

const zoneOf = (value: unknown) => {
  const zone = THIRDS.find((t) => t === value);
  if (!zone) throw new FileError('practice');
  return zone;
};

/** A number that may be missing. */
const maybe = <K extends string>(key: K, value: unknown): { [k in K]?: number } =>
  value == null ? {} : ({ [key]: number(value, 'practice') } as { [k in K]?: number });

function requestFrom(value: unknown): PracticeRequest {
  const zones = array(record(value, 'practice').zones, THIRDS.length, 'practice').map((zone) => {
    const z = record(zone, 'practice');
    return {
      zone: zoneOf(z.zone), base: labFrom(z.base), got: labFrom(z.got), target: labFrom(z.target), doubt: number(z.doubt, 'practice'),
      ...maybe('blotch', z.blotch), ...maybe('target_blotch', z.target_blotch),
    };
  });
  return { zones };
}

function scoreFrom(value: unknown): PracticeScore {
  const { colour, gradient, evenness, way, words, zones } = record(value, 'practice');
  return {
    colour: number(colour, 'practice'), ...maybe('gradient', gradient), ...maybe('evenness', evenness), way: number(way, 'practice'), words: text(words),
    zones: array(zones, THIRDS.length, 'practice').map((zone) => {
      const z = record(zone, 'practice');
      if (!VERDICTS.includes(z.verdict)) throw new FileError('practice');
      const [start_delta_e_00, left_delta_e_00] = [number(z.start_delta_e_00, 'practice'), number(z.left_delta_e_00, 'practice')];
      return { zone: zoneOf(z.zone), start_delta_e_00, left_delta_e_00, verdict: z.verdict as PracticeScore['zones'][number]['verdict'], words: text(z.words) };
    }),
  };
}

/** Those that are not there already, in the order of time. */
export function merged(here: readonly Attempt[], more: readonly Attempt[]): Attempt[] {
  const key = ({ at, who, base, target }: Attempt) => JSON.stringify([at, who, base, target]);
  const known = new Set(here.map(key));
  const fresh = more.filter((a) => !known.has(key(a)) && known.add(key(a)));
  return [...here, ...fresh].sort((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : 0));
}
