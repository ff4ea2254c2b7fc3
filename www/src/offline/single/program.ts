/** In a worker of the single-file edition: its module's bytes are the first thing that it is told; files come as bytes. */
import { PROGRAM, withFiles } from './handed';

export const program = new Promise<ArrayBuffer>((given) => {
  // Before the worker's own listener, which is set later.
  self.addEventListener('message', (event: MessageEvent<Record<string, unknown>>) => {
    const bytes = event.data[PROGRAM];
    if (bytes instanceof ArrayBuffer) {
      event.stopImmediatePropagation();
      given(bytes);
    } else event.data['args'] = withFiles(event.data['args']);
  });
});
