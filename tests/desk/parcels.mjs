// What goes into the parcels: the papers that Today makes are the commands' own, to the byte, and book nothing.
import fs from 'node:fs';
import path from 'node:path';
import { Desk, check, command, emptyPlace, goTo, judge, newWorkshop, noWrongs, openPage, tabTo } from './desk.mjs';

const orders = 'Order,Text,Quantity\n2801,Weir Lane,2\n2802,بيت الورد,1\n';

export const parcelStories = (browser) => ({
  async 'a packing list and labels are made and downloaded from Today, by mouse and by keyboard'() {
    const folder = newWorkshop('parcels');
    fs.writeFileSync(path.join(folder, 'parcels.csv'), orders);
    command(folder, 'day', path.join(folder, 'parcels.csv'), '--date', '2026-11-25');
    command(folder, 'engraved', 'sheet-001');
    const copy = emptyPlace('parcels-by-commands');
    fs.cpSync(folder, copy, { recursive: true });
    for (const paper of ['packing', 'labels']) command(copy, paper);
    const desk = await Desk.open(folder);
    const page = await openPage(browser, desk);
    await goTo(page, desk, '');
    await page.waitForSelector('#packing');
    await judge(page, 'parcels');
    const made = async (paper, act) => {
      const [download] = await Promise.all([page.waitForEvent('download'), act()]);
      check(fs.readFileSync(await download.path()).equals(fs.readFileSync(path.join(copy, `out/packing/${paper}.pdf`))),
        `${paper}.pdf is not what the command makes`);
    };
    await made('packing', () => page.click('#packing'));
    await made('labels', async () => {
      await tabTo(page, '#labels');
      await page.keyboard.press('Enter');
    });
    check(command(folder, 'list', '--state', 'engraved').includes('2801-1'), 'something was booked');
    noWrongs(page);
    await page.context().close();
    await desk.close();
  },
});
