// A desk that is started for a test, a browser on it, and what tests ask of both.
import { spawn, spawnSync } from 'node:child_process';
import { createRequire } from 'node:module';
import fs from 'node:fs';
import path from 'node:path';

const [program, project, place] = process.argv.slice(2);
const tools = createRequire(path.join(project, 'build/outside/browser/'));
const { chromium } = tools('playwright-core');
const axe = fs.readFileSync(tools.resolve('axe-core/axe.min.js'), 'utf8');
export const patience = 15_000;  // ms: the program under test is instrumented, and may share its cores

export function check(holds, what) {
  if (!holds) throw new Error(what);
}
export const same = (found, expected, what) => check(found === expected, `${what}: ${JSON.stringify(found)} is not ${JSON.stringify(expected)}`);

/// An empty place of its own.
export function emptyPlace(name) {
  const folder = path.join(place, name);
  fs.rmSync(folder, { recursive: true, force: true });
  fs.mkdirSync(folder, { recursive: true });
  return folder;
}

/// The program by the command line, beside the desk.
export function command(folder, ...words) {
  const run = spawnSync(program, [...words, '--shop', folder], { encoding: 'utf8' });
  check(run.status === 0 || run.status === 1, `ordinatio ${words.join(' ')}: ${run.stderr}`);
  return run.stdout;
}

/// A workshop that keeps a ledger, with what else its shop.toml is to say.
export function newWorkshop(name, more = '') {
  const folder = emptyPlace(name);
  const run = spawnSync(program, ['new', folder], { encoding: 'utf8' });
  check(run.status === 0, `ordinatio new: ${run.stderr}`);
  fs.appendFileSync(path.join(folder, 'shop.toml'), `\n[ledger]\nfile = "workshop.ledger"\n${more}`);
  return folder;
}

process.on('exit', () => Desk.endAll());

export class Desk {
  static opened = [];  // a story that fails leaves its desk running
  static endAll() {
    for (const desk of Desk.opened.splice(0)) desk.process.kill('SIGKILL');
  }
  static async open(folder) {
    const desk = new Desk();
    Desk.opened.push(desk);
    desk.process = spawn(program, ['desk', '--shop', folder, '--no-open'], { stdio: ['ignore', 'pipe', 'inherit'] });
    desk.ended = new Promise((resolve) => desk.process.on('exit', (code, signal) => resolve({ code, signal })));
    let said = '';
    for await (const text of desk.process.stdout) {
      said += text;
      if (said.includes('The address works once')) break;
    }
    desk.first = said.match(/http:\S+/)[0];
    desk.at = new URL(desk.first).origin;
    return desk;
  }
  /// As a power cut takes it.
  async kill() {
    this.process.kill('SIGKILL');
    await this.ended;
  }
  /// As Ctrl+C does; what sanitizers found would be in the exit code.
  async close() {
    this.process.kill('SIGINT');
    const { code } = await this.ended;
    same(code, 0, 'the desk closes');
  }
}

export const openBrowser = () => chromium.launch({ executablePath: '/usr/bin/chromium', args: [
  '--no-sandbox', '--headless', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'] });

/// A page on the desk, which fails the test by its own errors and by anything that it asks of elsewhere.
export async function openPage(browser, desk, options = {}) {
  const context = await browser.newContext({ viewport: { width: 1440, height: 1000 }, acceptDownloads: true, locale: 'en-GB', ...options });
  context.setDefaultTimeout(patience);
  const page = await context.newPage();
  page.wrongs = [];
  page.on('pageerror', (error) => page.wrongs.push(String(error)));
  page.on('request', (request) => {
    if (!request.url().startsWith(desk.at) && !request.url().startsWith('blob:')) page.wrongs.push(`asks elsewhere: ${request.url()}`);
  });
  await page.goto(desk.first);
  await page.waitForSelector('h1');
  return page;
}
export const noWrongs = (page) => same(page.wrongs.join('; '), '', 'errors of the page');

export async function goTo(page, desk, route) {
  await page.goto(`${desk.at}/#/${route}`);
  await page.waitForFunction((hash) => location.hash === hash, `#/${route}`);
  await page.waitForSelector('main h1');
  await page.waitForLoadState('networkidle');
}

/// axe-core 4.14.1: WCAG 2.2, levels A and AA, and its good practice.
export async function judge(page, name) {
  await page.waitForLoadState('networkidle');
  await page.evaluate(axe);
  const { violations } = await page.evaluate(() => axe.run());
  const said = violations.map((one) => `${one.id}: ${one.nodes.map((node) => node.html).slice(0, 3).join(' ')}`).join('\n');
  same(said, '', `axe on ${name}`);
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  check(wide <= 0, `${name} is ${wide} px wider than the screen`);
}

/// Goes on by the Tab key until the focus is on what the selector names: whoever has no mouse comes there, too.
export async function tabTo(page, selector) {
  for (let i = 0; i < 200; ++i) {
    if (await page.evaluate((wanted) => document.activeElement?.matches(wanted), selector)) return;
    await page.keyboard.press('Tab');
  }
  throw new Error(`the Tab key does not lead to ${selector}`);
}
