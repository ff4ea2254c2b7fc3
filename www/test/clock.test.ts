import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { effect } from '@preact/signals';
import { clockState, clockText, dried, elapsedMs, resetClock, startClock, stopClock, tick } from '../src/state/clock';
import { scene } from '../src/state/desk';
import { DryingNote } from '../src/views/clock';
import { words } from '../src/words';
import { elementsOf } from './vnodes';

const shown = () => clockText(elapsedMs.value);
/** What the status region says. */
const announced = () => elementsOf(DryingNote()).find((e) => e.props['role'] === 'status')!.text;

beforeEach(() => void vi.useFakeTimers({ now: 1_000_000 }));
afterEach(() => {
  resetClock();
  vi.useRealTimers();
});

describe('the drying clock', () => {
  it('counts seconds from its start, stops, and goes back to nothing', () => {
    expect([clockState.value, shown()]).toEqual(['ready', '0:00']);
    startClock();
    vi.advanceTimersByTime(999);
    expect(shown()).toBe('0:00');
    vi.advanceTimersByTime(1);
    expect(shown()).toBe('0:01');
    vi.advanceTimersByTime(64_000);
    expect([clockState.value, shown()]).toEqual(['running', '1:05']);
    stopClock();
    vi.advanceTimersByTime(30_000);
    expect([clockState.value, shown()]).toEqual(['stopped', '1:05']);
    resetClock();
    expect([clockState.value, shown(), vi.getTimerCount()]).toEqual(['ready', '0:00', 0]);
    startClock();
    expect(shown()).toBe('0:00');
  });

  it('is right after a sleep in which no timer ran', () => {
    startClock();
    vi.advanceTimersByTime(5_000);
    vi.setSystemTime(1_000_000 + 11 * 60_000 + 7_250);
    tick();
    expect(shown()).toBe('11:07');
    // And it ticks on with the whole seconds.
    vi.advanceTimersByTime(750);
    expect(shown()).toBe('11:08');
    // Stopped after another sleep it holds the moment it was stopped, not the last tick.
    vi.setSystemTime(1_000_000 + 20 * 60_000);
    stopClock();
    expect(shown()).toBe('20:00');
  });

  it('does not run backwards when the system’s clock is set back', () => {
    startClock();
    vi.setSystemTime(400_000);
    tick();
    expect(shown()).toBe('0:00');
  });

  it('warns from two minutes on, once', () => {
    const said: string[] = [];
    const stop = effect(() => void said.push(announced()));
    startClock();
    vi.advanceTimersByTime(119_999);
    expect([dried.value, said.filter(Boolean)]).toEqual([false, []]);
    vi.advanceTimersByTime(1);
    expect([dried.value, shown(), said.filter(Boolean)]).toEqual([true, '2:00', [words.clock.warning]]);
    vi.advanceTimersByTime(300_000);
    expect(said.filter(Boolean)).toHaveLength(1);
    resetClock();
    expect(announced()).toBe('');
    stop();
  });

  it('is no part of the scene', () => {
    const before = JSON.stringify(scene.value);
    startClock();
    vi.advanceTimersByTime(3_000);
    expect(JSON.stringify(scene.value)).toBe(before);
  });
});
