/** Serves the built page on a loopback port, unless TABSIDE_URL names one that is served already. */
import { preview } from 'vite';
import type { TestProject } from 'vitest/node';

declare module 'vitest' {
  interface ProvidedContext {
    address: string;
  }
}

export default async function serve(project: TestProject): Promise<(() => Promise<void>) | undefined> {
  if (process.env['TABSIDE_URL']) {
    project.provide('address', process.env['TABSIDE_URL']);
    return undefined;
  }
  const server = await preview({ preview: { host: '127.0.0.1', port: 4600, strictPort: false }, logLevel: 'error' });
  project.provide('address', server.resolvedUrls!.local[0]!);
  return () => server.close();
}
