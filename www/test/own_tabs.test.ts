import { describe, expect, it } from 'vitest';
import type { Guide } from '../src/engine/types';
import { draftOf, emptied, emptyTab, faultsOf, guideOf, type Draft } from '../src/state/own_tabs';
import { guideFromJson, guideToJson } from '../src/state/scene_file';
import { faultText } from '../src/state/tab_book';
import { FAKE_GUIDE } from './fake_engine';

const GUIDE: Guide = {
  name: 'Mine',
  source: 'measured',
  tabs: [
    { name: 'A1', lab: [79.5, -1.2, 14], zones: { cervical: [78, 0.5, 17], incisal: [76.25, -2, 9] } },
    { name: 'A2', lab: [76, 0.4, 17] },
  ],
  note: 'n',
};

/** The draft of GUIDE with one text changed. */
const typed = (row: number, zone: 'whole' | 'middle', axis: number, text: string): Draft => {
  const draft = draftOf(GUIDE, 'Mine');
  const tabs = draft.tabs.map((tab, i) => (i === row ? { ...tab, cells: { ...tab.cells, [zone]: tab.cells[zone].map((old, j) => (j === axis ? text : old)) } } : tab));
  return { ...draft, tabs } as Draft;
};
const said = (draft: Draft) => faultsOf(draft).map((fault) => faultText(fault, draft));

describe('the colours of my tabs', () => {
  it('go from a guide into fields and back unchanged, through a file too', () => {
    const draft = draftOf(GUIDE, 'Mine');
    expect(draft.tabs[0]!.cells).toMatchObject({ whole: ['79.5', '-1.2', '14'], middle: ['', '', ''], incisal: ['76.25', '-2', '9'] });
    expect(faultsOf(draft)).toEqual([]);
    expect(guideOf(draft, 'n')).toEqual(GUIDE);
    expect(guideFromJson(guideToJson(guideOf(draft, 'n')))).toEqual(GUIDE);
  });

  it('are measured ones, whatever they were filled from', () => {
    expect(guideOf(draftOf(FAKE_GUIDE, 'My tabs'), '').source).toBe('measured');
  });

  it('may be typed with a comma or a true minus', () => {
    expect(guideOf(typed(0, 'whole', 1, '−1,25'), 'n').tabs[0]!.lab).toEqual([79.5, -1.25, 14]);
  });

  it('leave out tabs that nobody measured', () => {
    const draft = emptied(draftOf(GUIDE, 'Mine'));
    expect(draft.tabs.map((t) => t.name)).toEqual(['A1', 'A2']);
    expect(said(draft)).toEqual(['No tab has a colour yet.']);
    const one: Draft = { ...draft, tabs: [draft.tabs[0]!, ...draftOf(GUIDE, '').tabs.slice(1)] };
    expect(faultsOf(one)).toEqual([]);
    expect(guideOf(one, '').tabs.map((t) => t.name)).toEqual(['A2']);
  });

  it.each([
    ['whole', 0, '29.9', 'Tab A1, whole: L* has to be a number from 30 to 100.'],
    ['whole', 0, '100.1', 'Tab A1, whole: L* has to be a number from 30 to 100.'],
    ['whole', 1, '-11', 'Tab A1, whole: a* has to be a number from −10 to 15.'],
    ['whole', 2, '45.5', 'Tab A1, whole: b* has to be a number from −5 to 45.'],
    ['whole', 2, 'x', 'Tab A1, whole: b* has to be a number from −5 to 45.'],
    ['whole', 2, '', 'Tab A1, whole: b* has to be a number from −5 to 45.'],
  ] as const)('say what is wrong: %s %s “%s”', (zone, axis, text, words) => {
    expect(said(typed(0, zone, axis, text))).toEqual([words]);
  });

  it.each([['whole', 0, '30'], ['whole', 0, '100'], ['whole', 1, '-10'], ['whole', 1, '15'], ['whole', 2, '-5'], ['whole', 2, '45']] as const)(
    'take the ends of the ranges: %s %s “%s”',
    (zone, axis, text) => expect(faultsOf(typed(0, zone, axis, text))).toEqual([]),
  );

  it('say what is missing or double', () => {
    // A third begun and left unfinished.
    expect(said(typed(1, 'middle', 0, '75'))).toEqual([
      'Tab A2, middle: a* has to be a number from −10 to 15.',
      'Tab A2, middle: b* has to be a number from −5 to 45.',
    ]);
    const draft = draftOf(GUIDE, 'Mine');
    const [a1, a2] = [draft.tabs[0]!, draft.tabs[1]!];
    expect(said({ ...draft, tabs: [a1, { ...a2, name: ' A1 ' }] })).toEqual(['There are two tabs A1.', 'There are two tabs A1.']);
    expect(said({ ...draft, tabs: [{ ...a1, name: ' ' }] })).toEqual(['Tab 1 has no name.']);
    expect(said({ ...draft, tabs: [{ ...a1, cells: { ...a1.cells, whole: emptyTab().cells.whole } }] })).toEqual(['Tab A1 has no colour for the whole.']);
  });
});
