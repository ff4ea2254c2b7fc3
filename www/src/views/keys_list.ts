/** Every key that the page listens to, by where it acts. What each does is said in the words. */
import type { words } from '../words';

type KeyName = keyof typeof words.keys.texts;

/** Keys by `KeyboardEvent.key`; with + pressed together. Several do the same. */
export interface KeyLine {
  keys: readonly string[];
  does: KeyName;
}

const ARROWS = ['ArrowLeft', 'ArrowRight', 'ArrowUp', 'ArrowDown'] as const;
const withShift = ARROWS.map((key) => `Shift+${key}`);

export const KEY_GROUPS: Record<'photo' | 'marking' | 'handles' | 'laid' | 'page', readonly KeyLine[]> = {
  photo: [
    { keys: ARROWS, does: 'pan' },
    { keys: ['+', '='], does: 'zoomIn' },
    { keys: ['-'], does: 'zoomOut' },
    { keys: ['0'], does: 'fit' },
    { keys: ['1'], does: 'actual' },
    { keys: ['Delete', 'Backspace'], does: 'removeOutline' },
    { keys: ['Escape'], does: 'unselect' },
  ],
  marking: [
    { keys: ARROWS, does: 'moveCross' },
    { keys: withShift, does: 'moveCrossFar' },
    { keys: ['Enter'], does: 'mark' },
    { keys: ['Escape'], does: 'endMarking' },
  ],
  handles: [
    { keys: ARROWS, does: 'nudge' },
    { keys: withShift, does: 'nudgeFar' },
    { keys: ['[', ']'], does: 'nextPoint' },
    { keys: ['Insert'], does: 'addPoint' },
    { keys: ['Delete', 'Backspace'], does: 'removePoint' },
    { keys: ['Escape'], does: 'leaveHandle' },
  ],
  laid: [
    { keys: ARROWS, does: 'lay' },
    { keys: withShift, does: 'layFar' },
    { keys: ['Escape'], does: 'endLaying' },
  ],
  page: [
    { keys: ['Ctrl+z'], does: 'undo' },
    { keys: ['Ctrl+Shift+z', 'Ctrl+y'], does: 'redo' },
    { keys: ['h'], does: 'hide' },
    { keys: ['v'], does: 'pair' },
    { keys: ['?'], does: 'list' },
    { keys: ['ArrowUp', 'ArrowDown'], does: 'number' },
    { keys: ['Escape'], does: 'close' },
  ],
};

/** As it is printed on keyboards. */
const SIGNS: Record<string, string> = { ArrowLeft: '←', ArrowRight: '→', ArrowUp: '↑', ArrowDown: '↓', '-': '−' };

export const signOf = (key: string): string => SIGNS[key] ?? (/^[a-z]$/.test(key) ? key.toUpperCase() : key);
