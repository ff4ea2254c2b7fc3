import { describe, expect, it } from 'vitest';
import type { Scene } from '../src/engine/types';
import { sceneFromJson, sceneToJson } from '../src/state/scene_file';
import { words } from '../src/words';

const SCENE: Scene = {
  card: { outline: [[0, 0], [1, 0], [1, 1]], reflectance: 0.18 },
  regions: [{ id: 't', kind: 'tooth', name: '11', outline: [[0, 0], [9.5, 0], [9, 9]], cervical: [1, 0], incisal: [1, 9], borders: [0.3, 0.7] }],
};

const wrong = (change: (s: any) => void): string => {
  const copy = structuredClone(SCENE);
  change(copy);
  try {
    sceneFromJson(JSON.stringify(copy));
  } catch (error) {
    return (error as Error).message;
  }
  return 'accepted';
};

describe('scene files', () => {
  it('come back as they were saved', () => {
    expect(sceneFromJson(sceneToJson(SCENE))).toEqual(SCENE);
  });

  it('keep the card at its second place, how the photo was taken and how the pair was laid', () => {
    const scene: Scene = {
      ...SCENE,
      second_card: { outline: [[5, 5], [6, 5], [6, 6]], lab: [50, 0, 0] },
      cross_polarised: true,
      pair_transform: [[1, 0, 3], [0, 1, -4]],
    };
    expect(sceneFromJson(sceneToJson(scene))).toEqual(scene);
    // What is not said is not written down as said.
    expect(sceneFromJson('{"cross_polarised":false,"second_card":null}')).toEqual({ card: null, regions: [] });
  });

  it('may leave out what has a default', () => {
    expect(sceneFromJson('{}')).toEqual({ card: null, regions: [] });
    expect(sceneFromJson('{"card":null,"regions":[{"id":"x","kind":"tab","outline":[[0,0],[1,0],[1,1]]}]}').regions[0]?.name).toBe('');
  });

  it('drop what is no part of a scene', () => {
    expect(sceneFromJson('{"regions":[],"patient":"somebody"}')).not.toHaveProperty('patient');
  });

  it.each([
    ['json', () => expect(() => sceneFromJson('not json')).toThrow('json')],
    ['scene', () => expect(() => sceneFromJson('[]')).toThrow('scene')],
    ['id', () => expect(wrong((s) => s.regions.push(s.regions[0]))).toBe('id')],
    ['id', () => expect(wrong((s) => (s.regions[0].id = ''))).toBe('id')],
    ['kind', () => expect(wrong((s) => (s.regions[0].kind = 'gum'))).toBe('kind')],
    ['outline', () => expect(wrong((s) => s.regions[0].outline.pop())).toBe('outline')],
    ['outline', () => expect(wrong((s) => (s.regions[0].outline = Array(6000).fill([0, 0])))).toBe('outline')],
    ['point', () => expect(wrong((s) => (s.regions[0].outline[0] = [1, '2']))).toBe('point')],
    ['point', () => expect(wrong((s) => (s.regions[0].outline[0] = [1, 1e300]))).toBe('point')],
    ['card', () => expect(wrong((s) => (s.card.outline = []))).toBe('card')],
    ['lab', () => expect(wrong((s) => (s.card.lab = [1, 2]))).toBe('lab')],
    ['card', () => expect(wrong((s) => (s.second_card = {}))).toBe('card')],
    ['transform', () => expect(wrong((s) => (s.pair_transform = [[1, 0], [0, 1]]))).toBe('transform')],
    ['transform', () => expect(wrong((s) => (s.pair_transform = [[1, 0, null], [0, 1, 0]]))).toBe('transform')],
    ['reflectance', () => expect(wrong((s) => (s.card.reflectance = '18 %'))).toBe('reflectance')],
    ['borders', () => expect(wrong((s) => (s.regions[0].borders = [0.6, 0.65]))).toBe('borders')],
    ['borders', () => expect(wrong((s) => (s.regions[0].borders = [0.6]))).toBe('borders')],
    ['regions', () => expect(wrong((s) => (s.regions = Array(300).fill(s.regions[0])))).toBe('regions')],
  ])('that are wrong in “%s” are refused, and the page has words for it', (part, check) => {
    check();
    expect(words.errors.fileParts[part as keyof typeof words.errors.fileParts]).toBeTruthy();
  });
});
