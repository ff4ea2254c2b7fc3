/**
 * Programs that a test starts. Each gets a process group of its own and a shell that waits at a pipe:
 * when the pipe closes, because the test is done or because it died in whatever way, the shell ends
 * its own group, and nothing else.
 */
import { spawn, type ChildProcess } from 'node:child_process';
import { existsSync } from 'node:fs';
import { createServer, type AddressInfo } from 'node:net';
import { delimiter, join } from 'node:path';
import type { Readable } from 'node:stream';

const UNTIL_THE_PIPE_CLOSES = '("$@" </dev/null; kill 0) & cat >/dev/null; kill 0';

export interface Started {
  /** What the program writes to its third descriptor. */
  says: Readable;
  /** When it has ended by itself or was stopped. */
  gone: Promise<void>;
  stop(): Promise<void>;
}

export async function start(program: string, args: string[], env: Record<string, string> = {}): Promise<Started> {
  if (!(process.env['PATH'] ?? '').split(delimiter).some((dir) => existsSync(join(dir, program)))) {
    throw new Error(`${program} is not on this machine. \`cargo xtask setup\` installs it, or names its package.`);
  }
  const child: ChildProcess = spawn('sh', ['-c', UNTIL_THE_PIPE_CLOSES, 'sh', program, ...args], {
    env: { ...process.env, ...env },
    stdio: ['pipe', 'ignore', 'ignore', 'pipe'],
    detached: true,
  });
  const gone = new Promise<void>((done) => child.once('exit', () => done()));
  const stop = () => {
    child.stdin!.end();
    return gone;
  };
  return new Promise((done, fail) => {
    child.once('spawn', () => done({ says: child.stdio[3] as Readable, gone, stop }));
    child.once('error', fail);
  });
}

/** A port that is free now; who asks uses it at once. */
export function freePort(): Promise<number> {
  return new Promise((done, fail) => {
    const server = createServer().once('error', fail);
    server.listen(0, '127.0.0.1', () => {
      const { port } = server.address() as AddressInfo;
      server.close(() => done(port));
    });
  });
}
