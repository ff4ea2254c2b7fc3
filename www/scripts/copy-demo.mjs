// Puts the demo case where the page can fetch it: the photo as it is, the scene out of its truth file.
import { copyFileSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';

const from = new URL('../../fixtures/demo/', import.meta.url);
const to = new URL('../public/demo/', import.meta.url);

try {
  const { scene } = JSON.parse(readFileSync(new URL('demo.truth.json', from), 'utf8'));
  if (!scene) throw new Error('demo.truth.json has no "scene"');
  mkdirSync(to, { recursive: true });
  copyFileSync(new URL('demo.jpg', from), new URL('demo.jpg', to));
  writeFileSync(new URL('scene.json', to), `${JSON.stringify(scene, null, 1)}\n`);
} catch (error) {
  console.error(`The demo case could not be copied from fixtures/demo: ${error.message}`);
  process.exitCode = 1;
}
