import { defineConfig, type Plugin } from 'vite';

/** The development server injects styles and a socket that the page's policy rightly forbids. */
const policyOnlyWhenBuilt: Plugin = {
  name: 'policy-only-when-built',
  apply: 'serve',
  transformIndexHtml: (html, context) =>
    context.server ? html.replace(/<meta http-equiv="Content-Security-Policy"[^>]*>/, '') : html,
};

export default defineConfig({
  base: './',
  plugins: [policyOnlyWhenBuilt],
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  worker: { format: 'es' },
  build: { target: 'es2022', modulePreload: { polyfill: false }, assetsInlineLimit: 0 },
});
