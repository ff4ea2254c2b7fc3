import { describe, expect, it } from 'vitest';
import { LadderAxis, LadderLane } from '../src/charts/ladder_lane';
import { ladderEnd, ladderMarks, ladderScale, shownRungs } from '../src/charts/ladder_layout';
import type { Rung, RungBasis } from '../src/engine/types';
import { LadderList } from '../src/views/ladder_list';
import { words } from '../src/words';
import { elementsOf, textOf } from './vnodes';

const rung = (name: string, delta_e_00: number, basis: RungBasis = 'in_photo'): Rung => ({
  name, delta_e_00, delta_l: 0, delta_c: 0, delta_h: 0, words: '', verdict: 'accepted', basis,
});

const TABS = [rung('A2', 0.5), rung('D2', 0.9, 'published'), rung('A1', 1.0), rung('B2', 1.1, 'published'), rung('A3', 2.6), rung('C4', 8, 'published')];

describe('a ladder', () => {
  it('places tabs by their difference, nearest left', () => {
    const marks = ladderMarks(TABS, 4, 500);
    const x = ladderScale(4, 500);
    for (const mark of marks) expect(mark.x).toBeCloseTo(x(TABS.find((t) => t.name === mark.name)!.delta_e_00));
    expect(marks.map((m) => m.name)).toEqual(['A2', 'D2', 'A1', 'B2', 'A3']);
    expect(marks.map((m) => m.x)).toEqual([...marks.map((m) => m.x)].sort((a, b) => a - b));
    expect(marks[0]).toMatchObject({ nearest: true, inPhoto: true, value: '0.5' });
    expect(marks[1]).toMatchObject({ nearest: false, inPhoto: false });
  });

  it('keeps names in one row apart', () => {
    const crowd = Array.from({ length: 7 }, (_, i) => rung(`A${i}.5`, 1 + i * 0.05));
    const marks = ladderMarks(crowd, 4, 400);
    for (const a of marks) {
      for (const b of marks) {
        if (a !== b && a.row !== null && a.row === b.row) expect(Math.abs(a.x - b.x)).toBeGreaterThan(30);
      }
    }
    expect(marks.filter((m) => m.row !== null).length).toBeGreaterThanOrEqual(3);
  });

  it('always shows the tabs of the photo and of the others only the nearest', () => {
    const many = [...Array.from({ length: 12 }, (_, i) => rung(`P${i}`, i, 'published')), rung('A4', 11.5)];
    const shown = shownRungs(many).map((r) => r.name);
    expect(shown).toContain('A4');
    expect(shown).toHaveLength(7);
  });

  it('has one end for all lanes that leaves both thresholds in view', () => {
    const ladder = (tabs: Rung[]) => ({ region: 't', zone: 'middle' as const, tabs });
    expect(ladderEnd([ladder([rung('A1', 0.2)])])).toBe(3);
    expect(ladderEnd([ladder([rung('A1', 0.2)]), ladder([rung('A1', 5.1)])])).toBe(6);
    expect(ladderEnd([ladder([rung('A1', 40)])])).toBe(12);
    expect(ladderEnd([])).toBe(3);
  });

  it('says of which tabs it cannot tell the order, in words', () => {
    // Of the nearest itself it is true as well, and not worth saying.
    const tabs = [{ ...rung('A2', 0.5), alike: true }, { ...rung('B2', 0.6), alike: true }, rung('A3', 2)];
    const shown = elementsOf(<LadderList ladder={{ region: 't', zone: 'middle', tabs, note: 'A2 and B2 cannot be told apart here' }} />);
    expect(shown.some((e) => e.type === 'p' && e.text === 'A2 and B2 cannot be told apart here')).toBe(true);
    const rows = shown.filter((e) => e.type === 'tr').slice(1);
    expect(rows.map((row) => textOf(row.props.children).includes(words.sheet.ladder.alike))).toEqual([false, true, false]);
  });

  it('marks 0.8 and 1.8 by place and in words, and no verdict by colour', () => {
    const x = ladderScale(4, 500);
    const lane = elementsOf(<LadderLane tabs={TABS} end={4} width={500} label="Middle" />);
    const threshold = lane.find((e) => e.props['class'] === 'threshold');
    expect(threshold?.props['d']).toContain(`M${x(0.8)} `);
    expect(threshold?.props['d']).toContain(`M${x(1.8)} `);
    expect(lane.every((e) => e.props['fill'] === undefined && e.props['stroke'] === undefined)).toBe(true);
    const axis = elementsOf(<LadderAxis end={4} width={500} seen="half see it" accept="half would correct it" />);
    expect(axis.map((e) => e.text)).toEqual(expect.arrayContaining(['0.8 half see it', '1.8 half would correct it']));
  });
});
