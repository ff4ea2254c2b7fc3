/** The demo's files, as they lie beside the page. The single-file edition has them inside (`offline/single`). */
import { words } from '../words';

async function file(name: string): Promise<Response> {
  const response = await fetch(`./demo/${name}`);
  if (!response.ok) throw new Error(words.errors.notFound);
  return response;
}

export const demoPhoto = async (): Promise<Blob> => (await file('demo.jpg')).blob();
export const demoScene = async (): Promise<string> => (await file('scene.json')).text();
export const demoSwatches = async (): Promise<string> => (await file('demo.swatches.json')).text();
