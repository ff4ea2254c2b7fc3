/** What the renderer says is true of a photo: outlines and colours. */
import { readFileSync } from 'node:fs';
import type { Scene } from '../src/engine/types';
import { fixture } from './desk';

export interface Truth {
  scene: Scene;
  zones: Record<string, Record<string, { lab: [number, number, number] }>>;
}

export const truthOf = (path: string): Truth => JSON.parse(readFileSync(fixture(path), 'utf8')) as Truth;
