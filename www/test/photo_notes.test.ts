import { beforeEach, describe, expect, it } from 'vitest';
import type { OpenPhoto } from '../src/engine/desk';
import type { Scene } from '../src/engine/types';
import { change, doc, endRun, redoStep, startWith, undoLabel, undoStep } from '../src/state/desk';
import { EMPTY_DOC, readAlike } from '../src/state/doc';
import { chosenNote, moveNote, notes, pinInMiddle, pinning, pinNote, removeNote, startPinning, whereText, writeNote } from '../src/state/notes_edit';
import { MAX_NOTES, MAX_NOTE_TEXT, whereIs, withNote, withNoteAt, withNoteText, withoutNote } from '../src/state/notes_model';
import { status } from '../src/state/status';
import { stageSize, tool, view } from '../src/state/ui';
import { square } from './squares';

const SIZE = { width: 1200, height: 800 };
const SCENE: Scene = {
  card: { outline: square(1000, 600, 100) },
  regions: [{ id: 'tooth-1', kind: 'tooth', name: '21', outline: square(200, 100, 90), cervical: [245, 100], incisal: [245, 190], borders: [0.2, 0.5] }],
};

describe('the model of notes', () => {
  it('gives each its own id, and the next of a removed one’s place', () => {
    const a = withNote([], [10, 10], SIZE)!;
    const b = withNote(a.notes, [20, 20], SIZE)!;
    expect(b.notes.map((n) => n.id)).toEqual(['note-1', 'note-2']);
    expect(withNote(withoutNote(b.notes, 'note-1'), [0, 0], SIZE)!.notes.map((n) => n.id)).toEqual(['note-2', 'note-1']);
  });

  it('keeps pins in the photo and texts within their length', () => {
    const { notes: list } = withNote([], [-30, 900.26], SIZE)!;
    expect(list[0]!.at).toEqual([0, 799]);
    expect(withNoteAt(list, 'note-1', [12.345, 5000], SIZE)[0]!.at).toEqual([12.3, 799]);
    expect(withNoteText(list, 'note-1', 'x'.repeat(999))[0]!.text).toHaveLength(MAX_NOTE_TEXT);
  });

  it('has an end', () => {
    const full = Array.from({ length: MAX_NOTES }, (_, i) => ({ id: `note-${i}`, at: [0, 0] as [number, number], text: '' }));
    expect(withNote(full, [0, 0], SIZE)).toBeNull();
  });

  it('says where a place is: on a third as its borders lie, on the card, beside, or a part of the photo', () => {
    expect([110, 124, 180].map((y) => whereIs(SCENE, [245, y], SIZE))).toEqual(['cervical', 'middle', 'incisal'].map((zone) => ({ on: 'region:tooth-1', zone })));
    expect(whereIs(SCENE, [1050, 650], SIZE)).toEqual({ on: 'card', zone: null });
    expect(whereIs(SCENE, [310, 140], SIZE)).toEqual({ beside: 'region:tooth-1' });
    expect(whereIs(SCENE, [600, 790], SIZE)).toEqual({ column: 1, row: 2 });
    expect(whereIs(SCENE, [1199, 10], SIZE)).toEqual({ column: 2, row: 0 });
  });
});

describe('notes on the desk', () => {
  beforeEach(() => {
    startWith({ ...EMPTY_DOC, photo: { handle: 1, name: 'a.jpg', info: SIZE } as OpenPhoto, scene: SCENE });
    stageSize.value = { width: 600, height: 400 };
    view.value = { k: 0.5, x: 0, y: 0 };
  });

  it('are pinned, written, moved and removed, each a step of undo', () => {
    tool.value = 'tab';
    startPinning();
    expect([pinning.value, tool.value]).toEqual([true, 'look']);
    const id = pinNote([245, 110])!;
    expect([pinning.value, chosenNote.value, status.value]).toEqual([false, id, 'Note 1 pinned on Tooth 21, cervical third. Type its text.']);
    writeNote(id, 'w');
    writeNote(id, 'white spot');
    endRun();
    moveNote(id, [246, 110], 'run 1');
    moveNote(id, [247, 110], 'run 1');
    endRun();
    expect(notes.value).toEqual([{ id, at: [247, 110], text: 'white spot' }]);
    removeNote(id);
    expect([notes.value, chosenNote.value]).toEqual([[], null]);
    const labels = [];
    for (; undoLabel.value !== null; undoStep()) labels.push(undoLabel.value);
    expect(labels).toEqual(['remove a note', 'move a note', 'write a note', 'add a note']);
    for (let i = 0; i < 3; i++) redoStep();
    expect(notes.value).toEqual([{ id, at: [247, 110], text: 'white spot' }]);
  });

  it('can be put in the middle of what is seen, without a tap', () => {
    view.value = { k: 1, x: -300, y: -100 };
    pinInMiddle();
    expect(notes.value[0]!.at).toEqual([599.5, 299.5]);
    expect(whereText([599.5, 299.5])).toBe('in the middle of the photo');
  });

  it('change no reading', () => {
    const before = doc.value;
    pinNote([10, 10]);
    expect(readAlike(before, doc.value)).toBe(true);
    change('x', { target: 'tooth-1' });
    expect(readAlike(before, doc.value)).toBe(false);
  });
});
