/** A passphrase takes its time to try: meanwhile the dialog can be closed, or ask for another file. */
import { beforeAll, beforeEach, expect, it, vi } from 'vitest';
import { lock } from '../src/state/case/locked';

const opened: string[] = [];
vi.mock('../src/engine/instance', () => import('./fake_desk'));
vi.mock('../src/engine/case_instance', () => ({
  caseDesk: {
    begin: () => {},
    read: async (file: Blob) => {
      opened.push(await file.text());
      throw new Error('no case');
    },
  },
}));

const { dialog } = await import('../src/state/dialogs');
const { problem } = await import('../src/state/status');
const { openCaseFile, unlockWaiting, waitingFile } = await import('../src/state/case/open_case');

let first: Blob;
let second: Blob;
beforeAll(async () => {
  first = await lock(new Blob(['first']), 'lamp');
  second = await lock(new Blob(['second']), 'moss');
});

async function ask(file: Blob, name: string): Promise<void> {
  expect(await openCaseFile(file, name)).toBe(true);
  dialog.value = 'unlockCase';
}

beforeEach(async () => {
  opened.length = 0;
  await ask(first, 'first.tabside');
});

it('opens what the passphrase fits, and says where it does not', async () => {
  expect(await unlockWaiting('moss')).toBe(false);
  expect(waitingFile.value).toMatchObject({ name: 'first.tabside', fault: 'wrongPassphrase' });
  expect(await unlockWaiting('lamp')).toBe(true);
  expect(opened).toEqual(['first']);
});

it.each(['moss', 'lamp'])('leaves the next file its dialog while "%s" is tried for the first', async (passphrase) => {
  const trying = unlockWaiting(passphrase);
  dialog.value = null;
  await ask(second, 'second.tabside');
  expect(await trying).toBe(false);
  expect(waitingFile.value).toMatchObject({ name: 'second.tabside', fault: null });
  expect([opened, problem.value, dialog.value]).toEqual([[], null, 'unlockCase']);
});

it('opens nothing that was given up', async () => {
  const trying = unlockWaiting('lamp');
  dialog.value = 'settings';
  expect(await trying).toBe(false);
  expect([opened, problem.value, dialog.value]).toEqual([[], null, 'settings']);
});
