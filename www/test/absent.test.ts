import { describe, expect, it } from 'vitest';
import { AbsentError, emptyPicture, sameScene, scaledScene } from '../src/engine/absent';
import { Desk, type OpenPhoto } from '../src/engine/desk';
import type { PhotoInfo, Report, Scene } from '../src/engine/types';
import { FakeWorker } from './fake_worker';

const SCENE: Scene = {
  card: { outline: [[0, 0], [9, 0], [9, 9]], steps: [{ outline: [[1, 1], [2, 1], [2, 2]], lab: [50, 0, 0] }] },
  regions: [{ id: 'a', kind: 'tooth', name: '', outline: [[10, 10], [20, 10], [20, 30]], cervical: [15, 10], incisal: [15, 30] }],
};
const info = { width: 4000, height: 3000 } as PhotoInfo;
const report = { scene: SCENE, readings: [] } as unknown as Report;

describe('a photo that is not here', () => {
  it('has a grey picture of its shape', () => {
    const { width, height, rgba } = emptyPicture(info);
    expect([width, height, rgba.length]).toEqual([96, 72, 4 * 96 * 72]);
    expect([...rgba.slice(0, 4)]).toEqual([118, 118, 118, 255]);
  });

  it('lies in a smaller copy where it lay: the middle of the first pixel is 0, 0', () => {
    const half = scaledScene(SCENE, 0.5);
    // The left edge of the photo, -0.5, is the left edge of the copy.
    expect(scaledScene({ ...SCENE, regions: [{ ...SCENE.regions[0]!, outline: [[-0.5, -0.5], [3999.5, -0.5], [3999.5, 2999.5]] }] }, 0.5).regions[0]!.outline).toEqual([[-0.5, -0.5], [1999.5, -0.5], [1999.5, 1499.5]]);
    expect(half.regions[0]!.incisal).toEqual([7.25, 14.75]);
    expect(half.card!.steps![0]!.outline[0]).toEqual([0.25, 0.25]);
    expect(scaledScene(SCENE, 1)).toBe(SCENE);
  });

  it('has the same scene whatever the order of its keys, and without what says nothing', () => {
    const other = JSON.parse(JSON.stringify({ regions: SCENE.regions.map(({ name: _, ...r }) => r), second_card: null, card: SCENE.card })) as Scene;
    expect(sameScene(SCENE, other)).toBe(true);
    expect(sameScene(SCENE, { ...SCENE, regions: [] })).toBe(false);
  });

  it('gives the kept reading for the kept scene, and nothing else', async () => {
    const desk = new Desk(() => new FakeWorker());
    const photo: OpenPhoto = desk.adopt(null, { name: 'a', print: 'a', info, checks: [], kept: { report, scale: 0 } });
    const wanted = { photo, polarised: null, scene: SCENE, target: undefined, guide: null };
    expect(await desk.read(wanted)).toBe(report);
    await expect(desk.read({ ...wanted, scene: { ...SCENE, regions: [] } })).rejects.toThrow(AbsentError);
    await expect(desk.find(photo)).rejects.toThrow(AbsentError);
    await expect(desk.outlineCard(photo, [1, 1])).rejects.toThrow(AbsentError);
    expect((await desk.preview(photo, 100)).width).toBe(96);
    expect(desk.fileOf(photo)).toBeNull();
  });

  it('may be looked at in a copy, which says nothing of colour', async () => {
    const desk = new Desk(() => new FakeWorker());
    const photo = desk.adopt(new Blob([new Uint8Array([0xff])]), { name: 'a', print: 'a', info, checks: [], kept: { report, scale: 0.5 } });
    await desk.preview(photo, 100);
    await expect(desk.outlineChoices(photo, [1, 1])).rejects.toThrow(AbsentError);
    await expect(desk.glareMap({ photo, polarised: null, scene: SCENE, target: undefined, guide: null }, 10)).rejects.toThrow(AbsentError);
  });
});
