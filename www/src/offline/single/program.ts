/** In a worker of the single-file edition: the module's bytes, which are the first thing that it is told. */
import { PROGRAM } from './program_message';

export const program = new Promise<ArrayBuffer>((given) => {
  self.addEventListener('message', function first(event: MessageEvent<Record<string, ArrayBuffer>>) {
    const bytes = event.data[PROGRAM];
    if (!bytes) return;
    self.removeEventListener('message', first);
    event.stopImmediatePropagation();
    given(bytes);
  });
});
