/** What is handed on as a file is the same in every engine: CSV and CGATS letter for letter, the picture in its size. */
import { describe, expect, it } from 'vitest';
import { driven, ENGINES } from './engines';
import { anew, loaded, openDemo } from './job';

interface Saved {
  readonly name: string;
  readonly type: string;
  /** Of a picture its size, else the text. */
  readonly content: string;
}

/** Keeps what the page hands over instead of saving it. */
function keepSaved(): void {
  const kept = window as { saved?: Saved | null };
  let file: Blob | null = null;
  const make = URL.createObjectURL;
  URL.createObjectURL = (blob) => ((file = blob as Blob), make.call(URL, blob));
  HTMLAnchorElement.prototype.click = function () {
    const blob = file!;
    const done = (content: string) => (kept.saved = { name: this.download, type: blob.type, content });
    if (blob.type === 'image/png') void createImageBitmap(blob).then(({ width, height }) => done(`${width} × ${height}`));
    else void blob.text().then(done);
  };
}

const seen = new Map<string, Map<string, string>>();

describe.each(ENGINES)('%s', (name, open) => {
  const at = driven(open);

  async function saved(press: string): Promise<Saved> {
    await at.driver.evaluate(() => void ((window as { saved?: Saved | null }).saved = null));
    await at.driver.click({ button: press });
    await at.driver.waitFor(`${press}: a file`, () => (window as { saved?: Saved | null }).saved != null);
    const file = await at.driver.evaluate(() => (window as { saved?: Saved }).saved!);
    seen.set(press, (seen.get(press) ?? new Map<string, string>()).set(name, file.content.replace(/^CREATED.*$/m, '')));
    return file;
  }

  it('hands on CSV, CGATS and the picture', async () => {
    await anew(at.driver);
    await loaded(at.driver);
    await openDemo(at.driver);
    await at.driver.evaluate(keepSaved);
    await at.driver.click({ button: 'More' });
    expect(await saved('Save the numbers as CSV')).toMatchObject({ name: 'demo photo.csv', type: 'text/csv' });
    await at.driver.click({ button: 'More' });
    const picture = await saved('Save picture with the outlines (PNG)');
    expect(picture).toMatchObject({ name: 'demo photo.outlines.png', type: 'image/png', content: expect.stringMatching(/^1\d{3} × \d{3,4}$/) });
    // Letters are as wide as the engine's own font.
    seen.delete('Save picture with the outlines (PNG)');
    await at.driver.click({ button: 'More' });
    await at.driver.click({ button: 'More ways to save and print' });
    expect((await saved('Save the colours as CGATS text')).content).toContain('LAB_L');
    expect(await at.driver.errors()).toEqual([]);
  });
});

it('is the same everywhere', () => {
  expect([...seen.keys()]).toHaveLength(2);
  for (const [what, byEngine] of seen) expect([what, new Set(byEngine.values()).size]).toEqual([what, 1]);
});
