import { beforeEach, describe, expect, it, vi } from 'vitest';
import type { OpenPhoto } from '../src/engine/desk';
import { square } from './squares';

vi.mock('../src/engine/instance', () => import('./fake_desk'));

const { desk, made } = await import('./fake_desk');
const { amend, change, changeScene, doc, photo, redoStep, scene, startWith, undoLabel, undoStep } = await import('../src/state/desk');
const { EMPTY_DOC, EMPTY_SCENE } = await import('../src/state/doc');
const { openDropped, openFiles, openPhoto } = await import('../src/state/open');
const { reading, startReading } = await import('../src/state/reading');
const { busy, problem, status, whileBusy } = await import('../src/state/status');
const { mode } = await import('../src/state/ui');
const add = await import('../src/state/tray/add');
const { incoming, opening } = await import('../src/state/tray/incoming');
const { MAX_PHOTOS, openPhotos } = await import('../src/state/tray/laid');
const { startBehind, trayWork } = await import('../src/state/tray/behind');
const { startTray, trayProblems, trayReports } = await import('../src/state/tray/reports');
const { progress } = await import('../src/state/tray/report_of');
const { mayLose, watchLoss } = await import('../src/state/tray/loss');
const { showLaid, takeOff } = await import('../src/state/tray/show');

const file = (name: string, bytes = [0xff, ...new TextEncoder().encode(name)]) => new File([new Uint8Array(bytes)], name, { type: 'image/jpeg' });
const bad = (name: string) => file(name, [0x00]);
const names = () => openPhotos(doc.value).map((l) => l.photo.name);
const laidPhoto = (name: string): OpenPhoto => doc.value.tray.find((l) => l.photo.name === name)!.photo;
const sent = () => made.at(-1)!.received.at(-1)!.call;
const calls = (call: string) => made.flatMap((w) => w.received).filter((r) => r.call === call).length;
const settledOn = (name: string) => vi.waitFor(() => expect([busy.value, reading.value?.doc.photo?.name, scene.value.regions.length, reading.value?.report.scene]).toEqual([null, name, 4, scene.value]));
const atRest = () => vi.waitFor(() => expect([busy.value, trayWork.value, trayReports.value.size + trayProblems.value.size]).toEqual([null, [], doc.value.tray.length]));

startReading();
startTray();
startBehind();

beforeEach(async () => {
  await vi.waitFor(() => expect([busy.value, opening.value, trayWork.value]).toEqual([null, null, []]));
  startWith(EMPTY_DOC);
  incoming.value = [];
  problem.value = null;
  mode.value = 'reading';
});

describe('opening a photo beside another', () => {
  it('lays the one before on the tray with all that was made of it, and undo brings it back', async () => {
    await openPhoto(file('a.jpg'), 'a.jpg');
    await vi.waitFor(() => expect(scene.value.regions).toHaveLength(4));
    change('note', { notes: [{ id: 'n', at: [1, 2], text: 'chip' }], target: 'tooth-1' });
    const before = doc.value;
    await openPhoto(file('b.jpg'), 'b.jpg');
    expect(names()).toEqual(['a.jpg', 'b.jpg']);
    expect(doc.value).toMatchObject({ notes: [], target: undefined, tray: [{ photo: before.photo, scene: before.scene, notes: before.notes, target: 'tooth-1' }] });
    await vi.waitFor(() => expect(scene.value.regions).toHaveLength(4));
    undoStep();
    undoStep();
    expect(doc.value).toEqual(before);
    redoStep();
    expect(names()).toEqual(['a.jpg', 'b.jpg']);
  });

  it('loses nothing by a file that cannot be opened', async () => {
    await openPhoto(file('a.jpg'), 'a.jpg');
    await vi.waitFor(() => expect(scene.value.regions).toHaveLength(4));
    const before = doc.value;
    await openPhoto(bad('x.jpg'), 'x.jpg');
    expect([doc.value, problem.value?.title]).toEqual([before, 'x.jpg could not be opened. What was open is still here.']);
  });
});

describe('several files at once', () => {
  it('are opened in turn with progress; bad ones are told by name; the first is looked at', async () => {
    const labels: string[] = [];
    const { effect } = await import('@preact/signals');
    const stop = effect(() => void (opening.value && labels.push(`${opening.value.at} of ${opening.value.of}: ${opening.value.name}`)));
    await openFiles([file('a.jpg'), bad('x.pdf'), file('b.jpg'), bad('y.png')]);
    stop();
    expect(labels).toEqual((['1 of 4: a.jpg', '2 of 4: x.pdf', '3 of 4: b.jpg', '4 of 4: y.png']));
    expect(names()).toEqual(['a.jpg', 'b.jpg']);
    expect(mode.value).toBe('photos');
    expect(incoming.value.map((i) => [i.name, i.state, i.why])).toEqual([
      ['x.pdf', 'failed', 'The file is not a picture.'],
      ['y.png', 'failed', 'The file is not a picture.'],
    ]);
    expect(problem.value).toEqual({ title: '2 of 4 files could not be opened.', text: 'x.pdf: The file is not a picture. y.png: The file is not a picture.', advice: 'The others are open.' });
    add.dismiss(incoming.value[0]!);
    expect(incoming.value.map((i) => i.name)).toEqual(['y.png']);
    await atRest();
  });

  it('leave what is looked at where it is, and are one step of undo', async () => {
    await openPhoto(file('a.jpg'), 'a.jpg');
    await vi.waitFor(() => expect(scene.value.regions).toHaveLength(4));
    await openFiles([file('b.jpg'), file('c.jpg'), file('d.jpg')]);
    expect(names()).toEqual(['a.jpg', 'b.jpg', 'c.jpg', 'd.jpg']);
    await atRest();
    undoStep();
    expect(names()).toEqual(['a.jpg']);
    redoStep();
    expect(names()).toEqual(['a.jpg', 'b.jpg', 'c.jpg', 'd.jpg']);
    // What was found meanwhile is there too.
    expect(doc.value.tray.map((l) => l.scene.regions.length)).toEqual([4, 4, 4]);
  });

  it('that still wait are given up by one Cancel; nothing else is lost', async () => {
    await openPhoto(file('a.jpg'), 'a.jpg');
    await settledOn('a.jpg');
    const before = doc.value;
    made.at(-1)!.held = true;
    const adding = openFiles([file('b.jpg'), file('c.jpg'), file('d.jpg')]);
    await vi.waitFor(() => expect([opening.value?.of, opening.value?.name, sent()]).toEqual([3, 'b.jpg', 'open']));
    // Another call waits behind it in the worker that is ended.
    const waiting = desk.preview(before.photo!, 100);
    opening.value!.cancel();
    await adding;
    expect([names(), incoming.value, problem.value, status.value]).toEqual([['a.jpg'], [], null, 'Cancelled: 0 photos opened, 3 left out.']);
    expect((await waiting).width).toBe(60);
    expect(doc.value).toBe(before);
  });

  it('take the scene that was saved under a photo’s name', async () => {
    const json = (name: string, value: unknown) => new File([JSON.stringify(value)], name, { type: 'application/json' });
    const own = { card: { outline: square(0, 0) }, regions: [{ id: 't', kind: 'tooth', name: '11', outline: square(100, 100) }] };
    await openFiles([file('a.jpg'), json('b.scene.json', own), file('b.jpg'), json('other.scene.json', own)]);
    await atRest();
    expect(doc.value.tray[0]!.scene.regions.map((r) => r.name)).toEqual(['11']);
    expect(trayReports.value.get(laidPhoto('b.jpg').handle)!.report.readings).toHaveLength(1);
    // One without its photo is put on none.
    expect(scene.value.regions).toHaveLength(4);
    expect(incoming.value.map((i) => i.name)).toEqual(['other.scene.json']);
  });

  it('are at most as many as there is room for', async () => {
    await openPhoto(file('a.jpg'), 'a.jpg');
    await vi.waitFor(() => expect(scene.value.regions).toHaveLength(4));
    await openFiles(Array.from({ length: MAX_PHOTOS + 2 }, (_, i) => file(`${i}.jpg`)));
    expect(names()).toHaveLength(MAX_PHOTOS);
    expect(problem.value).toEqual({ title: '60 photos are open; there is no room for more.', text: 'Left out: 59.jpg, 60.jpg, 61.jpg.', advice: 'Take off what is not needed, then add them again.' });
    problem.value = null;
    await openPhoto(file('one.jpg'), 'one.jpg');
    expect([names().includes('one.jpg'), problem.value!.title]).toEqual([false, '60 photos are open; there is no room for more.']);
    await atRest();
  });

  it('of which there is one are looked at at once, but laid where the tray is shown', async () => {
    await openDropped([file('a.jpg')]);
    await openDropped([file('b.jpg')]);
    expect(names()).toEqual(['a.jpg', 'b.jpg']);
    mode.value = 'photos';
    await openDropped([file('c.jpg')]);
    expect(names()).toEqual(['a.jpg', 'b.jpg', 'c.jpg']);
    await openFiles([file('d.jpg')]);
    expect([names(), photo.value?.name]).toEqual([['a.jpg', 'b.jpg', 'c.jpg', 'd.jpg'], 'd.jpg']);
    await atRest();
  });
});

describe('a file that is open already', () => {
  it('is not laid again under any name, and that is said', async () => {
    await openFiles([file('a.jpg'), file('b.jpg'), file('copy of a.jpg', [...new Uint8Array(await file('a.jpg').arrayBuffer())])]);
    expect([names(), incoming.value, problem.value, status.value]).toEqual([['a.jpg', 'b.jpg'], [], null, '2 photos opened. copy of a.jpg is already open.']);
    const label = undoLabel.value;
    await add.addPhotos([file('b.jpg'), file('a.jpg')]);
    expect([names(), status.value, undoLabel.value]).toEqual([['a.jpg', 'b.jpg'], 'b.jpg, a.jpg are already open.', label]);
    await atRest();
  });

  it('is looked at when it is opened, with all that was made of it', async () => {
    await openFiles([file('a.jpg'), file('b.jpg')]);
    await atRest();
    const [label, opened] = [undoLabel.value, calls('open')];
    await openPhoto(file('b.jpg'), 'other name.jpg');
    expect([names(), photo.value?.name, scene.value.regions.length, undoLabel.value, calls('open') - opened, status.value]).toEqual([['a.jpg', 'b.jpg'], 'b.jpg', 4, label, 0, 'b.jpg is already open.']);
    await openPhoto(file('b.jpg'), 'b.jpg');
    expect([photo.value?.name, status.value]).toEqual(['b.jpg', 'b.jpg is already open.']);
    // One that was taken off is opened again.
    await takeOff(photo.value!);
    await openPhoto(file('b.jpg'), 'b.jpg');
    expect([names(), photo.value?.name]).toEqual([['a.jpg', 'b.jpg'], 'b.jpg']);
    await atRest();
  });
});

describe('what is lost with the page', () => {
  it('is work on a photo of the user’s, or several photos; not what was found, nor stains', async () => {
    const stop = watchLoss();
    expect(mayLose.value).toBe(false);
    await openPhoto(file('a.jpg'), 'a.jpg');
    await settledOn('a.jpg');
    change('stains', { stains: { ...doc.value.stains } });
    expect(mayLose.value).toBe(false);
    changeScene('edit', (s) => ({ ...s, regions: s.regions.slice(1) }));
    expect(mayLose.value).toBe(true);
    await takeOff(photo.value!);
    expect(mayLose.value).toBe(false);
    await openFiles([file('b.jpg'), file('c.jpg')]);
    expect(mayLose.value).toBe(true);
    await atRest();
    stop();
  });

  it('is never the demo alone', async () => {
    const stop = watchLoss();
    const { openDemo } = await import('../src/state/open');
    const served = vi.spyOn(globalThis, 'fetch').mockImplementation(async (path) => new Response(String(path).endsWith('.jpg') ? file('demo') : JSON.stringify({ card: null, regions: [] })));
    await openDemo();
    served.mockRestore();
    change('note', { notes: [{ id: 'n', at: [1, 2], text: 'chip' }] });
    expect([photo.value?.name, mayLose.value]).toEqual(['demo photo', false]);
    change('guide', { target: 'x' });
    await openPhoto(file('a.jpg'), 'a.jpg');
    await settledOn('a.jpg');
    expect(mayLose.value).toBe(false);
    change('note', { notes: [{ id: 'n', at: [1, 2], text: 'chip' }] });
    expect(mayLose.value).toBe(true);
    await atRest();
    stop();
  });
});

describe('the tray in the background', () => {
  it('is searched and read, one after another', async () => {
    await openFiles([file('a.jpg'), file('b.jpg'), file('c.jpg')]);
    const steps = undoLabel.value;
    await atRest();
    // Also the one that is looked at.
    await settledOn('a.jpg');
    expect(progress()).toEqual({ read: 3, of: 3 });
    expect(doc.value.tray.map((l) => [l.scene.card !== null, l.scene.regions.length, l.proposal.restoration])).toEqual([[true, 4, 'tooth-2'], [true, 4, 'tooth-2']]);
    for (const [handle, { laid, report }] of trayReports.value) {
      expect([laid.photo.handle, report.readings.length, report.scene]).toEqual([handle, 4, laid.scene]);
    }
    // No step of undo came from it.
    expect(undoLabel.value).toBe(steps);
  });

  it('waits while the photo that is looked at needs the worker', async () => {
    await openFiles([file('a.jpg'), file('b.jpg')]);
    await atRest();
    let done!: () => void;
    const looked = whileBusy('work', () => new Promise<void>((resolve) => (done = resolve)));
    change('guide', { guide: { ...(await desk.defaultGuide()), name: 'Own' } });
    await new Promise((wait) => setTimeout(wait, 250));
    expect([trayReports.value.size, trayWork.value]).toEqual([0, []]);
    done();
    await looked;
    await atRest();
    expect(trayReports.value.size).toBe(1);
  });

  it('reads again only what changed: scene, target or guide', async () => {
    await openFiles([file('a.jpg'), file('b.jpg'), file('c.jpg')]);
    await atRest();
    const before = calls('read');
    changeScene('edit', (s) => ({ ...s, regions: s.regions.slice(1) }));
    await atRest();
    expect(calls('read') - before).toBe(1);
    amend((d) => ({ ...d, tray: d.tray.map((l) => (l.photo.name === 'b.jpg' ? { ...l, target: 'tooth-1' } : l)) }));
    expect(trayReports.value.size).toBe(1);
    await atRest();
    expect(calls('read') - before).toBe(2);
    change('guide', { guide: { ...(await desk.defaultGuide()), name: 'Own' } });
    await atRest();
    expect(calls('read') - before).toBe(5);
  });

  it('keeps what is wrong with one photo beside it, and goes on', async () => {
    await openFiles([file('a.jpg'), file('b.jpg'), file('c.jpg')]);
    await atRest();
    made.at(-1)!.breakNext = true;
    amend((d) => ({ ...d, tray: d.tray.map((l) => ({ ...l, target: 'tooth-1' })) }));
    await atRest();
    expect([...trayProblems.value]).toEqual([[laidPhoto('b.jpg').handle, 'unreachable']]);
    expect([...trayReports.value.keys()]).toEqual([laidPhoto('c.jpg').handle]);
  });

  it('does not put back what was taken out on purpose', async () => {
    await openPhoto(file('a.jpg'), 'a.jpg');
    await vi.waitFor(() => expect(scene.value.regions).toHaveLength(4));
    undoStep();
    expect(scene.value).toEqual(EMPTY_SCENE);
    await openPhoto(file('b.jpg'), 'b.jpg');
    await atRest();
    change('guide', { guide: { ...(await desk.defaultGuide()), name: 'Own' } });
    await atRest();
    expect(doc.value.tray[0]!.scene).toEqual(EMPTY_SCENE);
    expect(trayReports.value.size).toBe(1);
  });

  it('searches what was laid before its search was done', async () => {
    made.at(-1)!.heldCall = 'find';
    await openPhoto(file('a.jpg'), 'a.jpg');
    await vi.waitFor(() => expect(sent()).toBe('find'));
    busy.value!.cancel();
    // It is read as it is, without anything.
    await vi.waitFor(() => expect(reading.value?.report.scene).toBe(EMPTY_SCENE));
    await openPhoto(file('b.jpg'), 'b.jpg');
    await vi.waitFor(() => expect(doc.value.tray.map((l) => l.scene.regions.length)).toEqual([4]));
    await atRest();
    expect(trayReports.value.get(laidPhoto('a.jpg').handle)!.report.readings).toHaveLength(4);
  });

  it('looks for things once, though the photo is looked at meanwhile', async () => {
    await openFiles([file('a.jpg'), file('b.jpg')]);
    await vi.waitFor(() => expect(trayWork.value[0]?.doing).toBe('find'));
    const before = calls('find');
    await showLaid(laidPhoto('b.jpg'));
    await vi.waitFor(() => expect(scene.value.regions).toHaveLength(4));
    await atRest();
    expect([photo.value!.name, calls('find') - before]).toEqual(['b.jpg', 0]);
  });
});

describe('looking at another photo', () => {
  it('is no step of undo, and loses nothing that was done in either', async () => {
    await openFiles([file('a.jpg'), file('b.jpg'), file('c.jpg')]);
    await atRest();
    const label = undoLabel.value;
    changeScene('edit a', (s) => ({ ...s, regions: s.regions.slice(1) }));
    await showLaid(laidPhoto('b.jpg'));
    expect([names(), undoLabel.value]).toEqual([['a.jpg', 'b.jpg', 'c.jpg'], 'edit a']);
    // Its numbers stand at once.
    expect(reading.value?.doc.photo?.name).toBe('b.jpg');
    changeScene('edit b', (s) => ({ ...s, regions: s.regions.slice(2) }));
    await showLaid(laidPhoto('a.jpg'));
    const counts = () => Object.fromEntries(openPhotos(doc.value).map((l) => [l.photo.name, l.scene.regions.length]));
    expect(counts()).toEqual({ 'a.jpg': 3, 'b.jpg': 2, 'c.jpg': 4 });
    undoStep();
    expect(counts()).toEqual({ 'a.jpg': 3, 'b.jpg': 4, 'c.jpg': 4 });
    undoStep();
    expect([counts(), undoLabel.value]).toEqual([{ 'a.jpg': 4, 'b.jpg': 4, 'c.jpg': 4 }, label]);
    redoStep();
    redoStep();
    expect(counts()).toEqual({ 'a.jpg': 3, 'b.jpg': 2, 'c.jpg': 4 });
    await atRest();
  });

  it('keeps to what is there when it is cancelled', async () => {
    await openFiles([file('a.jpg'), file('b.jpg')]);
    await atRest();
    made.at(-1)!.held = true;
    const shown = showLaid(laidPhoto('b.jpg'));
    await vi.waitFor(() => expect([busy.value?.label, sent()]).toEqual(['Opening b.jpg', 'glimpse']));
    busy.value!.cancel();
    await shown;
    expect([photo.value!.name, status.value]).toEqual(['a.jpg', 'Cancelled. Nothing was changed.']);
    await atRest();
  });
});

describe('taking a photo off', () => {
  it('can be undone, whether it was looked at or not', async () => {
    await openFiles([file('a.jpg'), file('b.jpg'), file('c.jpg')]);
    await atRest();
    await takeOff(laidPhoto('b.jpg'));
    expect([names(), status.value]).toEqual([['a.jpg', 'c.jpg'], 'b.jpg was taken off. Undo brings it back.']);
    await takeOff(photo.value!);
    expect([names(), scene.value.regions.length]).toEqual([['c.jpg'], 4]);
    await takeOff(photo.value!);
    expect([names(), scene.value]).toEqual([[], EMPTY_SCENE]);
    for (let i = 0; i < 3; i++) undoStep();
    expect(names()).toEqual(['a.jpg', 'b.jpg', 'c.jpg']);
    await atRest();
    expect((await desk.preview(laidPhoto('b.jpg'), 10)).width).toBe(60);
  });
});
