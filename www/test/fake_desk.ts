/** A desk whose workers are fakes: `vi.mock('../src/engine/instance', () => import('./fake_desk'))`. */
import { Desk } from '../src/engine/desk';
import { FakeWorker } from './fake_worker';

/** Its workers, the newest last. */
export const made: FakeWorker[] = [];

export const desk = new Desk(() => {
  const worker = new FakeWorker();
  made.push(worker);
  return worker;
});
