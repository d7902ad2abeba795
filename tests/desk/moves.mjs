// An item of a sheet is moved: by mouse, by finger, by keyboard; the files are the same, to the byte, as the command's.
import fs from 'node:fs';
import path from 'node:path';
import { Desk, check, command, emptyPlace, goTo, judge, newWorkshop, noWrongs, openPage, same, tabTo } from './desk.mjs';

const orders = 'Order,Text,Quantity\n2601,Weir Lane,1\n2602,The Old Forge,1\n2603,Mill House,1\n';

/// A workshop of nine measured pieces with three items in pockets 1 to 3 of sheet-001, and another that is the same.
function laidTwice(name) {
  const folder = newWorkshop(name, '[blanks]\nfile = "blanks.csv"\n');
  fs.writeFileSync(path.join(folder, 'blanks.csv'), `id,width,height\n${[...Array(9).keys()].map((n) => `S-${n + 1},,\n`).join('')}`);
  fs.writeFileSync(path.join(folder, 'moved.csv'), orders);
  command(folder, 'day', path.join(folder, 'moved.csv'), '--date', '2026-11-25');
  const copy = emptyPlace(`${name}-by-commands`);
  fs.cpSync(folder, copy, { recursive: true });
  return { folder, copy };
}

const filesOf = (folder) => Object.fromEntries(fs.readdirSync(path.join(folder, 'out/sheets'), { withFileTypes: true })
  .filter((one) => one.isFile()).map(({ name }) => [name, fs.readFileSync(path.join(folder, 'out/sheets', name), 'latin1')]));
function sameFiles(folder, copy, what) {
  const [found, expected] = [filesOf(folder), filesOf(copy)];
  same(Object.keys(found).join(), Object.keys(expected).join(), `the files, ${what}`);
  for (const name of Object.keys(found)) check(found[name] === expected[name], `${name} is not what the command makes, ${what}`);
}

const middle = async (page, pocket) => {
  const { x, y, width, height } = await page.locator(`.bed [data-pocket="${pocket}"]`).first().boundingBox();
  return { x: x + width / 2, y: y + height / 2 };
};
const lies = (page, number, pocket) => page.waitForFunction(([item, there]) =>
  document.querySelector(`.places [data-pocket="${there}"]`)?.textContent.includes(item) && !document.querySelector('#act').hidden, [number, pocket]);
const quiet = async (page) => {
  await page.locator('#act button').last().click();
  await page.waitForSelector('#act', { state: 'hidden' });
};

async function drag(page, from, to) {
  const [start, end] = [await middle(page, from), await middle(page, to)];
  await page.mouse.move(start.x, start.y);
  await page.mouse.down();
  await page.mouse.move(end.x, end.y, { steps: 6 });
  await page.mouse.up();
}

async function dragByFinger(page, from, to) {
  const [start, end] = [await middle(page, from), await middle(page, to)];
  const finger = await page.context().newCDPSession(page);
  const touch = (type, ...touchPoints) => finger.send('Input.dispatchTouchEvent', { type, touchPoints });
  await touch('touchStart', start);
  for (let step = 1; step <= 6; ++step) {
    await touch('touchMove', { x: start.x + ((end.x - start.x) * step) / 6, y: start.y + ((end.y - start.y) * step) / 6 });
  }
  await touch('touchEnd');
}

async function choose(page, pocket, way) {
  await tabTo(page, `#move-${pocket}`);
  await page.keyboard.press('Enter');
  await page.waitForSelector('#move-where');
  await judge(page, 'where an item may go');
  await tabTo(page, '#move-where');
  const chosen = () => page.locator('#move-where').evaluate((select) => select.selectedOptions[0].text);
  for (let i = 0; i < 30 && !(await chosen()).startsWith(way); ++i) await page.keyboard.press('ArrowDown');
  check((await chosen()).startsWith(way), `there is no ${way}`);
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await page.waitForSelector('dialog', { state: 'detached' });
}

export const moveStories = (browser) => ({
  async 'an item moves: by mouse, by finger, by keyboard, and back'() {
    const { folder, copy } = laidTwice('moved');
    const desk = await Desk.open(folder);
    const page = await openPage(browser, desk, { hasTouch: true });
    await goTo(page, desk, 'sheet/sheet-001');
    await page.waitForSelector('svg.bed .hole');
    const first = filesOf(folder);

    await drag(page, 1, 6);
    await lies(page, '2601-1', 6);
    await page.waitForFunction(() => /Put piece S-\d into pocket 6 .*undo/.test(document.querySelector('#say').textContent));
    command(copy, 'move', '2601-1', '--pocket', '6');
    sameFiles(folder, copy, 'after a drag');
    await page.locator('#act button').first().click();  // Undo
    await lies(page, '2601-1', 1);
    check(filesOf(folder)['sheet-001.svg'] === first['sheet-001.svg'], 'undo does not bring the file back');
    command(copy, 'undo', '2601-1');
    await quiet(page);

    await dragByFinger(page, 1, 2);
    await lies(page, '2601-1', 2);
    command(copy, 'move', '2601-1', '--pocket', '2');
    sameFiles(folder, copy, 'after a drag by finger');
    await quiet(page);

    await drag(page, 3, 3);  // no more than a click
    const { x, y } = await middle(page, 3);
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(5, 5, { steps: 4 });
    await page.mouse.up();
    sameFiles(folder, copy, 'after a drag that led nowhere');

    await choose(page, 3, 'pocket 5');
    await lies(page, '2603-1', 5);
    command(copy, 'move', '2603-1', '--pocket', '5');
    sameFiles(folder, copy, 'by keyboard');
    const free = [...command(folder, 'history', 'sheet-001').matchAll(/blank (S-\d)/g)].map(([, piece]) => piece);
    const other = ['S-9', 'S-8', 'S-7', 'S-6'].find((piece) => !free.includes(piece));
    await quiet(page);
    await choose(page, 5, `piece ${other}`);
    await page.waitForFunction((piece) => document.querySelector('.places').textContent.includes(piece), other);
    command(copy, 'move', '2603-1', '--piece', other);
    sameFiles(folder, copy, 'on another piece');
    await quiet(page);
    await choose(page, 5, 'off');
    await page.waitForFunction(() => document.querySelector('.places [data-pocket="5"] [data-state="withdrawn"]'));
    command(copy, 'take-off', '2603-1');
    sameFiles(folder, copy, 'taken off');
    check(command(folder, 'check').includes('The ledger is sound'), 'the ledger is not sound');
    noWrongs(page);
    await page.context().close();
    await desk.close();
  },
});
