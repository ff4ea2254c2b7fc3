/**
 * Figures as `cargo xtask bench` takes them: one line each, its parts parted by tabs, `key=value`. The
 * command prints them for people and makes the table of them.
 */
export const median = (list) => [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)];

const plain = (text) => String(text).replace(/\s+/g, ' ').trim();
const line = (parts) => console.log(['figure', ...Object.entries(parts).flatMap(([key, value]) => (value === undefined ? [] : [`${key}=${plain(value)}`]))].join('\t'));

/**
 * What was measured: `value`, or the median of `values`, in `unit`. With a `reference` ({ name, value }) of
 * the same run the ratio counts and `target` is the most that it may be; without one `target` is in `unit`.
 */
export function figure({ group, measure, unit, value, values, reference, target, note }) {
  const spread = values && values.length > 1 ? `${round(Math.min(...values))}–${round(Math.max(...values))}, ${values.length} times` : undefined;
  line({ group, measure, unit, value: values ? median(values) : value, reference: reference?.name, 'reference-value': reference?.value, target, note: [spread, note].filter(Boolean).join('; ') || undefined });
}

/** What could not be measured, and why. */
export const notMeasured = ({ group, measure, target, why }) => line({ group, measure, target, why });

const round = (v) => (Math.abs(v) < 10 ? v.toFixed(1) : v.toFixed(0));

/** What every script needs from its environment. */
export function needed(...names) {
  const missing = names.filter((name) => !process.env[name]);
  if (missing.length) throw new Error(`${missing.join(', ')} must be set; \`cargo xtask bench\` does.`);
  return names.map((name) => process.env[name]);
}

export const CHROMIUM_ARGS = ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'];
export const executablePath = process.env.TABSIDE_CHROMIUM ?? '/usr/bin/chromium';
