// A bed is loaded by its loading sheet, made on the sheet's page; a run sheet is read in a browser that knows no desk.
import { execFileSync, spawnSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { Desk, check, command, goTo, judge, newWorkshop, noWrongs, openPage, same, tabTo } from './desk.mjs';

const hostile = '</svg><script>document.title = 1</script>';
const orders = `Order,Text,Quantity\n2601,Weir Lane,1\n2602,The Old Forge,1\n2603,${hostile},1\n`;

function laid(name) {
  const folder = newWorkshop(name);
  fs.writeFileSync(path.join(folder, 'laid.csv'), orders);
  command(folder, 'day', path.join(folder, 'laid.csv'), '--date', '2026-11-25');
  return folder;
}

/// As poppler reads it (Debian: poppler-utils).
const textOf = (pdf) => execFileSync('pdftotext', ['-layout', pdf, '-'], { encoding: 'utf8' });

/// html-validate 10.17.0, its recommended rules.
function judgeMarkup(file) {
  const tool = path.join(process.argv[3], 'build/outside/browser/node_modules/html-validate/bin/html-validate.mjs');
  const said = spawnSync(process.execPath, [tool, '--preset', 'recommended', file], { encoding: 'utf8' });
  check(said.status === 0, `html-validate: ${said.stdout}${said.stderr}`);
}

async function judgeRunSheet(browser, file, viewport, colorScheme) {
  const context = await browser.newContext({ viewport, colorScheme });
  const page = await context.newPage();
  const asked = [];
  page.on('request', (request) => asked.push(request.url()));
  await page.goto(`file://${file}`);
  await judge(page, `the run sheet, ${viewport.width} px, ${colorScheme}`);
  same(asked.length, 1, 'what the run sheet asks for besides itself');
  same(await page.locator('script').count(), 0, 'scripts on the run sheet');
  check((await page.title()).startsWith('Run sheet, 2026-11-25'), 'words of a customer were run');
  check((await page.locator('main').innerText()).includes(hostile), 'the customer’s words are not there as they are');
  const ids = await page.evaluate(() => [...document.querySelectorAll('[id]')].map((node) => node.id));
  same(new Set(ids).size, ids.length, 'ids that are there once');
  await context.close();
}

export const loadingStories = (browser) => ({
  async 'a loading sheet is made by keyboard and downloaded'() {
    const folder = laid('loading');
    const desk = await Desk.open(folder);
    const page = await openPage(browser, desk);
    await goTo(page, desk, 'sheet/sheet-001');
    await tabTo(page, '#loading');
    const [download] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('Enter')]);
    same(download.suggestedFilename(), 'sheet-001-loading.pdf', 'the name of what is downloaded');
    const made = path.join(folder, 'out/loading/sheet-001-loading.pdf');
    check(fs.readFileSync(await download.path()).equals(fs.readFileSync(made)), 'another file is downloaded');
    const text = textOf(made);
    for (const item of ['2601-1/', '2602-1/']) check(text.includes(item), `${item} is not on the loading sheet`);
    await page.waitForFunction(() => document.querySelector('#say').textContent.includes('sheet-001-loading.pdf'));
    noWrongs(page);
    await page.context().close();
    await desk.close();
  },

  async 'a run sheet asks for nothing, runs nothing, and is read by all'() {
    const folder = laid('run-sheet');
    command(folder, 'run-sheet', '--date', '2026-11-25');
    judgeMarkup(path.join(folder, 'out/run-sheet.html'));
    for (const width of [360, 1440]) {
      for (const scheme of ['light', 'dark']) {
        await judgeRunSheet(browser, path.join(folder, 'out/run-sheet.html'), { width, height: 900 }, scheme);
      }
    }
  },
});
