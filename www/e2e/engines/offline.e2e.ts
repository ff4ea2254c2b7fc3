/**
 * One visit, then no server, in every engine: the demo gives the same numbers; and after the page has
 * loaded the server hears nothing.
 */
import { afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { builtFiles, startServer, type Files, type PageServer } from '../offline_server';
import { quiet } from '../offline_visit';
import type { Driver } from './driver';
import { driven, ENGINES } from './engines';
import { openDemo, patientBack, patientShown, planShown } from './job';

let files: Files;
let server: PageServer;
beforeAll(async () => void (files = await builtFiles()));
beforeEach(async () => void (server = await startServer(files)));
afterEach(() => server?.stop());

async function job(driver: Driver): Promise<unknown> {
  await openDemo(driver);
  const numbers = await driver.text('.numbers table');
  await planShown(driver);
  const patient = await patientShown(driver);
  await patientBack(driver);
  return { numbers, patient };
}

describe.each(ENGINES)('%s', (_, open) => {
  const at = driven(open);

  it('asks for nothing after it has loaded, and works when the server is gone', async () => {
    await at.driver.goto(server.url);
    await at.driver.waitFor('the copy answers', () => navigator.serviceWorker.controller?.state === 'activated');
    await quiet(server);
    const loaded = server.asked.length;
    expect(server.asked.filter((asked) => !files.has(asked))).toEqual([]);
    const online = await job(at.driver);
    // The browser's own look for a newer service worker.
    expect(server.asked.slice(loaded).filter((asked) => asked !== 'sw.js')).toEqual([]);
    expect(await at.driver.errors()).toEqual([]);
    await server.stop();
    await at.driver.goto(server.url);
    expect(await job(at.driver)).toEqual(online);
    expect(await at.driver.errors()).toEqual([]);
  });
});
