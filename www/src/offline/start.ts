/**
 * Registers the service worker, once the page stands, and watches for a newer version. Nothing is taken
 * over and nothing reloads by itself.
 */
import { fetchLanguages } from '../state/language';
import { leaveUnasked, newVersion, noticeClosed, programCopy } from '../state/offline';
import type { Answer, Wish } from './talk';

const TAKE_OVER: Wish = 'take-over';
/** A worker that was stopped has to be started first. */
const PATIENCE_MS = 10_000;

/** Reloads when the new version answers for the page: that may be heard before its answer is. */
function takeOver(waiting: ServiceWorker): Promise<Answer> {
  return new Promise((answered, failed) => {
    const { port1, port2 } = new MessageChannel();
    const over = new AbortController();
    const late = setTimeout(() => failed(new Error('no answer')), PATIENCE_MS);
    const reload = () => {
      leaveUnasked();
      location.reload();
    };
    navigator.serviceWorker.addEventListener('controllerchange', reload, { once: true, signal: over.signal });
    port1.onmessage = ({ data }: MessageEvent<Answer>) => {
      clearTimeout(late);
      if (data !== 'taken') over.abort();
      answered(data);
    };
    waiting.postMessage(TAKE_OVER, [port2]);
  });
}

function watch(registration: ServiceWorkerRegistration): void {
  const look = () => {
    if (registration.active) programCopy.value = 'kept';
    const { waiting } = registration;
    // The first one waits for nobody.
    newVersion.value = waiting && registration.active ? () => takeOver(waiting) : null;
  };
  const follow = () => {
    noticeClosed.value = false;
    registration.installing?.addEventListener('statechange', look);
  };
  registration.addEventListener('updatefound', follow);
  follow();
  look();
}

export async function startOffline(): Promise<void> {
  // Not while developing, and only where the browser allows it: https, or this machine.
  if (!import.meta.env.PROD || !('serviceWorker' in navigator)) return;
  // The page first has all that it wants for itself; what it has is not fetched twice.
  await fetchLanguages();
  try {
    // Some test harnesses and private modes give nothing.
    const registration = (await navigator.serviceWorker.register('./sw.js', { updateViaCache: 'none' })) as ServiceWorkerRegistration | undefined;
    if (registration) watch(registration);
  } catch {
    // Storage is shut, or the server has no copy to give: the page goes on without one.
  }
}
