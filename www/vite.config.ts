import { fileURLToPath } from 'node:url';
import { defineConfig, type Plugin, type UserConfig } from 'vite';
import { serviceWorker } from './scripts/service_worker.ts';

/** The development server injects styles and a socket that the page's policy rightly forbids. */
const policyOnlyWhenBuilt: Plugin = {
  name: 'policy-only-when-built',
  apply: 'serve',
  transformIndexHtml: (html, context) =>
    context.server ? html.replace(/<meta http-equiv="Content-Security-Policy"[^>]*>/, '') : html,
};

const STILL = fileURLToPath(new URL('src/stage/no_transition.ts', import.meta.url));

/** What every edition of the page is built with. */
export const SHARED = {
  base: './',
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  // Zooming never animates here; see the file.
  resolve: { alias: { 'd3-transition': STILL, 'd3-interpolate': STILL } },
} satisfies UserConfig;

export default defineConfig({
  ...SHARED,
  plugins: [policyOnlyWhenBuilt, serviceWorker()],
  worker: { format: 'es' },
  build: {
    target: 'es2022',
    modulePreload: { polyfill: false },
    assetsInlineLimit: 0,
    // What the first screen needs is one file, by itself and with all that it imports: it packs best.
    rolldownOptions: { output: { codeSplitting: { groups: [{ name: 'first', test: /[\\/]src[\\/]main\.tsx$/ }] } } },
  },
});
