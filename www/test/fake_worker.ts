/** A worker that answers with the fake engine, or not at all while it is held. */
import type { WorkerLike } from '../src/engine/client';
import type { Reply, Request } from '../src/worker/protocol';
import { Engine } from './fake_engine';

export class FakeWorker implements WorkerLike {
  onmessage: ((event: MessageEvent<Reply>) => void) | null = null;
  onerror: ((event: ErrorEvent) => void) | null = null;
  readonly received: Request[] = [];
  terminated = false;
  held = false;
  /** Only calls of this name are not answered. */
  heldCall = '';
  /** The next call ends as if the engine had broken down. */
  breakNext = false;
  readonly #engine = new Engine();

  postMessage(asked: { id: number; call: string; args: unknown[] }): void {
    const request = asked as Request;
    this.received.push(request);
    // What takes no time is not what is waited for.
    if (request.call === 'close' || !(this.held || request.call === this.heldCall)) queueMicrotask(() => void this.#answer(request));
  }

  terminate(): void {
    this.terminated = true;
  }

  async #answer({ id, call, args }: Request): Promise<void> {
    this.#reply({ id, kind: 'phase', phase: 'working' });
    try {
      if (this.breakNext) throw new Error('unreachable');
      const engine = this.#engine as unknown as Record<string, (...args: unknown[]) => unknown>;
      const given = call === 'open' ? [new Uint8Array(await (args[0] as Blob).arrayBuffer())] : args;
      this.#reply({ id, kind: 'value', value: engine[call]!(...given) });
    } catch (error) {
      const broken = error instanceof Error;
      const stated = broken ? { kind: 'internal' as const, message: error.message } : (error as { kind: 'input'; message: string });
      this.#reply({ id, kind: 'error', error: stated, broken });
    }
  }

  #reply(data: Reply): void {
    if (!this.terminated) this.onmessage?.({ data } as MessageEvent<Reply>);
  }
}
