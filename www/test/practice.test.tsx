import { describe, expect, it } from 'vitest';
import { LearningCurve } from '../src/charts/learning_curve';
import { learningLayout } from '../src/charts/learning_layout';
import type { Lab } from '../src/engine/types';
import type { Spot } from '../src/state/passes/frame';
import type { Attempt, Side, Task } from '../src/state/practice/exercise';
import { attemptsFromJson, attemptsToJson, merged } from '../src/state/practice/exercise_file';
import { EMPTY_SIDE, isUnpainted, learnersOf, practiceRequest, taskZones, typedSpots } from '../src/state/practice/exercise_model';
import { FileError } from '../src/state/scene_file';
import { elementsOf } from './vnodes';

const spot = (lab: Lab, blotch?: number): Spot => ({ lab, doubt: 2.5, doubt_in_photo: 1.1, ...(blotch !== undefined && { blotch }) });
const side = (name: string, lab: Lab, blotch?: number): Side => ({ name, spots: { cervical: spot(lab, blotch), middle: spot(lab, blotch) } });

const TASK: Task = { base: side('Tab A1', [80, -1, 13]), target: side('Tab A3', [74, 2, 20]), plan: null };

const attempt = (who: string, colour: number, day: number): Attempt => ({
  who, base: 'Tab A1', target: 'Tab A3', at: `2026-02-${String(day).padStart(2, '0')}T10:00:00.000Z`,
  request: { zones: [{ zone: 'middle', base: [80, -1, 13], got: [75, 1, 19], target: [74, 2, 20], doubt: 1.5, blotch: 0.6 }] },
  score: { colour, way: 0.8, words: 'Add a little more.', zones: [{ zone: 'middle', start_delta_e_00: 6, left_delta_e_00: colour, verdict: 'accepted', words: '' }] },
});

describe('an exercise', () => {
  it('goes from the base to the target where both are known', () => {
    const part: Side = { name: '', spots: { middle: spot([74, 2, 20]) } };
    expect(taskZones(TASK.base, part)).toEqual([{ zone: 'middle', from: [80, -1, 13], to: [74, 2, 20], doubt: expect.closeTo(Math.hypot(1.1, 1.1), 9) }]);
  });

  it('takes typed values as exact, and none that are half typed', () => {
    const typed = typedSpots({ ...EMPTY_SIDE, middle: ['74,5', '2', '20'] })!;
    expect(typed).toEqual({ middle: { lab: [74.5, 2, 20], doubt: 0, doubt_in_photo: 0 } });
    expect(taskZones(TASK.base, { name: '', spots: typed })[0]!.doubt).toBe(2.5);
    expect([typedSpots(EMPTY_SIDE), typedSpots({ ...EMPTY_SIDE, middle: ['74', '', '20'] })]).toEqual([null, null]);
  });

  it('is scored under the light of the photo of the result', () => {
    const { zones } = practiceRequest(TASK, side('Tab A1', [73, 1, 18], 0.9), side('Tab A3', [72, 2, 20], 0.5));
    expect(zones.map((z) => z.zone)).toEqual(['cervical', 'middle']);
    // The target reads two darker in it: so would the base have.
    expect(zones[0]).toEqual({ zone: 'cervical', base: [78, -1, 13], got: [73, 1, 18], target: [72, 2, 20], doubt: expect.closeTo(1.556, 3), blotch: 0.9, target_blotch: 0.5 });
  });

  it('with a typed target leaves the base as it was read', () => {
    const target: Side = { name: '', spots: { middle: { lab: [74, 2, 20], doubt: 0, doubt_in_photo: 0 } } };
    const { zones } = practiceRequest({ ...TASK, target }, side('x', [73, 1, 18]), target);
    expect(zones).toEqual([{ zone: 'middle', base: [80, -1, 13], got: [73, 1, 18], target: [74, 2, 20], doubt: 2.5 }]);
  });

  it('has the doubts of two photos where it was read in two', () => {
    const now: Side = { ...side('Tab A3', [74, 2, 20]), photo: 'p' };
    const { zones } = practiceRequest(TASK, { ...side('Tab A1', [73, 1, 18]), photo: 'q' }, now);
    expect(zones[0]!.doubt).toBeCloseTo(Math.hypot(2.5, 2.5), 9);
  });

  it('knows the base that was not painted', () => {
    expect([isUnpainted(TASK, side('x', [80, -1, 13])), isUnpainted(TASK, side('x', [80, -1, 13.01]))]).toEqual([true, false]);
  });
});

describe('attempts as a file', () => {
  const all = [attempt('Kim', 2.1, 1), { ...attempt('', 1.2, 2), task: '2026-02-02T09:00:00.000Z' }];

  it('come back as they were, and no second time', () => {
    expect(attemptsFromJson(attemptsToJson(all))).toEqual(all);
    expect(merged(all, attemptsFromJson(attemptsToJson(all)))).toEqual(all);
    expect(merged([all[1]!], all)).toEqual(all);
    expect(merged([], [...all, all[0]!])).toEqual(all);
  });

  it.each([
    ['not JSON', '{'],
    ['no list', '{"attempts":3}'],
    ['another thing', '{"regions":[]}'],
    ['no date', JSON.stringify({ attempts: [{ ...all[0], at: 'soon' }] })],
    ['a third that is none', JSON.stringify({ attempts: [{ ...all[0], request: { zones: [{ ...all[0]!.request.zones[0], zone: 'whole' }] } }] })],
    ['a number that is none', JSON.stringify({ attempts: [{ ...all[0], score: { ...all[0]!.score, colour: 'good' } }] })],
    ['a verdict that is none', JSON.stringify({ attempts: [{ ...all[0], score: { ...all[0]!.score, zones: [{ ...all[0]!.score.zones[0], verdict: 'fine' }] } }] })],
  ])('are refused when there is %s', (_, text) => {
    expect(() => attemptsFromJson(text)).toThrow(FileError);
  });
});

describe('the learning curve', () => {
  const learners = learnersOf([attempt('Kim', 2.4, 1), attempt('Team 2', 2.3, 2), attempt('Kim', 1.1, 3), attempt('', 4, 4)], 'no name');

  it('has one line per label', () => {
    expect(learners).toEqual([{ name: 'Kim', left: [2.4, 1.1] }, { name: 'Team 2', left: [2.3] }, { name: 'no name', left: [4] }]);
  });

  it('puts nearer results lower, later ones farther right, and names apart', () => {
    const { lines, names, levels, bottom } = learningLayout(learners, 500, 240);
    const [first, second] = lines[0]!.dots;
    expect(second!.x).toBeGreaterThan(first!.x);
    expect(second!.y).toBeGreaterThan(first!.y);
    expect(levels.map((l) => l.value)).toEqual([0.8, 1.8]);
    expect(bottom).toBeGreaterThan(levels[0]!.y);
    expect(levels[0]!.y).toBeGreaterThan(levels[1]!.y);
    const rows = names.map((n) => n.y).sort((a, b) => a - b);
    rows.slice(1).forEach((y, i) => expect(y - rows[i]!).toBeGreaterThanOrEqual(17));
    expect(new Set(lines.map((l) => l.dash)).size).toBe(3);
  });

  it('says in words what it shows, and marks the thresholds', () => {
    const shown = elementsOf(<LearningCurve learners={learners} width={500} height={240} label="Kim: 2.4, 1.1." levels={['half see it', 'half would correct it']} attempt="attempt" unit="ΔE00 left" />);
    expect(shown[0]!.props['aria-label']).toBe('Kim: 2.4, 1.1.');
    const texts = shown.filter((e) => e.type === 'text').map((e) => e.text);
    expect(texts).toEqual(expect.arrayContaining(['0.8', '1.8', 'half see it', 'half would correct it', 'Kim', 'Team 2', 'attempt']));
    expect(shown.filter((e) => e.type === 'circle')).toHaveLength(4);
    expect(shown.filter((e) => e.props['stroke'])).toEqual([]);
  });

  it('keeps every name inside, on a phone too, and cuts what has no room', () => {
    const long = 'Team of the second year, afternoon';
    for (const width of [280, 320, 390, 700]) {
      const { names } = learningLayout([{ name: 'Kim', left: [2, 1] }, { name: long, left: [2.5, 1.6] }, { name: `${long} too`, left: [3] }], width, 240);
      expect(names).toHaveLength(3);
      for (const { text, x, anchor } of names) {
        // A bold letter of 13 px is about 7.5 px wide; measured in Chromium.
        const wide = 7.5 * text.length;
        expect(x + (anchor === 'start' ? wide : wide / 2)).toBeLessThanOrEqual(width);
        expect(x - (anchor === 'start' ? 0 : wide / 2)).toBeGreaterThanOrEqual(0);
      }
      expect(names.find((n) => n.name === 'Kim')!.text).toBe('Kim');
    }
  });

  it('draws one attempt without falling over', () => {
    const { lines } = learningLayout([{ name: 'Kim', left: [2] }], 300, 240);
    expect(lines[0]!.dots.every(({ x, y }) => Number.isFinite(x) && Number.isFinite(y))).toBe(true);
  });
});
