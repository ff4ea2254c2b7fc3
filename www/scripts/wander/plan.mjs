// What is done next: drawn by chance from what can be seen. An action is plain data, as the log has it.
import { POOLS } from './files.mjs';

export const KINDS = {
  click: 40, double: 2, type: 8, choose: 3, drag: 8, sweep: 3, wheel: 3, key: 12, undo: 5, redo: 3, mode: 6, photo: 3, several: 1, broken: 1, other: 1,
  demo: 1, language: 1, resize: 2, newCase: 1, openCase: 2, close: 3, hurry: 2,
};

/** Of several scripts and directions, too long, not numbers, or numbers at their edges. */
export const TEXTS = [
  '', ' ', '11', 'A2', '-1', '0', '1e309', 'NaN', '٣٫١٤', '3,5', '0.0000001', '99999999999999999999', 'Müller-Lüdenscheidt', '歯科技工', 'עברית ‏עם רווח', 'مرحبا 123', '👩🏽‍⚕️🦷', 'a\u0301\u0323\u0327',
  '\u202Egnp.x\u202C', '\u200B\u200D\uFEFF', '<img src=x onerror=alert(1)>', '${1+1}"\'`\\', 'x'.repeat(300), '\ud83d', 'line\nline\ttab', 'İIıi ß ẞ ﬁ', 'constructor', '__proto__',
];
const KEYS = [
  'Tab', 'Tab', 'Tab', 'Shift+Tab', 'Enter', 'Space', 'Escape', 'ArrowLeft', 'ArrowRight', 'ArrowUp', 'ArrowDown', 'Shift+ArrowUp', 'Alt+ArrowLeft', 'Home', 'End', 'PageDown', 'PageUp', 'Delete', 'Backspace',
  'h', 'v', '?', '+', '-', '0', 'a', 'n', 'c', '1', '[', ']', 'Control+y', 'Control+a',
];
export const SIZES = [[1180, 820], [390, 844], [844, 390], [768, 1024], [1440, 900], [320, 568]];

const aTarget = (seen, luck, ...kinds) => {
  const fit = seen.targets.filter(({ kind }) => kinds.includes(kind));
  return fit.length ? luck.oneOf(fit) : null;
};
const aFile = (luck, pool) => ({ pool, n: luck.below(POOLS[pool]) });
const somewhere = (luck) => [luck.next(), luck.next()];

/** `null`: not possible just now. */
const DRAWN = {
  click: (seen, luck) => aTarget(seen, luck, 'button', 'check', 'drag', 'select'),
  double: (seen, luck) => aTarget(seen, luck, 'button', 'drag'),
  type(seen, luck) {
    const target = aTarget(seen, luck, 'text');
    return target && { ...target, text: luck.oneOf(TEXTS), end: luck.oneOf(['', 'Enter', 'Tab', 'Escape']) };
  },
  choose(seen, luck) {
    const target = aTarget(seen, luck, 'select', 'range');
    return target && { ...target, n: luck.below(40) };
  },
  drag(seen, luck) {
    const target = aTarget(seen, luck, 'drag', 'drag', 'range');
    return target && { ...target, by: [luck.below(400) - 200, luck.below(400) - 200], steps: 1 + luck.below(8), escape: luck.below(8) === 0 };
  },
  sweep: (_, luck) => ({ from: somewhere(luck), to: somewhere(luck), steps: 1 + luck.below(10) }),
  wheel: (_, luck) => ({ at: somewhere(luck), by: luck.below(1200) - 600 }),
  key: (_, luck) => ({ key: luck.oneOf(KEYS), times: 1 + luck.below(4) }),
  undo: (_, luck) => ({ key: 'Control+z', times: 1 + luck.below(4) }),
  redo: (_, luck) => ({ key: 'Control+Shift+z', times: 1 + luck.below(4) }),
  mode: (_, luck) => ({ n: luck.below(6) }),
  photo: (_, luck) => ({ files: [aFile(luck, 'photos')] }),
  several: (_, luck) => ({ files: Array.from({ length: 2 + luck.below(3) }, () => aFile(luck, 'photos')) }),
  broken: (_, luck) => ({ files: [aFile(luck, 'broken')] }),
  other: (_, luck) => ({ files: [aFile(luck, 'others')] }),
  demo: () => ({}),
  language: (_, luck) => ({ n: luck.below(3) }),
  resize: (_, luck) => ({ size: luck.oneOf(SIZES) }),
  newCase: () => ({}),
  openCase: (_, luck) => ({ n: luck.below(12) }),
  close: (seen) => (seen.dialog ? {} : null),
  /** Several things at once, with no wait between. */
  hurry(seen, luck) {
    const targets = Array.from({ length: 3 + luck.below(5) }, () => aTarget(seen, luck, 'button', 'check', 'drag')).filter(Boolean);
    return targets.length ? { targets } : null;
  },
};

/** More cases than this are in nobody's way but the walk's: one is removed. */
const MOST_CASES = 12;

export function draw(seen, luck, cases) {
  if (cases > MOST_CASES && luck.below(4) === 0) return { kind: 'removeCase', n: luck.below(MOST_CASES), forGood: luck.below(2) === 0 };
  const kind = luck.weighed(KINDS);
  const { kind: of, ...drawn } = DRAWN[kind](seen, luck) ?? {};
  const filled = Object.keys(drawn).length > 0 || ['demo', 'newCase', 'close'].includes(kind);
  // What a chooser is given, should one open, and whether the user changes his mind.
  const chosen = luck.below(4) === 0 ? null : aFile(luck, luck.weighed({ photos: 6, broken: 1, others: 2 }));
  return filled ? { kind, ...(of && { of }), ...drawn, chosen } : { kind: 'key', ...DRAWN.key(seen, luck), chosen };
}
