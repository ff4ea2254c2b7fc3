/** A network between browser and server that can be lost in the middle of a file, and come back. */
import { connect, createServer, type Socket } from 'node:net';
import type { AddressInfo } from 'node:net';

export interface Net {
  readonly url: string;
  /** After so many more bytes from the server nothing comes through any more. */
  loseAfter(bytes: number): void;
  readonly lost: boolean;
  restore(): void;
  stop(): Promise<void>;
}

export async function startNet(to: string): Promise<Net> {
  const target = Number(new URL(to).port);
  const open = new Set<Socket>();
  let left = Infinity;
  const cut = () => open.forEach((socket) => socket.destroy());
  const server = createServer((browser) => {
    if (left <= 0) return void browser.destroy();
    const host = connect(target, '127.0.0.1');
    for (const socket of [browser, host]) {
      open.add(socket);
      socket.on('error', () => {});
      socket.on('close', () => (open.delete(socket), browser.destroy(), host.destroy()));
    }
    browser.on('data', (bytes) => void host.write(bytes));
    host.on('data', (bytes) => {
      browser.write(bytes.subarray(0, Math.min(bytes.length, left)));
      if ((left -= bytes.length) <= 0) setTimeout(cut, 5);
    });
  });
  await new Promise<void>((ready) => server.listen(0, '127.0.0.1', ready));
  return {
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`,
    loseAfter: (bytes) => void (left = bytes),
    get lost() {
      return left <= 0;
    },
    restore: () => void (left = Infinity),
    stop: () => new Promise((done) => (server.close(() => done()), cut())),
  };
}
