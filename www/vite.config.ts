import { fileURLToPath } from 'node:url';
import { defineConfig, type Plugin } from 'vite';

/** The development server injects styles and a socket that the page's policy rightly forbids. */
const policyOnlyWhenBuilt: Plugin = {
  name: 'policy-only-when-built',
  apply: 'serve',
  transformIndexHtml: (html, context) =>
    context.server ? html.replace(/<meta http-equiv="Content-Security-Policy"[^>]*>/, '') : html,
};

interface Modules {
  getModuleInfo(id: string): { importedIds: readonly string[]; isEntry: boolean } | null;
}

/** What the entry needs before it can run: reached without a dynamic import. */
function reachedFrom(entry: string, modules: Modules): ReadonlySet<string> {
  const reached = new Set([entry]);
  for (const id of reached) modules.getModuleInfo(id)?.importedIds.forEach((next) => reached.add(next));
  return reached;
}

const ENTRY = fileURLToPath(new URL('src/main.tsx', import.meta.url));
const STILL = fileURLToPath(new URL('src/stage/no_transition.ts', import.meta.url));
let first: ReadonlySet<string> | undefined;

/** Few files: the first screen, all that comes after it, and one per language. */
function fileOf(id: string, modules: Modules): string | null {
  // What the tools add has to be there first.
  if (!/[\\/](src|node_modules)[\\/]/.test(id) || id.startsWith('\0')) return 'first';
  const language = /[\\/]words[\\/](\w+)[\\/]/.exec(id)?.[1];
  if (language) return `words-${language}`;
  first ??= reachedFrom(ENTRY, modules);
  return first.has(id) ? 'first' : 'parts';
}

export default defineConfig({
  base: './',
  plugins: [policyOnlyWhenBuilt],
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  // Zooming never animates here; see the file.
  resolve: { alias: { 'd3-transition': STILL, 'd3-interpolate': STILL } },
  worker: { format: 'es' },
  build: {
    target: 'es2022',
    modulePreload: { polyfill: false },
    assetsInlineLimit: 0,
    rolldownOptions: { output: { codeSplitting: { groups: [{ name: fileOf, debugName: 'files' }] } } },
  },
});
