/**
 * What somebody set for this device: surround, language, single keys, and that the tour was seen.
 * Only what was set is kept, in the browser's storage; where that is shut it holds for this visit.
 */
import { computed, effect, signal } from '@preact/signals';

const KEY = 'tabside.settings.1';

export const SURROUNDS = ['dark', 'light', 'device'] as const;
export type Surround = (typeof SURROUNDS)[number];

export interface Settings {
  surround?: Surround;
  /** BCP 47. */
  language?: string;
  /** Keys without Ctrl do nothing outside of the photo: some dictate by voice, some lean on a key. */
  singleKeys?: false;
  tourSeen?: true;
}

type Store = Pick<Storage, 'getItem' | 'setItem'>;

/** Anything else than what is kept here counts as nothing. */
export function settingsFrom(text: string | null): Settings {
  let found: unknown = null;
  try {
    found = JSON.parse(text ?? '');
  } catch {
    return {};
  }
  if (typeof found !== 'object' || found === null) return {};
  const { surround, language, singleKeys, tourSeen } = found as Record<string, unknown>;
  return {
    ...((SURROUNDS as readonly unknown[]).includes(surround) && { surround: surround as Surround }),
    ...(typeof language === 'string' && /^[a-zA-Z]{2,3}(-[a-zA-Z0-9]{2,8})*$/.test(language) && { language }),
    ...(singleKeys === false && { singleKeys }),
    ...(tourSeen === true && { tourSeen }),
  };
}

/** Even to name the storage may be refused. */
const storage = (): Store | undefined => {
  try {
    return globalThis.localStorage;
  } catch {
    return undefined;
  }
};

function kept(): Settings {
  try {
    return settingsFrom(storage()?.getItem(KEY) ?? null);
  } catch {
    return {};
  }
}

export const settings = signal<Settings>(kept());

/** `undefined` forgets what was set. */
export function remember(change: { [K in keyof Settings]?: Settings[K] | undefined }): void {
  const next = Object.fromEntries(Object.entries({ ...settings.peek(), ...change }).filter(([, value]) => value !== undefined)) as Settings;
  settings.value = next;
  try {
    storage()?.setItem(KEY, JSON.stringify(next));
  } catch {
    // Full or shut: it holds for this visit.
  }
}

export const surround = computed<Surround>(() => settings.value.surround ?? 'dark');

/** Pages are dark unless light is asked for. */
export function startSurround(): void {
  const light = matchMedia('(prefers-color-scheme: light)');
  const device = signal(light.matches);
  light.addEventListener('change', ({ matches }) => (device.value = matches));
  effect(() => {
    const shown = surround.value === 'light' || (surround.value === 'device' && device.value) ? 'light' : 'dark';
    document.documentElement.dataset['surround'] = shown;
    const ground = getComputedStyle(document.documentElement).getPropertyValue('--ground');
    for (const meta of document.querySelectorAll('meta[name=theme-color]')) meta.setAttribute('content', ground);
    document.querySelector('meta[name=color-scheme]')?.setAttribute('content', shown);
  });
}
