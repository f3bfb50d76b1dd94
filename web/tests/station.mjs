// Starts the program on a copy of the demo station, and a browser that may ask for nothing else.
import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { copyFile, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';

const root = fileURLToPath(new URL('../..', import.meta.url));
const target = process.env.CARGO_TARGET_DIR ?? join(root, 'target');
export const program = process.env.STATIONWRIGHT_BIN ?? join(target, 'release/stationwright');

/** Why these tests cannot run here; never in CI, where that is a failure. */
export function missing() {
  if (process.env.STATIONWRIGHT_PAGE) return false;
  const why = !existsSync(program) ? `${program} is not built: cargo build --release` : !existsSync('/usr/bin/chromium') ? 'chromium is not installed: apt-get install chromium' : false;
  if (why && process.env.CI) throw new Error(why);
  return why;
}

/** The program on a folder: one of its own with the demo station, or one that stands already. */
export async function serve({ folder, port, keep = false } = {}) {
  const own = folder ?? (await mkdtemp(join(tmpdir(), 'station-')));
  if (!folder) await copyFile(join(root, 'examples/orrenay/station.toml'), join(own, 'station.toml'));
  const child = spawn(program, ['serve', own, '--no-browser', ...(port ? ['--port', String(port)] : [])], {
    stdio: ['ignore', 'pipe', 'inherit'],
    env: { ...process.env, LC_ALL: 'C' }, // the station's own language decides, whatever the machine speaks
  });
  const base = await new Promise((found, failed) => {
    let text = '';
    child.stdout.on('data', (part) => {
      text += part;
      const address = text.match(/http:\/\/127\.0\.0\.1:\d+\//);
      if (address) found(address[0]);
    });
    child.on('exit', (code) => failed(new Error(`the program ended with ${code} before it served: ${text}`)));
  });
  const end = async () => {
    const ended = new Promise((done) => child.once('exit', done));
    child.kill('SIGINT');
    const started = Date.now();
    await ended;
    if (!keep) await rm(own, { recursive: true, force: true });
    return Date.now() - started;
  };
  return { base, folder: own, end };
}

const ARGUMENTS = ['--no-sandbox', '--disable-background-networking', '--disable-component-update', '--disable-sync', '--force-color-profile=srgb'];

/** A browser whose every request and complaint is kept. */
export async function browse(base) {
  const browser = await chromium.launch({ executablePath: '/usr/bin/chromium', args: ARGUMENTS });
  const asked = [];
  const faults = [];
  const open = async (sheet, { width = 1440, height = 1000, dark = false } = {}) => {
    const context = await browser.newContext({ viewport: { width, height }, colorScheme: dark ? 'dark' : 'light', reducedMotion: 'reduce', hasTouch: width < 500 });
    const page = await context.newPage();
    page.on('request', (request) => asked.push(request.url()));
    page.on('console', (message) => message.type() === 'error' && faults.push(message.text()));
    page.on('pageerror', (fault) => faults.push(fault.message));
    await page.goto(`${base}#/${sheet}`);
    await page.waitForSelector('main:not(.waiting) h1', { timeout: 60_000 });
    await page.evaluate(() => document.fonts.ready);
    return page;
  };
  const close = async (page) => page.context().close();
  return { open, close, asked, faults, end: () => browser.close() };
}

/** Waits until the map of the present sheet is painted. */
export async function painted(page) {
  await page.waitForFunction(() => document.querySelector('canvas')?.dataset.painted !== undefined, null, { timeout: 60_000 });
}
