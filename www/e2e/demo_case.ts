/** The demo case as the page serves it: for taps at known places. */
import type { Point, Scene } from '../src/engine/types';
import { middleOf } from '../src/state/shapes';
import { address } from './browser';

export interface DemoCase {
  photo: { name: string; mimeType: string; buffer: Buffer };
  scene: Scene;
  width: number;
  /** A place inside a region, away from the middle where gloss likes to be. */
  inside(id: string): Point;
  cardMiddle: Point;
}

export async function demoCase(): Promise<DemoCase> {
  const fetched = async (path: string) => Buffer.from(await (await fetch(new URL(path, address()))).arrayBuffer());
  const buffer = await fetched('demo/demo.jpg');
  const scene = JSON.parse((await fetched('demo/scene.json')).toString()) as Scene;
  const card = scene.card!;
  return {
    photo: { name: 'demo.jpg', mimeType: 'image/jpeg', buffer },
    scene,
    width: jpegWidth(buffer),
    inside: (id) => middleOf(scene.regions.find((r) => r.id === id)!.outline),
    cardMiddle: middleOf(card.outline.length ? card.outline : card.steps![0]!.outline),
  };
}

/** From the start-of-frame marker. */
function jpegWidth(bytes: Buffer): number {
  for (let at = 2; at < bytes.length; at += 2 + bytes.readUInt16BE(at + 2)) {
    const marker = bytes[at + 1]!;
    if (marker >= 0xc0 && marker <= 0xc3) return bytes.readUInt16BE(at + 7);
  }
  throw new Error('no frame in the JPEG');
}
