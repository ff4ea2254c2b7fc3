// Chance that can be had again: each step draws from its own row of numbers, so that one that went another
// way changes nothing about those after it.

/** A row of numbers from 0 to below 1 (mulberry32), the same for the same seed and step. */
export function chance(seed, step) {
  let state = (Math.imul(seed ^ 0x9e3779b9, 0x85ebca6b) ^ Math.imul(step + 1, 0xc2b2ae35)) >>> 0;
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
  const below = (most) => Math.floor(next() * most);
  return {
    next,
    below,
    between: (from, to) => from + next() * (to - from),
    oneOf: (list) => list[below(list.length)],
    /** One key of `{ key: weight }`. */
    weighed(weights) {
      const all = Object.entries(weights);
      let left = next() * all.reduce((sum, [, weight]) => sum + weight, 0);
      for (const [key, weight] of all) if ((left -= weight) < 0) return key;
      return all[0][0];
    },
  };
}
