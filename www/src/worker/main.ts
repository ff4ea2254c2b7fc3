/** The worker that reads photos: the only place that names the engine's bindings. */
import init, { Engine } from '../../pkg/tabside.js';
import type { Answers, CallName } from './protocol';
import { serve, type Told } from './serve';

const loaded = init();
const engine = loaded.then(() => new Engine());

serve<CallName>(engine.then(() => loaded), async (call, args, told) => run(await engine, call, args, told));

async function run(engine: Engine, call: CallName, args: unknown[], told: Told): Promise<unknown> {
  if (call === 'open') {
    told('reading-file');
    const bytes = new Uint8Array(await (args[0] as Blob).arrayBuffer());
    told('decoding');
    return engine.open(bytes);
  }
  if (call === 'memory') return (await loaded).memory.buffer.byteLength;
  told('working');
  const answers: Answers = engine;
  return (answers[call] as (...args: unknown[]) => unknown).apply(engine, args);
}
