/** One worker that reads photos: what it holds decoded, and the guide it has. */
import type { Calls } from '../worker/protocol';
import { notACopy } from './absent';
import { WorkerClient, type CallOptions, type WorkerLike } from './client';
import type { OpenPhoto, ReadRequest } from './desk';
import type { Files } from './files';
import { Held } from './held';
import type { Guide } from './types';

export class Reader {
  readonly client: WorkerClient<Calls>;
  readonly held: Held;
  /** The guide the worker has; `null` for its default one. */
  #guide: Guide | null = null;

  constructor(makeWorker: () => WorkerLike, files: Files, maxDecoded: number) {
    this.client = new WorkerClient<Calls>(makeWorker, () => {
      this.held.workerLost();
      this.#guide = null;
    });
    this.held = new Held(this.client, files, maxDecoded);
  }

  /** Checks a guide; gives it as the engine understood it. */
  checkGuide(guide: Guide): Promise<Guide> {
    return this.held.inTurn(async () => (this.#guide = await this.client.call('set_guide', [guide])));
  }

  /** Of a reduced copy only what is for the eye can be asked (`forTheEye`). */
  about<T>(photo: OpenPhoto, options: CallOptions | undefined, call: (id: () => number) => Promise<T>, forTheEye = false): Promise<T> {
    return this.held.inTurn(async () => {
      if (!forTheEye) notACopy(photo);
      await this.held.ensure(photo, options);
      return call(() => this.held.id(photo));
    }, options);
  }

  /** The worker has both photos, knows them for a pair, and has the guide. */
  with<T>({ photo, polarised, guide }: ReadRequest, options: CallOptions | undefined, call: (id: () => number) => Promise<T>): Promise<T> {
    const { held } = this;
    return held.inTurn(async () => {
      notACopy(photo);
      await held.ensure(photo, options);
      if (polarised) await held.ensure(polarised, options);
      if (guide !== this.#guide) {
        await this.client.call('set_guide', [guide ?? undefined], options);
        this.#guide = guide;
      }
      const entry = held.entry(photo);
      const partner = polarised && held.id(polarised);
      if (entry.partner !== partner) {
        await this.client.call('pair', () => [held.id(photo), partner], options);
        entry.partner = partner;
      }
      return call(() => held.id(photo));
    }, options);
  }
}
