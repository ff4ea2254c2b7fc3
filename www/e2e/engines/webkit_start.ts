/** WebKitGTK's driver on a display in memory (Xvfb), with a home of its own that goes when it ends. */
import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { freePort, start, type Started } from './started';

/** The tool bar would not let the window be as narrow as a phone; it is shrunk to nothing. */
const NARROW_TOOL_BAR = 'headerbar, headerbar *, toolbar, toolbar *, entry, button { min-width: 0; min-height: 0; padding: 0; margin: 0; border-width: 0; font-size: 1px }';
/** Larger than every viewport and what the window has around it. */
const SCREEN = '1600x1400x24';

export interface WebKitDriver {
  address: string;
  stop(): Promise<void>;
}

/** It lies beside its library: lib/ARCHITECTURE/webkit2gtk-VERSION, or without the architecture. */
export function miniBrowser(): string {
  const inside = (folder: string) => (existsSync(folder) ? readdirSync(folder, { withFileTypes: true }).filter((e) => e.isDirectory()).map((e) => `${folder}/${e.name}`) : []);
  const folders = inside('/usr/lib');
  const found = [...folders, ...folders.flatMap(inside)].filter((dir) => /\/webkit2gtk-[\d.]+$/.test(dir)).map((dir) => `${dir}/MiniBrowser`);
  const there = found.find((file) => existsSync(file));
  if (!there) throw new Error('WebKitGTK’s MiniBrowser is not there. `cargo xtask setup` installs it (Debian: webkit2gtk-driver).');
  return there;
}

export async function startWebKitDriver(): Promise<WebKitDriver> {
  const started: Started[] = [];
  const home = mkdtempSync(join(tmpdir(), 'tabside-webkit-'));
  const stop = async () => {
    for (const program of started.reverse()) await program.stop();
    rmSync(home, { recursive: true, force: true });
  };
  try {
    mkdirSync(join(home, 'gtk-3.0'));
    writeFileSync(join(home, 'gtk-3.0', 'gtk.css'), NARROW_TOOL_BAR);
    // Xvfb looks for a free display itself and says which.
    const screen = await start('Xvfb', ['-displayfd', '3', '-screen', '0', SCREEN, '-nolisten', 'tcp']);
    started.push(screen);
    const display = await new Promise<string>((told, fail) => {
      screen.says.once('data', (text) => told(String(text).trim()));
      void screen.gone.then(() => fail(new Error('Xvfb ended before it had a display.')));
    });
    const port = await freePort();
    const own = { XDG_CONFIG_HOME: home, XDG_DATA_HOME: home, XDG_CACHE_HOME: home, LANG: 'C.UTF-8', LANGUAGE: 'en' };
    // Its sandbox does not start as root; what it opens is the page under test, from this machine.
    const env = { DISPLAY: `:${display}`, GDK_BACKEND: 'x11', WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS: '1', ...own };
    started.push(await start('WebKitWebDriver', ['-p', String(port)], env));
    return { address: `http://127.0.0.1:${port}`, stop };
  } catch (error) {
    await stop();
    throw error;
  }
}
