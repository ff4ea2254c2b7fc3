/** The engines that are tested: all three, or those that TABSIDE_ENGINES names. */
import { afterAll, beforeAll } from 'vitest';
import { Chromium } from './chromium';
import type { Driver, Size } from './driver';
import { Firefox } from './firefox';
import { WebKit } from './webkit';

const OPEN: Record<string, () => Promise<Driver>> = { chromium: Chromium.open, firefox: Firefox.open, webkit: WebKit.open };

export const ENGINES: readonly (readonly [name: string, open: () => Promise<Driver>])[] = (process.env['TABSIDE_ENGINES'] ?? 'chromium,firefox,webkit').split(',').map((name) => {
  const open = OPEN[name];
  if (!open) throw new Error(`TABSIDE_ENGINES names "${name}"; there are ${Object.keys(OPEN).join(', ')}.`);
  return [name, open] as const;
});

export const SIZES: readonly Size[] = [
  { width: 1180, height: 820 },
  { width: 820, height: 1180 },
  { width: 390, height: 844 },
  { width: 1440, height: 900 },
];
export const sizeName = ({ width, height }: Size): string => `${width} × ${height}`;

/** An engine for the tests around it, as large as a tablet: `driver` once they run. */
export function driven(open: () => Promise<Driver>): { readonly driver: Driver } {
  let driver: Driver | undefined;
  beforeAll(async () => {
    driver = await open();
    await driver.setViewport(SIZES[0]!);
  });
  afterAll(() => driver?.close());
  return {
    get driver() {
      return driver!;
    },
  };
}
