/** A case is saved and opened again in every engine, with a passphrase too; each engine opens what the others saved. */
import { describe, expect, it } from 'vitest';
import type { Driver } from './driver';
import { driven, ENGINES } from './engines';
import { anew, loaded, openDemo } from './job';

/** Base64 of the files that were saved, by engine. */
const saved = new Map<string, string>();
const PASSPHRASE = 'four plain words here';

async function save(driver: Driver, passphrase: string): Promise<string> {
  // What the page hands to the user is caught on its way.
  await driver.evaluate(() => {
    const caught = window as { handed?: string };
    const make = URL.createObjectURL.bind(URL);
    URL.createObjectURL = (thing: Blob | MediaSource) => {
      if (thing instanceof Blob) {
        const reader = new FileReader();
        reader.onload = () => (caught.handed = String(reader.result).split(',')[1]!);
        reader.readAsDataURL(thing);
      }
      return make(thing);
    };
  });
  await driver.click({ button: 'More' });
  await driver.click({ button: 'Save the case as a file' });
  if (passphrase) await driver.type('.passphrase input', passphrase);
  await driver.click({ button: 'Save the file' });
  await driver.waitFor('the file is handed over', () => (window as { handed?: string }).handed !== undefined);
  return driver.evaluate(() => (window as { handed?: string }).handed!);
}

/** Dropped: what choosing a file comes to. */
const drop = (driver: Driver, base64: string) =>
  driver.evaluate((base64) => {
    const data = new DataTransfer();
    data.items.add(new File([Uint8Array.from(atob(base64), (c) => c.charCodeAt(0))], 'other.tabside'));
    const event = new Event('drop', { bubbles: true, cancelable: true }) as Event & { dataTransfer?: DataTransfer };
    Object.defineProperty(event, 'dataTransfer', { value: data });
    window.dispatchEvent(event);
    return true;
  }, base64);

const sameNumbers = (driver: Driver) =>
  driver.waitFor('the same numbers', () => document.querySelector('.opened-file .outcome')?.textContent?.startsWith('The same numbers: every value'));

describe.each(ENGINES)('%s', (name, open) => {
  const at = driven(open);

  it('saves the demo with a passphrase', async () => {
    await anew(at.driver);
    await loaded(at.driver);
    await openDemo(at.driver);
    saved.set(name, await save(at.driver, PASSPHRASE));
    expect(Buffer.from(saved.get(name)!, 'base64').subarray(0, 8).toString()).toBe('TABSLOCK');
  });

  it('opens it again, and what the engines before saved, with the same numbers', async () => {
    for (const file of saved.values()) {
      await anew(at.driver);
      await loaded(at.driver);
      await drop(at.driver, file);
      await at.driver.type('.passphrase input', PASSPHRASE);
      await at.driver.click({ button: 'Open' });
      await sameNumbers(at.driver);
    }
    expect(await at.driver.errors()).toEqual([]);
  });
});
