import { describe, expect, it } from 'vitest';
import { inPlace, mapped, MAX_STEPS, push, reachable, redo, seal, startHistory, undo } from '../src/state/history';

const steps = (...values: number[]) => values.reduce((h, v) => push(h, v, `to ${v}`), startHistory(0));

describe('history', () => {
  it('goes back and forth through every step', () => {
    let h = steps(1, 2, 3);
    expect([h.present.value, (h = undo(h)).present.value, (h = undo(h)).present.value, (h = undo(h)).present.value]).toEqual([3, 2, 1, 0]);
    expect(undo(h)).toBe(h);
    expect([(h = redo(h)).present.value, (h = redo(h)).present.value, (h = redo(h)).present.value]).toEqual([1, 2, 3]);
    expect(redo(h)).toBe(h);
  });

  it('drops what was undone once something else is done', () => {
    const h = push(undo(steps(1, 2)), 9, 'to 9');
    expect(redo(h)).toBe(h);
    expect(undo(h).present.value).toBe(1);
  });

  it('makes one step of a run, and a new one after the run was ended', () => {
    let h = steps(1);
    h = push(push(push(h, 2, 'drag', 'a'), 3, 'drag', 'a'), 4, 'drag', 'a');
    expect(undo(h).present.value).toBe(1);
    h = push(seal(h), 5, 'drag', 'a');
    expect(undo(h).present.value).toBe(4);
    // After an undo the same run does not swallow the step that was gone back to.
    expect(undo(push(undo(h), 6, 'drag', 'a')).present.value).toBe(4);
  });

  it('keeps a bounded number of steps', () => {
    let h = startHistory(0);
    for (let i = 1; i <= MAX_STEPS + 50; i++) h = push(h, i, '');
    expect(h.past.length).toBe(MAX_STEPS);
    expect(h.past[0]?.value).toBe(50);
  });

  it('names everything that can come back', () => {
    expect(reachable(undo(steps(1, 2)))).toEqual([1, 0, 2]);
  });

  it('takes another present by the same step, and ends a run there', () => {
    const h = inPlace(push(steps(1), 2, 'drag', 'a'), 7);
    expect([h.present, undo(h).present.value, h.mergeKey]).toEqual([{ value: 7, label: 'drag' }, 1, null]);
    const back = undo(steps(1, 2));
    expect(redo(inPlace(back, 8)).present.value).toBe(2);
  });

  it('has every value as another, wherever it is', () => {
    const h = mapped(undo(steps(1, 2, 3)), (v) => 10 * v);
    expect(reachable(h)).toEqual([20, 0, 10, 30]);
    expect([h.present.label, redo(h).present.label]).toEqual(['to 2', 'to 3']);
  });
});
