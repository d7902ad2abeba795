// In: work that takes its time: sheets, proofs, stands. Out: how far it is, a button that stops it, its account.
import { accountBox, byId, desk, faultBox, faultOf, get, h, madeLink, named, p, post, press, row, said, say, t } from './voice.js';

const place = byId('work');
let watching = false;

const title = (work, part) => t(`work.${part}`, { kind: named('work.kind', work.kind) });
const count = (work) => t('work.count', work);

function showRunning(work) {
  let bar = place.querySelector('progress');
  if (!bar) {
    bar = h('progress', { 'aria-labelledby': 'work-title' });
    place.replaceChildren(h('h2', { id: 'work-title' }, title(work, 'running')), bar, p(),
      press(t`work.stop`, () => post('stop-work', {}), 'on-slate', 'work-stop', t`work.stopping`));
    place.hidden = false;
  }
  if (work.all < 1) return;
  bar.max = work.all;
  bar.value = work.done;
  bar.nextSibling.textContent = count(work);
}

function showEnd(work) {
  const hadFocus = place.contains(document.activeElement) || document.activeElement === document.body;
  const close = () => {
    place.hidden = true;
    byId('main').focus();
  };
  const isDone = !work.fault && !work.stopped;
  const text = title(work, work.stopped ? 'stopped' : isDone ? 'done' : 'failed');
  place.replaceChildren(h('h2', { id: 'work-title', tabindex: -1 }, text),
    row(isDone && work.kind === 'proofs' && proofsLink('on-slate'),
      isDone && work.account?.sheets > 0 && h('a.on-slate', { href: '#/sheets' }, t`work.to_sheets`), h('button.on-slate', { on: { click: close } }, t`act.close`)),
    h('details', { open: true }, h('summary', t`work.account`), h('div.slip', work.fault && (work.stopped ? p(said(work.fault.mend)) : faultBox(work.fault)), accountBox(work.account))));
  place.hidden = false;
  say(`${text} ${(work.account?.told ?? []).slice(0, 3).join('. ')}`);
  if (hadFocus) place.firstChild.focus();
}

/// Looks three times a second how far it is, and says so at each quarter.
async function watch(work) {
  if (watching) return;
  watching = true;
  let quarter = 0;
  try {
    while (work.running) {
      showRunning(work);
      const now = work.all > 0 ? Math.floor((4 * work.done) / work.all) : 0;
      if (now > quarter) say(count(work));
      quarter = Math.max(now, quarter);
      await new Promise((resume) => setTimeout(resume, 330));
      work = await get('work');
    }
    showEnd(work);
  } catch (error) {
    showEnd({ ...work, fault: faultOf(error) });
  } finally {
    watching = false;
  }
  await desk.again();
}

export const proofsLink = (kind) => madeLink('proofs', 'proofs.pdf', t`work.proofs`, kind);

export function watched(work) {
  say(title(work, 'running'));
  watch(work);
}
export const begin = async (path, ask) => watched(await post(path, ask));

/// Work that began before this page was opened.
export async function resumeWatching() {
  const work = await get('work');
  if (work.running) watch(work);
}
