import { expect, it } from 'vitest';
import { latestOnly } from '../src/state/latest';

it('runs one at a time and of those waiting only the newest', async () => {
  const ran: number[] = [];
  let finish = () => {};
  const ask = latestOnly<number>((n) => {
    ran.push(n);
    return new Promise((resolve) => (finish = resolve));
  });
  ask(1);
  ask(2);
  ask(3);
  expect(ran).toEqual([1]);
  finish();
  await new Promise((r) => setTimeout(r));
  expect(ran).toEqual([1, 3]);
  finish();
  await new Promise((r) => setTimeout(r));
  ask(4);
  expect(ran).toEqual([1, 3, 4]);
});
