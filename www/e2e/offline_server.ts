/**
 * A server of the built page that a test can look into: it writes down all that it is asked for, can be
 * silenced, can serve another version, and can spoil files on the way. It is a proxy as well, so that
 * a browser behind it can ask nobody unheard.
 */
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { address } from './browser';

export type Files = ReadonlyMap<string, Buffer>;

const TYPES: Record<string, string> = {
  html: 'text/html; charset=utf-8', js: 'text/javascript; charset=utf-8', css: 'text/css; charset=utf-8', wasm: 'application/wasm', json: 'application/json',
  webmanifest: 'application/manifest+json', svg: 'image/svg+xml', png: 'image/png', jpg: 'image/jpeg',
};

/** The entries of the list that the service worker keeps, as they are written in it. */
const ENTRY = /url:[`"']([^`"']+)/g;

/** All files of the page that is under test, by the service worker's own list. */
export async function builtFiles(): Promise<Files> {
  const get = async (path: string): Promise<Buffer> => {
    const reply = await fetch(new URL(path, address()));
    if (!reply.ok) throw new Error(`${path}: ${reply.status}`);
    return Buffer.from(await reply.arrayBuffer());
  };
  const worker = await get('sw.js');
  const names = [...worker.toString().matchAll(ENTRY)].map(([, name]) => name!);
  if (!names.includes('index.html')) throw new Error('The service worker has no list of files.');
  return new Map([['sw.js', worker], ...(await Promise.all(names.map(async (name) => [name, await get(name)] as const)))]);
}

export interface PageServer {
  /** Where the page is. */
  readonly url: string;
  /** What was asked for, by whomever: paths of the page, whole addresses of anything else. */
  readonly asked: string[];
  serve(files: Files): void;
  /** What a file becomes on the way; `null`: it is not there. */
  spoil(how: ((name: string, bytes: Buffer) => Buffer | null) | null): void;
  /** No connection is taken any more. */
  stop(): Promise<void>;
}

/** The page's own policy and what only a header can say, as a good host sends them, with every file. */
function headers(files: Files): Record<string, string> {
  const [, policy] = files.get('index.html')!.toString().match(/http-equiv="Content-Security-Policy" content="([^"]*)"/)!;
  return { 'Content-Security-Policy': `${policy}; frame-ancestors 'none'`, 'X-Content-Type-Options': 'nosniff', 'Referrer-Policy': 'no-referrer', 'Cache-Control': 'no-cache' };
}

/** `folder` is where on its host the page lies. */
export async function startServer(first: Files, folder = '/'): Promise<PageServer> {
  let files = first;
  let spoil: ((name: string, bytes: Buffer) => Buffer | null) | null = null;
  const asked: string[] = [];
  const answer = (request: IncomingMessage, response: ServerResponse): void => {
    // A proxy is asked by the whole address.
    const target = new URL(request.url!, url);
    if (!target.href.startsWith(url) || request.method !== 'GET') {
      asked.push(`${request.method} ${target.href}`);
      return void response.writeHead(502).end();
    }
    const name = decodeURIComponent(target.pathname.slice(folder.length)) || 'index.html';
    asked.push(name + target.search);
    const found = files.get(name);
    const bytes = found && spoil ? spoil(name, found) : found;
    if (!bytes) return void response.writeHead(404).end();
    response.writeHead(200, { 'Content-Type': TYPES[name.split('.').at(-1)!] ?? 'application/octet-stream', 'Content-Length': bytes.length, ...headers(files) }).end(bytes);
  };
  const server = createServer(answer);
  // What goes by TLS, and every websocket.
  server.on('connect', (request, socket) => (asked.push(`CONNECT ${request.url}`), socket.end('HTTP/1.1 502 Bad Gateway\r\n\r\n')));
  server.on('upgrade', (request, socket) => (asked.push(`UPGRADE ${request.url}`), socket.destroy()));
  await new Promise<void>((ready) => server.listen(0, '127.0.0.1', ready));
  const url = `http://127.0.0.1:${(server.address() as AddressInfo).port}${folder}`;
  return {
    url,
    asked,
    serve: (next) => void (files = next),
    spoil: (how) => void (spoil = how),
    stop: () =>
      new Promise((done) => {
        server.close(() => done());
        server.closeAllConnections();
      }),
  };
}
