// Settings, designs and measured pieces as forms.
import fs from 'node:fs';
import path from 'node:path';
import { Desk, check, goTo, judge, newWorkshop, noWrongs, openPage, patience, same, tabTo } from './desk.mjs';

async function opened(browser, name, more) {
  const folder = newWorkshop(name, more);
  const desk = await Desk.open(folder);
  const page = await openPage(browser, desk);
  const text = (file) => fs.readFileSync(path.join(folder, file), 'utf8');
  const close = async () => {
    noWrongs(page);
    await page.context().close();
    await desk.close();
  };
  return { folder, desk, page, text, close };
}
const saved = (page) => page.waitForSelector('#act:not([hidden])');
const pockets = (page, count) => page.waitForFunction((n) => document.querySelectorAll('svg.bed .pocket').length === n, count);

export const formStories = (browser) => ({
  async 'a gap is changed, its bed is seen, saved, taken back; the comment beside it stays'() {
    const { folder, desk, page, text, close } = await opened(browser, 'settings');
    const before = text('shop.toml');
    await goTo(page, desk, 'settings');
    await pockets(page, 10);
    await page.fill('[id="field-jig.gap"]', '150');
    await pockets(page, 4);
    same(text('shop.toml'), before, 'shop.toml before it is saved');
    await page.click('#save-form');
    await saved(page);
    same(text('shop.toml'), before.replace('gap = 10 ', 'gap = 150 '), 'shop.toml with the gap');
    await page.locator('#act button').first().click();
    await pockets(page, 10);
    same(text('shop.toml'), before, 'shop.toml once it is taken back');

    await page.fill('[id="field-machine.spot"]', '30');  // no beam is as wide
    await page.waitForSelector('[id="field-machine.spot"][aria-invalid=true]');
    check((await page.locator('p:has([id="field-machine.spot"])').textContent()).includes('spot'), 'the fault is not at its field');
    await page.click('#save-form');
    await saved(page);
    same(text('shop.toml'), before, 'shop.toml after a fault');
    await goTo(page, desk, 'today');
    await goTo(page, desk, 'settings');
    same(await page.inputValue('[id="field-machine.spot"]'), '30', 'what was typed and not saved');
    fs.appendFileSync(path.join(folder, 'shop.toml'), '# by hand\n');
    await page.fill('[id="field-machine.spot"]', '0.2');
    await page.waitForSelector('.fault:has-text("changed meanwhile")');
    same(text('shop.toml'), `${before}# by hand\n`, 'shop.toml that was changed by hand');
    await close();
  },

  async 'the words of shop.toml are one click away, and saved where they can be read'() {
    const { desk, page, text, close } = await opened(browser, 'words');
    const before = text('shop.toml');
    await goTo(page, desk, 'settings');
    await pockets(page, 10);
    await page.click('main summary');
    same(await page.inputValue('.source'), before, 'the words shown');
    await page.fill('.source', before.replace('gap = 10 ', 'gap = ten '));
    await page.waitForSelector('.fault:has-text("shop.toml:")');
    await page.fill('.source', before.replace('gap = 10 ', 'gap = 150 '));
    await pockets(page, 4);
    check(await page.locator('[id="field-jig.gap"]').isDisabled(), 'the form is open while the words are written');
    await page.click('#save-form');
    await saved(page);
    same(await page.inputValue('[id="field-jig.gap"]'), '150', 'the form after the words');
    await close();
  },

  async 'a design is copied, and its copy lettered otherwise'() {
    const { desk, page, text, close } = await opened(browser, 'design');
    const before = text('templates/plaque-portrait.toml');
    await goTo(page, desk, 'designs');
    await page.click('a:text-is("plaque-portrait")');
    await page.waitForSelector('svg.plaque path.ink');
    await page.fill('#copy-name', 'gate');
    await page.keyboard.press('Enter');
    await page.waitForSelector('h1:has-text("gate")');
    await page.waitForSelector('svg.plaque path.ink');
    const drawn = await page.innerHTML('.plaque-figure .view');
    await page.fill('#form-words', '27 B');
    await page.waitForFunction((was) => document.querySelector('.plaque-figure .view').innerHTML !== was, drawn);
    const select = page.locator('[id="field-text.font"], [id="field-text[0].font"]').first();
    await select.selectOption('slab');
    await page.click('#save-form');
    await page.waitForSelector('#act:has-text("gate.toml is saved")');
    same(text('templates/plaque-portrait.toml'), before, 'the design that it is a copy of');
    same(text('templates/gate.toml'), before.replace('font = "serif"', 'font = "slab"'), 'the copy');
    await close();
  },

  async 'a piece is measured by keyboard alone, and once more'() {
    const { desk, page, text, close } = await opened(browser, 'measured');
    await goTo(page, desk, 'pieces');
    await tabTo(page, 'main a[href="#/measure"]');
    await page.keyboard.press('Enter');
    await page.waitForSelector('svg.plaque path.piece');
    for (const [field, value] of [['id', 'S-1'], ['width', '138'], ['chips', 'top 40-62']]) {
      await tabTo(page, `[id="field-piece.${field}"]`);
      await page.keyboard.type(value);
    }
    await page.waitForSelector('[id="field-piece.chips"][aria-invalid=true]');
    await page.keyboard.type(' 7');
    await page.waitForSelector('svg.plaque path.chip');
    await page.keyboard.press('Enter');
    await saved(page);
    check(/S-1,138,.*top 40-62 7/.test(text('blanks.csv')), 'the piece is not on the shelf');
    await goTo(page, desk, 'measure/S-1');
    await tabTo(page, '[id="field-piece.width"]');
    await page.keyboard.press('Control+A');
    await page.keyboard.type('137.5');
    await page.keyboard.press('Enter');
    await page.waitForFunction(() => document.querySelector('#act').textContent.includes('anew'), null, { timeout: patience });
    check(/S-1,137.5,.*top 40-62 7/.test(text('blanks.csv')), 'the piece is not measured again');
    await close();
  },

  async 'the forms are good by axe-core, light and dark, narrow and wide, and in Hebrew'() {
    const { folder, desk, page, close } = await opened(browser, 'judged-forms', '[blanks]\nfile = "blanks.csv"\n');
    fs.writeFileSync(path.join(folder, 'blanks.csv'), 'id,width,height\nS-1,,\n');
    const state = await page.context().storageState();
    for (const colorScheme of ['light', 'dark']) {
      for (const width of [360, 1440]) {
        const context = await browser.newContext({ viewport: { width, height: 900 }, colorScheme, storageState: state, reducedMotion: 'reduce' });
        const other = await context.newPage();
        other.setDefaultTimeout(patience);
        for (const route of ['settings', 'design/plaque-landscape', 'design/stand-words', 'measure', 'measure/S-1']) {
          await goTo(other, desk, route);
          await other.waitForSelector('main svg');
          if (route === 'settings') {
            await other.fill('[id="field-machine.spot"]', '30');
            await other.waitForSelector('[aria-invalid=true]');
            await other.click('main summary');
          }
          await judge(other, `${route}, ${colorScheme}, ${width} px`);
        }
        await context.close();
      }
    }
    await page.locator('footer button').last().click();
    await page.waitForSelector('html[dir=rtl]');
    await goTo(page, desk, 'design/plaque-landscape');
    await judge(page, 'a design, in Hebrew');
    await close();
  },
});
