// The desk in a browser: each story is a part of the maker's day. Run by ctest: page.mjs PROGRAM PROJECT PLACE
import fs from 'node:fs';
import path from 'node:path';
import { Desk, check, command, emptyPlace, goTo, judge, newWorkshop, noWrongs, openBrowser, openPage, patience, same, tabTo } from './desk.mjs';
import { formStories } from './forms.mjs';
import { loadingStories } from './loading.mjs';
import { moveStories } from './moves.mjs';
import { paperStories } from './papers.mjs';
import { parcelStories } from './parcels.mjs';

const orders = 'Order,Text,Quantity,Design\n2601,"Weir Lane\nQuernby",1,\n2602,The Old Forge,2,\n2603,"Anneli & Tomasz 🎣",1,\n2604,Mill House,two,\n';
const browser = await openBrowser();

async function waitForWork(page) {
  await page.waitForSelector('#work .account, #work .fault');
  check(await page.locator('#work .account').count() === 1, `the work failed: ${await page.textContent('#work')}`);
}

async function openNewWorkshop(folder) {
  const desk = await Desk.open(folder);
  const page = await openPage(browser, desk);
  return { desk, page };
}

const exportFile = (folder, bytes = orders) => {
  const file = path.join(path.dirname(folder), `${path.basename(folder)}.csv`);
  fs.writeFileSync(file, bytes);
  return file;
};

/// The files that the command line makes of the same workshop.
function madeByCommands(folder, copy) {
  fs.cpSync(folder, copy, { recursive: true });
  command(copy, 'day', '--date', '2026-11-25');
  return path.join(copy, 'out/sheets');
}

const stories = {
  ...formStories(browser), ...loadingStories(browser), ...moveStories(browser), ...paperStories(browser), ...parcelStories(browser),
  async 'an empty place becomes a workshop, and an export its sheets, by mouse'() {
    const folder = emptyPlace('by-mouse');
    const { desk, page } = await openNewWorkshop(folder);
    await page.fill('#new-name', 'Quernby Watermill');
    await page.fill('#new-bed-width', '500');
    await page.click('button.main-act');
    await page.setInputFiles('#export', exportFile(folder));
    await page.waitForSelector('svg.plaque path.ink');  // how its orders would come out, by what the columns seem to be
    await page.click('#keep-columns');
    await page.click('#take-in');
    await page.waitForSelector('.rack a');
    const commands = madeByCommands(folder, emptyPlace('by-commands'));
    await page.fill('#day-date', '2026-11-25');
    await page.click('#make-day');
    await waitForWork(page);

    await goTo(page, desk, 'sheet/sheet-001');
    await page.waitForSelector('svg.bed g.pocket path.piece');
    for (const kind of ['svg', 'dxf', 'pdf']) {
      const [download] = await Promise.all([page.waitForEvent('download'), page.click(`a[href*="sheet-001.${kind}"]`)]);
      const bytes = fs.readFileSync(await download.path());
      check(bytes.equals(fs.readFileSync(path.join(commands, `sheet-001.${kind}`))), `sheet-001.${kind} is not what the command line makes`);
    }
    noWrongs(page);
    await page.context().close();
    await desk.close();
  },

  async 'the same by keyboard alone'() {
    const folder = emptyPlace('by-keyboard');
    const { desk, page } = await openNewWorkshop(folder);
    await tabTo(page, '#new-name');
    await page.keyboard.type('Quernby Watermill');
    await page.keyboard.press('Enter');
    await page.waitForSelector('#export');
    const [chooser] = await Promise.all([page.waitForEvent('filechooser'), tabTo(page, '#export').then(() => page.keyboard.press('Enter'))]);
    await chooser.setFiles(exportFile(folder));
    await page.waitForSelector('#keep-columns');
    await tabTo(page, '#keep-columns');
    await page.keyboard.press('Enter');
    await page.waitForSelector('#take-in');
    await tabTo(page, '#take-in');
    await page.keyboard.press('Enter');
    await page.waitForSelector('.rack a');
    await tabTo(page, '#make-day');
    await page.keyboard.press('Enter');
    await waitForWork(page);
    await tabTo(page, 'nav a[href="#/sheets"]');
    await page.keyboard.press('Enter');
    await page.waitForSelector('a[href="#/sheet/sheet-001"]');
    await tabTo(page, 'a[href="#/sheet/sheet-001"]');
    await page.keyboard.press('Enter');
    await page.waitForSelector('svg.bed');
    await tabTo(page, '#book');
    await page.keyboard.press('Enter');
    await page.waitForSelector('#act:not([hidden])');
    check(command(folder, 'list').includes('engraved'), 'what was booked by keyboard is not in the ledger');
    noWrongs(page);
    await page.context().close();
    await desk.close();
  },

  async 'words grow smaller as they grow longer, are saved, undone, and mended where they are held'() {
    const folder = newWorkshop('words');
    command(folder, 'intake', exportFile(folder));
    const { desk, page } = await openNewWorkshop(folder);
    await goTo(page, desk, 'item/2602-1');
    await page.waitForSelector('.plaque-figure svg path.ink');
    const capitals = async () => Number((await page.textContent('.measures')).match(/[\d.]+/)[0]);
    const before = await capitals();
    await page.fill('textarea', 'The Old Forge by the Water, where the Heron stands');
    await page.waitForFunction((was) => Number(document.querySelector('.measures').textContent.match(/[\d.]+/)?.[0] ?? was) < was, before);
    await page.click('#save-words');
    await page.waitForSelector('#act:not([hidden])');
    check(command(folder, 'history', '2602-1').includes('Heron'), 'saved words are not in the ledger');
    await page.locator('#act button').first().click();
    await page.waitForFunction(() => document.querySelector('textarea').value === 'The Old Forge');

    await goTo(page, desk, 'today');
    await page.click('#make-day');
    await waitForWork(page);
    await goTo(page, desk, 'item/2603-1');
    await page.fill('textarea', 'Anneli & Tomasz');
    await page.click('#save-words');
    await page.waitForSelector('#act:not([hidden])');
    check(!command(folder, 'list', '--state', 'held').includes('2603-1'), 'a mended item is held still');
    noWrongs(page);
    await page.context().close();
    await desk.close();
  },

  async 'a misprint is made again, and two windows and a command see one ledger'() {
    const folder = newWorkshop('misprint');
    command(folder, 'intake', exportFile(folder));
    command(folder, 'day', '--no-dxf', '--no-pdf');
    command(folder, 'engraved', 'sheet-001');
    const { desk, page } = await openNewWorkshop(folder);
    const other = await page.context().newPage();
    await other.goto(`${desk.at}/#/sheets`);
    await goTo(page, desk, 'item/2602-1');
    await page.click('#act-wrong');
    await page.fill('#wrong-reason', 'a flake came off');
    await page.click('dialog .grave');
    await page.waitForSelector('#act:not([hidden])');
    command(folder, 'hold', '2603-1', '--reason', 'to be asked', '--yes');
    await other.reload();
    await other.waitForSelector('a[href="#/sheet/remake-002"]');
    await goTo(page, desk, 'item/2603-1');
    check((await page.textContent('main')).includes('to be asked'), 'the page does not see what a command did');
    same(command(folder, 'check').includes('contradict'), false, 'the ledger contradicts itself');
    noWrongs(page);
    await page.context().close();
    await desk.close();
  },

  async 'a desk that is killed while words are typed loses nothing that it said was saved'() {
    const folder = newWorkshop('killed');
    command(folder, 'intake', exportFile(folder));
    const { desk, page } = await openNewWorkshop(folder);
    await goTo(page, desk, 'item/2602-2');
    await page.fill('textarea', 'The Forge');
    await page.click('#save-words');
    await page.waitForSelector('#act:not([hidden])');
    await page.fill('textarea', 'The Forge, half typed');
    await desk.kill();
    await page.context().close();
    const again = await openNewWorkshop(folder);
    await goTo(again.page, again.desk, 'item/2602-2');
    same(await again.page.inputValue('textarea'), 'The Forge', 'the words after the desk was killed');
    await again.page.context().close();
    await again.desk.close();
  },

  async 'every page is good by axe-core, light and dark, narrow and wide, left to right and right to left'() {
    const folder = newWorkshop('judged', '[blanks]\nfile = "blanks.csv"\n');
    fs.writeFileSync(path.join(folder, 'blanks.csv'), `id,width,height\n${[...Array(9).keys()].map((n) => `S-${n + 1},,\n`).join('')}`);
    command(folder, 'intake', exportFile(folder));
    command(folder, 'day', '--no-dxf', '--no-pdf');
    command(folder, 'intake', exportFile(folder, orders.replaceAll('260', '270')));
    const desk = await Desk.open(folder);
    const wide = await openPage(browser, desk);
    const state = await wide.context().storageState();
    await wide.context().close();
    for (const colorScheme of ['light', 'dark']) {
      for (const width of [360, 1440]) {
        const context = await browser.newContext({ viewport: { width, height: 900 }, colorScheme, storageState: state, reducedMotion: 'reduce' });
        const page = await context.newPage();
        page.setDefaultTimeout(patience);
        for (const route of ['today', 'columns', 'item/2702-1', 'item/2603-1', 'sheets', 'sheet/sheet-001', 'pieces', 'stock', 'designs', 'search/Forge', 'proofs', 'board', 'panes', 'faces', 'time', 'plan']) {
          await goTo(page, desk, route);
          await judge(page, `${route}, ${colorScheme}, ${width} px`);
        }
        await context.close();
      }
    }
    const hebrew = await browser.newContext({ viewport: { width: 1440, height: 900 }, storageState: state, locale: 'he-IL' });
    const page = await hebrew.newPage();
    await goTo(page, desk, 'today');
    if (await page.getAttribute('html', 'dir') !== 'rtl') await page.locator('footer button').last().click();
    await page.waitForSelector('html[dir=rtl]');
    await judge(page, 'today, in Hebrew');
    await hebrew.close();
    await desk.close();
  },
};

let failures = 0;
for (const [name, tell] of Object.entries(stories)) {
  if (process.env.STORY && !name.includes(process.env.STORY)) continue;
  const begun = Date.now();
  try {
    await tell();
    console.log(`ok      ${name} (${((Date.now() - begun) / 1000).toFixed(1)} s)`);
  } catch (error) {
    ++failures;
    console.log(`FAILED  ${name}\n${error.stack}`);
    Desk.endAll();
  }
}
await browser.close();
process.exit(failures === 0 ? 0 : 1);
