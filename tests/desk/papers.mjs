// What is made beside the plaques: proofs with a yes and a no, the board, plans for the saw, the faces; a ledger begun late.
import fs from 'node:fs';
import path from 'node:path';
import { Desk, check, command, emptyPlace, goTo, newWorkshop, noWrongs, openPage, same } from './desk.mjs';

async function onWorkshop(browser, folder, tell) {
  const desk = await Desk.open(folder);
  const page = await openPage(browser, desk);
  await tell(page, desk);
  noWrongs(page);
  await page.context().close();
  await desk.close();
}

async function downloaded(page, link) {
  const [download] = await Promise.all([page.waitForEvent('download'), page.click(link)]);
  return fs.readFileSync(await download.path());
}

const made = (page) => page.waitForSelector('#work .account');

export const paperStories = (browser) => ({
  async 'a proof is made, sent as a picture, and answered by yes and by no'() {
    const folder = newWorkshop('proofs');
    const design = path.join(folder, 'templates/plaque-landscape.toml');
    fs.writeFileSync(design, `approval = true\n${fs.readFileSync(design)}`);
    const orders = path.join(path.dirname(folder), 'proofs.csv');
    fs.writeFileSync(orders, 'Order,Text,Design\n2601,Weir Lane,plaque-landscape\n2602,The Old Forge,plaque-landscape\n');
    command(folder, 'intake', orders);
    await onWorkshop(browser, folder, async (page, desk) => {
      await goTo(page, desk, 'proofs');
      await page.click('#make-proofs');
      await made(page);
      await page.waitForSelector('#yes-2601-1');
      const picture = await downloaded(page, 'a[href*="proof-2601-1.png"]');
      check(picture.equals(fs.readFileSync(path.join(folder, 'out/proofs/proof-2601-1.png'))), 'the picture is another one');
      same(picture.readUInt32BE(16), 1600, 'the width of the picture, as its header says');
      await page.click('#yes-2601-1');
      await page.waitForSelector('#yes-2601-1', { state: 'detached' });
      await page.click('main details summary');
      await page.fill('#no-2602-1', 'Forge with two e');
      await page.press('#no-2602-1', 'Enter');
      await page.waitForSelector('#no-2602-1', { state: 'detached' });
      check(command(folder, 'list', '--state', 'approved').includes('2601-1'), 'the yes is not booked');
      check(command(folder, 'history', '2602-1').includes('The customer says no: Forge with two e'), 'the no is not booked');
      await page.locator('#act button').first().click();
      await page.waitForSelector('#yes-2602-1');
    });
  },

  async 'the board and plans for the saw are seen, and made as by the commands'() {
    const folder = newWorkshop('board'), copy = emptyPlace('board-by-commands');
    fs.cpSync(folder, copy, { recursive: true });
    const panes = path.join(path.dirname(folder), 'panes.csv');
    fs.writeFileSync(panes, 'id,width,height\nP-1,420,330\n');
    await onWorkshop(browser, folder, async (page, desk) => {
      await goTo(page, desk, 'board');
      await page.waitForSelector('svg.board .cut path');
      await page.click('#make-board');
      await page.waitForSelector('a[href*="jig.svg"]');
      command(copy, 'jig');
      check((await downloaded(page, 'a[href*="jig.svg"]')).equals(fs.readFileSync(path.join(copy, 'out/jig/jig.svg'))), 'the board is another one');
      await goTo(page, desk, 'panes');
      await page.setInputFiles('#panes-file', panes);
      await page.waitForSelector('svg.pane .blade');
      command(copy, 'panes', panes);
      check((await downloaded(page, 'a[href*="cutting.pdf"]')).equals(fs.readFileSync(path.join(copy, 'out/panes/cutting.pdf'))), 'the plans are other ones');
      await goTo(page, desk, 'stock');
      await page.waitForSelector('svg.plaque path.ink');  // a stand's underside
    });
  },

  async 'hours and weeks to come are worked out, and the plan is made as by the command'() {
    const folder = newWorkshop('ahead'), copy = emptyPlace('ahead-by-commands');
    const shop = path.join(folder, 'shop.toml');
    fs.writeFileSync(shop, fs.readFileSync(shop, 'utf8').replace('[machine]', '[machine]\nscan_speed = "18000 mm/min"\nscan_pitch = 0.1\nacceleration = "3000 mm/s²"\ntravel_speed = "400 mm/s"')
      + '\n[[stations]]\nname = "engraving"\nrate = "2 an hour"\nbreakage = "5 %"\n');
    const orders = path.join(path.dirname(folder), 'ahead.csv');
    fs.writeFileSync(orders, 'Order,Text,Quantity\n2601,Weir Lane,2\n');
    command(folder, 'intake', orders);
    fs.cpSync(folder, copy, { recursive: true });
    await onWorkshop(browser, folder, async (page, desk) => {
      await goTo(page, desk, 'time');
      await page.fill('#time-pitches', '0.1, 0.2');
      await page.press('#time-pitches', 'Enter');
      await page.waitForFunction(() => document.querySelectorAll('.figures tbody tr').length === 2);
      same(await page.inputValue('#time-pitches'), '0.1, 0.2', 'what was typed');
      await page.fill('#card-size', '80x60');
      await page.fill('#card-speed', '100, 200 mm/s');
      await page.fill('#card-power', '20 to 60 by 20 %');
      await page.click('#make-card');
      await page.waitForSelector('a[href*=".dxf"]');
      await goTo(page, desk, 'plan');
      await page.fill('#plan-plaques', '30');
      await page.fill('#plan-from', '2026-12-01');
      await page.click('#work-out');
      await page.waitForSelector('a[href*="plan.pdf"]');
      check((await page.textContent('.figures')).includes('engraving'), 'the station is not shown');
      command(copy, 'plan', '--plaques', '30', '--from', '2026-12-01');
      check((await downloaded(page, 'a[href*="plan.pdf"]')).equals(fs.readFileSync(path.join(copy, 'out/plan.pdf'))), 'the plan is another one');
    });
  },

  async 'words are seen in every face, and an item is set in another one'() {
    const folder = newWorkshop('faces');
    const orders = path.join(path.dirname(folder), 'faces.csv');
    fs.writeFileSync(orders, 'Order,Text\n2601,Weir Lane\n');
    command(folder, 'intake', orders);
    await onWorkshop(browser, folder, async (page, desk) => {
      await goTo(page, desk, 'faces');
      await page.fill('#face-words', 'Weir');
      await page.press('#face-words', 'Enter');
      await page.waitForFunction(() => document.querySelectorAll('svg.sample').length > 3);
      await goTo(page, desk, 'item/2601-1');
      await page.waitForSelector('.plaque-figure svg path.ink');
      const ink = () => page.getAttribute('.plaque-figure svg .engrave path.ink', 'd');
      const before = await ink();
      await page.selectOption('#set-2601-1-face', 'slab');
      await page.waitForFunction((was) => document.querySelector('.plaque-figure svg .engrave path.ink').getAttribute('d') !== was, before);
      await page.click('#save-words');
      await page.waitForSelector('#act:not([hidden])');
      check(command(folder, 'history', '2601-1').includes('face slab'), 'the face is not in the ledger');
      await goTo(page, desk, 'today');
      await goTo(page, desk, 'item/2601-1');
      same(await page.inputValue('#set-2601-1-face'), 'slab', 'the face that was saved');
      same(await page.textContent('.unsaved'), '', 'nothing is unsaved');
    });
  },

  async 'a workshop that was run from files begins a ledger'() {
    const folder = newWorkshop('files-only');
    const file = path.join(folder, 'shop.toml');
    fs.writeFileSync(file, String(fs.readFileSync(file)).replace('[ledger]\nfile = "workshop.ledger"\n', ''));
    await onWorkshop(browser, folder, async (page, desk) => {
      await goTo(page, desk, 'today');
      await page.click('#begin-ledger');
      await page.waitForSelector('#export');
      check(String(fs.readFileSync(file)).includes('workshop.ledger'), 'shop.toml does not say it');
    });
  },
});
