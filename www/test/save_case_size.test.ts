/** A file that the page could not open again is not handed out. */
import { expect, it, vi } from 'vitest';

const size = { bytes: 0 };
vi.mock('../src/engine/instance', () => import('./fake_desk'));
vi.mock('../src/engine/case_instance', () => ({ caseDesk: { begin: () => {}, write: async () => ({ file: Object.defineProperty(new Blob(), 'size', { value: size.bytes }), case: { photos: [] } }) } }));

const { MAX_FILE_BYTES } = await import('../src/engine/desk');
const { problem } = await import('../src/state/status');
const { saveCase } = await import('../src/state/case/save_case');

it('says what to do instead of saving a file that could not be opened here', async () => {
  const given: number[] = [];
  const save = () => saveCase({ label: 'shelf 3', photos: 'original', passphrase: '' }, (_, file) => (given.push(file.size), 'a.tabside'));
  size.bytes = MAX_FILE_BYTES;
  expect([await save(), problem.value]).toEqual([true, null]);
  size.bytes = MAX_FILE_BYTES + 1;
  expect(await save()).toBe(false);
  expect(given).toEqual([MAX_FILE_BYTES]);
  expect(problem.value).toMatchObject({ title: 'The case could not be saved.', text: expect.stringContaining('could not be opened in the browser again'), advice: 'What is open stays open.' });
});
