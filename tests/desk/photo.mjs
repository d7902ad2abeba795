// From a photograph to a row of blanks.csv, by mouse and by keyboard. Run by ctest: photo.mjs PROGRAM PROJECT PLACE PHOTOGRAPH,
// the last being the program that writes one of a piece of 150 × 100 mm whose upper right corner is cut by 30 × 20.
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { Desk, check, emptyPlace, goTo, judge, newWorkshop, noWrongs, openBrowser, openPage, patience, same, tabTo } from './desk.mjs';

const known = [[0, 0], [150, 0], [150, 80], [120, 100], [0, 100]];
const near = 0.5;  // mm: what is promised of a photograph
const jpeg = path.join(emptyPlace('photograph'), 'IMG_1.jpg');
same(spawnSync(process.argv[5], [jpeg]).status, 0, 'the photograph is written');
const browser = await openBrowser();

async function openMeasured(name) {
  const folder = newWorkshop(name, '[blanks]\nfile = "blanks.csv"\n');
  fs.writeFileSync(path.join(folder, 'blanks.csv'), 'id;note\r\nS-1;"as it ""came"""\r\n');
  const desk = await Desk.open(folder);
  const page = await openPage(browser, desk);
  await goTo(page, desk, 'pieces');
  return { folder, desk, page };
}
const rowsOf = (folder) => fs.readFileSync(path.join(folder, 'blanks.csv'), 'utf8');
const cornersIn = (row) => row.match(/"([\d., ]+)"/)[1].split(' ').map((corner) => corner.split(',').map(Number));

/// Each side of the known piece is one of the row's, within half a millimetre.
function checkSides(row) {
  const sidesOf = (corners) => corners.map(([x, y], at) => Math.hypot(corners[(at + 1) % corners.length][0] - x, corners[(at + 1) % corners.length][1] - y));
  const sides = sidesOf(cornersIn(row));
  same(sides.length, known.length, `corners of ${row}`);
  for (const side of sidesOf(known)) check(sides.some((one) => Math.abs(one - side) < near), `no side of ${row} measures ${side}`);
}

const settled = (page) => page.waitForSelector('form.mend-form svg.plaque');
const label = (page, at) => page.getAttribute(`svg.photo circle >> nth=${at}`, 'aria-label');
const placeIn = (text) => text.match(/[\d.]+(?=[, ]|$)/g).slice(-2).map(Number);

const stories = {
  async 'a photograph becomes a piece, by mouse'() {
    const { folder, desk, page } = await openMeasured('photo-by-mouse');
    const before = rowsOf(folder);
    await page.click('a[href="#/photo"]');
    await page.waitForSelector('#photo');
    await judge(page, 'the page of photographs');
    const [card] = await Promise.all([page.waitForEvent('download'), page.click('a[href*="paper=a4"]')]);
    same(fs.readFileSync(await card.path()).subarray(0, 5).toString(), '%PDF-', 'the card');
    await page.setInputFiles('#photo', { name: 'note.jpg', mimeType: 'image/jpeg', buffer: Buffer.from('no picture') });
    await page.waitForSelector('#act .fault');
    await page.setInputFiles('#photo', jpeg);
    await page.waitForSelector('svg.photo', { timeout: 4 * patience });
    await settled(page);
    await judge(page, 'a photograph with its outline');
    same(await page.evaluate(async () => {
      const picture = new Image();
      picture.src = document.querySelector('svg.photo image').getAttribute('href');
      await picture.decode();
      return picture.naturalWidth;
    }), Number(await page.getAttribute('svg.photo image', 'width')), 'the straightened picture is served');

    const [x, y] = placeIn(await label(page, 0));
    const ring = await page.locator('svg.photo circle').first().boundingBox();
    const scale = await page.evaluate(() => document.querySelector('svg.photo').getScreenCTM().a);
    const middle = [ring.x + ring.width / 2, ring.y + ring.height / 2];
    const drag = async ([fromX, fromY], [toX, toY]) => {
      await page.mouse.move(fromX, fromY);
      await page.mouse.down();
      await page.mouse.move(toX, toY, { steps: 4 });
      await page.mouse.up();
    };
    const away = [middle[0] - 10 * scale, middle[1] - 5 * scale];
    await drag(middle, away);
    const moved = placeIn(await label(page, 0));
    check(Math.hypot(moved[0] - x + 10, moved[1] - y - 5) < 1, `dragged by -10, 5 mm from ${x},${y} it lies at ${moved}`);
    await drag(away, middle);

    await page.click('#photo-add_round');
    await page.fill('#spot-n', 'nail hole');
    await page.fill('#spot-w', '8');
    await page.click('#photo-add_chip');
    await page.click('#photo-take');
    await page.fill('#piece-thickness', '6');
    await page.fill('#piece-note', 'found; in the yard');
    await page.waitForFunction(() => document.querySelectorAll('form.mend-form svg.plaque .kept').length === 1 && !document.querySelector('form.mend-form .chip'));
    same(await page.inputValue('#piece-id'), 'S-2', 'the id that is proposed');
    await page.click('#add-piece');
    await page.waitForSelector('#act:not([hidden]):not(:has(.fault))');  // the fault of before is gone
    const row = rowsOf(folder).trimEnd().split('\r\n').at(-1);
    check(rowsOf(folder).startsWith('id;note;thickness;keep_clear;outline\r\nS-1;"as it ""came""";;;\r\n'), `other rows changed: ${rowsOf(folder)}`);
    check(row.startsWith('S-2;"found; in the yard";6;nail hole round '), `the row is ${row}`);
    checkSides(row);
    await judge(page, 'the pieces with the new one');
    await page.locator('#act button').first().click();
    await page.waitForFunction(() => document.querySelectorAll('.pieces > li').length === 1);
    check(!rowsOf(folder).includes('S-2') && before.includes('S-1'), 'the act was not taken back');
    noWrongs(page);
    await page.context().close();
    await desk.close();
  },

  async 'the same by keyboard alone, and in Hebrew, on a narrow screen'() {
    const { folder, desk, page } = await openMeasured('photo-by-keyboard');
    await page.setViewportSize({ width: 360, height: 740 });
    await page.evaluate(() => localStorage.setItem('desk-language', 'he'));
    await page.reload();
    await page.waitForSelector('a[href="#/photo"]');
    await tabTo(page, 'a[href="#/photo"]');
    await page.keyboard.press('Enter');
    await page.waitForSelector('#photo');
    const [chooser] = await Promise.all([page.waitForEvent('filechooser'), tabTo(page, '#photo').then(() => page.keyboard.press('Enter'))]);
    await chooser.setFiles(jpeg);
    await page.waitForSelector('svg.photo', { timeout: 4 * patience });
    await settled(page);
    await judge(page, 'a photograph in Hebrew, 360 px wide');
    await tabTo(page, 'svg.photo circle');
    const place = () => page.evaluate(() => [document.querySelector('#spot-x').value, document.querySelector('#spot-y').value].map(Number));
    const [x, y] = await place();
    for (const key of ['ArrowLeft', 'ArrowUp', 'Shift+ArrowUp']) await page.keyboard.press(key);
    const moved = await place();
    check(Math.hypot(moved[0] - x + 0.5, moved[1] - y - 0.6) < 0.001, `by keys it went from ${x},${y} to ${moved}`);
    for (const key of ['ArrowRight', 'ArrowDown', 'Shift+ArrowDown']) await page.keyboard.press(key);
    await tabTo(page, '#photo-add_corner');
    await page.keyboard.press('Enter');
    await page.waitForFunction(() => document.querySelectorAll('svg.photo circle').length === 6);
    await tabTo(page, '#photo-take');
    await page.keyboard.press('Enter');
    await page.waitForFunction(() => document.querySelectorAll('svg.photo circle').length === 5);
    await tabTo(page, '#add-piece');
    await page.keyboard.press('Enter');
    await page.waitForSelector('#act:not([hidden])');
    checkSides(rowsOf(folder).trimEnd().split('\r\n').at(-1));
    noWrongs(page);
    await page.context().close();
    await desk.close();
  },
};

let red = 0;
for (const [name, story] of Object.entries(stories)) {
  try {
    await story();
    console.log(`${name}: as it should`);
  } catch (error) {
    red = 1;
    console.error(`${name}: ${error.message}`);
  }
}
await browser.close();
process.exit(red);
