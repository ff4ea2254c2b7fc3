import { defineConfig } from 'vite';
import { singleFile } from './scripts/single_file.ts';
import { SHARED } from './vite.config.ts';

// The single-file edition: everything in one HTML, which opens without a server.
export default defineConfig({
  ...SHARED,
  // No address is made from it: there is none to make.
  base: '/',
  plugins: singleFile(),
  publicDir: false,
  build: {
    outDir: '../target/single',
    emptyOutDir: true,
    target: 'es2022',
    modulePreload: false,
    cssCodeSplit: false,
    rolldownOptions: { output: { codeSplitting: false } },
  },
});
