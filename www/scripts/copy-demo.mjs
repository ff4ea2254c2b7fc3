// Puts the demo case where the page can fetch it: photo and swatches as they are, the scene out of its truth file.
import { copyFileSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';

const from = new URL('../../fixtures/demo/', import.meta.url);
const to = new URL('../public/demo/', import.meta.url);

try {
  const { scene } = JSON.parse(readFileSync(new URL('demo.truth.json', from), 'utf8'));
  if (!scene) throw new Error('demo.truth.json has no "scene"');
  mkdirSync(to, { recursive: true });
  for (const name of ['demo.jpg', 'demo.swatches.json']) copyFileSync(new URL(name, from), new URL(name, to));
  writeFileSync(new URL('scene.json', to), `${JSON.stringify(scene, null, 1)}\n`);
} catch (error) {
  console.error(`The demo case could not be copied from fixtures/demo: ${error.message}`);
  process.exitCode = 1;
}
