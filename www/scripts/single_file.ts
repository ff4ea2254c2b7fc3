/**
 * Makes one HTML of a page that was built as one script: styles and script stand in it, allowed by their
 * hash alone; workers, modules and the demo lie in it as blocks of packed base64 (`src/offline/single`).
 */
import { createHash } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { build, type Plugin, type Rolldown } from 'vite';
import { idOf } from '../src/offline/single/pieces.ts';

export const SINGLE = 'tabside.html';

const www = (path: string): string => fileURLToPath(new URL(`../${path}`, import.meta.url));
const src = (path: string): string => www(`src/${path}.ts`);

/** What is not fetched but carried. */
const INSTEAD = new Map(['engine/workers', 'state/demo_files', 'offline/start', 'offline/erase_copy'].map((path) => [src(path), src(`offline/single/${path.split('/').at(-1)}`)]));

/** Each worker with the module that it is given. */
const WORKERS = [
  { name: 'main', entry: src('worker/main'), module: www('pkg/tabside_bg.wasm') },
  { name: 'case', entry: src('worker/case'), module: www('pkg/case/tabside_case_bg.wasm') },
];
const DEMO = ['demo.jpg', 'scene.json', 'demo.swatches.json'];

/** Asks for a file, or for code that is not there. `import.meta` would be an address. */
const ASKS = /\bfetch\s*\(|XMLHttpRequest|\bimport\s*\(|import\.meta|WebSocket|EventSource|sendBeacon|importScripts|serviceWorker/;

const swapped: Plugin = {
  name: 'single-file-instead',
  enforce: 'pre',
  async resolveId(source, importer, options) {
    const found = await this.resolve(source, importer, { ...options, skipSelf: true });
    const other = found && INSTEAD.get(found.id);
    return other ?? found;
  },
  // What Vite wraps around `import()`: here nothing is to be loaded ahead.
  transform: (_, id) => (id.includes('vite/preload-helper') ? 'export const __vitePreload = (load) => load();' : undefined),
};

/** The bindings would fetch their module from beside themselves: they wait for the page to hand it over. */
const handedOver: Plugin = {
  name: 'single-file-module',
  enforce: 'pre',
  transform(code, id) {
    if (!/\/pkg\/.*\.js$/.test(id)) return;
    const changed = code.replace(/new URL\('[^']+\.wasm', import\.meta\.url\)/, 'program').replace('fetch(module_or_path)', 'undefined');
    return `import { program } from ${JSON.stringify(src('offline/single/program'))};\n${changed}`;
  },
};

async function workerScript(entry: string): Promise<string> {
  const made = (await build({
    configFile: false,
    logLevel: 'warn',
    publicDir: false,
    plugins: [handedOver],
    build: { write: false, target: 'es2022', lib: { entry, formats: ['iife'], name: 'tabside' } },
  })) as Rolldown.RolldownOutput | Rolldown.RolldownOutput[];
  return [made].flat()[0]!.output[0].code;
}

function checked(what: string, code: string): string {
  const asks = code.match(ASKS);
  if (asks) throw new Error(`${what} of the single file holds \`${asks[0]}\`: ${code.slice(Math.max(0, asks.index! - 80), asks.index! + 80)}`);
  return code;
}

const hash = (text: string): string => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;
const block = (name: string, bytes: string | Buffer): string => `<script type="text/plain" id="${idOf(name)}">${gzipSync(bytes, { level: 9 }).toString('base64')}</script>`;

async function pieces(): Promise<string[]> {
  const here = WORKERS.filter(({ entry }) => existsSync(entry));
  const workers = await Promise.all(here.map(async ({ name, entry, module }) => [block(`${name}.js`, checked(`the worker ${name}`, await workerScript(entry))), block(`${name}.wasm`, readFileSync(module))]));
  return [...workers.flat(), ...DEMO.map((name) => block(name, readFileSync(www(`public/demo/${name}`))))];
}

/** The built document with everything that it names put into it. */
export function inlined(html: string, script: string, style: string, blocks: readonly string[]): string {
  // Within a script only its end matters; the words stay the same.
  const code = script.replaceAll('</script', '<\\/script');
  if (/<!--|\r/.test(code) || /<\/style|\r/i.test(style)) throw new Error('The single file cannot carry a script or style with `<!--`, `</style` or a carriage return in it.');
  const policy = `default-src 'none'; script-src ${hash(code)} 'wasm-unsafe-eval'; worker-src blob:; style-src ${hash(style)}; img-src blob: data:; connect-src 'none'; base-uri 'none'; form-action 'none'`;
  const icon = `data:image/svg+xml;base64,${readFileSync(www('public/icon.svg')).toString('base64')}`;
  return html
    .replace(/<script\b[^>]*src=[^>]*><\/script>\s*/g, '')
    .replace(/<link rel="(?!icon")[^>]*>\s*/g, '')
    .replace(/(<link rel="icon"[^>]*href=")[^"]*/, (_, before: string) => before + icon)
    .replace(/(http-equiv="Content-Security-Policy" content=")[^"]*/, (_, before: string) => before + policy)
    .replace('</head>', () => `<style>${style}</style>\n  </head>`)
    .replace('</body>', () => `${blocks.join('\n')}\n<script type="module">${code}</script>\n  </body>`);
}

const gather: Plugin = {
  name: 'single-file',
  enforce: 'post',
  generateBundle: {
    order: 'post',
    async handler(_, bundle) {
      const all = Object.values(bundle);
      const scripts = all.flatMap((part) => (part.type === 'chunk' ? [part.code] : []));
      const text = (end: string) => all.flatMap((part) => (part.type === 'asset' && part.fileName.endsWith(end) ? [String(part.source)] : []));
      const [html, styles] = [text('.html'), text('.css')];
      if (scripts.length !== 1 || html.length !== 1 || styles.length !== 1 || all.length !== 3) throw new Error(`The single file is made of one script, one style and one page, not of ${all.map((part) => part.fileName).join(', ')}.`);
      for (const name of Object.keys(bundle)) delete bundle[name];
      this.emitFile({ type: 'asset', fileName: SINGLE, source: inlined(html[0]!, checked('the page', scripts[0]!), styles[0]!, await pieces()) });
    },
  },
};

export const singleFile = (): Plugin[] => [swapped, gather];
