/**
 * The service worker: keeps all files of the built page, so that it works without a network after one
 * visit. A copy is complete and checked byte by byte (`integrity`), or it is not taken: then the one
 * before stays. A newer one waits until the user says so, or until no window of the page is open.
 */
import { clientsClaim, setCacheNameDetails } from 'workbox-core';
import { precacheAndRoute, type PrecacheEntry } from 'workbox-precaching';
import { setCatchHandler } from 'workbox-routing';
import type { Answer, Wish } from './offline/talk';

/** Written in by the build: every file of the page. */
declare const FILES_TO_KEEP: PrecacheEntry[];

/** The part of the worker's own world that is used; the page's types know none of it. */
interface World {
  readonly registration: { readonly scope: string };
  readonly clients: { matchAll(options: { type: 'window'; includeUncontrolled: true }): Promise<readonly { url: string }[]> };
  skipWaiting(): Promise<void>;
  addEventListener(type: 'message', listener: (event: MessageEvent<Wish> & { waitUntil(what: Promise<void>): void }) => void): void;
}
const world = self as unknown as World;

setCacheNameDetails({ prefix: 'tabside' });
// Names without a hash are asked for with whatever behind a question mark.
precacheAndRoute(FILES_TO_KEEP, { directoryIndex: 'index.html', cleanURLs: false, ignoreURLParametersMatching: [/./] });
// Somebody emptied the cache: better from the server than not at all.
setCatchHandler(({ request }) => fetch(request));
// The page that brought it is served by it at once; a newer one comes here only when the user chose it.
clientsClaim();

/** Another window would go on with the old page and the new files. */
async function take(answer: (text: Answer) => void): Promise<void> {
  const windows = await world.clients.matchAll({ type: 'window', includeUncontrolled: true });
  if (windows.filter(({ url }) => url.startsWith(world.registration.scope)).length > 1) return answer('other-windows');
  answer('taken');
  await world.skipWaiting();
}

world.addEventListener('message', (event) => {
  if (event.data === 'take-over') event.waitUntil(take((text) => event.ports[0]?.postMessage(text)));
});
