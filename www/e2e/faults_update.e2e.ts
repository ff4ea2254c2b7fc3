/** The network goes in the middle of an update: the version that was there works on, whole, and the new one comes later, whole. */
import { afterEach, beforeAll, expect, it } from 'vitest';
import { numbers, openDemo } from './desk';
import { startNet, type Net } from './faults_net';
import { builtFiles, startServer, type Files, type PageServer } from './offline_server';
import { look, MARK, secondVersion, version } from './offline_versions';
import { copyKept, visitor, type Visitor } from './offline_visit';

let [first, second]: Files[] = [];
let server: PageServer;
let net: Net;
let visit: Visitor;
beforeAll(async () => {
  first = await builtFiles();
  second = secondVersion(first);
});
afterEach(async () => {
  await visit?.close();
  await net?.stop();
  await server?.stop();
});

it('lost after some bytes of it, four times over', { timeout: 120_000 }, async () => {
  server = await startServer(first!);
  net = await startNet(server.url);
  // By itself, not by a proxy: the network lies between.
  visit = await visitor({ ...server, url: net.url }, { proxy: undefined } as object);
  const page = await visit.open();
  await copyKept(page);
  await openDemo(page);
  const before = await numbers(page);
  server.serve(second!);
  const worker = second!.get('sw.js')!.length;
  const changed = [...second!].filter(([name, bytes]) => !first!.get(name)?.equals(bytes)).reduce((sum, [, bytes]) => sum + bytes.length, 0);
  for (const share of [-1, 0.05, 0.4, 0.5]) {
    net.loseAfter(share < 0 ? worker / 2 : worker + share * (changed - worker));
    const came = await look(page);
    expect([share, net.lost, ['none', 'redundant'].includes(came)]).toEqual([share, true, true]);
    // Without a network the old one is whole, after a reload too.
    await page.reload();
    expect([share, await version(page)]).toEqual([share, 'first']);
    await openDemo(page);
    expect(await numbers(page)).toEqual(before);
    expect(await page.locator('.new-version').count()).toBe(0);
    net.restore();
  }
  expect(MARK).toContain('second');
  await look(page);
  await page.locator('.new-version').waitFor();
  await Promise.all([page.waitForEvent('load'), page.locator('.new-version').getByRole('button', { name: 'Use it now', exact: true }).click()]);
  expect(await version(page)).toBe('second');
  await openDemo(page);
  expect(await numbers(page)).toEqual(before);
});
