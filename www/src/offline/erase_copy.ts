/** Takes the program's copy away: the service worker and its cache. The single-file edition has none (`offline/single`). */

const CACHES = /^tabside-/;

export async function eraseCopy(): Promise<void> {
  // By http from another machine there are neither.
  if ('serviceWorker' in navigator) await (await navigator.serviceWorker.getRegistration())?.unregister();
  if (!('caches' in window)) return;
  for (const name of await caches.keys()) if (CACHES.test(name)) await caches.delete(name);
}
